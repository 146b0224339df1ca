# cmake -DOUT=file -DSOURCE=folder -P Identity.cmake: writes, when it changed, which commit is being built. "" where the
# source is no clone.
cmake_minimum_required(VERSION 3.25)
find_program(GIT git)
set(identity "")
if(GIT AND EXISTS ${SOURCE}/.git)
  execute_process(COMMAND ${GIT} -C ${SOURCE} describe --always --dirty=-changed --abbrev=10 --exclude=*
                  OUTPUT_VARIABLE identity OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET)
endif()
file(CONFIGURE OUTPUT ${OUT} CONTENT
"#include \"cli/build_identity.h\"

namespace shimwright::cli {
const char* build_identity() {
  return \"@identity@\";
}
}  // namespace shimwright::cli
" @ONLY)

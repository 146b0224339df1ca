# sw_embed(TARGET NAMESPACE file...): puts each file into TARGET as read-only bytes. Declares, in
# "<NAMESPACE>_assets.h", `std::span<const unsigned char> shimwright::<NAMESPACE>::asset(std::string_view name)`.
# The assembler's .incbin costs nothing in compile time, which an array of bytes would.

function(sw_embed target namespace)
  set(dir ${CMAKE_CURRENT_BINARY_DIR}/embed_${namespace})
  file(MAKE_DIRECTORY ${dir})
  set(asm ".section .rodata\n")
  set(externs "")
  set(rows "")
  set(paths "")
  set(n 0)
  foreach(file IN LISTS ARGN)
    get_filename_component(name ${file} NAME)
    get_filename_component(path ${file} ABSOLUTE)
    list(APPEND paths ${path})
    string(APPEND asm ".balign 16\n.global sw_${namespace}_${n}\n.global sw_${namespace}_${n}_end\n"
                      "sw_${namespace}_${n}:\n.incbin \"${path}\"\nsw_${namespace}_${n}_end:\n")
    string(APPEND externs "extern \"C\" const unsigned char sw_${namespace}_${n}[], sw_${namespace}_${n}_end[];\n")
    string(APPEND rows "  if (name == \"${name}\") return {sw_${namespace}_${n}, sw_${namespace}_${n}_end};\n")
    math(EXPR n "${n} + 1")
  endforeach()
  string(APPEND asm ".section .note.GNU-stack,\"\",@progbits\n")
  file(CONFIGURE OUTPUT ${dir}/${namespace}_assets.S CONTENT "${asm}" @ONLY)
  file(CONFIGURE OUTPUT ${dir}/${namespace}_assets.h @ONLY CONTENT
"#pragma once
#include <span>
#include <string_view>

namespace shimwright::${namespace} {
/// The bytes of an embedded file, or an empty span when there is none of that name.
std::span<const unsigned char> asset(std::string_view name);
}  // namespace shimwright::${namespace}
")
  file(CONFIGURE OUTPUT ${dir}/${namespace}_assets.cc @ONLY CONTENT
"#include \"${namespace}_assets.h\"
${externs}
namespace shimwright::${namespace} {
std::span<const unsigned char> asset(std::string_view name) {
${rows}  return {};
}
}  // namespace shimwright::${namespace}
")
  set_source_files_properties(${dir}/${namespace}_assets.S PROPERTIES OBJECT_DEPENDS "${paths}")
  target_sources(${target} PRIVATE ${dir}/${namespace}_assets.S ${dir}/${namespace}_assets.cc)
  target_include_directories(${target} PRIVATE ${dir})
endfunction()

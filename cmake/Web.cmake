# sw_web(TARGET): the page of web/ as a library that defines server::page_assets() (src/server/assets.h). npm ci runs
# when the lock file is newer than what lies in web/node_modules, the build when a source is, and only the program
# itself is linked to it: no test of a module needs Node.js. Without SHIMWRIGHT_WEB the table is empty.

function(sw_web target)
  set(dir ${CMAKE_CURRENT_BINARY_DIR}/web)
  file(MAKE_DIRECTORY ${dir})
  if(NOT SHIMWRIGHT_WEB)
    file(CONFIGURE OUTPUT ${dir}/no_page.cc @ONLY CONTENT
"#include \"server/assets.h\"
std::span<const shimwright::server::Asset> shimwright::server::page_assets() { return {}; }
")
    add_library(${target} STATIC ${dir}/no_page.cc)
    target_link_libraries(${target} PRIVATE sw_flags)
    return()
  endif()

  find_program(NPM npm REQUIRED)
  set(web ${CMAKE_CURRENT_SOURCE_DIR}/web)
  set(failed "{ echo 'The page is built with packages of the npm registry, and they could not be fetched. Connect to the network and build again, or build without the page: -DSHIMWRIGHT_WEB=OFF' >&2; exit 1; }")
  set(fetch "${NPM} ci --no-audit --no-fund --loglevel=error")
  # a third of them builds the page; with the tests the rest comes too, and serves both
  set(all ${web}/node_modules/.all)
  if(SHIMWRIGHT_TESTS)
    set(installed ${all})
    set(fetch "${fetch} || ${failed}")
  else()
    set(installed ${web}/node_modules/.page)
    set(fetch "test ${all} -nt package-lock.json || ${fetch} --omit=dev || ${failed}")
  endif()
  add_custom_command(OUTPUT ${installed} DEPENDS ${web}/package-lock.json
    COMMAND sh -c "${fetch}"
    COMMAND ${CMAKE_COMMAND} -E touch ${installed}
    WORKING_DIRECTORY ${web} COMMENT "Fetching what the page is built with" VERBATIM)

  file(GLOB_RECURSE sources CONFIGURE_DEPENDS ${web}/src/*.ts ${web}/src/*.svelte ${web}/src/*.css ${web}/src/*.woff2
       ${web}/public/*)
  list(FILTER sources EXCLUDE REGEX "\\.test\\.ts$")
  list(APPEND sources ${web}/index.html ${web}/vite.config.ts ${web}/svelte.config.js ${web}/tsconfig.json)
  add_custom_command(OUTPUT ${dir}/page.S ${dir}/page.cc
    DEPENDS ${installed} ${sources} ${CMAKE_CURRENT_SOURCE_DIR}/cmake/WebEmbed.cmake
    COMMAND ${NPM} run --silent build -- --outDir ${dir}/dist --emptyOutDir --logLevel warn
    COMMAND ${CMAKE_COMMAND} -DDIST=${dir}/dist -DOUT=${dir} -P ${CMAKE_CURRENT_SOURCE_DIR}/cmake/WebEmbed.cmake
    WORKING_DIRECTORY ${web} COMMENT "Building the page" VERBATIM)
  # page.S holds the files by .incbin, and is written anew whenever they are
  add_library(${target} STATIC ${dir}/page.cc ${dir}/page.S)
  target_link_libraries(${target} PRIVATE sw_flags)
endfunction()

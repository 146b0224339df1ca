# sw_module(NAME [NUMBERS] [DEPS modules...] [LIBS targets...] [TEST_LIBS targets...]): src/NAME/*.cc becomes the library
# sw_NAME, and src/NAME/*_test.cc the one test program NAME_tests, which alone sees TEST_LIBS (the oracles of a
# test). With CMAKE_UNITY_BUILD a module compiles twenty files at a time, and its tests ten, which saves half: so a name in an
# anonymous namespace is one in its module. NUMBERS: it computes, and is optimised a little under the sanitizers too, whose tests would wait for it most
# of their time. Third-party headers come in as system headers.

add_library(sw_flags INTERFACE)
target_include_directories(sw_flags INTERFACE ${CMAKE_CURRENT_SOURCE_DIR}/src)
target_link_libraries(sw_flags INTERFACE fmt::fmt)
target_compile_definitions(sw_flags INTERFACE EIGEN_MPL2_ONLY)
target_compile_options(sw_flags INTERFACE -pthread  # as the libraries for pages ask: one set of flags for all that is read once
                                          -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wno-sign-conversion
                                          -Wno-missing-field-initializers  # {.named = fields} leave the rest at their defaults
                                          # g++ 12 sees overlaps and overruns in std::string + that are not there (gcc bug 105651)
                                          $<$<CXX_COMPILER_ID:GNU>:-Wno-restrict -Wno-array-bounds>
                                          $<$<BOOL:${SHIMWRIGHT_WERROR}>:-Werror>)

# sw_read_once(NAME LIBS targets... OPTIONS flags... HEADERS headers...): the headers that nearly every file reads, compiled
# once; a target takes them by REUSE_FROM when it has the same flags. Each file still includes what it uses: tools/check_includes
# looks for what is missing, and the fuzz build does without.
function(sw_read_once name)
  cmake_parse_arguments(arg "" "" "LIBS;OPTIONS;HEADERS" ${ARGN})
  file(WRITE ${CMAKE_CURRENT_BINARY_DIR}/${name}.cc "")
  add_library(${name} OBJECT ${CMAKE_CURRENT_BINARY_DIR}/${name}.cc)
  target_link_libraries(${name} PRIVATE sw_flags ${arg_LIBS})
  target_compile_options(${name} PRIVATE ${arg_OPTIONS})
  target_precompile_headers(${name} PRIVATE ${arg_HEADERS})
endfunction()

set(sw_std_headers <algorithm> <array> <cmath> <cstdint> <filesystem> <functional> <map> <memory> <optional> <span> <string>
                   <string_view> <utility> <variant> <vector>)
if(SHIMWRIGHT_PCH)
  sw_read_once(sw_words OPTIONS $<$<CONFIG:Release>:-O1> HEADERS ${sw_std_headers} <fmt/core.h>)
  sw_read_once(sw_numbers LIBS Eigen3::Eigen OPTIONS $<$<CONFIG:Debug>:-O1> HEADERS ${sw_std_headers} <Eigen/Core>)
  if(SHIMWRIGHT_TESTS)
    sw_read_once(sw_tests LIBS GTest::gmock GTest::gtest rapidcheck OPTIONS $<$<CONFIG:Release>:-O1>
                 HEADERS ${sw_std_headers} <fmt/core.h> <gmock/gmock.h>)
  endif()
endif()

# Takes the headers of `once`, where they are built.
function(sw_reuse target once)
  if(SHIMWRIGHT_PCH)
    target_precompile_headers(${target} REUSE_FROM ${once})
  endif()
endfunction()

function(sw_module name)
  cmake_parse_arguments(arg "NUMBERS" "" "DEPS;LIBS;TEST_LIBS" ${ARGN})
  set(dir ${CMAKE_CURRENT_SOURCE_DIR}/src/${name})
  file(GLOB sources CONFIGURE_DEPENDS ${dir}/*.cc)
  set(tests ${sources})
  list(FILTER tests INCLUDE REGEX "_test\\.cc$")
  list(FILTER sources EXCLUDE REGEX "(_test|/main)\\.cc$")
  list(TRANSFORM arg_DEPS PREPEND sw_)

  if(sources)
    add_library(sw_${name} STATIC ${sources})
    target_link_libraries(sw_${name} PUBLIC sw_flags ${arg_DEPS} ${arg_LIBS})
    if(arg_NUMBERS)
      target_compile_options(sw_${name} PRIVATE $<$<CONFIG:Debug>:-O1>)
      sw_reuse(sw_${name} sw_numbers)
    else()
      target_compile_options(sw_${name} PRIVATE $<$<CONFIG:Release>:-O1>)
      sw_reuse(sw_${name} sw_words)
    endif()
  else()
    add_library(sw_${name} INTERFACE)
    target_link_libraries(sw_${name} INTERFACE sw_flags ${arg_DEPS} ${arg_LIBS})
  endif()

  if(SHIMWRIGHT_TESTS AND tests AND NOT name IN_LIST SHIMWRIGHT_TESTED_ELSEWHERE)
    add_executable(${name}_tests ${tests})
    target_link_libraries(${name}_tests PRIVATE sw_${name} ${arg_TEST_LIBS} GTest::gmock GTest::gtest_main rapidcheck)
    target_compile_definitions(${name}_tests PRIVATE SW_SOURCE_DIR="${CMAKE_CURRENT_SOURCE_DIR}")
    # a test waits for the compiler longer than it runs; what it tests is built as it is shipped
    target_compile_options(${name}_tests PRIVATE $<$<CONFIG:Release>:-O1>
                           $<$<CXX_COMPILER_ID:GNU>:-Wno-stringop-overflow>)  # the same bug of g++ 12 as above
    sw_reuse(${name}_tests sw_tests)
    set_target_properties(${name}_tests PROPERTIES UNITY_BUILD_BATCH_SIZE 10)
    # one seed for the property tests: what passes here passes there; a run by hand draws its own
    gtest_discover_tests(${name}_tests DISCOVERY_TIMEOUT 60
                         PROPERTIES LABELS ${name} ENVIRONMENT "RC_PARAMS=seed=20261125")
  endif()
endfunction()

# sw_module(NAME [NUMBERS] [DEPS modules...] [LIBS targets...] [TEST_LIBS targets...]): src/NAME/*.cc becomes the library
# sw_NAME, and src/NAME/*_test.cc the one test program NAME_tests, which alone sees TEST_LIBS (the oracles of a
# test). NUMBERS: it computes, and is optimised a little under the sanitizers too, whose tests would wait for it most
# of their time. Third-party headers come in as system headers.

add_library(sw_flags INTERFACE)
target_include_directories(sw_flags INTERFACE ${CMAKE_CURRENT_SOURCE_DIR}/src)
target_compile_definitions(sw_flags INTERFACE EIGEN_MPL2_ONLY)
target_compile_options(sw_flags INTERFACE -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wno-sign-conversion
                                          -Wno-missing-field-initializers  # {.named = fields} leave the rest at their defaults
                                          $<$<CXX_COMPILER_ID:GNU>:-Wno-restrict>  # g++ 12 sees overlaps in std::string + that are not there (gcc bug 105651)
                                          $<$<BOOL:${SHIMWRIGHT_WERROR}>:-Werror>)

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
    else()
      target_compile_options(sw_${name} PRIVATE $<$<CONFIG:Release>:-O1>)
    endif()
  else()
    add_library(sw_${name} INTERFACE)
    target_link_libraries(sw_${name} INTERFACE sw_flags ${arg_DEPS} ${arg_LIBS})
  endif()

  if(SHIMWRIGHT_TESTS AND tests)
    add_executable(${name}_tests ${tests})
    target_link_libraries(${name}_tests PRIVATE sw_${name} ${arg_TEST_LIBS} GTest::gmock GTest::gtest_main rapidcheck)
    target_compile_definitions(${name}_tests PRIVATE SW_SOURCE_DIR="${CMAKE_CURRENT_SOURCE_DIR}")
    # a test waits for the compiler longer than it runs; what it tests is built as it is shipped
    target_compile_options(${name}_tests PRIVATE $<$<CONFIG:Release>:-O1>)
    # one seed for the property tests: what passes here passes there; a run by hand draws its own
    gtest_discover_tests(${name}_tests DISCOVERY_TIMEOUT 60
                         PROPERTIES LABELS ${name} ENVIRONMENT "RC_PARAMS=seed=20261125")
  endif()
endfunction()

# How every module, executable and test of the project is built.

add_library(stakewright_options INTERFACE)
target_compile_features(stakewright_options INTERFACE cxx_std_20)
target_compile_options(stakewright_options INTERFACE
  -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wdouble-promotion
  # The same sums on every machine: no fused multiply-add behind our back.
  -ffp-contract=off
  $<$<BOOL:${STAKEWRIGHT_ASSERTS}>:-UNDEBUG>
  $<$<BOOL:${STAKEWRIGHT_WARNINGS_ARE_ERRORS}>:-Werror>)
if(STAKEWRIGHT_SANITIZE)
  target_compile_options(stakewright_options INTERFACE
    -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer)
  target_link_options(stakewright_options INTERFACE -fsanitize=address,undefined)
  # Under the sanitizer Eigen would allocate otherwise than inside the Ceres library it is linked with.
  target_compile_definitions(stakewright_options INTERFACE EIGEN_MALLOC_ALREADY_ALIGNED=1)
endif()

# The core computes.  Options, sentences, tables and drawings are made once a command: optimized
# less they compile in two thirds of the time, and nobody waits longer for them.
set(STAKEWRIGHT_CORE base algebra layout readings adjustment suspects placement levels roof check)
set(STAKEWRIGHT_OPTIMIZE_LESS $<$<NOT:$<CONFIG:Debug>>:-O1>)
set(STAKEWRIGHT_OPTIMIZE_TESTS $<$<NOT:$<CONFIG:Debug>>:-O0>)

# stakewright_module(NAME SOURCES ... MAY_INCLUDE other modules ... THIRD_PARTY targets ...)
# One static library a module.  Third-party targets are PRIVATE: they stay out of our headers.
function(stakewright_module name)
  cmake_parse_arguments(arg "" "" "SOURCES;MAY_INCLUDE;THIRD_PARTY" ${ARGN})
  add_library(stakewright_${name} STATIC ${arg_SOURCES})
  add_library(stakewright::${name} ALIAS stakewright_${name})
  target_include_directories(stakewright_${name}
    PUBLIC $<BUILD_INTERFACE:${PROJECT_SOURCE_DIR}/include> $<INSTALL_INTERFACE:${CMAKE_INSTALL_INCLUDEDIR}>
    PRIVATE ${CMAKE_CURRENT_SOURCE_DIR})
  set(modules ${arg_MAY_INCLUDE})
  list(TRANSFORM modules PREPEND stakewright::)
  target_link_libraries(stakewright_${name}
    PUBLIC ${modules}
    PRIVATE $<BUILD_INTERFACE:stakewright_options> fmt::fmt ${arg_THIRD_PARTY})
  target_compile_features(stakewright_${name} PUBLIC cxx_std_20)
  if(NOT name IN_LIST STAKEWRIGHT_CORE)
    target_compile_options(stakewright_${name} PRIVATE ${STAKEWRIGHT_OPTIMIZE_LESS})
  endif()
endfunction()

# stakewright_test(NAME SOURCES ... LINKS ...)  One test program a folder of tests.
function(stakewright_test name)
  cmake_parse_arguments(arg "" "" "SOURCES;LINKS" ${ARGN})
  add_executable(test_${name} ${arg_SOURCES})
  target_include_directories(test_${name} PRIVATE ${CMAKE_CURRENT_SOURCE_DIR} ${PROJECT_SOURCE_DIR}/tests)
  # What is refused, and why, is told in English: tests/refusal.hpp.
  target_link_libraries(test_${name} PRIVATE stakewright_options fmt::fmt ${arg_LINKS} stakewright::wording
    GTest::gmock_main)
  target_compile_options(test_${name} PRIVATE ${STAKEWRIGHT_OPTIMIZE_TESTS})
  gtest_discover_tests(test_${name} TEST_PREFIX "${name}/" DISCOVERY_TIMEOUT 60)
endfunction()

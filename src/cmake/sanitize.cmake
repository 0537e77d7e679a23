# Initial cache of a sanitizer build: cmake -C src/cmake/sanitize.cmake …
set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "")
set(STAKEWRIGHT_SANITIZE ON CACHE BOOL "")
set(STAKEWRIGHT_TESTS ON CACHE BOOL "")

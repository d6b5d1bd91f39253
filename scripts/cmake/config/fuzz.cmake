# SPDX-License-Identifier: Apache-2.0
# For scripts/fuzz. Light optimisation: the sanitizers leave little to be gained by more.
set(CMAKE_CXX_COMPILER clang++-16 CACHE STRING "")
set(CMAKE_CXX_FLAGS_RELEASE "-O1" CACHE STRING "")
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(TIDELOT_FUZZ ON CACHE BOOL "")
set(TIDELOT_TESTS OFF CACHE BOOL "")

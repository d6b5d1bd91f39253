# SPDX-License-Identifier: Apache-2.0
# The program as it is released, and for every processor that it can run on: memcheck knows AVX2 and
# nothing newer, says so to the program, and so runs the kernels that were compiled for that.
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(TIDELOT_TESTS OFF CACHE BOOL "")

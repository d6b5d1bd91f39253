# SPDX-License-Identifier: Apache-2.0
# No optimisation: a line that the compiler moved or dropped cannot be counted. Threads count with
# atomic additions, else some are lost.
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS_DEBUG "-O0 -g1 --coverage -fprofile-update=atomic" CACHE STRING "")
set(TIDELOT_PATIENCE 10 CACHE STRING "")

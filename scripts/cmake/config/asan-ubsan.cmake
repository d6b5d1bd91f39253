# SPDX-License-Identifier: Apache-2.0
# Light optimisation builds faster, and inlines less out of sight of the reports. A number that does
# not fit into the integer it is made into is no part of "undefined", but of these rules.
set(CMAKE_CXX_FLAGS_RELWITHDEBINFO "-O1 -g1" CACHE STRING "")
set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "")
set(TIDELOT_SANITIZE "address,undefined,float-cast-overflow" CACHE STRING "")
set(TIDELOT_MPI ON CACHE BOOL "")
set(TIDELOT_PATIENCE 10 CACHE STRING "")

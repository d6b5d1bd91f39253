# SPDX-License-Identifier: Apache-2.0
# For scripts/fuzz --bare: what is set here stays as it is where fuzz.cmake sets it again.
set(CMAKE_CXX_FLAGS_RELEASE "-O2" CACHE STRING "")
set(TIDELOT_FUZZ_SANITIZE "" CACHE STRING "")
include(${CMAKE_CURRENT_LIST_DIR}/fuzz.cmake)

# SPDX-License-Identifier: Apache-2.0
set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "")
set(TIDELOT_SANITIZE "address,undefined" CACHE STRING "")

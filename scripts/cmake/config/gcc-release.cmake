# SPDX-License-Identifier: Apache-2.0
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(TIDELOT_WERROR ON CACHE BOOL "")
# A source must compile with its own includes alone.
set(CMAKE_DISABLE_PRECOMPILE_HEADERS ON CACHE BOOL "")

# SPDX-License-Identifier: Apache-2.0
# find_package(tidelot): the targets tidelot::core to tidelot::run. The libraries are static, so the
# user links what they were built with.
include(CMakeFindDependencyMacro)
find_dependency(Threads)
find_dependency(Boost)
find_dependency(fmt)
find_dependency(tomlplusplus)
find_dependency(nlohmann_json)
find_dependency(hwy)
find_dependency(GDAL CONFIG)
find_dependency(PROJ CONFIG)
find_dependency(OpenSSL COMPONENTS Crypto)
find_dependency(PNG)
include("${CMAKE_CURRENT_LIST_DIR}/tidelot-targets.cmake")

# SPDX-License-Identifier: Apache-2.0
# What most files include, compiled once. It spares half of the time of a build and changes nothing
# else: with -DCMAKE_DISABLE_PRECOMPILE_HEADERS=ON every file is compiled with its own includes alone.
set(TIDELOT_COMMON_HEADERS <algorithm> <array> <cmath> <cstdint> <filesystem> <fstream> <functional>
    <limits> <map> <memory> <numbers> <numeric> <optional> <random> <set> <span> <stdexcept> <string>
    <string_view> <tuple> <utility> <variant> <vector> <fmt/format.h> <fmt/ranges.h>)

# tidelot_precompiled(NAME header...): a target whose precompiled headers others use again.
function(tidelot_precompiled name)
  set(source "${CMAKE_BINARY_DIR}/generated/${name}.cpp")
  file(CONFIGURE OUTPUT "${source}" CONTENT "")
  add_library(${name} OBJECT "${source}")
  target_link_libraries(${name} PRIVATE fmt::fmt tidelot::flags)
  target_precompile_headers(${name} PRIVATE ${ARGN})
endfunction()

# tidelot_room(NAME LINKS target... PRIVATE_LINKS target...): the library target of one room, made of
# src/NAME/*.cpp and of the folders in it, known as tidelot::NAME here and to those who install it.
# The compiler flags of a developer stay here.
function(tidelot_room name)
  cmake_parse_arguments(room "" "" "LINKS;PRIVATE_LINKS" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS "${CMAKE_CURRENT_SOURCE_DIR}/src/${name}/*.cpp"
       "${CMAKE_CURRENT_SOURCE_DIR}/src/${name}/*/*.cpp")
  add_library(tidelot_${name} STATIC ${sources})
  add_library(tidelot::${name} ALIAS tidelot_${name})
  target_include_directories(tidelot_${name} PUBLIC "$<BUILD_INTERFACE:${CMAKE_CURRENT_SOURCE_DIR}/include>"
                             PRIVATE "${CMAKE_CURRENT_SOURCE_DIR}/src"
                                     "${CMAKE_BINARY_DIR}/generated")
  target_link_libraries(tidelot_${name} PUBLIC ${room_LINKS} PRIVATE ${room_PRIVATE_LINKS}
                        $<BUILD_INTERFACE:tidelot::flags>)
  target_compile_features(tidelot_${name} PUBLIC cxx_std_20)
  target_precompile_headers(tidelot_${name} REUSE_FROM tidelot_common)
  set_target_properties(tidelot_${name} PROPERTIES EXPORT_NAME ${name})
  install(TARGETS tidelot_${name} EXPORT tidelot-targets ARCHIVE COMPONENT development
          INCLUDES DESTINATION include)
endfunction()

# SPDX-License-Identifier: Apache-2.0
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
  set_target_properties(tidelot_${name} PROPERTIES EXPORT_NAME ${name})
  install(TARGETS tidelot_${name} EXPORT tidelot-targets ARCHIVE COMPONENT development
          INCLUDES DESTINATION include)
endfunction()

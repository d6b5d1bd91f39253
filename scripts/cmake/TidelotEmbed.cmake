# SPDX-License-Identifier: Apache-2.0
# tidelot_embed(FILE): puts a text file into build/generated/<its name>.inc as a raw string, to be
# included where a string is wanted.
function(tidelot_embed path)
  set(source "${CMAKE_CURRENT_SOURCE_DIR}/${path}")
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS "${source}")
  get_filename_component(name "${path}" NAME)
  file(READ "${source}" text)
  file(CONFIGURE OUTPUT "${CMAKE_BINARY_DIR}/generated/${name}.inc"
       CONTENT "R\"page(@text@)page\"" @ONLY)
endfunction()

# SPDX-License-Identifier: Apache-2.0
# Puts every src/plan/profiles/*.toml into build/generated/crop_profiles.inc as {"name", text}, so
# that the program needs no data folder beside it.
file(GLOB profiles CONFIGURE_DEPENDS "${CMAKE_CURRENT_SOURCE_DIR}/src/plan/profiles/*.toml")
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${profiles})
set(entries "")
foreach(profile IN LISTS profiles)
  get_filename_component(stem "${profile}" NAME_WE)
  file(READ "${profile}" text)
  string(APPEND entries "{\"${stem}\", R\"toml(${text})toml\"},\n")
endforeach()
file(CONFIGURE OUTPUT "${CMAKE_BINARY_DIR}/generated/crop_profiles.inc" CONTENT "@entries@" @ONLY)

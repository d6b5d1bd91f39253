# SPDX-License-Identifier: Apache-2.0
# What `cmake --install` puts down: the program with its manual pages (where scripts/docs made them),
# completions and samples; the libraries of the rooms, their headers, and a package for
# find_package(tidelot). `cpack -G DEB` makes a Debian package of each of the two. To be included
# after the rooms.
include(GNUInstallDirs)
include(CMakePackageConfigHelpers)

install(TARGETS tidelot_cli RUNTIME DESTINATION "${CMAKE_INSTALL_BINDIR}" COMPONENT runtime)
install(DIRECTORY "${CMAKE_BINARY_DIR}/docs/man/" DESTINATION "${CMAKE_INSTALL_MANDIR}"
        COMPONENT runtime OPTIONAL)
install(DIRECTORY "${CMAKE_BINARY_DIR}/docs/html" DESTINATION "${CMAKE_INSTALL_DOCDIR}"
        COMPONENT runtime OPTIONAL)
install(DIRECTORY data-samples/ DESTINATION "${CMAKE_INSTALL_DOCDIR}/examples" COMPONENT runtime)
install(FILES LICENSE RENAME copyright DESTINATION "${CMAKE_INSTALL_DOCDIR}" COMPONENT runtime)
install(FILES scripts/completions/tidelot.bash RENAME tidelot
        DESTINATION "${CMAKE_INSTALL_DATADIR}/bash-completion/completions" COMPONENT runtime)
install(FILES scripts/completions/_tidelot
        DESTINATION "${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions" COMPONENT runtime)
install(FILES scripts/completions/tidelot.fish
        DESTINATION "${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d" COMPONENT runtime)

set(package_dir "${CMAKE_INSTALL_LIBDIR}/cmake/tidelot")
install(DIRECTORY include/tidelot DESTINATION include COMPONENT development
        FILES_MATCHING PATTERN "*.hpp")
install(EXPORT tidelot-targets NAMESPACE tidelot:: DESTINATION "${package_dir}"
        COMPONENT development)
write_basic_package_version_file("${CMAKE_CURRENT_BINARY_DIR}/tidelot-config-version.cmake"
                                 COMPATIBILITY SameMinorVersion)
install(FILES "${CMAKE_CURRENT_LIST_DIR}/tidelot-config.cmake"
              "${CMAKE_CURRENT_BINARY_DIR}/tidelot-config-version.cmake"
        DESTINATION "${package_dir}" COMPONENT development)

if(PROJECT_IS_TOP_LEVEL)
  set(CPACK_PACKAGE_VENDOR tidelot)
  set(CPACK_PACKAGE_CONTACT "tidelot maintainers <maintainers@tidelot.invalid>")
  set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "${PROJECT_DESCRIPTION}")
  set(CPACK_COMPONENT_RUNTIME_DESCRIPTION
"Takes depth, temperature, salinity, light, nitrogen, current and closed areas,
grows a crop of seaweed day by day in every cell of a map, and ranks sites with
their yield and nitrogen. Planning use: not for navigation, not a survey.")
  set(CPACK_COMPONENT_DEVELOPMENT_DESCRIPTION
"Static libraries of the rooms of tidelot, their headers, and a package for
find_package(tidelot) of CMake.")
  set(CPACK_COMPONENTS_ALL runtime development)
  set(CPACK_COMPONENTS_GROUPING IGNORE)
  set(CPACK_DEB_COMPONENT_INSTALL ON)
  set(CPACK_STRIP_FILES ON)
  set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
  set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
  set(CPACK_DEBIAN_PACKAGE_SECTION science)
  set(CPACK_DEBIAN_RUNTIME_PACKAGE_NAME tidelot)
  set(CPACK_DEBIAN_RUNTIME_PACKAGE_SHLIBDEPS ON)
  set(CPACK_DEBIAN_RUNTIME_PACKAGE_DEPENDS proj-data)
  set(CPACK_DEBIAN_RUNTIME_PACKAGE_SUGGESTS chromium)
  set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME libtidelot-dev)
  set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
  set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS
      "libgdal-dev, libproj-dev, libboost-dev, libtomlplusplus-dev, libfmt-dev, nlohmann-json3-dev, libhwy-dev, libssl-dev, libpng-dev, libhdf5-dev")
  include(CPack)
endif()

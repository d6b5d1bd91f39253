# SPDX-License-Identifier: Apache-2.0
# What `cmake --install` puts down: the program, the libraries of the rooms, their headers, and a
# package for find_package(tidelot). To be included after the rooms.
include(GNUInstallDirs)
include(CMakePackageConfigHelpers)

set(package_dir "${CMAKE_INSTALL_LIBDIR}/cmake/tidelot")
install(TARGETS tidelot_cli RUNTIME DESTINATION "${CMAKE_INSTALL_BINDIR}")
install(DIRECTORY include/tidelot DESTINATION include FILES_MATCHING PATTERN "*.hpp")
install(EXPORT tidelot-targets NAMESPACE tidelot:: DESTINATION "${package_dir}")
write_basic_package_version_file("${CMAKE_CURRENT_BINARY_DIR}/tidelot-config-version.cmake"
                                 COMPATIBILITY SameMinorVersion)
install(FILES "${CMAKE_CURRENT_LIST_DIR}/tidelot-config.cmake"
              "${CMAKE_CURRENT_BINARY_DIR}/tidelot-config-version.cmake"
        DESTINATION "${package_dir}")

# The commands, the library, and a package config so that others can build on it.
include(CMakePackageConfigHelpers)

set(core base algebra layout readings adjustment suspects placement levels roof check job results
  wording told output)
list(TRANSFORM core PREPEND stakewright_ OUTPUT_VARIABLE core_targets)
foreach(module IN LISTS core)
  set_target_properties(stakewright_${module} PROPERTIES EXPORT_NAME ${module})
  install(DIRECTORY include/stakewright/${module} DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/stakewright)
endforeach()
install(TARGETS ${core_targets} EXPORT stakewright ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR})

install(TARGETS stakewright RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
install(TARGETS stakewright-draw RUNTIME DESTINATION ${CMAKE_INSTALL_LIBEXECDIR}/stakewright)

set(package ${CMAKE_INSTALL_LIBDIR}/cmake/stakewright)
install(EXPORT stakewright NAMESPACE stakewright:: FILE stakewrightTargets.cmake DESTINATION ${package})
configure_package_config_file(src/cmake/stakewrightConfig.cmake.in
  ${CMAKE_CURRENT_BINARY_DIR}/stakewrightConfig.cmake INSTALL_DESTINATION ${package})
write_basic_package_version_file(${CMAKE_CURRENT_BINARY_DIR}/stakewrightConfigVersion.cmake
  COMPATIBILITY SameMinorVersion)
install(FILES ${CMAKE_CURRENT_BINARY_DIR}/stakewrightConfig.cmake
              ${CMAKE_CURRENT_BINARY_DIR}/stakewrightConfigVersion.cmake
        DESTINATION ${package})

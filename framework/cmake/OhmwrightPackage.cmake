# What a plugin author finds in an installation: the public headers of core, the package `ohmwright` for find_package, and
# ohmwright_add_plugin.
include(CMakePackageConfigHelpers)

# Headers that only serve sources of core. Everything else of these areas may be included by a plugin, and so must compile
# by itself, which the build proves (ohmwright_core_verify_interface_header_sets).
function(ohmwright_install_package)
  set(private_headers
    quantity/decimal quantity/stated_value_reader quantity/utf8 uncertainty/fit_statistics
    uncertainty/numeric_derivatives uncertainty/shared_error_group uncertainty/shared_source)
  foreach(area quantity uncertainty verdict component)
    file(GLOB headers CONFIGURE_DEPENDS "${CMAKE_CURRENT_SOURCE_DIR}/ohmwright/${area}/*.hpp")
    list(APPEND public_headers ${headers})
  endforeach()
  list(TRANSFORM private_headers REPLACE "(.+)" "${CMAKE_CURRENT_SOURCE_DIR}/ohmwright/\\1.hpp")
  list(REMOVE_ITEM public_headers ${private_headers})
  target_sources(ohmwright_core PUBLIC
    FILE_SET HEADERS BASE_DIRS "${CMAKE_CURRENT_SOURCE_DIR}" FILES ${public_headers})

  set(place "${CMAKE_INSTALL_LIBDIR}/cmake/ohmwright")
  install(TARGETS ohmwright_core EXPORT ohmwright LIBRARY NAMELINK_SKIP FILE_SET HEADERS)
  install(EXPORT ohmwright NAMESPACE ohmwright:: FILE ohmwright-targets.cmake DESTINATION "${place}")
  configure_package_config_file("${CMAKE_CURRENT_SOURCE_DIR}/cmake/ohmwright-config.cmake.in"
    "${CMAKE_CURRENT_BINARY_DIR}/ohmwright-config.cmake" INSTALL_DESTINATION "${place}")
  write_basic_package_version_file("${CMAKE_CURRENT_BINARY_DIR}/ohmwright-config-version.cmake"
    COMPATIBILITY SameMinorVersion)
  install(FILES "${CMAKE_CURRENT_BINARY_DIR}/ohmwright-config.cmake"
                "${CMAKE_CURRENT_BINARY_DIR}/ohmwright-config-version.cmake"
                "${CMAKE_CURRENT_SOURCE_DIR}/cmake/OhmwrightPlugin.cmake" DESTINATION "${place}")
  # Writes the texts of a kind file as a source, for translators (docs/plugin-author.md).
  install(FILES "${CMAKE_CURRENT_SOURCE_DIR}/cmake/kind_file_texts.py" "${CMAKE_CURRENT_SOURCE_DIR}/cmake/json_texts.py" DESTINATION "${CMAKE_INSTALL_DATADIR}/ohmwright")
endfunction()

# Builds a plugin, in this tree and in that of whoever has ohmwright installed:
#
#   ohmwright_add_plugin(fan-motor
#     SOURCES fan_motor.cpp rules.cpp
#     [DATA ratings vectors README.md]       folders and files that lie beside the library, copied and installed with it
#     [SCHEMA ratings.schema.json]           embedded: #include "fan_motor_ratings_schema.hpp" gives
#                                            ohmwright_schemas::fan_motor_ratings_schema, a std::string_view
#     [OUTPUT_FOLDER folder] [NOT_INSTALLED])
#
# The target is called like the plugin. The library exports the stamp and the entry function and nothing else, has no
# undefined symbols, and links ohmwright::core alone. It goes to <build>/lib/ohmwright/plugins/NAME (the folder in which
# a program of the build tree looks) and is installed to lib/ohmwright/plugins/NAME.
#
# A kind without C++ is a file NAME.kind.json in the source folder:
#
#   ohmwright_add_kind_file(thermal-link [DATA ratings vectors README.md] [OUTPUT_FOLDER folder] [NOT_INSTALLED])
#
# It goes where a plugin of that name would go; nothing is compiled.
include_guard(GLOBAL)
include(GNUInstallDirs)

function(ohmwright_add_plugin name)
  cmake_parse_arguments(PARSE_ARGV 1 arg "NOT_INSTALLED" "SCHEMA;OUTPUT_FOLDER" "SOURCES;DATA")
  if(arg_UNPARSED_ARGUMENTS OR NOT arg_SOURCES)
    message(FATAL_ERROR "ohmwright_add_plugin(${name}): it needs SOURCES, and takes DATA, SCHEMA, OUTPUT_FOLDER and "
                        "NOT_INSTALLED; not understood: \"${arg_UNPARSED_ARGUMENTS}\"")
  endif()
  set(place "${CMAKE_INSTALL_LIBDIR}/ohmwright/plugins/${name}")
  set(folder "${CMAKE_BINARY_DIR}/${place}")
  if(arg_OUTPUT_FOLDER)
    set(folder "${arg_OUTPUT_FOLDER}")
  endif()

  add_library(${name} MODULE ${arg_SOURCES})
  target_link_libraries(${name} PRIVATE ohmwright::core)
  if(TARGET ohmwright_build_settings)  # in our own tree: the warnings
    target_link_libraries(${name} PRIVATE ohmwright_build_settings)
  endif()
  # A number must not depend on whether the compiler fuses a multiplication with an addition.
  target_compile_options(${name} PRIVATE -ffp-contract=off)
  file(RELATIVE_PATH way_to_core "/${place}" "/${CMAKE_INSTALL_LIBDIR}")
  set_target_properties(${name} PROPERTIES
    PREFIX "" OUTPUT_NAME "${name}" SUFFIX ".ohmplug" LIBRARY_OUTPUT_DIRECTORY "${folder}"
    CXX_EXTENSIONS OFF CXX_VISIBILITY_PRESET hidden VISIBILITY_INLINES_HIDDEN ON
    INSTALL_RPATH "$ORIGIN/${way_to_core}")
  if(TARGET ohmwright_build_settings AND NOT arg_OUTPUT_FOLDER)  # our build tree has the layout of the installation
    set_target_properties(${name} PROPERTIES BUILD_WITH_INSTALL_RPATH ON)
  endif()
  _ohmwright_export_two_symbols(${name})
  if(arg_SCHEMA)
    _ohmwright_embed_schema(${name} "${arg_SCHEMA}")
  endif()
  _ohmwright_copy_data(${name} "${folder}" "${arg_DATA}")
  if(NOT arg_NOT_INSTALLED)
    _ohmwright_install_plugin(${name} "${place}" "${arg_DATA}")
    set_property(GLOBAL APPEND PROPERTY OHMWRIGHT_PLUGINS ${name})  # a test looks at the exports of each
  endif()
endfunction()

function(ohmwright_add_kind_file name)
  cmake_parse_arguments(PARSE_ARGV 1 arg "NOT_INSTALLED" "OUTPUT_FOLDER" "DATA")
  if(arg_UNPARSED_ARGUMENTS)
    message(FATAL_ERROR "ohmwright_add_kind_file(${name}): it takes DATA, OUTPUT_FOLDER and NOT_INSTALLED; not "
                        "understood: \"${arg_UNPARSED_ARGUMENTS}\"")
  endif()
  set(place "${CMAKE_INSTALL_LIBDIR}/ohmwright/plugins/${name}")
  set(folder "${CMAKE_BINARY_DIR}/${place}")
  if(arg_OUTPUT_FOLDER)
    set(folder "${arg_OUTPUT_FOLDER}")
  endif()
  set(data "${name}.kind.json" ${arg_DATA})
  add_custom_target(${name} ALL)
  _ohmwright_copy_data(${name} "${folder}" "${data}")
  if(NOT arg_NOT_INSTALLED)
    _ohmwright_install_data("${place}" "${data}")
    set_property(GLOBAL APPEND PROPERTY OHMWRIGHT_KIND_FILES ${name})
  endif()
endfunction()

# Two exported symbols, everything bound at once, nothing left undefined.
function(_ohmwright_export_two_symbols name)
  set(script "${CMAKE_CURRENT_BINARY_DIR}/${name}.exports")
  file(CONFIGURE OUTPUT "${script}" @ONLY CONTENT
    "{ global: ohmwright_plugin_stamp; ohmwright_plugin_entry_v2; local: *; };\n")
  set_property(TARGET ${name} APPEND PROPERTY LINK_DEPENDS "${script}")
  target_link_options(${name} PRIVATE "LINKER:--version-script=${script}" "LINKER:-z,now")
  # clang leaves the sanitizers' own functions undefined in a library; the program has them.
  if(NOT (OHMWRIGHT_SANITIZE AND CMAKE_CXX_COMPILER_ID MATCHES "Clang"))
    target_link_options(${name} PRIVATE "LINKER:-z,defs")
  endif()
endfunction()

# A header with the schema as a string constant, made again when the schema changes.
function(_ohmwright_embed_schema name schema)
  cmake_path(ABSOLUTE_PATH schema BASE_DIRECTORY "${CMAKE_CURRENT_SOURCE_DIR}" NORMALIZE)
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS "${schema}")
  file(READ "${schema}" schema_text)
  string(FIND "${schema_text}" ")schema\"" end_of_literal)
  if(NOT end_of_literal EQUAL -1)
    message(FATAL_ERROR "${schema}: it must not contain )schema\", which ends the C++ literal it is put into")
  endif()
  string(MAKE_C_IDENTIFIER "${name}" variable)
  set(header_folder "${CMAKE_CURRENT_BINARY_DIR}/${name}_generated")
  file(CONFIGURE OUTPUT "${header_folder}/${variable}_ratings_schema.hpp" @ONLY CONTENT
[==[#pragma once

#include <string_view>

namespace ohmwright_schemas {

/// JSON Schema of the ratings of @name@, as it stands in its source folder.
inline constexpr std::string_view @variable@_ratings_schema = R"schema(@schema_text@)schema";

}  // namespace ohmwright_schemas
]==])
  target_include_directories(${name} PRIVATE "${header_folder}")
endfunction()

# Copies the data beside the library, again when a file of them changes, comes or goes.
function(_ohmwright_copy_data name folder data)
  if(NOT data)
    return()
  endif()
  set(all_files "")
  set(commands "")
  foreach(entry IN LISTS data)
    cmake_path(ABSOLUTE_PATH entry BASE_DIRECTORY "${CMAKE_CURRENT_SOURCE_DIR}" NORMALIZE OUTPUT_VARIABLE source)
    cmake_path(GET source FILENAME last)
    if(IS_DIRECTORY "${source}")
      file(GLOB_RECURSE files CONFIGURE_DEPENDS "${source}/*")
      list(APPEND commands COMMAND "${CMAKE_COMMAND}" -E rm -rf "${folder}/${last}"
                           COMMAND "${CMAKE_COMMAND}" -E copy_directory "${source}" "${folder}/${last}")
    elseif(EXISTS "${source}")
      set(files "${source}")
      list(APPEND commands COMMAND "${CMAKE_COMMAND}" -E copy "${source}" "${folder}/${last}")
    else()
      message(FATAL_ERROR "ohmwright_add_plugin(${name}): DATA ${entry}: there is no ${source}")
    endif()
    list(APPEND all_files ${files})
  endforeach()
  string(SHA1 list_of_files "${all_files}")  # in the name, so that a file that went away counts as a change
  set(done "${CMAKE_CURRENT_BINARY_DIR}/${name}-data-${list_of_files}")
  add_custom_command(OUTPUT "${done}" ${commands} COMMAND "${CMAKE_COMMAND}" -E touch "${done}"
                     DEPENDS ${all_files} COMMENT "Copying the data of ${name}" VERBATIM)
  add_custom_target(${name}-data ALL DEPENDS "${done}")
  add_dependencies(${name} ${name}-data)
endfunction()

function(_ohmwright_install_plugin name place data)
  install(TARGETS ${name} LIBRARY DESTINATION "${place}")
  _ohmwright_install_data("${place}" "${data}")
endfunction()

function(_ohmwright_install_data place data)
  foreach(entry IN LISTS data)
    cmake_path(ABSOLUTE_PATH entry BASE_DIRECTORY "${CMAKE_CURRENT_SOURCE_DIR}" NORMALIZE OUTPUT_VARIABLE source)
    if(IS_DIRECTORY "${source}")
      install(DIRECTORY "${source}" DESTINATION "${place}")
    else()
      install(FILES "${source}" DESTINATION "${place}")
    endif()
  endforeach()
endfunction()

# `cmake --build BUILD --target texts` collects every text that people read into <build>/texts/*.pot, one for the framework
# and one a plugin, for translators. docs/architecture.md, "Where a change goes", says how texts are marked.
find_program(OHMWRIGHT_XGETTEXT xgettext)
mark_as_advanced(OHMWRIGHT_XGETTEXT)
add_custom_target(texts)

function(ohmwright_collect_texts domain)
  if(NOT OHMWRIGHT_XGETTEXT)
    return()
  endif()
  file(GLOB_RECURSE sources CONFIGURE_DEPENDS ${ARGN})
  add_custom_target(texts_${domain}
    COMMAND "${CMAKE_COMMAND}" -E make_directory "${CMAKE_BINARY_DIR}/texts"
    COMMAND "${OHMWRIGHT_XGETTEXT}" --language=C++ --from-code=UTF-8 --keyword=OHMWRIGHT_TEXT --no-wrap
            --package-name=ohmwright -o "${CMAKE_BINARY_DIR}/texts/${domain}.pot" ${sources}
    VERBATIM)
  add_dependencies(texts texts_${domain})
endfunction()

# The same for a kind without C++: its file's own texts, and those that every kind of a file can say (`sources`).
function(ohmwright_collect_kind_file_texts domain kind_file sources)
  find_package(Python3 QUIET COMPONENTS Interpreter)
  if(NOT OHMWRIGHT_XGETTEXT OR NOT Python3_FOUND)
    return()
  endif()
  set(own "${CMAKE_BINARY_DIR}/texts/${domain}.cpp")
  file(GLOB_RECURSE ours CONFIGURE_DEPENDS ${sources})
  add_custom_target(texts_${domain}
    COMMAND "${CMAKE_COMMAND}" -E make_directory "${CMAKE_BINARY_DIR}/texts"
    COMMAND Python3::Interpreter "${PROJECT_SOURCE_DIR}/framework/cmake/kind_file_texts.py" "${kind_file}" "${own}"
    COMMAND "${OHMWRIGHT_XGETTEXT}" --language=C++ --from-code=UTF-8 --keyword=OHMWRIGHT_TEXT --no-wrap
            --package-name=ohmwright -o "${CMAKE_BINARY_DIR}/texts/${domain}.pot" "${own}" ${ours}
    VERBATIM)
  add_dependencies(texts texts_${domain})
endfunction()

# The same for what people read in shipped appliance files.
function(ohmwright_collect_appliance_texts domain)
  find_package(Python3 QUIET COMPONENTS Interpreter)
  if(NOT OHMWRIGHT_XGETTEXT OR NOT Python3_FOUND)
    return()
  endif()
  file(GLOB appliances CONFIGURE_DEPENDS ${ARGN})
  set(own "${CMAKE_BINARY_DIR}/texts/${domain}.cpp")
  add_custom_target(texts_${domain}
    COMMAND "${CMAKE_COMMAND}" -E make_directory "${CMAKE_BINARY_DIR}/texts"
    COMMAND Python3::Interpreter "${PROJECT_SOURCE_DIR}/framework/cmake/appliance_texts.py" "${own}" ${appliances}
    COMMAND "${OHMWRIGHT_XGETTEXT}" --language=C++ --from-code=UTF-8 --keyword=OHMWRIGHT_TEXT --no-wrap
            --package-name=ohmwright -o "${CMAKE_BINARY_DIR}/texts/${domain}.pot" "${own}"
    VERBATIM)
  add_dependencies(texts texts_${domain})
endfunction()

# The catalogues of a domain, LANGUAGE.po in `folder`, as the build tree and the installation have them:
# `place`/LANGUAGE/LC_MESSAGES/`domain`.mo.
find_program(OHMWRIGHT_MSGFMT msgfmt)
function(ohmwright_compile_catalogues domain folder place)
  file(GLOB catalogues CONFIGURE_DEPENDS "${folder}/*.po")
  if(NOT catalogues OR NOT OHMWRIGHT_MSGFMT)
    return()
  endif()
  foreach(catalogue IN LISTS catalogues)
    cmake_path(GET catalogue STEM language)
    set(compiled "${CMAKE_BINARY_DIR}/${place}/${language}/LC_MESSAGES/${domain}.mo")
    cmake_path(GET compiled PARENT_PATH compiled_folder)
    add_custom_command(OUTPUT "${compiled}"
      COMMAND "${CMAKE_COMMAND}" -E make_directory "${compiled_folder}"
      COMMAND "${OHMWRIGHT_MSGFMT}" --check -o "${compiled}" "${catalogue}"
      DEPENDS "${catalogue}" VERBATIM)
    list(APPEND all_compiled "${compiled}")
    install(FILES "${compiled}" DESTINATION "${place}/${language}/LC_MESSAGES")
  endforeach()
  add_custom_target(catalogues_${domain} ALL DEPENDS ${all_compiled})
endfunction()

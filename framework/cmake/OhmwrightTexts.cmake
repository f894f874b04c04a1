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

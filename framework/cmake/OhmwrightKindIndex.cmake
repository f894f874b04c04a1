# kinds.index.json beside the plugins: what the kinds of our own kind files are called, by the digests of the files, so
# that a start of the program need not parse all of them (ohmwright/plugin/kind_index.hpp).
include_guard(GLOBAL)

# `kind_files`: the files NAME.kind.json that are installed.
function(ohmwright_index_kind_files kind_files)
  set(entries "")
  foreach(file IN LISTS kind_files)
    set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS "${file}")
    file(READ "${file}" text)
    execute_process(COMMAND b2sum --length 256 "${file}" OUTPUT_VARIABLE digest COMMAND_ERROR_IS_FATAL ANY)
    string(SUBSTRING "${digest}" 0 64 digest)
    string(JSON kind ERROR_VARIABLE trouble GET "${text}" kind)
    if(trouble)
      continue() # what is wrong with it the program tells, with line and place
    endif()
    string(JSON aliases ERROR_VARIABLE trouble GET "${text}" aliases)
    if(trouble)
      set(aliases "[]")
    endif()
    list(APPEND entries "  {\"blake2b\": \"${digest}\", \"kind\": \"${kind}\",\n   \"aliases\": ${aliases}}")
  endforeach()
  list(JOIN entries ",\n" entries)
  set(place "${CMAKE_INSTALL_LIBDIR}/ohmwright/plugins")
  file(CONFIGURE OUTPUT "${CMAKE_BINARY_DIR}/${place}/kinds.index.json" CONTENT "{\"kinds\": [\n@entries@\n]}\n" @ONLY)
  install(FILES "${CMAKE_BINARY_DIR}/${place}/kinds.index.json" DESTINATION "${place}")
endfunction()

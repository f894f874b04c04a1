# Builds fixtures and a program with OTHER_COMPILER and crosses them with those of this build, both ways.
# Run as a test: cmake -D… -P other_compiler.cmake
function(run)
  execute_process(COMMAND ${ARGV} RESULT_VARIABLE result)
  if(NOT result EQUAL 0)
    message(FATAL_ERROR "failed: ${ARGV}")
  endif()
endfunction()

if(NOT OTHER_COMPILER)
  message("SKIPPED: there is no second C++ compiler here")
  return()
endif()
run("${CMAKE_COMMAND}" -S "${CMAKE_CURRENT_LIST_DIR}/other_compiler" -B "${WORK_FOLDER}" -G "${GENERATOR}"
    "-DCMAKE_CXX_COMPILER=${OTHER_COMPILER}" "-DCMAKE_CXX_COMPILER_LAUNCHER=${LAUNCHER}" -DCMAKE_BUILD_TYPE=Release
    "-DCORE_LIBRARY=${CORE_LIBRARY}" "-DBOOST_INCLUDE=${BOOST_INCLUDE}")
run("${CMAKE_COMMAND}" --build "${WORK_FOLDER}")
run("${OUR_HOST}" "${WORK_FOLDER}/fixtures")
run("${WORK_FOLDER}/lifetime_host" "${OUR_FIXTURES}")
run("${WORK_FOLDER}/lifetime_host" "${WORK_FOLDER}/fixtures")

# The way of a stranger: install, build a plugin against nothing but the installation, let the installed program judge with
# it. Run as a test: cmake -DBUILD=… -DWORK=… -DGENERATOR=… -DCOMPILER=… -DLAUNCHER=… -P install_and_build.cmake
set(prefix "${WORK}/prefix")
set(build "${WORK}/build")

function(run name expected_code)
  execute_process(COMMAND ${ARGN} RESULT_VARIABLE code OUTPUT_VARIABLE output ERROR_VARIABLE output)
  if(NOT code EQUAL expected_code)
    message(FATAL_ERROR "${name}: ended with ${code}, expected ${expected_code}: ${ARGN}\n${output}")
  endif()
  set(output "${output}" PARENT_SCOPE)
endfunction()

function(expect_in_output text)
  string(FIND "${output}" "${text}" place)
  if(place EQUAL -1)
    message(FATAL_ERROR "\"${text}\" is not in:\n${output}")
  endif()
endfunction()

# Installed in one place and moved to another: nothing in it may remember where it was made.
file(REMOVE_RECURSE "${WORK}")
run(install 0 "${CMAKE_COMMAND}" --install "${BUILD}" --prefix "${WORK}/first")
file(RENAME "${WORK}/first" "${prefix}")

run(configure 0 "${CMAKE_COMMAND}" -S "${CMAKE_CURRENT_LIST_DIR}" -B "${build}" -G "${GENERATOR}"
    "-DCMAKE_PREFIX_PATH=${prefix}" "-DCMAKE_CXX_COMPILER=${COMPILER}" "-DCMAKE_CXX_COMPILER_LAUNCHER=${LAUNCHER}"
    -DCMAKE_BUILD_TYPE=Release "-DCMAKE_CXX_FLAGS=-Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror")
run(build 0 "${CMAKE_COMMAND}" --build "${build}" --parallel 2)

# The program of the prefix with the core of the prefix, whatever the environment of this test says.
unset(ENV{LD_LIBRARY_PATH})
set(ENV{LC_ALL} C.UTF-8)
file(GLOB_RECURSE cores "${prefix}/*/libohmwright_core.so.1")
list(GET cores 0 core)
run(loader 0 "${CMAKE_COMMAND}" -E env LD_TRACE_LOADED_OBJECTS=1 "${prefix}/bin/ohmwright")
string(REGEX MATCH "libohmwright_core.so.1 => ([^ ]+)" ignored "${output}")
file(REAL_PATH "${CMAKE_MATCH_1}" loaded)
file(REAL_PATH "${core}" core)
if(NOT loaded STREQUAL core)
  message(FATAL_ERROR "the installed program takes \"${loaded}\", not \"${core}\"")
endif()

file(GLOB_RECURSE plugins "${build}/*/light-switch.ohmplug")
list(GET plugins 0 plugin)
cmake_path(GET plugin PARENT_PATH plugin_folder)
set(ENV{OHMWRIGHT_PLUGIN_PATH} "${plugin_folder}")
set(ohmwright "${prefix}/bin/ohmwright")
run("own plugins" 0 "${ohmwright}" vectors defrost-sensor)
run("all kinds" 0 "${ohmwright}" kinds)
expect_in_output("defrost-sensor")
expect_in_output("light-switch")
expect_in_output("also called: lamp switch")
run("one kind" 0 "${ohmwright}" kinds "lamp switch")
expect_in_output("closed_contact: Resistance of the contact in its closed position")
run("vectors" 0 "${ohmwright}" vectors light-switch)
expect_in_output("vectors: 6 agree, 0 differ")
run("good" 0 "${ohmwright}" check light-switch closed_contact=0.5ohm open_contact=OL --lead-off --ratings lamp-switch)
expect_in_output("IN SPEC: Light switch, Lamp switch of a cabinet")
run("stuck" 1 "${ohmwright}" check light-switch open_contact=closed --lead-off --ratings lamp-switch)
expect_in_output("the contact is stuck")
# An open circuit behind a good reading is no good part, and a finger on a probe no stuck contact.
run("comes and goes" 1 "${ohmwright}" check light-switch closed_contact=0.5ohm closed_contact=OL open_contact=OL --lead-off
    --ratings lamp-switch)
run("finger" 3 "${ohmwright}" check light-switch open_contact=900k --lead-off --ratings lamp-switch)
expect_in_output("too much for a closed contact, too little for an open one")

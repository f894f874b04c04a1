# Compiler settings shared by everything in this tree.

set(CMAKE_CXX_STANDARD 20)
set(CMAKE_CXX_STANDARD_REQUIRED ON)
set(CMAKE_CXX_EXTENSIONS OFF)
set(CMAKE_POSITION_INDEPENDENT_CODE ON)
set(CMAKE_CXX_VISIBILITY_PRESET hidden)
set(CMAKE_VISIBILITY_INLINES_HIDDEN ON)
set(CMAKE_EXPORT_COMPILE_COMMANDS ON)

if(NOT CMAKE_BUILD_TYPE AND NOT CMAKE_CONFIGURATION_TYPES)
  set(CMAKE_BUILD_TYPE Release CACHE STRING "Build type" FORCE)
endif()

# Warnings, and the rule that a number does not depend on the compiler: no fused multiply-add behind our back.
add_library(ohmwright_build_settings INTERFACE)
target_compile_options(ohmwright_build_settings INTERFACE
  -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror -ffp-contract=off)

# What runs once a call, in a release; the rest is optimised as CMAKE_CXX_FLAGS_RELEASE says. At -O1 g++ 12 believes that
# an optional is read before it is asked whether it holds anything.
add_library(ohmwright_once_a_call INTERFACE)
target_compile_options(ohmwright_once_a_call INTERFACE
  $<$<CONFIG:Release>:-O1> $<$<AND:$<CONFIG:Release>,$<CXX_COMPILER_ID:GNU>>:-Wno-maybe-uninitialized>)

# At -Og g++ 12 believes that boost::container::static_vector reads what it never wrote; at -O2, where the release and its
# tests are built, the warning is on and right.
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU" AND CMAKE_BUILD_TYPE STREQUAL "Debug")
  target_compile_options(ohmwright_build_settings INTERFACE -Wno-maybe-uninitialized)
endif()

# Where sources are read in groups (CMAKE_UNITY_BUILD), what a class keeps behind a pointer is not in the main file, and
# g++ warns that its types are unnamed; each source alone, in the dev preset, keeps the warning.
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU" AND CMAKE_UNITY_BUILD)
  target_compile_options(ohmwright_build_settings INTERFACE -Wno-subobject-linkage)
endif()

option(OHMWRIGHT_SANITIZE "Build with AddressSanitizer and UndefinedBehaviorSanitizer" OFF)
if(OHMWRIGHT_SANITIZE)
  # -O1: at -O0 the unit types cost 15 times the plain numbers, at -O1 nothing.
  add_compile_options(-fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer)
  add_link_options(-fsanitize=address,undefined)
  add_compile_definitions(OHMWRIGHT_SANITIZED)  # what a sanitizer does itself: memory, signals
endif()

# What the fuzz targets reach counts its branches, so that libFuzzer sees where an input went.
if(OHMWRIGHT_BUILD_FUZZERS)
  add_compile_options(-fsanitize=fuzzer-no-link)
endif()

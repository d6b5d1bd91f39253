# SPDX-License-Identifier: Apache-2.0
# Compiler flags as targets; nothing is set globally but the build type's default.
if(NOT CMAKE_BUILD_TYPE AND NOT CMAKE_CONFIGURATION_TYPES)
  set(CMAKE_BUILD_TYPE Release CACHE STRING "" FORCE)
endif()

add_library(tidelot_flags INTERFACE)
add_library(tidelot::flags ALIAS tidelot_flags)
target_compile_features(tidelot_flags INTERFACE cxx_std_20)
# -ffp-contract=off: a fused multiply-add rounds once where two instructions round twice; which of
# them the compiler fuses changes with its version. The kernel says itself where it fuses
# (growth/vector_math.hpp). -ffast-math is never set: it makes isnan() false,
# and NaN is how the engine says "not known".
target_compile_options(tidelot_flags INTERFACE -ffp-contract=off)
# GCC 12 sees overlaps, lengths and bounds in "a" + string that are not there (its bug 105651); from
# precompiled headers it tells them of the library's own lines, too. The sanitizers see real ones.
set(TIDELOT_WARNINGS -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wno-sign-conversion
    $<$<CXX_COMPILER_ID:GNU>:-Wno-restrict> $<$<CXX_COMPILER_ID:GNU>:-Wno-stringop-overflow>
    $<$<CXX_COMPILER_ID:GNU>:-Wno-array-bounds>
    CACHE STRING "Warning flags of a developer's build")
target_compile_options(tidelot_flags INTERFACE ${TIDELOT_WARNINGS})
option(TIDELOT_WERROR "Warnings are errors" OFF)
if(TIDELOT_WERROR)
  target_compile_options(tidelot_flags INTERFACE -Werror)
endif()
set(TIDELOT_SANITIZE "" CACHE STRING "Sanitizers, for example address,undefined")
if(TIDELOT_SANITIZE)
  target_compile_options(tidelot_flags INTERFACE -fsanitize=${TIDELOT_SANITIZE}
                         -fno-omit-frame-pointer -fno-sanitize-recover=all)
  target_link_options(tidelot_flags INTERFACE -fsanitize=${TIDELOT_SANITIZE})
  # An index beyond a vector's end but within its room is seen by the library alone.
  target_compile_definitions(tidelot_flags INTERFACE _GLIBCXX_ASSERTIONS)
endif()
# With clang: the rooms count their edges for the fuzzers of tests/fuzz, under the sanitizers. Without
# them a fuzzer is several times as fast and still sees a promise broken, an index beyond a vector's
# end and a crash.
option(TIDELOT_FUZZ "Build the fuzzers of tests/fuzz as fuzzers (clang)" OFF)
set(TIDELOT_FUZZ_SANITIZE "address,undefined" CACHE STRING "Sanitizers of the fuzzers; may be empty")
if(TIDELOT_FUZZ)
  target_compile_options(tidelot_flags INTERFACE -fsanitize=fuzzer-no-link -fno-omit-frame-pointer)
  target_compile_definitions(tidelot_flags INTERFACE _GLIBCXX_ASSERTIONS)
  if(TIDELOT_FUZZ_SANITIZE)
    target_compile_options(tidelot_flags INTERFACE -fsanitize=${TIDELOT_FUZZ_SANITIZE}
                           -fno-sanitize-recover=all)
    target_link_options(tidelot_flags INTERFACE -fsanitize=${TIDELOT_FUZZ_SANITIZE})
  endif()
endif()

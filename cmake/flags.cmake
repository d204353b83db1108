# What every target of the product is compiled with. The engine must give the same bytes in every
# build, so floating-point contraction is off everywhere, and nothing under src/ throws.
option(LAPWRIGHT_WASM "Build the engine for WebAssembly" OFF)
option(LAPWRIGHT_TESTS "Build the tests and the replay of the fuzz corpus" ON)
option(LAPWRIGHT_FUZZ "Build the libFuzzer targets (clang only)" OFF)
option(LAPWRIGHT_BENCH "Build the benchmarks (an optimised build only)" OFF)
set(LAPWRIGHT_SANITIZE "" CACHE STRING "Sanitizers, as -fsanitize= takes them")

# No -Wnull-dereference: g++ 12 raises it falsely inside its own containers and streams, and at -O2 elsewhere than
# at -O1. clang-tidy's analyzer looks for the same (tests/house/tidy.py).
add_library(lapwright_flags INTERFACE)
target_compile_options(lapwright_flags INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion -Wdouble-promotion -Wimplicit-fallthrough
  $<$<COMPILE_LANGUAGE:CXX>:-Wnon-virtual-dtor> $<$<COMPILE_LANGUAGE:CXX>:-Wold-style-cast>
  $<$<COMPILE_LANGUAGE:CXX>:-Woverloaded-virtual>
  -Werror -ffp-contract=off)
# Links of the newer GoogleTest/fmt headers are system headers: their warnings are not ours.
target_compile_definitions(lapwright_flags INTERFACE FMT_HEADER_ONLY=1)

if(LAPWRIGHT_SANITIZE)
  # g++'s flow warnings misread the code that the sanitizers insert.
  if(CMAKE_CXX_COMPILER_ID STREQUAL GNU)
    target_compile_options(lapwright_flags INTERFACE -Wno-maybe-uninitialized)
  endif()
  add_compile_options(-fsanitize=${LAPWRIGHT_SANITIZE} -fno-omit-frame-pointer -fno-sanitize-recover=all)
  add_link_options(-fsanitize=${LAPWRIGHT_SANITIZE})
endif()

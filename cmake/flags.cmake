# What every target of the product is compiled with. The engine must give the same bytes in every
# build, so floating-point contraction is off everywhere, and nothing under src/ throws.
option(LAPWRIGHT_WASM "Build the engine for WebAssembly" OFF)
option(LAPWRIGHT_FUZZ "Build the libFuzzer targets (clang only)" OFF)
set(LAPWRIGHT_SANITIZE "" CACHE STRING "Sanitizers, as -fsanitize= takes them")

add_library(lapwright_flags INTERFACE)
target_compile_options(lapwright_flags INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion -Wnon-virtual-dtor
  -Wold-style-cast -Woverloaded-virtual -Wnull-dereference -Wdouble-promotion -Wimplicit-fallthrough
  -Werror -ffp-contract=off)
# Links of the newer GoogleTest/fmt headers are system headers: their warnings are not ours.
target_compile_definitions(lapwright_flags INTERFACE FMT_HEADER_ONLY=1)

if(LAPWRIGHT_SANITIZE)
  add_compile_options(-fsanitize=${LAPWRIGHT_SANITIZE} -fno-omit-frame-pointer -fno-sanitize-recover=all)
  add_link_options(-fsanitize=${LAPWRIGHT_SANITIZE})
endif()

# What a WebAssembly build needs beyond the toolchain file. Included only with LAPWRIGHT_WASM.

# Header-only libraries, exposed one by one: with all of /usr/include in reach, the native C library's headers
# would be found as well.
set(only_headers ${CMAKE_BINARY_DIR}/only-headers)
file(MAKE_DIRECTORY ${only_headers})
foreach(library nlohmann fmt fast_float tl)
  if(NOT EXISTS /usr/include/${library})
    message(FATAL_ERROR "/usr/include/${library} is missing: run scripts/install-missing build")
  endif()
  file(CREATE_LINK /usr/include/${library} ${only_headers}/${library} SYMBOLIC)
endforeach()
include_directories(SYSTEM ${only_headers})

# __FILE__ of an assert would carry the place of the checkout into the module's bytes.
add_compile_options(-ffile-prefix-map=${CMAKE_SOURCE_DIR}=.)

# The page carries the module, so size counts: -Oz -flto in the preset makes a third less than -Os, and no slower. Numbers
# are never grouped by a locale here; with a separator fixed, fmt leaves libc++'s locales and streams out: an eighth of
# the module.
add_compile_definitions(FMT_STATIC_THOUSANDS_SEPARATOR=0x2C)

add_library(lapwright_wasm_runtime STATIC ${CMAKE_SOURCE_DIR}/apps/wasm/runtime.c)

# A WebAssembly module NAME.wasm from SOURCES, on top of MODULES, that exports the functions EXPORTS.
#
#   lapwright_wasm(lapwright SOURCES engine.cpp MODULES engine EXPORTS engine_run ...)
function(lapwright_wasm name)
  cmake_parse_arguments(ARG "" "" "SOURCES;MODULES;EXPORTS" ${ARGN})
  add_executable(wasm_${name} ${ARG_SOURCES})
  set_target_properties(wasm_${name} PROPERTIES OUTPUT_NAME ${name} SUFFIX .wasm)
  target_compile_options(wasm_${name} PRIVATE -fno-exceptions)
  target_link_libraries(wasm_${name} PRIVATE lapwright_flags lapwright_wasm_runtime)
  foreach(module IN LISTS ARG_MODULES)
    target_link_libraries(wasm_${name} PRIVATE lapwright_${module})
  endforeach()
  foreach(export IN LISTS ARG_EXPORTS)
    target_link_options(wasm_${name} PRIVATE -Wl,--export=${export})
  endforeach()
  # Last, so that it wins over -O2: at -O0 clang does not hand the module to a wasm-opt that happens to be
  # installed, which would give other bytes on that machine. Ours are optimised object by object already.
  target_link_libraries(wasm_${name} PRIVATE -O0)
endfunction()

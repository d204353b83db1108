# One fuzz target, fuzz/NAME.cpp, which defines LLVMFuzzerTestOneInput and holds its own oracle (it aborts when a
# promise is broken). Its corpus is fuzz/corpus/NAME/*: seeds, and every input that once broke something.
#
# With the preset `fuzz` it becomes the libFuzzer program fuzz_NAME. In every other build the same code is linked to a
# small main that runs it over the corpus: the ctest entry fuzz-replay-NAME.
#
#   lapwright_fuzz(fault_line MODULES base)
function(lapwright_fuzz name)
  cmake_parse_arguments(ARG "" "" "MODULES" ${ARGN})
  set(sources ${CMAKE_SOURCE_DIR}/fuzz/${name}.cpp)
  if(NOT LAPWRIGHT_FUZZ)
    list(APPEND sources ${CMAKE_SOURCE_DIR}/fuzz/replay_main.cpp)
  endif()
  add_executable(fuzz_${name} ${sources})
  target_link_libraries(fuzz_${name} PRIVATE lapwright_flags)
  foreach(module IN LISTS ARG_MODULES)
    target_link_libraries(fuzz_${name} PRIVATE lapwright_${module})
  endforeach()
  set(corpus ${CMAKE_SOURCE_DIR}/fuzz/corpus/${name})
  if(LAPWRIGHT_FUZZ)
    target_link_options(fuzz_${name} PRIVATE -fsanitize=fuzzer)
    # New inputs go to the build directory (the first folder named), never into the repository.
    file(MAKE_DIRECTORY ${CMAKE_BINARY_DIR}/found/${name})
    add_test(NAME fuzz-run-${name}
      COMMAND fuzz_${name} -max_total_time=60 -timeout=10 -max_len=65536
        -artifact_prefix=${CMAKE_BINARY_DIR}/crash-${name}-
        ${CMAKE_BINARY_DIR}/found/${name} ${corpus})
  else()
    add_test(NAME fuzz-replay-${name} COMMAND fuzz_${name} ${corpus})
    set_tests_properties(fuzz-replay-${name} PROPERTIES LABELS unit)
  endif()
endfunction()

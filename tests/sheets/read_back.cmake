# Programs of other makes read back the sheets of the demo and of a roof with a stack, a pipe and a top wall. A
# missing program skips its test and says so.
foreach(job data/demo/hollin-barn tests/jobs/good/stack-and-pipe)
  get_filename_component(name ${job} NAME)
  foreach(check pdf_valid pdf_size pdf_bar pdf_words svg_parse dxf_audit)
    set(test sheets_read_${check})
    if(NOT name STREQUAL "hollin-barn")
      string(APPEND test _${name})
    endif()
    add_test(NAME ${test} COMMAND ${LAPWRIGHT_PYTHON} ${CMAKE_CURRENT_SOURCE_DIR}/sheets/read_back.py ${check}
                                  $<TARGET_FILE:lapwright> ${job}.json)
    set_tests_properties(${test} PROPERTIES SKIP_RETURN_CODE 77 WORKING_DIRECTORY ${CMAKE_SOURCE_DIR})
  endforeach()
endforeach()

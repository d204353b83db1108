# Programs of other makes read back the demo's sheets. A missing program skips its test and says so.
foreach(check pdf_valid pdf_size pdf_bar pdf_words svg_parse dxf_audit)
  add_test(NAME sheets_read_${check}
    COMMAND ${LAPWRIGHT_PYTHON} ${CMAKE_CURRENT_SOURCE_DIR}/sheets/read_back.py ${check} $<TARGET_FILE:lapwright>)
  set_tests_properties(sheets_read_${check} PROPERTIES SKIP_RETURN_CODE 77 WORKING_DIRECTORY ${CMAKE_SOURCE_DIR})
endforeach()

# A spreadsheet's reader and a PDF reader, both of other makes, read the papers and lists of priced jobs.
foreach(check csv compare_csv pdf_pages pdf_words)
  add_test(NAME papers_read_${check}
           COMMAND ${LAPWRIGHT_PYTHON} ${CMAKE_CURRENT_SOURCE_DIR}/estimate/read_back.py ${check} $<TARGET_FILE:lapwright>)
  set_tests_properties(papers_read_${check} PROPERTIES SKIP_RETURN_CODE 77 WORKING_DIRECTORY ${CMAKE_SOURCE_DIR})
endforeach()

# Programs of other makes read back what the writers wrote. A missing program skips its test and says so.
add_executable(draw_sample draw/sample/main.cpp draw/sample.cpp)
target_include_directories(draw_sample PRIVATE ${CMAKE_SOURCE_DIR}/src/draw)
target_link_libraries(draw_sample PRIVATE lapwright_flags lapwright_draw)
foreach(check pdf_valid pdf_text pdf_bar pdf_widths pdf_bytes svg_parse svg_like_pdf dxf_audit dxf_net deflate font_subset)
  add_test(NAME draw_read_${check}
    COMMAND ${LAPWRIGHT_PYTHON} ${CMAKE_CURRENT_SOURCE_DIR}/draw/read_back.py ${check} $<TARGET_FILE:draw_sample>)
  set_tests_properties(draw_read_${check} PROPERTIES SKIP_RETURN_CODE 77)
endforeach()

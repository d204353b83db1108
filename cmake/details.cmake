# The details that the planner knows are the files src/pieces/details/*.cpp: a file's name is the detail's word in a job
# file, and its enumerator. From them this writes the one list that the job's words and the planner's table are
# made of, so that a new detail is a new file.
file(GLOB LAPWRIGHT_DETAIL_SOURCES CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/src/pieces/details/*.cpp)
list(SORT LAPWRIGHT_DETAIL_SOURCES)
set(entries "")
set(count 0)
foreach(source IN LISTS LAPWRIGHT_DETAIL_SOURCES)
  get_filename_component(name ${source} NAME_WE)
  string(REPLACE "_" "-" word ${name})
  string(APPEND entries " \\\n  X(${name}, \"${word}\")")
  math(EXPR count "${count} + 1")
endforeach()
set(LAPWRIGHT_GENERATED ${CMAKE_BINARY_DIR}/generated)
file(CONFIGURE OUTPUT ${LAPWRIGHT_GENERATED}/lapwright/job/detail_list.h @ONLY CONTENT
"// Made from the names of the files in src/pieces/details: X(enumerator, word) for each.
#pragma once

#define LAPWRIGHT_DETAIL_COUNT @count@
#define LAPWRIGHT_DETAILS(X)@entries@
")
target_include_directories(lapwright_job PUBLIC ${LAPWRIGHT_GENERATED})
target_sources(lapwright_pieces PRIVATE ${LAPWRIGHT_DETAIL_SOURCES})
target_include_directories(lapwright_pieces PRIVATE ${CMAKE_SOURCE_DIR}/src/pieces)

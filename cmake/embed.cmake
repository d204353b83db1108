# A data file as bytes in the program: the engine opens no files.
#
#   lapwright_embed(practice uk_common_json data/practice/uk-common.json)
#
# gives the module a function `std::string_view lapwright::embedded::uk_common_json()`, which the module declares in a
# private header of its own. CMake itself writes the source, so that cross builds need no program of the build
# machine; an edit of the data file rebuilds.
if(CMAKE_SCRIPT_MODE_FILE)
  file(READ ${INPUT} hex HEX)
  string(LENGTH "${hex}" digits)
  math(EXPR size "${digits} / 2")
  if(size EQUAL 0)
    message(FATAL_ERROR "${INPUT} is empty")
  endif()
  string(REGEX REPLACE "([0-9a-f][0-9a-f])" "0x\\1," bytes "${hex}")
  string(REGEX REPLACE "(0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,)" "\\1\n"
    bytes "${bytes}")
  file(WRITE ${OUTPUT} "// Made at build from ${LABEL}.
#include <string_view>

namespace lapwright::embedded {
namespace {
constexpr unsigned char kBytes[] = {
${bytes}
};
}  // namespace
std::string_view ${NAME}();
std::string_view ${NAME}() { return {reinterpret_cast<const char*>(kBytes), ${size}}; }
}  // namespace lapwright::embedded
")
  return()
endif()

set(LAPWRIGHT_EMBED_SCRIPT ${CMAKE_CURRENT_LIST_FILE})

function(lapwright_embed module name file)
  set(input ${CMAKE_SOURCE_DIR}/${file})
  set(output ${CMAKE_CURRENT_BINARY_DIR}/${module}/embedded/${name}.cpp)
  add_custom_command(
    OUTPUT ${output}
    COMMAND ${CMAKE_COMMAND} -DINPUT=${input} -DOUTPUT=${output} -DNAME=${name} -DLABEL=${file}
      -P ${LAPWRIGHT_EMBED_SCRIPT}
    DEPENDS ${input} ${LAPWRIGHT_EMBED_SCRIPT}
    COMMENT "Embedding ${file}"
    VERBATIM)
  target_sources(lapwright_${module} PRIVATE ${output})
endfunction()

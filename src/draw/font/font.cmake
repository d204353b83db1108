# Cuts the face down and embeds it. Runs on the building machine's own Python, also when the target is WebAssembly.
# Debian's Python is asked for by path because another may stand first in PATH without fontTools.
set(LAPWRIGHT_PYTHON /usr/bin/python3 CACHE FILEPATH "A Python 3 with fontTools (Debian: fonttools)")
set(LAPWRIGHT_FONT_DIR /usr/share/fonts/truetype/dejavu CACHE PATH "Holds DejaVuSans.ttf (Debian: fonts-dejavu-core)")
set(font_source ${CMAKE_CURRENT_SOURCE_DIR}/draw/font)
set(font_build ${CMAKE_CURRENT_BINARY_DIR}/draw/font)
file(MAKE_DIRECTORY ${font_build})
set(subsets "")
foreach(face DejaVuSans DejaVuSans-Bold)
  set(input ${LAPWRIGHT_FONT_DIR}/${face}.ttf)
  if(NOT EXISTS ${input})
    message(FATAL_ERROR "${input} is missing: install fonts-dejavu-core, or set LAPWRIGHT_FONT_DIR")
  endif()
  add_custom_command(OUTPUT ${font_build}/${face}.ttf
    COMMAND ${LAPWRIGHT_PYTHON} -m fontTools.subset ${input} --unicodes-file=${font_source}/glyphs.txt
            --drop-tables+=FFTM,GPOS,GSUB,GDEF,kern,MATH --no-hinting --no-glyph-names --notdef-outline
            --name-IDs=0,1,2,6,13,14 --output-file=${font_build}/${face}.ttf
    DEPENDS ${input} ${font_source}/glyphs.txt VERBATIM)
  list(APPEND subsets ${font_build}/${face}.ttf)
endforeach()
add_custom_command(OUTPUT ${font_build}/font_data.cpp
  COMMAND ${LAPWRIGHT_PYTHON} ${font_source}/embed.py ${font_build}/font_data.cpp
          regular=${font_build}/DejaVuSans.ttf bold=${font_build}/DejaVuSans-Bold.ttf
  DEPENDS ${subsets} ${font_source}/embed.py VERBATIM)
target_sources(lapwright_draw PRIVATE ${font_build}/font_data.cpp)

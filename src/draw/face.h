// The embedded face, and the one decision what is drawn of a text.
#pragma once

#include <lapwright/draw/drawing.h>

#include "truetype.h"

#include <string_view>
#include <vector>

namespace lapwright::draw {

// Reading its tables is cheap enough (no allocation, a dozen lookups) to be done wherever a face is needed,
// which spares a global.
TrueType face_of(Weight weight);
Bytes face_bytes(Weight weight);

// The characters drawn of a text, all of them in the font: see font.h.
std::vector<char32_t> drawn_characters(std::string_view text);
// What SVG and DXF keep of a text: as above, but characters outside the font stay, bad bytes become U+FFFD.
std::vector<char32_t> kept_characters(std::string_view text);

double width_of(const TrueType& face, const std::vector<char32_t>& characters, double size);

}  // namespace lapwright::draw

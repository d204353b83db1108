// The one typeface, embedded: DejaVu Sans, regular and bold, cut down at build time to Latin up to U+024F,
// some Greek, fractions, arrows and the signs of the trade. Widths come from its own tables, so what is
// measured is what is drawn.
//
// What is drawn of a text: control characters and the marks that only steer direction are dropped; tab and
// line breaks become a space; bytes that are not UTF-8, and characters outside the font, become U+25A1, the
// white square. In SVG the text itself keeps such characters (a viewer may have a font for them), held to the
// width of the squares.
#pragma once

#include <lapwright/draw/drawing.h>

#include <string>
#include <string_view>
#include <vector>

namespace lapwright::draw {

inline constexpr char32_t kReplacement = U'\u25A1';

double text_width(std::string_view text, double size, Weight weight = Weight::regular);
double cap_height(double size);       // of a capital H above the baseline
double descender_depth(double size);  // of the lowest descender below the baseline, > 0
double line_height(double size);      // from baseline to baseline

// Each character of `text` that the font lacks, once, in order of appearance, as UTF-8. Bad bytes count as
// U+FFFD.
std::string missing_glyphs(std::string_view text);

// The text if it fits into `width`; else cut at a character and ended with "…"; empty if not even that fits.
std::string shortened(std::string_view text, double width, double size, Weight weight = Weight::regular);

// The largest size not above `size` at which the text fits into `width`, but not below `least`.
double size_to_fit(std::string_view text, double width, double size, double least,
                   Weight weight = Weight::regular);

// Lines no wider than `width`, broken at spaces, and within a word only when the word alone is too wide. Line
// breaks in the text are kept. Always at least one character a line.
std::vector<std::string> wrapped(std::string_view text, double width, double size,
                                 Weight weight = Weight::regular);

// The bytes of the embedded font file, for a page that wants the same face.
std::string_view font_file(Weight weight);

}  // namespace lapwright::draw

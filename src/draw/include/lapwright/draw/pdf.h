// PDF 1.7 with the embedded face (only the glyphs used), searchable text, and "no scaling" set for the print
// dialogue.
#pragma once

#include <lapwright/draw/drawing.h>

#include <string>

namespace lapwright::draw {

struct PdfOptions {
  // NOLINTNEXTLINE(readability-redundant-member-init): else filling by name draws a warning
  std::string date{};    // "20300131120000Z" as PDF wants it after "D:"; empty: no date at all
  bool compress = true;  // deflate streams
};

// A document without pages gets one empty A4 page, for a PDF must have one.
std::string write_pdf(const Document& document, const PdfOptions& options = {});

}  // namespace lapwright::draw

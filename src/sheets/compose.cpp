#include "pages.h"

#include <algorithm>
#include <array>
#include <set>

namespace lapwright::sheets {

std::vector<const job::Piece*> distinct_pieces(const job::Plan& plan) {
  std::vector<const job::Piece*> out;
  std::set<std::string> seen;
  for (const job::Piece& piece : plan.pieces) {
    if (seen.insert(piece.mark).second) out.push_back(&piece);
  }
  return out;
}

About places_of(const job::Plan& plan, const job::Piece& piece) {
  About out;
  for (const job::Piece& one : plan.pieces) {
    const Place place{one.slope, one.junction};
    if (one.mark == piece.mark && std::find(out.begin(), out.end(), place) == out.end()) out.push_back(place);
  }
  return out;
}

draw::Document compose(const Sources& sources, PaperSize size) {
  Sheets sheets(sources, size);
  const std::vector<Wall> walls = walls_of(sources);
  add_cover(sheets);
  add_roof_views(sheets);
  add_elevations(sheets, walls);
  add_face_views(sheets);
  add_sections(sheets, walls);
  add_cut_sections(sheets);
  add_roll_sections(sheets);
  add_batten_lists(sheets);
  add_piece_list(sheets);
  add_cutting(sheets);
  add_piece_drawings(sheets);
  add_fitting_list(sheets);
  add_templates(sheets);
  add_care(sheets);
  return sheets.done();
}

std::string_view name_of(Paper v) {
  constexpr std::array<std::string_view, kPapers.size()> kNames{"survey", "order", "cutting", "fitting",
                                                                "quote",  "price", "proof",   "care"};
  return kNames[static_cast<std::size_t>(v)];
}

draw::Document papers(const Sources& sources, const std::vector<Paper>& which, PaperSize size) {
  Sheets sheets(sources, size);
  for (const Paper paper : which) {
    sheets.new_leaf();
    switch (paper) {
      case Paper::survey:
        add_survey_form(sheets);
        break;
      case Paper::order:
        add_order(sheets);
        break;
      case Paper::cutting:
        add_cutting(sheets);
        add_batten_cuts(sheets);
        break;
      case Paper::fitting:
        add_fitting_list(sheets);
        break;
      case Paper::quote:
        add_quote(sheets);
        break;
      case Paper::price:
        add_price(sheets);
        break;
      case Paper::proof:
        add_proof(sheets);
        break;
      case Paper::care:
        add_care(sheets);
        break;
    }
  }
  return sheets.done();
}

draw::Document blank_form(const Sources& sources, PaperSize size) {
  Sheets sheets(sources, size);
  add_blank_form(sheets);
  return sheets.done();
}

}  // namespace lapwright::sheets

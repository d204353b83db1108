#include "pages.h"

#include <algorithm>
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

draw::Document compose(const Sources& sources) {
  Sheets sheets(sources);
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
  add_piece_drawings(sheets);
  add_fitting_list(sheets);
  add_templates(sheets);
  add_care(sheets);
  return sheets.done();
}

}  // namespace lapwright::sheets

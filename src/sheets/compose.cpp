#include "pages.h"

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

draw::Document compose(const Sources& sources) {
  Sheets sheets(sources);
  const std::vector<Wall> walls = walls_of(sources);
  add_cover(sheets);
  add_elevations(sheets, walls);
  add_sections(sheets, walls);
  add_batten_lists(sheets);
  add_piece_list(sheets);
  add_piece_drawings(sheets);
  add_fitting_list(sheets);
  add_templates(sheets);
  add_care(sheets);
  return sheets.done();
}

}  // namespace lapwright::sheets

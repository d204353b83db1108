// The kinds of sheet, each in a file of its own; each adds its pages.
#pragma once

#include "paper.h"
#include "wall.h"

#include <vector>

namespace lapwright::sheets {

void add_cover(Sheets& sheets);
void add_roof_views(Sheets& sheets);
void add_elevations(Sheets& sheets, const std::vector<Wall>& walls);
void add_sections(Sheets& sheets, const std::vector<Wall>& walls);
void add_cut_sections(Sheets& sheets);
void add_roll_sections(Sheets& sheets);
void add_face_views(Sheets& sheets);
void add_batten_lists(Sheets& sheets);
void add_piece_list(Sheets& sheets);
void add_cutting(Sheets& sheets);
void add_piece_drawings(Sheets& sheets);
void add_fitting_list(Sheets& sheets);
void add_templates(Sheets& sheets);
void add_care(Sheets& sheets);
void add_survey_form(Sheets& sheets);
void add_blank_form(Sheets& sheets);
void add_order(Sheets& sheets);
void add_batten_cuts(Sheets& sheets);
void add_proof(Sheets& sheets);
void add_quote(Sheets& sheets);
void add_price(Sheets& sheets);

// The plan's pieces, one of each mark.
std::vector<const job::Piece*> distinct_pieces(const job::Plan& plan);
// Where the pieces of this mark are fitted.
About places_of(const job::Plan& plan, const job::Piece& piece);

}  // namespace lapwright::sheets

// The kinds of sheet, each in a file of its own; each adds its pages.
#pragma once

#include "paper.h"
#include "wall.h"

#include <vector>

namespace lapwright::sheets {

void add_cover(Sheets& sheets);
void add_elevations(Sheets& sheets, const std::vector<Wall>& walls);
void add_sections(Sheets& sheets, const std::vector<Wall>& walls);
void add_batten_lists(Sheets& sheets);
void add_piece_list(Sheets& sheets);
void add_piece_drawings(Sheets& sheets);
void add_fitting_list(Sheets& sheets);
void add_templates(Sheets& sheets);
void add_care(Sheets& sheets);

// The plan's pieces, one of each mark.
std::vector<const job::Piece*> distinct_pieces(const job::Plan& plan);

}  // namespace lapwright::sheets

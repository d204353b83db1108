// A section as it is drawn: the cut lead as thick lines, each sheet named and measured, masonry hatched,
// units cut through.
#pragma once

#include "cut.h"
#include "pages.h"

#include <string>
#include <vector>

namespace lapwright::sheets {

struct Solid {
  Prism prism;
  draw::Fill fill;
};

struct Section {
  std::string title;
  About about;
  View view;
  std::vector<LeadLine> lead;
  std::vector<Solid> masonry;
  std::vector<Prism> units;
  draw::Box window;  // in the view, mm
};

// A page of its own, at the largest scale that fits it, with one line a piece below the picture.
void add_section(Sheets& sheets, const Section& section);

}  // namespace lapwright::sheets

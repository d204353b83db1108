// The parts of an estimate, each in a file of its own.
#pragma once

#include "lines.h"

#include <lapwright/job/survey.h>

namespace lapwright::estimate {

struct Sources {
  const job::Survey& survey;
  const job::Plan& plan;
  const practice::Pack& pack;
  std::vector<const job::Piece*> pieces;  // of the plan, without those that are shown as wrong and never made
};

const job::Slope* slope_named(const job::Survey& survey, const std::string& name);
// Null when the piece has no such figure.
const job::Figure* figure_of(const job::Piece& piece, std::string_view name);

// kg of round nails, their heads left out.
struct NailRules {
  const practice::Rule& diameter;
  const practice::Rule& length;
  const practice::Rule& density;  // kg/dm³
  const practice::Rule& waste;
};
job::Figure nails(std::string_view item, double count, std::string_view from, const NailRules& rules);

// Units by what they are cut from, and their nails.
void add_covering(const Sources& sources, const job::SetOut& set_out, Lines& lines);
// Battens cut to lengths with joints staggered, and their nails.
void add_battens(const Sources& sources, const job::SetOut& set_out, job::Estimate& into, Lines& lines);
// What goes with the lead: boards, fillets, wedges, clips, nails, joints, chases, oil.
void add_lead(const Sources& sources, Lines& lines);
// Kilograms of each code, and strips of each width as a merchant sells them.
void add_strips(const Sources& sources, Lines& lines);
// Rolls and sheets that the cutting list takes, as lifts; what it takes from the rack.
void add_rolls(const Sources& sources, Lines& lines);
// Hours by what is done, then crew, days and weeks of access.
void add_labour(const Sources& sources, Lines& lines);

}  // namespace lapwright::estimate

#include <lapwright/estimate/estimate.h>

#include "parts.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <string_view>

namespace lapwright::estimate {

const job::Slope* slope_named(const job::Survey& survey, const std::string& name) {
  for (const job::Slope& slope : survey.slopes) {
    if (slope.name == name) return &slope;
  }
  return nullptr;
}

const job::Figure* figure_of(const job::Piece& piece, std::string_view name) {
  for (const job::Figure& figure : piece.figures) {
    if (figure.name == name) return &figure;
  }
  return nullptr;
}

job::Figure nails(std::string_view item, double count, std::string_view from, const NailRules& rules) {
  // a quarter of a circle of diameter 1 is 0.785... ; mm³ · kg/dm³ is millionths of a kilogram
  const double kg = count * 0.785398163 * rules.diameter.value * rules.diameter.value * rules.length.value *
                    rules.density.value / 1000000 * (1 + rules.waste.value);
  return practice::Why(item, "n * 0.785398163 * d * d * l * rho / 1000000 * (1 + w)", "kg")
      .decided_by(rules.length)
      .term("n", count, "", from)
      .rule("d", rules.diameter)
      .rule("l", rules.length)
      .rule("rho", rules.density)
      .rule("w", rules.waste)
      .gives(kg);
}

job::Estimate estimate(const job::Survey& survey, const job::Plan& plan, const practice::Pack& pack) {
  job::Estimate out;
  Lines lines(out);
  Sources sources{survey, plan, pack, {}};
  for (const job::Piece& piece : plan.pieces) {
    if (!piece.wrong) sources.pieces.push_back(&piece);
  }
  for (const job::SetOut& set_out : plan.set_out) {
    if (set_out.courses <= 0) continue;
    add_covering(sources, set_out, lines);
    add_battens(sources, set_out, out, lines);
  }
  add_strips(sources, lines);
  if (plan.cutting) add_rolls(sources, lines);
  add_lead(sources, lines);
  add_labour(sources, lines);
  const auto place = [](const job::EstimateLine& line) {
    constexpr std::array<std::string_view, 8> kGroups{"covering", "battens",   "timber", "fixings",
                                                      "lead",     "finishing", "labour", "access"};
    return std::find(kGroups.begin(), kGroups.end(), line.group) - kGroups.begin();
  };
  std::stable_sort(
      out.lines.begin(), out.lines.end(),
      [&](const job::EstimateLine& a, const job::EstimateLine& b) { return place(a) < place(b); });
  return out;
}

double units_per_m2(Length width, Length joint, Length gauge) {
  assert(width > Length{} && gauge > Length{});
  return Area::mm2(1e6) / ((width + joint) * gauge);
}

double battens_per_m2(Length gauge) {
  assert(gauge > Length{});
  return Length::m(1) / gauge;
}

}  // namespace lapwright::estimate

#include "gaps.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/practice/defaults.h>

#include <algorithm>
#include <optional>
#include <vector>

namespace lapwright::setout {

namespace {

using job::Level;

struct GapThere {
  Length at;
  Length width;
};

// The gap at both ends of what the wall stands beside, and at every measured place between: it runs straight
// from each to the next.
std::vector<GapThere> profile(const job::Junction& junction, const Obstacles::Reach& reach,
                              const practice::Pack& pack) {
  std::vector<Length> places{reach.from};
  for (const job::GapAt& gap : junction.gaps) {
    const Length at = gap.at.value_or(Length{});
    if (at > reach.from && at < reach.to) places.push_back(at);
  }
  places.push_back(reach.to);
  std::sort(places.begin(), places.end());
  std::vector<GapThere> out;
  for (const Length at : places) out.push_back({at, practice::gap_at(junction, at, pack)});
  return out;
}

void say_taper(const std::vector<GapThere>& gaps, const std::string& where, job::SlopeLayout& layout) {
  const auto by_width = [](const GapThere& a, const GapThere& b) { return a.width < b.width; };
  const GapThere& least = *std::min_element(gaps.begin(), gaps.end(), by_width);
  const GapThere& most = *std::max_element(gaps.begin(), gaps.end(), by_width);
  if (most.width - least.width <= tolerance::kHandCut) return;
  layout.findings.push_back({Level::note,
                             "gap.tapers",
                             {{"narrowest", least.width.in_mm(), "mm"},
                              {"narrowest_at", least.at.in_mm(), "mm"},
                              {"widest", most.width.in_mm(), "mm"},
                              {"widest_at", most.at.in_mm(), "mm"}},
                             "",
                             (most.width - least.width).in_mm(),
                             tolerance::kHandCut.in_mm(),
                             "survey",
                             where});
}

// Each part of the wall where the gap is wider than `most`.
void judge_width(const std::vector<GapThere>& gaps, const practice::Rule& most_rule, Length half,
                 const std::string& where, job::SlopeLayout& layout) {
  const Length most = Length::mm(most_rule.value);
  const auto crossing = [&](const GapThere& a, const GapThere& b) {
    return a.at + (b.at - a.at) * ((most - a.width) / (b.width - a.width));
  };
  std::optional<Length> from;
  Length widest;
  const auto say = [&](Length to) {
    const bool unbuildable = widest > half + tolerance::kNoise;
    const Length limit = unbuildable ? half : most;
    layout.findings.push_back({unbuildable ? Level::wrong : Level::doubt,
                               "gap.too_wide",
                               {{"from", from->in_mm(), "mm"},
                                {"to", to.in_mm(), "mm"},
                                {"widest", widest.in_mm(), "mm"},
                                {"most", most.in_mm(), "mm"},
                                {"half", half.in_mm(), "mm"},
                                {"remedy", unbuildable ? "gap.unbuildable" : "gap.fill", "key"}},
                               "",
                               widest.in_mm(),
                               limit.in_mm(),
                               most_rule.source,
                               where});
    from.reset();
    widest = {};
  };
  for (std::size_t i = 0; i < gaps.size(); ++i) {
    const bool over = gaps[i].width > most + tolerance::kNoise;
    if (over && !from) from = i == 0 ? gaps[i].at : crossing(gaps[i - 1], gaps[i]);
    if (over) widest = max(widest, gaps[i].width);
    if (!over && from) say(crossing(gaps[i - 1], gaps[i]));
  }
  if (from) say(gaps.back().at);
}

}  // namespace

void judge_gaps(const job::Slope& slope, const Obstacles& obstacles, const practice::Pack& pack,
                job::SlopeLayout& layout) {
  for (std::size_t i = 0; i < obstacles.junctions.size(); ++i) {
    const Obstacles::Reach& reach = obstacles.reaches[i];
    if (reach.to <= reach.from) continue;
    const job::Junction& junction = obstacles.junctions[i];
    if (junction.gaps.empty() && practice::gap_at(junction, reach.from, pack) <= pack.length("wall.gap_most"))
      continue;
    const auto gaps = profile(junction, reach, pack);
    const std::string where = slope.name + " / " + junction.name;
    say_taper(gaps, where, layout);
    judge_width(gaps, pack.rule("wall.gap_most"), slope.covering.width.value / 2.0, where, layout);
  }
}

}  // namespace lapwright::setout

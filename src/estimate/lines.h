// Gathers the lines of an estimate.
#pragma once

#include <lapwright/job/plan.h>
#include <lapwright/practice/figure.h>
#include <lapwright/practice/pack.h>

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace lapwright::estimate {

// What a line's terms come from, as the catalogue's "from.*" knows them.
inline constexpr std::string_view kFromRows = "rows";
inline constexpr std::string_view kFromPieces = "pieces";
inline constexpr std::string_view kFromLines = "lines above";

class Lines {
 public:
  explicit Lines(job::Estimate& into) : into_(into) {}

  // `figure` answers why and carries the quantity; nothing is added when that is nought.
  void add(std::string_view group, std::string slope, job::Figure figure, job::Params params = {}) {
    if (!(figure.value > 0)) return;
    job::EstimateLine line;
    line.group = group;
    line.item = figure.name;
    line.slope = std::move(slope);
    line.params = std::move(params);
    line.quantity = figure.value;
    line.unit = figure.unit;
    line.figure = std::move(figure);
    into_.lines.push_back(std::move(line));
  }

  const std::vector<job::EstimateLine>& all() const { return into_.lines; }

 private:
  job::Estimate& into_;
};

}  // namespace lapwright::estimate

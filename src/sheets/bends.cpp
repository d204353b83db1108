#include "bends.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/trig.h>

#include <algorithm>
#include <cmath>

namespace lapwright::sheets {

namespace {

// Past the last fold, in bending order, that is bent as this one is.
std::size_t end_of_run(const geom::Net& net, std::size_t first) {
  std::size_t end = first + 1;
  while (end < net.folds.size() && net.folds[end].up == net.folds[first].up &&
         net.folds[end].angle == net.folds[first].angle) {
    ++end;
  }
  return end;
}

bool is_curve(const geom::Net& net, std::size_t first, std::size_t end) {
  constexpr std::size_t kMany = 5;
  constexpr double kSmall = 46;  // degrees: eight facets or more a turn
  return end - first >= kMany && net.folds[first].angle.in_degrees() < kSmall;
}

}  // namespace

bool rolled(const geom::Net& net, std::size_t fold) {
  for (std::size_t first = 0; first <= fold;) {
    const std::size_t end = end_of_run(net, first);
    if (fold < end) return is_curve(net, first, end);
    first = end;
  }
  return false;
}

bool like_folds(const geom::Net& net) {
  constexpr std::size_t kFew = 3;
  return net.folds.size() > kFew && end_of_run(net, 0) == net.folds.size() && !rolled(net, 0);
}

std::vector<Bend> bend_words(const Words& words, const geom::Net& net) {
  std::vector<Bend> out;
  const auto way = [&](const geom::Fold& fold) { return words.say(fold.up ? "sheet.up" : "sheet.down"); };
  if (like_folds(net)) {
    out.push_back({words.say("sheet.folds_alike", {{"count", static_cast<double>(net.folds.size()), ""},
                                                   {"angle", net.folds.front().angle.in_degrees(), "deg"},
                                                   {"way", way(net.folds.front()), ""}}),
                   0});
    return out;
  }
  const geom::Box box = geom::bounds(net.outline);
  const auto off = [](geom::Grid at, geom::Grid low) { return geom::to_length(at - low).in_mm(); };
  for (std::size_t i = 0; i < net.folds.size(); ++i) {
    const geom::Fold& fold = net.folds[i];
    if (rolled(net, i)) {
      const std::size_t end = end_of_run(net, i);
      out.push_back({words.say("sheet.roll_round", {{"from", static_cast<double>(i + 1), ""},
                                                    {"to", static_cast<double>(end), ""},
                                                    {"way", way(fold), ""}}),
                     i});
      i = end - 1;
      continue;
    }
    job::Params params{{"number", static_cast<double>(i + 1), ""},
                       {"angle", fold.angle.in_degrees(), "deg"},
                       {"way", way(fold), ""}};
    if (fold.from.y == fold.to.y) {
      params.push_back({"at", off(fold.from.y, box.low.y), "mm"});
      out.push_back({words.say("sheet.fold_along", params), i});
    } else if (fold.from.x == fold.to.x) {
      params.push_back({"at", off(fold.from.x, box.low.x), "mm"});
      out.push_back({words.say("sheet.fold_across", params), i});
    } else {
      params.push_back({"x1", off(fold.from.x, box.low.x), "mm"});
      params.push_back({"y1", off(fold.from.y, box.low.y), "mm"});
      params.push_back({"x2", off(fold.to.x, box.low.x), "mm"});
      params.push_back({"y2", off(fold.to.y, box.low.y), "mm"});
      out.push_back({words.say("sheet.fold_slanted", params), i});
    }
  }
  return out;
}

draw::Drawing bend_section(draw::Point at, const geom::Fold& fold) {
  const double angle = fold.angle.in_degrees() * (fold.up ? 1 : -1);
  constexpr double kFixed = 5;
  constexpr double kMoving = 4;
  draw::Drawing out;
  draw::Path sheet =
      draw::polyline({at, at + draw::Point{kFixed, 0},
                      at + draw::Point{kFixed + kMoving * cos_deg(angle), kMoving * sin_deg(angle)}},
                     draw::LineKind::outline);
  sheet.stroke = draw::Stroke{draw::LineKind::outline, 0.9};
  out.add(std::move(sheet));
  return out;
}

}  // namespace lapwright::sheets

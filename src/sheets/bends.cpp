#include "bends.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/trig.h>

#include <algorithm>
#include <cmath>

namespace lapwright::sheets {

bool like_folds(const geom::Net& net) {
  constexpr std::size_t kFew = 3;
  return net.folds.size() > kFew &&
         std::all_of(net.folds.begin(), net.folds.end(), [&](const geom::Fold& fold) {
           return fold.up == net.folds.front().up && fold.angle == net.folds.front().angle;
         });
}

std::vector<std::string> bend_words(const Words& words, const geom::Net& net) {
  std::vector<std::string> out;
  const auto way = [&](const geom::Fold& fold) { return words.say(fold.up ? "sheet.up" : "sheet.down"); };
  if (like_folds(net)) {
    out.push_back(words.say("sheet.folds_alike", {{"count", static_cast<double>(net.folds.size()), ""},
                                                  {"angle", net.folds.front().angle.in_degrees(), "deg"},
                                                  {"way", way(net.folds.front()), ""}}));
    return out;
  }
  const geom::Box box = geom::bounds(net.outline);
  for (std::size_t i = 0; i < net.folds.size(); ++i) {
    const geom::Fold& fold = net.folds[i];
    job::Params params{{"number", static_cast<double>(i + 1), ""},
                       {"angle", fold.angle.in_degrees(), "deg"},
                       {"way", way(fold), ""}};
    if (fold.from.y == fold.to.y) {
      params.push_back({"at", geom::to_length(fold.from.y - box.low.y).in_mm(), "mm"});
      out.push_back(words.say("sheet.fold_along", params));
    } else if (fold.from.x == fold.to.x) {
      params.push_back({"at", geom::to_length(fold.from.x - box.low.x).in_mm(), "mm"});
      out.push_back(words.say("sheet.fold_across", params));
    } else {
      out.push_back(words.say("sheet.fold_slanted", params));
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

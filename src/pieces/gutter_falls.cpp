#include "gutter_falls.h"

#include <lapwright/base/trig.h>
#include <lapwright/practice/figure.h>

#include <string>

namespace lapwright::pieces {

namespace {

using job::Level;
using practice::Why;

constexpr double kHalfTurn = 3.141592653589793 / 2;  // length of half a circle, in diameters

void say_leg_left(const Place& place, Length left, job::Params params, const char* rule,
                  std::vector<job::Finding>& findings) {
  const practice::Rule& least = place.pack.rule("lap.least");
  if (left >= Length::mm(least.value)) return;
  params.push_back({"left", max(Length{}, left).in_mm(), "mm"});
  params.push_back({"least", least.value, "mm"});
  findings.push_back({left <= Length{} ? Level::wrong : Level::doubt, rule, std::move(params), "",
                      left.in_mm(), least.value, least.source, place.where()});
}

}  // namespace

Roll roll_of(const practice::Pack& pack) {
  Roll out;
  out.core = pack.length("roll.core");
  out.under = pack.length("roll.under");
  out.over = out.core * (1 + kHalfTurn) + pack.length("roll.splash");
  out.beyond = out.over - out.core / 2.0;
  return out;
}

std::vector<job::Figure> roll_figures(const practice::Pack& pack) {
  const Roll roll = roll_of(pack);
  std::vector<job::Figure> out;
  out.push_back(Why("roll_over", "core * (1 + 3.141592653589793 / 2) + splash", "mm")
                    .rule("core", pack.rule("roll.core"))
                    .rule("splash", pack.rule("roll.splash"))
                    .gives(roll.over));
  out.push_back(Why("roll_under", "under", "mm").rule("under", pack.rule("roll.under")).gives(roll.under));
  out.push_back(Why("roll_beyond", "over - core / 2", "mm")
                    .rule("core", pack.rule("roll.core"))
                    .term("over", roll.over.in_mm(), "mm", "figure roll_over")
                    .gives(roll.beyond));
  return out;
}

Fall fall_to_both_sides(const Place& place, const GutterSection& section, Length past) {
  Fall out;
  out.rise = (place.frame.length / 2.0 + past) / place.pack.number("back_gutter.fall");
  out.sole = section.sole + out.rise / tan(section.tilt);
  out.leg = place.pack.length("back_gutter.leg") - out.rise / sin(section.tilt);
  return out;
}

std::vector<job::Figure> fall_figures(const Place& place, const GutterSection& section, Length past) {
  const practice::Pack& pack = place.pack;
  const Fall fall = fall_to_both_sides(place, section, past);
  std::vector<job::Figure> out;
  out.push_back(
      Why("rise", "(run / 2 + past) / fall", "mm")
          .term("run", place.frame.length.in_mm(), "mm", "survey")
          .term("past", past.in_mm(), "mm", past > Length{} ? "rule back_gutter.past" : "no corner here")
          .rule("fall", pack.rule("back_gutter.fall"))
          .decided_by(pack.rule("back_gutter.fall"))
          .gives(fall.rise));
  out.push_back(Why("sole_middle", "sole + rise / tan(tilt)", "mm")
                    .term("sole", section.sole.in_mm(), "mm", "figure sole")
                    .term("rise", fall.rise.in_mm(), "mm", "figure rise")
                    .survey("tilt", section.tilt)
                    .gives(fall.sole));
  out.push_back(Why("leg_middle", "leg - rise / sin(tilt)", "mm")
                    .rule("leg", pack.rule("back_gutter.leg"))
                    .term("rise", fall.rise.in_mm(), "mm", "figure rise")
                    .survey("tilt", section.tilt)
                    .gives(fall.leg));
  return out;
}

void judge_fall_to_both_sides(const Place& place, const GutterSection& section, Length past,
                              std::vector<job::Finding>& findings) {
  const practice::Pack& pack = place.pack;
  const Fall fall = fall_to_both_sides(place, section, past);
  // The widest stack whose middle still leaves the least.
  const Length spare = pack.length("back_gutter.leg") - pack.length("lap.least");
  const Length widest = (spare * sin(section.tilt) * pack.number("back_gutter.fall") - past) * 2.0;
  say_leg_left(place, fall.leg,
               {{"rise", fall.rise.in_mm(), "mm"},
                {"sole", fall.sole.in_mm(), "mm"},
                {"widest", max(Length{}, widest).in_mm(), "mm"}},
               "back_gutter.middle_too_high", findings);
}

void judge_fall_along(const Place& place, const GutterSection& section, std::vector<job::Finding>& findings) {
  const practice::Pack& pack = place.pack;
  const practice::Rule& fall = pack.rule("back_gutter.fall");
  const Length run = place.frame.length * cos(place.frame.rise);
  const Length drop = place.frame.length * sin(place.frame.rise);
  const Length asked = run / fall.value;
  if (drop >= asked) return;
  const Length raised = asked - drop;
  const Length sole = section.sole + raised / tan(section.tilt);
  findings.push_back({Level::doubt,
                      "back_gutter.little_fall",
                      {{"drop", drop.in_mm(), "mm"},
                       {"run", run.in_mm(), "mm"},
                       {"asked", asked.in_mm(), "mm"},
                       {"raised", raised.in_mm(), "mm"},
                       {"sole", sole.in_mm(), "mm"},
                       {"fall", fall.value, ""}},
                      "",
                      drop.in_mm(),
                      asked.in_mm(),
                      fall.source,
                      place.where()});
  // From its lower end the gutter can be built so far.
  const Length spare = pack.length("back_gutter.leg") - pack.length("lap.least");
  const Length stops = run * (spare * sin(section.tilt) / raised);
  say_leg_left(place, pack.length("back_gutter.leg") - raised / sin(section.tilt),
               {{"stops", stops.in_mm(), "mm"}, {"run", run.in_mm(), "mm"}, {"sole", sole.in_mm(), "mm"}},
               "back_gutter.widens_past_its_leg", findings);
}

}  // namespace lapwright::pieces

#include "stack_place.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>
#include <lapwright/job/facts.h>

#include <algorithm>
#include <string>

namespace lapwright::pieces {

namespace {

using job::Level;

void say_sides(const job::Slope& slope, const job::Junction& stack, const practice::Pack& pack,
               const std::string& where, std::vector<job::Finding>& findings) {
  const Length half = *stack.width / 2.0;
  const Length room = min(*stack.at - half, slope.width.value - (*stack.at + half));
  const Length past = max(pack.length("apron.past"), pack.length("back_gutter.past"));
  if (room >= past) return;
  const bool stands_out = room < -tolerance::kGrid;
  findings.push_back({stands_out ? Level::wrong : Level::doubt,
                      stands_out ? "stack.beyond_the_side" : "stack.near_the_side",
                      {{"room", abs(room).in_mm(), "mm"}, {"past", past.in_mm(), "mm"}},
                      "",
                      room.in_mm(),
                      past.in_mm(),
                      "geometry",
                      where});
}

void say_tray(const job::Slope& slope, const job::Junction& stack, const practice::Pack& pack,
              const std::string& where, std::vector<job::Finding>& findings) {
  if (stack.across) return;
  const practice::Rule& above = pack.rule("tray.above");
  const Length rise = *stack.depth * tan(slope.pitch.value);
  findings.push_back({Level::note,
                      "stack.tray",
                      {{"above", above.value, "mm"},
                       {"flue", pack.number("tray.up_the_flue"), "mm"},
                       {"rise", rise.in_mm(), "mm"}},
                      "",
                      above.value,
                      std::nullopt,
                      above.source,
                      where});
}

}  // namespace

void say_front(const Place& place, Length leg, std::vector<job::Finding>& findings) {
  const Length front = place.face.from.s;
  const job::SetOut& set_out = place.layout.set_out;
  double number = 0;
  for (const job::Course& course : place.layout.courses) {
    number += 1;
    const Length next = course.tail + course.margin;
    if (front < course.tail || front >= next) continue;
    const Length below = front - course.tail;
    const Length above = next - front;
    if (min(below, above) <= tolerance::kHandCut) return;
    job::Params params{{"number", number, ""},
                       {"below", below.in_mm(), "mm"},
                       {"above", above.in_mm(), "mm"},
                       {"leg", leg.in_mm(), "mm"},
                       {"rest", max(Length{}, leg - below).in_mm(), "mm"}};
    const std::string source = "geometry";
    findings.push_back({Level::note,
                        leg > below ? "stack.front_between_courses" : "stack.front_within_a_course", params,
                        "", below.in_mm(), std::nullopt, source, place.where()});
    const practice::Rule& least = place.pack.rule("stack.short_unit_least");
    if (!is_double_lap(place.slope.covering.kind) || below >= Length::mm(least.value)) return;
    // Without them the course below runs bare up to the stack: a whole margin and the strip, and its lap.
    params.push_back({"longer", (below + set_out.gauge + set_out.headlap).in_mm(), "mm"});
    params.push_back({"least", least.value, "mm"});
    params.push_back({"gauge", set_out.gauge.in_mm(), "mm"});
    findings.push_back({Level::doubt, "stack.short_units_in_front", std::move(params), "", below.in_mm(),
                        least.value, least.source, place.where()});
    return;
  }
}

void judge_stack_place(const job::Slope& slope, const job::Junction& stack, const practice::Pack& pack,
                       std::vector<job::Finding>& findings) {
  const std::string where = slope.name + " / " + stack.name;
  say_sides(slope, stack, pack, where, findings);
  say_tray(slope, stack, pack, where, findings);
}

}  // namespace lapwright::pieces

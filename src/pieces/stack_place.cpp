#include "stack_place.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>

#include <algorithm>
#include <string>

namespace lapwright::pieces {

namespace {

using job::Level;

// Units in front are cut to the stack unless their course ends at its front.
void say_courses(const job::Junction& stack, const job::SlopeLayout& layout, const std::string& where,
                 std::vector<job::Finding>& findings) {
  const Length front = *stack.front;
  for (const job::Course& course : layout.courses) {
    const Length next = course.tail + course.margin;
    if (front < course.tail || front >= next) continue;
    const Length below = front - course.tail;
    const Length above = next - front;
    if (min(below, above) <= tolerance::kHandCut) return;
    findings.push_back({Level::note,
                        "stack.front_between_courses",
                        {{"below", below.in_mm(), "mm"}, {"above", above.in_mm(), "mm"}},
                        "",
                        below.in_mm(),
                        std::nullopt,
                        "geometry",
                        where});
    return;
  }
}

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

void judge_stack_place(const job::Slope& slope, const job::Junction& stack, const job::SlopeLayout& layout,
                       const practice::Pack& pack, std::vector<job::Finding>& findings) {
  const std::string where = slope.name + " / " + stack.name;
  say_courses(stack, layout, where, findings);
  say_sides(slope, stack, pack, where, findings);
  say_tray(slope, stack, pack, where, findings);
}

}  // namespace lapwright::pieces

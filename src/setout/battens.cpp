#include "battens.h"

#include "gauge.h"

#include <lapwright/job/facts.h>
#include <lapwright/practice/figure.h>

namespace lapwright::setout {

using job::CoveringKind;

Length nail_up(const job::Covering& c, Length length, Length gauge, Length headlap,
               const practice::Pack& pack) {
  if (is_centre_nailed(c)) return gauge + headlap + pack.length("slate.hole_clearance");
  if (c.kind == CoveringKind::slate) return length - pack.length("slate.head_nail");
  return length - pack.length("tile.nail_from_head");
}

void mark_battens(const job::Slope& slope, const practice::Pack& pack, job::SlopeLayout& layout) {
  const job::Covering& c = slope.covering;
  const Length headlap = layout.set_out.headlap;
  const Length half_batten = pack.length("batten.slate_width") / 2.0;
  // From a course's tail to its batten's upper edge.
  const auto hang_of = [&](const job::Course& course) {
    const Length gauge = (course.length - headlap - dead_head(c, pack)) / 2.0;
    if (is_centre_nailed(c)) return nail_up(c, course.length, gauge, headlap, pack) + half_batten;
    if (c.kind == CoveringKind::slate) return course.length;
    return c.hang.value_or(course.length - pack.length("tile.hang_from_head"));
  };
  const job::Course& eaves = layout.courses.front();
  const Length under_mark = hang_of(eaves) - eaves.margin;
  if (is_double_lap(c.kind)) layout.set_out.battens.push_back({min(under_mark, layout.under_length), -1});
  std::int64_t number = 0;
  for (const job::Course& course : layout.courses) {
    // Units cut at the top edge hang from the top batten, which is marked once.
    const Length mark = min(course.tail + hang_of(course), layout.top);
    if (layout.set_out.battens.empty() || layout.set_out.battens.back().mark < layout.top) {
      layout.set_out.battens.push_back({mark, number});
    }
    ++number;
  }
  if (is_centre_nailed(c) && c.sets.empty()) {
    const Length hole = nail_up(c, eaves.length, layout.set_out.gauge, headlap, pack);
    layout.set_out.figures.push_back(practice::Why("hole_gauge", "G + H + cl", "mm")
                                         .set_out("G", layout.set_out.gauge)
                                         .set_out("H", headlap)
                                         .rule("cl", pack.rule("slate.hole_clearance"))
                                         .gives(hole));
  }
}

}  // namespace lapwright::setout

#include "mitred_soaker.h"

#include "sheet.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/practice/figure.h>

#include <utility>

namespace lapwright::pieces {

namespace {

using practice::Why;

// A soaker's extent up the first slope.
struct Reach {
  Length from;
  Length length;
  Length unit;  // L and G of the course that it lies on; of the lowest, what its under-course comes to
  Length gauge;
  bool cut_at_top = false;
};

// From under the tail of its own course's units to past the head of those that it lies on: as soakers at a
// wall, but nailed flat, for a head that is folded along the middle turns down over nothing.
Reach reach_of(const JoinPlace& place, std::size_t k) {
  const job::SlopeLayout& layout = *place.layouts[0];
  const practice::Pack& pack = place.pack;
  const Length run = place.line.sides[0].run;
  Reach r;
  r.gauge = k == 0 ? layout.courses.front().margin : layout.courses[k - 1].margin;
  r.unit = k == 0 ? layout.under_length + r.gauge : layout.courses[k - 1].length;
  r.from = layout.courses[k].tail + pack.length("soaker.set_back");
  r.length = r.unit - r.gauge + pack.length("soaker.head_allowance");
  if (r.from + r.length > run - tolerance::kGrid) {
    r.cut_at_top = true;
    r.length = run - r.from;
  }
  return r;
}

job::Figure length_figure(const JoinPlace& place, const Reach& r, Length length) {
  const double k = place.along_per_up();
  if (r.cut_at_top) {
    return Why("length_at_top", "(r - s) * k", "mm")
        .term("r", place.line.sides[0].run.in_mm(), "mm", "rafter of the lower slope")
        .set_out("s", r.from)
        .term("k", k, "", "line against fall")
        .gives(length);
  }
  return Why("length", "(L - G + a) * k", "mm")
      .survey("L", r.unit)
      .set_out("G", r.gauge)
      .rule("a", place.pack.rule("soaker.head_allowance"))
      .term("k", k, "", "line against fall")
      .gives(length);
}

job::Piece piece_of(const JoinPlace& place, const Reach& r, Length length) {
  const practice::Pack& pack = place.pack;
  const Length leg = pack.length("mitre.leg_least");
  job::Piece piece = join_piece("mitred-soaker", place, length, leg, Length{});
  piece.code = static_cast<std::int64_t>(pack.number("soaker.code"));
  piece.figures.push_back(length_figure(place, r, length));
  piece.figures.push_back(Why("leg", "leg", "mm").rule("leg", pack.rule("mitre.leg_least")).gives(leg));
  piece.figures.push_back(
      Why("width", "2 * leg", "mm").rule("leg", pack.rule("mitre.leg_least")).gives(piece.width));
  piece.figures.push_back(Why("fold", "angle", "deg")
                              .term("angle", place.line.fold.in_degrees(), "deg", "the two planes")
                              .gives(place.line.fold.in_degrees()));
  piece.figures.push_back(Why("true_pitch", "v", "deg")
                              .term("v", place.line.true_pitch.in_degrees(), "deg", "the two planes")
                              .gives(place.line.true_pitch.in_degrees()));
  weigh(piece, pack);
  return piece;
}

}  // namespace

void plan_mitred_soakers(const JoinPlace& place, SlopePlan& plan) {
  const job::SlopeLayout& layout = *place.layouts[0];
  const double along = place.along_per_up();
  const Length leg = place.pack.length("mitre.leg_least");
  for (std::size_t k = 0; k < layout.courses.size(); ++k) {
    const Reach r = reach_of(place, k);
    // What is left of the line is too little to cut: the top piece or the ridge covers it.
    if (r.length < tolerance::kHandCut) break;
    const Length length = r.length * along;
    const auto same = [&] {
      return !plan.pieces.empty() && geom::to_grid(plan.pieces.back().length) == geom::to_grid(length);
    };
    if (!same()) plan.pieces.push_back(piece_of(place, r, length));
    job::Piece& piece = plan.pieces.back();
    const auto course = static_cast<std::int64_t>(k);
    piece.placements.push_back({course, join_frame(place, r.from * along, length, leg, Length{})});
    piece.count += 1;
    job::WorkStep step;
    step.slope = place.slopes[0]->name;
    step.junction = place.name;
    step.course = course;
    step.step = "work.mitred_soaker";
    step.params = {{"number", static_cast<double>(course + 1), ""},
                   {"second", place.slopes[1]->name, ""},
                   {"fold", place.line.fold.in_degrees(), "deg"},
                   {"way", place.is_valley() ? "fold.up" : "fold.down", "key"}};
    plan.order_of_work.push_back(std::move(step));
    plan.piece_of_step.push_back(static_cast<std::int64_t>(plan.pieces.size()) - 1);
  }
}

}  // namespace lapwright::pieces

#include "valley.h"

#include "sheet.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>
#include <lapwright/practice/figure.h>
#include <lapwright/practice/laps.h>

#include <algorithm>
#include <utility>

namespace lapwright::pieces {

namespace {

using job::Level;
using practice::Why;

// What is the same for every piece of a valley.
struct Section {
  const practice::Rule* clear = nullptr;
  Length cover;  // under the units, each side
  Length side;   // on each slope: half the clear width and the cover
  Length edge;   // turned up at the far side
  Length lap;
  Length below;  // of the boards' face, square to a slope, under the plane that soakers lie in
};

// A unit rests on the one below it with its tail, a thickness higher for every gauge down: by so much its
// head, on its batten, lies lower than the face that its tail rests on.
struct HeadBelow {
  Length thickness;
  Length length;
  Length gauge;

  Length depth() const { return thickness * (length / gauge); }
};
HeadBelow head_below(const JoinPlace& place) {
  HeadBelow out{{}, Length::mm(1), Length::mm(1)};
  for (std::size_t i = 0; i < 2; ++i) {
    const job::Covering& c = place.slopes[i]->covering;
    const Length gauge = place.layouts[i]->set_out.gauge;
    if (gauge <= Length{}) continue;
    const HeadBelow here{c.thickness.value, c.length.value, gauge};
    if (here.depth() > out.depth()) out = here;
  }
  return out;
}

Section section_of(const JoinPlace& place) {
  const practice::Pack& pack = place.pack;
  const Angle flattest = Angle::degrees(
      std::min(place.slopes[0]->pitch.least().in_degrees(), place.slopes[1]->pitch.least().in_degrees()));
  const bool flat = flattest < Angle::degrees(pack.number("valley.clear_flat_below"));
  Section s;
  s.clear = &pack.rule(flat ? "valley.clear_flat" : "valley.clear");
  s.cover = pack.length("valley.cover");
  s.side = Length::mm(s.clear->value) / 2.0 + s.cover;
  s.edge = pack.length("valley.edge");
  s.below = max(Length{},
                head_below(place).depth() + pack.length("batten.thickness") - pack.length("valley.board"));
  s.lap = practice::lap_down_slope(place.line.true_pitch, place.survey.exposure, pack);
  return s;
}

// What every piece here rests on: the line itself and its laps.
std::vector<job::Figure> line_figures(const JoinPlace& place) {
  const job::JoinLine& line = place.line;
  const job::JoinSide& first = line.sides[0];
  std::vector<job::Figure> out;
  out.push_back(Why("gain", "tan(P) * sin(a)", "")
                    .survey("P", place.slopes[0]->pitch.value)
                    .term("a", first.to_eaves.in_degrees(), "deg", "the two planes")
                    .gives(tan(line.true_pitch)));
  out.push_back(Why("true_pitch", "v", "deg")
                    .term("v", line.true_pitch.in_degrees(), "deg", "the two planes")
                    .gives(line.true_pitch.in_degrees()));
  out.push_back(Why("fold", "angle", "deg")
                    .term("angle", line.fold.in_degrees(), "deg", "the two planes")
                    .gives(line.fold.in_degrees()));
  out.push_back(practice::lap_down_slope_figure("lap", line.true_pitch, "figure true_pitch",
                                                place.survey.exposure, place.pack));
  return out;
}

void add_step(const JoinPlace& place, SlopePlan& plan, const char* key, job::Params params,
              std::int64_t piece) {
  job::WorkStep step;
  step.slope = place.slopes[0]->name;
  step.junction = place.name;
  step.step = key;
  step.params = std::move(params);
  plan.order_of_work.push_back(std::move(step));
  plan.piece_of_step.push_back(piece);
}

void plan_lengths(const JoinPlace& place, const Section& s, std::int64_t code, SlopePlan& plan) {
  const practice::Pack& pack = place.pack;
  const job::JoinLine& line = place.line;
  const practice::Rule& most_rule = pack.rule("valley.piece_most");
  const Length most = Length::mm(most_rule.value);
  const Length drop = pack.length("valley.drop");
  const Length all = line.length + drop;
  const std::int64_t count = all <= most + tolerance::kNoise ? 1 : whole_up((all - s.lap) / (most - s.lap));
  const auto n = static_cast<double>(count);
  const Length length = (all + s.lap * (n - 1)) / n;
  job::Piece piece = join_piece("valley", place, length, s.side, s.edge);
  piece.code = code;
  piece.count = count;
  piece.figures = line_figures(place);
  const job::JoinSide& first = line.sides[0];
  piece.figures.push_back(Why("run", "r * sin(P) / sin(v)", "mm")
                              .term("r", first.run.in_mm(), "mm", "rafter of the lower slope")
                              .survey("P", place.slopes[0]->pitch.value)
                              .term("v", line.true_pitch.in_degrees(), "deg", "figure true_pitch")
                              .gives(line.length));
  Why pieces("pieces", count == 1 ? "ceil((run + drop) / most)" : "ceil((run + drop - lap) / (most - lap))",
             "");
  pieces.term("run", line.length.in_mm(), "mm", "figure run").rule("most", most_rule);
  pieces.rule("drop", pack.rule("valley.drop"));
  if (count > 1) pieces.term("lap", s.lap.in_mm(), "mm", "figure lap");
  piece.figures.push_back(pieces.gives(n));
  piece.figures.push_back(Why("length", "(run + drop + (n - 1) * lap) / n", "mm")
                              .term("run", line.length.in_mm(), "mm", "figure run")
                              .rule("drop", pack.rule("valley.drop"))
                              .term("n", n, "", "figure pieces")
                              .term("lap", s.lap.in_mm(), "mm", "figure lap")
                              .gives(length));
  piece.figures.push_back(
      Why("clear", "clear", "mm").rule("clear", *s.clear).gives(Length::mm(s.clear->value)));
  piece.figures.push_back(Why("width", "clear + 2 * (cover + edge)", "mm")
                              .rule("clear", *s.clear)
                              .rule("cover", pack.rule("valley.cover"))
                              .rule("edge", pack.rule("valley.edge"))
                              .gives(piece.width));
  piece.figures.push_back(Why("board", "clear / 2 + cover", "mm")
                              .rule("clear", *s.clear)
                              .rule("cover", pack.rule("valley.cover"))
                              .gives(s.side));
  piece.figures.push_back(Why("board_thickness", "t", "mm")
                              .rule("t", pack.rule("valley.board"))
                              .gives(pack.length("valley.board")));
  const HeadBelow head = head_below(place);
  piece.figures.push_back(Why("below", "max(0, t * L / G + batten - board)", "mm")
                              .survey("t", head.thickness)
                              .survey("L", head.length)
                              .set_out("G", head.gauge)
                              .rule("batten", pack.rule("batten.thickness"))
                              .rule("board", pack.rule("valley.board"))
                              .gives(s.below));
  weigh(piece, pack);
  const auto index = static_cast<std::int64_t>(plan.pieces.size());
  for (std::int64_t i = 0; i < count; ++i) {
    const Length start = (length - s.lap) * static_cast<double>(i) - drop;
    piece.placements.push_back({-2, join_frame(place, start, length, s.side, s.edge, s.below)});
    const job::Params params = {{"at", start.in_mm(), "mm"},
                                {"drop", drop.in_mm(), "mm"},
                                {"lap", s.lap.in_mm(), "mm"},
                                {"edge", s.edge.in_mm(), "mm"}};
    add_step(place, plan, i == 0 ? "work.valley_first" : "work.valley_next", params, index);
  }
  plan.pieces.push_back(std::move(piece));
}

// Half of it lies in the valley, over the top piece; half goes on over the ridge and is bossed to what is
// there.
void plan_saddle(const JoinPlace& place, const Section& s, std::int64_t code, SlopePlan& plan) {
  const practice::Pack& pack = place.pack;
  const Length least = pack.length("valley.saddle_least");
  const Length length = max(least, s.lap * 2.0);
  const Length side = max(least / 2.0, s.side);
  job::Piece piece = join_piece("valley-saddle", place, length, side, Length{});
  piece.code = code;
  piece.count = 1;
  piece.figures = line_figures(place);
  piece.figures.push_back(Why("length", "max(least, 2 * lap)", "mm")
                              .rule("least", pack.rule("valley.saddle_least"))
                              .term("lap", s.lap.in_mm(), "mm", "figure lap")
                              .gives(length));
  piece.figures.push_back(Why("width", "max(least, clear + 2 * cover)", "mm")
                              .rule("least", pack.rule("valley.saddle_least"))
                              .rule("clear", *s.clear)
                              .rule("cover", pack.rule("valley.cover"))
                              .gives(piece.width));
  weigh(piece, pack);
  piece.placements.push_back(
      {-2, join_frame(place, place.line.length - length / 2.0, length, side, Length{}, s.below)});
  const auto index = static_cast<std::int64_t>(plan.pieces.size());
  add_step(place, plan, "work.valley_courses",
           {{"clear", s.clear->value, "mm"}, {"cover", s.cover.in_mm(), "mm"}}, -1);
  plan.steps_before_courses = plan.order_of_work.size();
  add_step(place, plan, "work.valley_saddle", {{"lap", (length / 2.0).in_mm(), "mm"}}, index);
  plan.pieces.push_back(std::move(piece));
}

}  // namespace

void plan_valley(const JoinPlace& place, SlopePlan& plan) {
  const practice::Pack& pack = place.pack;
  const Angle pitch = place.line.true_pitch;
  const practice::Rule& most = pack.rule("valley.piece_most");
  const auto refuse = [&](Length lap) {
    plan.findings.push_back(
        {Level::wrong,
         "valley.too_flat",
         {{"pitch", pitch.in_degrees(), "deg"}, {"lap", lap.in_mm(), "mm"}, {"longest", most.value, "mm"}},
         "",
         lap.in_mm(),
         most.value,
         most.source,
         place.name});
  };
  // Laps as long as the pieces themselves make no valley.
  if (pitch.in_degrees() <= pack.number("lap.pitch_less")) return refuse(Length::mm(most.value));
  const Section s = section_of(place);
  if (s.lap * 2.0 > Length::mm(most.value)) return refuse(s.lap);
  const practice::Rule& least = pack.rule("valley.pitch_least");
  if (pitch < Angle::degrees(least.value)) {
    plan.findings.push_back(
        {Level::doubt,
         "valley.flat",
         {{"pitch", pitch.in_degrees(), "deg"}, {"least", least.value, "deg"}, {"lap", s.lap.in_mm(), "mm"}},
         "",
         pitch.in_degrees(),
         least.value,
         least.source,
         place.name});
  }
  const auto code = static_cast<std::int64_t>(pack.number("flashing.code_exposed"));
  add_step(place, plan, "work.valley_boards",
           {{"width", s.side.in_mm(), "mm"}, {"thickness", pack.number("valley.board"), "mm"}}, -1);
  plan_lengths(place, s, code, plan);
  plan_saddle(place, s, code, plan);
}

}  // namespace lapwright::pieces

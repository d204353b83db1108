#include "gutter_cover.h"

#include "joint_above.h"
#include "on_face.h"
#include "sheet.h"
#include "soaker.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>
#include <lapwright/practice/defaults.h>
#include <lapwright/practice/figure.h>

#include <string>
#include <utility>

namespace lapwright::pieces {

namespace {

using geom::EdgeRole;
using geom::to_grid;
using job::Level;
using practice::Why;

geom::Net strip_net(Length length, Length height, Length turn_in) {
  const geom::Grid x = to_grid(length);
  const geom::Grid fold = to_grid(height);
  const geom::Grid top = fold + to_grid(turn_in);
  geom::Net net;
  net.outline = {{0, 0}, {x, 0}, {x, fold}, {x, top}, {0, top}, {0, fold}};
  net.roles = {EdgeRole::foot, EdgeRole::lap, EdgeRole::lap, EdgeRole::turn_in, EdgeRole::lap, EdgeRole::lap};
  net.folds.push_back({{0, fold}, {x, fold}, Angle::degrees(90), false});
  return net;
}

// The cover flashing's height: down over the upstand, and up to what it turns into.
struct CoverHeight {
  Length height;
  job::Figure figure;
};
CoverHeight cover_height(const Place& place, const GutterSection& section, Length upstand) {
  const practice::Pack& pack = place.pack;
  const practice::Rule& lap = pack.rule("back_gutter.cover_lap");
  const Length over = Length::mm(lap.value);
  const bool level = place.face.kind == job::FaceKind::back;
  // Joints are measured from the roof's surface at a stack's front; behind it the roof has climbed.
  const Length climbed = place.junction.kind == job::JunctionKind::stack
                             ? *place.junction.depth * tan(place.slope.pitch.value)
                             : Length{};
  const Length from_units = section.level + upstand - up_the_face(place, finished_face(place.slope.covering));
  const Length top = climbed + from_units * place.frame.steepness;
  if (const auto joint = level ? joint_above(place, top) : std::nullopt) {
    const Length height = (*joint - top) / place.frame.steepness + over;
    return {height, Why("height", "(joint - top) / k + lap", "mm")
                        .rule("lap", lap)
                        .term("joint", joint->in_mm(), "mm", "bed joint that it turns into")
                        .term("top", top.in_mm(), "mm", "top of the upstand, measured as the joints are")
                        .term("k", place.frame.steepness, "", "height gained by going up the face")
                        .gives(height)};
  }
  if (place.junction.wall.kind != job::WallKind::brick) {
    return {over, Why("height", "lap", "mm").rule("lap", lap).gives(over)};
  }
  // The next joint is no further than a course.
  const Length course = practice::brick_course(place.junction.wall, pack).most();
  return {over + course, Why("height", "lap + course", "mm")
                             .rule("lap", lap)
                             .term("course", course.in_mm(), "mm", "course of bricks, at most")
                             .gives(over + course)};
}

}  // namespace

void plan_gutter_cover(const Place& place, const GutterSection& section, Length upstand,
                       job::JunctionPlan& plan) {
  const practice::Pack& pack = place.pack;
  const Length run = place.frame.length;
  const Length lap = pack.length("flashing.lap_along_wall");
  const std::int64_t code = practice::flashing_code(place.junction, pack);
  const practice::Rule& longest_rule = practice::longest_flashing(code, pack);
  const Length longest = Length::mm(longest_rule.value);
  CoverHeight cover = cover_height(place, section, upstand);
  const Length height = cover.height;
  const Length turn_in = pack.length("step.turn_in");
  const auto strip = pack.next_strip_width(height + turn_in - tolerance::kGrid);
  if (longest <= lap || !strip) {
    plan.findings.push_back({Level::wrong,
                             longest <= lap ? "cover.no_room_for_lap" : "step.no_strip",
                             {{"longest", longest.in_mm(), "mm"},
                              {"lap", lap.in_mm(), "mm"},
                              {"needed", (height + turn_in).in_mm(), "mm"},
                              {"joint", height.in_mm(), "mm"}},
                             "",
                             std::nullopt,
                             std::nullopt,
                             longest_rule.source,
                             place.where()});
    return;
  }
  const std::int64_t count = run <= longest + tolerance::kNoise ? 1 : whole_up((run - lap) / (longest - lap));
  const Length length = (run + lap * static_cast<double>(count - 1)) / static_cast<double>(count);
  job::Piece piece = lead_piece("cover-flashing", place, strip_net(length, height, turn_in),
                                {to_grid(length) / 2, to_grid(height) / 2});
  piece.length = length;
  piece.width = *strip;
  piece.code = code;
  piece.count = count;
  const auto n = static_cast<double>(count);
  Why pieces("pieces", count == 1 ? "ceil(run / most)" : "ceil((run - lap) / (most - lap))", "");
  pieces.term("run", run.in_mm(), "mm", "survey").rule("most", longest_rule);
  if (count > 1) pieces.rule("lap", pack.rule("flashing.lap_along_wall"));
  piece.figures.push_back(pieces.gives(n));
  piece.figures.push_back(Why("length", "(run + (n - 1) * lap) / n", "mm")
                              .term("run", run.in_mm(), "mm", "survey")
                              .term("n", n, "", "figure pieces")
                              .rule("lap", pack.rule("flashing.lap_along_wall"))
                              .gives(length));
  piece.figures.push_back(std::move(cover.figure));
  piece.figures.push_back(Why("width_needed", "h + t", "mm")
                              .term("h", height.in_mm(), "mm", "figure height")
                              .rule("t", pack.rule("step.turn_in"))
                              .gives(height + turn_in));
  weigh(piece, pack);
  const auto index = static_cast<std::int64_t>(plan.pieces.size());
  const Length over = pack.length("back_gutter.cover_lap");
  const Length level = section.level + upstand - over;
  for (std::int64_t i = 0; i < count; ++i) {
    const Length start = (length - lap) * static_cast<double>(i);
    piece.placements.push_back({-2, on_wall(place, start, length, level)});
    job::WorkStep work;
    work.slope = place.slope.name;
    work.junction = place.junction.name;
    work.step = i == 0 ? "work.gutter_cover" : "work.gutter_cover_next";
    work.params = {
        {"lap", lap.in_mm(), "mm"}, {"over", over.in_mm(), "mm"}, {"turn_in", turn_in.in_mm(), "mm"}};
    plan.work_after_courses.push_back(std::move(work));
    plan.piece_of_work.push_back(index);
  }
  plan.pieces.push_back(std::move(piece));
}

}  // namespace lapwright::pieces

#include "cover_flashing.h"

#include "on_face.h"
#include "roof_cover.h"
#include "sheet.h"
#include "single_lap.h"
#include "slope_lap.h"
#include "soaker.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>
#include <lapwright/practice/defaults.h>
#include <lapwright/practice/figure.h>

#include <string>
#include <utility>

namespace lapwright::pieces {

namespace {

using geom::EdgeRole;
using geom::Grid;
using geom::to_grid;
using job::Level;
using practice::Why;

geom::Net strip_net(Length length, Length height, Length turn_in) {
  const Grid x = to_grid(length);
  const Grid fold = to_grid(height);
  const Grid top = fold + to_grid(turn_in);
  geom::Net net;
  net.outline = {{0, 0}, {x, 0}, {x, fold}, {x, top}, {0, top}, {0, fold}};
  net.roles = {EdgeRole::foot, EdgeRole::lap, EdgeRole::lap, EdgeRole::turn_in, EdgeRole::lap, EdgeRole::lap};
  net.folds.push_back({{0, fold}, {x, fold}, Angle::degrees(90), false});
  return net;
}

void plan_pieces(const Place& place, const std::optional<RoofCover>& cover, job::JunctionPlan& plan) {
  const job::Junction& junction = place.junction;
  const practice::Pack& pack = place.pack;
  const std::string where = place.where();
  const Length run = place.frame.length;
  const practice::Rule& along = pack.rule("flashing.lap_along_wall");
  const Length lap = cover ? lap_on_roof(place) : Length::mm(along.value);
  const bool slope_decides = lap > Length::mm(along.value);
  const std::int64_t code = practice::flashing_code(junction, pack);
  const practice::Rule& longest_rule = practice::longest_flashing(code, pack);
  const Length longest = Length::mm(longest_rule.value);
  const auto shared = equal_pieces(run, longest, lap);
  if (!shared) {
    plan.findings.push_back({Level::wrong,
                             "cover.no_room_for_lap",
                             {{"longest", longest.in_mm(), "mm"}, {"lap", lap.in_mm(), "mm"}},
                             "",
                             longest.in_mm(),
                             lap.in_mm(),
                             longest_rule.source,
                             where});
    return;
  }
  const std::int64_t count = shared->count;
  const Length length = shared->length;
  const Length height = up_the_face(place, pack.length("chase.height"));
  const Length turn_in = pack.length("step.turn_in");
  const Length needed = height + turn_in + (cover ? cover->developed : Length{});
  const auto strip = strip_for(place, needed, plan);
  if (!strip) return;
  geom::Net drawn = strip_net(length, height, turn_in);
  Length below;  // what a cover adds under the foot
  if (cover) {
    WithCover covered = with_cover(std::move(drawn), cover->developed, place.frame.fold);
    drawn = std::move(covered.net);
    below = covered.moved;
  }
  const geom::GridPoint on_face = {to_grid(length) / 2, to_grid(below) + to_grid(height) / 2};
  job::Piece piece = lead_piece("cover-flashing", place, for_face(drawn, place.face), on_face);
  piece.length = length;
  piece.width = *strip;
  piece.code = code;
  piece.count = count;
  const auto n = static_cast<double>(count);
  const auto add_lap = [&](Why& why) {
    if (slope_decides) {
      why.term("lap", lap.in_mm(), "mm", "figure lap");
    } else {
      why.rule("lap", along);
    }
  };
  Why pieces("pieces", count == 1 ? "ceil(run / most)" : "ceil((run - lap) / (most - lap))", "");
  pieces.term("run", run.in_mm(), "mm", "survey").rule("most", longest_rule);
  if (count > 1) add_lap(pieces);
  piece.figures.push_back(pieces.gives(n));
  Why each("length", "(run + (n - 1) * lap) / n", "mm");
  each.term("run", run.in_mm(), "mm", "survey").term("n", n, "", "figure pieces");
  add_lap(each);
  piece.figures.push_back(each.gives(length));
  const bool square = place.frame.up.z == 1.0;
  std::string formula = square ? "h + t" : "h / k + t";
  if (cover) formula += " + cover";
  Why width_needed("width_needed", formula, "mm");
  width_needed.rule("h", pack.rule("chase.height"));
  if (!square) width_needed.term("k", place.frame.up.z, "", "lean of the face to the roof");
  width_needed.rule("t", pack.rule("step.turn_in"));
  if (cover) width_needed.term("cover", cover->developed.in_mm(), "mm", "cover on the tiles");
  piece.figures.push_back(width_needed.gives(needed));
  piece.figures.push_back(strip_figure(*strip));
  if (slope_decides) {
    piece.figures.push_back(slope_lap_figure(place, flattest_rise(place)));
  } else if (count > 1) {
    piece.figures.push_back(Why("lap", "lap", "mm").rule("lap", along).gives(lap));
  }
  if (cover) {
    for (job::Figure& f : cover_figures(place, *cover, length)) piece.figures.push_back(std::move(f));
  }
  weigh(piece, pack);
  const auto index = static_cast<std::int64_t>(plan.pieces.size());
  const Length roof = up_the_face(place, finished_face(place.slope.covering));
  for (std::int64_t i = 0; i < count; ++i) {
    const Length start = (length - lap) * static_cast<double>(i);
    piece.placements.push_back({-2, on_wall(place, start, length, roof - below)});
    job::WorkStep work;
    work.slope = place.slope.name;
    work.junction = junction.name;
    if (cover) {
      work.step = i == 0 ? "work.chased_cover_first" : "work.chased_cover";
    } else {
      work.step = i == 0 ? "work.cover_flashing_first" : "work.cover_flashing";
    }
    work.params = {{"at", (place.face.from.s + start).in_mm(), "mm"},
                   {"height", height.in_mm(), "mm"},
                   {"turn_in", turn_in.in_mm(), "mm"},
                   {"lap", lap.in_mm(), "mm"}};
    if (cover) add_cover_params(place, *cover, length, work.params);
    plan.work_after_courses.push_back(std::move(work));
    plan.piece_of_work.push_back(index);
  }
  plan.pieces.push_back(std::move(piece));
}

}  // namespace

void plan_cover_flashings(const Place& place, job::JunctionPlan& plan) {
  plan_pieces(place, std::nullopt, plan);
}

void plan_chased_covers(const Place& place, job::JunctionPlan& plan) {
  say_thickness(place, plan);
  plan_pieces(place, roof_cover(place, plan), plan);
}

}  // namespace lapwright::pieces

#include "cover_flashing.h"

#include "on_face.h"
#include "sheet.h"
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

}  // namespace

void plan_cover_flashings(const Place& place, job::JunctionPlan& plan) {
  const job::Junction& junction = place.junction;
  const practice::Pack& pack = place.pack;
  const std::string where = place.where();
  const Length run = place.frame.length;
  const Length lap = pack.length("flashing.lap_along_wall");
  const std::int64_t code = practice::flashing_code(junction, pack);
  const practice::Rule& longest_rule = practice::longest_flashing(code, pack);
  const Length longest = Length::mm(longest_rule.value);
  if (longest <= lap) {
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
  const std::int64_t count = run <= longest + tolerance::kNoise ? 1 : whole_up((run - lap) / (longest - lap));
  const Length length = (run + lap * static_cast<double>(count - 1)) / static_cast<double>(count);
  const Length height = up_the_face(place, pack.length("chase.height"));
  const Length turn_in = pack.length("step.turn_in");
  const Length needed = height + turn_in;
  const auto strip = pack.next_strip_width(needed - tolerance::kGrid);
  if (!strip) {
    plan.findings.push_back({Level::wrong,
                             "step.no_strip",
                             {{"needed", needed.in_mm(), "mm"}, {"joint", height.in_mm(), "mm"}},
                             "",
                             needed.in_mm(),
                             pack.strip_widths().back().in_mm(),
                             "geometry",
                             where});
    return;
  }
  const geom::GridPoint on_face = {to_grid(length) / 2, to_grid(height) / 2};
  job::Piece piece =
      lead_piece("cover-flashing", place, for_face(strip_net(length, height, turn_in), place.face), on_face);
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
  const bool square = place.frame.up.z == 1.0;
  Why width_needed("width_needed", square ? "h + t" : "h / k + t", "mm");
  width_needed.rule("h", pack.rule("chase.height"));
  if (!square) width_needed.term("k", place.frame.up.z, "", "lean of the face to the roof");
  piece.figures.push_back(width_needed.rule("t", pack.rule("step.turn_in")).gives(needed));
  job::Figure width =
      Why("width", "strip", "mm").term("strip", strip->in_mm(), "mm", "next stocked strip").gives(*strip);
  width.source = "strip widths as usually stocked; check the merchant's list";
  width.standing = job::Standing::guide;
  piece.figures.push_back(std::move(width));
  if (count > 1) {
    piece.figures.push_back(
        Why("lap", "lap", "mm").rule("lap", pack.rule("flashing.lap_along_wall")).gives(lap));
  }
  weigh(piece, pack);
  const auto index = static_cast<std::int64_t>(plan.pieces.size());
  const Length roof = up_the_face(place, finished_face(place.slope.covering));
  for (std::int64_t i = 0; i < count; ++i) {
    const Length start = (length - lap) * static_cast<double>(i);
    piece.placements.push_back({-2, on_wall(place, start, length, roof)});
    job::WorkStep work;
    work.slope = place.slope.name;
    work.junction = junction.name;
    work.step = i == 0 ? "work.cover_flashing_first" : "work.cover_flashing";
    work.params = {{"at", (place.face.from.s + start).in_mm(), "mm"},
                   {"height", height.in_mm(), "mm"},
                   {"turn_in", turn_in.in_mm(), "mm"},
                   {"lap", lap.in_mm(), "mm"}};
    plan.work_after_courses.push_back(std::move(work));
    plan.piece_of_work.push_back(index);
  }
  plan.pieces.push_back(std::move(piece));
}

}  // namespace lapwright::pieces

#include "saddle.h"

#include "corner.h"
#include "on_face.h"
#include "sheet.h"
#include "soaker.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>
#include <lapwright/practice/defaults.h>
#include <lapwright/practice/figure.h>
#include <lapwright/practice/laps.h>

#include <utility>

namespace lapwright::pieces {

namespace {

using geom::EdgeRole;
using geom::to_grid;
using practice::Why;

struct Sizes {
  Length leg_here;
  Length leg_there;
  Length along;  // the ridge
  Length upstand;
};

geom::Net net_of(const Sizes& s, Angle both, bool welded) {
  const geom::Grid up = to_grid(s.upstand);
  const geom::Grid wide = up + to_grid(s.along);
  const geom::Grid ridge = to_grid(s.leg_here);
  const geom::Grid top = ridge + to_grid(s.leg_there);
  geom::Net net;
  net.outline = {{0, 0}, {wide, 0}, {wide, top}, {0, top}};
  net.roles = {EdgeRole::tail, EdgeRole::side, EdgeRole::tail, EdgeRole::top};
  net.folds.push_back({{up, ridge}, {wide, ridge}, both, false});
  net.folds.push_back({{up, 0}, {up, ridge}, Angle::degrees(90), true});
  net.folds.push_back({{up, ridge}, {up, top}, Angle::degrees(90), true});
  net.cuts.push_back({{0, ridge}, {up, ridge}, !welded});
  return net;
}

// What fills the gap between the two upstands, where they are not bossed but welded: its apex at the ridge,
// its two equal sides their edges.
void add_gusset(const Place& place, const Sizes& s, Angle both, geom::Vec3 apex, job::JunctionPlan& plan) {
  const bool right_of_stack = place.face.hand == job::Hand::left;
  const double sine = sin(both);
  const double cosine = cos(both);
  CornerShape shape;
  std::vector<geom::GridPoint>& ring = shape.net.outline;
  ring = {
      {0, 0}, geom::grid_point(s.upstand, Length{}), geom::grid_point(s.upstand * cosine, s.upstand * sine)};
  shape.net.roles = {EdgeRole::plain, EdgeRole::top, EdgeRole::plain};
  shape.base_point = {(ring[1].x + ring[2].x) / 3, ring[2].y / 3};
  shape.origin = apex;
  // The drawing's x lies along the other slope's upstand, square to that slope.
  shape.x_axis = {0, sine, cosine};
  shape.y_axis = {0, -cosine, sine};
  shape.figures.push_back(
      Why("seam_upstand", "up", "mm").rule("up", place.pack.rule("saddle.upstand")).gives(s.upstand));
  shape.figures.push_back(Why("apex", "a + b", "deg")
                              .survey("a", place.slope.pitch.value)
                              .survey("b", both - place.slope.pitch.value)
                              .gives(both.in_degrees()));
  job::WorkStep work;
  work.slope = place.slope.name;
  work.junction = place.junction.name;
  work.step = "work.gusset";
  work.params = {{"face", place.face.name, ""}};
  plan.work_after_courses.push_back(std::move(work));
  plan.piece_of_work.push_back(static_cast<std::int64_t>(plan.pieces.size()));
  plan.pieces.push_back(corner_piece(place, std::move(shape), right_of_stack,
                                     practice::flashing_code(place.junction, place.pack)));
}

}  // namespace

void plan_saddle(const Place& place, const job::Slope& other, job::JunctionPlan& plan) {
  const practice::Pack& pack = place.pack;
  const job::Exposure exposure = place.survey.exposure;
  const Angle here = place.slope.pitch.value;
  const Angle there = other.pitch.value;
  const Length size = pack.length("saddle.size");
  Sizes s;
  s.upstand = pack.length("saddle.upstand");
  s.along = max(pack.length("saddle.ridge_lap"), size - s.upstand);
  s.leg_here = max(size / 2.0, practice::lap_down_slope(here, exposure, pack));
  s.leg_there = max(size / 2.0, practice::lap_down_slope(there, exposure, pack));
  const bool right_of_stack = place.face.hand == job::Hand::left;
  const bool welded = place.junction.corners == job::Corners::welded;
  const geom::Net drawn = net_of(s, here + there, welded);
  const Length wide = s.upstand + s.along;
  const Length high = s.leg_here + s.leg_there;
  geom::GridPoint on_leg{to_grid(s.upstand + s.along / 2.0), to_grid(s.leg_here / 2.0)};
  if (!right_of_stack) on_leg.x = to_grid(wide) - on_leg.x;
  job::Piece piece =
      lead_piece("saddle", place, right_of_stack ? drawn : geom::at_origin(geom::mirrored(drawn)), on_leg);
  piece.length = wide;
  piece.width = high;
  piece.code = practice::flashing_code(place.junction, pack);
  piece.count = 1;
  piece.figures.push_back(practice::lap_down_slope_figure("lap_here", here, "survey", exposure, pack));
  piece.figures.push_back(practice::lap_down_slope_figure("lap_there", there, "survey", exposure, pack));
  piece.figures.push_back(
      Why("leg_here", "max(size / 2, lap)", "mm")
          .rule("size", pack.rule("saddle.size"))
          .term("lap", practice::lap_down_slope(here, exposure, pack).in_mm(), "mm", "figure lap_here")
          .gives(s.leg_here));
  piece.figures.push_back(
      Why("leg_there", "max(size / 2, lap)", "mm")
          .rule("size", pack.rule("saddle.size"))
          .term("lap", practice::lap_down_slope(there, exposure, pack).in_mm(), "mm", "figure lap_there")
          .gives(s.leg_there));
  piece.figures.push_back(Why("along", "max(ridge, size - up)", "mm")
                              .rule("ridge", pack.rule("saddle.ridge_lap"))
                              .rule("size", pack.rule("saddle.size"))
                              .rule("up", pack.rule("saddle.upstand"))
                              .gives(s.along));
  if (!welded)
    piece.figures.push_back(Why("stretch", "a + b", "deg")
                                .survey("a", here)
                                .survey("b", there)
                                .gives((here + there).in_degrees()));
  weigh(piece, pack);
  // Where the finished faces of the two slopes meet: past the ridge's own line by their thickness.
  const Length face = finished_face(place.slope.covering);
  const Length apex = place.slope.rafter.value + face * tan((here + there) / 2.0);
  const double u = place.face.to.u.in_mm();
  const double left = right_of_stack ? u - s.upstand.in_mm() : u - s.along.in_mm();
  piece.placements.push_back({-2, {{left, (apex - s.leg_here).in_mm(), face.in_mm()}, {1, 0, 0}, {0, 1, 0}}});
  job::WorkStep work;
  work.slope = place.slope.name;
  work.junction = place.junction.name;
  work.step = "work.saddle";
  work.params = {{"face", place.face.name, ""},
                 {"along", s.along.in_mm(), "mm"},
                 {"upstand", s.upstand.in_mm(), "mm"},
                 {"corners", welded ? "corner.weld" : "corner.boss", "key"},
                 {"leg", min(s.leg_here, s.leg_there).in_mm(), "mm"}};
  plan.work_after_courses.push_back(std::move(work));
  plan.piece_of_work.push_back(static_cast<std::int64_t>(plan.pieces.size()));
  plan.pieces.push_back(std::move(piece));
  if (welded) add_gusset(place, s, here + there, {u, apex.in_mm(), face.in_mm()}, plan);
}

}  // namespace lapwright::pieces

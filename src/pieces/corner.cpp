#include "corner.h"

#include "sheet.h"

#include <lapwright/base/trig.h>
#include <lapwright/practice/figure.h>

#include <utility>

namespace lapwright::pieces {

namespace {

using geom::EdgeRole;
using geom::grid_point;
using geom::to_grid;
using geom::Vec3;
using practice::Why;

// From the stack's side into the roof beside it.
Vec3 away_from(bool right) {
  return {right ? 1.0 : -1.0, 0, 0};
}

std::vector<job::Figure> seam_figures(Length past, Length upright, std::string_view past_rule,
                                      const practice::Pack& pack) {
  std::vector<job::Figure> out;
  out.push_back(Why("seam_upstand", "up", "mm")
                    .term("up", upright.in_mm(), "mm", "upstand that it is welded to")
                    .gives(upright));
  out.push_back(Why("seam_past", "past", "mm").rule("past", pack.rule(past_rule)).gives(past));
  return out;
}

}  // namespace

CornerShape apron_corner(const Place& place, Vec3 corner, Length past, Length upright, bool right) {
  const Angle pitch = place.slope.pitch.value;
  // The seam stands plumb: its head lies further up the slope than its foot.
  const Length lean = upright * sin(pitch);
  const Length high = upright * cos(pitch);
  const Length along = past + lean;
  CornerShape out;
  out.net.outline = {grid_point({}, {}),
                     grid_point(along, {}),
                     grid_point(along, past),
                     grid_point(along, past + high),
                     grid_point(lean, past + high),
                     grid_point({}, past)};
  out.net.roles = {EdgeRole::side, EdgeRole::head,  EdgeRole::lap,
                   EdgeRole::top,  EdgeRole::plain, EdgeRole::plain};
  out.net.folds.push_back({grid_point({}, past), grid_point(along, past), Angle::degrees(90), true});
  out.base_point = {to_grid(along) / 2, to_grid(past) / 2};
  out.origin = corner + past.in_mm() * away_from(right);
  out.x_axis = {0, 1, 0};
  out.y_axis = -1.0 * away_from(right);
  out.figures = seam_figures(past, upright, "apron.past", place.pack);
  out.figures.push_back(Why("length", "past + up * sin(pitch)", "mm")
                            .rule("past", place.pack.rule("apron.past"))
                            .term("up", upright.in_mm(), "mm", "upstand that it is welded to")
                            .survey("pitch", pitch)
                            .gives(along));
  return out;
}

CornerShape gutter_corner(const Place& place, Vec3 corner, Length past, Length upright, Length spill,
                          Angle down, bool right) {
  const double sine = sin(down);
  const double cosine = cos(down);
  // From the corner, along the hinge and square to it: the seam's head, and the return's foremost point,
  // level with it.
  const Length seam_x = spill + upright * sine;
  const Length seam_y = past + upright * cosine;
  const Length tip_x = seam_x - past * cosine;
  const Length tip_y = seam_y + past * sine;
  CornerShape out;
  out.net.outline = {grid_point({}, {}),         grid_point(spill, {}),    grid_point(spill, past),
                     grid_point(seam_x, seam_y), grid_point(tip_x, tip_y), grid_point({}, past)};
  out.net.roles = {EdgeRole::side, EdgeRole::plain, EdgeRole::plain,
                   EdgeRole::top,  EdgeRole::lap,   EdgeRole::foot};
  out.net.folds.push_back({grid_point({}, past), grid_point(spill, past), Angle::degrees(90), true});
  out.base_point = {to_grid(spill) / 2, to_grid(past) / 2};
  const Angle pitch = place.slope.pitch.value;
  const Vec3 level{0, cos(pitch), -sin(pitch)};
  const Vec3 upright_axis{0, sin(pitch), cos(pitch)};
  out.x_axis = cosine * level + sine * upright_axis;
  out.y_axis = -1.0 * away_from(right);
  out.origin = corner - spill.in_mm() * out.x_axis + past.in_mm() * away_from(right);
  out.figures = seam_figures(past, upright, "back_gutter.past", place.pack);
  out.figures.push_back(Why("spill", "spill", "mm")
                            .term("spill", spill.in_mm(), "mm", "down to the units beside the stack")
                            .gives(spill));
  out.figures.push_back(Why("down", "down", "deg")
                            .term("down", down.in_degrees(), "deg", "how far the ear turns down")
                            .gives(down.in_degrees()));
  return out;
}

job::Piece corner_piece(const Place& place, CornerShape shape, bool right, std::int64_t code) {
  const geom::Box box = geom::bounds(shape.net.outline);
  const Length extent = geom::to_length(box.high.x - box.low.x);
  Vec3 origin = shape.origin + geom::to_length(box.low.x).in_mm() * shape.x_axis;
  Vec3 x_axis = shape.x_axis;
  geom::GridPoint base{shape.base_point.x - box.low.x, shape.base_point.y};
  geom::Net net = geom::at_origin(shape.net);
  if (!right) {
    net = geom::at_origin(geom::mirrored(net));
    base.x = box.high.x - box.low.x - base.x;
    origin = origin + extent.in_mm() * x_axis;
    x_axis = -1.0 * x_axis;
  }
  job::Piece piece = lead_piece("corner", place, std::move(net), base);
  piece.length = extent;
  piece.width = geom::to_length(box.high.y - box.low.y);
  piece.code = code;
  piece.count = 1;
  piece.figures = std::move(shape.figures);
  weigh(piece, place.pack);
  piece.placements.push_back({-2, {origin, x_axis, shape.y_axis}});
  return piece;
}

void add_corner(const Place& place, CornerShape shape, bool right, std::int64_t code, std::int64_t course,
                job::JunctionPlan& plan) {
  job::WorkStep work;
  work.slope = place.slope.name;
  work.junction = place.junction.name;
  work.step = "work.corner";
  work.params = {{"side", right ? "side.right" : "side.left", "key"},
                 {"face", "face." + std::string(name_of(place.face.kind)), "key"}};
  plan.work_before_course.push_back({course, std::move(work), static_cast<std::int64_t>(plan.pieces.size())});
  plan.pieces.push_back(corner_piece(place, std::move(shape), right, code));
}

void say_welding(const Place& place, job::JunctionPlan& plan) {
  plan.findings.push_back({job::Level::note,
                           "corner.welded",
                           {},
                           "",
                           std::nullopt,
                           std::nullopt,
                           "common practice, no source",
                           place.where()});
}

}  // namespace lapwright::pieces

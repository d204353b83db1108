#include "measures.h"

#include <lapwright/base/trig.h>
#include <lapwright/draw/font.h>

#include <cmath>
#include <optional>
#include <utility>

namespace lapwright::sheets {

namespace {

using draw::LineKind;
using draw::Point;
using draw::pt;

constexpr double kTape = 1.7;     // a tape end, mm of paper
constexpr double kMasonry = 100;  // of a wall beside the roof, as roof_view() draws it
constexpr double kNumber = pt(12);

Point unit_of(Point v) {
  const double length = std::sqrt(v.x * v.x + v.y * v.y);
  return length > 0 ? Point{v.x / length, v.y / length} : Point{1, 0};
}

// A tape end: a bar across the line and the block behind it.
void tape_end(draw::Drawing& out, Point at, Point along, const std::string& tag) {
  const Point side{-along.y * kTape, along.x * kTape};
  draw::Path bar = draw::line(at - side, at + side, LineKind::heavy);
  bar.stroke->weight = 0.6;
  bar.layer = draw::Layer::dimension;
  bar.tag = tag;
  out.add(std::move(bar));
  const Point back = along * (kTape * 0.9);
  draw::Path block =
      draw::polygon({at - side * 0.6, at + side * 0.6, at + side * 0.6 + back, at - side * 0.6 + back});
  block.stroke.reset();
  block.fill = draw::Fill::black();
  block.layer = draw::Layer::dimension;
  block.tag = tag;
  out.add(std::move(block));
}

void measure(draw::Drawing& out, const std::string& place, Point from, Point to, double offset,
             const std::string& text) {
  const std::string tag = "measure/" + place;
  const Point along = unit_of(to - from);
  const Point side{-along.y * offset, along.x * offset};
  draw::Dimension dimension;
  dimension.from = from;
  dimension.to = to;
  dimension.offset = offset;
  dimension.text = text;
  dimension.size = kNumber;
  dimension.weight = draw::Weight::bold;
  dimension.tag = tag;
  out.add(std::move(dimension));
  tape_end(out, from + side, along, tag);
  tape_end(out, to + side, along * -1.0, tag);
}

class OnRoof {
 public:
  OnRoof(draw::Drawing& out, const Sources& sources, const job::Slope& slope, double scale)
      : out_(out), words_(sources), slope_(slope), scale_(scale) {}

  void add() {
    const double width = slope_.width.value.in_mm();
    const double rafter = slope_.rafter.value.in_mm();
    const double beside = 7 + kMasonry * scale_;
    measure(out_, place_in_job(slope_.path, "rafter"), at(0, 0), at(0, rafter), beside,
            words_.tape(slope_.rafter.value));
    measure(out_, place_in_job(slope_.path, "width"), at(0, 0), at(width, 0), -7,
            words_.tape(slope_.width.value));
    for (const job::Junction& junction : slope_.junctions) {
      if (junction.kind == job::JunctionKind::side) side(junction);
      if (junction.kind == job::JunctionKind::stack) stack(junction);
      if (junction.kind == job::JunctionKind::pipe) pipe(junction);
      if (junction.kind == job::JunctionKind::wall) line(junction);
      if (junction.kind == job::JunctionKind::top) top(junction);
    }
  }

  // The chalk lines, each with its running mark where there is room for one.
  void battens(const Sources& sources) {
    double written = -kMarkApart;
    std::size_t number = 0;
    for (const job::SetOut& out : sources.plan.set_out) {
      if (out.slope != slope_.name) continue;
      for (const job::Batten& batten : out.battens) {
        number += 1;
        const double s = batten.mark.in_mm();
        const std::string tag = "batten/" + std::to_string(number);
        draw::Path chalk = draw::line(at(0, s), at(slope_.width.value.in_mm(), s), LineKind::outline);
        chalk.layer = draw::Layer::dimension;
        chalk.tag = tag;
        out_.add(std::move(chalk));
        if (s * scale_ - written < kMarkApart) continue;
        written = s * scale_;
        draw::Text mark;
        mark.text = words_.tape(batten.mark);
        mark.at = at(0, s) + Point{-2 - kMasonry * scale_, 0};
        mark.size = kNumber;
        mark.weight = draw::Weight::bold;
        mark.anchor = draw::Anchor::end;
        mark.seat = draw::Seat::middle;
        mark.layer = draw::Layer::dimension;
        mark.tag = tag;
        out_.add(std::move(mark));
      }
    }
  }

 private:
  static constexpr double kMarkApart = 7;  // of two marks, mm of paper

  draw::Drawing& out_;
  Words words_;
  const job::Slope& slope_;
  double scale_;

  Point at(double u, double s) const { return Point{u, s} * scale_; }

  void side(const job::Junction& junction) {
    const bool left = junction.hand == job::Hand::left;
    const double u = left ? 0 : slope_.width.value.in_mm();
    const double from = junction.from.in_mm();
    const double to = junction.to.value_or(slope_.rafter.value).in_mm();
    const double offset = (left ? 1 : -1) * (7 + kMasonry * scale_);
    if (from > 0) {
      measure(out_, place_in_job(junction.path, "from"), at(u, 0), at(u, from), offset,
              words_.tape(junction.from));
    }
    measure(out_, place_in_job(junction.path, "to"), at(u, 0), at(u, to), offset,
            words_.tape(Length::mm(to)));
  }

  void top(const job::Junction& junction) {
    const double s = slope_.rafter.value.in_mm();
    const double to = junction.to.value_or(slope_.width.value).in_mm();
    const double offset = 7 + kMasonry * scale_;
    if (junction.from.in_mm() > 0) {
      measure(out_, place_in_job(junction.path, "from"), at(0, s), at(junction.from.in_mm(), s), offset,
              words_.tape(junction.from));
    }
    measure(out_, place_in_job(junction.path, "to"), at(0, s), at(to, s), offset,
            words_.tape(Length::mm(to)));
  }

  void stack(const job::Junction& junction) {
    if (!junction.at || !junction.front || !junction.width || !junction.depth) return;
    const double middle = junction.at->in_mm();
    const double front = junction.front->in_mm();
    const double half = junction.width->in_mm() / 2;
    // Level from front to back; on the slope it is longer.
    const double up = junction.depth->in_mm() / cos(slope_.pitch.value);
    measure(out_, place_in_job(junction.path, "at"), at(0, front), at(middle, front), -5,
            words_.tape(*junction.at));
    measure(out_, place_in_job(junction.path, "front"), at(middle, 0), at(middle, front), 0,
            words_.tape(*junction.front));
    measure(out_, place_in_job(junction.path, "width"), at(middle - half, front), at(middle + half, front),
            -5, words_.tape(*junction.width));
    measure(out_, place_in_job(junction.path, "depth"), at(middle + half, front),
            at(middle + half, front + up), -5, words_.tape(*junction.depth));
  }

  void pipe(const job::Junction& junction) {
    if (!junction.at || !junction.up || !junction.diameter) return;
    const double u = junction.at->in_mm();
    const double s = junction.up->in_mm();
    const double half = junction.diameter->in_mm() / 2;
    measure(out_, place_in_job(junction.path, "at"), at(0, s), at(u, s), 0, words_.tape(*junction.at));
    measure(out_, place_in_job(junction.path, "up"), at(u, 0), at(u, s), 0, words_.tape(*junction.up));
    measure(out_, place_in_job(junction.path, "diameter"), at(u - half, s), at(u + half, s), 6,
            words_.tape(*junction.diameter));
  }

  void line(const job::Junction& junction) {
    for (std::size_t i = 0; i < junction.line.size(); ++i) {
      const double u = junction.line[i].u.in_mm();
      const double s = junction.line[i].s.in_mm();
      const std::string place = place_in_job(junction.path, "line") + "[" + std::to_string(i) + "]";
      measure(out_, place + "[0]", at(0, s), at(u, s), 0, words_.tape(junction.line[i].u));
      measure(out_, place + "[1]", at(u, 0), at(u, s), 0, words_.tape(junction.line[i].s));
    }
  }
};

}  // namespace

std::string place_in_job(const std::string& path, std::string_view key) {
  std::string out = path.starts_with("$.") ? path.substr(2) : path;
  if (!key.empty()) out += (out.empty() ? "" : ".") + std::string(key);
  return out;
}

void add_roof_measures(draw::Drawing& out, const Sources& sources, const job::Slope& slope, double scale) {
  OnRoof roof(out, sources, slope, scale);
  roof.add();
  roof.battens(sources);
}

void add_wall_measures(draw::Drawing& out, const Sources& sources, const Wall& wall, double scale) {
  if (wall.joints.empty()) return;
  const Words words(sources);
  const double offset = 6 * wall.side;
  const job::Wall& masonry = wall.junction.wall;
  const std::string place = place_in_job(wall.junction.path, "wall");
  const double first = masonry.first_joint ? masonry.first_joint->value.in_mm() : wall.joints.front();
  if (masonry.first_joint) {
    measure(out, place + ".first_joint", {0, 0}, Point{0, first} * scale, offset,
            words.tape(Length::mm(first)));
  }
  if (masonry.course) {
    const double course = masonry.course->value.in_mm();
    const double low = wall.joints.front();
    measure(out, place + ".course", Point{0, low} * scale, Point{0, low + course} * scale, offset,
            words.tape(masonry.course->value));
  }
}

draw::Drawing side_view(const Sources& sources, const job::Slope& slope, double scale) {
  const Words words(sources);
  draw::Drawing out;
  const Angle pitch = slope.pitch.value;
  const double rafter = slope.rafter.value.in_mm();
  const Point top = Point{cos(pitch), sin(pitch)} * (rafter * scale);
  const Point up{-sin(pitch), cos(pitch)};
  constexpr double kThick = 3.2;  // of the roof as a body, mm of paper
  draw::Path body = draw::polygon({{0, 0}, top, top + up * -kThick, up * -kThick}, LineKind::outline);
  body.fill = draw::Fill::hatched(draw::HatchKind::timber);
  out.add(std::move(body));
  draw::Path cover = draw::line({0, 0}, top, LineKind::heavy);
  cover.stroke->weight = 1.0;
  out.add(std::move(cover));
  out.add(draw::line({0, 0}, {top.x, 0}, LineKind::axis));
  out.add(draw::line({top.x, 0}, top, LineKind::axis));
  measure(out, place_in_job(slope.path, "rafter"), {0, 0}, top, 6, words.tape(slope.rafter.value));

  const std::string tag = "measure/" + place_in_job(slope.path, "pitch");
  const double radius = std::min(24.0, std::max(10.0, top.x * 0.5));
  draw::Path arc = draw::arc({0, 0}, radius, 0, pitch.in_degrees(), LineKind::heavy);
  arc.stroke->weight = 0.6;
  arc.layer = draw::Layer::dimension;
  arc.tag = tag;
  out.add(std::move(arc));
  draw::Text angle;
  angle.text = words.value(pitch.in_degrees(), "deg", ShownHow::fine);
  const Angle half = Angle::degrees(pitch.in_degrees() / 2);
  angle.at = Point{cos(half), sin(half)} * (radius + 2.5);
  angle.size = kNumber;
  angle.weight = draw::Weight::bold;
  angle.seat = draw::Seat::middle;
  angle.on_white = true;
  angle.layer = draw::Layer::dimension;
  angle.tag = tag;
  out.add(std::move(angle));
  return out;
}

draw::Drawing eaves_view(const Sources& sources, const job::Slope& slope, double scale) {
  const Words words(sources);
  draw::Drawing out;
  const Angle pitch = slope.pitch.value;
  const Point along{cos(pitch), sin(pitch)};
  const Point up{-sin(pitch), cos(pitch)};
  const double past = slope.overhang.value_or(Length{}).in_mm();
  const double thick = finished_face(slope);
  const double length = slope.covering.length.value.in_mm();
  const auto at = [&](double s, double n) { return (along * s + up * n) * scale; };
  // The fascia stands upright where the unit leaves it.
  const Point lip = at(past, 0);
  draw::Path fascia = draw::polygon(
      {lip, lip + Point{22 * scale, 0}, lip + Point{22 * scale, -170 * scale}, lip + Point{0, -170 * scale}});
  fascia.fill = draw::Fill::hatched(draw::HatchKind::timber);
  out.add(std::move(fascia));
  draw::Path board = draw::polygon(
      {at(past + 24, 0), at(length * 1.1, 0), at(length * 1.1, -40), at(past + 40, -40)}, LineKind::thin);
  out.add(std::move(board));
  draw::Path unit =
      draw::polygon({at(0, 0), at(length, 0), at(length, thick), at(0, thick)}, LineKind::outline);
  unit.fill = draw::Fill::white();
  out.add(std::move(unit));
  measure(out, place_in_job(slope.path, "overhang"), at(0, thick), at(past, thick), 6,
          words.tape(Length::mm(past)));
  return out;
}

draw::Drawing unit_view(const Sources& sources, const job::Slope& slope, double scale) {
  const Words words(sources);
  draw::Drawing out;
  const job::Covering& covering = slope.covering;
  const double length = covering.length.value.in_mm();
  const double width = covering.width.value.in_mm();
  const double thick = covering.thickness.value.in_mm();
  const double camber = covering.camber.value.in_mm();
  const std::string place = place_in_job(slope.path, "covering");
  const auto at = [&](double x, double y) { return Point{x, y} * scale; };
  out.add(draw::polygon({at(0, 0), at(width, 0), at(width, length), at(0, length)}, LineKind::outline));
  const double hole = std::min(30.0, width / 4);
  const double down = covering.kind == job::CoveringKind::slate && covering.nailing == job::Nailing::centre
                          ? length / 2
                          : length - 30;
  for (const double x : {hole, width - hole}) out.add(draw::circle(at(x, down), 0.8, LineKind::thin));
  measure(out, place + ".width", at(0, 0), at(width, 0), -6, words.tape(covering.width.value));
  measure(out, place + ".length", at(0, 0), at(0, length), 6, words.tape(covering.length.value));
  // Its edge, to the right.
  const double edge = width + 22 / scale;
  const double bulge = length > 0 ? 2 * camber / length : 0;
  draw::Path side;
  draw::Contour contour;
  contour.closed = true;
  contour.vertices = {{at(edge, 0), 0},
                      {at(edge + thick, 0), bulge},
                      {at(edge + thick, length), 0},
                      {at(edge, length), -bulge}};
  side.contours.push_back(std::move(contour));
  out.add(std::move(side));
  measure(out, place + ".thickness", at(edge, 0), at(edge + thick, 0), -6,
          words.tape(covering.thickness.value));
  measure(out, place + ".camber", at(edge + thick, length / 2), at(edge + thick + camber, length / 2), 6,
          words.tape(covering.camber.value));
  return out;
}

draw::Drawing courses_view(const Sources& sources, const job::Slope& slope, double scale) {
  const Words words(sources);
  draw::Drawing out;
  const job::SetOut* set_out = set_out_of(sources.plan, slope.name);
  if (set_out == nullptr || set_out->gauge.in_mm() <= 0) return out;
  const double gauge = set_out->gauge.in_mm();
  const double length =
      set_out->lengths.empty() ? slope.covering.length.value.in_mm() : set_out->lengths.front().in_mm();
  const double thick = finished_face(slope);
  const double fall = thick / gauge;
  const auto at = [&](double s, double n) { return Point{s, n} * scale; };
  constexpr int kCourses = 4;
  for (int k = 0; k < kCourses; ++k) {
    const double tail = k * gauge;
    draw::Path unit = draw::polygon({at(tail, 0), at(tail, thick), at(tail + length, thick - fall * length),
                                     at(tail + length, -fall * length)},
                                    LineKind::outline);
    unit.fill = k == 0 || k == 2 ? draw::Fill::level(0.93) : draw::Fill::white();
    out.add(std::move(unit));
  }
  const std::string place = place_in_job(slope.path, "covering");
  measure(out, place + ".max_gauge", at(gauge, thick), at(2 * gauge, thick), 7,
          words.tape(Length::mm(gauge)));
  const double lap = length - 2 * gauge;
  if (lap > 0) {
    measure(out, place + ".headlap", at(2 * gauge, -fall * length), at(length, -fall * length), -7,
            words.tape(Length::mm(lap)));
  }
  return out;
}

draw::Drawing gap_view(const Sources& sources, const job::Slope& slope, const job::Junction& junction,
                       double scale) {
  const Words words(sources);
  draw::Drawing out;
  if (junction.gaps.empty()) return out;
  const double gap = junction.gaps.front().width.value.in_mm();
  const double thick = finished_face(slope);
  constexpr double kShown = 120;  // of the units
  constexpr double kWall = 60;
  constexpr double kHigh = 110;
  const double side = junction.kind == job::JunctionKind::side && junction.hand == job::Hand::right ? -1 : 1;
  const auto at = [&](double x, double z) { return Point{side * x, z} * scale; };
  draw::Path wall = draw::polygon({at(-kWall, -35), at(0, -35), at(0, kHigh), at(-kWall, kHigh)});
  if (junction.wall.kind != job::WallKind::render) {
    wall.fill = draw::Fill::hatched(junction.wall.kind == job::WallKind::stone ? draw::HatchKind::stone
                                                                               : draw::HatchKind::brick);
  }
  out.add(std::move(wall));
  for (int layer = 0; layer < 2; ++layer) {
    const double low = layer == 0 ? -thick : 0;
    draw::Path unit = draw::polygon(
        {at(gap, low), at(gap + kShown, low), at(gap + kShown, low + thick), at(gap, low + thick)});
    unit.fill = draw::Fill::white();
    out.add(std::move(unit));
  }
  std::string place = place_in_job(junction.path, "gap");
  if (junction.gaps.front().at) place += "[0].width";
  measure(out, place, at(0, thick), at(gap, thick), side * 10, words.tape(junction.gaps.front().width.value));
  return out;
}

}  // namespace lapwright::sheets

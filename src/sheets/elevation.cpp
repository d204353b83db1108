#include "elevation.h"

#include <lapwright/draw/expand.h>
#include <lapwright/draw/font.h>
#include <lapwright/draw/symbols.h>

#include <algorithm>
#include <cmath>

namespace lapwright::sheets {

namespace {

using draw::LineKind;
using draw::Point;
using draw::pt;

constexpr double kBrickLong = 225;    // with its perp: how a wall is drawn, not a measure to cut by
constexpr double kChainOffset = 6;    // of the heights from the wall's end, mm of paper
constexpr double kRingAir = 3;        // between a ring and what it stands beside, mm of paper
constexpr double kBandUpright = 330;  // of wall that is drawn above the roof

class Elevation {
 public:
  Elevation(const Sources& sources, const Wall& wall, const ElevationView& view)
      : sources_(sources), words_(sources), wall_(wall), view_(view) {}

  draw::Drawing draw() {
    masonry();
    units();
    flashings();
    soakers();
    others();
    water_line();
    if (view_.heights_at_steps) {
      heights_at_steps();
    } else {
      heights_in_one_chain();
    }
    runs();
    if (view_.marks) marks();  // under the texts, which clear their own ground
    out_.add(notes_);
    return std::move(out_);
  }

 private:
  const Sources& sources_;
  Words words_;
  const Wall& wall_;
  const ElevationView& view_;
  draw::Drawing out_;
  draw::Drawing notes_;  // numbers, painted last

  Point at(double s, double n) const { return wall_.at(s, n) * view_.scale; }
  Point at(geom::Vec3 p) const { return wall_.at(p) * view_.scale; }
  // In the wall's own plane: x up the roof, level; z upright.
  Point level(double x, double z) const { return Point{wall_.side * x, z} * view_.scale; }
  double low() const { return std::max(view_.stretch.low, wall_.from); }
  double high() const { return std::min(view_.stretch.high, wall_.to); }

  // Bed joints through and beyond those that are stepped into.
  std::vector<double> beds(double least, double most) const {
    std::vector<double> z = wall_.joints;
    if (z.empty()) return z;
    const double course = wall_.junction.wall.course
                              ? wall_.junction.wall.course->value.in_mm()
                              : (z.size() > 1 ? z[1] - z[0] : sources_.pack.length("wall.course").in_mm());
    while (z.front() > least) z.insert(z.begin(), z.front() - course);
    while (z.back() < most) z.push_back(z.back() + course);
    return z;
  }

  void masonry() {
    const double tangent = wall_.sine / wall_.cosine;
    const double left = (low() - wall_.from) * wall_.cosine;
    const double right = (high() - wall_.from) * wall_.cosine;
    if (wall_.joints.empty()) {
      draw::Path band = draw::polygon(
          {level(left, left * tangent), level(right, right * tangent),
           level(right, right * tangent + kBandUpright), level(left, left * tangent + kBandUpright)},
          LineKind::thin);
      if (wall_.junction.wall.kind != job::WallKind::render)
        band.fill = draw::Fill::hatched(draw::HatchKind::stone);
      out_.add(std::move(band));
      return;
    }
    const std::vector<double> z = beds(left * tangent, right * tangent + kBandUpright);
    const auto first = std::find(z.begin(), z.end(), wall_.joints.front());
    const auto from_first = static_cast<std::size_t>(first - z.begin()) + z.size() % 2;
    for (std::size_t i = 0; i + 1 < z.size(); ++i) {
      // Each course of bricks from the edge of the band down to the roof's line.
      const double begin = std::max(left, (z[i] - kBandUpright) / tangent);
      const double end_low = std::min(right, z[i] / tangent);
      const double end_high = std::min(right, z[i + 1] / tangent);
      if (end_high <= begin) continue;
      const double z_low = std::max(z[i], begin * tangent);
      std::vector<Point> course{level(begin, z_low)};
      if (end_low > begin) course.push_back(level(end_low, z[i]));
      if (end_high >= right && end_low < right) course.push_back(level(right, right * tangent));
      course.push_back(level(end_high, z[i + 1]));
      course.push_back(level(begin, z[i + 1]));
      out_.add(draw::polygon(course, LineKind::thin));
      const bool half = (i + z.size() - from_first) % 2 != 0;  // the bond goes on from page to page
      const double shift = half ? kBrickLong / 2 : 0;
      for (double x = std::ceil((begin - shift) / kBrickLong) * kBrickLong + shift; x < end_high;
           x += kBrickLong) {
        if (x <= begin + 1 || x >= right - 1) continue;
        const double foot = std::max(z[i], x * tangent);
        out_.add(draw::line(level(x, foot), level(x, z[i + 1]), LineKind::thin));
      }
    }
  }

  // Courses in side view: each unit rests on the one below, so it lies flatter than the rafter by thickness
  // over gauge.
  void units() {
    const job::SetOut& set = *wall_.set_out;
    const double t = wall_.rows_thick;
    for (std::size_t k = 0; k < set.tails.size(); ++k) {
      double length = set.lengths.empty() ? 0 : set.lengths.front().in_mm();
      for (std::size_t i = 0; i < set.lengths.size() && i < set.length_from_course.size(); ++i) {
        if (set.length_from_course[i] <= static_cast<std::int64_t>(k)) length = set.lengths[i].in_mm();
      }
      const double tail = set.tails[k].in_mm();
      const double gauge = k + 1 < set.tails.size() ? set.tails[k + 1].in_mm() - tail : set.gauge.in_mm();
      const double head = std::min(tail + length, wall_.slope->rafter.value.in_mm());
      if (tail < view_.stretch.low - 1 || tail > view_.stretch.high || gauge <= 0) continue;
      const double fall = t / gauge * (head - tail);
      draw::Path unit =
          draw::polygon({at(tail, 0), at(tail, t), at(head, t - fall), at(head, -fall)}, LineKind::outline);
      unit.fill = draw::Fill::white();
      unit.stroke = draw::Stroke{LineKind::thin, 0};
      out_.add(std::move(unit));
    }
  }

  std::vector<Point> clipped(const std::vector<geom::Vec3>& ring) const {
    std::vector<geom::Vec3> in = ring;
    // The wall's own ends are plumb and so lean past its stretch: only a part of a wall is cut off.
    for (const double limit : {view_.stretch.low, view_.stretch.high}) {
      if (limit <= wall_.from || limit >= wall_.to) continue;
      const double sign = limit == view_.stretch.low ? 1 : -1;
      std::vector<geom::Vec3> kept;
      for (std::size_t i = 0; i < in.size(); ++i) {
        const geom::Vec3 a = in[i];
        const geom::Vec3 b = in[(i + 1) % in.size()];
        const double da = sign * (a.y - limit);
        const double db = sign * (b.y - limit);
        if (da >= 0) kept.push_back(a);
        if ((da > 0 && db < 0) || (da < 0 && db > 0)) kept.push_back(a + (da / (da - db)) * (b - a));
      }
      in = std::move(kept);
    }
    std::vector<Point> out;
    for (const geom::Vec3& p : in) out.push_back(at(p));
    return out;
  }

  void flashings() {
    for (const PlacedPiece& placed : wall_.flashings) {
      std::vector<Point> ring = clipped(corners(placed, 0));
      if (ring.size() < 3) continue;
      draw::Path face = draw::polygon(ring, LineKind::outline);
      face.stroke = draw::Stroke{LineKind::outline, 0.5};
      face.fill = draw::Fill::level(0.88);
      face.tag = tag_of(placed);
      out_.add(std::move(face));
    }
  }

  // What shows of each soaker's upstand below the next one: its tail and its top edge.
  void soakers() {
    for (std::size_t i = 0; i < wall_.soakers.size(); ++i) {
      const PlacedPiece& placed = wall_.soakers[i];
      const Stretch own = stretch_of(placed);
      double top = 0;
      for (std::size_t panel = 1; panel < placed.panels.size(); ++panel) {
        for (const geom::Vec3& p : corners(placed, panel)) top = std::max(top, p.z);
      }
      double end = own.high;
      if (i + 1 < wall_.soakers.size()) end = std::min(end, stretch_of(wall_.soakers[i + 1]).low);
      const double begin = std::max(own.low, wall_.from);
      if (begin < view_.stretch.low || end > view_.stretch.high || end <= begin) continue;
      draw::Path edge = draw::polyline({at(begin, 0), at(begin, top), at(end, top)}, LineKind::hidden);
      edge.tag = tag_of(placed);
      out_.add(std::move(edge));
    }
  }

  // Pieces of any other kind: what of them faces the eye, and the edges of the rest.
  void others() {
    for (const PlacedPiece& placed : wall_.others) {
      for (std::size_t panel = 0; panel < placed.panels.size(); ++panel) {
        const double facing = placed.frames[panel].normal().x * wall_.side;
        const std::vector<Point> ring = clipped(corners(placed, panel));
        if (ring.size() < 3) continue;
        constexpr double kOnEdge = 0.05;
        draw::Path path = draw::polygon(ring, facing > kOnEdge ? LineKind::outline : LineKind::hidden);
        if (facing > kOnEdge) path.fill = draw::Fill::level(0.88);
        path.tag = tag_of(placed);
        out_.add(std::move(path));
      }
    }
  }

  void water_line() {
    if (wall_.joints.empty()) return;
    const double n = wall_.face + sources_.pack.length("wall.water_line").in_mm();
    out_.add(draw::line(at(low(), n), at(high(), n), LineKind::axis));
  }

  void heights_at_steps() {
    for (const PlacedPiece& placed : wall_.flashings) {
      if (placed.piece->kind != "step-flashing") continue;
      for (const geom::Fold& fold : placed.piece->net.folds) {
        const geom::Vec3 a =
            placed.frames[0].at(geom::to_length(fold.from.x).in_mm(), geom::to_length(fold.from.y).in_mm());
        const geom::Vec3 b =
            placed.frames[0].at(geom::to_length(fold.to.x).in_mm(), geom::to_length(fold.to.y).in_mm());
        const geom::Vec3 outer = a.y < b.y ? a : b;
        const bool cut_off = view_.stretch.high < wall_.to && outer.y > view_.stretch.high;
        if (outer.y < view_.stretch.low || cut_off) continue;
        draw::Text height;
        height.text = words_.tape(Length::mm(wall_.at(outer).y));
        height.at = at(outer) + Point{-1.5 * wall_.side, 0};
        height.size = pt(11);
        height.anchor = wall_.side > 0 ? draw::Anchor::end : draw::Anchor::start;
        height.seat = draw::Seat::middle;
        height.on_white = true;
        height.layer = draw::Layer::dimension;
        if (std::any_of(said_.begin(), said_.end(), [&](double z) {
              return std::abs(z - height.at.y) < draw::line_height(height.size) * 0.75;
            })) {
          continue;
        }
        said_.push_back(height.at.y);
        notes_.add(std::move(height));
      }
    }
  }
  std::vector<double> said_;

  void heights_in_one_chain() {
    if (wall_.joints.empty()) return;
    // As many as can be read one above another.
    const double line = draw::line_height(pt(11));
    const double room = wall_.joints.back() * view_.scale;
    const auto fit = static_cast<std::size_t>(std::max(1.0, room / line));
    const std::size_t every = (wall_.joints.size() + fit - 1) / fit;
    draw::Chain chain;
    chain.zero = {0, 0};
    chain.towards = {0, 1};
    chain.offset = kChainOffset * wall_.side;
    chain.size = pt(11);
    chain.tag = "lengths";
    const double drawn = (high() - wall_.from) * wall_.sine + kBandUpright;  // a part of a wall shows no more
    for (std::size_t i = 0; i < wall_.joints.size(); i += every) {
      if (view_.stretch.high < wall_.to && wall_.joints[i] > drawn) break;
      chain.stops.push_back(
          {Point{0, wall_.joints[i]} * view_.scale, words_.tape(Length::mm(wall_.joints[i]))});
    }
    notes_.add(std::move(chain));
  }

  // Where each flashing begins and ends, off a tape hooked at the wall's lower end.
  void runs() {
    const double under = -wall_.rows_thick * 3;
    draw::Chain chain;
    chain.zero = at(wall_.from, under);
    chain.towards = at(wall_.from + 100, under);
    double widest = 0;
    for (const PlacedPiece& placed : wall_.flashings) {
      widest = std::max(widest, draw::ring_radius(placed.piece->mark));
    }
    chain.tag = "lengths";
    chain.offset = -(view_.marks ? 2 * widest + 2 * kRingAir : 4) * wall_.side;
    chain.size = pt(11);
    std::vector<double> stops;
    for (const PlacedPiece& placed : wall_.flashings) {
      const Stretch own = stretch_of(placed);
      if (own.low > wall_.from + 1) stops.push_back(own.low);
      stops.push_back(std::min(own.high, wall_.to));
    }
    if (wall_.flashings.empty()) stops.push_back(wall_.to);
    std::sort(stops.begin(), stops.end());
    const bool whole = view_.stretch.low <= wall_.from && view_.stretch.high >= wall_.to;
    if (whole) {
      for (const double s : stops)
        chain.stops.push_back({at(s, under), words_.tape(Length::mm(s - wall_.from))});
      notes_.add(std::move(chain));
      return;
    }
    for (const PlacedPiece& placed : wall_.flashings) {
      const Stretch own = stretch_of(placed);
      if (own.low > wall_.from + 1) run_end(own.low, "sheet.begins", placed.piece->mark, 17);
      run_end(std::min(own.high, wall_.to), "sheet.ends", placed.piece->mark, 9);
    }
  }

  void run_end(double s, std::string_view key, const std::string& mark, double down) {
    if (s < view_.stretch.low || s > view_.stretch.high) return;
    const Point foot = at(s, -wall_.rows_thick * 3);
    const Point square{wall_.side * wall_.sine, -wall_.cosine};
    draw::Text text;
    text.text = words_.say(key, {{"mark", mark, ""}, {"at", words_.tape(Length::mm(s - wall_.from)), ""}});
    text.size = pt(11);
    text.anchor = wall_.side > 0 ? draw::Anchor::start : draw::Anchor::end;
    text.seat = draw::Seat::top;
    text.layer = draw::Layer::dimension;
    const std::vector<draw::Box> taken = text_boxes(notes_);
    for (int tries = 0; tries < 8; ++tries, down += 6) {
      text.at = foot + square * (down + 1) + Point{wall_.side, 0};
      draw::Drawing alone;
      alone.add(text);
      if (clear_of(taken, draw::extents(alone))) break;
    }
    notes_.add(draw::line(foot, foot + square * down, LineKind::dimension));
    notes_.add(std::move(text));
  }

  static std::vector<draw::Box> text_boxes(const draw::Drawing& drawing) {
    std::vector<draw::Box> out;
    for (const draw::Plain& thing : draw::expand(drawing)) {
      if (const auto* text = std::get_if<draw::PlainText>(&thing)) out.push_back(text->box());
    }
    return out;
  }

  static bool clear_of(const std::vector<draw::Box>& taken, const draw::Box& box) {
    constexpr double kAir = 0.8;
    const draw::Box wide{box.left - kAir, box.bottom - kAir, box.right + kAir, box.top + kAir};
    return std::none_of(taken.begin(), taken.end(), [&](const draw::Box& b) { return b.overlaps(wide); });
  }

  void marks() {
    std::vector<draw::Box> taken = text_boxes(notes_);
    double last_end = -1e9;
    for (const PlacedPiece& placed : wall_.flashings) {
      const Stretch own = stretch_of(placed);
      const double begin = std::max({own.low, view_.stretch.low, last_end});
      const double end = std::min(own.high, view_.stretch.high);
      last_end = own.high;
      constexpr double kWorthAMark = 250;
      if (end <= begin || (view_.heights_at_steps && end - begin < kWorthAMark)) continue;
      const double radius = draw::ring_radius(placed.piece->mark);
      // Square to the roof: beside each step stands its height, below the whole wall the run of the pieces.
      const double way = view_.heights_at_steps ? 1 : -1;
      const Point up = Point{-wall_.side * wall_.sine, wall_.cosine} * way;
      const double least = view_.heights_at_steps ? kBandUpright * wall_.cosine * view_.scale + 10
                                                  : wall_.rows_thick * 3 * view_.scale + kRingAir;
      Point on{};
      Point ring{};
      draw::Box box;
      // Clear of the masonry and of every number: first along the piece, then further away.
      constexpr int kTries = 180;
      bool found = false;
      constexpr double kAlong[] = {0.5, 0.6, 0.4, 0.7, 0.8, 0.9};
      for (int tries = 0; tries < kTries; ++tries) {
        const int row = tries / 6;
        const double s = begin + (end - begin) * kAlong[tries % 6];
        const double away = least + radius + 3.0 * row;
        on = at(s, wall_.face + sources_.pack.length("wall.water_line").in_mm() / 2);
        ring = at(s, wall_.face) + up * away;
        box = {ring.x - radius, ring.y - radius, ring.x + radius, ring.y + radius};
        found = clear_of(taken, box);
        if (found) break;
      }
      if (!found) continue;  // the page of the piece itself has it
      taken.push_back(box);
      draw::Drawing named;
      named.add(draw::line(on, ring, LineKind::thin));
      draw::Path dot = draw::circle(on, 0.7, LineKind::thin);
      dot.fill = draw::Fill::black();
      named.add(std::move(dot));
      named.add(draw::ringed_mark(ring, placed.piece->mark));
      out_.add(named, {}, "mark/" + placed.piece->mark);
    }
  }
};

}  // namespace

draw::Drawing elevation(const Sources& sources, const Wall& wall, const ElevationView& view) {
  return Elevation(sources, wall, view).draw();
}

}  // namespace lapwright::sheets

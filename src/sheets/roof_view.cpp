#include "roof_view.h"

#include "labels.h"
#include "roof_seen.h"

#include <lapwright/base/trig.h>
#include <lapwright/draw/expand.h>
#include <lapwright/draw/font.h>
#include <lapwright/draw/symbols.h>
#include <lapwright/job/join.h>

#include <algorithm>
#include <array>
#include <optional>
#include <set>

namespace lapwright::sheets {

namespace {

using draw::LineKind;
using draw::Point;
using draw::pt;
using geom::Vec3;

constexpr double kMasonry = 100;  // of a wall is drawn beside the roof, mm

class RoofView {
 public:
  // `around`: the junction that is shown alone; without one, the whole slope.
  RoofView(const Sources& sources, const job::Slope& slope, double scale, const job::Junction* around,
           double ring = pt(18))
      : sources_(sources),
        words_(sources),
        slope_(slope),
        scale_(scale),
        around_(around),
        ring_(ring),
        roof_(sources, slope) {}

  draw::Drawing draw() {
    if (around_ != nullptr && !find_window()) return {};
    lead(true);
    draw_units(sources_, slope_, scale_, window_, out_);
    edge();
    hidden();
    walls();
    stacks();  // cut off at the roof: what stands against their fronts is seen before them
    lead(false);
    on_edge();
    if (around_ == nullptr) {
      lengths();
    } else {
      lengths_around();
    }
    marks();
    out_.add(notes_);
    return std::move(out_);
  }

 private:
  const Sources& sources_;
  Words words_;
  const job::Slope& slope_;
  double scale_;
  const job::Junction* around_;
  double ring_;                      // size of the marks in their rings
  std::optional<draw::Box> window_;  // of (u, s) that is shown; all when unset
  draw::Box lead_;                   // (u, s) of the lead of the junction that is shown alone
  RoofSeen roof_;
  draw::Drawing out_;
  draw::Drawing notes_;

  Point at(double u, double s) const { return Point{u, s} * scale_; }
  std::vector<Point> flat(const std::vector<Vec3>& ring) const {
    std::vector<Point> out;
    for (const Vec3& p : ring) out.push_back(at(p.x, p.y));
    return out;
  }

  std::vector<Point> shown(const std::vector<Point>& ring) const {
    return kept_on_paper(ring, window_, scale_);
  }
  bool named(const job::Piece& piece) const { return around_ == nullptr || piece.junction == around_->name; }

  bool find_window() {
    for (const SeenPanel& seen : roof_.panels()) {
      if (!named(*seen.piece->piece)) continue;
      for (const Vec3& p : seen.ring) lead_.take(Point{p.x, p.y});
    }
    if (lead_.empty()) return false;
    draw::Box box = lead_;
    if (const auto stack = roof_.footprint(*around_); stack && around_->kind == job::JunctionKind::stack)
      box.take(*stack);
    constexpr double kMore = 120;  // of roof beside it
    window_ = {box.left - kMore, box.bottom - kMore, box.right + kMore, box.top + kMore};
    return true;
  }

  void edge() {
    if (window_) return;
    std::vector<Point> ring;
    for (const Point& p : roof_.outline()) ring.push_back(p * scale_);
    out_.add(draw::polygon(ring, LineKind::outline));
    for (const job::SlopeJoin& join : roof_.joins()) {
      const job::JoinSide& side = join.line.sides[join.side];
      if (join.line.join->kind == job::JoinKind::ridge) continue;
      const double run = side.run.in_mm();
      const double end = side.hand == job::Hand::left ? 0 : slope_.width.value.in_mm();
      draw::Path line = draw::line(at(end, 0), at(end + side.drift * run, run), LineKind::heavy);
      line.stroke = draw::Stroke{LineKind::heavy, 0.7};
      out_.add(std::move(line));
    }
  }

  draw::Fill hatch(const job::Junction& junction) const {
    return draw::Fill::hatched(junction.wall.kind == job::WallKind::stone ? draw::HatchKind::stone
                                                                          : draw::HatchKind::brick);
  }

  void walls() {
    for (const job::Junction& junction : roof_.junctions()) {
      if (junction.kind == job::JunctionKind::stack) continue;
      for (const job::Face& face : straight_faces(slope_, junction)) {
        const job::FaceFrame frame = job::frame_of(face, slope_.pitch.value);
        const Vec3 end = frame.foot + frame.length.in_mm() * frame.along;
        const Vec3 behind = -kMasonry * frame.away;
        const std::vector<Point> ring = shown(flat({frame.foot, end, end + behind, frame.foot + behind}));
        if (ring.empty()) continue;
        draw::Path wall = draw::polygon(ring);
        wall.fill = hatch(junction);
        wall.tag = "at/" + junction.name;
        out_.add(std::move(wall));
      }
    }
  }

  // The masonry cut off at the roof.
  void stacks() {
    for (const job::Junction& junction : roof_.junctions()) {
      if (junction.kind == job::JunctionKind::pipe && junction.at && junction.up && junction.diameter) {
        const double radius = junction.diameter->in_mm() / 2;
        // A pipe stands upright: the roof cuts it in an oval.
        const double tall = radius / cos(slope_.pitch.value);
        std::vector<Point> oval;
        for (int i = 0; i < 36; ++i) {
          oval.push_back(at(junction.at->in_mm() + radius * cos_deg(10 * i),
                            junction.up->in_mm() + tall * sin_deg(10 * i)));
        }
        oval = shown(oval);
        if (oval.empty()) continue;
        draw::Path pipe = draw::polygon(oval, LineKind::heavy);
        pipe.fill = draw::Fill::white();
        pipe.tag = "at/" + junction.name;
        out_.add(std::move(pipe));
      }
      if (junction.kind != job::JunctionKind::stack || !junction.at || !junction.width) continue;
      const std::optional<draw::Box> box = roof_.footprint(junction);
      if (!box) continue;
      const std::vector<Point> ring = shown({at(box->left, box->bottom), at(box->right, box->bottom),
                                             at(box->right, box->top), at(box->left, box->top)});
      if (ring.empty()) continue;
      draw::Path stack = draw::polygon(ring, LineKind::heavy);
      stack.fill = hatch(junction);
      stack.tag = "at/" + junction.name;
      out_.add(std::move(stack));
    }
  }

  void lead(bool under) {
    for (const SeenPanel& seen : roof_.panels()) {
      if (seen.facing <= kFacing || seen.under != under) continue;
      const std::vector<Point> ring = shown(flat(seen.ring));
      if (ring.empty()) continue;
      draw::Path path = draw::polygon(ring, LineKind::outline);
      path.stroke = draw::Stroke{LineKind::outline, 0.25};
      path.fill = draw::Fill::level(0.85);
      path.tag = tag_of(*seen.piece);
      out_.add(std::move(path));
      if (seen.piece->piece->wrong) cross_out(ring);
    }
  }

  // Lead that is not to be made.
  void cross_out(const std::vector<Point>& ring) {
    if (ring.size() < 4) return;
    for (const std::size_t i : {0U, 1U}) {
      draw::Path line = draw::line(ring[i], ring[i + ring.size() / 2], LineKind::heavy);
      line.tag = "wrong";
      out_.add(std::move(line));
    }
  }

  // Lead below the units, over them in dashes.
  void hidden() {
    for (const SeenPanel& seen : roof_.panels()) {
      if (seen.facing <= kFacing || !seen.under) continue;
      const std::vector<Point> ring = shown(flat(seen.ring));
      if (ring.empty()) continue;
      draw::Path path = draw::polygon(ring, LineKind::hidden);
      path.tag = tag_of(*seen.piece);
      out_.add(std::move(path));
    }
  }

  // Upstands along the fall line show their edge; those behind a stack are out of sight.
  void on_edge() {
    for (const SeenPanel& seen : roof_.panels()) {
      if (seen.facing > kFacing) continue;
      // A panel on edge has no area to be cut by a window.
      const bool outside =
          window_ && std::any_of(seen.ring.begin(), seen.ring.end(), [&](Vec3 p) {
            return p.x < window_->left || p.x > window_->right || p.y < window_->bottom || p.y > window_->top;
          });
      if (outside) continue;
      draw::Path path = draw::polygon(flat(seen.ring), LineKind::hidden);
      if (seen.facing > -kFacing) path.stroke = draw::Stroke{LineKind::outline, 0.5};
      path.layer = draw::layer_of(seen.facing > -kFacing ? LineKind::outline : LineKind::hidden);
      path.tag = tag_of(*seen.piece);
      out_.add(std::move(path));
    }
  }

  void lengths() {
    const double width = slope_.width.value.in_mm();
    const double rafter = slope_.rafter.value.in_mm();
    std::set<double> across{width};
    std::set<double> up{rafter};
    const auto keep = [](std::set<double>& stops, double at, double end) {
      if (at > 1 && at < end - 1) stops.insert(at);
    };
    draw::Box box;
    for (const Point& p : roof_.outline()) box.take(p);
    if (box.right > width + 1) across.insert(box.right);  // where a valley at the right end reaches the top
    for (const job::Junction& junction : roof_.junctions()) {
      if (junction.kind == job::JunctionKind::pipe && junction.at && junction.up) {
        keep(across, junction.at->in_mm(), width);
        keep(up, junction.up->in_mm(), rafter);
      }
      for (const job::Face& face : straight_faces(slope_, junction)) {
        for (const job::FootPoint& p : {face.from, face.to}) {
          keep(across, p.u.in_mm(), box.right);
          keep(up, p.s.in_mm(), rafter);
        }
        box.take(Point{face.from.u.in_mm(), face.from.s.in_mm()});
      }
    }
    const bool wall_left =
        std::any_of(roof_.junctions().begin(), roof_.junctions().end(), [](const job::Junction& j) {
          return j.kind == job::JunctionKind::side && j.hand == job::Hand::left;
        });
    draw::Chain along;
    along.zero = at(0, 0);
    along.towards = at(100, 0);
    along.offset = -6 - lead_below() * scale_;
    along.size = pt(11);
    along.tag = "lengths";
    for (const double u : across) along.stops.push_back({at(u, 0), words_.tape(Length::mm(u))});
    notes_.add(std::move(along));
    draw::Chain rise;
    rise.zero = at(0, 0);
    rise.towards = at(0, 100);
    rise.offset = 6 + (std::max(-box.left, wall_left ? kMasonry : 0.0))*scale_;
    rise.size = pt(11);
    rise.tag = "lengths";
    for (const double s : up) rise.stops.push_back({at(0, s), words_.tape(Length::mm(s))});
    notes_.add(std::move(rise));
  }

  // Along and up from the left and lower edges of the lead: what it stands round, and its own ends.
  void lengths_around() {
    draw::Box solid;
    if (around_->kind == job::JunctionKind::pipe && around_->at && around_->up) {
      solid.take(Point{around_->at->in_mm(), around_->up->in_mm()});
    } else if (const auto stack = roof_.footprint(*around_)) {
      solid = *stack;
    }
    const auto chain = [&](bool x) {
      const double low = x ? lead_.left : lead_.bottom;
      const double high = x ? lead_.right : lead_.top;
      std::set<double> stops{high};
      for (const double at : x ? std::array{solid.left, solid.right} : std::array{solid.bottom, solid.top}) {
        if (!solid.empty() && at > low + 1 && at < high - 1) stops.insert(at);
      }
      draw::Chain out;
      out.zero = at(lead_.left, lead_.bottom);
      out.towards = out.zero + (x ? Point{1, 0} : Point{0, 1});
      out.offset =
          (x ? -1 : 1) * (6 + (x ? lead_.bottom - window_->bottom : lead_.left - window_->left) * scale_);
      out.size = pt(11);
      for (const double stop : stops) {
        out.stops.push_back(
            {x ? at(stop, lead_.bottom) : at(lead_.left, stop), words_.tape(Length::mm(stop - low))});
      }
      notes_.add(std::move(out));
    };
    chain(true);
    chain(false);
  }

  // How far lead hangs below the eaves.
  double lead_below() const {
    double low = 0;
    for (const SeenPanel& seen : roof_.panels()) {
      for (const Vec3& p : seen.ring) low = std::max(low, -p.y);
    }
    return low;
  }

  void marks() {
    draw::Box room;
    if (!window_) {
      for (const Point& p : roof_.outline()) room.take(p * scale_);
    }
    room.take(draw::extents_of_points(out_));
    constexpr double kAround = 14;
    room = {room.left - 2, room.bottom - 2, room.right + kAround, room.top + kAround};
    Labels labels(room);
    labels.take_texts(notes_);
    // What a ring must not hide: stacks and pipes, and lead that is seen.
    for (const job::Junction& junction : roof_.junctions()) {
      if (const std::optional<draw::Box> box = roof_.footprint(junction);
          box && junction.kind == job::JunctionKind::stack) {
        labels.take({box->left * scale_, box->bottom * scale_, box->right * scale_, box->top * scale_});
      }
    }
    for (const SeenPanel& seen : roof_.panels()) {
      if (seen.under || seen.facing <= kFacing || !named(*seen.piece->piece)) continue;
      draw::Box box;
      for (const Point& p : flat(seen.ring)) box.take(p);
      if (box.width() < 60 && box.height() < 60) labels.take(box);
    }
    // Each mark once a junction and face.
    std::set<std::string> said;
    const Point middle = window_
                             ? at((window_->left + window_->right) / 2, (window_->bottom + window_->top) / 2)
                             : at(slope_.width.value.in_mm() / 2, slope_.rafter.value.in_mm() / 2);
    for (const SeenPanel& seen : roof_.panels()) {
      const job::Piece& piece = *seen.piece->piece;
      if (!named(piece)) continue;
      if (!said.insert(piece.mark + "\n" + piece.junction + "\n" + piece.face).second) continue;
      const Point on = best_place(piece);
      Point away = on - middle;
      for (const job::Junction& junction : roof_.junctions()) {
        if (junction.name != piece.junction || junction.kind != job::JunctionKind::stack) continue;
        if (const auto box = roof_.footprint(junction)) {
          away = on - Point{(box->left + box->right) / 2, (box->bottom + box->top) / 2} * scale_;
        }
      }
      if (away.x * away.x + away.y * away.y < 1) away = {0, 1};
      if (!labels.mark(notes_, on, piece.mark, 3, away, ring_))
        labels.mark(notes_, on, piece.mark, 3, away, pt(12));
    }
  }

  // The middle of the piece's largest panel that is seen, of the placement in the middle of all.
  Point best_place(const job::Piece& piece) const {
    Point best{};
    double most = -1;
    const std::vector<const PlacedPiece*> all = roof_.placements_of(piece);
    if (all.empty()) return best;
    const PlacedPiece* chosen = all[all.size() / 2];
    for (const SeenPanel& seen : roof_.panels()) {
      if (seen.piece != chosen) continue;
      draw::Box box;
      for (const Vec3& p : seen.ring) box.take(Point{p.x, p.y});
      const double size = box.width() * box.height() * (seen.facing > kFacing ? 1 : 1e-6);
      if (size <= most) continue;
      most = size;
      Vec3 p = middle_of(seen.ring);
      // Not on a hole in the lead.
      const bool holed = std::any_of(seen.piece->panels.begin(), seen.piece->panels.end(),
                                     [](const geom::Panel& panel) { return !panel.holes.empty(); });
      if (holed) p = 0.2 * p + 0.8 * seen.ring.front();
      best = at(p.x, p.y);
    }
    return best;
  }
};

}  // namespace

draw::Drawing roof_view(const Sources& sources, const job::Slope& slope, double scale, double ring) {
  return RoofView(sources, slope, scale, nullptr, ring).draw();
}

draw::Drawing roof_around(const Sources& sources, const job::Slope& slope, const job::Junction& junction,
                          double scale) {
  return RoofView(sources, slope, scale, &junction).draw();
}

}  // namespace lapwright::sheets

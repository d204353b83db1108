#include "roof_view.h"

#include "labels.h"
#include "pages.h"
#include "solid.h"

#include <lapwright/base/trig.h>
#include <lapwright/draw/expand.h>
#include <lapwright/draw/font.h>
#include <lapwright/draw/symbols.h>
#include <lapwright/job/join.h>

#include <algorithm>
#include <set>

namespace lapwright::sheets {

namespace {

using draw::LineKind;
using draw::Point;
using draw::pt;
using geom::Vec3;

constexpr double kMasonry = 100;   // of a wall is drawn beside the roof, mm
constexpr double kFine = 0.09;     // the lines of units, mm of paper
constexpr double kTooDense = 0.9;  // lines nearer than this run together on paper
constexpr double kFacing = 0.05;   // a panel that faces the eye by less is seen on edge

struct Seen {
  const PlacedPiece* piece = nullptr;
  std::vector<Vec3> ring;
  double facing = 0;  // 1: lies flat to the eye; 0: on edge; below: its back is turned
  double height = 0;  // n of its middle
  bool under = false; // below the face of the units
};

class RoofView {
 public:
  RoofView(const Sources& sources, const job::Slope& slope, double scale)
      : sources_(sources),
        words_(sources),
        slope_(slope),
        scale_(scale),
        junctions_(junctions_on(sources.survey, slope)),
        pieces_(placed_on(sources.plan, slope.name)) {
    for (std::size_t i = 0; i < sources.survey.slopes.size(); ++i) {
      if (sources.survey.slopes[i].name == slope.name) joins_ = job::joins_of(sources.survey, i);
    }
  }

  draw::Drawing draw() {
    collect();
    walls();
    lead(true);
    units();
    edge();
    hidden();
    lead(false);
    stacks();
    on_edge();
    lengths();
    marks();
    out_.add(notes_);
    return std::move(out_);
  }

 private:
  const Sources& sources_;
  Words words_;
  const job::Slope& slope_;
  double scale_;
  std::vector<job::Junction> junctions_;
  std::vector<PlacedPiece> pieces_;
  std::vector<job::SlopeJoin> joins_;
  std::vector<Seen> seen_;
  draw::Drawing out_;
  draw::Drawing notes_;

  Point at(double u, double s) const { return Point{u, s} * scale_; }
  std::vector<Point> flat(const std::vector<Vec3>& ring) const {
    std::vector<Point> out;
    for (const Vec3& p : ring) out.push_back(at(p.x, p.y));
    return out;
  }

  void collect() {
    const double face = finished_face(slope_);
    for (const PlacedPiece& piece : pieces_) {
      for (std::size_t i = 0; i < piece.panels.size(); ++i) {
        Seen seen{&piece, corners(piece, i), piece.frames[i].normal().z, 0, false};
        const Vec3 middle = middle_of(seen.ring);
        seen.height = middle.z;
        seen.under = middle.z < face - 0.5;
        seen_.push_back(std::move(seen));
      }
    }
    std::stable_sort(seen_.begin(), seen_.end(), [](const Seen& a, const Seen& b) { return a.height < b.height; });
  }

  // The slope's corners, eaves first, anticlockwise; a valley or hip slants its end.
  std::vector<Point> outline() const {
    const double width = slope_.width.value.in_mm();
    const double rafter = slope_.rafter.value.in_mm();
    std::vector<Point> left{{0, 0}};
    std::vector<Point> right{{width, 0}};
    for (const job::SlopeJoin& join : joins_) {
      const job::JoinSide& side = join.line.sides[join.side];
      if (join.line.join->kind == job::JoinKind::ridge) continue;
      const double run = side.run.in_mm();
      const double end = side.hand == job::Hand::left ? 0 : width;
      (side.hand == job::Hand::left ? left : right).push_back({end + side.drift * run, run});
    }
    for (std::vector<Point>* end : {&left, &right}) {
      if (end->back().y < rafter - 1) end->push_back({end->back().x, rafter});
    }
    std::vector<Point> out = right;
    // Two hips that meet in a point share it.
    for (auto p = left.rbegin(); p != left.rend(); ++p) {
      const Point d = *p - out.back();
      if (d.x * d.x + d.y * d.y > 1) out.push_back(*p);
    }
    return out;
  }

  void edge() {
    std::vector<Point> ring;
    for (const Point& p : outline()) ring.push_back(p * scale_);
    out_.add(draw::polygon(ring, LineKind::outline));
    for (const job::SlopeJoin& join : joins_) {
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
    for (const job::Junction& junction : junctions_) {
      if (junction.kind == job::JunctionKind::stack) continue;
      for (const job::Face& face : straight_faces(slope_, junction)) {
        const job::FaceFrame frame = job::frame_of(face, slope_.pitch.value);
        const Vec3 end = frame.foot + frame.length.in_mm() * frame.along;
        const Vec3 behind = -kMasonry * frame.away;
        draw::Path wall = draw::polygon(flat({frame.foot, end, end + behind, frame.foot + behind}));
        wall.fill = hatch(junction);
        wall.tag = junction.name;
        out_.add(std::move(wall));
      }
    }
  }

  // The masonry cut off at the roof.
  void stacks() {
    for (const job::Junction& junction : junctions_) {
      if (junction.kind == job::JunctionKind::pipe && junction.at && junction.up && junction.diameter) {
        const double radius = junction.diameter->in_mm() / 2;
        // A pipe stands upright: the roof cuts it in an oval.
        const double tall = radius / cos(slope_.pitch.value);
        std::vector<Point> oval;
        for (int i = 0; i < 36; ++i) {
          oval.push_back(at(junction.at->in_mm() + radius * cos_deg(10 * i), junction.up->in_mm() + tall * sin_deg(10 * i)));
        }
        draw::Path pipe = draw::polygon(oval, LineKind::heavy);
        pipe.fill = draw::Fill::white();
        pipe.tag = junction.name;
        out_.add(std::move(pipe));
      }
      if (junction.kind != job::JunctionKind::stack || !junction.at || !junction.width) continue;
      const std::optional<draw::Box> box = footprint(junction);
      if (!box) continue;
      draw::Path stack =
          draw::rectangle(box->left * scale_, box->bottom * scale_, box->width() * scale_, box->height() * scale_,
                          LineKind::heavy);
      stack.fill = hatch(junction);
      stack.tag = junction.name;
      out_.add(std::move(stack));
    }
  }

  std::optional<draw::Box> footprint(const job::Junction& junction) const {
    draw::Box box;
    for (const job::Face& face : straight_faces(slope_, junction)) {
      box.take(Point{face.from.u.in_mm(), face.from.s.in_mm()});
      box.take(Point{face.to.u.in_mm(), face.to.s.in_mm()});
    }
    if (box.empty()) return std::nullopt;
    return box;
  }

  void units() {
    const job::SetOut* set_out = set_out_of(sources_.plan, slope_.name);
    if (set_out == nullptr) return;
    const draw::Box all{-1e6, -1e6, 1e6, 1e6};
    const std::vector<Unit> units = units_of(sources_.plan, slope_, all);
    const double gauge = set_out->gauge.in_mm() * scale_;
    const double wide = slope_.covering.width.value.in_mm() * scale_;
    const bool each = gauge >= kTooDense && wide >= 2 * kTooDense;
    const auto every = static_cast<std::size_t>(gauge > 0 ? std::max(1.0, kTooDense / gauge + 0.999) : 1.0);
    std::size_t row = 0;
    for (std::size_t i = 0; i < units.size(); ++row) {
      std::size_t end = i;
      draw::Path path;
      path.stroke = draw::Stroke{LineKind::thin, kFine};
      path.fill = draw::Fill::white();
      draw::Path ground = path;
      ground.stroke.reset();
      draw::Box box;
      const double tail = lowest(units[i]);
      while (end < units.size() && lowest(units[end]) == tail && units[end].tail == units[i].tail) {
        draw::Contour contour;
        contour.closed = true;
        for (const Point& p : units[end].outline) {
          contour.vertices.push_back({p * scale_, 0});
          box.take(p * scale_);
        }
        (each ? path : ground).contours.push_back(std::move(contour));
        ++end;
      }
      if (each) {
        out_.add(std::move(path));
      } else {
        out_.add(std::move(ground));
        if (row % every == 0) {
          draw::Path line = draw::line({box.left, box.bottom}, {box.right, box.bottom}, LineKind::thin);
          line.stroke = draw::Stroke{LineKind::thin, kFine};
          out_.add(std::move(line));
        }
      }
      i = end;
    }
  }

  static double lowest(const Unit& unit) {
    double low = 1e9;
    for (const Point& p : unit.outline) low = std::min(low, p.y);
    return low;
  }

  void lead(bool under) {
    for (const Seen& seen : seen_) {
      if (seen.facing <= kFacing || seen.under != under) continue;
      draw::Path path = draw::polygon(flat(seen.ring), LineKind::outline);
      path.stroke = draw::Stroke{LineKind::outline, 0.25};
      path.fill = draw::Fill::level(0.85);
      path.tag = seen.piece->piece->mark;
      out_.add(std::move(path));
    }
  }

  // Lead below the units, over them in dashes.
  void hidden() {
    for (const Seen& seen : seen_) {
      if (seen.facing <= kFacing || !seen.under) continue;
      draw::Path path = draw::polygon(flat(seen.ring), LineKind::hidden);
      path.tag = seen.piece->piece->mark;
      out_.add(std::move(path));
    }
  }

  // Upstands along the fall line show their edge; those behind a stack are out of sight.
  void on_edge() {
    for (const Seen& seen : seen_) {
      if (seen.facing > kFacing) continue;
      draw::Path path = draw::polygon(flat(seen.ring), LineKind::hidden);
      if (seen.facing > -kFacing) path.stroke = draw::Stroke{LineKind::outline, 0.5};
      path.layer = draw::layer_of(seen.facing > -kFacing ? LineKind::outline : LineKind::hidden);
      path.tag = seen.piece->piece->mark;
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
    for (const Point& p : outline()) box.take(p);
    for (const job::Junction& junction : junctions_) {
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
    const bool wall_left = std::any_of(junctions_.begin(), junctions_.end(), [](const job::Junction& j) {
      return j.kind == job::JunctionKind::side && j.hand == job::Hand::left;
    });
    draw::Chain along;
    along.zero = at(0, 0);
    along.towards = at(100, 0);
    along.offset = -6 - lead_below() * scale_;
    along.size = pt(11);
    for (const double u : across) along.stops.push_back({at(u, 0), words_.tape(Length::mm(u))});
    notes_.add(std::move(along));
    draw::Chain rise;
    rise.zero = at(0, 0);
    rise.towards = at(0, 100);
    rise.offset = 6 + (std::max(-box.left, wall_left ? kMasonry : 0.0)) * scale_;
    rise.size = pt(11);
    for (const double s : up) rise.stops.push_back({at(0, s), words_.tape(Length::mm(s))});
    notes_.add(std::move(rise));
  }

  // How far lead hangs below the eaves.
  double lead_below() const {
    double low = 0;
    for (const Seen& seen : seen_) {
      for (const Vec3& p : seen.ring) low = std::max(low, -p.y);
    }
    return low;
  }

  void marks() {
    draw::Box room;
    for (const Point& p : outline()) room.take(p * scale_);
    room.take(draw::extents_of_points(out_));
    constexpr double kAround = 14;
    room = {room.left - 2, room.bottom - 2, room.right + kAround, room.top + kAround};
    Labels labels(room);
    labels.take_texts(notes_);
    // What a ring must not hide: stacks and pipes, and lead that is seen.
    for (const job::Junction& junction : junctions_) {
      if (const std::optional<draw::Box> box = footprint(junction);
          box && junction.kind == job::JunctionKind::stack) {
        labels.take({box->left * scale_, box->bottom * scale_, box->right * scale_, box->top * scale_});
      }
    }
    for (const Seen& seen : seen_) {
      if (seen.under || seen.facing <= kFacing) continue;
      draw::Box box;
      for (const Point& p : flat(seen.ring)) box.take(p);
      if (box.width() < 60 && box.height() < 60) labels.take(box);
    }
    // Each mark once a junction and face.
    std::set<std::string> said;
    const Point middle = at(slope_.width.value.in_mm() / 2, slope_.rafter.value.in_mm() / 2);
    for (const Seen& seen : seen_) {
      const job::Piece& piece = *seen.piece->piece;
      if (!said.insert(piece.mark + "\n" + piece.junction + "\n" + piece.face).second) continue;
      const Point on = best_place(piece);
      Point away = on - middle;
      for (const job::Junction& junction : junctions_) {
        if (junction.name != piece.junction || junction.kind != job::JunctionKind::stack) continue;
        if (const auto box = footprint(junction)) {
          away = on - Point{(box->left + box->right) / 2, (box->bottom + box->top) / 2} * scale_;
        }
      }
      if (away.x * away.x + away.y * away.y < 1) away = {0, 1};
      if (!labels.mark(notes_, on, piece.mark, 3, away, pt(18)))
        labels.mark(notes_, on, piece.mark, 3, away, pt(12));
    }
  }

  // The middle of the piece's largest panel that is seen, of the placement in the middle of all.
  Point best_place(const job::Piece& piece) const {
    Point best{};
    double most = -1;
    std::vector<const PlacedPiece*> all;
    for (const PlacedPiece& one : pieces_) {
      if (one.piece == &piece) all.push_back(&one);
    }
    const PlacedPiece* chosen = all[all.size() / 2];
    for (const Seen& seen : seen_) {
      if (seen.piece != chosen) continue;
      draw::Box box;
      for (const Vec3& p : seen.ring) box.take(Point{p.x, p.y});
      const double size = box.width() * box.height() * (seen.facing > kFacing ? 1 : 1e-6);
      if (size <= most) continue;
      most = size;
      const Vec3 p = middle_of(seen.ring);
      best = at(p.x, p.y);
    }
    return best;
  }
};

}  // namespace

draw::Drawing roof_view(const Sources& sources, const job::Slope& slope, double scale) {
  return RoofView(sources, slope, scale).draw();
}

std::vector<NamedDrawing> roof_views(const Sources& sources) {
  std::vector<NamedDrawing> out;
  std::set<std::string> stems;
  for (const job::Slope& slope : sources.survey.slopes) {
    if (set_out_of(sources.plan, slope.name) == nullptr) continue;
    std::string stem = "roof-" + file_stem(slope.name);
    for (int i = 2; !stems.insert(stem).second; ++i) stem = "roof-" + file_stem(slope.name) + "-of-" + std::to_string(i);
    constexpr double kScale = 0.05;
    out.push_back({stem, slope.name, roof_view(sources, slope, kScale)});
  }
  return out;
}

void add_roof_views(Sheets& sheets) {
  const Words& words = sheets.words();
  for (const job::Slope& slope : sheets.sources().survey.slopes) {
    if (set_out_of(sheets.sources().plan, slope.name) == nullptr) continue;
    const About about{{slope.name, ""}};
    constexpr double kOneTo[] = {5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 200, 500, 1000};
    draw::Drawing drawing;
    draw::Box box;
    double scale = 1;
    const double room = sheets.room(about) - kNoteHigh;
    for (const double one_to : kOneTo) {
      scale = 1 / one_to;
      drawing = roof_view(sheets.sources(), slope, scale);
      box = draw::extents(drawing);
      if (box.width() <= kArea.width() - 2 && box.height() <= room - 2) break;
    }
    draw::Drawing& page = sheets.begin(words.say("sheet.roof", {{"slope", slope.name, ""}}), scale, about);
    add_note(sheets, words.say("sheet.roof_note"));
    page.add(drawing, {.move = {(kArea.left + kArea.right - box.left - box.right) / 2,
                                kArea.bottom + (room - box.height()) / 2 - box.bottom}});
  }
}

}  // namespace lapwright::sheets

#include "face_view.h"

#include "labels.h"
#include "pages.h"
#include "wall.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>
#include <lapwright/draw/font.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace lapwright::sheets {

namespace {

using draw::LineKind;
using draw::Point;
using draw::pt;
using geom::Vec3;

constexpr double kBrickLong = 225;  // with its perp: how a wall is drawn, not a measure to cut by
constexpr double kAbove = 110;      // of masonry that is drawn above the lead, mm
constexpr double kBefore = 40;      // of the face: there the roof is cut through, mm
constexpr double kAgainst = 25;     // of the face: an upstand over thick units stands this far out, mm
constexpr double kFacing = 0.05;    // a panel that faces the eye by less is seen on edge

class FacePicture {
 public:
  FacePicture(const Sources& sources, const FaceLead& lead, double scale)
      : sources_(sources),
        words_(sources),
        lead_(lead),
        scale_(scale),
        frame_(job::frame_of(lead.face, lead.slope->pitch.value)),
        view_(view_of(frame_.foot, frame_.out, lead.slope->pitch.value)) {
    // The roof's finished face where the foot begins.
    view_.origin = frame_.foot + finished_face(*lead.slope) * Vec3{0, 0, 1};
    const double shift = dot(frame_.foot - view_.origin, view_.normal);
    view_.origin = view_.origin + shift * view_.normal;
  }

  draw::Drawing draw() {
    extent();
    masonry();
    units();
    sheets();
    soakers();
    beds_told();
    along();
    marks();
    out_.add(notes_);
    return std::move(out_);
  }

 private:
  const Sources& sources_;
  Words words_;
  const FaceLead& lead_;
  double scale_;
  job::FaceFrame frame_;
  View view_;
  draw::Drawing out_;
  draw::Drawing notes_;
  double top_ = 0;    // of the lead above the foot's line, mm
  double least_ = 0;  // x of the foot's ends
  double most_ = 0;
  std::vector<double> joints_;

  Point at(Vec3 p) const { return view_.flat(p) * scale_; }
  Vec3 end() const { return frame_.foot + frame_.length.in_mm() * frame_.along; }
  // Lengths run from the lower end; along a level foot from the left as one faces it.
  bool leftwards() const { return view_.flat(end()).x < view_.flat(frame_.foot).x; }
  bool backwards() const { return leftwards() && frame_.rise == Angle{}; }
  Vec3 begin() const { return backwards() ? end() : frame_.foot; }
  Vec3 way_along() const { return backwards() ? -1.0 * frame_.along : frame_.along; }
  // Height of the foot line at x.
  double foot_at(double x) const {
    const Point a = view_.flat(frame_.foot);
    const Point b = view_.flat(end());
    return std::abs(b.x - a.x) < 1e-6 ? a.y : a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x);
  }

  void extent() {
    const Point a = view_.flat(frame_.foot);
    const Point b = view_.flat(end());
    least_ = std::min(a.x, b.x);
    most_ = std::max(a.x, b.x);
    for (const PlacedPiece& piece : lead_.pieces) {
      for (std::size_t i = 0; i < piece.panels.size(); ++i) {
        for (const Vec3& p : corners(piece, i)) {
          const Point q = view_.flat(p);
          top_ = std::max(top_, q.y - foot_at(std::clamp(q.x, least_, most_)));
        }
        const std::optional<std::size_t> hinge = piece.panels[i].hinge;
        if (!hinge || view_.depth(middle_of(corners(piece, i))) > -tolerance::kHandCut.in_mm()) continue;
        // A fold that turns into the wall lies in a bed joint where it is level.
        const geom::Fold& fold = piece.piece->net.folds[*hinge];
        const auto place = [&](geom::GridPoint p) {
          return view_.flat(piece.frames[i].at(geom::to_length(p.x).in_mm(), geom::to_length(p.y).in_mm()));
        };
        const Point from = place(fold.from);
        const Point to = place(fold.to);
        if (std::abs(from.y - to.y) < 1) joints_.push_back((from.y + to.y) / 2);
      }
    }
    std::sort(joints_.begin(), joints_.end());
    const auto same = [](double p, double q) { return q - p < 2; };
    joints_.erase(std::unique(joints_.begin(), joints_.end(), same), joints_.end());
  }

  void masonry() {
    const double high = top_ + kAbove;
    const std::vector<Point> band{{least_, foot_at(least_)},
                                  {most_, foot_at(most_)},
                                  {most_, foot_at(most_) + high},
                                  {least_, foot_at(least_) + high}};
    std::vector<Point> ring;
    for (const Point& p : band) ring.push_back(p * scale_);
    draw::Path path = draw::polygon(ring, LineKind::outline);
    path.fill = lead_.junction.wall.kind == job::WallKind::stone ? draw::Fill::hatched(draw::HatchKind::stone)
                                                                 : draw::Fill::white();
    path.tag = "at/" + lead_.junction.name;
    out_.add(std::move(path));
    if (lead_.junction.wall.kind == job::WallKind::brick) bricks(band);
  }

  void bricks(const std::vector<Point>& band) {
    const double course = lead_.junction.wall.course ? lead_.junction.wall.course->value.in_mm()
                                                     : sources_.pack.length("wall.course").in_mm();
    double bed =
        joints_.empty()
            ? (lead_.junction.wall.first_joint ? lead_.junction.wall.first_joint->value.in_mm() : course)
            : joints_.front();
    const double low = std::min(band[0].y, band[1].y);
    const double high = std::max(band[2].y, band[3].y);
    if (course * scale_ < 1.2 || course <= 0) return;
    while (bed > low) bed -= course;
    draw::Path lines;
    lines.stroke = draw::Stroke{LineKind::thin, 0.13};
    lines.layer = draw::Layer::thin;
    for (int row = 0; bed < high; ++row, bed += course) {
      line_in(lines, band, {least_, bed}, {most_, bed});
      const double shift = row % 2 == 0 ? 0 : kBrickLong / 2;
      for (double x = least_ + shift; x < most_; x += kBrickLong) {
        if (x > least_ + 1) line_in(lines, band, {x, bed}, {x, bed + course});
      }
    }
    if (!lines.contours.empty()) out_.add(std::move(lines));
  }

  // The part of a line within a convex band.
  void line_in(draw::Path& lines, const std::vector<Point>& band, Point a, Point b) const {
    double enter = 0;
    double leave = 1;
    for (std::size_t i = 0; i < band.size(); ++i) {
      const Point d = band[(i + 1) % band.size()] - band[i];
      const auto side = [&](Point p) { return d.x * (p.y - band[i].y) - d.y * (p.x - band[i].x); };
      const double sa = side(a);
      const double sb = side(b);
      if (sa < 0 && sb < 0) return;
      if (sa < 0) enter = std::max(enter, sa / (sa - sb));
      if (sb < 0) leave = std::min(leave, sa / (sa - sb));
    }
    if (leave - enter < 1e-6) return;
    const Point way = b - a;
    lines.contours.push_back({{{(a + way * enter) * scale_, 0}, {(a + way * leave) * scale_, 0}}, false});
  }

  // The roof cut through a little before the face.
  void units() {
    View before = view_;
    before.origin = view_.origin + kBefore * view_.normal;
    const double reach = frame_.length.in_mm() + 400;
    const Vec3 middle = 0.5 * (frame_.foot + end());
    const draw::Box window{middle.x - reach, middle.y - reach, middle.x + reach, middle.y + reach};
    const draw::Box band{least_ - 150, -1e6, most_ + 150, 1e6};
    for (const Unit& unit : units_of(sources_.plan, *lead_.slope, window)) {
      const std::vector<Point> ring = kept_in(cut_through(unit.solid(), before), band);
      if (ring.empty()) continue;
      std::vector<Point> paper;
      for (const Point& p : ring) paper.push_back(p * scale_);
      draw::Path path = draw::polygon(paper, LineKind::thin);
      path.fill = draw::Fill::white();
      out_.add(std::move(path));
    }
  }

  struct Seen {
    const PlacedPiece* piece;
    std::vector<Vec3> ring;
    double facing;
    double depth;
  };

  std::vector<Seen> seen() const {
    std::vector<Seen> out;
    for (const PlacedPiece& piece : lead_.pieces) {
      for (std::size_t i = 0; i < piece.panels.size(); ++i) {
        Seen one{&piece, corners(piece, i), dot(piece.frames[i].normal(), view_.normal), 0};
        one.depth = view_.depth(middle_of(one.ring));
        out.push_back(std::move(one));
      }
    }
    // Farthest first; of sheets against each other a soaker lies under the flashing.
    const auto rank = [](const Seen& one) {
      constexpr double kTouching = 5;
      return std::pair{std::lround(one.depth / kTouching), one.piece->piece->kind != "soaker"};
    };
    std::stable_sort(out.begin(), out.end(), [&](const Seen& a, const Seen& b) { return rank(a) < rank(b); });
    return out;
  }

  void sheets() {
    for (const Seen& one : seen()) {
      const bool turned_away = one.facing <= kFacing;
      const bool in_wall = one.depth < -1;
      std::vector<Point> ring;
      for (const Vec3& p : one.ring) ring.push_back(at(p));
      draw::Path path = draw::polygon(ring, turned_away || in_wall ? LineKind::hidden : LineKind::outline);
      if (!turned_away && !in_wall) {
        path.fill = draw::Fill::level(0.88);
        path.stroke = draw::Stroke{LineKind::outline, 0.4};
      }
      path.tag = tag_of(*one.piece);
      out_.add(std::move(path));
    }
  }

  // Soakers behind the flashings, over them in dashes.
  void soakers() {
    for (const Seen& one : seen()) {
      if (one.piece->piece->kind != "soaker" || one.facing <= kFacing) continue;
      std::vector<Point> ring;
      for (const Vec3& p : one.ring) ring.push_back(at(p));
      out_.add(draw::polygon(ring, LineKind::hidden));
    }
  }

  // Heights of the joints, and of the top edges against the face, upright from the roof.
  void beds_told() {
    std::set<std::int64_t> told;
    std::vector<double> heights = joints_;
    for (const Seen& one : seen()) {
      if (frame_.rise != Angle{}) break;  // tops that climb with the roof have no one height
      if (std::abs(one.depth) > kAgainst || one.facing < 0.9) continue;
      double high = 0;
      for (const Vec3& p : one.ring) high = std::max(high, view_.flat(p).y);
      heights.push_back(high);
    }
    std::sort(heights.begin(), heights.end());
    const bool from_left = !leftwards() || backwards();
    draw::Chain chain;
    chain.zero = Point{from_left ? least_ : most_, 0} * scale_;
    chain.towards = chain.zero + Point{0, 1};
    double beyond = 0;
    for (const PlacedPiece& piece : lead_.pieces) {
      for (std::size_t i = 0; i < piece.panels.size(); ++i) {
        for (const Vec3& p : corners(piece, i)) {
          const double x = view_.flat(p).x;
          beyond = std::max(beyond, from_left ? least_ - x : x - most_);
        }
      }
    }
    chain.offset = (6 + std::max(150.0, beyond) * scale_) * (from_left ? 1 : -1);
    chain.size = pt(11);
    for (const double height : heights) {
      if (height < 1 || !told.insert(std::lround(height)).second) continue;
      chain.stops.push_back({Point{chain.zero.x, height * scale_}, words_.tape(Length::mm(height))});
    }
    // As many as can be read one above another.
    if (!chain.stops.empty()) {
      const double line = draw::line_height(pt(11)) * 1.1;
      const auto fit = static_cast<std::size_t>(std::max(1.0, chain.stops.back().at.y / line + 1));
      const std::size_t every = (chain.stops.size() + fit - 1) / fit;
      std::vector<draw::Chain::Stop> kept;
      for (std::size_t i = 0; i < chain.stops.size(); i += every) kept.push_back(chain.stops[i]);
      chain.stops = std::move(kept);
    }
    if (!chain.stops.empty()) notes_.add(std::move(chain));
  }

  // Along the foot from its lower end (a level one's left): where each piece begins and ends, and the whole.
  void along() {
    double low = 0;
    std::set<std::int64_t> stops{std::lround(frame_.length.in_mm())};
    for (const PlacedPiece& piece : lead_.pieces) {
      for (std::size_t i = 0; i < piece.panels.size(); ++i) {
        for (const Vec3& p : corners(piece, i))
          low = std::min(low, view_.flat(p).y - foot_at(view_.flat(p).x));
      }
      if (piece.piece->kind == "soaker") continue;  // the courses set those
      for (const double s : {low_along(piece), high_along(piece)}) {
        if (s > 1 && s < frame_.length.in_mm() - 1) stops.insert(std::lround(s));
      }
    }
    const Vec3 down = (low - 3 * finished_face(*lead_.slope)) * view_.up;
    draw::Chain chain;
    chain.zero = at(begin() + down);
    chain.towards = at(begin() + 100.0 * way_along() + down);
    chain.offset = leftwards() && !backwards() ? 8 : -8;
    chain.size = pt(11);
    for (const std::int64_t s : stops) {
      const double along = static_cast<double>(s);
      chain.stops.push_back({at(begin() + along * way_along() + down), words_.tape(Length::mm(along))});
    }
    notes_.add(std::move(chain));
  }

  double low_along(const PlacedPiece& piece) const { return end_along(piece, -1); }
  double high_along(const PlacedPiece& piece) const { return end_along(piece, 1); }
  double end_along(const PlacedPiece& piece, double way) const {
    double best = -1e9;
    for (const Vec3& p : corners(piece, 0)) best = std::max(best, way * dot(p - begin(), way_along()));
    return way * best;
  }

  void marks() {
    draw::Box room = draw::extents_of_points(out_);
    room = {room.left - 16, room.bottom - 16, room.right + 16, room.top + 16};
    Labels labels(room);
    labels.take_texts(notes_);
    const std::vector<Seen> all = seen();
    // The largest part of each piece that is seen.
    std::set<std::string> told;
    for (const PlacedPiece& piece : lead_.pieces) {
      if (!told.insert(piece.piece->mark).second) continue;
      Point on{};
      double most = -1;
      for (const Seen& one : all) {
        if (one.piece->piece->mark != piece.piece->mark) continue;
        draw::Box box;
        for (const Vec3& p : one.ring) box.take(at(p));
        const double size = box.width() * box.height() * (one.facing > kFacing && one.depth > -1 ? 1 : 1e-6);
        if (size <= most) continue;
        most = size;
        on = at(middle_of(one.ring));
      }
      const double beside = (on.x / scale_ - (least_ + most_) / 2) / std::max(1.0, most_ - least_);
      labels.mark(notes_, on, piece.piece->mark, 4, {beside, 1}, pt(18));
    }
  }
};

}  // namespace

std::string face_name(const job::Junction& junction, const std::string& face) {
  return face.empty() ? junction.name : junction.name + ", " + face;
}

std::vector<FaceLead> faces_with_lead(const Sources& sources) {
  std::vector<FaceLead> out;
  const std::vector<Wall> walls = walls_of(sources);
  for (const job::Slope& slope : sources.survey.slopes) {
    if (set_out_of(sources.plan, slope.name) == nullptr) continue;
    const std::vector<PlacedPiece> all = placed_on(sources.plan, slope.name);
    for (const job::Junction& junction : junctions_on(sources.survey, slope)) {
      for (const job::Face& face : straight_faces(slope, junction)) {
        const bool shown = std::any_of(walls.begin(), walls.end(), [&](const Wall& wall) {
          return wall.slope == &slope && wall.junction.name == junction.name && wall.face_name == face.name;
        });
        if (shown) continue;
        FaceLead lead{&slope, junction, face, {}};
        for (const PlacedPiece& piece : all) {
          if (piece.piece->junction == junction.name && piece.piece->face == face.name)
            lead.pieces.push_back(piece);
        }
        if (!lead.pieces.empty()) out.push_back(std::move(lead));
      }
    }
  }
  return out;
}

draw::Drawing face_view(const Sources& sources, const FaceLead& lead, double scale) {
  return FacePicture(sources, lead, scale).draw();
}

void add_face_views(Sheets& sheets) {
  const Words& words = sheets.words();
  for (const FaceLead& lead : faces_with_lead(sheets.sources())) {
    const About about{{lead.slope->name, lead.junction.name}};
    const double room = sheets.room(about) - kNoteHigh;
    draw::Drawing drawing;
    draw::Box box;
    double scale = 1;
    for (const double one_to :
         {2.0, 2.5, 3.0, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 50.0, 100.0, 200.0, 500.0}) {
      scale = 1 / one_to;
      drawing = face_view(sheets.sources(), lead, scale);
      box = draw::extents(drawing);
      if (box.width() <= kArea.width() - 2 && box.height() <= room - 2) break;
    }
    draw::Drawing& page = sheets.begin(
        words.say("sheet.elevation", {{"slope", lead.slope->name, ""},
                                      {"junction", face_name(lead.junction, lead.face.name), ""}}),
        scale, about);
    add_note(sheets, words.say("sheet.face_note"));
    page.add(drawing, {.move = {(kArea.left + kArea.right - box.left - box.right) / 2,
                                kArea.bottom + (room - box.height()) / 2 - box.bottom}});
  }
}

}  // namespace lapwright::sheets

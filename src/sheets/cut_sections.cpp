// Sections through everything that is not a plain wall with soakers: the placed lead cut by a plane. Which
// planes, and what lies near them; section_picture.h draws it.
#include "cut.h"
#include "pages.h"
#include "section_picture.h"

#include <lapwright/base/trig.h>
#include <lapwright/job/join.h>

#include <algorithm>
#include <set>

namespace lapwright::sheets {

namespace {

using draw::Point;
using geom::Vec3;

constexpr double kLeaf = 102.5;  // of a wall that is drawn, mm
constexpr double kBeside = 110;  // of roof and wall that is drawn beyond the lead, mm
constexpr double kReach = 700;   // from the foot of a face: lead further away belongs to another section

draw::Fill hatch_of(const job::Junction& junction) {
  return draw::Fill::hatched(junction.wall.kind == job::WallKind::stone ? draw::HatchKind::stone
                                                                        : draw::HatchKind::brick);
}

constexpr double kDown = 500;  // of masonry below the roof
constexpr double kUp = 2500;   // and above it, before the window cuts it off

Prism standing(const std::vector<Vec3>& foot, Vec3 up) {
  Prism out;
  for (const Vec3& p : foot) {
    out.base.push_back(p + (-kDown) * up);
    out.top.push_back(p + kUp * up);
  }
  return out;
}

std::vector<Solid> masonry_of(const job::Slope& slope, const job::Junction& junction) {
  std::vector<Solid> out;
  const std::vector<job::Face> faces = straight_faces(slope, junction);
  const Vec3 upright_here = upright(slope.pitch.value);
  if (junction.kind == job::JunctionKind::stack) {
    draw::Box box;
    for (const job::Face& face : faces) {
      box.take(Point{face.from.u.in_mm(), face.from.s.in_mm()});
      box.take(Point{face.to.u.in_mm(), face.to.s.in_mm()});
    }
    if (!box.empty()) {
      out.push_back({standing({{box.left, box.bottom, 0},
                               {box.right, box.bottom, 0},
                               {box.right, box.top, 0},
                               {box.left, box.top, 0}},
                              upright_here),
                     hatch_of(junction)});
    }
    return out;
  }
  for (const job::Face& face : faces) {
    const job::FaceFrame frame = job::frame_of(face, slope.pitch.value);
    const Vec3 end = frame.foot + frame.length.in_mm() * frame.along;
    const Vec3 behind = -kLeaf * frame.away;
    out.push_back({standing({frame.foot, end, end + behind, frame.foot + behind},
                            face.lean == Angle{} ? upright_here : frame.up),
                   hatch_of(junction)});
  }
  return out;
}

// What lies within reach of the view's origin.
std::vector<LeadLine> near(std::vector<LeadLine> lines, double reach) {
  std::erase_if(lines, [&](const LeadLine& line) {
    return std::all_of(line.parts.begin(), line.parts.end(), [&](const LeadLine::Part& part) {
      return hypotenuse(part.a.x, part.a.y) > reach && hypotenuse(part.b.x, part.b.y) > reach;
    });
  });
  return lines;
}

void frame_window(Section& section, double reach) {
  for (const LeadLine& line : section.lead) {
    for (const LeadLine::Part& part : line.parts) {
      section.window.take(part.a);
      section.window.take(part.b);
    }
  }
  section.window.left = std::max(section.window.left, -reach) - kBeside;
  section.window.bottom = std::max(section.window.bottom, -reach) - kBeside * 0.7;
  section.window.right = std::min(section.window.right, reach) + kBeside;
  section.window.top = std::min(section.window.top, reach) + kBeside * 0.7;
}

// The window on the slope that the view's window can meet.
draw::Box on_slope(const View& view, double reach) {
  return {view.origin.x - reach, view.origin.y - reach, view.origin.x + reach, view.origin.y + reach};
}

void add_units(Section& section, const job::Plan& plan, const job::Slope& slope, double reach) {
  for (const Unit& unit : units_of(plan, slope, on_slope(section.view, reach)))
    section.units.push_back(unit.solid());
}

bool plain_side(const job::Face& face, const std::vector<PlacedPiece>& pieces) {
  if (face.kind != job::FaceKind::side) return false;
  bool soakers = false;
  for (const PlacedPiece& piece : pieces) {
    if (piece.piece->face != face.name) continue;
    const std::string& kind = piece.piece->kind;
    if (kind != "soaker" && kind != "step-flashing" && kind != "cover-flashing") return false;
    soakers = soakers || kind == "soaker";
  }
  return soakers;
}

class Sections {
 public:
  explicit Sections(Sheets& sheets) : sheets_(sheets), words_(sheets.words()), sources_(sheets.sources()) {}

  void add() {
    for (std::size_t i = 0; i < sources_.survey.slopes.size(); ++i) {
      const job::Slope& slope = sources_.survey.slopes[i];
      const std::vector<PlacedPiece> all = placed_on(sources_.plan, slope.name);
      for (const job::Junction& junction : junctions_on(sources_.survey, slope)) {
        std::vector<PlacedPiece> pieces;
        for (const PlacedPiece& piece : all) {
          if (piece.piece->junction == junction.name) pieces.push_back(piece);
        }
        if (!pieces.empty()) at_junction(slope, junction, pieces);
      }
      for (const job::SlopeJoin& join : job::joins_of(sources_.survey, i)) {
        if (join.line.join->kind != job::JoinKind::ridge) at_join(slope, join, all);
      }
    }
  }

 private:
  Sheets& sheets_;
  const Words& words_;
  const Sources& sources_;

  void at_junction(const job::Slope& slope, const job::Junction& junction,
                   const std::vector<PlacedPiece>& pieces) {
    if (junction.kind == job::JunctionKind::pipe) {
      if (!junction.at || !junction.up) return;
      const Vec3 foot{junction.at->in_mm(), junction.up->in_mm(), 0};
      cut(slope, junction, "sheet.section_pipe", "", view_of(foot, {1, 0, 0}, slope.pitch.value), pieces,
          kReach);
      return;
    }
    const std::vector<job::Face> faces = straight_faces(slope, junction);
    if (junction.kind == job::JunctionKind::stack && !faces.empty()) {
      // A little off the middle, where two pieces may meet.
      constexpr double kOff = 7;
      const Vec3 foot{junction.at->in_mm() + kOff, faces.front().from.s.in_mm(), 0};
      const double reach =
          junction.depth ? junction.depth->in_mm() / cos(slope.pitch.value) + kReach : 2 * kReach;
      cut(slope, junction, "sheet.section_up", "", view_of(foot, {1, 0, 0}, slope.pitch.value), pieces,
          reach);
    }
    for (const job::Face& face : faces) {
      const bool any = std::any_of(pieces.begin(), pieces.end(),
                                   [&](const PlacedPiece& piece) { return piece.piece->face == face.name; });
      if (!any || plain_side(face, pieces)) continue;
      const job::FaceFrame frame = job::frame_of(face, slope.pitch.value);
      const bool level = face.kind == job::FaceKind::top || face.kind == job::FaceKind::front ||
                         face.kind == job::FaceKind::back;
      const Vec3 normal = level ? frame.along : -1.0 * frame.along;
      std::vector<PlacedPiece> own;
      for (const PlacedPiece& piece : pieces) {
        if (piece.piece->face == face.name) own.push_back(piece);
      }
      const Vec3 foot = where_most_is_cut(frame, normal, slope.pitch.value, own);
      cut(slope, junction, "sheet.section_at", face.name, view_of(foot, normal, slope.pitch.value), own,
          kReach);
    }
  }

  // A place on the foot where the plane meets a piece of every kind, with its turn-in, and as few laps as may
  // be: the middle if that is as good as any.
  static Vec3 where_most_is_cut(const job::FaceFrame& frame, Vec3 normal, Angle pitch,
                                const std::vector<PlacedPiece>& pieces) {
    constexpr double kMiddle = 0.52;  // not where two pieces or two bricks may meet
    std::vector<double> places{kMiddle * frame.length.in_mm()};
    for (int i = 1; i < 10; ++i) {
      for (const int way : {-1, 1}) places.push_back((kMiddle + 0.021 * i * way) * frame.length.in_mm());
    }
    for (const PlacedPiece& piece : pieces) {
      double low = 1e9;
      double high = -1e9;
      for (const Vec3& p : corners(piece, 0)) {
        const double along = dot(p - frame.foot, frame.along);
        low = std::min(low, along);
        high = std::max(high, along);
      }
      places.push_back(std::clamp(low + kMiddle * (high - low), 0.0, frame.length.in_mm()));
    }
    Vec3 best = frame.foot;
    int most = 0;
    for (const double along : places) {
      const Vec3 foot = frame.foot + along * frame.along;
      std::set<std::string> kinds;
      int parts = 0;
      int lines = 0;
      for (const LeadLine& line : cut_lead(sheets_of(pieces), view_of(foot, normal, pitch))) {
        kinds.insert(line.piece->kind);
        parts += static_cast<int>(line.parts.size());
        ++lines;
      }
      const int score = 1000 * static_cast<int>(kinds.size()) + 10 * parts - 25 * lines;
      if (score > most) {
        best = foot;
        most = score;
      }
    }
    return best;
  }

  void cut(const job::Slope& slope, const job::Junction& junction, std::string_view key,
           const std::string& face, const View& view, const std::vector<PlacedPiece>& pieces, double reach) {
    Section section;
    section.title =
        words_.say(key, {{"slope", slope.name, ""},
                         {"junction", face.empty() ? junction.name : junction.name + ", " + face, ""}});
    section.about = {{slope.name, junction.name}};
    section.view = view;
    section.lead = near(cut_lead(sheets_of(pieces), view), reach);
    if (section.lead.empty()) return;
    section.masonry = masonry_of(slope, junction);
    if (junction.kind == job::JunctionKind::pipe && junction.diameter)
      section.masonry.push_back(pipe(slope, junction));
    frame_window(section, reach);
    add_units(section, sources_.plan, slope, reach + kBeside);
    add_section(sheets_, section);
  }

  static Solid pipe(const job::Slope& slope, const job::Junction& junction) {
    const double r = junction.diameter->in_mm() / 2;
    const Vec3 up = upright(slope.pitch.value);
    const Vec3 level = cross(up, Vec3{1, 0, 0});
    const Vec3 foot{junction.at->in_mm(), junction.up->in_mm(), 0};
    std::vector<Vec3> ring;
    constexpr int kFacets = 24;
    for (int i = 0; i < kFacets; ++i) {
      const double angle = 360.0 / kFacets * (i + 0.5);
      ring.push_back(foot + (r * cos_deg(angle)) * Vec3{1, 0, 0} + (r * sin_deg(angle)) * level);
    }
    return {standing(ring, up), draw::Fill::level(0.96)};
  }

  void at_join(const job::Slope& slope, const job::SlopeJoin& join, const std::vector<PlacedPiece>& all) {
    const job::JoinSide& side = join.line.sides[join.side];
    const job::JoinSide& other_side = join.line.sides[1 - join.side];
    const job::Slope& other = sources_.survey.slopes[other_side.slope];
    const Vec3 along = geom::unit({side.drift, 1, 0});
    const Vec3 foot{side.hand == job::Hand::left ? 0 : slope.width.value.in_mm(), 0, 0};
    const std::vector<PlacedPiece> pieces = at_line(join, slope, all);
    if (pieces.empty()) return;
    const PlacedPiece& one = pieces[pieces.size() / 2];
    const Vec3 middle = middle_of(corners(one, 0));
    const View view = view_of(foot + dot(middle - foot, along) * along, -1.0 * along, slope.pitch.value);
    std::vector<Sheet> lead = sheets_of(pieces);
    const Vec3 zero = from_other_side(join, sources_.survey, {});
    std::size_t placement = pieces.size();
    for (const PlacedPiece& piece : placed_on(sources_.plan, other.name)) {
      if (piece.piece->junction != one.piece->junction) continue;
      ++placement;
      for (Sheet sheet : sheets_of({piece})) {
        sheet.placement = placement;
        sheet.normal = from_other_side(join, sources_.survey, sheet.normal) - zero;
        for (std::vector<Vec3>& ring : sheet.rings) {
          for (Vec3& p : ring) p = from_other_side(join, sources_.survey, p);
        }
        lead.push_back(std::move(sheet));
      }
    }
    Section section;
    section.title = words_.say("sheet.section_join", {{"slope", slope.name, ""}, {"other", other.name, ""}});
    section.about = {{slope.name, one.piece->junction}, {other.name, one.piece->junction}};
    section.view = view;
    section.lead = near(cut_lead(lead, view), kReach);
    if (section.lead.empty()) return;
    frame_window(section, kReach);
    add_units(section, sources_.plan, slope, kReach * 1.5);
    const View there{{other_side.hand == job::Hand::left ? 0 : other.width.value.in_mm(), 0, 0}, {}, {}};
    const double up = dot(view.origin - foot, along);
    View at_other = there;
    at_other.origin = there.origin + up * geom::unit({other_side.drift, 1, 0});
    for (const Unit& unit : units_of(sources_.plan, other, on_slope(at_other, kReach * 1.5))) {
      Prism prism = unit.solid();
      for (std::vector<Vec3>* ring : {&prism.base, &prism.top}) {
        for (Vec3& p : *ring) p = from_other_side(join, sources_.survey, p);
      }
      section.units.push_back(std::move(prism));
    }
    add_section(sheets_, section);
  }
};

}  // namespace

void add_cut_sections(Sheets& sheets) {
  Sections(sheets).add();
}

}  // namespace lapwright::sheets

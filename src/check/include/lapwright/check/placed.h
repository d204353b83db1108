// What lies on the roof, and nothing of how it was worked out: units, lead, nails and faces as shapes in
// place, with the order that they lie in. Read from a plan's rows, nets, placements and order of work;
// changed to what somebody found (found.h). All that the checker knows.
//
// Lengths mm in the slope's own frame (u, s, n).
#pragma once

#include <lapwright/check/trace.h>
#include <lapwright/geom/space.h>
#include <lapwright/job/face.h>
#include <lapwright/job/join.h>
#include <lapwright/job/plan.h>
#include <lapwright/job/survey.h>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lapwright::check {

struct PlacedUnit {
  std::int64_t course = 0;  // −1: the under-course
  std::vector<Strip> strips;
  double u0 = 0;
  double u1 = 0;
  double tail = 0;
  double head = 0;
  bool left_joined = false;  // its side is locked into its neighbour's (single-lap coverings)
  bool right_joined = false;
  std::vector<Hole> nails;
  std::vector<double> rolls;  // u of the crowns of a profiled tile: water does not cross them
};

// The stack: a course's units, below them its soakers, below those what is fitted before the course: an
// apron, a gutter.
constexpr std::int64_t order_of_course(std::int64_t course) {
  return course * 1000;
}
inline constexpr std::int64_t kSoakers = 500;
inline constexpr std::int64_t kAprons = 600;

enum class Lies : std::uint8_t {
  on_roof,     // in the slope's plane, or a gutter's sole
  on_face,     // against masonry
  in_masonry,  // turned into a joint or chase
  elsewhere,   // a sleeve, a hook, an ear
};

struct PlacedPanel {
  std::vector<geom::Vec3> ring;
  geom::Vec3 normal;
  Lies lies = Lies::elsewhere;
  std::size_t parent = 0;  // the panel that it is folded from; the base's is itself
};

struct PlacedLead {
  std::string kind;  // as a piece's: "soaker", "step-flashing", ...
  std::string mark;
  std::string junction;
  std::string face;
  std::int64_t course = -2;  // −2: not tied to a course
  std::int64_t code = 0;
  double length = 0;  // of the blank, along the junction
  std::int64_t order = 0;
  std::vector<PlacedPanel> panels;
  std::vector<Hole> pierced;  // by what has no business there
  std::size_t piece = 0;      // index into the plan's pieces; past its end: not of the plan
  std::size_t placement = 0;

  // Where its panels of this sort lie. Nothing when it has none.
  struct Extent {
    double u0 = 0;
    double u1 = 0;
    double s0 = 0;
    double s1 = 0;
    double n0 = 0;
    double n1 = 0;
  };
  std::optional<Extent> extent(Lies lies) const;
};

struct PlacedFace {
  std::string junction;
  job::JunctionKind kind = job::JunctionKind::side;
  job::Face face;
  job::FaceFrame frame;
  std::optional<job::Detail> asked;  // the detail that the person insists on
  bool welded = false;               // the survey asks for welded corners
  bool through_ridge = false;        // of a stack that this slope names
  bool bare_is_wrong = false;        // lead belongs here, whether or not any is left
};

struct PlacedSlope {
  const job::Slope* slope = nullptr;
  double top = 0;
  double width = 0;
  double eaves = 0;      // s of the fascia's face
  double pitch = 0;      // degrees, of the rafter
  double own_pitch = 0;  // of the units, flatter by what they lie on each other
  double face = 0;       // n of the units' upper face, at its highest
  double gauge = 0;
  double roll_pitch = 0;  // of profiled tiles
  bool double_lap = true;
  std::vector<PlacedUnit> units;  // course by course, from left to right
  std::vector<PlacedLead> leads;
  std::vector<PlacedFace> faces;
  std::vector<job::SlopeJoin> joins;
};

struct PlacedRoof {
  std::vector<PlacedSlope> slopes;
};

// REQUIRES a plan of this survey, and the survey to outlive what is placed.
PlacedRoof place(const job::Survey& survey, const job::Plan& plan);

// A ring's outline as strips. Of a ring that an upright line meets more than twice, the outermost lines.
std::vector<Strip> strips_of(const std::vector<geom::Vec3>& ring);

// The part of a convex ring on the kept side of the line through (u0, s0) and (u1, s1): its right, or left.
std::vector<geom::Vec3> cut_by(const std::vector<geom::Vec3>& ring, double u0, double s0, double u1,
                               double s1, bool keep_right);

// Two outlines that touch or overlap, as one: of every upright line the lowest and highest points of either.
std::vector<Strip> joined(const std::vector<Strip>& a, const std::vector<Strip>& b);

// Marks every panel by where it lies, once shapes have been changed or added.
void settle(PlacedLead& lead, const PlacedSlope& slope);

}  // namespace lapwright::check

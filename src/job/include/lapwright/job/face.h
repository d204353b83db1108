// The faces that stand on a slope: one mechanism for a side wall, a top abutment, a stack and a wall on any
// line.
//
// A face is a plane that rises from a straight foot line in the slope's plane. A side wall is one face, a
// stack is four (front, left side, right side, back), a wall along a line of points is one a stretch. Its
// bearing to the line of fall decides its kind.
//
//        back                 s ^     a foot line is given from its lower end to its upper;
//      +------+                 |     a level one from left to right, seen facing the roof from the ground
//      |stack |  right side     |
//      +------+                 +------> u
//        front   (the roof lies outside; beside a left-hand face the roof lies to the right of it)
#pragma once

#include <lapwright/base/units.h>
#include <lapwright/geom/space.h>
#include <lapwright/job/survey.h>

#include <string>
#include <vector>

namespace lapwright::job {

enum class FaceKind : std::uint8_t {
  side,   // runs straight up the slope
  top,    // level; the slope ends against it from below
  front,  // level, the down-slope face of a stack
  back,   // level, the up-slope face: water runs at it
  skew,   // any other bearing
  round,  // a pipe: no foot line, only its middle
};
std::string_view name_of(FaceKind v);

struct FootPoint {
  Length u;
  Length s;
};

struct Face {
  FaceKind kind = FaceKind::side;
  std::string name;        // of the face at its junction: "front", "stretch 2"; empty when it is the only one
  Hand hand = Hand::left;  // left: the roof lies towards greater u; of a level face: unused
  bool roof_below = true;  // of a level face: the roof lies down the slope from it
  FootPoint from;
  FootPoint to;
  Angle lean;  // from upright, positive away from the roof beside it
};

// In the survey's order of the junction's own shape: a stack's front, left side, right side, back (a stack
// across the ridge has no back on either slope); a line's stretches in order. A pipe is one round face.
std::vector<Face> faces_of(const Slope& slope, const Junction& junction);

// The parts, on this slope, of stacks that the survey gives to another slope and that stand `across` the
// ridge into this one: as junctions of this slope, under the same name, `across` naming the other. The ridge
// is taken to be level and the two slopes to end in line: a stack that stands `at` from the left end of one
// stands `at` from the right end of the other. Parts that do not reach this slope are left out.
std::vector<Junction> parts_from_across(const Survey& survey, const Slope& slope);

// Where a face and its foot line stand in the slope's frame (u, s, n).
//
// Properties: the three are unit vectors, square to each other; `along` runs from `from` to `to` in the plane
// n = 0; `up` is the line of steepest rise of the face square to its foot; `out` points from the masonry to
// the roof. The roof's own direction square to the foot, away from the face, is `away`.
struct FaceFrame {
  geom::Vec3 foot;  // of `from`, mm
  geom::Vec3 along;
  geom::Vec3 up;
  geom::Vec3 out;
  geom::Vec3 away;       // in the plane n = 0, square to `along`, from the face into the roof
  Length length;         // of the foot line
  Angle rise;            // of the foot line above level: a side wall's is the pitch
  Angle rise_in_face;    // the same, measured within the face: they differ only where the wall leans
  double steepness = 1;  // height gained by going 1 up the face at its steepest: less than 1 where it leans
  Angle fold;          // how far a sheet lying on the roof turns to stand against the face: 90 at a side wall
  double runs_at = 0;  // how squarely water runs at the face: 1 at a stack's back, 0 at a side, −1 at a top
};
FaceFrame frame_of(const Face& face, Angle pitch);

}  // namespace lapwright::job

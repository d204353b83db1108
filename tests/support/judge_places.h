// Where the pieces of a junction lie, as the judges need it.
#pragma once

#include "judge.h"

#include <lapwright/geom/net.h>

#include <cmath>
#include <string>
#include <vector>

namespace lapwright::sample {

constexpr double kTenth = 0.1;   // mm: how near a panel must come to its plane
constexpr double kSmall = 0.01;  // mm: what the net's grid and double precision leave of a length
constexpr double kNoise = 1e-6;  // mm
constexpr double kRadian = 3.14159265358979323846 / 180;

inline double mm(Length l) {
  return l.in_mm();
}

struct WallPlace {
  const job::Slope* slope = nullptr;
  const job::Junction* junction = nullptr;
  double u = 0;
  double inwards = 1;  // towards the roof
  double from = 0;
  double to = 0;
  double face = 0;  // finished face of the units, above the plane of the soakers' legs
  double sine = 0;
  double cosine = 0;
};

// A piece where it lies: its panels' corners in (u, s, n), the base first.
struct Placed {
  const job::Piece* piece = nullptr;
  std::int64_t course = -2;
  std::vector<std::vector<geom::Vec3>> panels;
  std::vector<geom::Frame> frames;
  std::vector<geom::Panel> flat;
};

std::vector<WallPlace> walls_of(const Judged& job);
std::vector<Placed> placed_at(const Judged& job, const WallPlace& wall, std::string_view kind);
// The course tails of a slope, with its top edge at the end; lengths of the units of each course.
struct CourseLines {
  std::vector<double> tails;
  std::vector<double> lengths;
  double under = 0;
};
CourseLines course_lines(const Judged& job, const job::Slope& slope);
const job::SetOut* set_out_of(const Judged& job, const job::Slope& slope);
double widest_gap(const Judged& job, const job::Junction& junction);
// The gap at `s`: straight from each measured place to the next, with its ±.
double gap_at(const Judged& job, const job::Junction& junction, double s);

double end_of(const job::Row& row);  // its right end
// Whether two rows of a course meet without a joint, square or on one slanting line.
bool one_unit(const job::Row& left, const job::Row& right);

// Whether anything stands on the slope, or its edge follows a valley or hip.
bool is_parted(const Judged& job, const job::Slope& slope);
// Rows of such a slope: no unit in masonry, over a gutter or over its neighbour; the rest covered, twice
// where the covering laps double; tried at so many points, and as many again around each stack.
std::string parted_rows_complaint(const Judged& job, const job::Slope& slope, std::int64_t points);

struct Range {
  double low = 0;
  double high = 0;
};
Range range_of(const std::vector<geom::Vec3>& points, double geom::Vec3::* axis);
// Height above the finished roof at the wall's lower end, upright in the wall.
double upright(const WallPlace& wall, geom::Vec3 p);

std::string complaint(const WallPlace& wall, const std::string& what, double got, double limit);

}  // namespace lapwright::sample

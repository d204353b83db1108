#include "shapes.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace lapwright::cutting {

namespace {

constexpr double kBoxShare = 0.97;       // filled that far, a box leaves no room for another piece
constexpr double kWorthShare = 0.985;    // of two boxes: a pair that needs more is not worth its trouble
constexpr std::size_t kShapesMost = 12;  // that are paired with each other; beyond, only with their own kind
constexpr std::size_t kPlacesMost = 4000;

struct Corner {
  double x = 0;
  double y = 0;
};
using Corners = std::vector<Corner>;

// In mm from the box's low corner; `swapped`: x and y exchanged.
Corners corners_of(const Shape& shape, bool swapped) {
  const geom::Box box = geom::bounds(shape.outline);
  Corners out;
  for (const geom::GridPoint& p : shape.outline) {
    const double x = static_cast<double>(p.x - box.low.x) / 1000;
    const double y = static_cast<double>(p.y - box.low.y) / 1000;
    out.push_back(swapped ? Corner{y, x} : Corner{x, y});
  }
  return out;
}

Corners end_for_end(const Corners& corners) {
  double length = 0;
  double height = 0;
  for (const Corner& c : corners) {
    length = std::max(length, c.x);
    height = std::max(height, c.y);
  }
  Corners out;
  for (const Corner& c : corners) out.push_back({length - c.x, height - c.y});
  return out;
}

double most_x(const Corners& corners) {
  double most = 0;
  for (const Corner& c : corners) most = std::max(most, c.x);
  return most;
}
double most_y(const Corners& corners) {
  double most = 0;
  for (const Corner& c : corners) most = std::max(most, c.y);
  return most;
}

// Highest or lowest y of the outline at x; x is not that of any corner.
double edge_at(const Corners& corners, double x, bool high) {
  double out = high ? -1e300 : 1e300;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Corner& a = corners[i];
    const Corner& b = corners[(i + 1) % corners.size()];
    if ((a.x < x) == (b.x < x)) continue;
    const double y = a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x);
    out = high ? std::max(out, y) : std::min(out, y);
  }
  return out;
}

// A straight stretch of an outline's edge.
struct Stretch {
  double from = 0, to = 0;
  double y_from = 0, y_to = 0;

  double y(double x) const { return y_from + (y_to - y_from) * (x - from) / (to - from); }
};

// The high or low edge from left to right: straight between two corners' places.
std::vector<Stretch> edge_of(const Corners& corners, bool high) {
  std::vector<double> places;
  for (const Corner& c : corners) places.push_back(c.x);
  std::sort(places.begin(), places.end());
  std::vector<Stretch> out;
  for (std::size_t i = 0; i + 1 < places.size(); ++i) {
    const double left = places[i];
    const double width = places[i + 1] - left;
    if (width < 1e-6) continue;
    // Straight in between, and may jump at the ends: two samples within give both.
    const double first = edge_at(corners, left + width / 4, high);
    const double second = edge_at(corners, left + width * 3 / 4, high);
    out.push_back({left, places[i + 1], first - (second - first) / 2, second + (second - first) / 2});
  }
  return out;
}

// How far what has the low edge `upper` must be lifted, moved by dx, to lie over what has the high edge
// `lower`.
double lift(const std::vector<Stretch>& lower, const std::vector<Stretch>& upper, double dx) {
  double out = -1e300;
  for (std::size_t i = 0, j = 0; i < lower.size() && j < upper.size();) {
    const double left = std::max(lower[i].from, upper[j].from + dx);
    const double right = std::min(lower[i].to, upper[j].to + dx);
    if (right - left >= 1e-6) {
      for (const double x : {left, right}) out = std::max(out, lower[i].y(x) - upper[j].y(x - dx));
    }
    if (lower[i].to < upper[j].to + dx) {
      ++i;
    } else {
      ++j;
    }
  }
  return out;
}

std::int32_t up(double mm) {
  return static_cast<std::int32_t>(std::ceil(mm - 1e-6));
}

struct Laid {
  std::int32_t length = 0;
  std::int32_t width = 0;
  std::int32_t lower_x = 0, lower_y = 0, upper_x = 0, upper_y = 0;
};

// The best rectangles of `a` with `b` turned end for end over it, none better both ways than another.
std::vector<Laid> pairs(const Shape& a, const Shape& b, bool swapped, std::int32_t kerf) {
  const Corners lower = corners_of(a, swapped);
  const Corners upper = end_for_end(corners_of(b, swapped));
  const std::vector<Stretch> high = edge_of(lower, true);
  const std::vector<Stretch> low = edge_of(upper, false);
  std::vector<std::int32_t> moves;
  for (const Corner& p : lower) {
    for (const Corner& q : upper) {
      const double dx = p.x - q.x;
      moves.push_back(up(dx));
      moves.push_back(static_cast<std::int32_t>(std::floor(dx + 1e-6)));
      if (moves.size() > kPlacesMost) break;
    }
  }
  std::sort(moves.begin(), moves.end());
  moves.erase(std::unique(moves.begin(), moves.end()), moves.end());
  const double boxes = static_cast<double>(a.length) * a.width + static_cast<double>(b.length) * b.width;
  std::vector<Laid> out;
  for (const std::int32_t dx : moves) {
    const double raised = lift(high, low, dx);
    if (raised < -1e200) continue;
    const std::int32_t dy = up(raised) + kerf;
    const std::int32_t low_x = std::min(0, dx);
    const std::int32_t low_y = std::min(0, dy);
    Laid one;
    one.length = std::max(up(most_x(lower)), dx + up(most_x(upper))) - low_x;
    one.width = std::max(up(most_y(lower)), dy + up(most_y(upper))) - low_y;
    one.lower_x = -low_x;
    one.lower_y = -low_y;
    one.upper_x = dx - low_x;
    one.upper_y = dy - low_y;
    if (static_cast<double>(one.length) * one.width > kWorthShare * boxes) continue;
    const auto at_least = [](const Laid& p, const Laid& q) {
      return p.length <= q.length && p.width <= q.width;
    };
    if (std::any_of(out.begin(), out.end(), [&](const Laid& have) { return at_least(have, one); })) continue;
    std::erase_if(out, [&](const Laid& have) { return at_least(one, have); });
    out.push_back(one);
  }
  // The smallest rectangle and the shortest one.
  std::stable_sort(out.begin(), out.end(), [](const Laid& p, const Laid& q) {
    return std::int64_t{p.length} * p.width < std::int64_t{q.length} * q.width;
  });
  if (out.size() > 2) {
    const auto shortest = std::min_element(out.begin() + 1, out.end(),
                                           [](const Laid& p, const Laid& q) { return p.length < q.length; });
    const Laid kept = *shortest;
    out.resize(1);
    out.push_back(kept);
  }
  return out;
}

Fitting fitting(std::int32_t lower, std::int32_t upper, const Laid& laid, bool swapped) {
  Fitting out;
  out.option.along = swapped ? laid.width : laid.length;
  out.option.across = swapped ? laid.length : laid.width;
  if (lower == upper) {
    out.option.gives = {{lower, 2}};
  } else {
    out.option.gives = {{lower, 1}, {upper, 1}};
  }
  const auto member = [&](std::int32_t type, bool reversed, std::int32_t x, std::int32_t y) {
    out.members.push_back({type, reversed, swapped ? y : x, swapped ? x : y});
  };
  member(lower, false, laid.lower_x, laid.lower_y);
  member(upper, true, laid.upper_x, laid.upper_y);
  return out;
}

}  // namespace

Shape shape_of(const geom::Ring& outline) {
  const geom::Box box = geom::bounds(outline);
  const auto mm = [](geom::Grid um) { return static_cast<std::int32_t>((um + 999) / 1000); };
  return {outline, mm(box.width()), mm(box.height())};
}

bool is_box(const Shape& shape) {
  const geom::Box box = geom::bounds(shape.outline);
  const double all = static_cast<double>(box.width()) * static_cast<double>(box.height());
  return static_cast<double>(geom::twice_area(shape.outline)) / 2 > kBoxShare * all;
}

std::vector<Fitting> fittings(const std::vector<Shape>& shapes, std::int32_t kerf) {
  std::vector<Fitting> out;
  std::vector<std::size_t> odd;
  for (std::size_t t = 0; t < shapes.size(); ++t) {
    const auto type = static_cast<std::int32_t>(t);
    out.push_back({{shapes[t].length, shapes[t].width, true, {{type, 1}}}, {{type, false, 0, 0}}});
    if (!is_box(shapes[t])) odd.push_back(t);
  }
  for (std::size_t i = 0; i < odd.size(); ++i) {
    for (std::size_t j = i; j < odd.size(); ++j) {
      if (j != i && (i >= kShapesMost || j >= kShapesMost)) break;
      for (const bool swapped : {false, true}) {
        for (const Laid& laid : pairs(shapes[odd[i]], shapes[odd[j]], swapped, kerf)) {
          out.push_back(
              fitting(static_cast<std::int32_t>(odd[i]), static_cast<std::int32_t>(odd[j]), laid, swapped));
        }
      }
    }
  }
  return out;
}

}  // namespace lapwright::cutting

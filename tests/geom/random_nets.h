// Valid nets by the hundred: a leaning four-sided sheet, creased across into strips, some strips creased
// along.
#pragma once

#include <lapwright/base/generator.h>
#include <lapwright/geom/net.h>

#include <algorithm>
#include <cmath>

namespace lapwright::geom::sample {

struct RandomNet {
  Net net;
  std::size_t panels = 0;
};

inline GridPoint between(GridPoint a, GridPoint b, double t) {
  return {a.x + std::llround(t * static_cast<double>(b.x - a.x)),
          a.y + std::llround(t * static_cast<double>(b.y - a.y))};
}

class NetMaker {
 public:
  explicit NetMaker(Generator& generator) : g_(generator) {}

  RandomNet make() {
    const GridPoint a{0, g_.between(0, 40'000)};
    const GridPoint b{g_.between(300'000, 900'000), g_.between(0, 40'000)};
    const GridPoint c{b.x + g_.between(-40'000, 40'000), g_.between(150'000, 400'000)};
    const GridPoint d{g_.between(-40'000, 40'000), g_.between(150'000, 400'000)};
    out_.net.outline = {a, b, c, d};
    const auto strips = static_cast<std::size_t>(g_.between(1, 5));
    std::vector<Boundary> boundaries;
    for (std::size_t i = 0; i <= strips; ++i) {
      const auto n = static_cast<double>(strips);
      const bool end = i == 0 || i == strips;
      const double low = (static_cast<double>(i) + (end ? 0 : 0.3 * (g_.unit() - 0.5))) / n;
      const double high = (static_cast<double>(i) + (end ? 0 : 0.3 * (g_.unit() - 0.5))) / n;
      boundaries.push_back({between(a, b, low), between(d, c, high), {}});
    }
    for (std::size_t i = 0; i < strips; ++i) {
      if (!g_.chance(0.4)) {
        if (g_.chance(0.2)) add_hole(boundaries[i], boundaries[i + 1]);
        continue;
      }
      const GridPoint left = stop_on(boundaries[i]);
      const GridPoint right = stop_on(boundaries[i + 1]);
      add_fold(left, right);
      ++out_.panels;
    }
    out_.panels += strips;
    for (std::size_t i = 1; i < strips; ++i) add_boundary(boundaries[i]);
    move_about();
    return std::move(out_);
  }

 private:
  struct Boundary {
    GridPoint foot;
    GridPoint top;
    std::vector<GridPoint> stops;  // where creases along the strips meet it
  };

  GridPoint stop_on(Boundary& boundary) {
    // Twentieths, so that two stops are the same point or well apart.
    const GridPoint stop =
        between(boundary.foot, boundary.top, static_cast<double>(g_.between(4, 16)) / 20.0);
    boundary.stops.push_back(stop);
    return stop;
  }

  void add_hole(const Boundary& left, const Boundary& right) {
    const GridPoint middle =
        between(between(left.foot, left.top, 0.5), between(right.foot, right.top, 0.5), 0.5);
    out_.net.holes.push_back({{middle.x - 4000, middle.y - 3000},
                              {middle.x + 1000, middle.y + 5000},
                              {middle.x + 4000, middle.y - 2000}});
  }

  void add_fold(GridPoint from, GridPoint to) {
    if (g_.chance(0.5)) std::swap(from, to);
    const double degrees = g_.chance(0.3) ? 90.0 : static_cast<double>(g_.between(0, 1800)) / 10.0;
    out_.net.folds.push_back({from, to, Angle::degrees(degrees), g_.chance(0.5)});
  }

  // One part of a boundary is folded and the rest is cut, so that the panels make a tree.
  void add_boundary(Boundary& boundary) {
    std::vector<GridPoint> points = boundary.stops;
    points.push_back(boundary.foot);
    points.push_back(boundary.top);
    std::sort(points.begin(), points.end(), [](GridPoint p, GridPoint q) { return p.y < q.y; });
    points.erase(std::unique(points.begin(), points.end()), points.end());
    const auto folded = static_cast<std::size_t>(g_.between(0, static_cast<std::int64_t>(points.size()) - 2));
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
      if (i == folded) {
        add_fold(points[i], points[i + 1]);
      } else {
        out_.net.cuts.push_back({points[i], points[i + 1]});
      }
    }
  }

  void move_about() {
    const std::int64_t quarters = g_.between(0, 3);
    const GridPoint by{g_.between(-1'000'000, 1'000'000), g_.between(-1'000'000, 1'000'000)};
    const auto move = [&](GridPoint& p) {
      for (std::int64_t i = 0; i < quarters; ++i) p = {-p.y, p.x};
      p = {p.x + by.x, p.y + by.y};
    };
    for (GridPoint& p : out_.net.outline) move(p);
    for (Ring& hole : out_.net.holes) {
      for (GridPoint& p : hole) move(p);
    }
    for (Fold& fold : out_.net.folds) move(fold.from), move(fold.to);
    for (Cut& cut : out_.net.cuts) move(cut.from), move(cut.to);
  }

  Generator& g_;
  RandomNet out_;
};

inline RandomNet random_net(Generator& generator) {
  return NetMaker(generator).make();
}

// A point inside a convex ring.
inline GridPoint middle_of(const Ring& ring) {
  GridPoint sum;
  for (const GridPoint p : ring) sum = {sum.x + p.x, sum.y + p.y};
  const auto n = static_cast<Grid>(ring.size());
  return {sum.x / n, sum.y / n};
}

}  // namespace lapwright::geom::sample

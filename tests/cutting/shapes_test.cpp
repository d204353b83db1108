// Pieces head to tail: never on each other, and as near as they go.
#include "shapes.h"

#include <lapwright/base/generator.h>

#include <geos_c.h>
#include <gtest/gtest.h>

#include <cstdarg>
#include <cstddef>

namespace lapwright::cutting {
namespace {

geom::Ring steps(int teeth, std::int64_t run, std::int64_t rise, std::int64_t base) {
  geom::Ring out{{0, 0}, {teeth * run, 0}};
  for (int i = teeth; i > 0; --i) {
    out.push_back({i * run, base});
    out.push_back({(i - 1) * run, base + rise});
    if (i > 1) out.push_back({(i - 1) * run, base});
  }
  return out;
}

// The ring of a member in its option, mm, moved by (dx, dy).
struct Laid {
  std::vector<double> x;
  std::vector<double> y;
};
Laid laid(const geom::Ring& outline, const Member& member, double dx = 0, double dy = 0) {
  const geom::Box box = geom::bounds(outline);
  Laid out;
  for (const geom::GridPoint& p : outline) {
    double x = static_cast<double>(p.x - box.low.x) / 1000;
    double y = static_cast<double>(p.y - box.low.y) / 1000;
    if (member.reversed) {
      x = static_cast<double>(box.width()) / 1000 - x;
      y = static_cast<double>(box.height()) / 1000 - y;
    }
    out.x.push_back(x + member.x + dx);
    out.y.push_back(y + member.y + dy);
  }
  return out;
}

class Geos {
 public:
  Geos() : context_(GEOS_init_r()) {}
  ~Geos() { GEOS_finish_r(context_); }
  Geos(const Geos&) = delete;
  Geos& operator=(const Geos&) = delete;

  double shared_area(const Laid& a, const Laid& b) {
    GEOSGeometry* p = polygon(a);
    GEOSGeometry* q = polygon(b);
    GEOSGeometry* both = GEOSIntersection_r(context_, p, q);
    double area = -1;
    if (both != nullptr) GEOSArea_r(context_, both, &area);
    GEOSGeom_destroy_r(context_, both);
    GEOSGeom_destroy_r(context_, p);
    GEOSGeom_destroy_r(context_, q);
    return area;
  }

 private:
  GEOSGeometry* polygon(const Laid& ring) {
    const auto n = static_cast<unsigned>(ring.x.size());
    GEOSCoordSequence* points = GEOSCoordSeq_create_r(context_, n + 1, 2);
    for (unsigned i = 0; i <= n; ++i) GEOSCoordSeq_setXY_r(context_, points, i, ring.x[i % n], ring.y[i % n]);
    return GEOSGeom_createPolygon_r(context_, GEOSGeom_createLinearRing_r(context_, points), nullptr, 0);
  }
  GEOSContextHandle_t context_;
};

TEST(Shapes, equal_teeth_fill_their_rectangle) {
  // Teeth 75 × 150 on a base of 65: two boxes are filled to 73.2 %, a pair wholly.
  for (const int teeth : {4, 10, 20}) {
    const Shape shape = shape_of(steps(teeth, 150'000, 75'000, 65'000));
    double best = 0;
    for (const Fitting& fitting : fittings({shape}, 0)) {
      const double area = static_cast<double>(fitting.option.along) * fitting.option.across;
      const double used = geom::area(shape.outline).in_mm2() * static_cast<double>(fitting.members.size());
      if (fitting.members.size() == 1) {
        EXPECT_NEAR(used / area, 0.732, 0.001);
      }
      best = std::max(best, used / area);
    }
    EXPECT_NEAR(best, 1.0, 1e-9) << teeth;
  }
}

TEST(Shapes, wedges_lie_side_by_side) {
  // A right-angled trapezoid with its copy is a rectangle.
  const geom::Ring ring{{0, 0}, {500'000, 0}, {300'000, 200'000}, {0, 200'000}};
  double best = 0;
  for (const Fitting& fitting : fittings({shape_of(ring)}, 0)) {
    best = std::max(best, geom::area(ring).in_mm2() * static_cast<double>(fitting.members.size()) /
                              (static_cast<double>(fitting.option.along) * fitting.option.across));
  }
  EXPECT_NEAR(best, 1.0, 1e-9);
}

TEST(Shapes, pairs_never_share_lead_and_touch) {
  Geos geos;
  Generator random(9);
  int pairs = 0;
  for (int round = 0; round < 60; ++round) {
    std::vector<Shape> shapes;
    std::vector<geom::Ring> rings;
    for (int i = 0; i < 2; ++i) {
      if (random.chance(0.5)) {
        rings.push_back(steps(static_cast<int>(random.between(2, 8)), random.between(60'000, 200'000),
                              random.between(30'000, 90'000), random.between(40'000, 120'000)));
      } else {
        const std::int64_t length = random.between(300'000, 900'000);
        const std::int64_t width = random.between(80'000, 300'000);
        rings.push_back({{0, 0},
                         {length, 0},
                         {length - random.between(0, length / 3), width},
                         {random.between(0, length / 3), width}});
      }
      shapes.push_back(shape_of(rings.back()));
    }
    for (const Fitting& fitting : fittings(shapes, 0)) {
      if (fitting.members.size() != 2) continue;
      ++pairs;
      const geom::Ring& first = rings[static_cast<std::size_t>(fitting.members[0].type)];
      const geom::Ring& second = rings[static_cast<std::size_t>(fitting.members[1].type)];
      const Laid a = laid(first, fitting.members[0]);
      const Laid b = laid(second, fitting.members[1]);
      EXPECT_LT(geos.shared_area(a, b), 1e-3) << round;
      for (const Laid& ring : {a, b}) {
        for (std::size_t k = 0; k < ring.x.size(); ++k) {
          EXPECT_GE(ring.x[k], -1e-9);
          EXPECT_GE(ring.y[k], -1e-9);
          EXPECT_LE(ring.x[k], fitting.option.along + 1e-9);
          EXPECT_LE(ring.y[k], fitting.option.across + 1e-9);
        }
      }
      // Two mm nearer in one direction or the other they bite.
      const bool near = geos.shared_area(a, laid(second, fitting.members[1], 0, -2)) > 1e-3 ||
                        geos.shared_area(a, laid(second, fitting.members[1], -2, 0)) > 1e-3 ||
                        geos.shared_area(a, laid(second, fitting.members[1], 2, 0)) > 1e-3;
      EXPECT_TRUE(near) << round;
    }
  }
  EXPECT_GT(pairs, 60);
}

}  // namespace
}  // namespace lapwright::cutting

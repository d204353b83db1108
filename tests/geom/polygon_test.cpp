// Polygons against GEOS (libgeos, LGPL, the reference for plane geometry) on random rings, and by hand.
#include "geos.h"
#include "sample_nets.h"

#include <lapwright/base/generator.h>

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace {
using namespace lapwright;
using namespace lapwright::geom;
using namespace lapwright::geom::sample;

constexpr std::uint64_t kSeed = 4711;

// Any points in any order: small ranges give rings that touch, repeat and run straight; large ones cross.
Ring wild_ring(Generator& g) {
  constexpr std::array<Grid, 4> kRanges{2, 4, 12, 1'000'000};
  const Grid range = kRanges[static_cast<std::size_t>(g.between(0, 3))];
  Ring ring(static_cast<std::size_t>(g.between(3, 9)));
  for (GridPoint& p : ring) p = {g.between(-range, range), g.between(-range, range)};
  return ring;
}

// A ring around the origin, its points by angle: simple as a rule, with deep inward corners.
Ring star(Generator& g, Grid range) {
  Ring ring;
  const auto n = g.between(4, 60);
  for (std::int64_t i = 0; i < n; ++i) ring.push_back({g.between(-range, range), g.between(-range, range)});
  const auto lower = [](GridPoint p) { return p.y < 0 || (p.y == 0 && p.x < 0); };
  std::sort(ring.begin(), ring.end(), [&](GridPoint p, GridPoint q) {
    if (lower(p) != lower(q)) return lower(q);
    const int order = turn({0, 0}, p, q);
    return order != 0 ? order > 0 : p < q;
  });
  return ring;
}

bool repeats_a_point(const Ring& ring) {
  for (std::size_t i = 0; i < ring.size(); ++i) {
    if (ring[i] == ring[(i + 1) % ring.size()]) return true;
  }
  return false;
}

TEST(IsSimple, agrees_with_geos) {
  const Geos geos;
  Generator g(kSeed);
  int simple = 0;
  int not_simple = 0;
  for (int n = 0; n < 40'000; ++n) {
    const Ring ring = n % 2 == 0 ? wild_ring(g) : star(g, n % 4 == 1 ? 20 : 2'000'000);
    // GEOS forgives points that stand twice in a row; a net does not.
    const bool expected = !repeats_a_point(ring) && geos.valid(geos.polygon(ring));
    ASSERT_EQ(is_simple(ring), expected) << "ring " << n << ": " << testing::PrintToString(ring);
    ++(expected ? simple : not_simple);
  }
  std::printf("seed %llu: %d simple rings, %d that are not\n", static_cast<unsigned long long>(kSeed), simple,
              not_simple);
  EXPECT_GT(simple, 5000);
  EXPECT_GT(not_simple, 5000);
}

TEST(IsSimple, by_hand) {
  EXPECT_FALSE(is_simple(Ring{}));
  EXPECT_FALSE(is_simple(Ring{at(0, 0), at(1, 0)}));
  EXPECT_FALSE(is_simple(Ring{at(0, 0), at(1, 0), at(2, 0)}));
  EXPECT_TRUE(is_simple(Ring{at(0, 0), at(1, 0), at(2, 0), at(2, 2)}));   // a straight point
  EXPECT_FALSE(is_simple(Ring{at(0, 0), at(2, 0), at(1, 0), at(2, 2)}));  // runs back over its own edge
}

TEST(Area, agrees_with_geos) {
  const Geos geos;
  Generator g(kSeed + 1);
  for (int n = 0; n < 20'000; ++n) {
    const Ring ring = star(g, 2'000'000);
    const double expected = geos.area(geos.polygon(ring));
    ASSERT_NEAR(static_cast<double>(std::llabs(twice_area(ring))) / 2, expected, expected * 1e-12);
    ASSERT_NEAR(area(ring).in_mm2(), expected / 1e6, expected * 1e-18);
  }
}

TEST(Area, is_exact_at_the_ends_of_the_range) {
  constexpr Grid kHalf = Grid{1} << 30;
  const Ring square{{-kHalf, -kHalf}, {kHalf - 1, -kHalf}, {kHalf - 1, kHalf - 1}, {-kHalf, kHalf - 1}};
  constexpr std::int64_t kSide = 2 * kHalf - 1;
  EXPECT_EQ(twice_area(square), 2 * (kSide * kSide));
  // One grid step more or less at a far corner is one side's length.
  Ring moved = square;
  moved[2].x -= 1;
  EXPECT_EQ(twice_area(square) - twice_area(moved), kSide);
  EXPECT_EQ(turn(square[0], square[2], {kHalf - 2, kHalf - 1}), 1);
  EXPECT_EQ(turn(square[0], square[2], {kHalf - 1, kHalf - 2}), -1);
}

TEST(Area, is_signed_by_direction) {
  EXPECT_EQ(twice_area(Ring{{0, 0}, {3, 0}, {0, 5}}), 15);
  EXPECT_EQ(twice_area(Ring{{0, 0}, {0, 5}, {3, 0}}), -15);
  EXPECT_EQ(area(Ring{at(0, 0), at(0, 5), at(3, 0)}).in_mm2(), 7.5);
}

TEST(SideOf, agrees_with_geos) {
  const Geos geos;
  Generator g(kSeed + 2);
  std::array<int, 3> counts{};
  for (int n = 0; n < 4000; ++n) {
    const Ring ring = star(g, 9);
    if (!is_simple(ring)) continue;
    const auto polygon = geos.polygon(ring);
    for (int k = 0; k < 20; ++k) {
      const GridPoint p{g.between(-10, 10), g.between(-10, 10)};
      const auto point = geos.point(p);
      const Side expected = geos.contains(polygon, point) ? Side::inside
                            : geos.meets(polygon, point)  ? Side::on_edge
                                                          : Side::outside;
      ASSERT_EQ(side_of(p, ring), expected) << testing::PrintToString(ring) << testing::PrintToString(p);
      ++counts[static_cast<std::size_t>(expected)];
    }
  }
  std::printf("points inside %d, on an edge %d, outside %d\n", counts[0], counts[1], counts[2]);
  EXPECT_GT(*std::min_element(counts.begin(), counts.end()), 1000);
}

TEST(ClippedBetween, agrees_with_geos) {
  const Geos geos;
  Generator g(kSeed + 3);
  int empty = 0;
  for (int n = 0; n < 5000; ++n) {
    // A convex ring: points of a circle in order of angle. Clipping leaves one piece.
    Ring ring = star(g, 100'000);
    for (GridPoint& p : ring) {
      const double scale = 80'000 / std::hypot(static_cast<double>(p.x) + 0.1, static_cast<double>(p.y));
      p = {std::llround(scale * static_cast<double>(p.x)), std::llround(scale * static_cast<double>(p.y))};
    }
    if (!is_simple(ring)) continue;
    const Grid low = g.between(-100'000, 100'000);
    const Grid high = low + g.between(1, 100'000);
    const Ring band{{low, -100'000}, {high, -100'000}, {high, 100'000}, {low, 100'000}};
    const double expected = geos.area(geos.intersection(geos.polygon(ring), geos.polygon(band)));
    const Ring got = clipped_between(ring, low, high);
    if (got.empty()) ++empty;
    // At most four new points, each rounded by half a µm, move edges of at most 160 mm.
    ASSERT_NEAR(static_cast<double>(twice_area(got)) / 2, expected, 4 * 0.5 * 160'000) << "ring " << n;
    for (const GridPoint p : got) ASSERT_TRUE(p.x >= low && p.x <= high);
    ASSERT_TRUE(got.empty() || is_simple(got));
  }
  EXPECT_GT(empty, 10);
}

TEST(ClippedBetween, keeps_whole_rings_and_drops_what_only_touches) {
  const Ring square = rectangle(10, 10);
  EXPECT_EQ(clipped_between(square, 0, 10'000), square);
  EXPECT_EQ(clipped_between(square, 10'000, 20'000), Ring{});
  EXPECT_EQ(clipped_between(square, 2'000, 5'000), (Ring{at(2, 0), at(5, 0), at(5, 10), at(2, 10)}));
}

TEST(ClippedBetween, cuts_saw_teeth_without_spikes) {
  // Two teeth; the band ends at the inner corner between them, and then within the second tooth.
  const Ring teeth{at(0, 0), at(20, 0), at(20, 10), at(10, 5), at(10, 10), at(0, 5)};
  EXPECT_EQ(clipped_between(teeth, 0, 10'000), (Ring{at(0, 0), at(10, 0), at(10, 10), at(0, 5)}));
  EXPECT_EQ(clipped_between(teeth, 10'000, 20'000), (Ring{at(10, 0), at(20, 0), at(20, 10), at(10, 5)}));
}

TEST(ClippedBetween, cuts_a_shared_edge_at_one_point_from_both_sides) {
  Generator g(kSeed + 4);
  for (int n = 0; n < 2000; ++n) {
    const GridPoint a{g.between(-1000, -1), g.between(-1000, 1000)};
    const GridPoint b{g.between(1, 1000), g.between(-1000, 1000)};
    const Ring above{a, b, {b.x, 5000}, {a.x, 5000}};
    const Ring below{b, a, {a.x, -5000}, {b.x, -5000}};
    const Ring p = clipped_between(above, 0, 1000);
    const Ring q = clipped_between(below, 0, 1000);
    const auto meets_line = [](const Ring& ring, bool lowest) {
      GridPoint best{0, lowest ? 9999 : -9999};
      for (const GridPoint r : ring) {
        if (r.x == 0 && (lowest ? r.y < best.y : r.y > best.y)) best = r;
      }
      return best;
    };
    ASSERT_EQ(meets_line(p, true), meets_line(q, false));
    // And that point is the nearest: |2·(exact − y)·width| <= width.
    const Grid width = b.x - a.x;
    ASSERT_LE(std::llabs(2 * (width * (meets_line(p, true).y - a.y) + (b.y - a.y) * a.x)), width);
  }
}

TEST(WithoutStraightPoints, drops_them_and_starts_at_the_first_corner) {
  EXPECT_EQ(without_straight_points(Ring{at(1, 0), at(2, 0), at(2, 2), at(1, 2), at(0, 2), at(0, 0)}),
            (Ring{at(2, 0), at(2, 2), at(0, 2), at(0, 0)}));
  EXPECT_EQ(without_straight_points(Ring{at(0, 0), at(1, 0), at(2, 0)}), Ring{});
}

TEST(Mirrored, ring_keeps_direction_and_first_point) {
  const Ring ring{at(1, 0), at(4, 0), at(1, 5)};
  const Ring mirror = mirrored(ring);
  EXPECT_EQ(mirror, (Ring{at(-1, 0), at(-1, 5), at(-4, 0)}));
  EXPECT_EQ(twice_area(mirror), twice_area(ring));
  EXPECT_EQ(mirrored(mirror), ring);
}
}  // namespace

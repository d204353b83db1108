// Folding: against rotation matrices of the tests' own, and against planes known beforehand (common practice,
// no source: an upstand stands square to the leg, a hook turns down over the batten).
#include "random_nets.h"
#include "rotation.h"
#include "sample_nets.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>

#include <gtest/gtest.h>

#include <cstdio>

namespace {
using namespace lapwright;
using namespace lapwright::geom;
using namespace lapwright::geom::sample;

constexpr int kRandomNets = 10'000;
constexpr std::uint64_t kSeed = 20'240'611;
constexpr double kNoise = tolerance::kNoise.in_mm();

Vec3 placed(const Frame& frame, GridPoint p) {
  return frame.at(to_length(p.x).in_mm(), to_length(p.y).in_mm());
}

std::vector<Panel> panels_of(const Net& net, GridPoint base) {
  auto panels = split_into_panels(net, base);
  if (!panels) {
    ADD_FAILURE() << to_line(panels.error().front());
    return {};
  }
  return *std::move(panels);
}

void expect_on_plane(const Panel& panel, const Frame& frame, const Plane& plane, Vec3 outward) {
  for (const GridPoint p : panel.ring) EXPECT_NEAR(signed_distance(placed(frame, p), plane), 0, kNoise);
  EXPECT_NEAR(length_of(frame.normal() - outward), 0, 1e-12);
}

TEST(Fold, soaker_upstand_stands_on_the_outward_side_whichever_way_round_its_fold_is_drawn) {
  for (const bool swapped : {false, true}) {
    Net net = soaker();
    if (swapped) std::swap(net.folds[0].from, net.folds[0].to);
    const auto panels = panels_of(net, at(10, 10));
    const auto frames = fold_panels(net, panels, Frame{});
    ASSERT_EQ(frames.size(), 2U);
    expect_on_plane(panels[1], frames[1], {{0, 100, 0}, {0, 1, 0}}, {0, -1, 0});
    EXPECT_NEAR(placed(frames[1], at(0, 175)).z, 75, kNoise);
  }
}

TEST(Fold, soaker_leg_stands_on_the_outward_side_of_its_upstand) {
  const Net net = soaker();
  const auto panels =
      panels_of(net, at(10, 150));  // the upstand is the base: the leg moves, on the fold's right
  const auto frames = fold_panels(net, panels, Frame{});
  ASSERT_EQ(frames.size(), 2U);
  expect_on_plane(panels[1], frames[1], {{0, 100, 0}, {0, 1, 0}}, {0, 1, 0});
  EXPECT_NEAR(placed(frames[1], at(0, 0)).z, 100, kNoise);
}

TEST(Fold, up_follows_the_parents_outward_face_when_the_base_lies_otherwise) {
  const Net net = soaker();
  const auto panels = panels_of(net, at(10, 10));
  // Upside down: x along x, y along −y, outward face −z.
  const auto frames = fold_panels(net, panels, Frame{{5, 6, 7}, {1, 0, 0}, {0, -1, 0}});
  ASSERT_EQ(frames.size(), 2U);
  EXPECT_NEAR(placed(frames[1], at(0, 175)).z, 7 - 75, kNoise);
  EXPECT_NEAR(placed(frames[1], at(0, 175)).y, 6 - 100, kNoise);
}

TEST(Fold, hook_hangs_below_and_the_upstand_goes_on_beyond_it) {
  const Net net = hooked_soaker();
  const auto panels = panels_of(net, at(10, 10));
  const auto frames = fold_panels(net, panels, Frame{});
  ASSERT_EQ(frames.size(), 3U);
  expect_on_plane(panels[1], frames[1], {{0, 100, 0}, {0, 1, 0}}, {0, -1, 0});
  expect_on_plane(panels[2], frames[2], {{190, 0, 0}, {1, 0, 0}}, {1, 0, 0});
  EXPECT_NEAR(placed(frames[1], at(215, 175)).x, 215, kNoise);
  EXPECT_NEAR(placed(frames[2], at(215, 50)).z, -25, kNoise);
}

TEST(Fold, every_turn_in_goes_level_into_the_wall_at_its_own_joint) {
  const Steps steps;
  const Net net = step_flashing(steps);
  const auto panels = panels_of(net, at(10, -10));
  const auto frames = fold_panels(net, panels, Frame{});
  ASSERT_EQ(frames.size(), 4U);
  for (std::size_t i = 1; i < frames.size(); ++i) {
    const double level = to_length(net.folds[*panels[i].hinge].from.y).in_mm();
    // The face looks out of the wall (+z); a turn-in goes behind it, its outward face up.
    expect_on_plane(panels[i], frames[i], {{0, level, 0}, {0, 1, 0}}, {0, 1, 0});
    double deepest = 0;
    for (const GridPoint p : panels[i].ring) deepest = std::min(deepest, placed(frames[i], p).z);
    EXPECT_NEAR(deepest, -steps.turn_in, kNoise);
  }
}

TEST(Fold, a_chain_of_folds_composes) {
  // A tray's side with a welt: up 90, then a further 90 inwards.
  Net net;
  net.outline = rectangle(200, 160);
  net.folds = {fold(at(0, 100), at(200, 100), 90, true), fold(at(200, 140), at(0, 140), 90, true)};
  const auto panels = panels_of(net, at(10, 10));
  const auto frames = fold_panels(net, panels, Frame{});
  ASSERT_EQ(frames.size(), 3U);
  expect_on_plane(panels[2], frames[2], {{0, 0, 40}, {0, 0, 1}}, {0, 0, -1});
  EXPECT_NEAR(placed(frames[2], at(0, 160)).y, 80, kNoise);
}

TEST(Fold, a_tray_with_cut_corners_closes_into_a_box) {
  Net net;
  net.outline = {at(50, 0),    at(250, 0),  at(250, 50), at(300, 50), at(300, 150), at(250, 150),
                 at(250, 200), at(50, 200), at(50, 150), at(0, 150),  at(0, 50),    at(50, 50)};
  net.folds = {fold(at(50, 50), at(250, 50), 90, true), fold(at(250, 50), at(250, 150), 90, true),
               fold(at(50, 150), at(250, 150), 90, true), fold(at(50, 50), at(50, 150), 90, true)};
  const auto panels = panels_of(net, at(100, 100));
  const auto frames = fold_panels(net, panels, Frame{});
  ASSERT_EQ(frames.size(), 5U);
  EXPECT_NEAR(length_of(placed(frames[1], at(250, 0)) - placed(frames[2], at(300, 50))), 0, kNoise);
  EXPECT_NEAR(length_of(placed(frames[2], at(300, 150)) - placed(frames[3], at(250, 200))), 0, kNoise);
  EXPECT_NEAR(length_of(placed(frames[3], at(50, 200)) - placed(frames[4], at(0, 150))), 0, kNoise);
  EXPECT_NEAR(placed(frames[4], at(0, 50)).z, 50, kNoise);
}

TEST(Fold, a_tongue_cut_free_within_the_sheet_folds_either_way_about) {
  // Three cuts and a fold leave a tongue in the middle of the sheet; it is the base once, and moves once.
  Net net;
  net.outline = rectangle(200, 200);
  net.folds = {fold(at(50, 50), at(150, 50), 90, true)};
  net.cuts = {{at(150, 50), at(150, 120)}, {at(150, 120), at(50, 120)}, {at(50, 120), at(50, 50)}};
  const auto panels = panels_of(net, at(10, 10));
  ASSERT_EQ(panels.size(), 2U);
  EXPECT_EQ(panels[0].holes.size(), 1U);
  EXPECT_NEAR(placed(fold_panels(net, panels, Frame{})[1], at(100, 120)).z, 70, kNoise);
  const auto turned_about = panels_of(net, at(100, 100));
  ASSERT_EQ(turned_about.size(), 2U);
  EXPECT_NEAR(placed(fold_panels(net, turned_about, Frame{})[1], at(100, 0)).z, 50, kNoise);
}

TEST(Fold, an_edge_on_the_folds_line_beyond_its_ends_does_not_pass_for_the_hinge) {
  // The moving part reaches round and back across the line y = −50, where one of its edges runs the other
  // way.
  Net net;
  net.outline = {at(-50, 0),    at(-150, 0),   at(-150, -50), at(-150, -60),  at(-200, -60), at(-200, -20),
                 at(-300, -20), at(-300, -50), at(-250, -50), at(-250, -100), at(-50, -100)};
  net.folds = {fold(at(-50, -50), at(-150, -50), 90, true)};
  const auto panels = panels_of(net, at(-100, -10));
  ASSERT_EQ(panels.size(), 2U);
  EXPECT_NEAR(placed(fold_panels(net, panels, Frame{})[1], at(-50, -100)).z, 50, kNoise);
  EXPECT_NEAR(placed(fold_panels(net, panels, Frame{})[1], at(-300, -20)).z, -30, kNoise);
}

TEST(Fold, agrees_with_rotation_matrices) {
  Generator g(kSeed);
  int folded_points = 0;
  for (int n = 0; n < kRandomNets; ++n) {
    const auto [net, count] = random_net(g);
    const auto panels = panels_of(net, net.outline[0]);
    ASSERT_EQ(panels.size(), count) << "net " << n;
    std::vector<bool> left(count, false);
    for (std::size_t i = 1; i < count; ++i) {
      const Fold& fold = net.folds[*panels[i].hinge];
      left[i] = turn(fold.from, fold.to, middle_of(panels[i].ring)) > 0;
    }
    const auto frames = fold_panels(net, panels, Frame{});
    for (std::size_t i = 0; i < count; ++i) {
      for (const GridPoint p : panels[i].ring) {
        const Point3 expected = folded(net, panels, left, i, p);
        const Vec3 got = placed(frames[i], p);
        ASSERT_NEAR(got.x, static_cast<double>(expected[0]), kNoise) << "net " << n << " panel " << i;
        ASSERT_NEAR(got.y, static_cast<double>(expected[1]), kNoise) << "net " << n << " panel " << i;
        ASSERT_NEAR(got.z, static_cast<double>(expected[2]), kNoise) << "net " << n << " panel " << i;
        ++folded_points;
      }
    }
  }
  std::printf("seed %llu: %d nets, %d folded points\n", static_cast<unsigned long long>(kSeed), kRandomNets,
              folded_points);
}

// Twice the area of a polygon in space (the length of its summed cross products).
double area_in_space(const Ring& ring, const Frame& frame) {
  Vec3 sum;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec3 a = placed(frame, ring[i]) - placed(frame, ring[0]);
    sum = sum + cross(a, placed(frame, ring[(i + 1) % ring.size()]) - placed(frame, ring[0]));
  }
  return length_of(sum) / 2;
}

TEST(N4, area_is_kept_by_folding) {
  Generator g(kSeed + 1);
  for (int n = 0; n < kRandomNets; ++n) {
    const Net net = random_net(g).net;
    const auto panels = panels_of(net, net.outline[0]);
    const auto frames = fold_panels(net, panels, Frame{});
    double sum = 0;
    for (std::size_t i = 0; i < panels.size(); ++i) {
      sum += area_in_space(panels[i].ring, frames[i]);
      for (const Ring& hole : panels[i].holes) sum -= area_in_space(hole, frames[i]);
    }
    // Ends on slanted edges bend those by up to 2 µm: less than 2 µm times the half perimeter.
    const Box box = bounds(net.outline);
    const double slack = 0.002 * to_length(box.width() + box.height()).in_mm();
    ASSERT_NEAR(sum, net_area(net).in_mm2(), slack) << "net " << n;
  }
}

TEST(N4, folding_by_zero_angles_gives_the_flat_net) {
  Generator g(kSeed + 2);
  const Frame base{{0.1, 0.2, 0.3}, {0, 1, 0}, {0, 0, 1}};
  for (int n = 0; n < 1000; ++n) {
    Net net = random_net(g).net;
    for (Fold& fold : net.folds) fold.angle = Angle{};
    for (const Frame& frame : fold_panels(net, panels_of(net, net.outline[0]), base)) {
      ASSERT_EQ(frame.origin, base.origin);
      ASSERT_EQ(frame.x_axis, base.x_axis);
      ASSERT_EQ(frame.y_axis, base.y_axis);
    }
  }
}

// Lays a panel of the solid flat beside its parent, from its points in space alone: along the hinge, and
// square to it within the panel's own plane.
Ring laid_flat(const std::vector<Vec3>& points, Vec3 a, Vec3 b, GridPoint flat_a, GridPoint flat_b) {
  Vec3 normal;
  for (std::size_t i = 0; i < points.size(); ++i) {
    normal = normal + cross(points[i] - points[0], points[(i + 1) % points.size()] - points[0]);
  }
  const Vec3 u = unit(b - a);
  const Vec3 w = cross(unit(normal), u);
  const double dx = to_length(flat_b.x - flat_a.x).in_mm();
  const double dy = to_length(flat_b.y - flat_a.y).in_mm();
  const double length = std::sqrt(dx * dx + dy * dy);
  Ring ring;
  for (const Vec3 p : points) {
    const double along = dot(p - a, u) / length;
    const double across = dot(p - a, w) / length;
    ring.push_back(grid_point(to_length(flat_a.x) + Length::mm(along * dx - across * dy),
                              to_length(flat_a.y) + Length::mm(along * dy + across * dx)));
  }
  return ring;
}

TEST(N5, folding_then_unfolding_gives_the_same_net) {
  Generator g(kSeed + 3);
  const Frame base{{10, 20, 30}, {0.6, 0.8, 0}, {0, 0, 1}};
  for (int n = 0; n < kRandomNets; ++n) {
    const Net net = random_net(g).net;
    const auto panels = panels_of(net, net.outline[0]);
    const auto frames = fold_panels(net, panels, base);
    for (std::size_t i = 1; i < panels.size(); ++i) {
      std::vector<Vec3> solid;
      for (const GridPoint p : panels[i].ring) solid.push_back(placed(frames[i], p));
      const Fold& fold = net.folds[*panels[i].hinge];
      const Frame& parent = frames[*panels[i].parent];
      const Ring ring =
          laid_flat(solid, placed(parent, fold.from), placed(parent, fold.to), fold.from, fold.to);
      ASSERT_EQ(ring, panels[i].ring) << "net " << n << " panel " << i;
    }
  }
}

Ring least_first(Ring ring) {
  std::rotate(ring.begin(), std::min_element(ring.begin(), ring.end()), ring.end());
  return ring;
}

TEST(Mirrored, net_folds_to_the_mirrored_solid) {
  Generator g(kSeed + 4);
  int compared = 0;
  for (int n = 0; n < kRandomNets; ++n) {
    const Net net = random_net(g).net;
    const Net other = mirrored(net);
    const auto panels = panels_of(net, net.outline[0]);
    const auto frames = fold_panels(net, panels, Frame{});
    const GridPoint base = net.outline[0];
    const auto other_panels = panels_of(other, {-base.x, base.y});
    const auto other_frames = fold_panels(other, other_panels, Frame{});
    ASSERT_EQ(other_panels.size(), panels.size());
    for (std::size_t i = 0; i < panels.size(); ++i) {
      const Ring ring = least_first(mirrored(panels[i].ring));
      std::size_t match = 0;
      while (match < panels.size() && other_panels[match].ring != ring) ++match;
      ASSERT_LT(match, panels.size()) << "net " << n << " panel " << i;
      for (const GridPoint p : panels[i].ring) {
        const Vec3 a = placed(frames[i], p);
        const Vec3 b = placed(other_frames[match], {-p.x, p.y});
        ASSERT_NEAR(length_of(b - Vec3{-a.x, a.y, a.z}), 0, kNoise) << "net " << n << " panel " << i;
        ++compared;
      }
    }
  }
  std::printf("seed %llu: %d mirrored nets, %d points compared\n", static_cast<unsigned long long>(kSeed + 4),
              kRandomNets, compared);
}

TEST(Turned, keeps_axes_square_and_points_on_the_line) {
  Generator g(kSeed + 5);
  const auto random_vector = [&] {
    return Vec3{g.unit() * 200 - 100, g.unit() * 200 - 100, g.unit() * 200 - 100};
  };
  for (int n = 0; n < 1000; ++n) {
    const Vec3 a = random_vector();
    const Vec3 b = random_vector();
    const Angle angle = Angle::degrees(g.unit() * 720 - 360);
    const Frame frame = turned(Frame{random_vector(), {1, 0, 0}, {0, 1, 0}}, a, b, angle);
    EXPECT_NEAR(length_of(frame.x_axis), 1, 1e-14);
    EXPECT_NEAR(length_of(frame.y_axis), 1, 1e-14);
    EXPECT_NEAR(dot(frame.x_axis, frame.y_axis), 0, 1e-14);
    EXPECT_NEAR(length_of(turned(Frame{a, {1, 0, 0}, {0, 1, 0}}, a, b, angle).origin - a), 0, 1e-12);
  }
}
}  // namespace

// Nets that break a property of net.h, each found by the property's name and at the part that breaks it.
#include "random_nets.h"
#include "sample_nets.h"

#include <gtest/gtest.h>

#include <cstdio>
#include <limits>

namespace {
using namespace lapwright;
using namespace lapwright::geom;
using namespace lapwright::geom::sample;

void expect_fault(const Net& net, std::string_view property, std::string_view path) {
  const std::optional<Fault> fault = fault_of(net);
  ASSERT_TRUE(fault);
  EXPECT_EQ(fault->code, FaultCode::no_geometry);
  EXPECT_EQ(fault->accepted.substr(0, 3), std::string(property) + ":") << to_line(*fault);
  EXPECT_EQ(fault->path, path) << to_line(*fault);
  EXPECT_FALSE(fault->read.empty());
  EXPECT_FALSE(fault->mend.empty());
}

void expect_sound(const Net& net) {
  const std::optional<Fault> fault = fault_of(net);
  EXPECT_FALSE(fault) << to_line(*fault);
}

Net plain() {
  Net net;
  net.outline = rectangle(200, 100);
  return net;
}

Ring hole_at(double x, double y, double size) {
  return {at(x, y), at(x, y + size), at(x + size, y)};
}

TEST(N1, sound_sheets_pass) {
  Net net = plain();
  expect_sound(net);
  net.holes = {hole_at(20, 20, 10), hole_at(50, 20, 10)};
  expect_sound(net);
  net.roles.assign(4, EdgeRole::plain);
  expect_sound(net);
}

TEST(N1, outline_is_simple_and_counter_clockwise) {
  Net net = plain();
  net.outline = {};
  expect_fault(net, "N1", "net.outline");
  net.outline = {at(0, 0), at(100, 100), at(100, 0), at(0, 100)};
  expect_fault(net, "N1", "net.outline");
  net.outline = {at(0, 0), at(0, 100), at(100, 100), at(100, 0)};
  expect_fault(net, "N1", "net.outline");
  net.outline = {at(0, 0), at(100, 0), at(100, 100), at(50, 0), at(0, 100)};  // a corner on another edge
  expect_fault(net, "N1", "net.outline");
}

TEST(N1, points_are_in_range) {
  Net net = plain();
  net.outline[2] = {Grid{1} << 31, 100};
  expect_fault(net, "N1", "net");
  net = plain();
  net.cuts = {{at(0, 50), {0, std::numeric_limits<Grid>::min()}}};
  expect_fault(net, "N1", "net");
}

TEST(N1, there_are_as_many_roles_as_edges) {
  Net net = plain();
  net.roles.assign(3, EdgeRole::plain);
  expect_fault(net, "N1", "net.roles");
}

TEST(N1, holes_are_clockwise_inside_and_apart) {
  Net net = plain();
  net.holes = {{at(20, 20), at(30, 20), at(20, 30)}};
  expect_fault(net, "N1", "net.holes[0]");
  net.holes = {hole_at(300, 20, 10)};
  expect_fault(net, "N1", "net.holes[0]");
  net.holes = {hole_at(20, 0, 10)};  // touches the lower edge
  expect_fault(net, "N1", "net.holes[0]");
  net.holes = {{at(20, 20), at(30, 10), at(25, 0)}};  // touches it with another corner than its first
  expect_fault(net, "N1", "net.holes[0]");
  net.holes = {{at(20, 20), at(30, 20)}};
  expect_fault(net, "N1", "net.holes[0]");
  net.holes = {hole_at(20, 20, 40), hole_at(25, 25, 5)};  // one within the other
  expect_fault(net, "N1", "net.holes[1]");
  net.holes = {hole_at(25, 25, 5), hole_at(20, 20, 40)};
  expect_fault(net, "N1", "net.holes[1]");
  net.holes = {hole_at(20, 20, 10), hole_at(25, 20, 10)};
  expect_fault(net, "N1", "net.holes[1]");
}

TEST(N2, both_ends_of_a_fold_lie_on_something) {
  Net net = plain();
  net.folds = {fold(at(0, 50), at(200, 50), 90, true)};
  expect_sound(net);
  net.folds = {fold(at(0, 50), at(190, 50), 90, true)};
  expect_fault(net, "N2", "net.folds[0]");
  net.folds = {fold(at(0, 50), at(200, 50), 90, true), fold(at(10, 40), at(100, 0), 90, true)};
  expect_fault(net, "N2", "net.folds[1]");
}

TEST(N2, a_cut_may_dangle_at_one_end_only) {
  Net net = plain();
  net.cuts = {{at(0, 50), at(190, 50)}};
  expect_sound(net);
  EXPECT_EQ(split_into_panels(net, at(1, 1))->front().ring,
            (Ring{at(0, 0), at(200, 0), at(200, 100), at(0, 100), at(0, 50)}));
  net.cuts = {{at(10, 50), at(190, 50)}};
  expect_fault(net, "N2", "net.cuts[0]");
}

TEST(N2, ends_on_slanted_edges_are_taken_within_two_grid_steps) {
  Net net = plain();
  net.outline = {{0, 0}, {100'000, 33'333}, {90'000, 90'000}, {-10'000, 50'000}};
  // The lower edge passes (50,000, 16,666.5) and the upper one (40,000, 70,000).
  net.folds = {{{50'000, 16'667}, {40'000, 70'000}, Angle::degrees(90), true}};
  expect_sound(net);
  net.folds[0].from.y = 16'668;
  expect_sound(net);
  net.folds[0].from.y = 16'665;
  expect_sound(net);
  net.folds[0].from.y = 16'670;
  expect_fault(net, "N2", "net.folds[0]");
  net.folds[0].from.y = 16'660;
  expect_fault(net, "N2", "net.folds[0]");
}

TEST(N2, an_end_may_stand_between_the_ends_of_another_crease) {
  Net net = plain();
  net.folds = {fold(at(0, 50), at(200, 50), 90, true)};
  net.cuts = {{at(80, 50), at(80, 100)}};
  expect_sound(net);
  EXPECT_EQ(split_into_panels(net, at(1, 1))->size(), 3U);
  net.folds = {fold(at(0, 50), at(100, 50), 90, true), fold(at(150, 50), at(150, 100), 90, true)};
  net.cuts = {{at(100, 50), at(200, 50)}};
  expect_sound(net);
  EXPECT_EQ(split_into_panels(net, at(1, 1))->size(), 3U);
}

TEST(N2, a_crease_has_two_ends) {
  Net net = plain();
  for (const GridPoint p : {at(0, 50), at(50, 50)}) {
    net.folds = {fold(p, p, 90, true)};
    expect_fault(net, "N2", "net.folds[0]");
  }
}

TEST(N2, angles_are_from_0_to_180) {
  Net net = plain();
  for (const double degrees : {-1.0, 180.5, std::numeric_limits<double>::quiet_NaN()}) {
    net.folds = {fold(at(0, 50), at(200, 50), degrees, true)};
    expect_fault(net, "N2", "net.folds[0]");
  }
  for (const double degrees : {0.0, 180.0}) {
    net.folds = {fold(at(0, 50), at(200, 50), degrees, true)};
    expect_sound(net);
  }
}

TEST(N2, creases_do_not_cross) {
  Net net = plain();
  net.folds = {fold(at(0, 50), at(200, 50), 90, true), fold(at(100, 0), at(100, 100), 90, true)};
  expect_fault(net, "N2", "net.folds[1]");
  net = plain();
  net.cuts = {{at(0, 50), at(150, 50)}, {at(100, 0), at(100, 100)}};
  expect_fault(net, "N2", "net.cuts[1]");
}

TEST(N2, creases_do_not_run_along_edges_or_each_other) {
  Net net = plain();
  net.folds = {fold(at(0, 0), at(200, 0), 90, true)};
  expect_fault(net, "N2", "net.folds[0]");
  net.folds = {fold(at(20, 0), at(80, 0), 90, true)};
  expect_fault(net, "N2", "net.folds[0]");
  net.folds = {fold(at(0, 50), at(200, 50), 90, true)};
  net.cuts = {{at(0, 50), at(60, 50)}};
  expect_fault(net, "N2", "net.cuts[0]");
}

TEST(N2, creases_run_inside_the_sheet) {
  Net net;
  net.outline = {at(0, 0),    at(200, 0), at(200, 100), at(150, 100),
                 at(150, 50), at(50, 50), at(50, 100),  at(0, 100)};
  net.folds = {fold(at(50, 100), at(150, 100), 90, true)};  // across the gap
  expect_fault(net, "N2", "net.folds[0]");
  net.folds.clear();
  net.cuts = {{at(200, 0), at(250, -20)}};  // away from the sheet
  expect_fault(net, "N2", "net.cuts[0]");
  net.cuts = {
      {at(300, 0), at(310, 0)}, {at(310, 0), at(310, 10)}, {at(310, 10), at(300, 0)}};  // nowhere near it
  expect_fault(net, "N2", "net.cuts[0]");
  net = plain();
  net.holes = {hole_at(20, 20, 40)};
  net.cuts = {{at(25, 25), at(30, 25)}, {at(30, 25), at(25, 30)}, {at(25, 30), at(25, 25)}};  // within a hole
  expect_fault(net, "N2", "net.cuts[0]");
  net.cuts = {{at(20, 20), at(30, 30)}};  // into a hole
  expect_fault(net, "N2", "net.cuts[0]");
}

TEST(N2, a_fold_may_pass_an_inner_corner) {
  Net net;
  net.outline = {at(0, 0), at(100, 0), at(100, 50), at(200, 50), at(200, 100), at(0, 100)};
  net.folds = {fold(at(0, 50), at(100, 50), 90, true)};
  expect_sound(net);
  net.outline = {at(0, 0), at(50, 0), at(100, 50), at(150, 0), at(200, 0), at(200, 100), at(0, 100)};
  net.folds = {fold(at(0, 50), at(200, 50), 90, true)};
  expect_sound(net);
  EXPECT_EQ(split_into_panels(net, at(1, 99))->size(), 3U);
}

TEST(N3, a_fold_parts_two_panels) {
  Net net = plain();
  net.holes = {hole_at(100, 50, 20)};
  net.folds = {fold(at(0, 50), at(100, 50), 90, true)};  // from the edge to a hole
  expect_fault(net, "N3", "net.folds[0]");
}

TEST(N3, a_cut_from_the_edge_to_a_hole_parts_nothing) {
  Net net = plain();
  net.holes = {hole_at(100, 50, 20)};
  net.cuts = {{at(0, 50), at(100, 50)}};
  const auto panels = split_into_panels(net, at(1, 1));
  ASSERT_TRUE(panels);
  ASSERT_EQ(panels->size(), 1U);
  ASSERT_EQ(panels->front().holes.size(), 1U);
  EXPECT_EQ(panels->front().holes[0], net.holes[0]);
  EXPECT_TRUE(is_simple(panels->front().ring));
}

TEST(N3, every_panel_is_reached) {
  Net net = plain();
  net.cuts = {{at(0, 50), at(200, 50)}};
  expect_fault(net, "N3", "net.cuts");
}

TEST(N3, folds_do_not_close_a_ring_of_panels) {
  Net net = plain();  // four panels about one point, all four creases folded; then one of them cut
  net.folds = {fold(at(100, 50), at(200, 50), 90, true), fold(at(100, 50), at(100, 100), 90, true),
               fold(at(100, 50), at(0, 50), 90, true), fold(at(100, 50), at(100, 0), 90, true)};
  expect_fault(net, "N3", "net.folds[0]");  // the last one met on the way round
  net.cuts = {{net.folds[3].from, net.folds[3].to}};
  net.folds.pop_back();
  expect_sound(net);
}

TEST(N3, a_base_point_lies_on_the_sheet) {
  Net net = plain();
  net.holes = {hole_at(20, 20, 40)};
  for (const GridPoint base : {at(-1, 50), at(25, 25)}) {
    const auto panels = split_into_panels(net, base);
    ASSERT_FALSE(panels);
    EXPECT_EQ(panels.error().front().path, "net.base_point");
  }
}

TEST(N3, holes_belong_to_the_panel_around_them) {
  Net net = plain();
  net.folds = {fold(at(0, 50), at(200, 50), 90, true)};
  net.holes = {hole_at(20, 70, 10), hole_at(60, 70, 10)};
  const auto panels = split_into_panels(net, at(1, 1));
  ASSERT_TRUE(panels);
  ASSERT_EQ(panels->size(), 2U);
  EXPECT_TRUE((*panels)[0].holes.empty());
  EXPECT_EQ((*panels)[1].holes, net.holes);
}

TEST(N3, a_hole_in_a_tongue_belongs_to_the_tongue) {
  Net net = plain();
  net.folds = {fold(at(40, 20), at(120, 20), 90, true)};
  net.cuts = {{at(120, 20), at(120, 80)}, {at(120, 80), at(40, 80)}, {at(40, 80), at(40, 20)}};
  net.holes = {hole_at(60, 40, 10), hole_at(150, 40, 10)};
  const auto panels = split_into_panels(net, at(1, 1));
  ASSERT_TRUE(panels);
  ASSERT_EQ(panels->size(), 2U);
  EXPECT_EQ((*panels)[1].holes, std::vector<Ring>{net.holes[0]});
  ASSERT_EQ((*panels)[0].holes.size(), 2U);
  EXPECT_EQ((*panels)[0].holes[0], (Ring{at(40, 20), at(40, 80), at(120, 80), at(120, 20)}));
  EXPECT_EQ((*panels)[0].holes[1], net.holes[1]);
}

TEST(Faults, random_damage_is_found_or_harmless) {
  // Whatever is done to a sound net, splitting it answers, and panels that it gives are simple and add up.
  Generator g(7);
  int found = 0;
  int harmless = 0;
  for (int n = 0; n < 5000; ++n) {
    Net net = random_net(g).net;
    const auto damage = [&](GridPoint& p) {
      p = g.chance(0.5) ? net.outline[static_cast<std::size_t>(g.between(0, 3))]
                        : GridPoint{p.x + g.between(-200'000, 200'000), p.y + g.between(-200'000, 200'000)};
    };
    if (!net.folds.empty() && g.chance(0.7)) damage(net.folds[0].from);
    if (!net.cuts.empty() && g.chance(0.7)) damage(net.cuts[0].to);
    if (g.chance(0.3)) damage(net.outline[0]);
    if (!net.holes.empty() && g.chance(0.3)) damage(net.holes[0][0]);
    const auto panels = split_into_panels(net, net.outline[1]);
    if (!panels) {
      ++found;
      EXPECT_EQ(panels.error().front().accepted.substr(0, 1), "N");
      continue;
    }
    ++harmless;
    double sum = 0;
    for (const Panel& panel : *panels) {
      EXPECT_TRUE(is_simple(panel.ring)) << "net " << n;
      sum += area(panel.ring).in_mm2();
      for (const Ring& hole : panel.holes) sum -= area(hole).in_mm2();
    }
    const Box box = bounds(net.outline);
    EXPECT_NEAR(sum, net_area(net).in_mm2(), 0.002 * to_length(box.width() + box.height()).in_mm())
        << "net " << n;
  }
  std::printf("seed 7: %d damaged nets refused, %d still sound\n", found, harmless);
  EXPECT_GT(found, 500);
  EXPECT_GT(harmless, 500);
}
}  // namespace

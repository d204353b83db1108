#include "random_nets.h"
#include "sample_nets.h"

#include <gtest/gtest.h>

#include <set>

namespace {
using namespace lapwright;
using namespace lapwright::geom;
using namespace lapwright::geom::sample;

TEST(NetArea, leaves_holes_out) {
  Net net = soaker();
  EXPECT_EQ(net_area(net).in_mm2(), 190 * 175);
  net.holes = {{at(10, 10), at(10, 20), at(20, 20), at(20, 10)}};
  EXPECT_EQ(net_area(net).in_mm2(), 190 * 175 - 100);
}

TEST(Roles, have_names_of_their_own) {
  std::set<std::string_view> names;
  for (int i = 0; i <= static_cast<int>(EdgeRole::lap); ++i) names.insert(name_of(static_cast<EdgeRole>(i)));
  EXPECT_EQ(names.size(), 9U);
  EXPECT_EQ(name_of(EdgeRole::plain), "plain");
  EXPECT_EQ(name_of(EdgeRole::turn_in), "turn-in");
  EXPECT_EQ(name_of(EdgeRole::lap), "lap");
}

TEST(MirroredNet, roles_stay_with_their_edges) {
  const Net net = mirrored(soaker());  // side, head, top, tail; the head was at x = 190
  ASSERT_EQ(net.outline.size(), 4U);
  for (std::size_t i = 0; i < 4; ++i) {
    const GridPoint a = net.outline[i];
    const GridPoint b = net.outline[(i + 1) % 4];
    const EdgeRole expected = a.x == b.x ? (a.x == 0 ? EdgeRole::tail : EdgeRole::head)
                                         : (a.y == 0 ? EdgeRole::side : EdgeRole::top);
    EXPECT_EQ(net.roles[i], expected) << i;
  }
  EXPECT_FALSE(fault_of(net));
}

TEST(MirroredNet, twice_is_the_same_net) {
  Generator g(11);
  int asymmetric = 0;
  for (int n = 0; n < 500; ++n) {
    const Net net = random_net(g).net;
    EXPECT_TRUE(same_net(mirrored(mirrored(net)), net));
    EXPECT_EQ(mirrored(mirrored(net)).outline, net.outline);
    if (!same_net(mirrored(net), net)) ++asymmetric;
  }
  EXPECT_EQ(asymmetric, 500);
  EXPECT_FALSE(same_net(mirrored(step_flashing()), step_flashing()));
}

TEST(AtOrigin, moves_creases_and_holes_with_the_sheet) {
  Net net = hooked_soaker();
  net.holes = {{at(10, 10), at(10, 20), at(20, 20)}};
  const Net home = net;
  const auto move = [](GridPoint& p) { p = {p.x - 77, p.y + 1234}; };
  for (GridPoint& p : net.outline) move(p);
  for (GridPoint& p : net.holes[0]) move(p);
  for (Fold& f : net.folds) move(f.from), move(f.to);
  for (Cut& c : net.cuts) move(c.from), move(c.to);
  const Net moved = at_origin(net);
  EXPECT_EQ(moved.outline, home.outline);
  EXPECT_EQ(moved.holes, home.holes);
  EXPECT_EQ(moved.folds[1].from, home.folds[1].from);
  EXPECT_EQ(moved.cuts[0].to, home.cuts[0].to);
}

TEST(SameNet, sees_past_place_starting_point_and_spelling) {
  Net net = hooked_soaker();
  net.cuts.push_back({at(0, 30), at(10, 30)});
  Net other = net;
  std::rotate(other.outline.begin(), other.outline.begin() + 2, other.outline.end());
  std::rotate(other.roles.begin(), other.roles.begin() + 2, other.roles.end());
  std::swap(other.folds[0].from, other.folds[0].to);
  std::swap(other.cuts[0], other.cuts[1]);
  for (GridPoint& p : other.outline) p.x += 5;
  for (Fold& f : other.folds) f.from.x += 5, f.to.x += 5;
  for (Cut& c : other.cuts) c.from.x += 5, c.to.x += 5;
  EXPECT_TRUE(same_net(net, other));
  Net plain = soaker();
  plain.roles.clear();
  Net spelt = plain;
  spelt.roles.assign(4, EdgeRole::plain);
  EXPECT_TRUE(same_net(plain, spelt));
}

TEST(SameNet, sees_every_difference) {
  const Net net = hooked_soaker();
  const auto differs = [&](auto change) {
    Net other = net;
    change(other);
    return !same_net(net, other);
  };
  EXPECT_TRUE(differs([](Net& n) { n.outline[1].x += 1; }));
  EXPECT_TRUE(differs([](Net& n) { n.roles[1] = EdgeRole::lap; }));
  EXPECT_TRUE(differs([](Net& n) { n.folds[1].up = true; }));
  EXPECT_TRUE(differs([](Net& n) { n.folds[1].angle = Angle::degrees(91); }));
  EXPECT_TRUE(differs([](Net& n) { n.folds[1].to.x += 1; }));
  EXPECT_TRUE(differs([](Net& n) { std::swap(n.folds[0], n.folds[1]); }));  // bent in another order
  EXPECT_TRUE(differs([](Net& n) { n.folds.pop_back(); }));
  EXPECT_TRUE(differs([](Net& n) { n.cuts.clear(); }));
  EXPECT_TRUE(differs([](Net& n) { n.cuts[0].to.y += 1; }));
  EXPECT_TRUE(differs([](Net& n) { n.holes = {{at(1, 1), at(1, 2), at(2, 2)}}; }));
}

TEST(Grid, conversion_takes_the_nearest_line_and_halves_go_away_from_zero) {
  EXPECT_EQ(to_grid(Length::mm(1.2344)), 1234);
  EXPECT_EQ(to_grid(Length::mm(0.0625)), 63);  // 62.5, a double exactly
  EXPECT_EQ(to_grid(Length::mm(-0.0625)), -63);
  EXPECT_EQ(to_length(1234).in_mm(), 1.234);
  for (Grid g = -5000; g <= 5000; ++g) ASSERT_EQ(to_grid(to_length(g)), g);
}
}  // namespace

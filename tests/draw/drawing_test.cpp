#include <lapwright/draw/drawing.h>
#include <lapwright/draw/expand.h>
#include <lapwright/draw/font.h>
#include <lapwright/draw/symbols.h>

#include "sample.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace {
using namespace lapwright::draw;

constexpr double kNear = 1e-9;

std::vector<PlainText> texts_of(const Drawing& drawing) {
  std::vector<PlainText> out;
  for (const Plain& plain : expand(drawing)) {
    if (const auto* text = std::get_if<PlainText>(&plain)) out.push_back(*text);
  }
  return out;
}

void expect_box(const Box& box, double left, double bottom, double right, double top,
                double tolerance = kNear) {
  EXPECT_NEAR(box.left, left, tolerance);
  EXPECT_NEAR(box.bottom, bottom, tolerance);
  EXPECT_NEAR(box.right, right, tolerance);
  EXPECT_NEAR(box.top, top, tolerance);
}

TEST(Placement, mirrors_then_scales_then_turns_then_moves) {
  const Placement placement{.move = {100, 10}, .scale = 0.5, .rotation = 90, .mirrored = true};
  const Point p = placement.apply({20, 4});  // (−20, 4) → (−10, 2) → (−2, −10) → (98, 0)
  EXPECT_NEAR(p.x, 98, kNear);
  EXPECT_NEAR(p.y, 0, kNear);
}

TEST(Placement, keeps_arcs_arcs) {
  Drawing half;
  half.add(arc({0, 0}, 10, 0, 180));
  Drawing placed;
  placed.add(half, {.move = {50, 0}, .scale = 2, .rotation = 90, .mirrored = true});
  // An arch over the origin, mirrored and turned to the left: it opens to the right, its back at 50 − 20.
  expect_box(extents_of_points(placed), 30, -20, 50, 20, 0.02);
  for (const Point p : flattened(std::get<Path>(placed.items()[0]).contours[0])) {
    EXPECT_NEAR(std::hypot(p.x - 50, p.y), 20, 1e-6);
  }
}

TEST(Arc, stays_on_its_circle_for_any_sweep) {
  for (const double sweep : {-350.0, -90.0, -1.0, 1.0, 45.0, 180.0, 270.0, 359.0}) {
    const Path path = arc({3, 4}, 10, 25, sweep);
    for (const Point p : flattened(path.contours[0], 0.001)) {
      EXPECT_NEAR(std::hypot(p.x - 3, p.y - 4), 10, 1e-6) << sweep;
    }
  }
}

TEST(Flattened, stays_within_its_tolerance) {
  const std::vector<Point> points = flattened(circle({0, 0}, 100).contours[0], 0.01);
  for (std::size_t i = 0; i < points.size(); ++i) {
    const Point a = points[i];
    const Point b = points[(i + 1) % points.size()];
    const double mid = std::hypot((a.x + b.x) / 2, (a.y + b.y) / 2);
    EXPECT_GE(mid, 100 - 0.01);
  }
  EXPECT_LT(points.size(), 600U);
}

TEST(Text, sits_where_its_anchor_and_seat_say) {
  const double size = 4;
  const double width = text_width("Hip", size);
  for (const auto& [anchor, back] :
       {std::pair{Anchor::start, 0.0}, std::pair{Anchor::middle, width / 2}, std::pair{Anchor::end, width}}) {
    for (const auto& [seat, down] :
         {std::pair{Seat::baseline, 0.0}, std::pair{Seat::middle, cap_height(size) / 2},
          std::pair{Seat::top, cap_height(size)}}) {
      Drawing d;
      d.add(Text{.text = "Hip", .at = {50, 60}, .size = size, .anchor = anchor, .seat = seat});
      const PlainText text = texts_of(d).at(0);
      EXPECT_NEAR(text.at.x, 50 - back, kNear);
      EXPECT_NEAR(text.at.y, 60 - down, kNear);
    }
  }
  Drawing turned;
  turned.add(Text{.text = "Hip", .at = {50, 60}, .size = size, .anchor = Anchor::end, .rotation = 90});
  EXPECT_NEAR(texts_of(turned).at(0).at.y, 60 - width, kNear);
}

TEST(Text, stays_readable_when_placed) {
  Drawing d;
  d.add(Text{.text = "up", .at = {10, 0}, .anchor = Anchor::start});
  for (const double rotation : {0.0, 45.0, 90.0, 135.0, 180.0, 225.0, 270.0, 315.0}) {
    for (const bool mirrored : {false, true}) {
      Drawing placed;
      placed.add(d, {.rotation = rotation, .mirrored = mirrored});
      const Text& text = std::get<Text>(placed.items()[0]);
      EXPECT_GT(text.rotation, -90) << rotation;
      EXPECT_LE(text.rotation, 90 + 1e-6) << rotation;
      // It still runs away from the origin, as it did before.
      const PlainText plain = texts_of(placed).at(0);
      const Point centre = (plain.corners[0] + plain.corners[1]) * 0.5;
      EXPECT_GT(std::hypot(centre.x, centre.y), 10) << rotation << mirrored;
    }
  }
}

TEST(Placement, leaves_sizes_of_paper_alone) {
  Drawing d;
  d.add(Text{.text = "x", .size = 5});
  d.add(Dimension{.from = {0, 0}, .to = {1000, 0}, .offset = -8, .text = "1000"});
  Drawing placed;
  placed.add(d, {.scale = 0.1});
  EXPECT_EQ(std::get<Text>(placed.items()[0]).size, 5);
  EXPECT_EQ(std::get<Dimension>(placed.items()[1]).offset, -8);
  EXPECT_NEAR(std::get<Dimension>(placed.items()[1]).to.x, 100, kNear);
}

TEST(Placement, hands_its_tag_to_items_without_one) {
  Drawing d;
  d.add(Text{.text = "a", .tag = "own"});
  d.add(Text{.text = "b"});
  Drawing placed;
  placed.add(d, {}, "given");
  EXPECT_EQ(std::get<Text>(placed.items()[0]).tag, "own");
  EXPECT_EQ(std::get<Text>(placed.items()[1]).tag, "given");
}

TEST(Drawing, may_be_added_to_itself) {
  Drawing d;
  d.add(line({0, 0}, {1, 0}));
  d.add(d, {.move = {0, 5}});
  EXPECT_EQ(d.items().size(), 2U);
}

// The line of a dimension lies `offset` to the left of from → to, on the same side of the thing when
// mirrored.
TEST(Dimension, keeps_outside_when_mirrored) {
  for (const bool mirrored : {false, true}) {
    Drawing d;
    d.add(rectangle(0, 0, 80, 40));
    d.add(Dimension{.from = {80, 0}, .to = {80, 40}, .offset = -10, .text = "40"});
    Drawing placed;
    placed.add(d, {.mirrored = mirrored});
    const Box shape = mirrored ? Box{-80, 0, 0, 40} : Box{0, 0, 80, 40};
    for (const PlainText& text : texts_of(placed)) EXPECT_FALSE(shape.overlaps(text.box()));
  }
}

TEST(Dimension, text_stands_between_the_ticks_or_beyond_them) {
  for (double length = 1; length < 40; length += 0.5) {
    Drawing d;
    d.add(Dimension{.from = {0, 0}, .to = {length, 0}, .offset = 10, .text = "1234"});
    const Box box = texts_of(d).at(0).box();
    const bool inside = box.left > 1 && box.right < length - 1;
    const bool beyond = box.left > length + 1;
    EXPECT_TRUE(inside || beyond) << length;
  }
}

TEST(Dimension, reads_from_below_or_from_the_right_in_every_direction) {
  for (double angle = 0; angle < 360; angle += 15) {
    Drawing d;
    const Point to{100 * std::cos(angle * 3.14159265358979 / 180),
                   100 * std::sin(angle * 3.14159265358979 / 180)};
    d.add(Dimension{.from = {0, 0}, .to = to, .offset = 10, .text = "100"});
    const double rotation = texts_of(d).at(0).rotation;
    EXPECT_GT(rotation, -90) << angle;
    EXPECT_LT(rotation, 90.001) << angle;
  }
}

TEST(Chain, texts_never_lie_over_each_other_and_stay_in_order) {
  Chain chain{.zero = {0, 0}, .towards = {1, 0}};
  for (const double at : {100.0, 0.1, 0.2, 0.3, 50.0, 50.0, 50.0, 51.0, 99.9}) {
    chain.stops.push_back({{at, 0}, "1234"});
  }
  for (const double rotation : {0.0, 90.0, 180.0, 30.0}) {
    Page page{.width = 400, .height = 400};
    Drawing d;
    d.add(chain);
    page.drawing.add(d, {.move = {200, 200}, .rotation = rotation});
    EXPECT_TRUE(text_troubles(page).empty()) << rotation;
    EXPECT_EQ(texts_of(page.drawing).size(), 10U);
  }
}

TEST(Chain, stops_far_enough_apart_are_not_moved) {
  Chain chain{.zero = {0, 0}, .towards = {1, 0}, .stops = {{{20, 0}, "20"}, {{60, 5}, "60"}}, .offset = 10};
  Drawing d;
  d.add(chain);
  const std::vector<PlainText> texts = texts_of(d);
  ASSERT_EQ(texts.size(), 3U);
  const double half = cap_height(chain.size) / 2;
  EXPECT_NEAR(texts[1].at.x, 20 + half, kNear);
  EXPECT_NEAR(texts[2].at.x, 60 + half, kNear);
}

double total_length(const std::vector<std::pair<Point, Point>>& lines) {
  double sum = 0;
  for (const auto& [a, b] : lines) sum += std::hypot(b.x - a.x, b.y - a.y);
  return sum;
}

// Parallel lines `spacing` apart cover an area with length = area ÷ spacing.
TEST(Hatch, covers_the_area_and_spares_the_hole) {
  Path plate = rectangle(0, 0, 200, 150);
  plate.contours.push_back(circle({100, 75}, 40).contours[0]);
  const double area = 200 * 150 - 3.14159265358979 * 40 * 40;
  const auto lines = hatch_lines(plate.contours, HatchKind::waste);
  EXPECT_NEAR(total_length(lines) * look_of(HatchKind::waste).families[0].spacing / area, 1, 0.01);
  for (const auto& [a, b] : lines) {
    for (const double t : {0.0, 0.5, 1.0}) {
      const Point p{a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t};
      EXPECT_GE(std::hypot(p.x - 100, p.y - 75), 40 - 0.02);
      EXPECT_TRUE((Box{0, 0, 200, 150}).holds(Box{p.x, p.y, p.x, p.y}, 1e-6));
    }
  }
}

TEST(Hatch, dashes_cover_their_share) {
  const Path plate = rectangle(0, 0, 300, 300);
  const HatchLook& water = look_of(HatchKind::water);
  double share = 0;
  for (const HatchFamily& f : water.families) share += f.on / (f.on + f.off) / f.spacing;
  EXPECT_NEAR(total_length(hatch_lines(plate.contours, HatchKind::water)) / (300 * 300 * share), 1, 0.02);
}

TEST(Hatch, of_a_whole_field_stays_bounded) {
  for (int i = 0; i < kHatchKinds; ++i) {
    const auto lines = hatch_lines(rectangle(0, 0, 1e7, 1e7).contours, static_cast<HatchKind>(i));
    EXPECT_GT(lines.size(), 10U);
    EXPECT_LE(lines.size(), 20001U);
  }
  EXPECT_TRUE(hatch_lines({}, HatchKind::brick).empty());
  EXPECT_TRUE(hatch_lines({Contour{{{{1, 1}, 0}}, true}}, HatchKind::brick).empty());
}

TEST(Hatch, hides_what_lies_under_unless_see_through) {
  Drawing d;
  Path box = rectangle(0, 0, 10, 10);
  box.fill = Fill::hatched(HatchKind::lead);
  d.add(box);
  EXPECT_EQ(std::get<PlainPath>(expand(d)[0]).fill, 1.0);
  box.fill = Fill::hatched_over(HatchKind::lead);
  Drawing over;
  over.add(box);
  EXPECT_FALSE(std::get<PlainPath>(expand(over)[0]).fill.has_value());
}

TEST(TextTroubles, finds_text_over_text_and_off_the_paper) {
  Page page;
  page.drawing.add(Text{.text = "first", .at = {50, 50}});
  page.drawing.add(Text{.text = "second", .at = {52, 51}});
  page.drawing.add(Text{.text = "off", .at = {209, 100}});
  page.drawing.add(Text{.text = "fine", .at = {50, 100}});
  const std::vector<TextTrouble> troubles = text_troubles(page);
  ASSERT_EQ(troubles.size(), 2U);
  EXPECT_EQ(troubles[0].text, "first");
  EXPECT_EQ(troubles[0].other, "second");
  EXPECT_EQ(troubles[1].text, "off");
  EXPECT_EQ(troubles[1].other, "");
}

TEST(TextTroubles, turned_text_is_judged_by_its_own_box) {
  Page page;
  page.drawing.add(Text{.text = "a long diagonal text", .at = {50, 50}, .rotation = 45});
  page.drawing.add(Text{.text = "beside", .at = {62, 52}});  // inside the upright box, beside the turned one
  EXPECT_TRUE(text_troubles(page).empty());
}

TEST(Sample, has_no_text_over_text) {
  for (const Page& page : sample::document().pages) {
    for (const TextTrouble& trouble : text_troubles(page, 10)) {
      ADD_FAILURE() << page.title << ": \"" << trouble.text << "\" over \"" << trouble.other << '"';
    }
  }
}

TEST(Symbols, ring_holds_its_mark) {
  for (const char* mark : {"1", "S12", "PARAPET 14"}) {
    const double half_width = text_width(mark, pt(18), Weight::bold) / 2;
    EXPECT_GT(ring_radius(mark), std::hypot(half_width, cap_height(pt(18)) / 2));
  }
}

TEST(Symbols, scale_bar_is_round_and_fits) {
  for (const double scale : {1.0, 0.4, 0.1, 0.05, 0.02, 0.01}) {
    const Box box = extents_of_points(scale_bar({0, 0}, scale, 60));
    const double length = box.width() / scale;
    EXPECT_LE(box.width(), 60 + kNear);
    EXPECT_GT(box.width(), 60 / 2.5 - kNear);
    const double digits = length / std::pow(10, std::floor(std::log10(length * 1.0001)));
    EXPECT_TRUE(std::fabs(digits - 1) < 1e-6 || std::fabs(digits - 2) < 1e-6 || std::fabs(digits - 5) < 1e-6)
        << length;
  }
}

TEST(Styles, every_name_is_there_and_its_own) {
  std::vector<std::string_view> names;
  for (int i = 0; i < kLineKinds; ++i) {
    names.push_back(look_of(static_cast<LineKind>(i)).name);
    EXPECT_GT(look_of(static_cast<LineKind>(i)).weight, 0);
  }
  for (int i = 0; i < kHatchKinds; ++i) {
    names.push_back(look_of(static_cast<HatchKind>(i)).name);
    EXPECT_FALSE(look_of(static_cast<HatchKind>(i)).families.empty());
  }
  std::sort(names.begin(), names.end());
  EXPECT_EQ(std::adjacent_find(names.begin(), names.end()), names.end());
  for (const std::string_view name : names) EXPECT_FALSE(name.empty());
  for (int i = 0; i < kLayers; ++i) EXPECT_FALSE(name_of(static_cast<Layer>(i)).empty());
}

// The weights and dashes that the sheets promise.
TEST(Styles, cut_fold_hidden_and_dimension_are_as_agreed) {
  EXPECT_EQ(look_of(LineKind::cut).weight, 0.7);
  EXPECT_FALSE(look_of(LineKind::cut).dashed());
  EXPECT_EQ(look_of(LineKind::fold).weight, 0.35);
  EXPECT_TRUE(look_of(LineKind::fold).dashed());
  EXPECT_EQ(look_of(LineKind::hidden).weight, 0.18);
  EXPECT_TRUE(look_of(LineKind::hidden).dashed());
  EXPECT_EQ(look_of(LineKind::dimension).weight, 0.18);
  EXPECT_FALSE(look_of(LineKind::dimension).dashed());
}

}  // namespace

#include "sample.h"

#include <lapwright/draw/font.h>
#include <lapwright/draw/symbols.h>

namespace lapwright::draw::sample {
namespace {

Text text(std::string words, Point at, double size = pt(9), Weight weight = Weight::regular) {
  Text t;
  t.text = std::move(words);
  t.at = at;
  t.size = size;
  t.weight = weight;
  return t;
}

Page first_page() {
  Page page;
  page.title = "Sample sheet";
  Drawing& d = page.drawing;

  Path frame = rectangle(10, 10, 190, 277, LineKind::heavy);
  frame.layer = Layer::frame;
  d.add(frame);
  d.add(text("Sample sheet", {16, page.from_top(22)}, pt(18), Weight::bold));
  d.add(text("Ø½ °±é×²", {16, page.from_top(29)}, pt(11)));

  // Lines, one of each kind.
  for (int i = 0; i < kLineKinds; ++i) {
    const auto kind = static_cast<LineKind>(i);
    const double y = page.from_top(38 + 5.0 * i);
    d.add(line({16, y}, {56, y}, kind));
    Text name = text(std::string(look_of(kind).name), {60, y}, pt(8));
    name.seat = Seat::middle;
    d.add(name);
  }
  // Hatches.
  for (int i = 0; i < kHatchKinds; ++i) {
    const auto kind = static_cast<HatchKind>(i);
    const double left = 92 + 27.0 * (i % 4);
    const double bottom = page.from_top(58 + 24.0 * (i / 4));
    Path box = rectangle(left, bottom, 22, 16);
    box.fill = Fill::hatched(kind);
    d.add(box);
    Text name = text(std::string(look_of(kind).name), {left + 11, bottom - 4}, pt(8));
    name.anchor = Anchor::middle;
    d.add(name);
  }

  // A soaker's net at 1:2.5 with dimensions and a chain, then mirrored.
  Drawing piece = net();
  piece.add(Dimension{{0, 0}, {175, 0}, -10, "175", pt(11), LineKind::dimension, Weight::bold, "width"});
  piece.add(Dimension{{175, 0}, {175, 190}, -10, "190", pt(11), LineKind::dimension, Weight::regular, {}});
  piece.add(Dimension{{175, 190}, {170, 190}, -9, "5", pt(11), LineKind::dimension, Weight::regular, {}});
  d.add(piece, Placement{{30, 115}, 0.4, 0, false}, "soaker");
  d.add(ringed_mark({48, 152}, "S1"));
  d.add(net(), Placement{{190, 115}, 0.4, 0, true});
  d.add(ringed_mark({172, 152}, "S12"));

  // A chain with stops too near to be written side by side.
  Path beam = rectangle(20, 60, 120, 10);
  beam.fill = Fill::hatched(HatchKind::timber);
  d.add(beam);
  Chain chain;
  chain.zero = {20, 70};
  chain.towards = {140, 70};
  chain.offset = 8;
  chain.size = pt(11);
  for (const double at : {20.0, 50.0, 52.0, 54.0, 90.0, 120.0}) {
    chain.stops.push_back({{20 + at, 70}, std::to_string(static_cast<int>(at * 10))});
  }
  d.add(chain);

  // Marks, arcs, greys, text over a hatch, turned text.
  Path wet = rectangle(150, 56, 44, 30, LineKind::thin);
  wet.fill = Fill::hatched(HatchKind::water);
  d.add(wet);
  Text over = text("wet 340 mm", {172, 71}, pt(11), Weight::bold);
  over.anchor = Anchor::middle;
  over.seat = Seat::middle;
  over.on_white = true;
  d.add(over);
  d.add(leader({160, 80}, {168, 94}, "first place to give"));
  d.add(arc({30, 40}, 8, 0, 270, LineKind::outline));
  d.add(arc({50, 40}, 8, 90, -90, LineKind::fold));
  for (int i = 0; i <= 4; ++i) {
    Path box = rectangle(64 + 8.0 * i, 34, 8, 8, LineKind::thin);
    box.fill = Fill::level(i / 4.0);
    d.add(box);
  }
  d.add(arrow({112, 34}, {122, 44}));
  d.add(match_mark({132, 38}, "A3"));
  Text turned = text("turned 30°", {142, 32}, pt(9));
  turned.rotation = 30;
  d.add(turned);
  d.add(text("<a & \"b\">", {142, 28}, pt(8)));
  d.add(scale_bar({170, 30}, 0.4, 25));
  d.add(check_bar({55, 16}));
  return page;
}

Page second_page() {
  Page page;
  page.width = 297;
  page.height = 210;
  page.title = "Words";
  Drawing& d = page.drawing;
  double y = page.from_top(20);
  const auto say = [&](const std::string& words, double size = pt(9)) {
    d.add(text(words, {15, y}, size));
    y -= line_height(size) + 1;
  };
  say("</text><script>alert(1)</script>");
  say("Łódź Žižkov Ærø naïve façade");
  say("outside: \u0416 \u4E2D");
  std::string controls = "bell[\a] tab[\t] nul[";
  controls.push_back('\0');
  controls += "] bad[\xff\xc0\xaf] end";
  say(controls);
  std::string longest;
  for (int i = 0; i < 20; ++i) longest += "Lapwright " + std::string(i % 2 == 0 ? "é" : "W");
  say(shortened(longest, 260, pt(9)));
  for (const std::string& words : wrapped(longest, 120, pt(9))) say(words);
  say("θ 22½° ≤ 30° → 3 ft 10⅝″ − ✓ ✗ □ √ ² ³");
  return page;
}

}  // namespace

Drawing net() {
  Drawing d;
  // 175 × 190 with one rounded corner (quarter of 20) and a round hole.
  constexpr double kQuarter = 0.41421356237309503;
  Path outline;
  outline.contours.push_back(
      {{{{0, 0}, 0}, {{175, 0}, 0}, {{175, 170}, kQuarter}, {{155, 190}, 0}, {{0, 190}, 0}}, true});
  outline.stroke = Stroke{LineKind::cut, 0};
  outline.fill = Fill::hatched(HatchKind::lead);
  d.add(outline);
  Path hole = circle({140, 40}, 12, LineKind::cut);
  hole.fill = Fill::white();
  d.add(hole);
  d.add(line({100, 0}, {100, 190}, LineKind::fold));
  d.add(line({0, 150}, {100, 150}, LineKind::hidden));
  Text up = text("fold 1 up", {97, 75}, pt(9));
  up.rotation = 90;
  up.anchor = Anchor::middle;
  up.on_white = true;
  d.add(up);
  return d;
}

Document document() {
  Document document;
  document.title = "Sample: Ø½ <everything>";
  document.pages = {first_page(), second_page()};
  return document;
}

}  // namespace lapwright::draw::sample

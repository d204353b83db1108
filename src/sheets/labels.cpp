#include "labels.h"

#include <lapwright/base/trig.h>
#include <lapwright/draw/expand.h>
#include <lapwright/draw/symbols.h>

#include <algorithm>

namespace lapwright::sheets {

using draw::Box;
using draw::Point;

namespace {

constexpr double kAir = 0.8;  // between one thing and the next

std::vector<Box> boxes_of_texts(const draw::Drawing& drawing) {
  std::vector<Box> out;
  for (const draw::Plain& thing : draw::expand(drawing)) {
    if (const auto* text = std::get_if<draw::PlainText>(&thing)) out.push_back(text->box());
  }
  return out;
}

Box box_around(Point middle, double reach) {
  return {middle.x - reach, middle.y - reach, middle.x + reach, middle.y + reach};
}

}  // namespace

void Labels::take_texts(const draw::Drawing& drawing) {
  for (const Box& box : boxes_of_texts(drawing)) take(box);
}

bool Labels::clear(const Box& box) const {
  if (!room_.holds(box)) return false;
  const Box wide{box.left - kAir, box.bottom - kAir, box.right + kAir, box.top + kAir};
  return std::none_of(taken_.begin(), taken_.end(), [&](const Box& b) { return b.overlaps(wide); });
}

bool Labels::mark(draw::Drawing& out, Point on, const std::string& mark, double least, Point away,
                  double size) {
  const double radius = draw::ring_radius(mark, size);
  const double first = atan2_deg(away.y, away.x);
  constexpr double kFurthest = 90;
  constexpr double kStep = 2.5;
  for (double far = least + radius; far < kFurthest; far += kStep) {
    for (const double turn :
         {0.0, 20.0, -20.0, 40.0, -40.0, 60.0, -60.0, 85.0, -85.0, 120.0, -120.0, 150.0, -150.0, 180.0}) {
      const Point ring = on + Point{cos_deg(first + turn), sin_deg(first + turn)} * far;
      const Box box = box_around(ring, radius);
      if (!clear(box)) continue;
      take(box);
      take(box_around(on, 0.6));
      draw::Drawing named;
      named.add(draw::line(on, ring, draw::LineKind::thin));
      draw::Path dot = draw::circle(on, 0.7, draw::LineKind::thin);
      dot.fill = draw::Fill::black();
      named.add(std::move(dot));
      named.add(draw::ringed_mark(ring, mark, size));
      out.add(named, {}, "mark/" + mark);
      return true;
    }
  }
  return false;
}

bool Labels::length(draw::Drawing& out, Point from, Point to, Point away, const std::string& text) {
  const Point along = to - from;
  const double side = along.x * away.y - along.y * away.x >= 0 ? 1 : -1;  // left of from → to, or right
  for (const double reach : {7.0, 13.0, 19.0, 25.0}) {
    for (const double way : {side, -side}) {
      for (const bool turned : {false, true}) {
        const draw::Dimension dimension{.from = turned ? to : from,
                                        .to = turned ? from : to,
                                        .offset = (turned ? -way : way) * reach,
                                        .text = text,
                                        .size = draw::pt(11)};
        draw::Drawing alone;
        alone.add(dimension);
        const std::vector<Box> boxes = boxes_of_texts(alone);
        if (!std::all_of(boxes.begin(), boxes.end(), [&](const Box& b) { return clear(b); })) continue;
        for (const Box& box : boxes) take(box);
        // White under its words, so that a hatch does not run through them.
        for (const draw::Plain& thing : draw::expand(alone)) {
          const auto* words = std::get_if<draw::PlainText>(&thing);
          if (words == nullptr) continue;
          draw::Path ground = draw::polygon({words->corners.begin(), words->corners.end()});
          ground.stroke.reset();
          ground.fill = draw::Fill::white();
          out.add(std::move(ground));
        }
        out.add(dimension);
        return true;
      }
    }
  }
  return false;
}

}  // namespace lapwright::sheets

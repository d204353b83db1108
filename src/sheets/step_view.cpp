#include "step_view.h"

#include "laid_piece.h"
#include "paper.h"

#include <lapwright/draw/font.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace lapwright::sheets {

namespace {

using draw::LineKind;
using draw::Point;

constexpr double kName = draw::pt(11);
constexpr double kRoom = 1.2;    // mm of paper round a name
constexpr double kTallest = 24;  // mm of paper, of what lies square to the tape
constexpr double kShortest = 7;  // so that a name finds room
constexpr double kTape = 5;      // from the part to the tape

RollPart piece_of(const RollPart& from, job::CutWay way, Length begin, Length end) {
  RollPart out = from;
  if (way == job::CutWay::across) {
    out.x = from.x + begin;
    out.length = end - begin;
  } else {
    out.y = from.y + begin;
    out.width = end - begin;
  }
  return out;
}

// A name in the middle of a box, turned where only that fits; small ones get none.
void name(draw::Drawing& into, const std::string& text, Point low, Point high) {
  const double wide = high.x - low.x - kRoom;
  const double tall = high.y - low.y - kRoom;
  const double length = draw::text_width(text, kName);
  const double height = draw::line_height(kName) * 0.75;
  draw::Text label;
  label.text = text;
  label.at = (low + high) * 0.5;
  label.size = kName;
  label.anchor = draw::Anchor::middle;
  label.seat = draw::Seat::middle;
  if (length > wide || height > tall) {
    if (length > tall || height > wide) return;
    label.rotation = 90;
  }
  into.add(label);
}

// Zigzag along the upper side: the part goes on.
void torn(draw::Drawing& into, double width, double height) {
  std::vector<Point> points;
  const int teeth = std::max(2, static_cast<int>(width / 6));
  for (int i = 0; i <= 2 * teeth; ++i) {
    points.push_back({width * i / (2.0 * teeth), height + (i % 2 == 0 ? 0 : 1.4)});
  }
  into.add(draw::polyline(points, LineKind::thin));
}

}  // namespace

std::map<std::string, RollPart> parts_of(const job::CutRoll& roll) {
  std::map<std::string, RollPart> out;
  out["roll"] = {Length{}, Length{}, roll.length, roll.width};
  for (const job::CutStep& step : roll.cuts) {
    const auto from = out.find(step.part);
    if (from == out.end() || step.way == job::CutWay::teeth) continue;
    const RollPart part = from->second;
    Length begin;
    for (std::size_t i = 0; i < step.gives.size(); ++i) {
      const Length whole = step.way == job::CutWay::across ? part.length : part.width;
      const Length end = i < step.at.size() ? step.at[i] : whole;
      if (!step.gives[i].empty()) out.emplace(step.gives[i], piece_of(part, step.way, begin, end));
      begin = end;
    }
  }
  return out;
}

namespace {

// Of a part that is parted along teeth: both pieces as they are, each with its mark beyond its straight side.
draw::Drawing teeth_view(const Sources& sources, const job::CutRoll& roll, const RollPart& part,
                         double room) {
  draw::Drawing out;
  const double scale = usual_scale(part.length.in_mm(), part.width.in_mm(), room - 12, 40);
  constexpr double kSlack = 12;  // mm on the roll: kerfs before it
  const double middle_x = (part.x + part.length / 2).in_mm();
  const double middle_y = (part.y + part.width / 2).in_mm();
  std::vector<draw::Text> labels;
  for (const job::CutPiece& piece : roll.pieces) {
    const auto known = std::find_if(sources.plan.pieces.begin(), sources.plan.pieces.end(),
                                    [&](const job::Piece& one) { return one.mark == piece.mark; });
    if (known == sources.plan.pieces.end()) continue;
    const geom::Box net = geom::bounds(known->net.outline);
    std::vector<Point> ring;
    bool inside = true;
    for (const geom::GridPoint& p : known->net.outline) {
      const Point on = on_roll(net, piece, p);
      inside = inside && on.x >= part.x.in_mm() - kSlack && on.y >= part.y.in_mm() - kSlack &&
               on.x <= (part.x + part.length).in_mm() + kSlack &&
               on.y <= (part.y + part.width).in_mm() + kSlack;
      ring.push_back({(on.x - part.x.in_mm()) * scale, (on.y - part.y.in_mm()) * scale});
    }
    if (!inside) continue;
    draw::Path path = draw::polygon(ring, LineKind::cut);
    path.fill = draw::Fill::white();
    path.tag = piece.mark;
    out.add(path);
    const Point side = straight_side(known->net.outline, piece);
    draw::Text label;
    label.text = piece.mark;
    label.size = kName;
    label.seat = draw::Seat::middle;
    label.anchor = draw::Anchor::middle;
    label.at = {(side.x - part.x.in_mm()) * scale, (side.y - part.y.in_mm()) * scale};
    const double away_x = (side.x - middle_x) / part.length.in_mm();
    const double away_y = (side.y - middle_y) / part.width.in_mm();
    if (std::abs(away_y) >= std::abs(away_x)) {
      label.at.y += away_y < 0 ? -3 : 3;
    } else {
      label.at.x += away_x < 0 ? -2 : 2;
      label.anchor = away_x < 0 ? draw::Anchor::end : draw::Anchor::start;
    }
    labels.push_back(label);
  }
  for (const draw::Text& label : labels) out.add(label);
  return out;
}

}  // namespace

draw::Drawing step_view(const Sources& sources, const job::CutRoll& roll, const job::CutStep& step,
                        const RollPart& part, double room) {
  if (step.way == job::CutWay::teeth) return teeth_view(sources, roll, part, room);
  draw::Drawing out;
  const Words words(sources);
  // As on the roll's drawing, whose hooked end is below and whose near edge is at the right: a part that is
  // cut lengthwise lies as it does there, with the tape from the right; one that is cut across is turned a
  // quarter.
  const bool across = step.way == job::CutWay::across;
  const Length whole = across ? part.length : part.width;
  const double other_way = across ? part.width.in_mm() : part.length.in_mm();
  const double scale = usual_scale(whole.in_mm(), kShortest, room - 8, 1e9);
  const double wide = whole.in_mm() * scale;
  const double true_height = std::max(kShortest, other_way * scale);
  const double tall = std::min(kTallest, true_height);
  const auto at = [&](Length mark) { return across ? mark.in_mm() * scale : wide - mark.in_mm() * scale; };
  Length begin;
  for (std::size_t i = 0; i < step.gives.size(); ++i) {
    const Length end = i < step.at.size() ? step.at[i] : whole;
    const Point low{std::min(at(begin), at(end)), 0};
    const Point high{std::max(at(begin), at(end)), tall};
    begin = end;
    if (high.x - low.x < 0.05) continue;
    draw::Path box = draw::polygon({low, {high.x, low.y}, high, {low.x, high.y}}, LineKind::thin);
    box.fill = step.gives[i].empty() ? draw::Fill::level(0.8) : draw::Fill::white();
    out.add(box);
    if (!step.gives[i].empty()) name(out, step.gives[i], low, high);
  }
  for (const Length mark : step.at) out.add(draw::line({at(mark), 0}, {at(mark), tall}, LineKind::cut));
  out.add(draw::rectangle(0, 0, wide, tall, LineKind::outline));
  if (true_height > kTallest) torn(out, wide, tall);
  draw::Chain chain;
  chain.zero = {at(Length{}), 0};
  chain.towards = {at(whole), 0};
  chain.offset = across ? -kTape : kTape;
  chain.size = kName;
  for (const Length mark : step.at) chain.stops.push_back({{at(mark), 0}, words.tape(mark)});
  out.add(chain);
  return out;
}

}  // namespace lapwright::sheets

#include "roll_view.h"

#include "laid_piece.h"
#include "paper.h"
#include "words.h"

#include <lapwright/draw/font.h>

#include <lapwright/geom/polygon.h>

#include <algorithm>

namespace lapwright::sheets {

namespace {

using draw::LineKind;
using draw::Point;

constexpr double kMark = kNumber;
constexpr double kRoom = 0.8;   // mm of paper round a mark
constexpr double kTight = 0.1;  // on a screen, where a roll of six metres is smaller

class RollView {
 public:
  RollView(const Sources& sources, const job::CutRoll& roll, double scale, bool upright, PieceTag tag)
      : sources_(sources), roll_(roll), scale_(scale), upright_(upright), tag_(tag) {}

  draw::Drawing run() {
    for (const job::CutLeft& left : roll_.left) {
      draw::Path path = box(left.x, left.y, left.length, left.width, LineKind::thin);
      path.fill = draw::Fill::level(left.keep ? 0.93 : 0.8);
      out_.add(path);
    }
    for (std::size_t i = 0; i < roll_.pieces.size(); ++i) add(roll_.pieces[i], i);
    for (const draw::Text& label : late_) out_.add(label);
    out_.add(box(Length{}, Length{}, roll_.length, roll_.width, LineKind::outline));
    for (const job::CutLeft& left : roll_.left) {
      if (left.keep) keep(left);
    }
    first_cuts();
    return std::move(out_);
  }

 private:
  // From mm on the roll to mm of paper.
  Point at(double x, double y) const {
    return upright_ ? Point{(roll_.width.in_mm() - y) * scale_, x * scale_} : Point{x * scale_, y * scale_};
  }
  draw::Path box(Length x, Length y, Length length, Length width, LineKind kind) const {
    const double x0 = x.in_mm();
    const double y0 = y.in_mm();
    const double x1 = x0 + length.in_mm();
    const double y1 = y0 + width.in_mm();
    return draw::polygon({at(x0, y0), at(x1, y0), at(x1, y1), at(x0, y1)}, kind);
  }

  void add(const job::CutPiece& piece, std::size_t index) {
    const auto known = std::find_if(sources_.plan.pieces.begin(), sources_.plan.pieces.end(),
                                    [&](const job::Piece& one) { return one.mark == piece.mark; });
    if (known == sources_.plan.pieces.end()) return;
    const geom::Box net = geom::bounds(known->net.outline);
    std::vector<Point> ring;
    Point low{1e9, 1e9};
    Point high{-1e9, -1e9};
    for (const geom::GridPoint& p : known->net.outline) {
      const Point on = on_roll(net, piece, p);
      const Point q = at(on.x, on.y);
      low = {std::min(low.x, q.x), std::min(low.y, q.y)};
      high = {std::max(high.x, q.x), std::max(high.y, q.y)};
      ring.push_back(q);
    }
    draw::Path path = draw::polygon(ring, LineKind::cut);
    path.fill = draw::Fill::white();
    path.tag = tag_ == PieceTag::mark ? piece.mark
                                      : "cut/" + roll_.name + "/" + std::to_string(index) + "/" + piece.mark;
    out_.add(path);
    // Of a stepped piece the mark stands on its straight side: its other half lies in the teeth.
    const double wide = high.x - low.x;
    const double tall = high.y - low.y;
    const bool odd = geom::area(known->net.outline).in_mm2() <
                     0.97 * static_cast<double>(net.width()) * static_cast<double>(net.height()) / 1e6;
    const double share = odd ? 0.45 : 1;
    const bool across = piece.turned != upright_;  // the net's y runs sideways on the paper
    const double room_wide = across ? wide * share : wide;
    const double room_tall = across ? tall : tall * share;
    Point middle = (low + high) * 0.5;
    if (odd) {
      // The net's straight side is its low y unless it was turned end for end.
      const Point side = straight_side(known->net.outline, piece);
      const Point base = at(side.x, side.y);
      middle = across ? Point{base.x < middle.x ? low.x + room_wide / 2 : high.x - room_wide / 2, middle.y}
                      : Point{middle.x, base.y < middle.y ? low.y + room_tall / 2 : high.y - room_tall / 2};
    }
    const double text = draw::text_width(piece.mark, kMark);
    const bool tight = tag_ == PieceTag::place;
    const double room = tight ? kTight : kRoom;
    const double high_text = draw::line_height(kMark) * (tight ? 0.6 : 0.75);
    draw::Text label;
    label.text = piece.mark;
    label.at = middle;
    label.size = kMark;
    label.anchor = draw::Anchor::middle;
    label.seat = draw::Seat::middle;
    if (text + room <= room_wide && high_text + room <= room_tall) {
      out_.add(label);
    } else if (text + room <= room_tall && high_text + room <= room_wide) {
      label.rotation = 90;
      out_.add(label);
    } else if (odd && high_text <= wide && text <= tall) {
      // Over an edge rather than nowhere.
      label.rotation = 90;
      label.on_white = true;
      late_.push_back(label);
    } else if (odd && text <= wide && high_text <= tall) {
      label.on_white = true;
      late_.push_back(label);
    }
  }

  void keep(const job::CutLeft& left) {
    const Words words(sources_);
    const Point a = at(left.x.in_mm(), left.y.in_mm());
    const Point b = at((left.x + left.length).in_mm(), (left.y + left.width).in_mm());
    const std::string text = words.say("sheet.cutting_keep");
    const double wide = std::abs(b.x - a.x);
    const double tall = std::abs(b.y - a.y);
    const double length = draw::text_width(text, kMark) + kRoom;
    const double height = draw::line_height(kMark) * 0.75 + kRoom;
    draw::Text label;
    label.text = text;
    label.at = (a + b) * 0.5;
    label.size = kMark;
    label.anchor = draw::Anchor::middle;
    label.seat = draw::Seat::middle;
    if (length > wide || height > tall) {
      if (length > tall || height > wide) return;
      label.rotation = 90;
    }
    out_.add(label);
  }

  // The marks of the first step, as off a tape along the roll or across it.
  void first_cuts() {
    if (roll_.cuts.empty() || roll_.cuts.front().part != "roll") return;
    const job::CutStep& step = roll_.cuts.front();
    if (step.way == job::CutWay::teeth) return;
    const bool across = step.way == job::CutWay::across;
    const Words words(sources_);
    draw::Chain chain;
    const double edge = upright_ ? 0 : roll_.width.in_mm();
    const auto stop = [&](double mm) { return across ? at(mm, edge) : at(0, mm); };
    chain.zero = stop(0);
    chain.towards = stop(across ? roll_.length.in_mm() : roll_.width.in_mm());
    chain.offset = across && upright_ ? -6 : 6;
    chain.size = kNumber;
    for (const Length mark : step.at) chain.stops.push_back({stop(mark.in_mm()), words.tape(mark)});
    out_.add(chain);
    // The names of what comes off and is cut further, on the other side.
    Length begin;
    for (std::size_t i = 0; i < step.gives.size(); ++i) {
      const Length whole = across ? roll_.length : roll_.width;
      const Length end = i < step.at.size() ? step.at[i] : whole;
      const double middle = (begin.in_mm() + end.in_mm()) / 2;
      const double room = (end - begin).in_mm() * scale_;
      begin = end;
      const bool cut_on = std::any_of(roll_.cuts.begin() + 1, roll_.cuts.end(),
                                      [&](const job::CutStep& one) { return one.part == step.gives[i]; });
      if (!cut_on || room < draw::line_height(kMark) * 0.75) continue;
      const Point beside =
          across ? at(middle, upright_ ? roll_.width.in_mm() : 0) : at(roll_.length.in_mm(), middle);
      draw::Text label;
      label.text = step.gives[i];
      label.size = kMark;
      label.weight = draw::Weight::bold;
      label.seat = draw::Seat::middle;
      const bool sideways = across == upright_;  // what is named lies along the paper's height
      label.anchor = !sideways ? draw::Anchor::middle : across ? draw::Anchor::end : draw::Anchor::start;
      label.at = beside + (sideways ? Point{across ? -2.0 : 2.0, 0} : Point{0, across ? -3.0 : 3.0});
      out_.add(label);
    }
  }

  const Sources& sources_;
  const job::CutRoll& roll_;
  double scale_;
  bool upright_;
  PieceTag tag_;
  draw::Drawing out_;
  std::vector<draw::Text> late_;  // over the teeth of both of a pair
};

}  // namespace

draw::Drawing roll_view(const Sources& sources, const job::CutRoll& roll, double scale, bool upright,
                        PieceTag tag) {
  return RollView(sources, roll, scale, upright, tag).run();
}

std::vector<NamedDrawing> rolls(const Sources& sources) {
  std::vector<NamedDrawing> out;
  if (!sources.plan.cutting) return out;
  const Words words(sources);
  for (const job::CutRoll& roll : sources.plan.cutting->rolls) {
    out.push_back({"cutting-" + file_stem(roll.name),
                   words.say("sheet.cutting_roll", {{"name", roll.name, ""}}),
                   roll_view(sources, roll, 1 / 10.0, false)});
  }
  return out;
}

}  // namespace lapwright::sheets

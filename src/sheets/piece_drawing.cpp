// One page a piece: its flat shape, dimensioned from one corner, and its folds in bending order.
#include "bends.h"
#include "flat_piece.h"
#include "pages.h"
#include "pattern.h"

#include <lapwright/draw/font.h>
#include <lapwright/draw/symbols.h>

#include <algorithm>
#include <cmath>

namespace lapwright::sheets {

namespace {

using draw::Point;
using draw::pt;
using draw::Weight;

double mm(geom::Grid g) {
  return geom::to_length(g).in_mm();
}

// Distances from the low side that a person marks, rising; those closer than a hand's cut are one.
// `coarse`: of a row of steps, the outer end of each fold alone.
std::vector<double> marks_along(const geom::Net& net, bool x, bool coarse) {
  const geom::Box box = geom::bounds(net.outline);
  const double low = mm(x ? box.low.x : box.low.y);
  std::vector<double> all;
  const auto take = [&](geom::GridPoint p) { all.push_back(mm(x ? p.x : p.y) - low); };
  // A row of steps is set out by the ends of its folds; the turn-ins follow from those.
  if (like_folds(net)) {
    take(x ? geom::GridPoint{box.high.x, 0} : geom::GridPoint{0, box.high.y});
  } else {
    for (const geom::GridPoint& p : net.outline) take(p);
  }
  for (std::size_t i = 0; i < net.folds.size(); ++i) {
    if (rolled(net, i)) continue;  // the lines of a curve are guides
    const geom::Fold& fold = net.folds[i];
    const bool from_outer = fold.from.y >= fold.to.y;
    if (!coarse || from_outer) take(fold.from);
    if (!coarse || !from_outer) take(fold.to);
  }
  std::sort(all.begin(), all.end());
  std::vector<double> out;
  for (const double at : all) {
    if (at < 0.5) continue;
    if (out.empty() || at - out.back() >= 0.5) out.push_back(at);
  }
  return out;
}

// Up to `reach` from the low end; all of it when that is no limit.
void dimension(draw::Drawing& drawing, const Words& words, const geom::Net& net, double scale, double reach,
               bool coarse) {
  const geom::Box box = geom::bounds(net.outline);
  const Point corner = Point{mm(box.low.x), mm(box.low.y)} * scale;
  constexpr std::size_t kReadable = 60;
  for (const bool x : {true, false}) {
    std::vector<double> stops = marks_along(net, x, x && coarse);
    if (x) std::erase_if(stops, [&](double at) { return at > reach; });
    if (stops.empty()) continue;
    // As many as can be written beside the piece; the full-size template has the rest.
    const double long_side = x ? std::min(reach, mm(box.width())) : mm(box.height());
    const double room = std::max(60.0, long_side * scale + 20);
    const auto fit = std::min(kReadable, static_cast<std::size_t>(room / draw::line_height(kNumber)));
    while (stops.size() > fit && stops.size() > 1) {
      std::size_t nearest = 0;
      for (std::size_t i = 1; i + 1 < stops.size(); ++i) {
        if (stops[i + 1] - stops[i] < stops[nearest + 1] - stops[nearest]) nearest = i;
      }
      stops.erase(stops.begin() + static_cast<std::ptrdiff_t>(nearest));
    }
    draw::Chain chain;
    chain.zero = corner;
    chain.towards = corner + (x ? Point{10, 0} : Point{0, 10});
    chain.offset = x ? -6 : 6;
    chain.size = kNumber;
    for (const double at : stops) {
      const bool whole = at == stops.back() && !(x && reach < mm(box.width()));
      chain.stops.push_back({corner + (x ? Point{at * scale, 0} : Point{0, at * scale}),
                             words.tape(Length::mm(at), whole ? ShownHow::up : ShownHow::nearest)});
    }
    drawing.add(std::move(chain));
  }
}

// Beside the middle of the fold, on the part that stays.
void number_folds(draw::Drawing& drawing, const geom::Net& net, double scale, double reach) {
  const double low = mm(geom::bounds(net.outline).low.x);
  for (std::size_t i = 0; i < net.folds.size(); ++i) {
    const geom::Fold& fold = net.folds[i];
    const Point a = Point{mm(fold.from.x), mm(fold.from.y)} * scale;
    const Point b = Point{mm(fold.to.x), mm(fold.to.y)} * scale;
    if (((a + b) * 0.5).x > (low + reach) * scale) continue;
    if (rolled(net, i) && i > 0 && rolled(net, i - 1) && i + 1 < net.folds.size() && rolled(net, i + 1))
      continue;
    draw::Text number =
        text_at(std::to_string(i + 1), (a + b) * 0.5, kNumber, Weight::bold, draw::Anchor::middle);
    number.seat = draw::Seat::middle;
    const Point along = b - a;
    const double length = std::max(1e-6, std::sqrt(along.x * along.x + along.y * along.y));
    Point square{-along.y / length, along.x / length};
    if (square.y > 0 || (square.y == 0 && square.x > 0)) square = square * -1.0;
    number.at = number.at + square * 3.2;
    number.layer = draw::Layer::mark;
    drawing.add(std::move(number));
  }
}

bool bossed(const geom::Net& net) {
  return std::any_of(net.cuts.begin(), net.cuts.end(), [](const geom::Cut& cut) { return cut.worked; });
}

// Beside each line that is worked, what is done there.
void name_bossed(draw::Drawing& drawing, const Words& words, const geom::Net& net, double scale) {
  for (const geom::Cut& cut : net.cuts) {
    if (!cut.worked) continue;
    const Point a = Point{mm(cut.from.x), mm(cut.from.y)} * scale;
    const Point b = Point{mm(cut.to.x), mm(cut.to.y)} * scale;
    // On a small ear the folds are numbered there: the note below says what the line is.
    const Point along = b - a;
    constexpr double kRoom = 30;
    if (along.x * along.x + along.y * along.y < kRoom * kRoom) continue;
    draw::Text word =
        text_at(words.say("sheet.boss"), (a + b) * 0.5, kNumber, Weight::regular, draw::Anchor::middle);
    word.seat = draw::Seat::middle;
    word.on_white = true;
    word.layer = draw::Layer::mark;
    drawing.add(std::move(word));
  }
}

}  // namespace

draw::Drawing flat_piece(const Words& words, const geom::Net& net, double scale) {
  constexpr double kAll = 1e9;
  draw::Drawing out;
  out.add(pattern(net), {.scale = scale});
  number_folds(out, net, scale, kAll);
  name_bossed(out, words, net, scale);
  dimension(out, words, net, scale, kAll, like_folds(net));
  return out;
}

void add_piece_drawings(Sheets& sheets) {
  const Words& words = sheets.words();
  for (const job::Piece* piece : distinct_pieces(sheets.sources().plan)) {
    const geom::Box box = geom::bounds(piece->net.outline);
    const std::vector<Bend> bends = bend_words(words, piece->net);
    const About about = places_of(sheets.sources().plan, *piece);
    constexpr std::size_t kManyBends = 8;
    const double row = draw::line_height(pt(13)) * (bends.size() > kManyBends ? 1.15 : 1.5);
    const bool boss = bossed(piece->net);
    std::vector<std::vector<std::string>> bend_lines;
    std::size_t lines = boss ? 1 : 0;
    for (const Bend& bend : bends) {
      bend_lines.push_back(draw::wrapped(bend.text, kArea.width() - 22, pt(13)));
      lines += bend_lines.back().size();
    }
    const double foot = 10 + row * static_cast<double>(lines);
    const double head = 26;
    const double room_high = sheets.room(about) - head - foot;
    const double scale =
        usual_scale(mm(box.width()), mm(box.height()), kArea.width() - 36, std::max(20.0, room_high - 40));
    const std::string kind = words.kind(piece->kind);
    draw::Drawing& page =
        sheets.begin(words.say("sheet.piece", {{"mark", piece->mark, ""}, {"kind", kind, ""}}), scale, about);

    const double radius = draw::ring_radius(piece->mark, pt(24));
    const double mid = sheets.top() - 4 - std::max(radius, 8.0);
    page.add(draw::ringed_mark({kArea.left + 4 + radius, mid}, piece->mark, pt(24)));
    const double left = kArea.left + 2 * radius + 12;
    const double room = kArea.right - left - 2;
    const std::string size = words.say("sheet.piece_size", {{"count", static_cast<double>(piece->count), ""},
                                                            {"length", piece->length.in_mm(), "mm"},
                                                            {"width", piece->width.in_mm(), "mm"}});
    page.add(
        text_at(draw::shortened(size, room, pt(18), Weight::bold), {left, mid + 1.5}, pt(18), Weight::bold));
    std::string what = piece->code
                           ? words.say("sheet.code", {{"code", static_cast<double>(*piece->code), ""}})
                           : piece->metal;
    what += ", " + words.value(piece->mass.in_kg(), "kg") + ", " + piece->slope +
            (piece->junction.empty() ? "" : " / " + piece->junction) +
            (piece->face.empty() ? "" : ", " + piece->face);
    page.add(text_at(draw::shortened(what, room, kNumber), {left, mid - 6.5}));

    // Long rows of steps are small when drawn whole: the first of them are drawn again, larger.
    constexpr double kNear = 1 / 2.5;
    const bool near = like_folds(piece->net) && scale < kNear / 2 && mm(box.height()) * kNear < 75;
    constexpr double kAll = 1e9;
    const auto view = [&](double at_scale, double reach) {
      draw::Drawing drawing;
      const Point low{mm(box.low.x), mm(box.low.y)};
      const draw::Box window{low.x - 1, low.y - 1, low.x + reach, mm(box.high.y) + 1};
      drawing.add(reach < kAll ? cropped(pattern(piece->net), window) : pattern(piece->net),
                  {.scale = at_scale});
      number_folds(drawing, piece->net, at_scale, reach);
      if (reach >= kAll) name_bossed(drawing, words, piece->net, at_scale);
      dimension(drawing, words, piece->net, at_scale, reach, near && reach >= kAll);
      return drawing;
    };
    const auto lay = [&](const draw::Drawing& drawing, double middle) {
      const draw::Box extents = draw::extents(drawing);
      const Point low_middle{(extents.left + extents.right) / 2, (extents.bottom + extents.top) / 2};
      page.add(drawing, {.move = Point{(kArea.left + kArea.right) / 2, middle} - low_middle}, piece->mark);
      return extents.height();
    };
    const double low = kArea.bottom + foot;
    lay(view(scale, kAll), near ? low + room_high / 4 : low + room_high / 2);
    if (near) {
      const double reach = (kArea.width() - 40) / kNear;
      const double middle = low + room_high * 0.72;
      const double high = lay(view(kNear, reach), middle);
      page.add(text_at(words.say("sheet.piece_near", {{"scale", scale_name(kNear), ""}}),
                       {kArea.left + 4, middle + high / 2 + 3}));
    }

    double y = kArea.bottom + foot - 8;
    for (std::size_t i = 0; i < bends.size(); ++i) {
      page.add(bend_section({kArea.left + 4, y + 1.5}, piece->net.folds[bends[i].fold]));
      for (const std::string& line : bend_lines[i]) {
        page.add(text_at(line, {kArea.left + 19, y}, pt(13)));
        y -= row;
      }
    }
    if (boss) {
      page.add(draw::line({kArea.left + 4, y + 1.5}, {kArea.left + 16, y + 1.5}, draw::LineKind::axis));
      page.add(text_at(draw::shortened(words.say("sheet.boss_note"), kArea.width() - 22, kNumber),
                       {kArea.left + 19, y}));
    }
  }
}

}  // namespace lapwright::sheets

#include <lapwright/draw/expand.h>

#include "dimension.h"
#include "face.h"
#include "plane.h"

#include <lapwright/draw/font.h>

#include <algorithm>

namespace lapwright::draw {
namespace {

constexpr double kWhiteRim = 0.5;  // of the white behind a text, mm

void put(const Path& path, std::vector<Plain>& out) {
  PlainPath base;
  base.contours = path.contours;
  base.tag = path.tag;
  const LineKind kind = path.stroke ? path.stroke->kind : LineKind::outline;
  base.layer = path.layer.value_or(layer_of(kind));
  base.kind = kind;
  base.look = path.stroke ? look_of(kind).name : "area";

  if (path.fill.kind == Fill::Kind::hatch) {
    if (!path.fill.see_through) {
      PlainPath ground = base;
      ground.fill = 1;
      ground.look = "ground";
      out.emplace_back(std::move(ground));
    }
    PlainPath hatch;
    hatch.tag = path.tag;
    hatch.layer = Layer::hatch;
    hatch.kind = LineKind::thin;
    hatch.look = look_of(path.fill.hatch).name;
    hatch.weight = look_of(path.fill.hatch).weight;
    for (const auto& [a, b] : hatch_lines(path.contours, path.fill.hatch)) {
      hatch.contours.push_back({{{a, 0}, {b, 0}}, false});
    }
    if (!hatch.contours.empty()) out.emplace_back(std::move(hatch));
  }
  if (path.fill.kind == Fill::Kind::grey) base.fill = std::clamp(path.fill.grey, 0.0, 1.0);
  if (path.stroke) {
    base.weight = path.stroke->width();
    base.dashed = look_of(kind).dashed();
  }
  if (base.fill || base.weight > 0) out.emplace_back(std::move(base));
}

void put(const Text& text, std::vector<Plain>& out) {
  const std::vector<char32_t> characters = drawn_characters(text.text);
  if (characters.empty()) return;
  const TrueType face = face_of(text.weight);
  double below = 0;
  double above = 0;
  for (const char32_t c : characters) {
    const std::uint16_t glyph = face.glyph_of(c);
    below = std::min<double>(below, face.glyph_bottom(glyph));
    above = std::max<double>(above, face.glyph_top(glyph));
  }
  const double em = text.size / face.units_per_em();
  PlainText plain;
  plain.text = text.text;
  plain.size = text.size;
  plain.rotation = text.rotation;
  plain.weight = text.weight;
  plain.width = width_of(face, characters, text.size);
  plain.layer = text.layer;
  plain.tag = text.tag;
  const Point d = direction(text.rotation);
  const Point up = left_of(d);
  double back = 0;
  if (text.anchor == Anchor::middle) back = plain.width / 2;
  if (text.anchor == Anchor::end) back = plain.width;
  double down = 0;
  if (text.seat == Seat::middle) down = cap_height(text.size) / 2;
  if (text.seat == Seat::top) down = cap_height(text.size);
  plain.at = text.at - d * back - up * down;
  const auto corner = [&](double along, double high) { return plain.at + d * along + up * high; };
  plain.corners = {corner(0, below * em), corner(plain.width, below * em), corner(plain.width, above * em),
                   corner(0, above * em)};
  if (text.on_white) {
    PlainPath ground;
    const double low = below * em - kWhiteRim;
    const double high = above * em + kWhiteRim;
    const double end = plain.width + kWhiteRim;
    ground.contours.push_back({{{corner(-kWhiteRim, low), 0},
                                {corner(end, low), 0},
                                {corner(end, high), 0},
                                {corner(-kWhiteRim, high), 0}},
                               true});
    ground.fill = 1;
    ground.look = "ground";
    ground.layer = text.layer;
    ground.tag = text.tag;
    out.emplace_back(std::move(ground));
  }
  out.emplace_back(std::move(plain));
}

template <class Measure>
void put_laid_out(const Measure& measure, std::vector<Plain>& out) {
  Drawing laid;
  lay_out(measure, laid);
  for (const Item& item : laid.items()) {
    if (const auto* path = std::get_if<Path>(&item)) put(*path, out);
    if (const auto* text = std::get_if<Text>(&item)) put(*text, out);
  }
}

void put(const Dimension& dimension, std::vector<Plain>& out) {
  put_laid_out(dimension, out);
}
void put(const Chain& chain, std::vector<Plain>& out) {
  put_laid_out(chain, out);
}

// Two rectangles, possibly turned, meet unless an edge direction of one of them separates them.
bool meet(const std::array<Point, 4>& a, const std::array<Point, 4>& b) {
  constexpr double kTouch = 1e-6;
  for (const auto* box : {&a, &b}) {
    for (const Point axis : {unit((*box)[1] - (*box)[0]), left_of(unit((*box)[1] - (*box)[0]))}) {
      const auto range = [&](const std::array<Point, 4>& corners) {
        std::pair<double, double> r{dot(corners[0], axis), dot(corners[0], axis)};
        for (const Point c : corners) {
          r.first = std::min(r.first, dot(c, axis));
          r.second = std::max(r.second, dot(c, axis));
        }
        return r;
      };
      const auto [a_low, a_high] = range(a);
      const auto [b_low, b_high] = range(b);
      if (a_high <= b_low + kTouch || b_high <= a_low + kTouch) return false;
    }
  }
  return true;
}

}  // namespace

Box PlainText::box() const {
  Box box;
  for (const Point c : corners) box.take(c);
  return box;
}

std::vector<Plain> expand(const Drawing& drawing) {
  std::vector<Plain> out;
  for (const Item& item : drawing.items()) {
    std::visit([&](const auto& thing) { put(thing, out); }, item);
  }
  return out;
}

std::vector<TextTrouble> text_troubles(const Page& page, double margin) {
  std::vector<PlainText> texts;
  for (Plain& plain : expand(page.drawing)) {
    if (auto* text = std::get_if<PlainText>(&plain)) texts.push_back(std::move(*text));
  }
  const Box paper{margin, margin, page.width - margin, page.height - margin};
  std::vector<TextTrouble> out;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    if (!paper.holds(texts[i].box())) out.push_back({texts[i].text, {}});
    for (std::size_t k = i + 1; k < texts.size(); ++k) {
      if (texts[i].box().overlaps(texts[k].box()) && meet(texts[i].corners, texts[k].corners)) {
        out.push_back({texts[i].text, texts[k].text});
      }
    }
  }
  return out;
}

}  // namespace lapwright::draw

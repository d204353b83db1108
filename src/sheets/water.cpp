#include "water.h"

#include <lapwright/draw/font.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace lapwright::sheets {

namespace {

using draw::LineKind;
using draw::Point;
using draw::pt;

// What of a ring lies within the window, side after side.
std::vector<Point> within(const job::Trace::Ring& ring, const job::Trace& trace) {
  std::vector<Point> kept;
  for (const job::Trace::Corner& c : ring) kept.push_back({c.u, c.s});
  const auto cut = [&](auto inside) {
    std::vector<Point> out;
    for (std::size_t i = 0; i < kept.size(); ++i) {
      const Point a = kept[i];
      const Point b = kept[(i + 1) % kept.size()];
      const double da = inside(a);
      const double db = inside(b);
      if (da >= 0) out.push_back(a);
      if ((da > 0 && db < 0) || (da < 0 && db > 0)) out.push_back(a + (b - a) * (da / (da - db)));
    }
    kept = std::move(out);
  };
  cut([&](Point p) { return p.x - trace.low.u; });
  cut([&](Point p) { return trace.high.u - p.x; });
  cut([&](Point p) { return p.y - trace.low.s; });
  cut([&](Point p) { return trace.high.s - p.y; });
  return kept;
}

class Picture {
 public:
  Picture(const Words& words, const job::Trace& trace, double scale)
      : words_(words), trace_(trace), scale_(scale) {}

  draw::Drawing draw() {
    for (const job::Trace::Ring& ring : trace_.units) shape(ring, LineKind::thin, draw::Fill::white());
    for (const job::Trace::Ring& ring : trace_.wet_below)
      shape(ring, std::nullopt, draw::Fill::hatched_over(draw::HatchKind::water));
    for (const job::Trace::Ring& ring : trace_.lead) shape(ring, LineKind::hidden, draw::Fill::none());
    way();
    return std::move(out_);
  }

 private:
  Point on_paper(Point p) const { return {(p.x - trace_.low.u) * scale_, (p.y - trace_.low.s) * scale_}; }

  void shape(const job::Trace::Ring& ring, std::optional<LineKind> kind, draw::Fill fill) {
    std::vector<Point> points = within(ring, trace_);
    if (points.size() < 3) return;
    for (Point& p : points) p = on_paper(p);
    draw::Path path = draw::polygon(points, kind.value_or(LineKind::thin));
    if (!kind) path.stroke.reset();
    path.fill = fill;
    out_.add(std::move(path));
  }

  void way() {
    if (trace_.path.empty()) return;
    // From where it comes into the picture: water runs down.
    std::vector<Point> points;
    for (std::size_t i = 0; i < trace_.path.size(); ++i) {
      const job::Trace::Corner& c = trace_.path[i];
      const bool out = c.s > trace_.high.s;
      if (out && (i + 1 == trace_.path.size() || trace_.path[i + 1].s > trace_.high.s)) continue;
      Point p{c.u, c.s};
      if (out) {
        const job::Trace::Corner& next = trace_.path[i + 1];
        p = {c.u + (next.u - c.u) * (c.s - trace_.high.s) / (c.s - next.s), trace_.high.s};
      }
      p = {std::clamp(p.x, trace_.low.u, trace_.high.u), std::clamp(p.y, trace_.low.s, trace_.high.s)};
      points.push_back(on_paper(p));
    }
    if (points.empty()) return;
    if (points.size() > 1) {
      draw::Path path = draw::polyline(points, LineKind::cut);
      path.stroke = draw::Stroke{LineKind::cut, 0.7};
      out_.add(std::move(path));
    }
    constexpr double kSpot = 2.2;  // mm of paper
    draw::Path spot = draw::circle(points.back(), kSpot, LineKind::heavy);
    out_.add(std::move(spot));
    draw::Text text = text_at(words_.say("sheet.water_first"), points.back() + Point{kSpot + 1, kSpot},
                              pt(11), draw::Weight::bold);
    text.on_white = true;
    // Words do not leave the picture.
    const double right = (trace_.high.u - trace_.low.u) * scale_;
    if (text.at.x > right * 0.6) {
      text.anchor = draw::Anchor::end;
      text.at.x = points.back().x - kSpot - 1;
    }
    out_.add(std::move(text));
  }

  const Words& words_;
  const job::Trace& trace_;
  double scale_;
  draw::Drawing out_;
};

const job::Frontier* frontier_of(const job::Proof& proof, const job::Trace& trace) {
  for (const job::Frontier& f : proof.frontiers) {
    if (f.slope == trace.slope && f.junction == trace.junction) return &f;
  }
  return nullptr;
}

std::string told(const Words& words, const job::Frontier& f, const job::Trace& trace) {
  const job::Params params{{"drift", std::max(f.drift, 0.0), "deg"},
                           {"covering_drift", f.covering_drift, "deg"},
                           {"climb", std::max(f.climb, 0.0), "mm"},
                           {"covering_climb", f.covering_climb, "mm"},
                           {"run", f.run, "mm"},
                           {"courses", static_cast<double>(f.courses), ""},
                           {"at_drift", trace.drift, "deg"},
                           {"at_climb", trace.climb, "mm"}};
  if (f.drift < 0) return words.say("sheet.water_leaks", params);
  return words.say(f.holds ? "sheet.water_holds" : "sheet.water_fails", params);
}

}  // namespace

draw::Drawing water_view(const Words& words, const job::Trace& trace, double scale) {
  return Picture(words, trace, scale).draw();
}

void add_measures(Sheets& sheets) {
  const job::Proof* proof = sheets.sources().proof;
  if (proof == nullptr || proof->measures.empty()) return;
  const Words& words = sheets.words();
  Flow flow(sheets, words.say("sheet.measures"));
  flow.paragraph(words.say("sheet.measures_note"));
  constexpr std::array kColumns{2.0, 48.0, 96.0, 119.0, 145.0, 190.0};
  constexpr std::size_t kLines = 3;
  const auto line = [&](const std::string& name, const std::string& where, const std::string& value,
                        const std::string& limit, const std::string& source, draw::Weight weight) {
    const std::array<std::string, 5> texts{name, where, value, limit, source};
    std::array<std::vector<std::string>, 5> cells;
    std::size_t most = 1;
    for (std::size_t i = 0; i < texts.size(); ++i) {
      const double wide = kColumns[i + 1] - kColumns[i] - 2;
      cells[i] = draw::wrapped(texts[i], wide, kNumber, weight);
      if (cells[i].size() > kLines) {
        cells[i].resize(kLines);
        cells[i].back() = draw::shortened(cells[i].back() + " …", wide, kNumber, weight);
      }
      most = std::max(most, cells[i].size());
    }
    const double row = draw::line_height(kNumber) * static_cast<double>(most) + 1.2;
    draw::Drawing& page = flow.need(row);
    for (std::size_t i = 0; i < cells.size(); ++i) {
      double y = flow.y() - draw::line_height(kNumber) + 1;
      for (const std::string& text : cells[i]) {
        page.add(text_at(text, {kArea.left + kColumns[i], y}, kNumber, weight));
        y -= draw::line_height(kNumber);
      }
    }
    flow.gap(row);
  };
  line(words.say("sheet.measure"), words.say("sheet.measure_where"), words.say("sheet.measure_found"),
       words.say("sheet.measure_limit"), words.say("sheet.measure_source"), draw::Weight::bold);
  for (const job::Measure& m : proof->measures) {
    constexpr std::size_t kCheck = 6;  // "check."
    line((m.holds ? "" : "× ") + words.say("check.name." + m.rule.substr(kCheck)), m.where,
         words.value(m.value, "mm", m.at_most ? ShownHow::up : ShownHow::down),
         words.say(m.at_most ? "sheet.at_most" : "sheet.at_least", {{"limit", m.limit, "mm"}}), m.source,
         m.holds ? draw::Weight::regular : draw::Weight::bold);
  }
}

void add_water(Sheets& sheets) {
  const job::Proof* proof = sheets.sources().proof;
  if (proof == nullptr) return;
  const Words& words = sheets.words();
  for (const job::Trace& trace : proof->traces) {
    const job::Frontier* f = frontier_of(*proof, trace);
    if (f == nullptr) continue;
    const About about{{trace.slope, trace.junction}};
    const std::string note = told(words, *f, trace) + " " + words.say("sheet.water_note");
    constexpr double kNote = 34;
    const double wide = trace.high.u - trace.low.u;
    const double high = trace.high.s - trace.low.s;
    const double scale = usual_scale(wide, high, kArea.width() - 4, sheets.room(about) - kNote - 4);
    draw::Drawing& page =
        sheets.begin(words.say("sheet.water", {{"slope", trace.slope, ""}, {"junction", trace.junction, ""}}),
                     scale, about);
    double y = sheets.top() - 5;
    for (const std::string& text : draw::wrapped(note, kArea.width() - 4, kNumber)) {
      page.add(text_at(text, {kArea.left + 2, y}));
      y -= draw::line_height(kNumber);
    }
    const draw::Drawing drawing = water_view(words, trace, scale);
    page.add(drawing,
             {.move = {(kArea.left + kArea.right - wide * scale) / 2,
                       kArea.bottom + 2 + (sheets.top() - kNote - kArea.bottom - 2 - high * scale) / 2}});
  }
}

}  // namespace lapwright::sheets

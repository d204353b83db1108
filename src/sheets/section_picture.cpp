#include "section_picture.h"

#include "labels.h"

#include <lapwright/base/trig.h>
#include <lapwright/draw/font.h>
#include <lapwright/draw/symbols.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace lapwright::sheets {

namespace {

using draw::LineKind;
using draw::Point;
using draw::pt;

constexpr double kLead = 0.9;   // how thick lead is drawn, mm of paper
constexpr double kApart = 1.7;  // sheets on each other, middle to middle, mm of paper

draw::Path lead_path(const std::vector<Point>& points) {
  draw::Path out = draw::polyline(points, LineKind::heavy);
  out.stroke = draw::Stroke{LineKind::heavy, kLead};
  return out;
}

// What a figure of this length is called, where the piece names it.
std::string said_length(const Words& words, const job::Piece& piece, double length) {
  struct Named {
    std::string_view figure;
    std::string_view key;
  };
  static constexpr Named kNamed[] = {
      {"cover", "sheet.cover_length"}, {"leg", "sheet.leg"},   {"upstand", "sheet.upstand"},
      {"turn_in", "sheet.turn_in"},    {"sole", "sheet.sole"}, {"leg_square", "sheet.leg"},
  };
  std::string number = words.tape(Length::mm(length));
  for (const Named& named : kNamed) {
    for (const job::Figure& figure : piece.figures) {
      constexpr double kSame = 1;
      if (figure.name == named.figure && figure.unit == "mm" && std::abs(figure.value - length) < kSame)
        return words.say(named.key) + " " + number;
    }
  }
  return number;
}

class Picture {
 public:
  Picture(const Words& words, const Section& section, double scale)
      : words_(words), section_(section), scale_(scale) {}

  draw::Drawing draw() {
    solids();
    for (const LeadLine& line : section_.lead) joint(line);
    for (const LeadLine& line : section_.lead) {
      for (const std::vector<Point>& run : drawn(line, out_of(line))) {
        draw::Path path = lead_path(on_paper(run));
        path.tag = line.piece->mark;
        out_.add(std::move(path));
      }
    }
    names();
    out_.add(notes_);
    return std::move(out_);
  }

 private:
  const Words& words_;
  const Section& section_;
  double scale_;
  draw::Drawing out_;
  draw::Drawing notes_;

  double out_of(const LeadLine& line) const { return (kLead * 0.7 + kApart * line.over) / scale_; }

  std::vector<Point> on_paper(const std::vector<Point>& points) const {
    std::vector<Point> out;
    for (const Point& p : points) out.push_back(p * scale_);
    return out;
  }

  void solids() {
    for (const Prism& unit : section_.units) {
      const std::vector<Point> ring = kept_in(cut_through(unit, section_.view), section_.window);
      if (ring.empty()) continue;
      draw::Path path = draw::polygon(on_paper(ring), LineKind::outline);
      path.stroke = draw::Stroke{LineKind::outline, 0.25};
      path.fill = draw::Fill::white();
      out_.add(std::move(path));
    }
    for (const Solid& solid : section_.masonry) {
      const std::vector<Point> ring = kept_in(cut_through(solid.prism, section_.view), section_.window);
      if (ring.empty()) continue;
      draw::Path path = draw::polygon(on_paper(ring), LineKind::outline);
      path.fill = solid.fill;
      out_.add(std::move(path));
    }
  }

  // Lead that goes into the masonry lies in a joint or a chase: the hatch gives way to it.
  void joint(const LeadLine& line) {
    for (const LeadLine::Part& part : line.parts) {
      const Point middle = (part.a + part.b) * 0.5;
      const bool in_wall =
          std::any_of(section_.masonry.begin(), section_.masonry.end(), [&](const Solid& solid) {
            const std::vector<Point> ring = cut_through(solid.prism, section_.view);
            return !ring.empty() && inside(middle, ring, 3);
          });
      if (!in_wall) continue;
      const double half = std::max(5.0, 2.2 / scale_);
      const Point side = part.outward * half;
      draw::Path path = draw::polygon(on_paper({part.a + side, part.b + side, part.b - side, part.a - side}),
                                      LineKind::thin);
      path.fill = draw::Fill::white();
      out_.add(std::move(path));
    }
  }

  static bool inside(Point p, const std::vector<Point>& ring, double by) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point d = ring[(i + 1) % ring.size()] - ring[i];
      const double size = hypotenuse(d.x, d.y);
      if (size < 1e-9) continue;
      if ((d.x * (p.y - ring[i].y) - d.y * (p.x - ring[i].x)) / size < by) return false;
    }
    return true;
  }

  void names() {
    draw::Box room = draw::extents_of_points(out_);
    constexpr double kAround = 34;
    room = {room.left - kAround, room.bottom - kAround, room.right + kAround, room.top + kAround};
    Labels labels(room);
    // Nothing may hide the lead.
    for (const LeadLine& line : section_.lead) {
      for (const std::vector<Point>& run : drawn(line, out_of(line))) {
        for (std::size_t i = 0; i + 1 < run.size(); ++i) {
          constexpr int kBits = 24;
          for (int k = 0; k <= kBits; ++k) {
            const Point p = (run[i] + (run[i + 1] - run[i]) * (static_cast<double>(k) / kBits)) * scale_;
            labels.take({p.x - 0.6, p.y - 0.6, p.x + 0.6, p.y + 0.6});
          }
        }
      }
    }
    std::set<std::string> told;
    for (const LeadLine& line : section_.lead) {
      if (!told.insert(line.piece->mark).second) continue;
      for (const LeadLine::Part& part : line.parts) {
        constexpr double kWorthALine = 6;  // mm of paper
        if (part.length() * scale_ < kWorthALine) continue;
        const Point out = part.outward * out_of(line);
        labels.length(notes_, (part.a + out) * scale_, (part.b + out) * scale_, part.outward,
                      said_length(words_, *line.piece, part.length()));
      }
    }
    labels.take_texts(notes_);
    told.clear();
    for (const LeadLine& line : section_.lead) {
      if (!told.insert(line.piece->mark).second) continue;
      const LeadLine::Part* longest = &line.parts.front();
      for (const LeadLine::Part& part : line.parts) {
        if (part.length() > longest->length()) longest = &part;
      }
      const Point on =
          (longest->a + (longest->b - longest->a) * 0.4 + longest->outward * out_of(line)) * scale_;
      labels.mark(notes_, on, line.piece->mark, 5, longest->outward + Point{0, 0.2}, pt(18));
    }
  }
};

// One line a piece below the picture: its ring, its kind, its lengths in order.
struct Key {
  const job::Piece* piece;
  std::string text;
};

std::vector<Key> keys_of(const Words& words, const Section& section) {
  std::vector<Key> out;
  std::set<std::string> told;
  for (const LeadLine& line : section.lead) {
    if (!told.insert(line.piece->mark).second) continue;
    std::string text;
    constexpr std::size_t kTold = 9;
    for (std::size_t i = 0; i < line.parts.size() && i < kTold; ++i) {
      text += (i > 0 ? " + " : "") + said_length(words, *line.piece, line.parts[i].length());
    }
    if (line.parts.size() > kTold) text += " …";
    out.push_back({line.piece, words.kind(line.piece->kind) + ": " + text});
  }
  return out;
}

}  // namespace

void add_section(Sheets& sheets, const Section& section) {
  const Words& words = sheets.words();
  const std::vector<Key> keys = keys_of(words, section);
  constexpr double kRow = 13;
  constexpr std::size_t kMostKeys = 8;
  const double key_high = kRow * static_cast<double>(std::min(keys.size(), kMostKeys)) + 4;
  const double room = sheets.room(section.about) - kNoteHigh - key_high;
  draw::Drawing drawing;
  draw::Box box;
  double scale = 1;
  for (const double one_to : {1.0, 2.0, 2.5, 3.0, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 50.0}) {
    scale = 1 / one_to;
    drawing = Picture(words, section, scale).draw();
    box = draw::extents(drawing);
    if (box.width() <= kArea.width() - 4 && box.height() <= room) break;
  }
  draw::Drawing& page = sheets.begin(section.title, scale, section.about);
  add_note(sheets, words.say("sheet.cut_note"));
  page.add(drawing, {.move = {(kArea.left + kArea.right - box.left - box.right) / 2,
                              kArea.bottom + key_high + (room - box.height()) / 2 - box.bottom}});
  double y = kArea.bottom + key_high - kRow / 2;
  for (std::size_t i = 0; i < keys.size() && i < kMostKeys; ++i) {
    const double radius = draw::ring_radius(keys[i].piece->mark, pt(18));
    page.add(draw::ringed_mark({kArea.left + 3 + radius, y}, keys[i].piece->mark, pt(18)));
    const double left = kArea.left + std::max(20.0, 2 * radius + 7);
    const std::vector<std::string> lines = draw::wrapped(keys[i].text, kArea.right - left - 2, kNumber);
    double line = y + (lines.size() > 1 ? 1.2 : -1.3);
    for (std::size_t k = 0; k < lines.size() && k < 2; ++k) {
      page.add(text_at(lines[k], {left, line}));
      line -= draw::line_height(kNumber);
    }
    y -= kRow;
  }
}

}  // namespace lapwright::sheets

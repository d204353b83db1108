#include "dimension.h"

#include "plane.h"

#include <lapwright/draw/font.h>

#include <algorithm>
#include <cmath>

namespace lapwright::draw {
namespace {

constexpr double kGap = 1.0;     // between the thing and its extension line
constexpr double kBeyond = 1.5;  // of the extension line past the dimension line
constexpr double kTick = 1.3;    // half a tick, along each axis
constexpr double kTickWeight = 0.35;
constexpr double kAir = 0.9;  // between a line and the text on it

void add_line(Drawing& out, Point a, Point b, LineKind kind, double weight, const std::string& tag) {
  Path path = line(a, b, kind);
  path.stroke->weight = weight;
  path.layer = Layer::dimension;
  path.tag = tag;
  out.add(std::move(path));
}

void add_tick(Drawing& out, Point at, Point d, const std::string& tag) {
  const Point slash = (d + left_of(d)) * kTick;
  add_line(out, at - slash, at + slash, LineKind::dimension, kTickWeight, tag);
}

// From the thing to just past the dimension line; nothing when they lie together.
void add_extension(Drawing& out, Point thing, Point on_line, Point outward, LineKind kind,
                   const std::string& tag) {
  if (dot(on_line - thing, outward) <= kGap) return;
  add_line(out, thing + outward * kGap, on_line + outward * kBeyond, kind, 0, tag);
}

Text label(const std::string& words, Point at, double size, Weight weight, const std::string& tag) {
  Text text;
  text.text = words;
  text.at = at;
  text.size = size;
  text.weight = weight;
  text.layer = Layer::dimension;
  text.tag = tag;
  return text;
}

// Moves the places as little as the least squares allow so that neighbours are `pitch` apart. `places`
// ascend.
std::vector<double> spread(const std::vector<double>& places, double pitch) {
  struct Run {
    double sum = 0;
    double count = 0;
    double mean() const { return sum / count; }
  };
  std::vector<Run> runs;
  for (std::size_t i = 0; i < places.size(); ++i) {
    runs.push_back({places[i] - pitch * static_cast<double>(i), 1});
    while (runs.size() > 1 && runs[runs.size() - 2].mean() > runs.back().mean()) {
      const Run last = runs.back();
      runs.pop_back();
      runs.back().sum += last.sum;
      runs.back().count += last.count;
    }
  }
  std::vector<double> out;
  for (const Run& run : runs) {
    for (double k = 0; k < run.count; ++k)
      out.push_back(run.mean() + pitch * static_cast<double>(out.size()));
  }
  return out;
}

}  // namespace

void lay_out(const Dimension& dimension, Drawing& out) {
  const Point d = unit(dimension.to - dimension.from);
  const Point n = left_of(d);
  const Point outward = dimension.offset < 0 ? n * -1 : n;
  const Point a = dimension.from + n * dimension.offset;
  const Point b = dimension.to + n * dimension.offset;
  const double length = dot(b - a, d);
  const Reading reading = readable(atan2_deg(d.y, d.x));
  const Point up = left_of(direction(reading.rotation));
  const double width = text_width(dimension.text, dimension.size, dimension.weight);
  const bool inside = width + 2 * kTick + 0.6 <= length;

  add_extension(out, dimension.from, a, outward, LineKind::dimension, dimension.tag);
  add_extension(out, dimension.to, b, outward, LineKind::dimension, dimension.tag);
  const double lead = 2 * kTick;
  add_line(out, a, inside || width <= 0 ? b : b + d * (lead + width), dimension.line, 0, dimension.tag);
  add_tick(out, a, d, dimension.tag);
  add_tick(out, b, d, dimension.tag);
  if (width <= 0) return;
  const Point at = inside ? middle_of(a, b) : b + d * (lead + width / 2);
  Text text = label(dimension.text, at + up * kAir, dimension.size, dimension.weight, dimension.tag);
  text.anchor = Anchor::middle;
  text.rotation = reading.rotation;
  out.add(std::move(text));
}

void lay_out(const Chain& chain, Drawing& out) {
  const Point d = unit(chain.towards - chain.zero);
  const Point n = left_of(d);
  const Point outward = chain.offset < 0 ? n * -1 : n;
  const Point origin = chain.zero + n * chain.offset;

  struct Mark {
    double along = 0;
    Point at;
    std::string text;
    std::size_t order = 0;  // as given; the zero comes first
  };
  std::vector<Mark> marks{{0, chain.zero, chain.zero_text, 0}};
  marks.reserve(chain.stops.size() + 1);
  for (const Chain::Stop& stop : chain.stops)
    marks.push_back({dot(stop.at - chain.zero, d), stop.at, stop.text, marks.size()});
  std::sort(marks.begin(), marks.end(), [](const Mark& l, const Mark& r) {
    return l.along != r.along ? l.along < r.along : l.order < r.order;
  });

  std::vector<double> places;
  places.reserve(marks.size());
  for (const Mark& mark : marks) places.push_back(mark.along);
  const std::vector<double> seats = spread(places, chain.size * 1.1);
  bool kinked = false;
  for (std::size_t i = 0; i < marks.size(); ++i) kinked = kinked || std::fabs(seats[i] - places[i]) > 1e-6;

  add_line(out, origin + d * places.front(), origin + d * places.back(), chain.line, 0, chain.tag);
  const Reading reading = readable(atan2_deg(outward.y, outward.x));
  for (std::size_t i = 0; i < marks.size(); ++i) {
    const Mark& mark = marks[i];
    const Point on_line = origin + d * mark.along;
    add_extension(out, mark.at, on_line, outward, LineKind::dimension, chain.tag);
    if (mark.order == 0) {
      Path ring = circle(on_line, 1, LineKind::dimension);
      ring.fill = Fill::white();
      ring.stroke->weight = kTickWeight;
      ring.tag = chain.tag;
      out.add(std::move(ring));
    } else {
      add_tick(out, on_line, d, chain.tag);
    }
    if (mark.text.empty()) continue;
    const Point seat = origin + d * seats[i];
    if (kinked) {
      add_line(out, on_line + outward * kBeyond, seat + outward * (kBeyond + 3), LineKind::dimension, 0,
               chain.tag);
    }
    Text text = label(mark.text, seat + outward * (kBeyond + kAir + (kinked ? 3 : 0)), chain.size,
                      Weight::regular, chain.tag);
    text.seat = Seat::middle;
    text.anchor = reading.reversed ? Anchor::end : Anchor::start;
    text.rotation = reading.rotation;
    out.add(std::move(text));
  }
}

}  // namespace lapwright::draw

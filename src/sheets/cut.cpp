#include "cut.h"

#include <lapwright/base/trig.h>

#include <algorithm>
#include <cmath>

namespace lapwright::sheets {

using draw::Point;
using geom::Vec3;

namespace {

double dot2(Point a, Point b) {
  return a.x * b.x + a.y * b.y;
}

bool same_place(Point a, Point b) {
  constexpr double kSame = 0.05;  // mm: nets are whole µm, folding adds far less
  return hypotenuse(a.x - b.x, a.y - b.y) < kSame;
}

std::vector<LeadLine::Part> cut_panel(const Sheet& sheet, const View& view) {
  const Point outward{dot(sheet.normal, view.right()), dot(sheet.normal, view.up)};
  const double square = hypotenuse(outward.x, outward.y);
  constexpr double kInThePlane = 0.05;
  if (square < kInThePlane) return {};
  const Point unit = outward * (1 / square);
  const Point along{-unit.y, unit.x};
  std::vector<Point> points;
  for (const std::vector<Vec3>& ring : sheet.rings) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Vec3 p = ring[i];
      const Vec3 q = ring[(i + 1) % ring.size()];
      const double dp = view.depth(p);
      const double dq = view.depth(q);
      if ((dp < 0) == (dq < 0)) continue;
      points.push_back(view.flat(p + (dp / (dp - dq)) * (q - p)));
    }
  }
  std::sort(points.begin(), points.end(), [&](Point a, Point b) { return dot2(a, along) < dot2(b, along); });
  std::vector<LeadLine::Part> out;
  for (std::size_t i = 0; i + 1 < points.size(); i += 2) {
    if (!same_place(points[i], points[i + 1])) out.push_back({points[i], points[i + 1], unit});
  }
  return out;
}

// Parts so that each begins where the one before it ends, as far as they hang together.
std::vector<LeadLine::Part> in_line(std::vector<LeadLine::Part> parts) {
  std::vector<LeadLine::Part> out;
  const auto joined = [&](Point p, std::size_t self) {
    for (std::size_t i = 0; i < parts.size(); ++i) {
      if (i != self && (same_place(parts[i].a, p) || same_place(parts[i].b, p))) return true;
    }
    return false;
  };
  while (!parts.empty()) {
    std::size_t first = 0;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      if (!joined(parts[i].a, i)) {
        first = i;
        break;
      }
      if (!joined(parts[i].b, i)) {
        std::swap(parts[i].a, parts[i].b);
        first = i;
        break;
      }
    }
    out.push_back(parts[first]);
    parts.erase(parts.begin() + static_cast<std::ptrdiff_t>(first));
    for (bool found = true; found;) {
      found = false;
      for (std::size_t i = 0; i < parts.size() && !found; ++i) {
        if (same_place(parts[i].b, out.back().b)) std::swap(parts[i].a, parts[i].b);
        if (!same_place(parts[i].a, out.back().b)) continue;
        out.push_back(parts[i]);
        parts.erase(parts.begin() + static_cast<std::ptrdiff_t>(i));
        found = true;
      }
    }
  }
  return out;
}

// True when part b lies against part a: near, along it, and not only at its end.
bool lies_on(const LeadLine::Part& b, const LeadLine::Part& a) {
  constexpr double kNear = 4;        // mm: nearer than this the two would be drawn as one
  constexpr double kParallel = 0.9;  // cosine between them
  constexpr double kShared = 8;      // mm
  if (std::abs(dot2(a.outward, b.outward)) < kParallel) return false;
  if (std::abs(dot2(b.a - a.a, a.outward)) > kNear && std::abs(dot2(b.b - a.a, a.outward)) > kNear)
    return false;
  const Point along{-a.outward.y, a.outward.x};
  const auto ends = [&](const LeadLine::Part& part) {
    const double one = dot2(part.a, along);
    const double other = dot2(part.b, along);
    return std::pair{std::min(one, other), std::max(one, other)};
  };
  const auto [a_low, a_high] = ends(a);
  const auto [b_low, b_high] = ends(b);
  return std::min(a_high, b_high) - std::max(a_low, b_low) > kShared;
}

}  // namespace

double LeadLine::Part::length() const {
  return hypotenuse(b.x - a.x, b.y - a.y);
}

std::vector<Sheet> sheets_of(const std::vector<PlacedPiece>& pieces) {
  std::vector<Sheet> out;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    for (std::size_t panel = 0; panel < pieces[i].panels.size(); ++panel) {
      Sheet sheet{pieces[i].piece, i, {corners(pieces[i], panel)}, pieces[i].frames[panel].normal()};
      for (const geom::Ring& hole : pieces[i].panels[panel].holes) {
        sheet.rings.push_back(in_space(pieces[i].frames[panel], hole));
      }
      out.push_back(std::move(sheet));
    }
  }
  return out;
}

std::vector<LeadLine> cut_lead(const std::vector<Sheet>& sheets, const View& view) {
  std::vector<LeadLine> out;
  for (std::size_t i = 0; i < sheets.size();) {
    LeadLine line{sheets[i].piece, {}, 0};
    std::size_t end = i;
    for (; end < sheets.size() && sheets[end].placement == sheets[i].placement &&
           sheets[end].piece == line.piece;
         ++end) {
      for (const LeadLine::Part& part : cut_panel(sheets[end], view)) line.parts.push_back(part);
    }
    i = end;
    if (line.parts.empty()) continue;
    line.parts = in_line(std::move(line.parts));
    for (const LeadLine& under : out) {
      const bool on = std::any_of(line.parts.begin(), line.parts.end(), [&](const LeadLine::Part& b) {
        return std::any_of(under.parts.begin(), under.parts.end(),
                           [&](const LeadLine::Part& a) { return lies_on(b, a); });
      });
      if (on) line.over = std::max(line.over, under.over + 1);
    }
    out.push_back(std::move(line));
  }
  return out;
}

std::vector<std::vector<Point>> drawn(const LeadLine& line, double out) {
  std::vector<std::vector<Point>> runs;
  for (std::size_t i = 0; i < line.parts.size(); ++i) {
    const LeadLine::Part& part = line.parts[i];
    const bool goes_on = i > 0 && same_place(line.parts[i - 1].b, part.a);
    if (!goes_on) {
      runs.push_back({part.a + part.outward * out});
    } else {
      const Point before = line.parts[i - 1].outward;
      const double turn = 1 + dot2(before, part.outward);
      constexpr double kSharp = 0.25;  // sharper corners are not mitred: their tip would run far out
      if (turn > kSharp) {
        runs.back().back() = part.a + (before + part.outward) * (out / turn);
      } else {
        runs.back().push_back(part.a + part.outward * out);
      }
    }
    runs.back().push_back(part.b + part.outward * out);
  }
  return runs;
}

}  // namespace lapwright::sheets

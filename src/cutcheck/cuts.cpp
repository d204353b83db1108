#include "cuts.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace lapwright::cutcheck {

namespace {

constexpr double kHair = 2;  // µm: nets lie on that grid

std::int64_t um(Length length) {
  return std::llround(length.in_mm() * 1000);
}

// y of the ring's edges at x, ascending; x is that of no corner.
std::vector<double> crossings(const geom::Ring& ring, double x) {
  std::vector<double> out;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const geom::GridPoint a = ring[i];
    const geom::GridPoint b = ring[(i + 1) % ring.size()];
    const auto ax = static_cast<double>(a.x);
    const auto bx = static_cast<double>(b.x);
    if ((ax < x) == (bx < x)) continue;
    out.push_back(static_cast<double>(a.y) + static_cast<double>(b.y - a.y) * (x - ax) / (bx - ax));
  }
  std::sort(out.begin(), out.end());
  return out;
}

void edge_meetings(const geom::Ring& a, const geom::Ring& b, std::vector<double>& xs) {
  for (std::size_t i = 0; i < a.size(); ++i) {
    for (std::size_t j = 0; j < b.size(); ++j) {
      const geom::GridPoint p = a[i];
      const geom::GridPoint q = a[(i + 1) % a.size()];
      const geom::GridPoint r = b[j];
      const geom::GridPoint s = b[(j + 1) % b.size()];
      const double cross = static_cast<double>(q.x - p.x) * static_cast<double>(s.y - r.y) -
                           static_cast<double>(q.y - p.y) * static_cast<double>(s.x - r.x);
      if (cross == 0) continue;
      const double t = (static_cast<double>(r.x - p.x) * static_cast<double>(s.y - r.y) -
                        static_cast<double>(r.y - p.y) * static_cast<double>(s.x - r.x)) /
                       cross;
      if (t >= 0 && t <= 1) xs.push_back(static_cast<double>(p.x) + t * static_cast<double>(q.x - p.x));
    }
  }
}

}  // namespace

std::vector<LastPart> cut_again(const job::CutRoll& roll, std::int64_t kerf, std::vector<Complaint>& out) {
  std::map<std::string, std::vector<Rect>> parts;
  parts["roll"] = {{0, 0, um(roll.length), um(roll.width)}};
  std::vector<LastPart> last;
  const auto complain = [&](const std::string& part) { out.push_back({"cut", roll.name + " / " + part}); };
  for (const job::CutStep& step : roll.cuts) {
    const auto found = parts.find(step.part);
    if (found == parts.end()) {
      complain(step.part);
      continue;
    }
    const std::vector<Rect> cut = found->second;
    parts.erase(found);
    for (const Rect& rect : cut) {
      if (step.way == job::CutWay::teeth) {
        last.push_back({rect, step.gives});
        continue;
      }
      const bool across = step.way == job::CutWay::across;
      const std::int64_t end = across ? rect.length : rect.width;
      std::int64_t from = 0;
      bool sound = step.gives.size() == step.at.size() || step.gives.size() == step.at.size() + 1;
      for (std::size_t i = 0; sound && i < step.gives.size(); ++i) {
        const std::int64_t to = i < step.at.size() ? um(step.at[i]) : end;
        sound = to >= from && to <= end;
        const Rect part = across ? Rect{rect.x + from, rect.y, to - from, rect.width}
                                 : Rect{rect.x, rect.y + from, rect.length, to - from};
        if (step.gives[i].empty()) {
          last.push_back({part, {}});
        } else if (sound) {
          parts[step.gives[i]].push_back(part);
        }
        from = std::min(to + kerf, end);
      }
      if (!sound) complain(step.part);
    }
  }
  for (const auto& [name, rects] : parts) {
    for (const Rect& rect : rects) last.push_back({rect, {name}});
  }
  return last;
}

bool share_area(const geom::Ring& a, const geom::Ring& b) {
  std::vector<double> xs;
  for (const geom::Ring* ring : {&a, &b}) {
    for (const geom::GridPoint& p : *ring) xs.push_back(static_cast<double>(p.x));
  }
  edge_meetings(a, b, xs);
  std::sort(xs.begin(), xs.end());
  for (std::size_t i = 0; i + 1 < xs.size(); ++i) {
    if (xs[i + 1] - xs[i] < kHair) continue;
    const double x = (xs[i] + xs[i + 1]) / 2;
    const std::vector<double> p = crossings(a, x);
    const std::vector<double> q = crossings(b, x);
    for (std::size_t k = 0; k + 1 < p.size(); k += 2) {
      for (std::size_t l = 0; l + 1 < q.size(); l += 2) {
        if (std::min(p[k + 1], q[l + 1]) - std::max(p[k], q[l]) > kHair) return true;
      }
    }
  }
  return false;
}

}  // namespace lapwright::cutcheck

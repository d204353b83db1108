#include "drawing.h"

#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

namespace lapwright::check {

namespace {

double at(double u, double u0, double u1, double y0, double y1) {
  return u1 > u0 ? y0 + (y1 - y0) * (u - u0) / (u1 - u0) : y0;
}

job::Trace::Ring ring_of(const std::vector<Strip>& strips) {
  job::Trace::Ring out;
  job::Trace::Ring high;
  for (const Strip& s : strips) {
    out.push_back({s.u0, s.lo0});
    out.push_back({s.u1, s.lo1});
    high.push_back({s.u0, s.hi0});
    high.push_back({s.u1, s.hi1});
  }
  out.insert(out.end(), high.rbegin(), high.rend());
  return out;
}

// The window, and the sheets that are seen in it.
class Window {
 public:
  Window(const Site& site, job::Trace& out) : site_(site), out_(out) {
    for (std::size_t i = 0; i < site.traced.sheets.size(); ++i) {
      if (site.traced.sheets[i].owner != kNobody && seen(site.traced.sheets[i].strips))
        from_low_.push_back(i);
    }
    std::stable_sort(from_low_.begin(), from_low_.end(), [&](std::size_t a, std::size_t b) {
      return site.traced.sheets[a].order < site.traced.sheets[b].order;
    });
  }

  const std::vector<std::size_t>& from_low() const { return from_low_; }
  bool seen(const std::vector<Strip>& strips) const {
    return std::any_of(strips.begin(), strips.end(), [&](const Strip& p) {
      return p.u0 < out_.high.u && p.u1 > out_.low.u && std::min(p.lo0, p.lo1) < out_.high.s &&
             std::max(p.hi0, p.hi1) > out_.low.s;
    });
  }

  // What of a wet strip lies under other sheets: rain is seen on the rest anyhow.
  void add_hidden(const Strip& wet, std::int64_t order) {
    std::vector<double> breaks{wet.u0, wet.u1};
    std::vector<const Strip*> over;
    for (const std::size_t i : from_low_) {
      const Sheet& sheet = site_.traced.sheets[i];
      if (sheet.order <= order) continue;
      for (const Strip& s : sheet.strips) {
        if (s.u1 <= wet.u0 || s.u0 >= wet.u1) continue;
        over.push_back(&s);
        for (const double u : {s.u0, s.u1}) {
          if (u > wet.u0 && u < wet.u1) breaks.push_back(u);
        }
      }
    }
    std::sort(breaks.begin(), breaks.end());
    constexpr double kSeen = 0.5;  // mm
    for (std::size_t k = 0; k + 1 < breaks.size(); ++k) {
      const double a = breaks[k];
      const double b = breaks[k + 1];
      if (b - a < kSeen) continue;
      const double mid = (a + b) / 2;
      const double high = at(mid, wet.u0, wet.u1, wet.hi0, wet.hi1);
      std::vector<std::pair<double, double>> covered;
      for (const Strip* s : over) {
        if (mid <= s->u0 || mid >= s->u1) continue;
        covered.emplace_back(
            std::max(at(mid, s->u0, s->u1, s->lo0, s->lo1), at(mid, wet.u0, wet.u1, wet.lo0, wet.lo1)),
            std::min(at(mid, s->u0, s->u1, s->hi0, s->hi1), high));
      }
      std::sort(covered.begin(), covered.end());
      for (std::size_t i = 0; i < covered.size();) {
        auto [from, to] = covered[i++];
        while (i < covered.size() && covered[i].first <= to) to = std::max(to, covered[i++].second);
        if (to - from < kSeen) continue;
        // The upper bound leans as the water does, where it is the water that ends it.
        const bool by_water = to > high - kSeen;
        const double to_a = by_water ? std::max(from, at(a, wet.u0, wet.u1, wet.hi0, wet.hi1)) : to;
        const double to_b = by_water ? std::max(from, at(b, wet.u0, wet.u1, wet.hi0, wet.hi1)) : to;
        const std::vector<Strip> part{{a, b, from, from, to_a, to_b}};
        if (seen(part)) out_.wet_below.push_back(ring_of(part));
      }
    }
  }

 private:
  const Site& site_;
  job::Trace& out_;
  std::vector<std::size_t> from_low_;
};

// No wider than what is drawn, and a little.
void trim(job::Trace& out) {
  constexpr double kAround = 25;  // mm
  double left = 1e300;
  double right = -1e300;
  double low = 1e300;
  double high = -1e300;
  for (const auto* rings : {&out.units, &out.lead}) {
    for (const job::Trace::Ring& ring : *rings) {
      for (const job::Trace::Corner& c : ring) {
        left = std::min(left, c.u);
        right = std::max(right, c.u);
        low = std::min(low, c.s);
        high = std::max(high, c.s);
      }
    }
  }
  if (right < left) return;
  out.low = {std::max(out.low.u, left - kAround), std::max(out.low.s, low - kAround)};
  out.high = {std::min(out.high.u, right + kAround), std::min(out.high.s, high + kAround)};
}

}  // namespace

job::Trace drawing_of(const PlacedSlope& slope, const Site& site, const Tracer& tracer, Weather weather,
                      const Leak* leak) {
  job::Trace out;
  out.slope = slope.slope->name;
  out.junction = site.junction;
  out.drift = weather.drift;
  out.climb = weather.climb;
  double u = 0;
  double s = 0;
  if (leak != nullptr) {
    u = leak->u;
    s = leak->s;
    for (const Spot& spot : leak->path) out.path.push_back({spot.u, spot.s});
  } else if (!site.traced.ours.empty()) {
    const Strip& first = site.traced.ours.front();
    u = (first.u0 + first.u1) / 2;
    s = (first.lo0 + first.hi0) / 2;
  }
  const double unit = slope.slope->covering.width.value.in_mm();
  const double length = slope.slope->covering.length.value.in_mm();
  const double wide = 2.5 * unit;
  const double tall = std::max(3 * slope.gauge + length, 1.5 * wide) / 1.5;
  out.low = {u - wide, s - tall};
  out.high = {u + wide, s + tall};
  Window window(site, out);
  for (const std::size_t i : window.from_low()) {
    const Sheet& sheet = site.traced.sheets[i];
    (sheet.owner < site.units.size() ? out.units : out.lead).push_back(ring_of(sheet.strips));
  }
  for (const Wet& wet : tracer.wet(weather)) {
    const Sheet& sheet = site.traced.sheets[wet.sheet];
    if (sheet.owner == kNobody || !window.seen(sheet.strips)) continue;
    for (const Strip& p : sheet.strips) {
      const double u0 = std::max(p.u0, wet.u0);
      const double u1 = std::min(p.u1, wet.u1);
      if (u1 - u0 < 0.5) continue;
      window.add_hidden({u0, u1, at(u0, p.u0, p.u1, p.lo0, p.lo1), at(u1, p.u0, p.u1, p.lo0, p.lo1),
                         at(u0, wet.u0, wet.u1, wet.s0, wet.s1), at(u1, wet.u0, wet.u1, wet.s0, wet.s1)},
                        sheet.order);
    }
  }
  trim(out);
  return out;
}

}  // namespace lapwright::check

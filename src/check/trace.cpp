#include <lapwright/check/trace.h>

#include <lapwright/base/trig.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace lapwright::check {

namespace {

constexpr double kBeside = 1e-4;  // mm: how far past an edge it is asked what lies there
constexpr double kTouch = 1e-6;   // mm: less than this apart is touching
constexpr std::int64_t kThrough = -1;
constexpr std::int64_t kAway = -2;  // past the fascia or an edge that is not ours
constexpr double kNone = -std::numeric_limits<double>::infinity();

double at(double x, double x0, double x1, double y0, double y1) {
  if (x1 - x0 <= 0 || y0 == y1) return y0;
  return y0 + (y1 - y0) * (x - x0) / (x1 - x0);
}
double low_at(const Strip& s, double u) {
  return at(u, s.u0, s.u1, s.lo0, s.lo1);
}
double high_at(const Strip& s, double u) {
  return at(u, s.u0, s.u1, s.hi0, s.hi1);
}
const Strip* strip_at(std::span<const Strip> strips, double u) {
  for (const Strip& s : strips) {
    if (u >= s.u0 && u <= s.u1) return &s;
  }
  return nullptr;
}
bool covers(std::span<const Strip> strips, double u, double s) {
  for (const Strip& strip : strips) {
    if (u >= strip.u0 && u <= strip.u1 && s >= low_at(strip, u) && s <= high_at(strip, u)) return true;
  }
  return false;
}

// Where the straight lines (x0, a0)-(x1, a1) and (x0, b0)-(x1, b1) cross, when within.
std::optional<double> crossing(double x0, double x1, double a0, double a1, double b0, double b1) {
  const double d0 = a0 - b0;
  const double d1 = a1 - b1;
  if ((d0 > 0) == (d1 > 0) || d0 == d1) return std::nullopt;
  const double x = x0 + (x1 - x0) * d0 / (d0 - d1);
  if (x <= x0 + kTouch || x >= x1 - kTouch) return std::nullopt;
  return x;
}

void sort_and_thin(std::vector<double>& xs) {
  std::sort(xs.begin(), xs.end());
  std::size_t kept = 0;
  for (const double x : xs) {
    if (kept == 0 || x - xs[kept - 1] > kTouch) xs[kept++] = x;
  }
  xs.resize(kept);
}

}  // namespace

Strip box(double u0, double u1, double s0, double s1) {
  return {u0, u1, s0, s0, s1, s1};
}

Tracer::Extent Tracer::extent_of(const Sheet& sheet) {
  Extent e;
  for (const Strip& s : sheet.strips) {
    e.u0 = std::min(e.u0, s.u0);
    e.u1 = std::max(e.u1, s.u1);
    e.s0 = std::min({e.s0, s.lo0, s.lo1});
    e.s1 = std::max({e.s1, s.hi0, s.hi1});
  }
  return e;
}

Tracer::Tracer(Traced traced) : traced_(std::move(traced)) {
  find_nodes();
  for (std::size_t i = 0; i < traced_.sheets.size(); ++i) {
    nodes_[i].line_from = exposed_.size();
    expose(i);
    nodes_[i].line_to = exposed_.size();
    nodes_[i].link_from = links_.size();
    link_sides(i);
    link_ends(i);
    link_holes(i);
    nodes_[i].link_to = links_.size();
  }
  find_bare();
}

void Tracer::find_nodes() {
  const auto& sheets = traced_.sheets;
  nodes_.resize(sheets.size());
  double high = -1e300;
  low_ = 1e300;
  double tallest = 0;
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    nodes_[i].extent = extent_of(sheets[i]);
    low_ = std::min(low_, nodes_[i].extent.s0);
    high = std::max(high, nodes_[i].extent.s1);
    tallest += nodes_[i].extent.s1 - nodes_[i].extent.s0;
    from_top_.push_back(i);
  }
  std::stable_sort(from_top_.begin(), from_top_.end(),
                   [&](std::size_t a, std::size_t b) { return sheets[a].order > sheets[b].order; });
  if (sheets.empty()) return;
  band_ = std::max(50.0, tallest / static_cast<double>(sheets.size()) / 2);
  bands_.resize(static_cast<std::size_t>((high - low_) / band_) + 1);
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    const auto from = static_cast<std::size_t>(std::max(0.0, (nodes_[i].extent.s0 - low_ - 1) / band_));
    const auto to = static_cast<std::size_t>((nodes_[i].extent.s1 - low_) / band_);
    for (std::size_t b = from; b <= to && b < bands_.size(); ++b) bands_[b].push_back(i);
  }
}

std::span<const std::size_t> Tracer::near(double s) const {
  if (bands_.empty() || s < low_ - 1) return {};
  const auto band = static_cast<std::size_t>(std::max(0.0, (s - low_) / band_));
  if (band >= bands_.size()) return {};
  return bands_[band];
}

// The highest sheet under this one at a spot.
std::int64_t Tracer::below(std::size_t sheet, double u, double s, double in_u, double in_s) const {
  const std::int64_t found = highest_under(sheet, u, s);
  if (found >= 0) return found;
  if (s < traced_.eaves || covers(traced_.closed, u, s)) return kAway;
  if (traced_.sheets[sheet].turned_up && covers(traced_.dressed, u, s)) return kAway;
  if (covers(traced_.masonry, u, s)) {
    // A sheet that lies in masonry, or behind a wall, is not ours.
    if (traced_.sheets[sheet].turned_up || covers(traced_.masonry, u + in_u, s + in_s)) return kAway;
    // Close against masonry it drops onto what stands up there.
    return highest_under(sheet, u + in_u, s + in_s, true);
  }
  if (covers(traced_.masonry, u + in_u, s + in_s)) return kAway;
  return covers(traced_.ours, u, s) ? kThrough : kAway;
}

std::int64_t Tracer::highest_under(std::size_t sheet, double u, double s, bool turned_up) const {
  std::int64_t best = kThrough;
  for (const std::size_t i : near(s)) {
    const Sheet& other = traced_.sheets[i];
    if (other.order >= traced_.sheets[sheet].order || (turned_up && !other.turned_up)) continue;
    const Extent& e = nodes_[i].extent;
    if (u < e.u0 || u > e.u1 || s < e.s0 || s > e.s1) continue;
    if (best >= 0 && traced_.sheets[static_cast<std::size_t>(best)].order >= other.order) continue;
    if (covers(other.strips, u, s)) best = static_cast<std::int64_t>(i);
  }
  return best;
}

// Of every upright line the highest point at which the sheet is seen from above.
void Tracer::expose(std::size_t sheet) {
  const Sheet& mine = traced_.sheets[sheet];
  std::vector<std::size_t> over;
  const Extent& e = nodes_[sheet].extent;
  const auto first = static_cast<std::size_t>(std::max(0.0, (e.s0 - low_ - 1) / band_));
  const auto last = static_cast<std::size_t>((e.s1 - low_) / band_);
  for (std::size_t b = first; b <= last && b < bands_.size(); ++b) {
    for (const std::size_t i : bands_[b]) {
      const Extent& o = nodes_[i].extent;
      if (traced_.sheets[i].order <= mine.order) continue;
      if (o.u1 <= e.u0 || o.u0 >= e.u1 || o.s1 <= e.s0 || o.s0 >= e.s1) continue;
      over.push_back(i);
    }
  }
  std::sort(over.begin(), over.end());
  over.erase(std::unique(over.begin(), over.end()), over.end());
  std::vector<double> breaks;
  std::vector<const Strip*> there;
  for (const Strip& strip : mine.strips) {
    if (strip.u1 - strip.u0 <= kTouch) continue;
    breaks.assign({strip.u0, strip.u1});
    there.clear();
    for (const std::size_t i : over) {
      for (const Strip& o : traced_.sheets[i].strips) {
        if (o.u1 <= strip.u0 || o.u0 >= strip.u1) continue;
        there.push_back(&o);
        for (const double x : {o.u0, o.u1}) {
          if (x > strip.u0 && x < strip.u1) breaks.push_back(x);
        }
      }
    }
    // Slanted lines may cross between those.
    const auto add_crossings = [&](const Strip& a, const Strip& b) {
      const double x0 = std::max({a.u0, b.u0, strip.u0});
      const double x1 = std::min({a.u1, b.u1, strip.u1});
      if (x1 - x0 <= kTouch) return;
      for (const auto a_of : {low_at, high_at}) {
        for (const auto b_of : {low_at, high_at}) {
          if (const auto x = crossing(x0, x1, a_of(a, x0), a_of(a, x1), b_of(b, x0), b_of(b, x1)))
            breaks.push_back(*x);
        }
      }
    };
    const auto slants = [](const Strip& s) { return s.lo0 != s.lo1 || s.hi0 != s.hi1; };
    for (std::size_t i = 0; i < there.size(); ++i) {
      if (slants(*there[i]) || slants(strip)) add_crossings(strip, *there[i]);
      for (std::size_t k = i + 1; k < there.size(); ++k) {
        if (slants(*there[i]) || slants(*there[k])) add_crossings(*there[i], *there[k]);
      }
    }
    sort_and_thin(breaks);
    for (std::size_t i = 0; i + 1 < breaks.size(); ++i) {
      const double x0 = breaks[i];
      const double x1 = breaks[i + 1];
      const double mid = (x0 + x1) / 2;
      double top = high_at(strip, mid);
      double v0 = high_at(strip, x0);
      double v1 = high_at(strip, x1);
      bool again = true;
      while (again) {
        again = false;
        for (const Strip* o : there) {
          if (o->u0 > mid || o->u1 < mid) continue;
          if (low_at(*o, mid) < top - kTouch && high_at(*o, mid) > top - kTouch) {
            top = low_at(*o, mid);
            v0 = low_at(*o, x0);
            v1 = low_at(*o, x1);
            again = true;
          }
        }
      }
      if (top <= low_at(strip, mid) + kTouch) continue;
      const bool goes_on = exposed_.size() > nodes_[sheet].line_from && exposed_.back().u1 == x0 &&
                           exposed_.back().v1 == v0 && exposed_.back().v0 == v1 && v0 == v1;
      if (goes_on) {
        exposed_.back().u1 = x1;
      } else {
        exposed_.push_back({x0, x1, v0, v1});
      }
    }
  }
}

void Tracer::link_sides(std::size_t sheet) {
  const Sheet& mine = traced_.sheets[sheet];
  const auto link = [&](double u, double beside, double s0, double s1) {
    if (s1 - s0 <= kTouch) return;
    std::vector<double> breaks{s0, s1, traced_.eaves};
    const Extent& e = nodes_[sheet].extent;
    const auto first = static_cast<std::size_t>(std::max(0.0, (e.s0 - low_ - 1) / band_));
    const auto last = static_cast<std::size_t>((e.s1 - low_) / band_);
    for (std::size_t b = first; b <= last && b < bands_.size(); ++b) {
      for (const std::size_t i : bands_[b]) {
        if (traced_.sheets[i].order >= mine.order) continue;
        // Close against masonry it is what lies just within that matters.
        for (const double x : {beside, 2 * u - beside}) {
          if (const Strip* strip = strip_at(traced_.sheets[i].strips, x)) {
            breaks.push_back(low_at(*strip, x));
            breaks.push_back(high_at(*strip, x));
          }
        }
      }
    }
    for (const auto* strips : {&traced_.ours, &traced_.masonry, &traced_.dressed, &traced_.closed}) {
      for (const Strip& strip : *strips) {
        if (beside < strip.u0 || beside > strip.u1) continue;
        breaks.push_back(low_at(strip, beside));
        breaks.push_back(high_at(strip, beside));
      }
    }
    sort_and_thin(breaks);
    for (std::size_t i = 0; i + 1 < breaks.size(); ++i) {
      if (breaks[i] < s0 - kTouch || breaks[i + 1] > s1 + kTouch) continue;
      const std::int64_t target = below(sheet, beside, (breaks[i] + breaks[i + 1]) / 2, 2 * (u - beside), 0);
      if (target == kAway) continue;
      Link* before = links_.size() > nodes_[sheet].link_from ? &links_.back() : nullptr;
      if (before != nullptr && before->u0 == u && before->target == target && before->s1 == breaks[i]) {
        before->s1 = breaks[i + 1];
        continue;
      }
      links_.push_back({Through::side, u, u, breaks[i], breaks[i + 1], target});
    }
  };
  const Strip& first = mine.strips.front();
  const Strip& last = mine.strips.back();
  if (mine.left == SheetEdge::open) link(first.u0, first.u0 - kBeside, first.lo0, first.hi0);
  if (mine.right == SheetEdge::open) link(last.u1, last.u1 + kBeside, last.lo1, last.hi1);
  // Where the outline steps between two strips, what sticks out has a side there.
  for (std::size_t i = 0; i + 1 < mine.strips.size(); ++i) {
    const Strip& a = mine.strips[i];
    const Strip& b = mine.strips[i + 1];
    if (a.lo1 < b.lo0) link(a.u1, a.u1 + kBeside, a.lo1, std::min(b.lo0, a.hi1));
    if (a.hi1 > b.hi0) link(a.u1, a.u1 + kBeside, std::max(b.hi0, a.lo1), a.hi1);
    if (b.lo0 < a.lo1) link(b.u0, b.u0 - kBeside, b.lo0, std::min(a.lo1, b.hi0));
    if (b.hi0 > a.hi1) link(b.u0, b.u0 - kBeside, std::max(a.hi1, b.lo0), b.hi0);
  }
}

void Tracer::link_bound(std::size_t sheet, const Strip& strip, bool head) {
  if (strip.u1 - strip.u0 <= kTouch) return;
  const double b0 = head ? strip.hi0 : strip.lo0;
  const double b1 = head ? strip.hi1 : strip.lo1;
  const double off = head ? kBeside : -kBeside;
  const Sheet& mine = traced_.sheets[sheet];
  std::vector<double> breaks{strip.u0, strip.u1};
  const auto add = [&](const Strip& o) {
    if (o.u1 <= strip.u0 || o.u0 >= strip.u1) return;
    for (const double x : {o.u0, o.u1}) {
      if (x > strip.u0 && x < strip.u1) breaks.push_back(x);
    }
    const double x0 = std::max(o.u0, strip.u0);
    const double x1 = std::min(o.u1, strip.u1);
    if (b0 == b1 && o.lo0 == o.lo1 && o.hi0 == o.hi1) return;
    const double y0 = at(x0, strip.u0, strip.u1, b0, b1) + off;
    const double y1 = at(x1, strip.u0, strip.u1, b0, b1) + off;
    if (const auto x = crossing(x0, x1, y0, y1, low_at(o, x0), low_at(o, x1))) breaks.push_back(*x);
    if (const auto x = crossing(x0, x1, y0, y1, high_at(o, x0), high_at(o, x1))) breaks.push_back(*x);
  };
  const auto first = static_cast<std::size_t>(std::max(0.0, (std::min(b0, b1) - 1 - low_) / band_));
  const auto last = static_cast<std::size_t>(std::max(0.0, (std::max(b0, b1) + 1 - low_) / band_));
  for (std::size_t b = first; b <= last && b < bands_.size(); ++b) {
    for (const std::size_t i : bands_[b]) {
      if (traced_.sheets[i].order >= mine.order) continue;
      for (const Strip& o : traced_.sheets[i].strips) add(o);
    }
  }
  for (const Strip& o : traced_.ours) add(o);
  for (const Strip& o : traced_.masonry) add(o);
  for (const Strip& o : traced_.dressed) add(o);
  for (const Strip& o : traced_.closed) add(o);
  if (const auto x = crossing(strip.u0, strip.u1, b0 + off, b1 + off, traced_.eaves, traced_.eaves)) {
    breaks.push_back(*x);
  }
  sort_and_thin(breaks);
  for (std::size_t i = 0; i + 1 < breaks.size(); ++i) {
    const double mid = (breaks[i] + breaks[i + 1]) / 2;
    const std::int64_t target = below(sheet, mid, at(mid, strip.u0, strip.u1, b0, b1) + off, 0, -2 * off);
    if (target == kAway) continue;
    const double s0 = at(breaks[i], strip.u0, strip.u1, b0, b1);
    const double s1 = at(breaks[i + 1], strip.u0, strip.u1, b0, b1);
    Link* before = links_.size() > nodes_[sheet].link_from ? &links_.back() : nullptr;
    const Through kind = head ? Through::head : Through::tail;
    if (before != nullptr && before->kind == kind && before->target == target && before->u1 == breaks[i] &&
        before->s1 == s0 && b0 == b1) {
      before->u1 = breaks[i + 1];
      continue;
    }
    links_.push_back({kind, breaks[i], breaks[i + 1], s0, s1, target});
  }
}

void Tracer::link_ends(std::size_t sheet) {
  for (const Strip& strip : traced_.sheets[sheet].strips) {
    link_bound(sheet, strip, false);
    link_bound(sheet, strip, true);
  }
}

void Tracer::link_holes(std::size_t sheet) {
  for (const Hole& hole : traced_.sheets[sheet].holes) {
    if (!covers(traced_.sheets[sheet].strips, hole.u, hole.s)) continue;
    const std::int64_t target = below(sheet, hole.u, hole.s, 0, 0);
    if (target != kAway) links_.push_back({Through::hole, hole.u, hole.u, hole.s, hole.s, target});
  }
}

// Places that nothing covers at all: rain falls straight through.
void Tracer::find_bare() {
  constexpr double kSliver = 0.01;  // mm
  std::vector<double> breaks;
  const auto add = [&](std::span<const Strip> strips) {
    for (const Strip& s : strips) {
      breaks.push_back(s.u0);
      breaks.push_back(s.u1);
    }
  };
  for (const Sheet& sheet : traced_.sheets) add(sheet.strips);
  add(traced_.masonry);
  add(traced_.closed);
  add(traced_.ours);
  sort_and_thin(breaks);
  using Spans = std::vector<std::pair<double, double>>;
  std::vector<Spans> covered(breaks.size());
  std::vector<Spans> wanted(breaks.size());
  const auto put = [&](const Strip& s, std::vector<Spans>& into) {
    const auto from = std::lower_bound(breaks.begin(), breaks.end(), s.u0 - kTouch);
    for (auto i = static_cast<std::size_t>(from - breaks.begin()); i + 1 < breaks.size(); ++i) {
      if (breaks[i + 1] > s.u1 + kTouch) break;
      const double mid = (breaks[i] + breaks[i + 1]) / 2;
      into[i].emplace_back(low_at(s, mid), high_at(s, mid));
    }
  };
  for (const Sheet& sheet : traced_.sheets) {
    for (const Strip& s : sheet.strips) put(s, covered);
  }
  for (const Strip& s : traced_.masonry) put(s, covered);
  for (const Strip& s : traced_.closed) put(s, covered);
  for (const Strip& s : traced_.ours) put(s, wanted);
  // Neighbouring places that are bare at the same height are one.
  Spans seen;
  for (std::size_t i = 0; i + 1 < breaks.size(); ++i) {
    std::sort(covered[i].begin(), covered[i].end());
    Spans here;
    const auto gap = [&](double from, double to) {
      if (to - from <= kSliver) return;
      here.emplace_back(from, to);
      const bool again = std::any_of(seen.begin(), seen.end(),
                                     [&](const auto& s) { return s.first < to && from < s.second; });
      if (again) return;
      Leak leak;
      leak.u = (breaks[i] + breaks[i + 1]) / 2;
      leak.s = (from + to) / 2;
      leak.through = Through::bare;
      leak.path.push_back({leak.u, leak.s, traced_.sheets.size()});
      bare_.push_back(std::move(leak));
    };
    if (breaks[i + 1] - breaks[i] <= kSliver) continue;  // a sliver says nothing about its neighbours
    for (const auto& [low, high] : wanted[i]) {
      double up_to = std::max(low, traced_.eaves);
      for (const auto& [from, to] : covered[i]) {
        if (from > up_to) gap(up_to, std::min(from, high));
        up_to = std::max(up_to, to);
        if (up_to >= high) break;
      }
      if (up_to < high) gap(up_to, high);
    }
    seen = std::move(here);
  }
}

// One weather: what every sheet carries, from the top of the stack down.
class Tracer::Run {
 public:
  Run(const Tracer& tracer, Weather weather)
      : t_(tracer),
        climb_(weather.climb),
        sideways_(weather.drift > 0),
        slope_(sideways_ ? 1.0 / tan_deg(weather.drift) : 0),
        past_eaves_(tracer.traced_.eaves + std::min(weather.climb, tracer.traced_.driven)),
        on_(tracer.traced_.sheets.size()) {}

  // Returns whether to go on; `all`: past the first leak.
  bool go(bool all) {
    for (const std::size_t sheet : t_.from_top_) {
      const Node& node = t_.nodes_[sheet];
      if (t_.traced_.sheets[sheet].drains) continue;
      for (std::size_t i = node.line_from; i < node.line_to; ++i) {
        const Line& l = t_.exposed_[i];
        add(sheet, {l.u0, l.u1, l.v0 + climb_, l.v1 + climb_}, kRain, (l.u0 + l.u1) / 2, (l.v0 + l.v1) / 2);
      }
      for (std::size_t i = node.link_from; i < node.link_to; ++i) {
        if (!follow(sheet, t_.links_[i]) && !all) return false;
      }
    }
    return true;
  }

  std::vector<Leak> leaks;

  std::vector<Wet> wet() const {
    std::vector<Wet> out;
    for (std::size_t i = 0; i < on_.size(); ++i) {
      for (const Strip& strip : t_.traced_.sheets[i].strips) {
        std::vector<double> breaks{strip.u0, strip.u1};
        for (const std::size_t r : on_[i]) {
          const Line& l = records_[r].line;
          for (const double x : {l.u0, l.u1}) {
            if (x > strip.u0 && x < strip.u1) breaks.push_back(x);
          }
          if (!sideways_) continue;
          // Where the cone meets the sheet's lower edge, taken level.
          for (const double x : {l.u0 - (l.v0 - strip.lo0) / slope_, l.u1 + (l.v1 - strip.lo1) / slope_}) {
            if (x > strip.u0 && x < strip.u1) breaks.push_back(x);
          }
        }
        sort_and_thin(breaks);
        for (std::size_t k = 0; k + 1 < breaks.size(); ++k) {
          const double x0 = breaks[k] + kTouch / 4;
          const double x1 = breaks[k + 1] - kTouch / 4;
          const double s0 = std::min(carried(i, x0), high_at(strip, x0));
          const double s1 = std::min(carried(i, x1), high_at(strip, x1));
          if (s0 < low_at(strip, x0) + kTouch && s1 < low_at(strip, x1) + kTouch) continue;
          out.push_back({i, breaks[k], breaks[k + 1], std::max(s0, low_at(strip, x0)),
                         std::max(s1, low_at(strip, x1))});
        }
      }
    }
    return out;
  }

 private:
  static constexpr std::size_t kRain = static_cast<std::size_t>(-1);

  // A line of what a sheet carries, and where the water came from.
  struct Record {
    std::size_t sheet = 0;
    Line line;
    std::size_t from = kRain;
    double u = 0;  // where it came onto this sheet
    double s = 0;
  };

  double reach(const Line& l, double u) const {
    if (u >= l.u0 && u <= l.u1) return at(u, l.u0, l.u1, l.v0, l.v1);
    if (!sideways_) return kNone;
    return u < l.u0 ? l.v0 - slope_ * (l.u0 - u) : l.v1 - slope_ * (u - l.u1);
  }
  double carried(std::size_t sheet, double u) const {
    double best = kNone;
    for (const std::size_t r : on_[sheet]) best = std::max(best, reach(records_[r].line, u));
    return best;
  }
  std::size_t best_at(std::size_t sheet, double u) const {
    std::size_t best = kRain;
    double most = kNone;
    for (const std::size_t r : on_[sheet]) {
      const double v = reach(records_[r].line, u);
      if (v > most) {
        most = v;
        best = r;
      }
    }
    return best;
  }

  void add(std::size_t sheet, const Line& line, std::size_t from, double u, double s) {
    if (t_.traced_.sheets[sheet].drains) return;
    constexpr double kSame = 1e-9;
    for (const std::size_t r : on_[sheet]) {
      const Line& l = records_[r].line;
      if (reach(l, line.u0) >= line.v0 - kSame && reach(l, line.u1) >= line.v1 - kSame) return;
    }
    std::erase_if(on_[sheet], [&](std::size_t r) {
      const Line& l = records_[r].line;
      return reach(line, l.u0) >= l.v0 - kSame && reach(line, l.u1) >= l.v1 - kSame;
    });
    on_[sheet].push_back(records_.size());
    records_.push_back({sheet, line, from, u, s});
  }

  void leak(std::size_t record, double u, double s, Through through) {
    Leak found;
    found.u = u;
    found.s = s;
    found.through = through;
    found.path.push_back({u, s, records_[record].sheet});
    for (std::size_t r = record; r != kRain; r = records_[r].from) {
      found.path.push_back({records_[r].u, records_[r].s, records_[r].sheet});
    }
    std::reverse(found.path.begin(), found.path.end());
    leaks.push_back(std::move(found));
  }

  // False: it leaked here.
  bool follow(std::size_t sheet, const Link& link) {
    switch (link.kind) {
      case Through::side:
        return sideways_ ? follow_side(sheet, link) : true;
      case Through::hole:
        return follow_hole(sheet, link);
      case Through::tail:
      case Through::head:
      case Through::bare:
        break;
    }
    return follow_end(sheet, link);
  }

  bool follow_side(std::size_t sheet, const Link& link) {
    const std::size_t best = best_at(sheet, link.u0);
    if (best == kRain) return true;
    const double v = reach(records_[best].line, link.u0);
    if (v <= link.s0 + kTouch) return true;
    const double s = std::min(v, link.s1);
    if (link.target == kThrough) {
      if (s <= past_eaves_) return true;
      leak(best, link.u0, s, Through::side);
      return false;
    }
    const double left = std::min(v, s + climb_);
    add(static_cast<std::size_t>(link.target), {link.u0, link.u0, left, left}, best, link.u0, s);
    return true;
  }

  bool follow_hole(std::size_t sheet, const Link& link) {
    const std::size_t best = best_at(sheet, link.u0);
    if (best == kRain) return true;
    const double v = reach(records_[best].line, link.u0);
    if (v <= link.s0 + kTouch) return true;
    if (link.target == kThrough) {
      if (link.s0 <= past_eaves_) return true;
      leak(best, link.u0, link.s0, Through::hole);
      return false;
    }
    const double left = std::min(v, link.s0 + climb_);
    add(static_cast<std::size_t>(link.target), {link.u0, link.u0, left, left}, best, link.u0, link.s0);
    return true;
  }

  // A tail or head: every line that gets there goes on, capped at what is left of the climb.
  bool follow_end(std::size_t sheet, const Link& link) {
    const auto bound = [&](double u) { return at(u, link.u0, link.u1, link.s0, link.s1); };
    const double above = link.kind == Through::head ? kTouch : 0;
    bool dry = true;
    const auto on = on_[sheet];  // adding to a sheet below leaves this one alone; a copy is safe
    for (const std::size_t r : on) {
      const Line line = records_[r].line;
      // Where this line, or its cone, stands highest over the boundary.
      double best_u = 0;
      double best_over = kNone;
      for (const double x :
           {std::clamp(line.u0, link.u0, link.u1), std::clamp(line.u1, link.u0, link.u1), link.u0, link.u1}) {
        const double over = reach(line, x) - bound(x);
        if (over > best_over) {
          best_over = over;
          best_u = x;
        }
      }
      if (best_over < above) continue;
      if (link.target == kThrough) {
        if (bound(best_u) <= past_eaves_) continue;
        // An end that the line only touches with its corner is no leak: its neighbour has the point as well.
        if (!sideways_ && std::min(line.u1, link.u1) - std::max(line.u0, link.u0) <= kTouch &&
            line.u1 - line.u0 > kTouch)
          continue;
        leak(r, best_u, bound(best_u), link.kind);
        dry = false;
        break;
      }
      const auto target = static_cast<std::size_t>(link.target);
      const double a = std::max(line.u0, link.u0);
      const double b = std::min(line.u1, link.u1);
      if (a <= b) pass(target, r, link, a, b, reach(line, a), reach(line, b));
      if (!sideways_) continue;
      // The cones to either side, as far as the boundary goes.
      cone(target, r, link, line.u1, line.v1, 1);
      cone(target, r, link, line.u0, line.v0, -1);
    }
    return dry;
  }

  // The straight piece from (a, va) to (b, vb), where it stands over the boundary, and no higher above that
  // than the climb allows.
  void pass(std::size_t target, std::size_t from, const Link& link, double a, double b, double va,
            double vb) {
    const auto bound = [&](double u) { return at(u, link.u0, link.u1, link.s0, link.s1); };
    double oa = va - bound(a);
    double ob = vb - bound(b);
    if (oa < 0 && ob < 0) return;
    if (oa < 0 || ob < 0) {
      const double x = a + (b - a) * oa / (oa - ob);
      if (oa < 0) {
        a = x;
        va = bound(x);
        oa = 0;
      } else {
        b = x;
        vb = bound(x);
        ob = 0;
      }
    }
    const auto put = [&](double x0, double x1, double v0, double v1) {
      const double mid = (x0 + x1) / 2;
      add(target, {x0, x1, v0, v1}, from, mid, bound(mid));
    };
    if (oa <= climb_ && ob <= climb_) return put(a, b, va, vb);
    if (oa >= climb_ && ob >= climb_) return put(a, b, bound(a) + climb_, bound(b) + climb_);
    const double x = a + (b - a) * (oa - climb_) / (oa - ob);
    if (oa > climb_) {
      put(a, x, bound(a) + climb_, bound(x) + climb_);
      put(x, b, bound(x) + climb_, vb);
    } else {
      put(a, x, va, bound(x) + climb_);
      put(x, b, bound(x) + climb_, bound(b) + climb_);
    }
  }

  void cone(std::size_t target, std::size_t from, const Link& link, double u, double v, double way) {
    const double begin = way > 0 ? std::max(u, link.u0) : std::min(u, link.u1);
    const double end = way > 0 ? link.u1 : link.u0;
    if ((end - begin) * way <= 0) return;
    const double v_begin = v - slope_ * (begin - u) * way;
    const double v_end = v - slope_ * (end - u) * way;
    const auto bound = [&](double x) { return at(x, link.u0, link.u1, link.s0, link.s1); };
    const double over = v_begin - bound(begin);
    // From its own end on, the cone grows again on the sheet below, unless it was capped.
    if (begin == u && over <= climb_) return;
    if (over < 0 && v_end - bound(end) < 0) return;
    if (way > 0) {
      pass(target, from, link, begin, end, v_begin, v_end);
    } else {
      pass(target, from, link, end, begin, v_end, v_begin);
    }
  }

  const Tracer& t_;
  double climb_;
  bool sideways_;
  double slope_;
  double past_eaves_;
  std::vector<std::vector<std::size_t>> on_;
  std::vector<Record> records_;
};

bool Tracer::stands(Weather weather) const {
  if (!bare_.empty()) return false;
  return Run(*this, weather).go(false);
}

std::vector<Leak> Tracer::leaks(Weather weather) const {
  Run run(*this, weather);
  run.go(true);
  std::vector<Leak> out = bare_;
  out.insert(out.end(), run.leaks.begin(), run.leaks.end());
  std::stable_sort(out.begin(), out.end(),
                   [](const Leak& a, const Leak& b) { return a.s < b.s || (a.s == b.s && a.u < b.u); });
  return out;
}

std::vector<Wet> Tracer::wet(Weather weather) const {
  Run run(*this, weather);
  run.go(true);
  return run.wet();
}

double Tracer::drift_stood(double most) const {
  if (!stands({0, 0})) return -1;
  if (stands({most, 0})) return most;
  double low = 0;
  double high = most;
  while (high - low > 0.02) {
    const double mid = (low + high) / 2;
    (stands({mid, 0}) ? low : high) = mid;
  }
  return low;
}

double Tracer::climb_stood(double drift, double most) const {
  if (!stands({drift, 0})) return -1;
  if (stands({drift, most})) return most;
  double low = 0;
  double high = most;
  while (high - low > 0.1) {
    const double mid = (low + high) / 2;
    (stands({drift, mid}) ? low : high) = mid;
  }
  return low;
}

}  // namespace lapwright::check

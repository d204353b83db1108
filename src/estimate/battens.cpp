#include "parts.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>
#include <lapwright/estimate/estimate.h>
#include <lapwright/job/facts.h>

#include <algorithm>
#include <functional>
#include <map>
#include <optional>
#include <utility>
#include <vector>

namespace lapwright::estimate {

namespace {

using practice::Why;

double number(std::int64_t n) {
  return static_cast<double>(n);
}

// The stretches that a course's battens cover, from left to right: a stack parts them.
std::vector<std::pair<Length, Length>> stretches(const job::Plan& plan, const std::string& slope,
                                                 std::int64_t course) {
  std::vector<std::pair<Length, Length>> out;
  for (const job::Row& row : plan.rows) {
    if (row.slope != slope || row.course != course) continue;
    Length end = row.from;
    std::int64_t n = 0;
    for (const job::UnitRun& run : row.widths) {
      end += run.width * static_cast<double>(run.count);
      n += run.count;
    }
    if (n == 0) continue;
    end += row.gap * number(n - 1);
    // Rows that lie behind or beside a stack begin where another ends: one batten carries both.
    if (!out.empty() && row.from <= out.back().second + row.gap + tolerance::kOnPlane) {
      out.back().second = max(out.back().second, end);
    } else {
      out.emplace_back(row.from, end);
    }
  }
  return out;
}

// How many lengths `sold` the pieces are cut from, longest first, each from the first that has room.
std::int64_t lengths_needed(std::vector<Length> pieces, Length sold) {
  std::stable_sort(pieces.begin(), pieces.end(), std::greater<>());
  std::vector<Length> used;
  for (const Length piece : pieces) {
    const auto room = std::find_if(used.begin(), used.end(),
                                   [&](Length taken) { return taken + piece <= sold + tolerance::kNoise; });
    if (room == used.end()) {
      used.push_back(piece);
    } else {
      *room += piece;
    }
  }
  return std::ssize(used);
}

struct Sold {
  Length length;
  Length rafter;      // from rafter to rafter: where joints may lie
  Length least;       // shortest piece laid
  std::size_t turns;  // battens of which one may have its joint on a rafter
};

struct Way {
  std::vector<std::int64_t> joints;  // rafters, counted from the left end
  std::vector<Length> pieces;
};

// The way of cutting a batten that has its first joint on this rafter and then goes on in pieces as long as
// can be, without a stub at the end. Empty when a stub cannot be helped.
std::optional<Way> way_from(Length run, std::int64_t first, const Sold& sold) {
  const std::int64_t longest = std::max<std::int64_t>(1, whole_down(sold.length / sold.rafter));
  const std::int64_t shortest = std::clamp<std::int64_t>(whole_up(sold.least / sold.rafter), 1, longest);
  Way way;
  std::int64_t at = first;
  while (true) {
    way.joints.push_back(at);
    const Length left = run - sold.rafter * number(at);
    if (left <= sold.length + tolerance::kNoise) break;
    std::int64_t next = longest;
    while (next > shortest && left - sold.rafter * number(next) < sold.least) --next;
    at += next;
  }
  if (run - sold.rafter * number(at) < sold.least - tolerance::kNoise) return std::nullopt;
  std::int64_t from = 0;
  for (const std::int64_t joint : way.joints) {
    way.pieces.push_back(sold.rafter * number(joint - from));
    from = joint;
  }
  way.pieces.push_back(run - sold.rafter * number(from));
  return way;
}

bool meet(const Way& a, const Way& b) {
  return std::any_of(a.joints.begin(), a.joints.end(), [&](std::int64_t joint) {
    return std::find(b.joints.begin(), b.joints.end(), joint) != b.joints.end();
  });
}

// Of the ways that share no joint, as many as there are turns, taken so that a dozen battens need the fewest
// lengths: a depth-first search over at most a dozen ways.
class BestWays {
 public:
  BestWays(std::vector<Way> ways, const Sold& sold) : ways_(std::move(ways)), sold_(sold) {}

  std::vector<std::vector<Length>> found() {
    try_from(0);
    std::vector<std::vector<Length>> out;
    for (const std::size_t i : best_) out.push_back(ways_[i].pieces);
    return out;
  }

 private:
  void try_from(std::size_t next) {
    if (!taken_.empty() && (taken_.size() == sold_.turns || next == ways_.size())) judge();
    if (taken_.size() == sold_.turns) return;
    for (std::size_t i = next; i < ways_.size(); ++i) {
      const bool clash =
          std::any_of(taken_.begin(), taken_.end(), [&](std::size_t t) { return meet(ways_[t], ways_[i]); });
      if (clash) continue;
      taken_.push_back(i);
      try_from(i + 1);
      taken_.pop_back();
    }
  }
  // More turns first, then fewer lengths.
  void judge() {
    constexpr std::size_t kDozen = 12;
    std::vector<Length> pieces;
    for (std::size_t i = 0; i < kDozen; ++i) {
      const std::vector<Length>& cut = ways_[taken_[i % taken_.size()]].pieces;
      pieces.insert(pieces.end(), cut.begin(), cut.end());
    }
    const std::int64_t lengths = lengths_needed(std::move(pieces), sold_.length);
    if (taken_.size() < best_.size() || (taken_.size() == best_.size() && lengths >= fewest_)) return;
    best_ = taken_;
    fewest_ = lengths;
  }

  std::vector<Way> ways_;
  Sold sold_;
  std::vector<std::size_t> taken_;
  std::vector<std::size_t> best_;
  std::int64_t fewest_ = 0;
};

// How battens as long as this are cut in turn; always one way.
std::vector<std::vector<Length>> ways_to_cut(Length run, const Sold& sold) {
  if (run <= sold.length + tolerance::kNoise) return {{run}};
  constexpr std::size_t kMostWays = 12;
  std::vector<Way> ways;
  const std::int64_t shortest = std::max<std::int64_t>(1, whole_up(sold.least / sold.rafter));
  for (std::int64_t first = whole_down(sold.length / sold.rafter);
       first >= shortest && ways.size() < kMostWays; --first) {
    if (std::optional<Way> way = way_from(run, first, sold)) ways.push_back(std::move(*way));
  }
  if (!ways.empty()) return BestWays(std::move(ways), sold).found();
  // Nothing but stubs will do: whole lengths and what is left.
  std::vector<Length> pieces;
  Length left = run;
  for (; left > sold.length + tolerance::kNoise; left = left - sold.length) pieces.push_back(sold.length);
  pieces.push_back(left);
  return {pieces};
}

void note_run(job::Estimate& into, const std::string& slope, const std::vector<Length>& lengths) {
  const auto like = std::find_if(into.battens.begin(), into.battens.end(), [&](const job::BattenRun& run) {
    return run.slope == slope && run.lengths.size() == lengths.size() &&
           std::equal(lengths.begin(), lengths.end(), run.lengths.begin(),
                      [](Length a, Length b) { return abs(a - b) < tolerance::kOnPlane; });
  });
  if (like != into.battens.end()) {
    ++like->count;
  } else {
    into.battens.push_back({slope, lengths, 1});
  }
}

}  // namespace

void add_battens(const Sources& sources, const job::SetOut& set_out, job::Estimate& into, Lines& lines) {
  const practice::Pack& pack = sources.pack;
  const job::Slope* slope = slope_named(sources.survey, set_out.slope);
  if (slope == nullptr) return;
  const practice::Rule& sold = pack.rule("batten.length");
  const practice::Rule& waste = pack.rule("waste.battens");
  const Sold how{Length::mm(sold.value), pack.length("rafter.spacing"), pack.length("batten.least"),
                 static_cast<std::size_t>(std::max(1.0, pack.number("batten.joint_every")))};
  std::map<std::int64_t, std::vector<std::vector<Length>>> known;  // ways to cut, by length in µm
  std::vector<Length> pieces;
  double run = 0;
  std::int64_t crossings = 0;
  std::size_t turn = 0;
  for (const job::Batten& batten : set_out.battens) {
    for (const auto& [from, to] : stretches(sources.plan, slope->name, batten.course)) {
      const Length stretch = to - from;
      if (stretch <= tolerance::kOnPlane) continue;
      std::vector<std::vector<Length>>& ways = known[whole_up(stretch.in_mm() * 1000)];
      if (ways.empty()) ways = ways_to_cut(stretch, how);
      const std::vector<Length>& cut = ways[turn % ways.size()];
      pieces.insert(pieces.end(), cut.begin(), cut.end());
      note_run(into, slope->name, cut);
      run += stretch.in_mm();
      // One at every rafter that the batten crosses, one more at each joint.
      crossings += whole_up(stretch / how.rafter) + 1 + std::ssize(cut) - 1;
    }
    ++turn;
  }
  const auto lengths = number(lengths_needed(pieces, Length::mm(sold.value)));
  const double bought = number(whole_up(lengths * (1 + waste.value)));
  const bool slates = slope->covering.kind == job::CoveringKind::slate;
  const Length wide = pack.length(slates ? "batten.slate_width" : "batten.tile_width");
  lines.add("battens", slope->name,
            Why("battens.length", "ceil(n * (1 + w)) * L / 1000", "m")
                .decided_by(sold)
                .term("n", lengths, "", "batten cutting list")
                .rule("w", waste)
                .rule("L", sold)
                .gives(bought * sold.value / 1000),
            {{"count", bought, ""},
             {"length", sold.value, "mm"},
             {"width", wide.in_mm(), "mm"},
             {"thickness", pack.number("batten.thickness"), "mm"},
             {"run", run / 1000, "m"},
             {"per_m2", battens_per_m2(set_out.gauge), "m"}});
  lines.add("fixings", slope->name,
            nails("fixings.batten_nails", number(crossings), "rafters crossed",
                  {pack.rule("nail.batten_diameter"), pack.rule("nail.batten_length"),
                   pack.rule("nail.steel_density"), pack.rule("waste.nails")}),
            {{"count", number(crossings), ""},
             {"length", pack.number("nail.batten_length"), "mm"},
             {"diameter", pack.number("nail.batten_diameter"), "mm"}});
}

}  // namespace lapwright::estimate

#include "clearing.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>
#include <lapwright/practice/defaults.h>

#include <algorithm>
#include <utility>

namespace lapwright::setout {

namespace {

using job::Hand;

struct Span {
  Length from;
  Length to;
};

bool same(const Span& a, const Span& b) {
  return abs(a.from - b.from) <= tolerance::kNoise && abs(a.to - b.to) <= tolerance::kNoise;
}

bool meet(const Span& a, const Span& b) {
  return a.from < b.to - tolerance::kNoise && b.from < a.to - tolerance::kNoise;
}

// What is left of `whole` when every span of `taken` is taken away.
std::vector<Span> rest_of(const Span& whole, std::vector<Span> taken) {
  std::sort(taken.begin(), taken.end(), [](const Span& a, const Span& b) { return a.from < b.from; });
  std::vector<Span> out;
  Length at = whole.from;
  for (const Span& t : taken) {
    if (t.from > at + tolerance::kNoise) out.push_back({at, min(t.from, whole.to)});
    at = max(at, t.to);
    if (at >= whole.to - tolerance::kNoise) return out;
  }
  out.push_back({at, whole.to});
  return out;
}

// Where a side's foot line stands at `s`, within its own reach.
Length foot_at(const Side& side, Length s) {
  const auto& foot = side.foot;
  const auto above = std::lower_bound(foot.begin() + 1, foot.end() - 1, s,
                                      [](const job::FootPoint& p, Length at) { return p.s < at; });
  const job::FootPoint& b = *above;
  const job::FootPoint& a = *(above - 1);
  return a.u + (b.u - a.u) * ((s - a.s) / (b.s - a.s));
}

// The line that units are cut to beside a side, right through the strip: through the foot line where it
// enters and leaves the strip, moved off the masonry where the line bends in between.
End line_beside(const Side& side, const Strip& strip, Length gap) {
  const Length low = max(strip.tail, side.foot.front().s);
  const Length high = max(min(strip.head(), side.foot.back().s), low);
  const bool short_of = high - low <= tolerance::kGrid;
  const Length a = short_of ? max(low - tolerance::kHandCut, side.foot.front().s) : low;
  const Length b = short_of ? min(high + tolerance::kHandCut, side.foot.back().s) : high;
  const Length at_a = foot_at(side, a);
  const double drift = (foot_at(side, b) - at_a) / (b - a);
  const auto at = [&](Length s) { return at_a + (s - a) * drift; };
  Length off;
  for (const job::FootPoint& p : side.foot) {
    if (p.s <= a || p.s >= b) continue;
    const Length by = p.u - at(p.s);
    off = side.hand == Hand::left ? max(off, by) : min(off, by);
  }
  const Length square = gap * square_root(1 + drift * drift);
  off += side.hand == Hand::left ? square : -square;
  return {at(strip.tail) + off, at(strip.head()) + off};
}

// Units fill to the longest needed.
void settle(Clearing& clearing, const End& own_left, const End& own_right) {
  clearing.from =
      max(min(clearing.left.at_tail, clearing.left.at_head), min(own_left.at_tail, own_left.at_head));
  clearing.to =
      min(max(clearing.right.at_tail, clearing.right.at_head), max(own_right.at_tail, own_right.at_head));
}

}  // namespace

// A line that parts the strip from its tail to its head.
struct Ground::Divide {
  enum class Kind : std::uint8_t { edge_left, edge_right, block_left, block_right, side, side_back };
  Kind kind = Kind::edge_left;
  End end;
  std::size_t of = 0;
  Length front;  // of a block or side, its gap taken off
};

// Between two neighbouring divides: where units can lie in it.
struct Ground::Column {
  std::size_t left = 0;  // divide
  std::size_t right = 0;
  std::vector<Span> free;
};

Ground::Ground(const job::Slope& slope, const Obstacles& obstacles, const practice::Pack& pack)
    : slope_(slope), obstacles_(obstacles), pack_(pack) {
  if (obstacles.blocks.empty() && obstacles.sides.empty()) return;
  least_piece_ = pack.length("bond.least_piece");
  for (const job::Junction& j : obstacles.junctions)
    widest_gap_ = max(widest_gap_, practice::gap_beside(slope.covering, j, pack));
}

// The widest over what is exposed of this course beside the face, or at the nearest place that it has.
Length Ground::gap_of(std::size_t junction, const Strip& strip, Length from, Length to) const {
  const job::Junction& j = obstacles_.junctions[junction];
  if (j.gaps.size() < 2) return practice::gap_beside(slope_.covering, j, pack_);
  const Length low = min(max(strip.tail, from), to);
  const Length high = max(min(strip.exposed, to), low);
  return practice::widest_gap_between(j, low, high, pack_);
}

End Ground::edge(const Strip& strip, Hand hand) const {
  const bool left = hand == Hand::left;
  if (const auto& join = obstacles_.joins[left ? 0 : 1]) {
    const Length at_tail = join->at(strip.tail);
    const Length at_head = join->at(strip.head());
    const double drift = (at_head - at_tail) / (strip.head() - strip.tail);
    const Length square = join->clear * square_root(1 + drift * drift);
    const Length off = left ? square : -square;
    return {at_tail + off, at_head + off};
  }
  Length u = left ? Length{} : slope_.width.value;
  for (const EdgeWall& wall : obstacles_.walls) {
    if (wall.hand != hand) continue;
    if (wall.from >= strip.exposed - tolerance::kNoise || strip.tail + tolerance::kNoise >= wall.to) continue;
    const Length gap = gap_of(wall.junction, strip, wall.from, wall.to);
    u += left ? gap : -gap;
    break;
  }
  return {u, u, true, false};
}

Length Ground::own_edge(const Strip& strip) const {
  return obstacles_.joins[0] ? obstacles_.joins[0]->corner : edge(strip, Hand::left).at_tail;
}

void Ground::let_in(const Strip& strip) {
  const auto& blocks = obstacles_.blocks;
  const auto& sides = obstacles_.sides;
  const Length reach = strip.head() + widest_gap_;  // a gap begins below the face
  for (; next_block_ < blocks.size() && blocks[next_block_].front < reach; ++next_block_)
    blocks_.push_back(next_block_);
  for (; next_side_ < sides.size() && sides[next_side_].foot.front().s < reach; ++next_side_)
    sides_.push_back(next_side_);
  std::erase_if(blocks_, [&](std::size_t i) { return blocks[i].begin <= strip.tail; });
  std::erase_if(sides_, [&](std::size_t i) { return sides[i].foot.back().s <= strip.tail; });
}

std::vector<Ground::Divide> Ground::divides(const Strip& strip) const {
  using Kind = Divide::Kind;
  std::vector<Divide> out;
  const Divide left{Kind::edge_left, edge(strip, Hand::left), 0, {}};
  const Divide right{Kind::edge_right, edge(strip, Hand::right), 0, {}};
  out.push_back(left);
  for (const std::size_t i : blocks_) {
    const Block& block = obstacles_.blocks[i];
    const Length gap = gap_of(block.junction, strip, block.front, min(block.back, slope_.rafter.value));
    const Length front = block.has_front ? block.front - gap : block.front;
    if (front >= strip.head() - tolerance::kNoise) continue;
    out.push_back({Kind::block_left, {block.left - gap, block.left - gap}, i, front});
    out.push_back({Kind::block_right, {block.right + gap, block.right + gap}, i, front});
  }
  for (const std::size_t i : sides_) {
    const Side& side = obstacles_.sides[i];
    const Length gap = gap_of(side.junction, strip, side.foot.front().s, side.foot.back().s);
    const Length front = side.foot.front().s - gap;
    if (front >= strip.head() - tolerance::kNoise) continue;
    const End line = line_beside(side, strip, gap);
    out.push_back({Kind::side, line, i, front});
    if (side.bounds) continue;
    // The roof may go on behind it, a gap further.
    const Length off = max(gap * 2.0, tolerance::kHandCut) * (side.hand == Hand::left ? -1.0 : 1.0);
    out.push_back({Kind::side_back, {line.at_tail + off, line.at_head + off}, i, front});
  }
  out.push_back(right);
  // From left to right by their middles; but a line that passes the slope's edge on its way still parts what
  // lies within.
  const auto key = [&](const Divide& d) {
    const Length middle = d.end.at_tail + d.end.at_head;
    const bool slants = d.kind == Kind::side || d.kind == Kind::side_back;
    if (!slants) return middle;
    const bool enters_left =
        max(d.end.at_tail - left.end.at_tail, d.end.at_head - left.end.at_head) > Length{};
    const bool enters_right =
        min(d.end.at_tail - right.end.at_tail, d.end.at_head - right.end.at_head) < Length{};
    const Length low = left.end.at_tail + left.end.at_head;
    const Length high = right.end.at_tail + right.end.at_head;
    return enters_left && enters_right ? min(max(middle, low), high) : middle;
  };
  std::stable_sort(out.begin(), out.end(), [&](const Divide& a, const Divide& b) { return key(a) < key(b); });
  return out;
}

std::vector<Ground::Column> Ground::columns(const Strip& strip, const std::vector<Divide>& divides) const {
  using Kind = Divide::Kind;
  std::vector<std::vector<Span>> taken(divides.size());  // of the column to the right of each divide
  std::vector<std::size_t> left_of(obstacles_.blocks.size(), divides.size());
  std::vector<std::size_t> back_of(obstacles_.sides.size(), 0);
  std::vector<Length> levels{strip.tail, strip.head()};
  for (std::size_t i = 0; i < divides.size(); ++i) {
    const Divide& d = divides[i];
    if (d.kind == Kind::block_left) left_of[d.of] = i;
    if (d.kind == Kind::block_right) {
      for (std::size_t k = left_of[d.of]; k < i; ++k)
        taken[k].push_back({d.front, obstacles_.blocks[d.of].begin});
    }
    if (d.kind == Kind::side_back) back_of[d.of] = i;
    if (d.kind == Kind::side) {
      for (const Length s : {d.front, obstacles_.sides[d.of].foot.back().s}) {
        if (s > strip.tail && s < strip.head()) levels.push_back(s);
      }
    }
  }
  std::sort(levels.begin(), levels.end());
  // A side hides all on its far hand, up to the next face that looks the other way. Where there is none, only
  // one that bounds the slope hides more than itself.
  for (std::size_t n = 0; n + 1 < levels.size(); ++n) {
    const Length middle = (levels[n] + levels[n + 1]) / 2.0;
    const auto hide = [&](std::size_t from, std::size_t to) {
      for (std::size_t k = from; k < to; ++k) taken[k].push_back({levels[n], levels[n + 1]});
    };
    std::size_t since = 0;  // the last side, or the strip's left end
    bool ended = false;     // at that side the roof ended
    const auto end_without_return = [&](std::size_t to) {
      if (!ended) return;
      const std::size_t of = divides[since].of;
      hide(since, obstacles_.sides[of].bounds ? to : back_of[of]);
    };
    for (std::size_t i = 0; i < divides.size(); ++i) {
      if (divides[i].kind != Kind::side) continue;
      const Side& side = obstacles_.sides[divides[i].of];
      if (middle < divides[i].front || middle > side.foot.back().s) continue;
      if (side.hand == Hand::right) {
        end_without_return(i);
        ended = true;
      } else {
        hide(ended || side.bounds ? since : std::max(since, back_of[divides[i].of]), i);
        ended = false;
      }
      since = i;
    }
    end_without_return(divides.size());
  }
  std::vector<Column> out;
  bool within = false;
  for (std::size_t i = 0; i + 1 < divides.size(); ++i) {
    within = (within || divides[i].kind == Kind::edge_left) && divides[i].kind != Kind::edge_right;
    if (!within) continue;
    const Length width = max(divides[i + 1].end.at_tail - divides[i].end.at_tail,
                             divides[i + 1].end.at_head - divides[i].end.at_head);
    if (width <= tolerance::kGrid) continue;
    Column column{i, i + 1, {}};
    for (const Span& free : rest_of({strip.tail, strip.head()}, std::move(taken[i]))) {
      const bool begins_above = free.from > strip.tail + tolerance::kNoise;
      const bool cut_below = free.to < strip.head() - tolerance::kNoise;
      // Behind a block only the course that is exposed there, and the one under it, are of use.
      if (begins_above && free.from >= strip.supported - tolerance::kNoise) continue;
      if ((begins_above || cut_below) && free.to - free.from < least_piece_) continue;
      column.free.push_back(free);
    }
    out.push_back(std::move(column));
  }
  return out;
}

std::vector<Clearing> Ground::clearings(const Strip& strip) {
  let_in(strip);
  if (blocks_.empty() && sides_.empty()) {
    Clearing whole{strip.tail, strip.head(), edge(strip, Hand::left), edge(strip, Hand::right), {}, {}};
    settle(whole, whole.left, whole.right);
    return {whole};
  }
  const std::vector<Divide> lines = divides(strip);
  const std::vector<Column> cols = columns(strip, lines);

  struct Open {
    Span span;
    std::size_t first;  // column
    std::size_t last;
  };
  // Neighbouring columns with the same room are one clearing.
  std::vector<Open> found;
  std::vector<std::size_t> running;  // into `found`, those that reach the column before
  for (std::size_t c = 0; c < cols.size(); ++c) {
    std::vector<std::size_t> here;
    for (const Span& span : cols[c].free) {
      const auto goes_on = std::find_if(running.begin(), running.end(),
                                        [&](std::size_t f) { return same(found[f].span, span); });
      if (goes_on != running.end()) {
        found[*goes_on].last = c;
        here.push_back(*goes_on);
      } else {
        here.push_back(found.size());
        found.push_back({span, c, c});
      }
    }
    running = std::move(here);
  }

  // Where two clearings meet without a face between them there is a joint, off the shorter one, or one unit
  // in both.
  enum class Meets : std::uint8_t { nothing, joint, notch };
  const auto meets = [&](const Open& open, std::size_t neighbour, bool at_right) {
    const Length own = open.span.to - open.span.from;
    for (const Span& other : cols[neighbour].free) {
      if (!meet(other, open.span)) continue;
      const bool from_the_tail = open.span.from == strip.tail && other.from == strip.tail;
      const bool to_the_head = open.span.to == strip.head() && other.to == strip.head();
      const bool seen_below =
          from_the_tail && strip.exposed <= min(open.span.to, other.to) + tolerance::kNoise;
      const bool seen_above =
          to_the_head && max(open.span.from, other.from) < strip.exposed - tolerance::kNoise;
      if (seen_below || seen_above) return Meets::notch;
      const Length its = other.to - other.from;
      if (abs(its - own) <= tolerance::kNoise ? at_right : own < its) return Meets::joint;
    }
    return Meets::nothing;
  };
  const auto part = [&](End& end, Meets how, Length joint) {
    end.notch = how == Meets::notch;
    if (how != Meets::joint) return;
    end.at_tail += joint;
    end.at_head += joint;
  };
  // Lines that cross within the strip: what lies beyond either is kept clear.
  const auto within = [&](std::size_t divide, bool left) {
    End end = lines[divide].end;
    const auto is_edge = [](const Divide& d) {
      return d.kind == Divide::Kind::edge_left || d.kind == Divide::Kind::edge_right;
    };
    for (std::size_t k = left ? 0 : divide; k < (left ? divide : lines.size()); ++k) {
      if (is_edge(lines[k])) continue;
      const End& other = lines[k].end;
      end.at_tail = left ? max(end.at_tail, other.at_tail) : min(end.at_tail, other.at_tail);
      end.at_head = left ? max(end.at_head, other.at_head) : min(end.at_head, other.at_head);
    }
    return end;
  };
  const End own_left = edge(strip, Hand::left);
  const End own_right = edge(strip, Hand::right);
  std::vector<Clearing> out;
  for (const Open& open : found) {
    const auto end_at = [&](const End& line) {
      const Length all = strip.head() - strip.tail;
      const auto at = [&](Length s) {
        return line.at_tail + (line.at_head - line.at_tail) * ((s - strip.tail) / all);
      };
      // The strip's own ends come through untouched.
      return End{open.span.from == strip.tail ? line.at_tail : at(open.span.from),
                 open.span.to == strip.head() ? line.at_head : at(open.span.to), line.own, false};
    };
    const End left = within(cols[open.first].left, true);
    const End right = within(cols[open.last].right, false);
    Clearing clearing{open.span.from, open.span.to, end_at(left), end_at(right), {}, {}};
    // Where another line crosses the end there is masonry, and no neighbour to go on into.
    const auto crossed = [&](std::size_t divide, const End& end) {
      return end.at_tail != lines[divide].end.at_tail || end.at_head != lines[divide].end.at_head;
    };
    if (open.first > 0 && !crossed(cols[open.first].left, left))
      part(clearing.left, meets(open, open.first - 1, false), strip.joint);
    if (open.last + 1 < cols.size() && !crossed(cols[open.last].right, right))
      part(clearing.right, meets(open, open.last + 1, true), -strip.joint);
    settle(clearing, own_left, own_right);
    const Length width = clearing.to - clearing.from;
    const bool notched = clearing.left.notch || clearing.right.notch;
    if (width >= least_piece_ || notched) out.push_back(clearing);
  }
  std::stable_sort(out.begin(), out.end(), [](const Clearing& a, const Clearing& b) {
    return a.from != b.from ? a.from < b.from : a.tail < b.tail;
  });
  return out;
}

}  // namespace lapwright::setout

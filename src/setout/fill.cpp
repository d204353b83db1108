#include "fill.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>
#include <lapwright/practice/defaults.h>

#include <algorithm>
#include <cstdint>

namespace lapwright::setout {

namespace {

void add_run(std::vector<job::UnitRun>& runs, Length width, std::int64_t count) {
  if (count <= 0) return;
  if (!runs.empty() && abs(runs.back().width - width) < tolerance::kNoise) {
    runs.back().count += count;
  } else {
    runs.push_back({width, count});
  }
}

// The first unit of these, where it is narrower than allowed, is cut from a unit and a half together with its
// neighbour, or shares with it. Returns what is left open at the end then: at most a joint.
Length mend_first(std::vector<Length>& widths, const Bond& bond) {
  if (widths.size() < 2 || widths.front() >= bond.narrowest - tolerance::kNoise) return {};
  const Length both = widths[0] + widths[1] + bond.joint;
  if (both <= bond.and_half + bond.joint + tolerance::kNoise) {
    widths.erase(widths.begin());
    widths.front() = min(both, bond.and_half);
    return both - widths.front();
  }
  widths[0] = widths[1] = (both - bond.joint) / 2.0;
  return {};
}

}  // namespace

Bond bond_of(const job::Covering& c, const practice::Pack& pack) {
  const bool slate = c.kind == job::CoveringKind::slate;
  Bond bond;
  bond.unit = c.width.value;
  bond.and_half = bond.unit * pack.number("bond.unit_and_half");
  bond.joint = practice::open_joint(c, pack);
  // A narrower unit than the rule's own figure cannot be asked to be wider than itself.
  bond.narrowest = min(slate ? pack.length("bond.narrowest_slate") : bond.unit / 2.0, bond.unit);
  return bond;
}

std::vector<job::UnitRun> fill(Length room, Length first, const Bond& bond, bool goes_on) {
  std::vector<job::UnitRun> runs;
  if (room <= first + bond.joint) {
    add_run(runs, min(room, first), 1);
    return runs;
  }
  const Length pitch = bond.unit + bond.joint;
  const Length after_first = room - first - bond.joint;
  const std::int64_t whole = whole_down((after_first + bond.joint) / pitch);
  // What is left to the right of the last whole unit and the joint beside it.
  const Length rest = after_first - pitch * static_cast<double>(whole);
  add_run(runs, first, 1);
  if (rest <= tolerance::kNoise) {  // ends within a joint of the side
    add_run(runs, bond.unit, whole);
    return runs;
  }
  if (goes_on || rest >= bond.narrowest - tolerance::kNoise) {
    add_run(runs, bond.unit, whole);
    add_run(runs, rest, 1);
    return runs;
  }
  if (whole == 0) {  // the first unit and the rest share the room
    const Length both = room - bond.joint;
    runs.clear();
    if (both <= bond.and_half) {
      add_run(runs, both, 1);
    } else {
      add_run(runs, both / 2.0, 2);
    }
    return runs;
  }
  const Length merged = rest + pitch;
  add_run(runs, bond.unit, whole - 1);
  if (merged <= bond.and_half + bond.joint + tolerance::kNoise) {
    add_run(runs, min(merged, bond.and_half), 1);
  } else {
    add_run(runs, (merged - bond.joint) / 2.0, 2);
  }
  return runs;
}

bool cuts_a_unit(Length u, const Joints& joints, const Bond& bond) {
  const Length pitch = bond.unit + bond.joint;
  if (!joints.before && u < joints.first - bond.joint / 2.0) return true;
  const auto nearest = static_cast<double>(whole_down((u - joints.first) / pitch + 0.5));
  return abs(u - joints.first - pitch * nearest) > bond.joint / 2.0 + tolerance::kNoise;
}

Filled fill_between(Length a, Length b, const Joints& joints, const Bond& bond, GoesOn goes_on) {
  const Length pitch = bond.unit + bond.joint;
  const Length half = bond.joint / 2.0;
  const auto middle = [&](std::int64_t k) { return joints.first + pitch * static_cast<double>(k); };
  // The first joint with something to its left, the last with something to its right.
  std::int64_t first = whole_down((a + half - joints.first) / pitch) + 1;
  if (!joints.before) first = std::max<std::int64_t>(first, 0);
  const std::int64_t last = whole_up((b - half - joints.first) / pitch) - 1;
  // An end that falls into a joint is the joint's side.
  const bool in_first_unit = !joints.before && first == 0;
  const Length start = in_first_unit ? a : max(a, middle(first - 1) + half);
  const Length stop = min(b, middle(std::max(last, first - 1) + 1) - half);
  Filled out;
  if (first > last) {
    const bool within_a_joint = stop - start <= tolerance::kNoise;
    out.from = within_a_joint ? a : start;
    add_run(out.widths, within_a_joint ? b - a : stop - start, 1);
    return out;
  }
  const Length left = middle(first) - half - start;
  const Length right = stop - middle(last) - half;
  const std::int64_t whole = last - first;
  // Mending reaches no further than two units in, so that the many between stay one run.
  constexpr std::int64_t kNear = 2;
  std::vector<Length> head{left};
  std::vector<Length> tail{right};
  std::int64_t between = whole - 2 * kNear;
  if (between >= 0) {
    head.resize(1 + kNear, bond.unit);
    tail.resize(1 + kNear, bond.unit);
  } else {
    between = 0;
    head.resize(1 + static_cast<std::size_t>(whole), bond.unit);
    head.push_back(right);
    if (!goes_on.right) {
      std::reverse(head.begin(), head.end());
      mend_first(head, bond);
      std::reverse(head.begin(), head.end());
    }
    tail.clear();
  }
  out.from = start;
  if (!goes_on.left) out.from += mend_first(head, bond);
  if (!goes_on.right) mend_first(tail, bond);
  std::reverse(tail.begin(), tail.end());
  for (const Length width : head) add_run(out.widths, width, 1);
  add_run(out.widths, bond.unit, between);
  for (const Length width : tail) add_run(out.widths, width, 1);
  return out;
}

}  // namespace lapwright::setout

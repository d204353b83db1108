#include "proof.h"

#include "question.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>
#include <utility>

namespace lapwright::cutcheck {

namespace {

// What the strips of a stock are worth at most: strips `capacity` long, piled up to `room`.
std::int64_t most_of(const Question& q, std::int64_t capacity, std::int64_t room, bool strips_across,
                     const std::function<std::int64_t(std::int64_t)>& back) {
  const std::int64_t n = capacity / q.step;
  const std::int64_t height = room / q.step;
  std::vector<Item> items;
  for (const Item& item : q.items) {
    if (item.value <= 0 || item.copies <= 0) continue;
    // along: here the strip's thickness; across: the length it takes of the strip.
    Item one = item;
    if (!strips_across) std::swap(one.along, one.across);
    one.along /= q.step;
    one.across /= q.step;
    if (one.along <= height && one.across <= n) items.push_back(one);
  }
  std::sort(items.begin(), items.end(), [](const Item& a, const Item& b) { return a.along < b.along; });
  std::vector<std::int64_t> strip(static_cast<std::size_t>(n) + 1, 0);
  std::vector<std::pair<std::int64_t, std::int64_t>> kinds;  // thickness, value
  for (std::size_t i = 0; i < items.size(); ++i) {
    // Copies in powers of two: every number up to the demand is a sum of them.
    for (std::int64_t left = items[i].copies, block = 1; left > 0; block *= 2) {
      const std::int64_t take = std::min(block, left);
      left -= take;
      const std::int64_t wide = take * items[i].across;
      if (wide > n) break;
      for (std::int64_t x = n; x >= wide; --x) {
        auto& best = strip[static_cast<std::size_t>(x)];
        best = std::max(best, strip[static_cast<std::size_t>(x - wide)] + take * items[i].value);
      }
    }
    if (i + 1 == items.size() || items[i + 1].along != items[i].along)
      kinds.emplace_back(items[i].along, strip.back());
  }
  std::vector<std::int64_t> pile(static_cast<std::size_t>(height) + 1, 0);
  for (std::int64_t x = 1; x <= height; ++x) {
    auto& best = pile[static_cast<std::size_t>(x)];
    best = pile[static_cast<std::size_t>(x - 1)];
    for (const auto& [thickness, value] : kinds) {
      if (thickness <= x) best = std::max(best, pile[static_cast<std::size_t>(x - thickness)] + value);
    }
  }
  std::int64_t out = pile.back();
  for (std::int64_t x = 0; x <= height; ++x) {
    out = std::max(out, pile[static_cast<std::size_t>(x)] + back(room - x * q.step));
  }
  return out;
}

}  // namespace

double proven(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack,
              const job::CutCode& code, const std::map<std::string, std::int64_t>& wanted) {
  if (code.proof.scale <= 0 || code.proof.prices.empty() || !boxes_are_true(plan, code, wanted)) return -1;
  const Question q = question(plan, yard, pack, code, wanted);
  const std::int64_t scale = code.proof.scale;
  std::int64_t sum = 0;
  std::set<std::string> priced;
  for (const job::CutProof::Price& price : code.proof.prices) {
    const auto have = wanted.find(price.mark);
    if (price.price < 0 || !priced.insert(price.mark).second) return -1;
    if (have != wanted.end()) sum += price.price * have->second;
  }
  const std::int64_t must = sum;
  std::vector<std::int64_t> worths;
  bool linear = true;
  for (const Size& size : q.sizes) {
    const auto across = [&](std::int64_t left) { return scale * credit(q, size.width, left); };
    const auto along = [&](std::int64_t left) { return scale * credit(q, left, size.length); };
    const std::int64_t worth = std::max(most_of(q, size.width, size.length, true, across),
                                        most_of(q, size.length, size.width, false, along));
    worths.push_back(worth);
    const std::int64_t over = worth - size.cost * scale;
    if (over <= 0) continue;
    linear = linear && size.most >= 0;
    if (size.most >= 0) sum -= over * size.most;
  }
  const std::int64_t bound = sum <= 0 || !linear ? 0 : (sum + scale - 1) / scale;
  const std::int64_t best = std::max(rounded_up(q, bound), in_whole_rolls(q, worths, must));
  return static_cast<double>(best) / kParts + q.pieces;
}

double by_area(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack,
               const job::CutCode& code, const std::map<std::string, std::int64_t>& wanted) {
  const Question q = question(plan, yard, pack, code, wanted);
  double area = 0;
  std::map<std::string, std::int64_t> left = wanted;
  for (const job::Piece& piece : plan.pieces) {
    const auto have = left.find(piece.mark);
    if (piece.code != code.code || have == left.end()) continue;
    area += piece.area.in_mm2() * static_cast<double>(have->second);
    left.erase(have);
  }
  const double back = static_cast<double>(q.keep_rate) / 1e6;
  std::vector<std::int64_t> areas;
  for (const Size& size : q.sizes) areas.push_back(size.width * size.length);
  const std::int64_t rolls = in_whole_rolls(q, areas, static_cast<std::int64_t>(area));
  double cost = area * back;
  std::vector<std::pair<double, double>> lead;  // money of a mm², mm² that there are
  for (const Size& size : q.sizes) {
    const double each = static_cast<double>(size.width) * static_cast<double>(size.length);
    const double rate = std::max(0.0, static_cast<double>(size.cost) / each - back);
    lead.emplace_back(rate, size.most < 0 ? 1e300 : each * static_cast<double>(size.most));
  }
  std::sort(lead.begin(), lead.end());
  for (const auto& [rate, have] : lead) {
    const double here = std::min(have, area);
    cost += here * rate;
    area -= here;
  }
  const auto whole = static_cast<std::int64_t>(std::ceil(cost * (1 - 1e-12)));
  return static_cast<double>(std::max(rounded_up(q, whole), rolls)) / kParts + q.pieces;
}

}  // namespace lapwright::cutcheck

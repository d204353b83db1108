#include "anyhow.h"
#include "proof.h"
#include "question.h"

#include <algorithm>
#include <cmath>

namespace lapwright::cutcheck {

namespace {
constexpr std::int64_t kCellsMost = 2'000'000;  // of the table
}  // namespace

double straight(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack,
                const job::CutCode& code, const std::map<std::string, std::int64_t>& wanted) {
  const job::CutProof& proof = code.proof;
  const std::int64_t step = whole(proof.straight_step.in_mm());
  if (step <= 0 || proof.straight_scale <= 0 || !boxes_are_true(plan, code, wanted)) return -1;
  const Question q = question(plan, yard, pack, code, wanted);
  if (q.keep_rate != 0) return -1;
  std::map<std::string, std::int64_t> price_of;
  std::int64_t must = 0;
  for (const job::CutProof::Price& price : proof.straight_prices) {
    const auto have = wanted.find(price.mark);
    if (price.price < 0 || price.price > (std::int64_t{1} << 31) ||
        !price_of.emplace(price.mark, price.price).second) {
      return -1;
    }
    if (have != wanted.end()) must += price.price * have->second;
  }
  std::vector<Worth> items;
  for (std::size_t i = 0; i < q.items.size(); ++i) {
    Worth item{q.items[i].across / step, q.items[i].along / step, 0};
    if (item.across <= 0 || item.along <= 0) return -1;
    for (const std::string& mark : proof.boxes[i / 2].marks) item.value += price_of[mark];
    items.push_back(item);
  }
  std::int64_t widest = 0;
  std::int64_t longest = 0;
  for (const Size& size : q.sizes) {
    widest = std::max(widest, size.width / step);
    longest = std::max(longest, size.length / step);
  }
  if (widest * longest > kCellsMost) return -1;
  const CutAnyhow table(items, widest, longest);
  // Where a roll is worth more than it costs, all prices shrink until none is.
  double rate = 1024 / static_cast<double>(proof.straight_scale);
  std::vector<std::int64_t> worths;
  for (const Size& size : q.sizes) {
    worths.push_back(table.value(size.width / step, size.length / step));
    if (size.most >= 0 || worths.back() == 0) continue;
    rate = std::min(rate, static_cast<double>(size.cost) / static_cast<double>(worths.back()));
  }
  double sum = static_cast<double>(must) * rate;
  for (std::size_t s = 0; s < q.sizes.size(); ++s) {
    const double over = static_cast<double>(worths[s]) * rate - static_cast<double>(q.sizes[s].cost);
    if (q.sizes[s].most >= 0 && over > 0) sum -= over * static_cast<double>(q.sizes[s].most);
  }
  const auto linear = static_cast<std::int64_t>(std::ceil(std::max(0.0, sum) * (1 - 1e-12)));
  const std::int64_t best = std::max(rounded_up(q, linear), in_whole_rolls(q, worths, must));
  return static_cast<double>(best) / kParts + q.pieces;
}

}  // namespace lapwright::cutcheck

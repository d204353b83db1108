#include "question.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace lapwright::cutcheck {

std::int64_t whole(double mm) {
  return static_cast<std::int64_t>(std::floor(mm + 1e-6));
}

std::int64_t credit(const Question& q, std::int64_t a, std::int64_t b) {
  if (q.keep_rate == 0 || std::max(a, b) < q.keep_long || std::min(a, b) < q.keep_short ||
      std::min(a, b) <= 0)
    return 0;
  return a * b * q.keep_rate / 1'000'000;
}

Question question(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack,
                  const job::CutCode& code, const std::map<std::string, std::int64_t>& wanted) {
  Question out;
  const auto kerf = static_cast<std::int64_t>(std::ceil(yard.kerf.in_mm() - 1e-6));
  const double kg = pack.lead(code.code).kg_per_m2 / 1e6;
  const double scrap = static_cast<double>(yard.scrap_per_kg) * kg;
  double cheapest = 1e300;
  for (const job::YardRoll& roll : yard.rolls) {
    if (roll.code != code.code) continue;
    const auto w = whole(roll.width.in_mm());
    const auto l = whole(roll.length.in_mm());
    const double area = static_cast<double>(w) * static_cast<double>(l);
    const double price = roll.price
                             ? static_cast<double>(*roll.price)
                             : std::round(static_cast<double>(roll.price_per_kg.value_or(0)) * kg * area);
    cheapest = std::min(cheapest, price / area);
    out.sizes.push_back({w + kerf, l + kerf,
                         std::max<std::int64_t>(0, std::llround((price - scrap * area) * kParts)),
                         roll.in_stock.value_or(-1)});
  }
  double keep = scrap;
  if (cheapest < 1e299) keep = std::max(scrap, static_cast<double>(yard.keep_percent) / 100 * cheapest);
  if (yard.keep_length > Length{} && keep > scrap) {
    out.keep_rate = static_cast<std::int64_t>(std::floor((keep - scrap) * kParts * 1e6));
    out.keep_long = whole(yard.keep_length.in_mm());
    out.keep_short = whole(yard.keep_width.in_mm());
  }
  for (const job::YardOffcut& offcut : yard.offcuts) {
    if (offcut.code != code.code) continue;
    const auto w = whole(offcut.width.in_mm());
    const auto l = whole(offcut.length.in_mm());
    const bool kept = yard.keep_length > Length{} && l >= whole(yard.keep_length.in_mm()) &&
                      w >= whole(yard.keep_width.in_mm());
    const double area = static_cast<double>(w) * static_cast<double>(l);
    const double worth = (kept ? keep : scrap) * area;
    out.sizes.push_back({w + kerf, l + kerf,
                         std::max<std::int64_t>(0, std::llround((worth - scrap * area) * kParts)),
                         offcut.count});
  }
  std::map<std::string, std::int64_t> prices;
  for (const job::CutProof::Price& price : code.proof.prices) prices[price.mark] = price.price;
  for (const job::CutProof::Box& box : code.proof.boxes) {
    std::map<std::string, std::int64_t> in_it;
    for (const std::string& mark : box.marks) ++in_it[mark];
    Item item{whole(box.length.in_mm()) + kerf, whole(box.width.in_mm()) + kerf, 0, 1'000'000};
    for (const auto& [mark, n] : in_it) {
      item.value += prices[mark] * n;
      const auto have = wanted.find(mark);
      item.copies = std::min(item.copies, have == wanted.end() ? 0 : (have->second + n - 1) / n);
    }
    out.items.push_back(item);
    std::swap(item.along, item.across);
    if (item.along == item.across) item.copies = 0;  // a square lies one way only: none of it twice
    out.items.push_back(item);
  }
  std::int64_t step = 0;
  for (const Item& item : out.items) step = std::gcd(step, item.along);
  out.step = std::max<std::int64_t>(step, 1);
  for (const job::Piece& piece : plan.pieces) {
    if (piece.code != code.code) continue;
    const auto have = wanted.find(piece.mark);
    if (have == wanted.end() || prices.find(piece.mark) == prices.end()) continue;
    out.pieces += piece.area.in_mm2() * scrap * static_cast<double>(have->second);
    prices.erase(piece.mark);  // marks may stand at several places; `wanted` has them all
  }
  return out;
}

bool boxes_are_true(const job::Plan& plan, const job::CutCode& code,
                    const std::map<std::string, std::int64_t>& wanted) {
  for (const job::Piece& piece : plan.pieces) {
    if (piece.code != code.code || wanted.find(piece.mark) == wanted.end()) continue;
    const geom::Box net = geom::bounds(piece.net.outline);
    const double length = std::ceil(static_cast<double>(net.width()) / 1000 - 1e-9);
    const double width = std::ceil(static_cast<double>(net.height()) / 1000 - 1e-9);
    const bool listed =
        std::any_of(code.proof.boxes.begin(), code.proof.boxes.end(), [&](const job::CutProof::Box& box) {
          return box.marks.size() == 1 && box.marks.front() == piece.mark && box.length.in_mm() <= length &&
                 box.width.in_mm() <= width;
        });
    if (!listed) return false;
  }
  return true;
}

std::int64_t rounded_up(const Question& q, std::int64_t bound) {
  std::int64_t step = 0;
  for (const Size& size : q.sizes) step = std::gcd(step, size.cost);
  if (q.keep_rate != 0 || step <= 1) return bound;
  return (bound + step - 1) / step * step;
}

namespace {

// Whole rolls: a plan's rolls together are worth at least what it must yield, each at most its worth. The
// least cost of such rolls, worths counted in steps of 2^shift upwards.
std::int64_t in_whole_rolls(const Question& q, const std::vector<std::int64_t>& worths, std::int64_t must,
                            int shift) {
  const auto count = [&](std::int64_t worth) {
    const std::int64_t step = std::int64_t{1} << shift;
    return worth / step + (worth % step == 0 ? 0 : 1);
  };
  const std::int64_t end = count(must);
  constexpr std::int64_t kDear = std::int64_t{1} << 60;
  std::vector<std::int64_t> cost(static_cast<std::size_t>(end) + 1, kDear);
  cost.front() = 0;
  const auto at = [&](std::int64_t v) -> std::int64_t& {
    return cost[static_cast<std::size_t>(std::max<std::int64_t>(v, 0))];
  };
  // Stock that runs out, one piece of it after the other; then what does not, each as often as it likes.
  for (std::size_t s = 0; s < q.sizes.size(); ++s) {
    const std::int64_t steps = count(worths[s]);
    if (steps <= 0) continue;
    const std::int64_t most = q.sizes[s].most < 0 ? 0 : std::min(q.sizes[s].most, end / steps + 1);
    for (std::int64_t n = 0; n < most; ++n) {
      for (std::int64_t v = end; v >= 1; --v) at(v) = std::min(at(v), q.sizes[s].cost + at(v - steps));
    }
  }
  for (std::size_t s = 0; s < q.sizes.size(); ++s) {
    const std::int64_t steps = count(worths[s]);
    if (steps <= 0 || q.sizes[s].most >= 0) continue;
    for (std::int64_t v = 1; v <= end; ++v) at(v) = std::min(at(v), q.sizes[s].cost + at(v - steps));
  }
  return at(end) >= kDear ? 0 : at(end);
}

}  // namespace

std::int64_t in_whole_rolls(const Question& q, const std::vector<std::int64_t>& worths, std::int64_t must) {
  if (must <= 0 || q.keep_rate != 0) return 0;
  int shift = 0;
  while ((must >> shift) > 8191) ++shift;
  return std::max(in_whole_rolls(q, worths, must, shift), in_whole_rolls(q, worths, must, shift + 1));
}

}  // namespace lapwright::cutcheck

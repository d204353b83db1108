#include "proof.h"

#include "anyhow.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>
#include <set>
#include <string>
#include <vector>

namespace lapwright::cutcheck {

namespace {

constexpr std::int64_t kCellsMost = 2'000'000;  // of the table of straight cutting
constexpr double kParts = 1000;  // money is counted in thousandths

struct Size {
  std::int64_t width = 0;  // with kerf, mm
  std::int64_t length = 0;
  std::int64_t cost = 0;
  std::int64_t most = -1;
};
struct Item {
  std::int64_t along = 0;
  std::int64_t across = 0;
  std::int64_t value = 0;
  std::int64_t copies = 0;
};
struct Question {
  std::vector<Size> sizes;
  std::vector<Item> items;  // both ways round
  std::int64_t keep_rate = 0;
  std::int64_t keep_long = 0;
  std::int64_t keep_short = 0;
  double pieces = 0;  // scrap worth of the pieces
  std::int64_t step = 1;
};

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

// Every piece of the code has its own box in the list, no larger than its net asks for.
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

// Whole rolls: a plan's rolls together are worth at least what it must yield, each at most its worth. The least cost of
// such rolls, worths counted in steps of 2^shift upwards.
std::int64_t in_whole_rolls(const Question& q, const std::vector<std::int64_t>& worths, std::int64_t must, int shift) {
  const auto count = [&](std::int64_t worth) {
    const std::int64_t step = std::int64_t{1} << shift;
    return worth / step + (worth % step == 0 ? 0 : 1);
  };
  const std::int64_t end = count(must);
  constexpr std::int64_t kDear = std::int64_t{1} << 60;
  std::vector<std::int64_t> cost(static_cast<std::size_t>(end) + 1, kDear);
  cost.front() = 0;
  const auto at = [&](std::int64_t v) -> std::int64_t& { return cost[static_cast<std::size_t>(std::max<std::int64_t>(v, 0))]; };
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

std::int64_t in_whole_rolls(const Question& q, const std::vector<std::int64_t>& worths, std::int64_t must) {
  if (must <= 0 || q.keep_rate != 0) return 0;
  int shift = 0;
  while ((must >> shift) > 8191) ++shift;
  return std::max(in_whole_rolls(q, worths, must, shift), in_whole_rolls(q, worths, must, shift + 1));
}

// Every strip cutting there is, by what is left to cut: small jobs only.
class TryAll {
 public:
  TryAll(const Question& q, const job::CutCode& code, const std::map<std::string, std::int64_t>& wanted)
      : q_(q) {
    std::map<std::string, std::size_t> type;
    for (const auto& [mark, n] : wanted) {
      const bool priced = std::any_of(code.proof.prices.begin(), code.proof.prices.end(),
                                      [&](const job::CutProof::Price& price) { return price.mark == mark; });
      if (!priced) continue;
      type[mark] = demand_.size();
      demand_.push_back(n);
    }
    double parts = 1;
    for (const std::int64_t d : demand_) {
      weight_.push_back(states_);
      parts *= static_cast<double>(d + 1) * static_cast<double>(d + 2) / 2;
      if (parts > 4e6) {
        too_much_ = true;
        return;
      }
      states_ *= static_cast<std::size_t>(d) + 1;
    }
    for (std::size_t i = 0; i < code.proof.boxes.size(); ++i) {
      Box box;
      box.takes.assign(demand_.size(), 0);
      for (const std::string& mark : code.proof.boxes[i].marks) {
        const auto at = type.find(mark);
        if (at == type.end()) continue;
        ++box.takes[at->second];
        box.weight += weight_[at->second];
      }
      if (box.weight == 0) continue;
      box.a = q.items[2 * i].along;
      box.b = q.items[2 * i].across;
      boxes_.push_back(std::move(box));
    }
  }

  std::int64_t cheapest() {
    if (too_much_ || q_.keep_rate != 0) return -1;
    std::vector<std::int64_t> single(states_, kNever);
    std::map<std::int64_t, std::vector<std::int64_t>>
        piles;  // by how long a strip is: pieces may turn, so for both ways
    for (const Size& size : q_.sizes) {
      if (size.most >= 0) return -1;
      for (const auto& [capacity, room] :
           {std::pair(size.width, size.length), std::pair(size.length, size.width)}) {
        auto& pile = piles[capacity];
        if (pile.empty()) pile = heights(capacity);
        for (std::size_t u = 1; u < states_; ++u) {
          if (pile[u] <= room) single[u] = std::min(single[u], size.cost);
        }
      }
    }
    const std::vector<std::int64_t> cost = summed(single);
    return cost.back() >= kNever ? -1 : cost.back();
  }

 private:
  static constexpr std::int64_t kNever = std::int64_t{1} << 50;
  struct Box {
    std::int64_t a = 0;
    std::int64_t b = 0;
    std::vector<std::int64_t> takes;
    std::size_t weight = 0;
  };

  std::int64_t digit(std::size_t u, std::size_t t) const {
    return static_cast<std::int64_t>(u / weight_[t] % (static_cast<std::size_t>(demand_[t]) + 1));
  }

  // The least sum over parts that make up each multiset; a part counts `each` of it. The highest type first:
  // every split has one part that holds a piece of it.
  std::vector<std::int64_t> summed(const std::vector<std::int64_t>& each) const {
    std::vector<std::int64_t> out(states_, kNever);
    out[0] = 0;
    for (std::size_t u = 1; u < states_; ++u) {
      std::size_t top = demand_.size() - 1;
      while (digit(u, top) == 0) --top;
      std::int64_t best = kNever;
      split(u, top, 0, [&](std::size_t part) {
        if (digit(part, top) > 0 && each[part] < kNever) best = std::min(best, each[part] + out[u - part]);
      });
      out[u] = best;
    }
    return out;
  }
  template <class See>
  void split(std::size_t u, std::size_t t, std::size_t part, const See& see) const {
    for (std::int64_t n = 0; n <= digit(u, t); ++n) {
      const std::size_t with = part + weight_[t] * static_cast<std::size_t>(n);
      if (t == 0) {
        see(with);
      } else {
        split(u, t - 1, with, see);
      }
    }
  }

  // How thick a strip each multiset needs, then how high a pile of strips.
  std::vector<std::int64_t> heights(std::int64_t capacity) const {
    std::vector<std::int64_t> strip(states_, kNever);
    std::vector<std::int64_t> thicks;
    for (const Box& box : boxes_) {
      thicks.push_back(box.a);
      thicks.push_back(box.b);
    }
    std::sort(thicks.begin(), thicks.end());
    thicks.erase(std::unique(thicks.begin(), thicks.end()), thicks.end());
    std::vector<std::int64_t> length(states_);
    for (const std::int64_t thick : thicks) {
      length.assign(states_, kNever);
      length[0] = 0;
      for (std::size_t u = 1; u < states_; ++u) {
        for (const Box& box : boxes_) {
          bool there = true;
          for (std::size_t t = 0; t < demand_.size(); ++t) there = there && digit(u, t) >= box.takes[t];
          if (!there) continue;
          if (box.a <= thick) length[u] = std::min(length[u], length[u - box.weight] + box.b);
          if (box.b <= thick) length[u] = std::min(length[u], length[u - box.weight] + box.a);
        }
        if (length[u] <= capacity) strip[u] = std::min(strip[u], thick);
      }
    }
    return summed(strip);
  }

  const Question& q_;
  std::vector<std::int64_t> demand_;
  std::vector<std::size_t> weight_;
  std::size_t states_ = 1;
  std::vector<Box> boxes_;
  bool too_much_ = false;
};

double try_all(const Question& q, const job::CutCode& code,
               const std::map<std::string, std::int64_t>& wanted) {
  const std::int64_t cost = TryAll(q, code, wanted).cheapest();
  return cost < 0 ? -1 : static_cast<double>(cost) / kParts + q.pieces;
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

double straight(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack, const job::CutCode& code,
                const std::map<std::string, std::int64_t>& wanted) {
  const job::CutProof& proof = code.proof;
  const std::int64_t step = whole(proof.straight_step.in_mm());
  if (step <= 0 || proof.straight_scale <= 0 || !boxes_are_true(plan, code, wanted)) return -1;
  const Question q = question(plan, yard, pack, code, wanted);
  if (q.keep_rate != 0) return -1;
  std::map<std::string, std::int64_t> price_of;
  std::int64_t must = 0;
  for (const job::CutProof::Price& price : proof.straight_prices) {
    const auto have = wanted.find(price.mark);
    if (price.price < 0 || price.price > (std::int64_t{1} << 31) || !price_of.emplace(price.mark, price.price).second) {
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

double searched(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack,
                const job::CutCode& code, const std::map<std::string, std::int64_t>& wanted) {
  if (!boxes_are_true(plan, code, wanted)) return -1;
  const Question q = question(plan, yard, pack, code, wanted);
  return try_all(q, code, wanted);
}

}  // namespace lapwright::cutcheck

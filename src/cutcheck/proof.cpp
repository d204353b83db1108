#include "proof.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>
#include <vector>

namespace lapwright::cutcheck {

namespace {

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
  if (q.keep_rate == 0 || std::max(a, b) < q.keep_long || std::min(a, b) < q.keep_short || std::min(a, b) <= 0) return 0;
  return a * b * q.keep_rate / 1'000'000;
}

Question question(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack, const job::CutCode& code,
                  const std::map<std::string, std::int64_t>& wanted) {
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
    const double price = roll.price ? static_cast<double>(*roll.price)
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
                         std::max<std::int64_t>(0, std::llround((worth - scrap * area) * kParts)), offcut.count});
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
    if (i + 1 == items.size() || items[i + 1].along != items[i].along) kinds.emplace_back(items[i].along, strip.back());
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
bool boxes_are_true(const job::Plan& plan, const job::CutCode& code, const std::map<std::string, std::int64_t>& wanted) {
  for (const job::Piece& piece : plan.pieces) {
    if (piece.code != code.code || wanted.find(piece.mark) == wanted.end()) continue;
    const geom::Box net = geom::bounds(piece.net.outline);
    const double length = std::ceil(static_cast<double>(net.width()) / 1000 - 1e-9);
    const double width = std::ceil(static_cast<double>(net.height()) / 1000 - 1e-9);
    const bool listed = std::any_of(code.proof.boxes.begin(), code.proof.boxes.end(), [&](const job::CutProof::Box& box) {
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

}  // namespace

double proven(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack, const job::CutCode& code,
              const std::map<std::string, std::int64_t>& wanted) {
  if (code.proof.scale <= 0 || code.proof.prices.empty() || !boxes_are_true(plan, code, wanted)) return -1;
  const Question q = question(plan, yard, pack, code, wanted);
  const std::int64_t scale = code.proof.scale;
  std::int64_t sum = 0;
  for (const job::CutProof::Price& price : code.proof.prices) {
    const auto have = wanted.find(price.mark);
    if (price.price < 0) return -1;
    if (have != wanted.end()) sum += price.price * have->second;
  }
  for (const Size& size : q.sizes) {
    const auto across = [&](std::int64_t left) { return scale * credit(q, size.width, left); };
    const auto along = [&](std::int64_t left) { return scale * credit(q, left, size.length); };
    const std::int64_t worth = std::max(most_of(q, size.width, size.length, true, across),
                                        most_of(q, size.length, size.width, false, along));
    const std::int64_t over = worth - size.cost * scale;
    if (over <= 0) continue;
    if (size.most < 0) return -1;
    sum -= over * size.most;
  }
  const std::int64_t bound = sum <= 0 ? 0 : (sum + scale - 1) / scale;
  return static_cast<double>(rounded_up(q, bound)) / kParts + q.pieces;
}

double searched(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack, const job::CutCode& code,
                const std::map<std::string, std::int64_t>& wanted) {
  if (!boxes_are_true(plan, code, wanted)) return -1;
  const Question q = question(plan, yard, pack, code, wanted);
  std::vector<std::int64_t> demand;
  std::vector<std::pair<std::int64_t, std::int64_t>> box;  // of each type
  for (const job::CutProof::Box& one : code.proof.boxes) {
    if (one.marks.size() != 1) return -1;
    const auto have = wanted.find(one.marks.front());
    if (have == wanted.end()) continue;
    demand.push_back(have->second);
    box.emplace_back(whole(one.length.in_mm()), whole(one.width.in_mm()));
  }
  const std::size_t types = demand.size();
  std::size_t states = 1;
  double pairs = 1;
  std::vector<std::size_t> weight;
  for (const std::int64_t d : demand) {
    weight.push_back(states);
    states *= static_cast<std::size_t>(d) + 1;
    pairs *= static_cast<double>(d + 1) * static_cast<double>(d + 2) / 2;
    if (pairs > 4e6) return -1;
  }
  const auto digit = [&](std::size_t u, std::size_t t) {
    return static_cast<std::int64_t>(u / weight[t] % (static_cast<std::size_t>(demand[t]) + 1));
  };
  // All splits of u into a part and a rest.
  const std::function<void(std::size_t, std::size_t, std::size_t, const std::function<void(std::size_t)>&)> split =
      [&](std::size_t u, std::size_t t, std::size_t part, const std::function<void(std::size_t)>& see) {
        if (t == types) {
          if (part != 0) see(part);
          return;
        }
        for (std::int64_t n = 0; n <= digit(u, t); ++n) {
          split(u, t + 1, part + weight[t] * static_cast<std::size_t>(n), see);
        }
      };
  constexpr std::int64_t kNever = std::int64_t{1} << 50;
  std::vector<std::int64_t> single(states, kNever);
  std::map<std::pair<std::int64_t, bool>, std::vector<std::int64_t>> known;  // pile heights
  const auto kerf = static_cast<std::int64_t>(std::ceil(yard.kerf.in_mm() - 1e-6));
  for (const Size& size : q.sizes) {
    if (size.most >= 0) return -1;
    // Which side of a piece lies which way does not matter here: every piece may turn, so one table a capacity serves.
    for (const auto& [capacity, room] : {std::pair(size.width, size.length), std::pair(size.length, size.width)}) {
      auto& pile = known[{capacity, true}];
      if (pile.empty()) {
        std::vector<std::int64_t> strip(states, kNever);
        for (std::size_t u = 1; u < states; ++u) {
          for (const auto& limit : box) {
            for (const std::int64_t thick : {limit.first + kerf, limit.second + kerf}) {
              if (thick >= strip[u]) continue;
              std::int64_t sum = 0;
              for (std::size_t t = 0; t < types; ++t) {
                std::int64_t shortest = kNever;
                if (box[t].first + kerf <= thick) shortest = box[t].second + kerf;
                if (box[t].second + kerf <= thick) shortest = std::min(shortest, box[t].first + kerf);
                if (digit(u, t) > 0) sum += digit(u, t) * shortest;
                if (sum > capacity) break;
              }
              if (sum <= capacity) strip[u] = thick;
            }
          }
        }
        pile.assign(states, kNever);
        pile[0] = 0;
        for (std::size_t u = 1; u < states; ++u) {
          split(u, 0, 0, [&](std::size_t part) {
            if (strip[part] < kNever) pile[u] = std::min(pile[u], strip[part] + pile[u - part]);
          });
        }
      }
      for (std::size_t u = 1; u < states; ++u) {
        if (pile[u] <= room) single[u] = std::min(single[u], size.cost);
      }
    }
  }
  std::vector<std::int64_t> cost(states, kNever);
  cost[0] = 0;
  for (std::size_t u = 1; u < states; ++u) {
    split(u, 0, 0, [&](std::size_t part) {
      if (single[part] < kNever) cost[u] = std::min(cost[u], single[part] + cost[u - part]);
    });
  }
  return cost.back() >= kNever ? -1 : static_cast<double>(cost.back()) / kParts + q.pieces;
}

}  // namespace lapwright::cutcheck

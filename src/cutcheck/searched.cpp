#include "proof.h"
#include "question.h"

#include <algorithm>
#include <utility>

namespace lapwright::cutcheck {

namespace {

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

double searched(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack,
                const job::CutCode& code, const std::map<std::string, std::int64_t>& wanted) {
  if (!boxes_are_true(plan, code, wanted)) return -1;
  const Question q = question(plan, yard, pack, code, wanted);
  return try_all(q, code, wanted);
}

}  // namespace lapwright::cutcheck

#include <lapwright/cutcheck/cutcheck.h>

#include "cuts.h"
#include "proof.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace lapwright::cutcheck {

namespace {

constexpr double kPenny = 0.02;  // sums of rounded money
constexpr double kGram = 1e-6;   // kg, a share of what is summed

const job::Piece* piece_of(const job::Plan& plan, const std::string& mark) {
  for (const job::Piece& piece : plan.pieces) {
    if (piece.mark == mark) return &piece;
  }
  return nullptr;
}

std::int64_t um(Length length) {
  return std::llround(length.in_mm() * 1000);
}

// The net as it lies on the roll, µm.
geom::Ring laid(const job::Piece& piece, const job::CutPiece& at) {
  const geom::Box box = geom::bounds(piece.net.outline);
  // The box in whole mm is what lies there; the net sits in its low corner before it is turned.
  const std::int64_t width = (box.height() + 999) / 1000 * 1000;
  geom::Ring out;
  for (const geom::GridPoint& p : piece.net.outline) {
    std::int64_t x = p.x - box.low.x;
    std::int64_t y = p.y - box.low.y;
    if (at.reversed) {
      x = box.width() - x;
      y = box.height() - y;
    }
    if (at.turned) {
      const std::int64_t before = x;
      x = width - y;
      y = before;
    }
    out.push_back({um(at.x) + x, um(at.y) + y});
  }
  return out;
}

struct OnRoll {
  const job::CutPiece* piece = nullptr;
  geom::Ring ring;
  geom::Box box;
};

bool inside(const geom::Box& box, const Rect& rect) {
  return box.low.x >= rect.x && box.low.y >= rect.y && box.high.x <= rect.x + rect.length &&
         box.high.y <= rect.y + rect.width;
}

bool boxes_meet(const geom::Box& a, const geom::Box& b) {
  return a.low.x < b.high.x && b.low.x < a.high.x && a.low.y < b.high.y && b.low.y < a.high.y;
}

void check_roll(const job::Plan& plan, const job::CutRoll& roll, std::int64_t kerf,
                std::vector<Complaint>& out) {
  std::vector<LastPart> parts = cut_again(roll, kerf, out);
  std::vector<OnRoll> pieces;
  for (const job::CutPiece& piece : roll.pieces) {
    const job::Piece* of = piece_of(plan, piece.mark);
    if (of == nullptr || of->code != roll.code) {
      out.push_back({"outside", roll.name + " / " + piece.mark});
      continue;
    }
    OnRoll one{&piece, laid(*of, piece), {}};
    one.box = geom::bounds(one.ring);
    pieces.push_back(std::move(one));
  }
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    for (std::size_t j = i + 1; j < pieces.size(); ++j) {
      if (boxes_meet(pieces[i].box, pieces[j].box) && share_area(pieces[i].ring, pieces[j].ring)) {
        out.push_back({"overlap", roll.name + " / " + pieces[i].piece->mark + " / " + pieces[j].piece->mark});
      }
    }
    // Each piece takes the place of its mark in one of the parts.
    bool placed = false;
    for (LastPart& part : parts) {
      const auto mark = std::find(part.marks.begin(), part.marks.end(), pieces[i].piece->mark);
      if (mark == part.marks.end() || !inside(pieces[i].box, part.rect)) continue;
      part.marks.erase(mark);
      placed = true;
      break;
    }
    if (!placed) out.push_back({"outside", roll.name + " / " + pieces[i].piece->mark});
  }
  for (const LastPart& part : parts) {
    for (const std::string& mark : part.marks) out.push_back({"missing", roll.name + " / " + mark});
  }
  for (const job::CutLeft& left : roll.left) {
    const Rect rect{um(left.x), um(left.y), um(left.length), um(left.width)};
    const bool is_left = std::any_of(parts.begin(), parts.end(), [&](const LastPart& part) {
      return part.rect.x <= rect.x && part.rect.y <= rect.y &&
             part.rect.x + part.rect.length >= rect.x + rect.length &&
             part.rect.y + part.rect.width >= rect.y + rect.width;
    });
    const bool covered = std::any_of(pieces.begin(), pieces.end(), [&](const OnRoll& piece) {
      return boxes_meet(piece.box, {{rect.x, rect.y}, {rect.x + rect.length, rect.y + rect.width}});
    });
    if (!is_left || covered) out.push_back({"cut", roll.name + " / left over"});
  }
}

bool same(double a, double b, double slack) {
  return std::fabs(a - b) <= slack * (1 + std::fabs(a) * 1e-6);
}

// Every roll is one that the yard has, at its price, and no oftener than it has it.
void check_stock(const job::Yard& yard, const job::Cutting& cutting, const practice::Pack& pack,
                 std::vector<Complaint>& out) {
  const auto mm = [](Length length) { return std::floor(length.in_mm() + 1e-6); };
  std::map<std::size_t, std::int64_t> bought;
  std::map<std::size_t, std::int64_t> taken;
  for (const job::CutRoll& roll : cutting.rolls) {
    bool known = false;
    const double kg = pack.lead(roll.code).kg_per_m2 * roll.width.in_m() * roll.length.in_m();
    if (!same(kg, roll.mass.in_kg(), kGram)) out.push_back({"sum", roll.name});
    std::int64_t wanted = roll.count;
    if (roll.offcut) {
      for (std::size_t i = 0; i < yard.offcuts.size() && wanted > 0; ++i) {
        const job::YardOffcut& offcut = yard.offcuts[i];
        if (offcut.code != roll.code || mm(offcut.width) != roll.width.in_mm() ||
            mm(offcut.length) != roll.length.in_mm())
          continue;
        const std::int64_t take = std::min(wanted, offcut.count - taken[i]);
        taken[i] += take;
        wanted -= take;
      }
      known = wanted == 0;
    } else {
      for (std::size_t i = 0; i < yard.rolls.size() && wanted > 0; ++i) {
        const job::YardRoll& sold = yard.rolls[i];
        if (sold.code != roll.code || mm(sold.width) != roll.width.in_mm() ||
            mm(sold.length) != roll.length.in_mm())
          continue;
        const double price = sold.price ? static_cast<double>(*sold.price)
                                        : std::round(static_cast<double>(sold.price_per_kg.value_or(0)) * kg);
        if (!same(price, roll.price, 0.5)) continue;
        const std::int64_t take = sold.in_stock ? std::min(wanted, *sold.in_stock - bought[i]) : wanted;
        bought[i] += take;
        wanted -= take;
      }
      known = wanted == 0;
    }
    if (!known) out.push_back({"stock", roll.name});
  }
}

void check_counts(const job::Plan& plan, const std::map<std::string, std::int64_t>& cut,
                  const practice::Pack& pack, std::vector<Complaint>& out) {
  std::map<std::string, std::int64_t> balance = cut;
  for (const job::Piece& piece : plan.pieces) {
    if (piece.wrong && cut.find(piece.mark) != cut.end()) out.push_back({"wrong", piece.mark});
    if (piece.code && piece.count > 0 && pack.has_lead(*piece.code)) balance[piece.mark] -= piece.count;
  }
  for (const job::CutRefusal& refusal : plan.cutting->refused) balance[refusal.mark] += refusal.count;
  for (const auto& [mark, n] : balance) {
    if (n != 0) out.push_back({"missing", mark});
  }
}

void check_sums(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack,
                std::vector<Complaint>& out) {
  const job::Cutting& cutting = *plan.cutting;
  double bought = 0;
  double rack = 0;
  double used = 0;
  double kept = 0;
  double price = 0;
  double cost = 0;
  std::map<std::int64_t, double> by_code;
  for (const job::CutRoll& roll : cutting.rolls) {
    const auto n = static_cast<double>(roll.count);
    const double kg_per_mm2 = pack.lead(roll.code).kg_per_m2 / 1e6;
    (roll.offcut ? rack : bought) += roll.mass.in_kg() * n;
    price += roll.price * n;
    double here = 0;
    double kept_here = 0;
    for (const job::CutPiece& piece : roll.pieces) {
      const job::Piece* of = piece_of(plan, piece.mark);
      if (of != nullptr) here += of->area.in_mm2() * kg_per_mm2;
    }
    for (const job::CutLeft& left : roll.left) {
      if (left.keep) kept_here += left.length.in_mm() * left.width.in_mm() * kg_per_mm2;
    }
    used += here * n;
    kept += kept_here * n;
    double cheapest = 1e300;
    for (const job::YardRoll& sold : yard.rolls) {
      if (sold.code != roll.code) continue;
      const double area = std::floor(sold.width.in_mm() + 1e-6) * std::floor(sold.length.in_mm() + 1e-6);
      const double one =
          sold.price ? static_cast<double>(*sold.price)
                     : std::round(static_cast<double>(sold.price_per_kg.value_or(0)) * kg_per_mm2 * area);
      cheapest = std::min(cheapest, one / (area * kg_per_mm2));
    }
    const auto scrap = static_cast<double>(yard.scrap_per_kg);
    const double keep =
        cheapest > 1e299 ? scrap : std::max(scrap, static_cast<double>(yard.keep_percent) / 100 * cheapest);
    double value = roll.price - kept_here * keep - (roll.mass.in_kg() - here - kept_here) * scrap;
    if (roll.offcut) {
      const bool worth_keeping =
          yard.keep_length > Length{} && roll.length >= yard.keep_length && roll.width >= yard.keep_width;
      value += roll.mass.in_kg() * (worth_keeping ? keep : scrap);
    }
    by_code[roll.code] += value * n;
    cost += value * n;
  }
  const auto sum = [&](bool good, const char* what) {
    if (!good) out.push_back({"sum", what});
  };
  sum(same(bought, cutting.bought.in_kg(), 1e-6), "bought");
  sum(same(rack, cutting.from_rack.in_kg(), 1e-6), "from rack");
  sum(same(used, cutting.used.in_kg(), 1e-6), "used");
  sum(same(kept, cutting.kept.in_kg(), 1e-6), "kept");
  sum(same(bought + rack - used - kept, cutting.scrap.in_kg(), 1e-6), "scrap");
  sum(same(price, cutting.price, kPenny), "price");
  sum(same(cost, cutting.cost, kPenny), "cost");
  for (const job::CutCode& code : cutting.codes) {
    sum(same(by_code[code.code], code.cost, kPenny), "cost of a code");
  }
}

void check_bounds(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack,
                  const std::map<std::string, std::int64_t>& cut, std::vector<Complaint>& out) {
  double strips = 0;
  double any = 0;
  double straight = 0;
  for (const job::CutCode& code : plan.cutting->codes) {
    const std::string where = "code " + std::to_string(code.code);
    const double area = by_area(plan, yard, pack, code, cut);
    if (code.any > area + kPenny) out.push_back({"bound", where + " / any"});
    double limit = std::max(area, proven(plan, yard, pack, code, cut));
    if (code.searched > 0) {
      const double again = searched(plan, yard, pack, code, cut);
      limit = std::max(limit, again);
      if (again < 0 || std::fabs(again - code.searched) > kPenny)
        out.push_back({"bound", where + " / searched"});
    }
    if (code.strips > limit + kPenny) out.push_back({"bound", where + " / strips"});
    if (code.any > code.cost + kPenny || code.straight > code.cost + kPenny ||
        code.any > code.straight + kPenny) {
      out.push_back({"bound", where + " / above the plan"});
    }
    if (code.straight > area + kPenny &&
        code.straight > cutcheck::straight(plan, yard, pack, code, cut) + kPenny) {
      out.push_back({"bound", where + " / straight"});
    }
    strips += code.strips;
    any += code.any;
    straight += code.straight;
  }
  const auto gap = [&](double bound) { return bound > 0 ? plan.cutting->cost / bound - 1 : 0; };
  if (!same(gap(strips), plan.cutting->gap_strips, 1e-9) || !same(gap(any), plan.cutting->gap_any, 1e-9) ||
      !same(gap(straight), plan.cutting->gap_straight, 1e-9)) {
    out.push_back({"bound", "gap"});
  }
}

}  // namespace

std::vector<Complaint> check(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack) {
  std::vector<Complaint> out;
  const job::Cutting& cutting = *plan.cutting;
  const auto kerf = static_cast<std::int64_t>(std::ceil(yard.kerf.in_mm() - 1e-6)) * 1000;
  std::map<std::string, std::int64_t> cut;
  for (const job::CutRoll& roll : cutting.rolls) {
    check_roll(plan, roll, kerf, out);
    for (const job::CutPiece& piece : roll.pieces) cut[piece.mark] += roll.count;
  }
  check_stock(yard, cutting, pack, out);
  check_counts(plan, cut, pack, out);
  check_sums(plan, yard, pack, out);
  check_bounds(plan, yard, pack, cut, out);
  return out;
}

}  // namespace lapwright::cutcheck

#include <lapwright/estimate/price.h>

#include "lines.h"

#include <lapwright/base/nearest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace lapwright::estimate {

namespace {

using job::Per;
using practice::Why;

constexpr std::int64_t kWhole = 10'000;  // hundredths of a percent in one
constexpr double kMmInM = 1000;
constexpr double kShown = 100;  // quantities are priced in hundredths, as they are printed

// What a yard may price, and per what it may do so. Rolls are priced where the yard lists them, hours under
// labour.
struct Priced {
  std::string_view item;
  Per per = Per::piece;
  std::optional<Per> or_per;
};
constexpr std::array<Priced, 15> kPriced{{
    {"covering.unit", Per::piece, {}},
    {"covering.unit_and_half", Per::piece, {}},
    {"covering.eaves_unit", Per::piece, {}},
    {"battens.length", Per::m, Per::length},
    {"fixings.unit_nails", Per::kg, {}},
    {"fixings.batten_nails", Per::kg, {}},
    {"fixings.lead_nails", Per::piece, {}},
    {"fixings.clips", Per::piece, {}},
    {"lead.other_metal", Per::kg, {}},
    {"timber.tilting_fillet", Per::m, {}},
    {"timber.boards", Per::m2, {}},
    {"timber.underlay_upturn", Per::m, {}},
    {"finishing.sealant", Per::piece, {}},
    {"finishing.oil", Per::l, {}},
    {"access.scaffold", Per::week, {}},
}};

const Priced* priced(std::string_view item) {
  const auto at =
      std::find_if(kPriced.begin(), kPriced.end(), [&](const Priced& p) { return p.item == item; });
  return at == kPriced.end() ? nullptr : &*at;
}

Faults faults_of(const job::Yard& yard) {
  Faults out;
  std::vector<std::string_view> known;
  std::string list;
  for (const Priced& p : kPriced) {
    known.push_back(p.item);
    list += (list.empty() ? "" : ", ") + std::string(p.item);
  }
  for (std::size_t i = 0; i < yard.prices.size(); ++i) {
    const job::YardPrice& price = yard.prices[i];
    const std::string path = "$.prices[" + std::to_string(i) + "]";
    const Priced* what = priced(price.item);
    if (what == nullptr) {
      const auto near = nearest(price.item, known);
      out.push_back({FaultCode::bad_choice,
                     path + ".item",
                     {},
                     quoted(price.item),
                     list,
                     near ? "did you mean " + std::string(*near) + "?" : "take one of these"});
    } else if (price.per != what->per && price.per != what->or_per) {
      out.push_back(
          {FaultCode::bad_choice,
           path + ".per",
           {},
           quoted(name_of(price.per)),
           quoted(name_of(what->per)) + (what->or_per ? " or " + quoted(name_of(*what->or_per)) : ""),
           "price it in what it is counted in"});
    }
  }
  return out;
}

double param(const job::EstimateLine& line, std::string_view name) {
  for (const job::Param& p : line.params) {
    const auto* number = std::get_if<double>(&p.value);
    if (p.name == name && number != nullptr) return *number;
  }
  return 0;
}

std::int64_t nearest_whole(double value) {
  return static_cast<std::int64_t>(std::floor(value + 0.5));
}

class Pricing {
 public:
  Pricing(const job::Plan& plan, const job::Yard& yard) : plan_(plan), yard_(yard) {
    out_.currency = yard.currency;
    out_.yard = yard.title;
    out_.invented = yard.prices_invented;
    if (!yard.terms) return;
    out_.vat = yard.terms->vat;
    out_.valid_days = yard.terms->valid_days;
    out_.not_included = yard.terms->not_included;
    for (const job::YardTerms::Provisional& one : yard.terms->provisional) {
      out_.provisional.push_back({one.what, one.price});
    }
  }

  job::Price run() {
    for (const job::EstimateLine& line : plan_.estimate.lines) {
      if (!left_out(line.group)) take(line);
    }
    add_minimum_order();
    add_sums();
    return std::move(out_);
  }

 private:
  bool left_out(const std::string& group) const {
    return yard_.terms && std::find(yard_.terms->leave_out.begin(), yard_.terms->leave_out.end(), group) !=
                              yard_.terms->leave_out.end();
  }

  void take(const job::EstimateLine& line) {
    if (line.item == "lead.roll" || line.item == "lead.roll_two_people") {
      add(line, line.quantity, Per::piece, nearest_whole(param(line, "price")));
    } else if (line.item == "lead.from_rack") {
      add(line, line.quantity, Per::piece, worth_in_rack(line));
    } else if (line.item == "lead.no_roll") {
      add(line, line.quantity, Per::kg, std::nullopt);
    } else if (line.group == "labour") {
      take_labour(line);
    } else if (const Priced* what = priced(line.item)) {
      const job::YardPrice* price = nullptr;
      for (const job::YardPrice& one : yard_.prices) {
        if (one.item == line.item) price = &one;
      }
      const Per per = price == nullptr ? what->per : price->per;
      const double quantity = per == Per::length ? param(line, "count") : line.quantity;
      add(line, quantity, per, price == nullptr ? std::nullopt : std::optional(price->price));
    }
  }

  // An offcut is paid for, but what it could be kept or sold for goes into the job with it. Empty: nobody
  // says.
  std::optional<std::int64_t> worth_in_rack(const job::EstimateLine& line) const {
    const double kg = param(line, "kg");
    const double length = param(line, "length") * kMmInM;
    const double width = param(line, "width");
    double per_kg = static_cast<double>(yard_.scrap_per_kg);
    if (yard_.keep_length > Length{} && std::max(length, width) >= yard_.keep_length.in_mm() &&
        std::min(length, width) >= yard_.keep_width.in_mm()) {
      std::optional<double> cheapest;
      for (const job::YardRoll& roll : yard_.rolls) {
        if (roll.code != nearest_whole(param(line, "code"))) continue;
        const double weighs = kg * (roll.width * roll.length).in_mm2() / (length * width);
        const double price = roll.price_per_kg ? static_cast<double>(*roll.price_per_kg)
                                               : static_cast<double>(roll.price.value_or(0)) / weighs;
        if (!cheapest || price < *cheapest) cheapest = price;
      }
      if (cheapest) per_kg = std::max(per_kg, *cheapest * static_cast<double>(yard_.keep_percent) / 100);
    }
    const std::int64_t worth = nearest_whole(per_kg * kg);
    return worth > 0 ? std::optional(worth) : std::nullopt;
  }

  // By the day where the yard has a price for a day: crew × days; by the hour otherwise.
  void take_labour(const job::EstimateLine& line) {
    const bool by_day = yard_.labour && yard_.labour->per_day;
    const bool days = line.item == "labour.days";
    if (by_day != days) return;
    if (by_day) {
      add(line, line.quantity * param(line, "crew"), Per::day, yard_.labour->per_day);
    } else {
      add(line, line.quantity, Per::hour, yard_.labour ? yard_.labour->per_hour : std::nullopt);
    }
  }

  void add(const job::EstimateLine& line, double quantity, Per per, std::optional<std::int64_t> price) {
    job::PriceLine out;
    out.group = line.group;
    out.item = line.item;
    out.slope = line.slope;
    out.text = line.text;
    quantity = static_cast<double>(std::max<std::int64_t>(1, nearest_whole(quantity * kShown))) / kShown;
    out.quantity = quantity;
    out.per = name_of(per);
    out.price = price;
    if (price) {
      out.amount = nearest_whole(quantity * static_cast<double>(*price));
      (line.group == "labour" ? labour_ : line.group == "access" ? access_ : materials_) += *out.amount;
    } else {
      ++out_.missing;
    }
    out_.lines.push_back(std::move(out));
  }

  // What the merchant asks beyond the rolls, where the order is under his least.
  void add_minimum_order() {
    if (!plan_.cutting || left_out("lead")) return;
    const std::int64_t more = nearest_whole(plan_.cutting->order) - nearest_whole(plan_.cutting->price);
    if (more <= 0) return;
    job::EstimateLine line;
    line.group = "lead";
    line.item = "lead.minimum_order";
    add(line, 1, Per::piece, more);
  }

  void sum(std::string_view name, std::int64_t amount, Why&& why) {
    out_.sums.push_back({std::string(name), amount, why.gives(static_cast<double>(amount))});
  }

  void add_sums() {
    const auto number = [](std::int64_t n) { return static_cast<double>(n); };
    const job::YardTerms terms = yard_.terms.value_or(job::YardTerms{});
    const auto plain = [&](std::string_view name, std::int64_t amount) {
      sum(name, amount, std::move(Why(name, "s", "").term("s", number(amount), "", kFromLines)));
    };
    plain("materials", materials_);
    plain("labour", labour_);
    plain("access", access_);
    const std::int64_t cost = materials_ + labour_ + access_;
    const auto share = [&](std::string_view name, std::int64_t of, std::int64_t hundredths) {
      const std::int64_t amount = share_of(of, hundredths);
      sum(name, amount,
          std::move(Why(name, "floor(s * p / 100 + 0.5)", "")
                        .term("s", number(of), "", kFromLines)
                        .term("p", number(hundredths) / 100, "", "yard")));
      return amount;
    };
    const std::int64_t overheads = share("overheads", cost, terms.overheads);
    const std::int64_t margin = share("margin", cost + overheads, terms.margin);
    const std::int64_t net = cost + overheads + margin;
    sum("net", net,
        std::move(Why("net", "m + l + a + o + g", "")
                      .term("m", number(materials_), "", kFromLines)
                      .term("l", number(labour_), "", kFromLines)
                      .term("a", number(access_), "", kFromLines)
                      .term("o", number(overheads), "", kFromLines)
                      .term("g", number(margin), "", kFromLines)));
    std::int64_t vat = 0;
    if (terms.vat) vat = share("vat", net, *terms.vat);
    sum("total", net + vat,
        std::move(Why("total", "n + v", "")
                      .term("n", number(net), "", kFromLines)
                      .term("v", number(vat), "", kFromLines)));
  }

  const job::Plan& plan_;
  const job::Yard& yard_;
  job::Price out_;
  std::int64_t materials_ = 0;
  std::int64_t labour_ = 0;
  std::int64_t access_ = 0;
};

}  // namespace

std::int64_t share_of(std::int64_t amount, std::int64_t hundredths) {
  return (amount * hundredths + kWhole / 2) / kWhole;
}

bool prices_work(const job::Yard& yard) {
  return !yard.prices.empty() || yard.labour || yard.terms;
}

Result<job::Price> price(const job::Plan& plan, const job::Yard& yard) {
  Faults faults = faults_of(yard);
  constexpr std::array<std::string_view, 8> kGroups{"covering", "battens",   "timber", "fixings",
                                                    "lead",     "finishing", "labour", "access"};
  if (yard.terms) {
    for (const std::string& group : yard.terms->leave_out) {
      if (std::find(kGroups.begin(), kGroups.end(), group) != kGroups.end()) continue;
      faults.push_back({FaultCode::bad_choice,
                        "$.terms.leave_out",
                        {},
                        quoted(group),
                        "covering, battens, timber, fixings, lead, finishing, labour, access",
                        "take one of these"});
    }
  }
  if (!faults.empty()) return failed(std::move(faults));
  return Pricing(plan, yard).run();
}

}  // namespace lapwright::estimate

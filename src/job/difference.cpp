#include <lapwright/job/difference.h>

#include <lapwright/base/numbers.h>

#include <algorithm>
#include <array>
#include <map>
#include <utility>

#include <lapwright/job/json_text.h>

namespace lapwright::job {

namespace {

constexpr int kMm = 1;
constexpr int kFine = 3;

std::string mm(Length value) {
  return trimmed(value.in_mm(), kMm) + " mm";
}

std::string with_unit(double value, const std::string& unit) {
  return trimmed(value, unit == "mm" ? kMm : kFine) + (unit.empty() ? "" : " " + unit);
}

std::string money(std::int64_t hundredths) {
  const std::int64_t all = hundredths < 0 ? -hundredths : hundredths;
  std::string cents = std::to_string(all % 100);
  if (cents.size() < 2) cents = "0" + cents;
  return (hundredths < 0 ? "-" : "") + std::to_string(all / 100) + "." + cents;
}

// Named values of one thing, in order.
using Values = std::vector<std::pair<std::string, std::string>>;

struct Thing {
  std::string what;
  std::string where;
  Values values;
};

std::string key_of(const Thing& thing) {
  return thing.what + '\n' + thing.where;
}

class Things {
 public:
  // The same thing again gets a number, so that the second soaker of one place meets the second of the other
  // plan.
  void add(std::string what, const std::string& where, Values values) {
    const std::int64_t n = ++seen_[what + '\n' + where];
    all_.push_back(
        {std::move(what), n == 1 ? where : where + " (" + std::to_string(n) + ")", std::move(values)});
  }
  const std::vector<Thing>& all() const { return all_; }

 private:
  std::map<std::string, std::int64_t> seen_;
  std::vector<Thing> all_;
};

void add_figures(Things& into, const std::string& where, const std::vector<Figure>& figures) {
  Values values;
  for (const Figure& figure : figures) values.emplace_back(figure.name, with_unit(figure.value, figure.unit));
  into.add("figure", where, std::move(values));
}

void add_set_out(Things& into, const SetOut& out) {
  into.add(
      "set-out", out.slope,
      {{"gauge", mm(out.gauge)}, {"headlap", mm(out.headlap)}, {"courses", std::to_string(out.courses)}});
  Values tails;
  for (std::size_t i = 0; i < out.tails.size(); ++i) {
    tails.emplace_back("tail of course " + std::to_string(i + 1), mm(out.tails[i]));
  }
  into.add("course", out.slope, std::move(tails));
  add_figures(into, out.slope + " / set-out", out.figures);
}

void add_piece(Things& into, const Piece& piece) {
  std::string where = piece.slope;
  for (const std::string& part : {piece.junction, piece.face, piece.kind}) {
    if (!part.empty()) where += " / " + part;
  }
  into.add("piece", where,
           {{"mark", piece.mark},
            {"count", std::to_string(piece.count)},
            {"length", mm(piece.length)},
            {"width", mm(piece.width)},
            {"lead", piece.code ? "code " + std::to_string(*piece.code) : piece.metal},
            {"kg each", trimmed(piece.mass.in_kg(), kFine)}});
  add_figures(into, where, piece.figures);
}

std::string size_of(const EstimateLine& line) {
  std::string out;
  for (const Param& param : line.params) {
    const auto* number = std::get_if<double>(&param.value);
    if (number == nullptr || line.group != "lead") continue;
    if (param.name == "code" || param.name == "width" || param.name == "length") {
      out += ", " + param.name + " " + with_unit(*number, param.unit);
    }
  }
  return out;
}

Things things_of(const Plan& plan) {
  Things out;
  for (const SetOut& set_out : plan.set_out) add_set_out(out, set_out);
  for (const Piece& piece : plan.pieces) add_piece(out, piece);
  for (const EstimateLine& line : plan.estimate.lines) {
    const std::string where = (line.slope.empty() ? "" : line.slope + " / ") + line.item + size_of(line);
    out.add("quantity", where, {{"quantity", with_unit(line.quantity, line.unit)}});
  }
  if (plan.price) {
    for (const PriceLine& line : plan.price->lines) {
      const std::string where = (line.slope.empty() ? "" : line.slope + " / ") + line.item;
      out.add("price", where, {{"amount", line.amount ? money(*line.amount) : "missing"}});
    }
    for (const PriceSum& sum : plan.price->sums) out.add("price", sum.name, {{"sum", money(sum.amount)}});
  }
  for (const Finding& finding : plan.findings) {
    out.add("finding", finding.where + " / " + finding.rule,
            {{std::string(name_of(finding.level)), finding.text}});
  }
  return out;
}

std::string value_in(const Values& values, const std::string& name) {
  for (const auto& [key, value] : values) {
    if (key == name) return value;
  }
  return {};
}

void compare(const Thing* a, const Thing* b, std::vector<Difference>& out) {
  const Thing& either = a != nullptr ? *a : *b;
  const Values none;
  const Values& left = a != nullptr ? a->values : none;
  const Values& right = b != nullptr ? b->values : none;
  std::vector<std::string> names;
  for (const Values* side : {&left, &right}) {
    for (const auto& [name, value] : *side) {
      if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
    }
  }
  for (const std::string& name : names) {
    Difference one{either.what, either.where, name, value_in(left, name), value_in(right, name)};
    if (one.a != one.b) out.push_back(std::move(one));
  }
}

}  // namespace

std::vector<Difference> differences(const Plan& a, const Plan& b) {
  const Things left = things_of(a);
  const Things right = things_of(b);
  std::map<std::string, const Thing*> there;
  for (const Thing& thing : right.all()) there.emplace(key_of(thing), &thing);
  std::vector<Difference> out;
  std::map<std::string, bool> done;
  for (const Thing& thing : left.all()) {
    const auto other = there.find(key_of(thing));
    done[key_of(thing)] = true;
    compare(&thing, other == there.end() ? nullptr : other->second, out);
  }
  for (const Thing& thing : right.all()) {
    if (!done.contains(key_of(thing))) compare(nullptr, &thing, out);
  }
  const auto place = [](const Difference& one) {
    constexpr std::array<std::string_view, 7> kOrder{"set-out",  "course", "piece",  "figure",
                                                     "quantity", "price",  "finding"};
    return std::find(kOrder.begin(), kOrder.end(), one.what) - kOrder.begin();
  };
  std::stable_sort(out.begin(), out.end(),
                   [&](const Difference& x, const Difference& y) { return place(x) < place(y); });
  return out;
}

std::string write_differences(const Plan& a, const Plan& b, const std::vector<Difference>& differences) {
  JsonText json;
  const auto text = [&](std::string_view key, std::string_view value) {
    json.key(key);
    json.text(value);
  };
  json.open_lines('{');
  text("format", "lapwright-compare/1");
  text("a", a.fingerprint);
  text("b", b.fingerprint);
  json.key("differences");
  json.open_lines('[');
  for (const Difference& one : differences) {
    json.open_object();
    text("what", one.what);
    text("where", one.where);
    text("name", one.name);
    text("a", one.a);
    text("b", one.b);
    json.close_object();
  }
  json.close_lines(']');
  json.close_lines('}');
  return json.take() + '\n';
}

}  // namespace lapwright::job

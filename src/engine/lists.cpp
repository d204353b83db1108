#include "lists.h"

#include "csv.h"

#include <lapwright/base/numbers.h>
#include <lapwright/practice/why_text.h>

#include <set>

namespace lapwright::engine {

namespace {

constexpr int kMm = 1;
constexpr int kFine = 3;

std::string order_list(const job::Plan& plan, const practice::Catalogue& catalogue) {
  Csv csv({"group", "item", "slope", "quantity", "unit", "what"});
  for (const job::EstimateLine& line : plan.estimate.lines) {
    csv.text(catalogue.say("group." + line.group, {}, job::ShownIn::mm)).text(line.item).text(line.slope);
    csv.number(line.quantity, kFine).text(line.unit.empty() ? "piece" : line.unit).text(line.text).end();
  }
  return csv.take();
}

std::string piece_list(const job::Plan& plan) {
  Csv csv({"mark", "kind", "slope", "junction", "face", "count", "length mm", "width mm", "code", "metal",
           "kg each", "kg"});
  for (const job::Piece& piece : plan.pieces) {
    if (piece.wrong) continue;  // what is crossed out is on no list that somebody cuts or orders by
    const auto count = static_cast<double>(piece.count);
    csv.text(piece.mark).text(piece.kind).text(piece.slope).text(piece.junction).text(piece.face);
    csv.number(count, 0).number(piece.length.in_mm(), kMm).number(piece.width.in_mm(), kMm);
    if (piece.code) {
      csv.number(static_cast<double>(*piece.code), 0);
    } else {
      csv.none();
    }
    csv.text(piece.metal).number(piece.mass.in_kg(), kFine).number(piece.mass.in_kg() * count, kFine).end();
  }
  return csv.take();
}

std::string fitting_list(const job::Plan& plan) {
  Csv csv({"step", "slope", "junction", "course", "mark", "what"});
  std::int64_t number = 0;
  constexpr std::int64_t kNoCourse = -2;
  for (const job::WorkStep& step : plan.order_of_work) {
    csv.number(static_cast<double>(++number), 0).text(step.slope).text(step.junction);
    if (step.course == kNoCourse) {
      csv.none();
    } else {
      csv.number(static_cast<double>(step.course + 1), 0);  // as people count them; 0: the under-course
    }
    csv.text(step.mark).text(step.text).end();
  }
  return csv.take();
}

// Where each piece lies: x along the roll from the hooked end, y across it from the nearer edge.
std::string cutting_list(const job::Cutting& cutting) {
  Csv csv({"roll", "alike", "code", "width mm", "length mm", "kg", "from", "mark", "x mm", "y mm", "turned",
           "reversed"});
  for (const job::CutRoll& roll : cutting.rolls) {
    for (const job::CutPiece& piece : roll.pieces) {
      csv.text(roll.name)
          .number(static_cast<double>(roll.count), 0)
          .number(static_cast<double>(roll.code), 0);
      csv.number(roll.width.in_mm(), kMm).number(roll.length.in_mm(), kMm).number(roll.mass.in_kg(), kFine);
      csv.text(roll.offcut ? "rack" : "merchant").text(piece.mark);
      csv.number(piece.x.in_mm(), kMm).number(piece.y.in_mm(), kMm);
      csv.text(piece.turned ? "yes" : "no").text(piece.reversed ? "yes" : "no").end();
    }
  }
  return csv.take();
}

std::string_view way_word(job::CutWay way) {
  switch (way) {
    case job::CutWay::across:
      return "across";
    case job::CutWay::along:
      return "along";
    case job::CutWay::teeth:
      return "along the teeth";
  }
  return "";
}

// The knife's steps, in their order.
std::string cut_steps(const job::Cutting& cutting) {
  Csv csv({"roll", "step", "part", "way", "at mm", "gives", "cuts"});
  for (const job::CutRoll& roll : cutting.rolls) {
    std::int64_t number = 0;
    for (const job::CutStep& step : roll.cuts) {
      std::string at;
      for (const Length mark : step.at) at += (at.empty() ? "" : " ") + trimmed(mark.in_mm(), kMm);
      std::string gives;
      for (const std::string& part : step.gives) {
        gives += (gives.empty() ? "" : " ") + (part.empty() ? std::string("left") : part);
      }
      csv.text(roll.name).number(static_cast<double>(++number), 0).text(step.part).text(way_word(step.way));
      csv.text(at).text(gives).number(static_cast<double>(step.cuts), 0).end();
    }
  }
  return csv.take();
}

std::string batten_list(const job::Plan& plan) {
  Csv csv({"slope", "count", "lengths mm"});
  for (const job::BattenRun& run : plan.estimate.battens) {
    std::string lengths;
    for (const Length length : run.lengths) {
      lengths += (lengths.empty() ? "" : " + ") + practice::shown(length.in_mm(), "mm", job::ShownIn::mm);
    }
    csv.text(run.slope).number(static_cast<double>(run.count), 0).text(lengths).end();
  }
  return csv.take();
}

void figure_rows(Csv& csv, std::string_view owner, const std::vector<job::Figure>& figures) {
  for (const job::Figure& figure : figures) {
    std::string terms;
    for (const job::Term& term : figure.terms) {
      terms += (terms.empty() ? "" : "; ") + term.symbol + " = " +
               practice::shown(term.value, term.unit, job::ShownIn::mm, practice::ShownHow::fine) + ", " +
               term.from;
    }
    csv.text(owner).text(figure.name).number(figure.value, kFine).text(figure.unit);
    csv.text(figure.formula)
        .text(terms)
        .text(figure.rule)
        .text(figure.source)
        .text(name_of(figure.standing))
        .end();
  }
}

std::string proof_list(const job::Plan& plan) {
  Csv csv({"of", "figure", "value", "unit", "formula", "terms", "rule", "source", "standing"});
  for (const job::SetOut& set_out : plan.set_out) figure_rows(csv, set_out.slope, set_out.figures);
  std::set<std::string> seen;
  for (const job::Piece& piece : plan.pieces) {
    if (seen.insert(piece.mark).second) figure_rows(csv, piece.mark, piece.figures);
  }
  for (const job::EstimateLine& line : plan.estimate.lines) figure_rows(csv, line.slope, {line.figure});
  return csv.take();
}

std::string price_list(const job::Price& price, const practice::Catalogue& catalogue) {
  Csv csv(
      {"what", "slope", "quantity", "per", "price " + price.currency, "amount " + price.currency, "note"});
  const std::string missing = catalogue.say("price.missing", {}, job::ShownIn::mm);
  for (const job::PriceLine& line : price.lines) {
    csv.text(line.text).text(line.slope).number(line.quantity, kFine).text(line.per);
    if (line.price && line.amount) {
      csv.money(*line.price).money(*line.amount).none();
    } else {
      csv.none().none().text(missing);
    }
    csv.end();
  }
  for (const job::PriceSum& sum : price.sums) {
    csv.text(catalogue.say("price." + sum.name, {}, job::ShownIn::mm)).none().none().none().none();
    csv.money(sum.amount).none().end();
  }
  return csv.take();
}

}  // namespace

std::vector<List> lists_of(const Planned& planned) {
  const job::Plan& plan = planned.plan;
  std::vector<List> out{{"order", "order.csv", order_list(plan, planned.catalogue)},
                        {"cutting", "battens.csv", batten_list(plan)},
                        {"sheets", "pieces.csv", piece_list(plan)},
                        {"fitting", "fitting.csv", fitting_list(plan)},
                        {"proof", "proof.csv", proof_list(plan)}};
  if (plan.cutting && !plan.cutting->rolls.empty()) {
    out.push_back({"cutting", "cutting.csv", cutting_list(*plan.cutting)});
    out.push_back({"cutting", "cuts.csv", cut_steps(*plan.cutting)});
  }
  if (plan.price) out.push_back({"price", "price.csv", price_list(*plan.price, planned.catalogue)});
  return out;
}

}  // namespace lapwright::engine

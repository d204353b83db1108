#include "planning.h"

#include "fingerprint.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/engine/engine.h>
#include <lapwright/estimate/estimate.h>
#include <lapwright/estimate/price.h>
#include <lapwright/job/layout.h>
#include <lapwright/job/read_survey.h>
#include <lapwright/pieces/plan_joins.h>
#include <lapwright/pieces/plan_slope.h>
#include <lapwright/setout/lay_out.h>

#include <algorithm>
#include <iterator>
#include <string>
#include <utility>
#include <vector>

namespace lapwright::engine {

namespace {

using job::Level;

// A job may override a rule, but not past what the trade forbids without being told.
void judge_overrides(const practice::Pack& pack, job::Plan& plan) {
  for (const practice::Rule& rule : pack.rules()) {
    if (!rule.overridden) continue;
    plan.practice.overrides.push_back({rule.name, rule.value, rule.pack_value, rule.unit});
    const bool under = rule.least && rule.value < *rule.least - tolerance::kNoise.in_mm();
    const bool over = rule.most && rule.value > *rule.most + tolerance::kNoise.in_mm();
    if (!under && !over) continue;
    const double limit = under ? *rule.least : *rule.most;
    plan.findings.push_back({Level::wrong,
                             under ? "practice.under_least" : "practice.over_most",
                             {{"rule", "label." + rule.name, "key"},
                              {"value", rule.value, rule.unit},
                              {"limit", limit, rule.unit}},
                             "",
                             rule.value,
                             limit,
                             rule.bound_source,
                             "practice / " + rule.name});
  }
}

// Every value that this plan asked the pack for and that rests on memory.
void list_memory(const practice::Pack& pack, job::Plan& plan) {
  for (const practice::Rule* rule : pack.asked()) {
    if (rule->standing != job::Standing::memory || rule->overridden) continue;
    plan.practice.from_memory.push_back({rule->name, rule->value, rule->unit});
  }
}

void assume(const job::Survey& survey, job::Plan& plan) {
  if (!survey.exposure_given) {
    plan.findings.push_back({Level::note,
                             "survey.exposure_assumed",
                             {{"exposure", std::string(name_of(survey.exposure)), ""}},
                             "",
                             std::nullopt,
                             std::nullopt,
                             "survey",
                             "$.site.exposure"});
  }
  if (!survey.guessed.empty()) {
    const auto count = static_cast<double>(survey.guessed.size());
    plan.findings.push_back({Level::doubt,
                             "survey.guessed",
                             {{"count", count, ""}},
                             "",
                             count,
                             std::nullopt,
                             "survey",
                             "$." + survey.guessed.front()});
  }
}

int severity(Level level) {
  return level == Level::wrong ? 0 : level == Level::doubt ? 1 : 2;
}

// Params whose value is itself a catalogue key are put into words first.
job::Params in_words(const job::Params& params, const practice::Catalogue& catalogue, job::ShownIn shown_in) {
  job::Params out = params;
  for (job::Param& param : out) {
    if (param.unit != "key") continue;
    param.value = catalogue.say(std::get<std::string>(param.value), params, shown_in);
    param.unit.clear();
  }
  return out;
}

void by_severity(job::Plan& plan) {
  std::stable_sort(
      plan.findings.begin(), plan.findings.end(),
      [](const job::Finding& a, const job::Finding& b) { return severity(a.level) < severity(b.level); });
}

void put_estimate_in_words(const job::Survey& survey, const practice::Catalogue& catalogue, job::Plan& plan) {
  for (job::EstimateLine& line : plan.estimate.lines) {
    line.text = catalogue.say("item." + line.item, in_words(line.params, catalogue, survey.shown_in),
                              survey.shown_in);
  }
}

void put_in_words(const job::Survey& survey, const practice::Catalogue& catalogue, job::Plan& plan) {
  for (job::Finding& finding : plan.findings) {
    finding.text = catalogue.say("finding." + finding.rule,
                                 in_words(finding.params, catalogue, survey.shown_in), survey.shown_in);
  }
  for (job::Choice& choice : plan.choices) {
    choice.text = catalogue.say("finding." + choice.rule, in_words(choice.params, catalogue, survey.shown_in),
                                survey.shown_in);
  }
  put_estimate_in_words(survey, catalogue, plan);
  for (job::WorkStep& step : plan.order_of_work) {
    job::Params params = in_words(step.params, catalogue, survey.shown_in);
    params.push_back({"mark", step.mark, ""});
    params.push_back({"junction", step.junction, ""});
    params.push_back({"slope", step.slope, ""});
    step.text = catalogue.say(step.step, params, survey.shown_in);
  }
}

// Set-out, pieces, rows, choices, findings and order of work: everything that is drawn or laid.
Result<job::Plan> laid_out(const job::Survey& survey, const practice::Pack& pack) {
  job::Plan plan;
  Faults faults;
  const auto keep = [&](Faults&& more) { std::move(more.begin(), more.end(), std::back_inserter(faults)); };
  std::vector<job::SlopeLayout> layouts;
  for (std::size_t i = 0; i < survey.slopes.size(); ++i) {
    auto layout = setout::lay_out(survey, i, pack);
    if (!layout) keep(std::move(layout.error()));
    layouts.push_back(layout ? std::move(*layout) : job::SlopeLayout{});
  }
  std::vector<pieces::SlopePlan> slopes;
  for (std::size_t i = 0; i < survey.slopes.size(); ++i) {
    auto planned = pieces::plan_slope(survey, layouts, i, pack);
    if (!planned) {
      keep(std::move(planned.error()));
      continue;
    }
    slopes.push_back(std::move(*planned));
  }
  if (!faults.empty()) return failed(std::move(faults));
  for (pieces::SlopePlan& join : pieces::plan_joins(survey, layouts, pack)) slopes.push_back(std::move(join));
  for (job::SlopeLayout& layout : layouts) {
    plan.set_out.push_back(std::move(layout.set_out));
    std::move(layout.findings.begin(), layout.findings.end(), std::back_inserter(plan.findings));
  }

  pieces::give_marks(slopes);
  plan.order_of_work = pieces::whole_order(slopes, survey.slopes.size());
  for (pieces::SlopePlan& slope : slopes) {
    std::move(slope.pieces.begin(), slope.pieces.end(), std::back_inserter(plan.pieces));
    std::move(slope.rows.begin(), slope.rows.end(), std::back_inserter(plan.rows));
    std::move(slope.choices.begin(), slope.choices.end(), std::back_inserter(plan.choices));
    std::move(slope.findings.begin(), slope.findings.end(), std::back_inserter(plan.findings));
  }
  return plan;
}

Result<Planned> planned_with(std::string_view job_bytes, const practice::Pack& base_pack,
                             practice::Catalogue catalogue, std::string_view yard_bytes) {
  auto survey = job::read_survey(job_bytes);
  if (!survey) return failed(std::move(survey.error()));
  auto pack = base_pack.with_overrides(survey->practice, survey->unit_is_inches);
  if (!pack) return failed(std::move(pack.error()));
  auto laid = laid_out(*survey, *pack);
  if (!laid) return failed(std::move(laid.error()));
  job::Plan plan = std::move(*laid);
  plan.title = survey->title;
  plan.engine = version();
  plan.practice.pack = pack->name();
  plan.fingerprint = fingerprint({job_bytes, yard_bytes, pack->name(), version()});
  plan.estimate = estimate::estimate(*survey, plan, *pack);
  judge_overrides(*pack, plan);
  assume(*survey, plan);
  list_memory(*pack, plan);
  by_severity(plan);
  put_in_words(*survey, catalogue, plan);
  return Planned{std::move(*survey), std::move(*pack), std::move(catalogue), std::move(plan)};
}

}  // namespace

Result<Known> Known::built_in() {
  auto pack = practice::Pack::built_in();
  if (!pack) return failed(std::move(pack.error()));
  auto catalogue = practice::Catalogue::built_in();
  if (!catalogue) return failed(std::move(catalogue.error()));
  return Known{std::move(*pack), std::move(*catalogue)};
}

Result<Planned> plan_job(std::string_view job_bytes, std::string_view yard_bytes) {
  auto known = Known::built_in();
  if (!known) return failed(std::move(known.error()));
  return planned_with(job_bytes, known->pack, std::move(known->catalogue), yard_bytes);
}

Result<Planned> plan_job(std::string_view job_bytes, const Known& known, std::string_view yard_bytes) {
  return planned_with(job_bytes, known.pack, known.catalogue, yard_bytes);
}

Result<job::Plan> plan_other(const job::Survey& survey, const Planned& like) {
  return laid_out(survey, like.pack);
}

void put_in_words(const Planned& planned, std::vector<job::Finding>& findings) {
  for (job::Finding& finding : findings) {
    finding.text = planned.catalogue.say("finding." + finding.rule,
                                         in_words(finding.params, planned.catalogue, planned.survey.shown_in),
                                         planned.survey.shown_in);
  }
}

Result<void> settle_estimate(Planned& planned, const job::Yard* yard) {
  job::Plan& plan = planned.plan;
  plan.estimate = estimate::estimate(planned.survey, plan, planned.pack);
  put_estimate_in_words(planned.survey, planned.catalogue, plan);
  if (yard == nullptr || !estimate::prices_work(*yard)) return {};
  auto price = estimate::price(plan, *yard);
  if (!price) return failed(std::move(price.error()));
  for (job::PriceLine& line : price->lines) {
    if (line.text.empty())
      line.text = planned.catalogue.say("item." + line.item, {}, planned.survey.shown_in);
  }
  plan.price = std::move(*price);
  return {};
}

void add_findings(Planned& planned, std::vector<job::Finding> findings) {
  put_in_words(planned, findings);
  for (job::Finding& finding : findings) planned.plan.findings.push_back(std::move(finding));
  by_severity(planned.plan);
}

bool has_wrong(const job::Plan& plan) {
  return std::any_of(plan.findings.begin(), plan.findings.end(),
                     [](const job::Finding& f) { return f.level == Level::wrong; });
}

}  // namespace lapwright::engine

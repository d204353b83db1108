// Two plans side by side, and a price that somebody else gave beside the yard's.
#include "csv.h"
#include "cutting_run.h"
#include "examining.h"
#include "outcome.h"

#include <lapwright/base/numbers.h>
#include <lapwright/draw/pdf.h>
#include <lapwright/engine/engine.h>
#include <lapwright/estimate/offer.h>
#include <lapwright/job/difference.h>
#include <lapwright/practice/money.h>
#include <lapwright/practice/why_text.h>
#include <lapwright/sheets/sheets.h>

#include <cmath>
#include <utility>

namespace lapwright::engine {

namespace {

Result<Planned> whole_plan(const Request& request) {
  auto yard = yard_of(request.yard);
  if (!yard) return failed(std::move(yard.error()));
  auto planned = plan_job(request.job, request.yard);
  if (!planned) return failed(std::move(planned.error()));
  Faults faults = cutting::faults_of(yard->yard, planned->pack);
  if (!faults.empty()) return failed(std::move(faults));
  examine(*planned);
  cutting::CutPlan cut(planned->plan, yard->yard, planned->pack, request.effort);
  while (cut.step()) {
  }
  const auto taken = take_in(cut, *yard, *planned);
  if (!taken) return failed(taken.error());
  const auto settled = settle_estimate(*planned, yard->invented ? nullptr : &yard->yard);
  if (!settled) return failed(settled.error());
  return std::move(*planned);
}

std::string table_of(const Planned& a, const Planned& b, const std::vector<job::Difference>& all) {
  const auto say = [&](std::string_view key, const job::Params& params = {}) {
    return a.catalogue.say(key, params, job::ShownIn::mm);
  };
  std::string out = "A: " + a.plan.title + "   plan " + a.plan.fingerprint + "\nB: " + b.plan.title +
                    "   plan " + b.plan.fingerprint + "\n";
  std::string what;
  std::string where;
  for (const job::Difference& one : all) {
    if (one.what != what) {
      what = one.what;
      where.clear();
      out += "\n" + say("compare." + what) + "\n";
    }
    if (one.where != where) {
      where = one.where;
      out += "  " + practice::place_in_words(one, a.catalogue) + "\n";
    }
    const auto side = [&](const std::string& text) { return text.empty() ? say("compare.absent") : text; };
    out += "    " + practice::name_in_words(one) + ": " + side(one.a) + "  →  " + side(one.b) + "\n";
  }
  return out + "\n" + say("compare.count", {{"count", static_cast<double>(all.size()), ""}}) + "\n";
}

}  // namespace

Outcome compare(const Request& a, const Request& b) {
  Faults faults = faults_of_papers(a);
  auto left = whole_plan(a);
  auto right = whole_plan(b);
  const auto take = [&](const Faults& more, std::string_view side) {
    for (Fault fault : more) {
      fault.path = std::string(side) + ": " + fault.path;
      faults.push_back(std::move(fault));
    }
  };
  if (!left) take(left.error(), "A");
  if (!right) take(right.error(), "B");
  if (!faults.empty()) return unreadable(faults);
  const std::vector<job::Difference> all = job::differences(left->plan, right->plan);
  Outcome out;
  out.status = has_wrong(left->plan) || has_wrong(right->plan) ? Status::wrong : Status::done;
  out.json = job::write_differences(left->plan, right->plan, all);
  out.text = table_of(*left, *right, all);
  if (!a.documents) return out;
  const sheets::Sources sources{left->survey, left->plan, left->pack, left->catalogue};
  const sheets::PaperSize size = a.paper == "A3" ? sheets::PaperSize::a3 : sheets::PaperSize::a4;
  out.documents.push_back({"compare.pdf", "application/pdf",
                           draw::write_pdf(sheets::comparison(sources, right->plan, all, size))});
  Csv csv({"what", "where", "name", "A " + left->plan.fingerprint, "B " + right->plan.fingerprint});
  for (const job::Difference& one : all) {
    csv.text(one.what).text(one.where).text(one.name).text(one.a).text(one.b).end();
  }
  out.documents.push_back({"compare.csv", "text/csv", csv.take()});
  return out;
}

Outcome price_check(std::string_view offer, std::string_view yard_bytes) {
  auto yard = yard_of(yard_bytes);
  if (!yard) return unreadable(yard.error());
  auto pack = practice::Pack::built_in();
  if (!pack) return unreadable(pack.error());
  auto catalogue = practice::Catalogue::built_in();
  if (!catalogue) return unreadable(catalogue.error());
  auto read = estimate::read_offer(offer);
  if (!read) return unreadable(read.error());
  const auto judged = estimate::judge(*read, yard->yard, *pack);
  if (!judged) return unreadable(judged.error());
  const auto money = [&](double amount) { return practice::money_shown(amount, yard->yard.currency); };
  const auto say = [&](std::string_view key, const job::Params& params) {
    return catalogue->say(key, params, job::ShownIn::mm) + "\n";
  };
  Outcome out;
  out.text = say("offer.is", {{"length", read->length.in_m(), "m"},
                              {"code", static_cast<double>(read->code), ""},
                              {"width", read->width.in_mm(), "mm"},
                              {"kg", judged->mass.in_kg(), "kg"},
                              {"price", money(static_cast<double>(read->price)), ""}});
  out.text +=
      say("offer.rates", {{"per_kg", money(judged->per_kg), ""}, {"per_m", money(judged->per_m), ""}});
  if (!judged->yard_per_kg || !judged->yard_per_m) {
    out.text += say("offer.yard_has_none", {{"code", static_cast<double>(read->code), ""}});
    return out;
  }
  const double here = *judged->yard_per_kg * judged->mass.in_kg();
  const double more = static_cast<double>(read->price) - here;
  out.text += say(judged->same_width ? "offer.yard" : "offer.yard_other_width",
                  {{"per_kg", money(*judged->yard_per_kg), ""},
                   {"per_m", money(*judged->yard_per_m), ""},
                   {"price", money(here), ""}});
  out.text +=
      say(more > 0 ? "offer.dearer" : "offer.cheaper",
          {{"by", money(std::abs(more)), ""}, {"share", trimmed(100 * std::abs(more) / here, 1), ""}});
  if (yard->invented || yard->yard.prices_invented) out.text += say("sheet.prices_invented", {});
  return out;
}

Outcome form(std::string_view job_bytes, std::string_view paper) {
  Request request;
  request.paper = paper;
  Faults faults = faults_of_papers(request);
  const sheets::PaperSize size = paper == "A3" ? sheets::PaperSize::a3 : sheets::PaperSize::a4;
  Outcome out;
  if (job_bytes.empty()) {
    auto pack = practice::Pack::built_in();
    auto catalogue = practice::Catalogue::built_in();
    if (!pack) return unreadable(pack.error());
    if (!catalogue) return unreadable(catalogue.error());
    if (!faults.empty()) return unreadable(faults);
    const job::Survey survey;
    const job::Plan plan;
    const sheets::Sources sources{survey, plan, *pack, *catalogue};
    out.documents.push_back(
        {"survey.pdf", "application/pdf", draw::write_pdf(sheets::blank_form(sources, size))});
    return out;
  }
  auto planned = plan_job(job_bytes);
  if (!planned) {
    for (Fault& fault : planned.error()) faults.push_back(std::move(fault));
  }
  if (!faults.empty()) return unreadable(faults);
  const sheets::Sources sources{planned->survey, planned->plan, planned->pack, planned->catalogue};
  out.documents.push_back({"survey.pdf", "application/pdf",
                           draw::write_pdf(sheets::papers(sources, {sheets::Paper::survey}, size))});
  return out;
}

}  // namespace lapwright::engine

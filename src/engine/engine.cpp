#include <lapwright/engine/engine.h>

#include "cutting_run.h"
#include "documents.h"
#include "examining.h"
#include "existing_text.h"
#include "outcome.h"
#include "planning.h"
#include "rules_text.h"
#include "seeing.h"
#include "table.h"
#include "why_json.h"

#include <lapwright/job/read_survey.h>
#include <lapwright/job/write_plan.h>
#include <lapwright/job/yard.h>
#include <lapwright/practice/why_text.h>

#include <algorithm>
#include <utility>

namespace lapwright::engine {

Outcome unreadable(const Faults& faults) {
  Outcome out;
  out.status = Status::unreadable;
  out.json = faults_json(faults);
  for (const Fault& fault : faults) {
    if (fault.code == FaultCode::internal) out.status = Status::our_fault;
    out.faults.push_back(to_line(fault));
  }
  return out;
}

std::string_view version() {
  return LAPWRIGHT_VERSION;
}

Outcome outcome_of(const Planned& planned, const Request& request) {
  Outcome out;
  out.status = has_wrong(planned.plan) ? Status::wrong : Status::done;
  out.json = job::write_plan(planned.plan);
  out.text = plan_table(planned.survey, planned.plan, planned.catalogue);
  if (request.documents) out.documents = documents_of(planned, request);
  if (request.rolls) {
    const sheets::Sources sources{planned.survey, planned.plan, planned.pack, planned.catalogue};
    for (const sheets::ScreenPicture& picture :
         sheets::roll_pictures(sources, {request.room_width, request.room_height})) {
      out.documents.push_back(on_screen(picture));
    }
  }
  return out;
}

Outcome check(const Request& request) {
  auto planned = plan_job(request.job);
  if (!planned) return unreadable(planned.error());
  examine(*planned, {.odds = request.odds});
  // Of a roof that stands already it is that roof which is judged, not the work that would put it right.
  const auto& findings = planned->plan.existing ? planned->plan.existing->findings : planned->plan.findings;
  const bool wrong = std::any_of(findings.begin(), findings.end(),
                                 [](const job::Finding& f) { return f.level == job::Level::wrong; });
  Outcome out;
  out.status = wrong ? Status::wrong : Status::done;
  out.json = job::write_findings(planned->plan);
  out.text = findings_text(findings, planned->catalogue) + existing_text(*planned) + odds_text(*planned);
  return out;
}

Outcome why(const Request& request, std::string_view mark) {
  auto planned = plan_job(request.job);
  if (!planned) return unreadable(planned.error());
  const job::ShownIn shown_in = planned->survey.shown_in;
  std::string json;
  const auto explain = [&](std::string_view kind, const std::vector<job::Figure>& figures) {
    std::string text;
    json = why_json(kind, figures, planned->pack, planned->catalogue, shown_in);
    for (const job::Figure& figure : figures) {
      text += practice::why_figure(kind, figure, planned->pack, planned->catalogue, shown_in) + "\n";
    }
    return text;
  };
  Outcome out;
  std::string known;
  for (const job::Piece& piece : planned->plan.pieces) {
    if (piece.mark == mark && out.text.empty()) {
      out.text = piece.mark + ", " + piece.kind + ", " + piece.slope + " / " + piece.junction + "\n\n" +
                 explain(piece.kind, piece.figures);
      const sheets::Sources sources{planned->survey, planned->plan, planned->pack, planned->catalogue};
      if (const auto flat =
              sheets::piece_picture(sources, piece, {request.room_width, request.room_height})) {
        out.documents.push_back(on_screen(*flat));
      }
    }
    if (known.find(piece.mark) == std::string::npos) known += (known.empty() ? "" : ", ") + piece.mark;
  }
  for (const job::SetOut& set_out : planned->plan.set_out) {
    if (set_out.slope == mark && out.text.empty()) {
      out.text = set_out.slope + ", set-out\n\n" + explain("setout", set_out.figures);
    }
    known += (known.empty() ? "" : ", ") + set_out.slope;
  }
  for (const job::EstimateLine& line : planned->plan.estimate.lines) {
    if (line.item != mark) continue;
    out.text += line.text + (line.slope.empty() ? "" : ", " + line.slope) + "\n\n" +
                explain("estimate", {line.figure});
  }
  if (out.text.empty()) {
    return unreadable(
        {Fault{FaultCode::bad_choice, "MARK", {}, quoted(mark), known, "ask for one of these"}});
  }
  out.status = has_wrong(planned->plan) ? Status::wrong : Status::done;
  out.json = std::move(json);
  return out;
}

Outcome rules(const Request& request) {
  auto pack = practice::Pack::built_in();
  if (!pack) return unreadable(pack.error());
  auto catalogue = practice::Catalogue::built_in();
  if (!catalogue) return unreadable(catalogue.error());
  Outcome out;
  out.text = rules_text(*pack, *catalogue);
  if (request.job.empty()) {
    out.json = rules_json(*pack, *catalogue, job::ShownIn::mm);
    return out;
  }
  auto survey = job::read_survey(request.job);
  if (!survey) return unreadable(survey.error());
  auto own = pack->with_overrides(survey->practice, survey->unit_is_inches);
  if (!own) return unreadable(own.error());
  out.json = rules_json(*own, *catalogue, survey->shown_in);
  return out;
}

Outcome texts() {
  auto catalogue = practice::Catalogue::built_in();
  if (!catalogue) return unreadable(catalogue.error());
  Outcome out;
  out.json = texts_json(*catalogue);
  return out;
}

Outcome read_yard(std::string_view bytes) {
  auto yard = yard_of(bytes);
  if (!yard) return unreadable(yard.error());
  if (yard->invented) yard->yard.prices_invented = true;
  Outcome out;
  out.json = job::write_yard(yard->yard);
  return out;
}

std::string schema(std::string_view name) {
  if (name == "job") return job::survey_schema();
  if (name == "plan") return job::plan_schema();
  if (name == "yard") return job::yard_schema();
  return {};
}

}  // namespace lapwright::engine

#include <lapwright/engine/engine.h>

#include "planning.h"
#include "rules_text.h"
#include "table.h"
#include "why_json.h"
#include "why_text.h"

#include <lapwright/draw/dxf.h>
#include <lapwright/draw/pdf.h>
#include <lapwright/draw/svg.h>
#include <lapwright/job/read_survey.h>
#include <lapwright/job/write_plan.h>
#include <lapwright/sheets/sheets.h>

#include <utility>

namespace lapwright::engine {

namespace {

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

Document on_screen(const sheets::ScreenPicture& picture) {
  constexpr double kMargin = 2;
  draw::SvgOptions options;
  options.white_ground = false;
  options.xml_header = false;
  options.ink = "currentColor";
  options.paper = "var(--paper)";
  options.scale = picture.scale;
  return {picture.name, "image/svg+xml", draw::write_svg(picture.drawing, picture.title, kMargin, options)};
}

std::vector<Document> documents_of(const Planned& planned) {
  const sheets::Sources sources{planned.survey, planned.plan, planned.pack, planned.catalogue};
  constexpr double kMargin = 5;  // mm around a free drawing
  std::vector<Document> out;
  for (const auto& drawings : {sheets::roof_views(sources), sheets::elevations(sources)}) {
    for (const sheets::NamedDrawing& one : drawings) {
      out.push_back({one.stem + ".svg", "image/svg+xml", draw::write_svg(one.drawing, one.title, kMargin)});
    }
  }
  for (const sheets::NamedDrawing& piece : sheets::patterns(sources)) {
    out.push_back(
        {piece.stem + ".svg", "image/svg+xml", draw::write_svg(piece.drawing, piece.title, kMargin)});
    out.push_back({piece.stem + ".dxf", "image/vnd.dxf", draw::write_dxf(piece.drawing, piece.title)});
  }
  out.push_back({"sheets.pdf", "application/pdf", draw::write_pdf(sheets::compose(sources))});
  return out;
}

}  // namespace

std::string_view version() {
  return LAPWRIGHT_VERSION;
}

Outcome plan(const Request& request) {
  auto planned = plan_job(request.job);
  if (!planned) return unreadable(planned.error());
  Outcome out;
  out.status = has_wrong(planned->plan) ? Status::wrong : Status::done;
  out.json = job::write_plan(planned->plan);
  out.text = plan_table(planned->survey, planned->plan, planned->catalogue);
  if (request.documents) out.documents = documents_of(*planned);
  return out;
}

Outcome see(const Request& request) {
  auto planned = plan_job(request.job);
  if (!planned) return unreadable(planned.error());
  Outcome out;
  out.status = has_wrong(planned->plan) ? Status::wrong : Status::done;
  out.json = job::write_plan(planned->plan);
  const sheets::Sources sources{planned->survey, planned->plan, planned->pack, planned->catalogue};
  for (const sheets::ScreenPicture& picture :
       sheets::pictures(sources, {request.room_width, request.room_height})) {
    out.documents.push_back(on_screen(picture));
  }
  return out;
}

Outcome check(const Request& request) {
  auto planned = plan_job(request.job);
  if (!planned) return unreadable(planned.error());
  Outcome out;
  out.status = has_wrong(planned->plan) ? Status::wrong : Status::done;
  out.json = job::write_findings(planned->plan.findings);
  out.text = findings_text(planned->plan.findings, planned->catalogue);
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
      text += why_figure(kind, figure, planned->pack, planned->catalogue, shown_in) + "\n";
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

std::string schema(std::string_view name) {
  if (name == "job") return job::survey_schema();
  if (name == "plan") return job::plan_schema();
  return {};
}

}  // namespace lapwright::engine

#include "documents.h"

#include "lists.h"
#include "outcome.h"

#include <lapwright/draw/dxf.h>
#include <lapwright/draw/pdf.h>
#include <lapwright/draw/svg.h>
#include <lapwright/sheets/sheets.h>

#include <algorithm>
#include <array>
#include <string>
#include <string_view>

namespace lapwright::engine {

namespace {

constexpr std::array<std::string_view, 10> kParts{"survey", "order", "cutting", "fitting", "quote",
                                                  "price",  "proof", "care",    "sheets",  "drawings"};
constexpr std::array<std::string_view, 2> kSizes{"A4", "A3"};

// "order,quote" → {"order", "quote"}
std::vector<std::string_view> split(std::string_view list) {
  std::vector<std::string_view> out;
  while (!list.empty()) {
    const std::size_t comma = list.find(',');
    out.push_back(list.substr(0, comma));
    list = comma == std::string_view::npos ? std::string_view{} : list.substr(comma + 1);
  }
  return out;
}

std::string joined(const auto& words) {
  std::string out;
  for (const std::string_view word : words) out += (out.empty() ? "" : ", ") + std::string(word);
  return out;
}

bool wanted(const Request& request, std::string_view part) {
  if (request.only.empty()) return true;
  const std::vector<std::string_view> only = split(request.only);
  return std::find(only.begin(), only.end(), part) != only.end();
}

void add_drawings(const sheets::Sources& sources, std::vector<Document>& out) {
  constexpr double kMargin = 5;  // mm around a free drawing
  for (const auto& drawings :
       {sheets::roof_views(sources), sheets::elevations(sources), sheets::rolls(sources)}) {
    for (const sheets::NamedDrawing& one : drawings) {
      out.push_back({one.stem + ".svg", "image/svg+xml", draw::write_svg(one.drawing, one.title, kMargin)});
    }
  }
  for (const sheets::NamedDrawing& piece : sheets::patterns(sources)) {
    out.push_back(
        {piece.stem + ".svg", "image/svg+xml", draw::write_svg(piece.drawing, piece.title, kMargin)});
    out.push_back({piece.stem + ".dxf", "image/vnd.dxf", draw::write_dxf(piece.drawing, piece.title)});
  }
}

}  // namespace

bool asks_for_quote(const Request& request) {
  return !request.only.empty() && (wanted(request, "quote") || wanted(request, "price"));
}

Faults faults_of_papers(const Request& request) {
  Faults out;
  for (const std::string_view part : split(request.only)) {
    if (std::find(kParts.begin(), kParts.end(), part) != kParts.end()) continue;
    out.push_back({FaultCode::bad_choice, "only", {}, quoted(part), joined(kParts), "commas between"});
  }
  if (!request.paper.empty() && std::find(kSizes.begin(), kSizes.end(), request.paper) == kSizes.end()) {
    out.push_back(
        {FaultCode::bad_choice, "paper", {}, quoted(request.paper), joined(kSizes), "take one of these"});
  }
  return out;
}

std::vector<Document> documents_of(const Planned& planned, const Request& request) {
  const sheets::Sources sources{planned.survey, planned.plan, planned.pack, planned.catalogue,
                                &planned.proof};
  const sheets::PaperSize size = request.paper == "A3" ? sheets::PaperSize::a3 : sheets::PaperSize::a4;
  std::vector<Document> out;
  if (wanted(request, "drawings")) add_drawings(sources, out);
  const auto pdf = [&](const std::string& name, const draw::Document& document) {
    if (document.pages.empty()) return;
    out.push_back({name, "application/pdf", draw::write_pdf(document)});
    if (!request.pages) return;
    const std::string stem = name.substr(0, name.find('.'));
    for (std::size_t i = 0; i < document.pages.size(); ++i) {
      out.push_back({"page/" + stem + "/" + std::to_string(i + 1), "image/svg+xml",
                     draw::write_svg(document.pages[i])});
    }
  };
  if (wanted(request, "sheets")) pdf("sheets.pdf", sheets::compose(sources, size));
  std::vector<sheets::Paper> which;
  for (const sheets::Paper paper : sheets::kPapers) {
    if (!wanted(request, name_of(paper))) continue;
    pdf(std::string(name_of(paper)) + ".pdf", sheets::papers(sources, {paper}, size));
    which.push_back(paper);
  }
  if (which.size() > 1) pdf("papers.pdf", sheets::papers(sources, which, size));
  for (List& list : lists_of(planned)) {
    if (wanted(request, list.part)) out.push_back({list.name, "text/csv", std::move(list.bytes)});
  }
  return out;
}

}  // namespace lapwright::engine

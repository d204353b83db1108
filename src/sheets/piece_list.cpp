#include "bends.h"
#include "pages.h"

#include <lapwright/draw/font.h>
#include <lapwright/draw/symbols.h>

#include <algorithm>

namespace lapwright::sheets {

namespace {

using draw::Anchor;
using draw::pt;
using draw::Weight;

std::string material(const Words& words, const job::Piece& piece) {
  if (piece.code) return words.say("sheet.code", {{"code", static_cast<double>(*piece.code), ""}});
  const double thick = piece.thickness.value_or(Length{}).in_mm();
  return words.say("sheet.metal", {{"metal", piece.metal, ""}, {"thickness", thick, "mm"}});
}

}  // namespace

void add_piece_list(Sheets& sheets) {
  const Words& words = sheets.words();
  const std::vector<const job::Piece*> pieces = distinct_pieces(sheets.sources().plan);
  if (pieces.empty()) return;
  Flow flow(sheets, words.say("sheet.pieces"));
  flow.paragraph(words.say("sheet.pieces_note"));
  flow.gap(3);
  double total = 0;
  const double right = kArea.right - 2;
  for (const job::Piece* piece : pieces) {
    const std::vector<Bend> bends = bend_words(words, piece->net);
    const double radius = draw::ring_radius(piece->mark);
    const double indent = std::max(20.0, 2 * radius + 6);
    const double line = draw::line_height(kNumber);
    const double first = draw::line_height(pt(14));
    const std::string kind = words.kind(piece->kind);
    const std::string place = piece->slope + (piece->junction.empty() ? "" : " / " + piece->junction);
    const double height = std::max(2 * radius + 3, first + line * static_cast<double>(1 + bends.size()) + 3);
    draw::Drawing& page = flow.need(height);
    const double top = flow.y();
    page.add(draw::line({kArea.left, top}, {kArea.right, top}, draw::LineKind::thin));
    page.add(draw::ringed_mark({kArea.left + 2 + radius, top - 2 - radius}, piece->mark));
    double y = top - first + 0.5;
    const double each = piece->mass.in_kg();
    const double all = each * static_cast<double>(piece->count);
    if (!piece->wrong) total += all;
    const std::string mass = piece->wrong
                                 ? words.say("sheet.not_to_be_made")
                                 : words.say("sheet.mass", {{"each", each, "kg"}, {"all", all, "kg"}});
    page.add(text_at(mass, {right, y}, kNumber, Weight::regular, Anchor::end));
    const double room = right - draw::text_width(mass, kNumber) - 4 - kArea.left - indent;
    const std::string size = words.say("sheet.piece_size", {{"count", static_cast<double>(piece->count), ""},
                                                            {"length", piece->length.in_mm(), "mm"},
                                                            {"width", piece->width.in_mm(), "mm"}});
    page.add(text_at(draw::shortened(size, room, pt(14), Weight::bold), {kArea.left + indent, y}, pt(14),
                     Weight::bold));
    y -= line;
    std::string what = kind + ", " + material(words, *piece) + ", " + place +
                       (piece->face.empty() ? "" : ", " + piece->face);
    const std::vector<const job::Finding*> warnings =
        warnings_at(sheets.sources().plan, places_of(sheets.sources().plan, *piece));
    if (!warnings.empty()) {
      const job::Level level = warnings.front()->level;
      page.add(level_shape(level, {kArea.left + indent + 1.5, y + 1.3}));
      what = "    " + words.say("level." + std::string(name_of(level))) + ", " +
             words.say("sheet.see_cover") + ": " + what;
    }
    page.add(text_at(draw::shortened(what, right - kArea.left - indent, kNumber), {kArea.left + indent, y}));
    for (const Bend& bend : bends) {
      y -= line;
      page.add(text_at(draw::shortened(bend.text, right - kArea.left - indent, kNumber),
                       {kArea.left + indent, y}));
    }
    flow.gap(height);
  }
  draw::Drawing& page = flow.need(10);
  page.add(draw::line({kArea.left, flow.y()}, {kArea.right, flow.y()}, draw::LineKind::outline));
  page.add(text_at(words.say("sheet.mass_total", {{"all", total, "kg"}}), {right, flow.y() - 6}, pt(13),
                   Weight::bold, Anchor::end));
}

}  // namespace lapwright::sheets

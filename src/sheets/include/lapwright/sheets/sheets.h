// The sheets that are carried up the ladder, and the same drawings as single files.
//
// Pure: survey, plan, pack and words in, drawing model out. Nothing here decides anything: what is drawn is
// read from the plan's nets and placements, so that a sheet cannot say what the plan does not.
#pragma once

#include <lapwright/draw/drawing.h>
#include <lapwright/job/difference.h>
#include <lapwright/job/plan.h>
#include <lapwright/job/proof.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/catalogue.h>
#include <lapwright/practice/pack.h>

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lapwright::sheets {

// What the sheets are made from; all of it outlives the call.
struct Sources {
  const job::Survey& survey;
  const job::Plan& plan;
  const practice::Pack& pack;
  const practice::Catalogue& catalogue;
  const job::Proof* proof = nullptr;  // what the checker measured and traced, where it did
};

// A3 lies on its side and holds the room of two upright A4 sheets, at the same size of type and the same
// scales.
enum class PaperSize : std::uint8_t { a4, a3 };

// Every sheet, in the order of the work: cover, roofs, walls, sections, battens, pieces, cutting, fitting,
// templates, care. Properties: no text lies on another or leaves the paper; templates are true size.
draw::Document compose(const Sources& sources, PaperSize size = PaperSize::a4);

// The sheets of one kind, to be handed over by themselves, and those that are made for the office and the
// people who pay: the order for the merchant, the quote, the proof, the form to measure by.
enum class Paper : std::uint8_t { survey, order, cutting, fitting, quote, price, proof, care };
inline constexpr std::array<Paper, 8> kPapers{Paper::survey, Paper::order, Paper::cutting, Paper::fitting,
                                              Paper::quote,  Paper::price, Paper::proof,   Paper::care};
std::string_view name_of(Paper v);  // "survey", "order", ...: also the stem of its file

// These papers one after the other, their pages counted through. A paper that this plan has nothing for (no
// price for a quote) adds no page. Properties as of compose().
draw::Document papers(const Sources& sources, const std::vector<Paper>& which,
                      PaperSize size = PaperSize::a4);

// Where two plans differ, on paper: `a` in `sources`, the other's differences as job::differences() gives
// them.
draw::Document comparison(const Sources& a, const job::Plan& b, const std::vector<job::Difference>& all,
                          PaperSize size = PaperSize::a4);

// The form to measure by, empty. Only the words of `sources` are read.
draw::Document blank_form(const Sources& sources, PaperSize size = PaperSize::a4);

// A drawing to be written as a file of its own. `stem` is fit for a file name and differs from every other's.
struct NamedDrawing {
  std::string stem;  // "elevation-house-wall"
  std::string title;
  draw::Drawing drawing;
};

// Each slope seen square on with every piece of lead in its place, 1:20, mm of paper.
std::vector<NamedDrawing> roof_views(const Sources& sources);

// Each face of masonry that has pieces, seen from the roof, 1:10, mm of paper.
std::vector<NamedDrawing> elevations(const Sources& sources);

// Each roll of the cutting list with its pieces in their places and the distances of the first cuts, 1:10, mm
// of paper.
std::vector<NamedDrawing> rolls(const Sources& sources);

// Each distinct piece's flat net in true mm: layer `cut` for what is cut, `fold` for what is bent, `thin`
// for what is bossed; nothing else.
std::vector<NamedDrawing> patterns(const Sources& sources);

// What a screen has room for, mm of paper at the size that it is shown.
struct Room {
  double width = 180;
  double height = 180;
};

// A drawing for a screen, in mm of paper at `scale`. `name`: "roof/SLOPE", "side/SLOPE", "eaves/SLOPE",
// "unit/SLOPE", "courses/SLOPE", "gap/SLOPE/JUNCTION", "wall/SLOPE/JUNCTION", its lower end
// "foot/SLOPE/JUNCTION" (and "/FACE" where it has several), "water/SLOPE/JUNCTION" where the proof is given:
// the courses around the weakest spot, where water creeps under them, and the way of the first leak;
// "piece/MARK".
struct ScreenPicture {
  std::string name;
  std::string title;
  draw::Drawing drawing;
  double scale = 1;
};

// Roofs, walls and what is measured on them. What may be found by tapping carries a tag: pieces
// "piece/MARK/COURSE/JUNCTION", masonry "at/JUNCTION", units "course/K", rings "mark/MARK", chains "lengths",
// measurements "measure/PLACE IN THE JOB FILE"; the last overlap each other and are shown one at a time.
std::vector<ScreenPicture> pictures(const Sources& sources, Room room);
// Each roll of the cutting list as a strip, its hooked end at the left, all at one scale: the longest fills
// the room's width. Named "roll/R1"; pieces carry "cut/R1/K/MARK", K counting from 0 as the list does.
std::vector<ScreenPicture> roll_pictures(const Sources& sources, Room room);
// One piece's flat shape.
std::optional<ScreenPicture> piece_picture(const Sources& sources, const job::Piece& piece, Room room);

}  // namespace lapwright::sheets

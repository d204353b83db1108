// The sheets that are carried up the ladder, and the same drawings as single files.
//
// Pure: survey, plan, pack and words in, drawing model out. Nothing here decides anything: what is drawn is
// read from the plan's nets and placements, so that a sheet cannot say what the plan does not.
#pragma once

#include <lapwright/draw/drawing.h>
#include <lapwright/job/plan.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/catalogue.h>
#include <lapwright/practice/pack.h>

#include <string>
#include <vector>

namespace lapwright::sheets {

// What the sheets are made from; all of it outlives the call.
struct Sources {
  const job::Survey& survey;
  const job::Plan& plan;
  const practice::Pack& pack;
  const practice::Catalogue& catalogue;
};

// Every sheet on A4, upright, in the order of the work: cover, roofs, walls, sections, battens, pieces,
// cutting, fitting, templates, care. Properties: no text lies on another or leaves the paper; templates are true size.
draw::Document compose(const Sources& sources);

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

// Each roll of the cutting list with its pieces in their places and the distances of the first cuts, 1:10, mm of paper.
std::vector<NamedDrawing> rolls(const Sources& sources);

// Each distinct piece's flat net in true mm: layer `cut` for what is cut, `fold` for what is bent, `thin`
// for what is bossed; nothing else.
std::vector<NamedDrawing> patterns(const Sources& sources);

}  // namespace lapwright::sheets

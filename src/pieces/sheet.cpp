#include "sheet.h"

#include <lapwright/practice/figure.h>

#include <string>
#include <utility>

namespace lapwright::pieces {

job::Piece lead_piece(std::string_view kind, const Place& place, geom::Net net, geom::GridPoint base_point) {
  job::Piece piece;
  piece.kind = kind;
  piece.slope = place.slope.name;
  piece.junction = place.junction.name;
  piece.net = std::move(net);
  piece.base_point = base_point;
  return piece;
}

void weigh(job::Piece& piece, const practice::Pack& pack) {
  const practice::LeadCode& lead = pack.lead(*piece.code);
  piece.area = geom::net_area(piece.net);
  piece.mass = Mass::kg(piece.area.in_m2() * lead.kg_per_m2);
  practice::Why why("mass", "A * w / 1000000", "kg");
  why.term("A", piece.area.in_mm2(), "mm2", "net")
      .term("w", lead.kg_per_m2, "kg/m2", "lead code " + std::to_string(lead.code));
  job::Figure figure = why.gives(piece.mass.in_kg());
  figure.source = "BS EN 12588 class, figures as usually printed";
  figure.standing = job::Standing::standard;
  piece.figures.push_back(std::move(figure));
}

void weigh_metal(job::Piece& piece, const practice::SoakerMetal& metal) {
  piece.metal = metal.metal;
  piece.thickness = metal.thickness;
  piece.area = geom::net_area(piece.net);
  piece.mass = Mass::kg(piece.area.in_m2() * metal.thickness.in_m() * metal.density);
  practice::Why why("mass", "A * t * d / 1000000000", "kg");
  why.term("A", piece.area.in_mm2(), "mm2", "net")
      .term("t", metal.thickness.in_mm(), "mm", "sheet")
      .term("d", metal.density, "kg/m3", "density");
  job::Figure figure = why.gives(piece.mass.in_kg());
  figure.source = metal.source;
  figure.standing = metal.standing;
  piece.figures.push_back(std::move(figure));
}

}  // namespace lapwright::pieces

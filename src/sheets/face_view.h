// A face of masonry as one faces it from the roof: a stack's front and back, a top abutment, a skew wall.
#pragma once

#include "solid.h"
#include "words.h"

#include <vector>

namespace lapwright::sheets {

struct FaceLead {
  const job::Slope* slope = nullptr;
  job::Junction junction;
  job::Face face;
  std::vector<PlacedPiece> pieces;  // of this face
};

// Every face with pieces that the elevation of a side wall does not show.
std::vector<FaceLead> faces_with_lead(const Sources& sources);

// In mm of paper; the origin is on the roof's finished face at the lower end of the foot, y upright.
draw::Drawing face_view(const Sources& sources, const FaceLead& lead, double scale);

// "stack, front"; the junction's name alone where it has one face.
std::string face_name(const job::Junction& junction, const std::string& face);

}  // namespace lapwright::sheets

// Where a detail is judged and planned: one face of one junction, with everything that it may ask about.
#pragma once

#include <lapwright/job/face.h>
#include <lapwright/job/layout.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

#include <string>

namespace lapwright::pieces {

// How the roof lies to a face, whatever its exact bearing: what decides between soakers, an apron and a
// gutter.
enum class Stand : std::uint8_t {
  beside,  // water runs along the face
  below,   // the roof lies below it: water runs off it
  above,   // the roof lies above it: water runs at it and has to be led away
  around,  // a pipe
};

struct Place {
  const job::Survey& survey;
  const job::Slope& slope;
  const job::Junction& junction;
  const job::Face& face;
  job::FaceFrame frame;
  const job::SlopeLayout& layout;
  const practice::Pack& pack;

  std::string where() const;  // "rear / stack / left side", for findings
  Stand stand() const;
};

}  // namespace lapwright::pieces

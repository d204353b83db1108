#include "place.h"

#include <lapwright/base/trig.h>

namespace lapwright::pieces {

std::string Place::where() const {
  std::string out = slope.name + " / " + junction.name;
  if (!face.name.empty()) out += " / " + face.name;
  return out;
}

Stand Place::stand() const {
  switch (face.kind) {
    case job::FaceKind::side:
      return Stand::beside;
    case job::FaceKind::top:
    case job::FaceKind::front:
      return Stand::below;
    case job::FaceKind::back:
      return Stand::above;
    case job::FaceKind::round:
      return Stand::around;
    case job::FaceKind::skew:
      break;
  }
  const double most = sin_deg(pack.number("skew.beside_most"));
  if (frame.runs_at > most) return Stand::above;
  return frame.runs_at < -most ? Stand::below : Stand::beside;
}

}  // namespace lapwright::pieces

// What follows from a survey's words alone, without any rule: asked by every stage, answered once.
#pragma once

#include <lapwright/job/survey.h>

namespace lapwright::job {

// Plain tiles and slates: every unit covers the head of the unit two courses below.
constexpr bool is_double_lap(CoveringKind kind) {
  return kind == CoveringKind::plain_tile || kind == CoveringKind::slate;
}

// The two classes above 56.5 l/m² per spell, for which the trade asks for more (BS 5534 as quoted).
constexpr bool is_exposed(Exposure exposure) {
  return exposure == Exposure::severe || exposure == Exposure::very_severe;
}

inline bool is_centre_nailed(const Covering& covering) {
  return covering.kind == CoveringKind::slate && covering.nailing == Nailing::centre;
}

inline bool is_head_nailed(const Covering& covering) {
  return covering.kind == CoveringKind::slate && covering.nailing == Nailing::head;
}

}  // namespace lapwright::job

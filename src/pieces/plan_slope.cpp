#include <lapwright/pieces/plan_slope.h>

#include "cover_flashing.h"
#include "detail_choice.h"
#include "nails.h"
#include "order_of_work.h"
#include "soaker.h"
#include "step_flashing.h"
#include "wall_side.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>

#include <algorithm>
#include <iterator>
#include <string>
#include <utility>

namespace lapwright::pieces {

namespace {

Result<job::JunctionPlan> plan_side(const job::Slope& slope, const job::Junction& junction,
                                    const job::SlopeLayout& layout, job::Exposure exposure,
                                    const practice::Pack& pack) {
  job::JunctionPlan plan;
  DetailChoice choice = choose_side_detail(slope, junction, exposure, pack);
  plan.findings = std::move(choice.findings);
  if (!choice.plan || layout.courses.empty()) return plan;
  plan_soakers(slope, junction, layout, pack, plan);
  if (*choice.plan == job::Detail::soakers_and_steps) {
    if (auto done = plan_step_flashings(slope, junction, pack, plan); !done) {
      return failed(std::move(done.error()));
    }
  } else {
    plan_cover_flashings(slope, junction, pack, plan);
  }
  const practice::Rule& coat = pack.rule("lead.coat_over");
  const Length turn_in = pack.length("step.turn_in");
  if (turn_in > Length::mm(coat.value)) {
    plan.findings.push_back({job::Level::note,
                             "flashing.coat_both_faces",
                             {{"turn_in", turn_in.in_mm(), "mm"}, {"over", coat.value, "mm"}},
                             "",
                             turn_in.in_mm(),
                             coat.value,
                             coat.source,
                             slope.name + " / " + junction.name});
  }
  return plan;
}

// Two walls cannot stand in the same place.
void find_overlaps(const job::Slope& slope, Faults& faults) {
  for (std::size_t i = 0; i < slope.junctions.size(); ++i) {
    for (std::size_t j = i + 1; j < slope.junctions.size(); ++j) {
      const job::Junction& a = slope.junctions[i];
      const job::Junction& b = slope.junctions[j];
      if (a.kind != job::JunctionKind::side || b.kind != job::JunctionKind::side || a.hand != b.hand)
        continue;
      const WallSide first = wall_side(slope, a);
      const WallSide second = wall_side(slope, b);
      if (first.from >= second.to - tolerance::kGrid || second.from >= first.to - tolerance::kGrid) continue;
      faults.push_back({FaultCode::contradiction, b.path, b.spot,
                        "a wall from " + trimmed(second.from.in_mm(), 1) + " to " +
                            trimmed(second.to.in_mm(), 1) + " mm on the " + std::string(name_of(b.hand)) +
                            ", where " + quoted(a.name) + " stands",
                        "walls on one side of a slope that stand one above the other",
                        "give each its own \"from\" and \"to\", or put one on the other hand"});
    }
  }
}

job::JunctionPlan not_planned(const job::Slope& slope, const job::Junction& junction) {
  job::JunctionPlan plan;
  plan.findings.push_back({job::Level::doubt,
                           "junction.not_planned_yet",
                           {{"kind", std::string(name_of(junction.kind)), ""}},
                           "",
                           std::nullopt,
                           std::nullopt,
                           "this version",
                           slope.name + " / " + junction.name});
  return plan;
}

std::string_view mark_letter(const job::Piece& piece) {
  if (piece.kind == "soaker") return "S";
  if (piece.kind == "step-flashing") return "F";
  return "C";
}

bool same_piece(const job::Piece& a, const job::Piece& b) {
  return a.kind == b.kind && a.code == b.code && a.metal == b.metal && a.length == b.length &&
         a.width == b.width && geom::same_net(a.net, b.net);
}

}  // namespace

Result<SlopePlan> plan_slope(const job::Slope& slope, const job::SlopeLayout& layout, job::Exposure exposure,
                             const practice::Pack& pack) {
  SlopePlan plan;
  plan.rows = layout.rows;
  std::vector<job::JunctionPlan> junctions;
  std::vector<std::size_t> first_piece;
  Faults faults;
  find_overlaps(slope, faults);
  for (const job::Junction& junction : slope.junctions) {
    if (junction.kind == job::JunctionKind::side) {
      auto planned = plan_side(slope, junction, layout, exposure, pack);
      if (!planned) {
        std::move(planned.error().begin(), planned.error().end(), std::back_inserter(faults));
        continue;
      }
      junctions.push_back(std::move(*planned));
    } else {
      junctions.push_back(not_planned(slope, junction));
    }
    first_piece.push_back(plan.pieces.size());
    // Pieces are copied and findings moved: the junction's own indices stay valid for the order of work.
    plan.pieces.insert(plan.pieces.end(), junctions.back().pieces.begin(), junctions.back().pieces.end());
    std::move(junctions.back().findings.begin(), junctions.back().findings.end(),
              std::back_inserter(plan.findings));
  }
  if (!faults.empty()) return failed(std::move(faults));
  keep_nails_clear(plan.pieces, plan.rows);
  order_work(slope, layout, junctions, first_piece, plan);
  return plan;
}

void give_marks(std::vector<SlopePlan>& plans) {
  struct Marked {
    const job::Piece* piece;
    std::string mark;
  };
  std::vector<Marked> seen;
  std::vector<std::pair<std::string_view, std::int64_t>> last_number;
  for (SlopePlan& plan : plans) {
    for (job::Piece& piece : plan.pieces) {
      const auto twin = std::find_if(seen.begin(), seen.end(),
                                     [&](const Marked& m) { return same_piece(*m.piece, piece); });
      if (twin != seen.end()) {
        piece.mark = twin->mark;
      } else {
        const std::string_view letter = mark_letter(piece);
        auto counter = std::find_if(last_number.begin(), last_number.end(),
                                    [&](const auto& c) { return c.first == letter; });
        if (counter == last_number.end()) {
          last_number.emplace_back(letter, 0);
          counter = last_number.end() - 1;
        }
        counter->second += 1;
        piece.mark = std::string(letter) + std::to_string(counter->second);
        seen.push_back({&piece, piece.mark});
      }
    }
    for (std::size_t i = 0; i < plan.order_of_work.size(); ++i) {
      if (plan.piece_of_step[i] >= 0) {
        plan.order_of_work[i].mark = plan.pieces[static_cast<std::size_t>(plan.piece_of_step[i])].mark;
      }
    }
  }
}

}  // namespace lapwright::pieces

#include "detail_choice.h"

#include <lapwright/job/facts.h>
#include <lapwright/practice/defaults.h>

#include <string_view>

namespace lapwright::pieces {

namespace {

using job::CoveringKind;
using job::Detail;
using job::Level;
using job::WallKind;

struct Judgement {
  Level level;              // note: right
  std::string_view reason;  // catalogue key
};

Detail right_detail(CoveringKind covering, WallKind wall) {
  if (is_double_lap(covering))
    return wall == WallKind::brick ? Detail::soakers_and_steps : Detail::soakers_and_cover;
  return covering == CoveringKind::profiled_tile ? Detail::step_and_cover : Detail::secret_gutter;
}

Judgement judge(CoveringKind covering, WallKind wall, Detail detail) {
  if (detail == right_detail(covering, wall)) return {Level::note, "detail.right"};
  switch (detail) {
    case Detail::soakers_and_steps:
      if (!is_double_lap(covering)) return {Level::wrong, "detail.soakers_need_courses"};
      return {Level::wrong, "detail.steps_need_joints"};
    case Detail::soakers_and_cover:
      if (!is_double_lap(covering)) return {Level::wrong, "detail.soakers_need_courses"};
      return {Level::doubt, "detail.chase_across_bricks"};
    case Detail::step_and_cover:
      if (is_double_lap(covering)) return {Level::wrong, "detail.cover_on_double_lap"};
      return {Level::wrong, "detail.cover_on_flat_tile"};
    case Detail::cover_flashing:
      if (is_double_lap(covering)) return {Level::wrong, "detail.cover_on_double_lap"};
      return {Level::wrong, "detail.cover_on_flat_tile"};
    case Detail::secret_gutter:
      if (covering == CoveringKind::slate) return {Level::doubt, "detail.secret_gutter_on_slate"};
      return {Level::doubt, "detail.secret_gutter_not_usual"};
    case Detail::apron:
      return {Level::wrong, "detail.apron_at_side"};
  }
  return {Level::wrong, "detail.apron_at_side"};
}

// What this version has nets for.
bool can_plan(Detail detail) {
  return detail == Detail::soakers_and_steps || detail == Detail::soakers_and_cover;
}

// A catalogue key.
std::string_view covering_word(CoveringKind kind) {
  switch (kind) {
    case CoveringKind::plain_tile:
      return "covering.plain_tiles";
    case CoveringKind::slate:
      return "covering.slates";
    case CoveringKind::profiled_tile:
      return "covering.profiled_tiles";
    case CoveringKind::flat_tile:
      return "covering.flat_tiles";
  }
  return "";
}

}  // namespace

DetailChoice choose_side_detail(const job::Slope& slope, const job::Junction& junction,
                                job::Exposure exposure, const practice::Pack& pack) {
  DetailChoice out;
  const std::string where = slope.name + " / " + junction.name;
  const CoveringKind covering = slope.covering.kind;
  const Detail right = right_detail(covering, junction.wall.kind);
  const Detail wanted = junction.detail.value_or(right);
  const Judgement judgement = judge(covering, junction.wall.kind, wanted);
  const job::Params params = {{"asked", std::string(name_of(wanted)), ""},
                              {"right", std::string(name_of(right)), ""},
                              {"covering", std::string(covering_word(covering)), "key"},
                              {"depth", pack.number("chase.depth"), "mm"},
                              {"brick_depth", pack.number("chase.brick_depth_most"), "mm"}};
  if (judgement.level != Level::note) {
    out.findings.push_back({judgement.level, std::string(judgement.reason), params, "", std::nullopt,
                            std::nullopt, "common practice, no source", where});
  }
  if (judgement.level == Level::wrong) return out;
  if (!can_plan(wanted)) {
    out.findings.push_back({Level::doubt, "detail.not_planned_yet", params, "", std::nullopt, std::nullopt,
                            "this version", where});
    return out;
  }
  const practice::Rule& exposed_code = pack.rule("flashing.code_exposed");
  if (is_exposed(exposure) &&
      practice::flashing_code(junction, pack) < static_cast<std::int64_t>(exposed_code.value)) {
    out.findings.push_back({Level::doubt,
                            "flashing.thin_for_exposure",
                            {{"code", exposed_code.value, ""}},
                            "",
                            pack.number("flashing.code"),
                            exposed_code.value,
                            exposed_code.source,
                            where});
  }
  out.plan = wanted;
  return out;
}

}  // namespace lapwright::pieces

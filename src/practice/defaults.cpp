#include <lapwright/practice/defaults.h>

namespace lapwright::practice {

namespace {

Length place_of(const job::GapAt& gap) {
  return gap.at.value_or(Length{});
}

}  // namespace

Length widest_gap(const job::Junction& junction, const Pack& pack) {
  if (junction.gaps.empty()) return pack.length("wall.gap");
  Length widest = junction.gaps.front().width.most();
  for (const job::GapAt& gap : junction.gaps) widest = max(widest, gap.width.most());
  return widest;
}

Length gap_at(const job::Junction& junction, Length s, const Pack& pack) {
  // The nearest measured places on either side; where two stand at one place the later counts.
  const job::GapAt* below = nullptr;
  const job::GapAt* above = nullptr;
  for (const job::GapAt& gap : junction.gaps) {
    const Length at = place_of(gap);
    if (at <= s && (below == nullptr || at >= place_of(*below))) below = &gap;
    if (at >= s && (above == nullptr || at <= place_of(*above))) above = &gap;
  }
  if (below == nullptr) below = above;
  if (above == nullptr) above = below;
  if (below == nullptr || above == nullptr) return pack.length("wall.gap");  // measured nowhere
  const Length apart = place_of(*above) - place_of(*below);
  if (apart <= Length{}) return max(below->width.most(), above->width.most());
  const double share = (s - place_of(*below)) / apart;
  return below->width.most() + (above->width.most() - below->width.most()) * share;
}

Length widest_gap_between(const job::Junction& junction, Length low, Length high, const Pack& pack) {
  Length widest = max(gap_at(junction, low, pack), gap_at(junction, high, pack));
  for (const job::GapAt& gap : junction.gaps) {
    if (place_of(gap) > low && place_of(gap) < high) widest = max(widest, gap.width.most());
  }
  return widest;
}

Length gap_beside(const job::Covering& covering, const job::Junction& junction, const Pack& pack) {
  const bool over_a_gutter = junction.detail ? *junction.detail == job::Detail::secret_gutter
                                             : covering.kind == job::CoveringKind::flat_tile;
  if (junction.gaps.empty() && over_a_gutter) return pack.length("secret_gutter.unit_gap");
  return widest_gap(junction, pack);
}

Length open_joint(const job::Covering& covering, const Pack& pack) {
  if (covering.joint) return *covering.joint;
  switch (covering.kind) {
    case job::CoveringKind::slate:
      return pack.length("joint.slate");
    case job::CoveringKind::plain_tile:
      return pack.length("joint.plain_tile");
    default:
      return pack.length("joint.single_lap");
  }
}

Measured<Length> brick_course(const job::Wall& wall, const Pack& pack) {
  return wall.course.value_or(Measured<Length>(pack.length("wall.course")));
}

std::int64_t flashing_code(const job::Junction& junction, const Pack& pack) {
  return junction.flashing_code.value_or(static_cast<std::int64_t>(pack.number("flashing.code")));
}

const Rule& longest_flashing(std::int64_t code, const Pack& pack) {
  constexpr std::int64_t kThinnestLong = 4;
  const Rule& usual = pack.rule("flashing.piece_most");
  if (code >= kThinnestLong) return usual;
  const Rule& thin = pack.rule("flashing.piece_most_code_3");
  return thin.value < usual.value ? thin : usual;
}

}  // namespace lapwright::practice

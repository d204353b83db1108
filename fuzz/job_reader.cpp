// Whatever bytes stand in a job file, reading ends: with faults that a person can act on, or with a survey
// whose values lie within the ranges that the schema prints.
#include <lapwright/job/read_survey.h>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <set>
#include <string_view>

namespace {

using namespace lapwright;
using namespace lapwright::job;

void require(bool holds) {
  if (!holds) std::abort();
}

void between(Length value, double low, double high) {
  require(std::isfinite(value.in_mm()) && value.in_mm() >= low && value.in_mm() <= high);
}
void between(const Measured<Length>& value, double low, double high) {
  between(value.value, low, high);
  require(value.spread >= Length{} && (value.spread < value.value || value.spread == Length{}));
}
void between(const std::optional<Length>& value, double low, double high) {
  if (value) between(*value, low, high);
}

void judge(const Junction& junction, const Slope& slope) {
  require(!junction.name.empty() && !junction.path.empty() && junction.spot.line > 0);
  const Length edge = junction.kind == JunctionKind::top ? slope.width.value : slope.rafter.value;
  const Length slack = Length::mm(1e-6);
  require(junction.from < edge);
  if (junction.to) require(junction.from < *junction.to && *junction.to <= edge + slack);
  if (junction.at) require(*junction.at <= slope.width.value + slack);
  if (junction.front) require(*junction.front <= slope.rafter.value + slack);
  const bool is_stack = junction.kind == JunctionKind::stack;
  require(is_stack == junction.front.has_value() && is_stack == junction.depth.has_value());
  require((junction.kind == JunctionKind::pipe) == junction.diameter.has_value());
  require((junction.kind == JunctionKind::wall) == !junction.line.empty());
  if (junction.soaker_code) require(*junction.soaker_code >= 3 && *junction.soaker_code <= 8);
  for (std::size_t i = 1; i < junction.wall.joints.size(); ++i) {
    require(junction.wall.joints[i - 1].value < junction.wall.joints[i].value);
  }
  if (!junction.wall.joints.empty()) require(!junction.wall.first_joint);
  for (const GapAt& gap : junction.gaps) between(gap.width, 0, 500);
}

void judge(const Survey& survey) {
  require(!survey.slopes.empty() && survey.slopes.size() <= 200);
  std::set<std::string_view> names;
  for (const Slope& slope : survey.slopes) {
    require(names.insert(slope.name).second);
    require(slope.pitch.value.in_degrees() > 0 && slope.pitch.value.in_degrees() < 90);
    between(slope.rafter, 0, 100'000);
    between(slope.width, 0, 100'000);
    require(slope.rafter.value > Length{} && slope.width.value > Length{});
    const Covering& covering = slope.covering;
    between(covering.length, 50, 2000);
    between(covering.width, 50, 1500);
    require(covering.width.value <= covering.length.value);
    const bool has_thickness =
        covering.kind == CoveringKind::plain_tile || covering.kind == CoveringKind::slate;
    if (has_thickness) between(covering.thickness, 1, 100);
    between(covering.camber, 0, 60);
    between(covering.max_gauge, 20, 2000);
    for (const UnitSet& set : covering.sets) between(set.length, 50, 2000);
    std::set<std::string_view> junction_names;
    for (const Junction& junction : slope.junctions) {
      require(junction_names.insert(junction.name).second);
      judge(junction, slope);
    }
  }
  for (const Join& join : survey.joins) {
    require(join.slopes.size() == 2 && join.slopes[0] != join.slopes[1]);
    require(names.contains(join.slopes[0]) && names.contains(join.slopes[1]));
  }
}

void judge(const Faults& faults) {
  require(!faults.empty() && faults.size() <= 1100);
  SourceSpot before;
  for (const Fault& fault : faults) {
    require(fault.code != FaultCode::internal);
    require(fault.path.starts_with('$') && !fault.read.empty() && !fault.mend.empty());
    if (fault.spot.line == 0) continue;
    require(fault.spot.line > before.line ||
            (fault.spot.line == before.line && fault.spot.column >= before.column));
    before = fault.spot;
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  const Result<Survey> survey = read_survey(bytes);
  if (survey) {
    judge(*survey);
  } else {
    judge(survey.error());
  }
  return 0;
}

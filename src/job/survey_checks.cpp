#include "survey_checks.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/job/survey.h>

#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <utility>

#include "table_reader.h"

namespace lapwright::job {

namespace {

constexpr std::size_t kMostJunctions = 10'000;
constexpr double kWidestUnit = 1500;  // mm

std::string at_line(SourceSpot spot) {
  return fmt::format("line {}, column {}", spot.line, spot.column);
}

bool is_beyond(Length place, Length edge) {
  return edge > Length{} && place > edge + tolerance::kNoise;
}

// A place on the slope that lies past the slope's own edge.
void check_place(Reading& reading, const Document& junction, std::string_view key,
                 const std::optional<Length>& place, Length edge, std::string_view edge_name,
                 const Path& path) {
  const Document* value = junction.find(key);
  if (value == nullptr || !place || !is_beyond(*place, edge)) return;
  reading.fault(
      FaultCode::no_geometry, path.under(key), value->spot, shown_length(place->in_mm(), reading.unit()),
      fmt::format("at most the slope's {}, {}", edge_name, shown_length(edge.in_mm(), reading.unit())),
      fmt::format("shorten \"{}\", or measure the slope's {} again", key, edge_name),
      {"", shown_bound(edge.in_mm(), reading.unit()), false, false});
}

// Where `to` is not given the wall runs to the slope's edge, and must begin before it.
void check_from(Reading& reading, const Document& from, const Junction& junction, Length edge,
                std::string_view edge_name, const Path& path) {
  const Document* value = from.find("from");
  if (value == nullptr || from.find("to") != nullptr || edge <= Length{} || junction.from < edge) return;
  reading.fault(
      FaultCode::no_geometry, path.under("from"), value->spot,
      shown_length(junction.from.in_mm(), reading.unit()),
      fmt::format("less than the slope's {}, {}", edge_name, shown_length(edge.in_mm(), reading.unit())),
      fmt::format("shorten \"from\", or measure the slope's {} again", edge_name),
      {"", shown_bound(edge.in_mm(), reading.unit()), false, true});
}

void check_line(Reading& reading, const Document& from, const Junction& junction, const Slope& slope,
                const Path& path) {
  const Document* line = from.find("line");
  if (line == nullptr || line->items.size() != junction.line.size()) return;  // its faults are known already
  const Path at_line_path = path.under("line");
  for (std::size_t i = 0; i < junction.line.size(); ++i) {
    const auto& point = junction.line[i];
    const Document& item = line->items[i];
    const Path at = at_line_path.item(i);
    const bool beyond_u = is_beyond(point.u, slope.width.value);
    if (beyond_u || is_beyond(point.s, slope.rafter.value)) {
      const Length place = beyond_u ? point.u : point.s;
      const Length edge = beyond_u ? slope.width.value : slope.rafter.value;
      reading.fault(FaultCode::no_geometry, at.item(beyond_u ? 0 : 1), item.items[beyond_u ? 0 : 1].spot,
                    shown_length(place.in_mm(), reading.unit()),
                    fmt::format("at most the slope's {}, {}", beyond_u ? "width" : "rafter",
                                shown_length(edge.in_mm(), reading.unit())),
                    "end the line at the slope's edge",
                    {"", shown_bound(edge.in_mm(), reading.unit()), false, false});
    }
    if (i == 0) continue;
    const auto& before = junction.line[i - 1];
    if (abs(point.u - before.u) > tolerance::kGrid || abs(point.s - before.s) > tolerance::kGrid) continue;
    reading.fault(FaultCode::contradiction, at, item.spot, "the same point as the one before it",
                  "points that differ", "remove one of the two");
  }
}

// Names given in the file must differ; `index` is the item's place in its list.
class Names {
 public:
  explicit Names(Reading& reading) : reading_(reading) {}

  void take(const std::string& name, const Document& item, const Path& path) {
    const Document* value = item.find("name");
    if (value == nullptr || name.empty()) return;
    const auto [place, added] = spots_.emplace(name, value->spot);
    if (added) return;
    reading_.fault(FaultCode::contradiction, path.under("name"), value->spot, quoted(name),
                   fmt::format("a name that is not in use; {} has it already", at_line(place->second)),
                   "give each its own name");
  }

  // The first free "<what> N" from `number` on.
  std::string free_name(std::string_view what, std::size_t& number) {
    for (;;) {
      number += 1;
      std::string name = fmt::format("{} {}", what, number);
      if (!spots_.contains(name)) return name;
    }
  }

 private:
  Reading& reading_;
  std::map<std::string, SourceSpot, std::less<>> spots_;
};

bool has_slope(const Survey& survey, std::string_view name) {
  for (const Slope& slope : survey.slopes) {
    if (slope.name == name) return true;
  }
  return false;
}

std::string slope_names(const Survey& survey) {
  constexpr std::size_t kNamed = 10;
  std::vector<Word> names;
  for (const Slope& slope : survey.slopes) {
    if (names.size() < kNamed) names.emplace_back(slope.name);
  }
  return fmt::format("the name of a slope: {}{}", listed(names),
                     survey.slopes.size() > kNamed ? ", ..." : "");
}

void check_join(Reading& reading, const Survey& survey, const Join& join, const Document& from,
                const Path& path) {
  const Document* names = from.find("slopes");
  if (names == nullptr || join.slopes.size() != 2 || names->items.size() != 2) return;
  const Path at_names = path.under("slopes");
  for (std::size_t i = 0; i < 2; ++i) {
    if (has_slope(survey, join.slopes[i])) continue;
    reading.fault(FaultCode::bad_choice, at_names.item(i), names->items[i].spot, quoted(join.slopes[i]),
                  slope_names(survey), "write a slope's name as it stands in \"slopes\"");
  }
  if (join.slopes[0] != join.slopes[1]) return;
  reading.fault(FaultCode::contradiction, at_names.item(1), names->items[1].spot, quoted(join.slopes[1]),
                "two different slopes", "name the slope that it meets");
}

// The junctions of the whole job, with the slope that each stands on.
std::vector<std::pair<std::string, std::string>> places_of(const Survey& survey) {
  std::vector<std::pair<std::string, std::string>> out;
  for (const Slope& slope : survey.slopes) {
    for (const Junction& junction : slope.junctions) {
      out.emplace_back(slope.name, junction.name);
      if (junction.across) out.emplace_back(*junction.across, junction.name);
    }
  }
  for (const Join& join : survey.joins) {
    if (join.slopes.size() == 2)
      out.emplace_back(join.slopes[0],
                       std::string(name_of(join.kind)) + " " + join.slopes[0] + " / " + join.slopes[1]);
  }
  return out;
}

std::string junction_names(const std::vector<std::pair<std::string, std::string>>& places) {
  constexpr std::size_t kNamed = 10;
  std::vector<Word> names;
  for (const auto& [slope, junction] : places) {
    if (names.size() < kNamed) names.emplace_back(junction);
  }
  if (names.empty()) return "the name of a junction; this job has none";
  return fmt::format("the name of a junction: {}{}", listed(names), places.size() > kNamed ? ", ..." : "");
}

void check_as_built(Reading& reading, const Document& from, Survey& survey, const Path& path) {
  const Document* found = from.find("as_built");
  if (found == nullptr || found->items.size() != survey.as_built.size()) return;
  const auto places = places_of(survey);
  const Path at_found = path.under("as_built");
  for (std::size_t i = 0; i < survey.as_built.size(); ++i) {
    AsBuilt& one = survey.as_built[i];
    const Document& item = found->items[i];
    if (item.kind != Document::Kind::object) continue;
    const Path at = at_found.item(i);
    const Document* slope = item.find("slope");
    if (slope != nullptr && !one.slope.empty() && !has_slope(survey, one.slope)) {
      reading.fault(FaultCode::bad_choice, at.under("slope"), slope->spot, quoted(one.slope),
                    slope_names(survey), "write a slope's name as it stands in \"slopes\"");
      continue;
    }
    const Document* junction = item.find("junction");
    if (junction == nullptr || one.junction.empty()) continue;
    std::vector<std::string> on;
    for (const auto& [its_slope, name] : places) {
      if (name == one.junction && (one.slope.empty() || one.slope == its_slope)) on.push_back(its_slope);
    }
    if (on.empty()) {
      reading.fault(FaultCode::bad_choice, at.under("junction"), junction->spot, quoted(one.junction),
                    junction_names(places), "write a junction's name as it stands in its slope");
    } else if (on.size() > 1) {
      reading.fault(FaultCode::missing_key, at.under("slope"), item.spot, "nothing",
                    "the slope's name: several have such a junction", "add \"slope\"");
    } else {
      one.slope = on.front();
    }
    const Document* course = item.find("course");
    if (course != nullptr && one.number) {
      reading.fault(FaultCode::contradiction, at.under("course"), course->spot, shown(*course),
                    "either \"course\" or \"number\", not both", "remove one of the two");
    }
  }
}

void check_leaks(Reading& reading, const Document& from, Survey& survey, const Path& path) {
  const Document* leaks = from.find("leaks");
  if (leaks == nullptr || leaks->items.size() != survey.leaks.size()) return;
  const auto places = places_of(survey);
  for (std::size_t i = 0; i < survey.leaks.size(); ++i) {
    LeakSeen& leak = survey.leaks[i];
    const Document* where = leaks->items[i].find("where");
    if (where == nullptr || leak.where.empty()) continue;
    if (has_slope(survey, leak.where)) {
      leak.slope = leak.where;
      continue;
    }
    const auto place = std::find_if(places.begin(), places.end(), [&](const auto& p) {
      return leak.where == p.second || leak.where == p.first + " / " + p.second;
    });
    if (place == places.end()) {
      reading.fault(FaultCode::bad_choice, path.under("leaks").item(i).under("where"), where->spot,
                    quoted(leak.where), junction_names(places) + ", or of a slope",
                    "name the junction nearest to where water came in");
      continue;
    }
    leak.slope = place->first;
    leak.junction = place->second;
  }
}

void check_sets(Reading& reading, const Document& from, const Covering& covering, const Path& path) {
  const Document* sets = from.find("sets");
  if (sets == nullptr || sets->items.size() != covering.sets.size()) return;
  const Path at_sets = path.under("sets");
  for (std::size_t i = 0; i < covering.sets.size(); ++i) {
    const Document& item = sets->items[i];
    if (item.kind != Document::Kind::object) continue;
    const Path at = at_sets.item(i);
    const Document* courses = item.find("courses");
    const bool is_last = i + 1 == covering.sets.size();
    if (!is_last && courses == nullptr) {
      reading.fault(FaultCode::missing_key, at.under("courses"), item.spot, "nothing",
                    "the number of courses of every set but the last", "add \"courses\", for example 8");
    }
    if (is_last && courses != nullptr) {
      reading.fault(FaultCode::contradiction, at.under("courses"), courses->spot, shown(*courses),
                    "no number of courses for the last set: it fills the rest of the slope",
                    "remove \"courses\"");
    }
    const Document* length = item.find("length");
    const bool first_differs = i == 0 && length != nullptr && covering.sets[0].length > Length{} &&
                               covering.length.value > Length{} &&
                               abs(covering.sets[0].length - covering.length.value) > tolerance::kGrid;
    if (first_differs) {
      reading.fault(FaultCode::contradiction, at.under("length"), length->spot, shown(*length),
                    fmt::format("the covering's own length in the first set: {}",
                                shown_length(covering.length.value.in_mm(), reading.unit())),
                    "give the covering the length of its first set");
    }
  }
}

}  // namespace

void put_exposure(void* survey, const Scalar& value) {
  put<&Survey::exposure>(survey, value);
  static_cast<Survey*>(survey)->exposure_given = true;
}

void put_gap(void* junction, const Scalar& value) {
  put<&GapAt::width>(&static_cast<Junction*>(junction)->gaps.emplace_back(), value);
}

void put_point(void* junction, const Scalar& value) {
  static_cast<Junction*>(junction)->line.push_back({Length::mm(value.value), Length::mm(value.spread)});
}

void put_piece(void* as_built, const Scalar& value) {
  static_cast<AsBuilt*>(as_built)->piece = kPieceWords[value.word];
}

void* the_survey(void* survey) {
  return survey;
}

void begin_slope(void* slope, SourceSpot spot, const Path& path) {
  auto& out = *static_cast<Slope*>(slope);
  out.spot = spot;
  out.path = path.text();
}

void begin_junction(void* junction, SourceSpot spot, const Path& path) {
  auto& out = *static_cast<Junction*>(junction);
  out.spot = spot;
  out.path = path.text();
}

void check_covering(Reading& reading, const Document& from, void* covering, const Path& path) {
  auto& out = *static_cast<Covering*>(covering);
  if (out.width.value > out.length.value && out.length.value > Length{}) {
    std::swap(out.length, out.width);
    out.sides_swapped = true;
  }
  if (out.width.value > Length::mm(kWidestUnit)) {
    const std::string_view key = out.sides_swapped ? "length" : "width";
    const Document& value = *from.find(key);
    reading.fault(FaultCode::out_of_range, path.under(key), value.spot, shown(value),
                  fmt::format("at most {} for the shorter side", shown_length(kWidestUnit, reading.unit())),
                  "measure it again", {"", shown_bound(kWidestUnit, reading.unit()), false, false});
  }
  check_sets(reading, from, out, path);
}

void check_wall(Reading& reading, const Document& from, void* wall, const Path& path) {
  auto& out = *static_cast<Wall*>(wall);
  const Document* joints = from.find("joints");
  if (joints == nullptr) return;
  out.joints_spot = joints->spot;
  const Document* first = from.find("first_joint");
  if (first != nullptr) {
    reading.fault(FaultCode::contradiction, path.under("first_joint"), first->spot, shown(*first),
                  "either \"first_joint\" or \"joints\", not both",
                  "remove \"first_joint\": joints[0] says the same");
  }
  if (joints->items.size() != out.joints.size()) return;  // some joint was at fault, so indices do not match
  const Path at_joints = path.under("joints");
  for (std::size_t i = 1; i < out.joints.size(); ++i) {
    const Length below = out.joints[i - 1].value;
    const Length here = out.joints[i].value;
    if (here > below) continue;
    reading.fault(
        FaultCode::contradiction, at_joints.item(i), joints->items[i].spot,
        fmt::format("joint {} at {} after joint {} at {}", i, shown_length(here.in_mm(), reading.unit()),
                    i - 1, shown_length(below.in_mm(), reading.unit())),
        "heights that rise from joint to joint", "sort the joints, lowest first, and remove doubles");
  }
}

void check_junction(Reading& reading, const Document& from, void* junction, const Path& path) {
  const auto& out = *static_cast<Junction*>(junction);
  const Document* to = from.find("to");
  if (to != nullptr && out.to && out.from >= *out.to) {
    reading.fault(FaultCode::contradiction, path.under("to"), to->spot,
                  fmt::format("from {} to {}", shown_length(out.from.in_mm(), reading.unit()),
                              shown_length(out.to->in_mm(), reading.unit())),
                  "a \"to\" that is more than \"from\"", "swap the two, or measure them again",
                  {shown_bound(out.from.in_mm(), reading.unit()), "", true, false});
  }
  const Document* clear = from.find("clear");
  if (clear == nullptr || clear->items.size() != out.clear.size()) return;  // their faults are known already
  for (std::size_t i = 1; i < out.clear.size(); ++i) {
    if (out.clear[i].at > out.clear[i - 1].at) continue;
    reading.fault(FaultCode::contradiction, path.under("clear").item(i).under("at"), clear->items[i].spot,
                  fmt::format("{} after {}", shown_length(out.clear[i].at.in_mm(), reading.unit()),
                              shown_length(out.clear[i - 1].at.in_mm(), reading.unit())),
                  "places that rise up the slope", "sort the places, lowest first, and remove doubles");
  }
}

void check_slope(Reading& reading, const Document& from, void* slope, const Path& path) {
  auto& out = *static_cast<Slope*>(slope);
  const Document* junctions = from.find("junctions");
  if (junctions == nullptr || junctions->items.size() != out.junctions.size()) return;
  const Path at_junctions = path.under("junctions");
  Names names(reading);
  for (std::size_t i = 0; i < out.junctions.size(); ++i) {
    const Document& item = junctions->items[i];
    const Junction& junction = out.junctions[i];
    const Path at = at_junctions.item(i);
    names.take(junction.name, item, at);
    const bool is_top = junction.kind == JunctionKind::top;
    const Length edge = is_top ? out.width.value : out.rafter.value;
    const std::string_view edge_name = is_top ? "width" : "rafter";
    check_from(reading, item, junction, edge, edge_name, at);
    check_place(reading, item, "to", junction.to, edge, edge_name, at);
    check_place(reading, item, "at", junction.at, out.width.value, "width", at);
    check_place(reading, item, "front", junction.front, out.rafter.value, "rafter", at);
    check_place(reading, item, "up", junction.up, out.rafter.value, "rafter", at);
    check_line(reading, item, junction, out, at);
  }
  std::map<JunctionKind, std::size_t> numbers;
  for (Junction& junction : out.junctions) {
    std::size_t& number = numbers[junction.kind];
    if (junction.name.empty()) {
      junction.name = names.free_name(name_of(junction.kind), number);
    } else {
      number += 1;
    }
  }
}

void check_survey(Reading& reading, const Document& from, void* survey, const Path& path) {
  auto& out = *static_cast<Survey*>(survey);
  if (from.find("show") == nullptr) out.shown_in = out.unit_is_inches ? ShownIn::inches : ShownIn::mm;
  const Document* slopes = from.find("slopes");
  if (slopes == nullptr || slopes->items.size() != out.slopes.size()) return;
  const Path at_slopes = path.under("slopes");
  Names names(reading);
  std::size_t junctions = 0;
  for (std::size_t i = 0; i < out.slopes.size(); ++i) {
    names.take(out.slopes[i].name, slopes->items[i], at_slopes.item(i));
    junctions += out.slopes[i].junctions.size();
  }
  if (junctions > kMostJunctions) {
    reading.fault(FaultCode::too_many, at_slopes, slopes->spot, fmt::format("{} junctions", junctions),
                  fmt::format("at most {} junctions in a job", kMostJunctions),
                  "split the job into several files");
  }
  std::size_t number = 0;
  for (Slope& slope : out.slopes) {
    if (slope.name.empty()) {
      slope.name = names.free_name("slope", number);
    } else {
      number += 1;
    }
  }
  for (std::size_t i = 0; i < out.slopes.size(); ++i) {
    const Path at_slope = at_slopes.item(i);
    const Path at_junctions = at_slope.under("junctions");
    for (std::size_t j = 0; j < out.slopes[i].junctions.size(); ++j) {
      const Junction& junction = out.slopes[i].junctions[j];
      if (!junction.across) continue;
      if (has_slope(out, *junction.across) && *junction.across != out.slopes[i].name) continue;
      const Path at = at_junctions.item(j);
      const Document& value = *slopes->items[i].find("junctions")->items[j].find("across");
      reading.fault(FaultCode::bad_choice, at.under("across"), value.spot, quoted(*junction.across),
                    slope_names(out) + ", and not its own", "name the slope on the other side of the ridge");
    }
  }
  const Document* joins = from.find("joins");
  const bool joins_read = joins != nullptr && joins->items.size() == out.joins.size();
  const Path at_joins = path.under("joins");
  for (std::size_t i = 0; joins_read && i < out.joins.size(); ++i) {
    check_join(reading, out, out.joins[i], joins->items[i], at_joins.item(i));
  }
  check_as_built(reading, from, out, path);
  check_leaks(reading, from, out, path);
}

}  // namespace lapwright::job

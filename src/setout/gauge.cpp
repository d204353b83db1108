#include "gauge.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>
#include <lapwright/practice/figure.h>

#include <utility>

namespace lapwright::setout {

namespace {

using job::CoveringKind;
using job::Exposure;
using job::Level;
using job::Nailing;
using practice::Why;

bool is_wet(Exposure exposure) {
  return exposure == Exposure::severe || exposure == Exposure::very_severe;
}

Headlap plain_tile_headlap(const job::Slope& slope, Exposure exposure, const practice::Pack& pack) {
  Headlap out;
  const practice::Rule& rule =
      pack.rule(is_wet(exposure) ? "headlap.plain_tile_severe" : "headlap.plain_tile");
  const Length asked = slope.covering.headlap.value_or(Length::mm(rule.value));
  out.least = asked;
  out.alternatives.push_back({rule.value, rule.source, rule.standing, !slope.covering.headlap.has_value()});
  if (slope.covering.headlap) {
    out.alternatives.push_back({asked.in_mm(), "this job", job::Standing::measured, true});
    out.figure = Why("least_headlap", "H", "mm").survey("H", asked).gives(asked);
    if (asked < Length::mm(rule.value) - tolerance::kNoise) {
      out.findings.push_back({Level::wrong,
                              "headlap.below_least",
                              {{"headlap", asked.in_mm(), "mm"}, {"least", rule.value, "mm"}},
                              "",
                              asked.in_mm(),
                              rule.value,
                              rule.source,
                              slope.name});
    }
  } else {
    out.figure = Why("least_headlap", "H", "mm").rule("H", rule).gives(rule.value);
  }
  return out;
}

std::string interpolation_note(const practice::HeadlapAnswer& answer) {
  std::string text = answer.table;
  if (answer.interpolated) {
    text += ", between " + trimmed(answer.below, 1) + "° and " + trimmed(answer.above, 1) + "°";
  }
  if (answer.size_was_between) text += ", row " + answer.row;
  return text;
}

// Says which sizes would do here, at most three, so that the person has somewhere to go.
std::string offers(const job::Slope& slope, Exposure exposure, const practice::Pack& pack) {
  constexpr std::size_t kMostOffers = 3;
  std::string text;
  std::size_t told = 0;
  for (const auto& offer : pack.slate_sizes_permitted(slope.pitch.value, exposure)) {
    if (told == kMostOffers) break;
    const Length gauge = (offer.length - offer.headlap) / 2.0;
    const Length soaker = offer.length - gauge + pack.length("soaker.head_allowance");
    if (told != 0) text += "; ";
    text += trimmed(offer.length.in_mm(), 1) + " × " + trimmed(offer.width.in_mm(), 1) + " at headlap " +
            trimmed(offer.headlap.in_mm(), 1) + " (gauge " + trimmed(gauge.in_mm(), 1) + ", soaker " +
            trimmed(soaker.in_mm(), 1) + " long)";
    ++told;
  }
  return text;
}

void refuse_slate(const job::Slope& slope, Exposure exposure, const practice::Pack& pack,
                  const std::vector<practice::HeadlapAnswer>& answers, Headlap& out) {
  std::string first;
  for (const auto& answer : answers) {
    if (!answer.first_pitch || answer.shown_only) continue;
    const std::string text = trimmed(*answer.first_pitch, 1) + "° (" + answer.table + ")";
    if (first.find(text) != std::string::npos) continue;
    if (!first.empty()) first += ", ";
    first += text;
  }
  const std::string offer = offers(slope, exposure, pack);
  out.findings.push_back({Level::wrong,
                          offer.empty() ? "headlap.no_table_no_offer" : "headlap.no_table",
                          {{"pitch", slope.pitch.value.in_degrees(), "deg"},
                           {"length", slope.covering.length.value.in_mm(), "mm"},
                           {"width", slope.covering.width.value.in_mm(), "mm"},
                           {"first", first.empty() ? std::string("none") : first, ""},
                           {"offers", offer, ""}},
                          "",
                          slope.pitch.value.in_degrees(),
                          std::nullopt,
                          answers.empty() ? "" : answers.front().source,
                          slope.name});
}

Headlap slate_headlap(const job::Slope& slope, Exposure exposure, const practice::Pack& pack) {
  Headlap out;
  const auto answers = pack.slate_headlaps(slope.covering.length.value, slope.covering.width.value,
                                           slope.pitch.value, exposure);
  const auto& fixed = slope.covering.headlap;
  const practice::HeadlapAnswer* chosen = practice::default_headlap(answers);
  for (const auto& answer : answers) {
    if (!answer.headlap) continue;
    const bool is_chosen = !fixed && &answer == chosen;
    out.alternatives.push_back(
        {answer.headlap->in_mm(), interpolation_note(answer), answer.standing, is_chosen});
  }
  if (fixed) out.alternatives.push_back({fixed->in_mm(), "this job", job::Standing::measured, true});
  if (chosen == nullptr) {
    refuse_slate(slope, exposure, pack, answers, out);
    out.least = fixed;
    if (fixed) out.figure = Why("least_headlap", "H", "mm").survey("H", *fixed).gives(*fixed);
    return out;
  }
  if (fixed) {
    out.least = *fixed;
    out.figure = Why("least_headlap", "H", "mm").survey("H", *fixed).gives(*fixed);
    bool some_table_agrees = false;
    for (const auto& answer : answers) {
      some_table_agrees =
          some_table_agrees || (answer.headlap && *answer.headlap <= *fixed + tolerance::kPublishedRounding);
    }
    if (*fixed < *chosen->headlap - tolerance::kNoise) {
      out.findings.push_back({some_table_agrees ? Level::doubt : Level::wrong,
                              some_table_agrees ? "headlap.below_chosen_table" : "headlap.below_tables",
                              {{"headlap", fixed->in_mm(), "mm"},
                               {"least", chosen->headlap->in_mm(), "mm"},
                               {"table", interpolation_note(*chosen), ""}},
                              "",
                              fixed->in_mm(),
                              chosen->headlap->in_mm(),
                              chosen->source,
                              slope.name});
    }
    return out;
  }
  out.least = chosen->headlap;
  out.figure = Why("least_headlap", "H", "mm")
                   .term("H", chosen->headlap->in_mm(), "mm", interpolation_note(*chosen))
                   .gives(*chosen->headlap);
  out.figure.source = chosen->source;
  out.figure.standing = chosen->standing;
  if (chosen->interpolated) {
    out.findings.push_back({Level::note,
                            "headlap.interpolated",
                            {{"pitch", slope.pitch.value.in_degrees(), "deg"},
                             {"headlap", chosen->headlap->in_mm(), "mm"},
                             {"table", interpolation_note(*chosen), ""}},
                            "",
                            chosen->headlap->in_mm(),
                            std::nullopt,
                            chosen->source,
                            slope.name});
  }
  if (chosen->size_was_between) {
    out.findings.push_back({Level::doubt,
                            "headlap.size_not_in_table",
                            {{"length", slope.covering.length.value.in_mm(), "mm"},
                             {"width", slope.covering.width.value.in_mm(), "mm"},
                             {"row", chosen->row, ""},
                             {"headlap", chosen->headlap->in_mm(), "mm"}},
                            "",
                            chosen->headlap->in_mm(),
                            std::nullopt,
                            chosen->source,
                            slope.name});
  }
  return out;
}

// Single-lap tiles: the maker's largest gauge rules; a headlap is taken when given.
Headlap single_lap_headlap(const job::Slope& slope) {
  Headlap out;
  const job::Covering& c = slope.covering;
  if (c.headlap) {
    out.least = c.headlap;
    out.alternatives.push_back({c.headlap->in_mm(), "this job", job::Standing::measured, true});
    out.figure = Why("least_headlap", "H", "mm").survey("H", *c.headlap).gives(*c.headlap);
  } else if (c.max_gauge) {
    const Length lap = c.length.value - *c.max_gauge;
    out.least = lap;
    out.figure = Why("least_headlap", "L - Gmax", "mm")
                     .survey("L", c.length.value)
                     .survey("Gmax", *c.max_gauge)
                     .gives(lap);
  }
  return out;
}

struct Set {
  Length length;
  Length largest;
  std::int64_t courses = 0;  // 0: fills the rest
};

// The largest gauge of a unit of this length: what the headlap allows, and the person's own greatest.
Length largest_gauge(const job::Covering& covering, Length length, Length headlap,
                     const std::optional<Length>& own_most, const practice::Pack& pack) {
  const Length by_lap =
      is_double_lap(covering.kind) ? (length - headlap - dead_head(covering, pack)) / 2.0 : length - headlap;
  return own_most ? min(by_lap, *own_most) : by_lap;
}

job::Figure largest_figure(const job::Covering& c, Length headlap, Length largest,
                           const practice::Pack& pack) {
  const bool twice = is_double_lap(c.kind);
  std::string formula =
      twice
          ? (c.kind == CoveringKind::slate && c.nailing == Nailing::head ? "(L - H - N) / 2" : "(L - H) / 2")
          : "L - H";
  if (c.max_gauge) formula = "min(Gmax, " + formula + ")";
  Why why("largest_gauge", formula, "mm");
  why.survey("L", c.length.value).term("H", headlap.in_mm(), "mm", "figure least_headlap");
  if (c.kind == CoveringKind::slate && c.nailing == Nailing::head)
    why.rule("N", pack.rule("slate.head_nail"));
  if (c.max_gauge) why.survey("Gmax", *c.max_gauge);
  return why.gives(largest);
}

void append_courses(job::SlopeLayout& layout, Length from, Length gauge, std::int64_t count, Length length) {
  for (std::int64_t k = 0; k < count; ++k) {
    layout.courses.push_back({from + gauge * static_cast<double>(k), length, gauge});
  }
}

}  // namespace

bool is_double_lap(CoveringKind kind) {
  return kind == CoveringKind::plain_tile || kind == CoveringKind::slate;
}

Length dead_head(const job::Covering& covering, const practice::Pack& pack) {
  const bool head_nailed = covering.kind == CoveringKind::slate && covering.nailing == Nailing::head;
  return head_nailed ? pack.length("slate.head_nail") : Length{};
}

Headlap choose_headlap(const job::Slope& slope, Exposure exposure, const practice::Pack& pack) {
  switch (slope.covering.kind) {
    case CoveringKind::plain_tile:
      return plain_tile_headlap(slope, exposure, pack);
    case CoveringKind::slate:
      return slate_headlap(slope, exposure, pack);
    default:
      return single_lap_headlap(slope);
  }
}

Result<void> fill_courses(const job::Slope& slope, Length headlap, const practice::Pack& pack,
                          job::SlopeLayout& layout) {
  const job::Covering& c = slope.covering;
  const Length rafter = slope.rafter.value;
  std::vector<Set> sets;
  if (c.sets.empty()) {
    sets.push_back({c.length.value, largest_gauge(c, c.length.value, headlap, c.max_gauge, pack), 0});
  } else {
    for (const job::UnitSet& s : c.sets) {
      const auto own_most = s.max_gauge ? s.max_gauge : c.max_gauge;
      sets.push_back({s.length, largest_gauge(c, s.length, headlap, own_most, pack), s.courses.value_or(0)});
    }
    sets.back().courses = 0;
  }
  Length at;
  for (std::size_t i = 0; i < sets.size(); ++i) {
    const Set& set = sets[i];
    // A gauge of a few millimetres would make thousands of courses out of one typing error.
    constexpr Length kLeastGauge = Length::mm(20);
    if (set.largest < kLeastGauge) {
      return failed(Fault{
          FaultCode::no_geometry, slope.path + ".covering", slope.spot,
          "a unit " + trimmed(set.length.in_mm(), 1) + " long at headlap " + trimmed(headlap.in_mm(), 1),
          "a headlap that leaves a gauge of at least 20 mm", "check the unit's length and the headlap"});
    }
    const Length left = rafter - at;
    const bool last = i + 1 == sets.size();
    if (left <= tolerance::kNoise || (!last && set.largest * static_cast<double>(set.courses) >= left)) {
      return failed(Fault{FaultCode::no_geometry, slope.path + ".covering.sets", slope.spot,
                          "sets that reach past the top edge at " + trimmed(rafter.in_mm(), 1) + " mm",
                          "sets that leave at least one course for the last",
                          "give the lower sets fewer courses, or measure the rafter again"});
    }
    const std::int64_t count = last ? whole_up(left / set.largest) : set.courses;
    const Length gauge = last ? left / static_cast<double>(count) : set.largest;
    append_courses(layout, at, gauge, count, set.length);
    at += gauge * static_cast<double>(count);
    if (last) {
      const std::string formula = sets.size() == 1 ? "R / n" : "(R - below) / n";
      Why why("gauge", formula, "mm");
      why.survey("R", rafter).term("n", static_cast<double>(count), "", "figure courses");
      if (sets.size() != 1) why.set_out("below", rafter - left);
      layout.set_out.figures.push_back(largest_figure(c, headlap, set.largest, pack));
      if (sets.size() != 1) layout.set_out.figures.pop_back();
      Why counted("courses", sets.size() == 1 ? "ceil(R / Glargest)" : "ceil((R - below) / Glargest)", "");
      counted.survey("R", rafter).term("Glargest", set.largest.in_mm(), "mm", "figure largest_gauge");
      if (sets.size() != 1) counted.set_out("below", rafter - left);
      layout.set_out.figures.push_back(counted.gives(static_cast<double>(count)));
      layout.set_out.figures.push_back(why.gives(gauge));
      if (gauge < set.largest - tolerance::kGrid) {
        const Length fixed_left = left - set.largest * static_cast<double>(count - 1);
        layout.findings.push_back({Level::note,
                                   "setout.gauge_shrunk",
                                   {{"courses", static_cast<double>(count), ""},
                                    {"gauge", gauge.in_mm(), "mm"},
                                    {"largest", set.largest.in_mm(), "mm"},
                                    {"left", fixed_left.in_mm(), "mm"}},
                                   "",
                                   gauge.in_mm(),
                                   set.largest.in_mm(),
                                   "geometry",
                                   slope.name});
      }
    }
  }
  return {};
}

}  // namespace lapwright::setout

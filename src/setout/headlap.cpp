#include "headlap.h"

#include "gauge.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>
#include <lapwright/job/facts.h>
#include <lapwright/practice/figure.h>

#include <utility>

namespace lapwright::setout {

namespace {

using job::CoveringKind;
using job::Exposure;
using job::Level;
using practice::Why;

Headlap plain_tile_headlap(const job::Slope& slope, Exposure exposure, const practice::Pack& pack) {
  Headlap out;
  const practice::Rule& rule =
      pack.rule(is_exposed(exposure) ? "headlap.plain_tile_severe" : "headlap.plain_tile");
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

}  // namespace

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

}  // namespace lapwright::setout

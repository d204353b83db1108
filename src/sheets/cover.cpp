// The cover: what was assumed, chosen, found; and the care page's short form.
#include "pages.h"

#include <lapwright/draw/font.h>

#include <cmath>
#include <set>

namespace lapwright::sheets {

namespace {

using draw::pt;

bool is_assumption(const job::Finding& finding) {
  return finding.rule.ends_with("_assumed");
}

void say_finding(Flow& flow, const Words& words, const job::Finding& finding) {
  std::string text = words.say("level." + std::string(name_of(finding.level))) + ": ";
  if (!finding.where.empty() && !finding.where.starts_with("$")) text += finding.where + ": ";
  text += finding.text;
  if (!finding.source.empty() && finding.source != "survey" && finding.source != "geometry") {
    text += " [" + finding.source + "]";
  }
  draw::Drawing& page = flow.need(draw::line_height(kNumber) * 2);
  page.add(level_shape(finding.level, {kArea.left + 3, flow.y() - draw::line_height(kNumber) / 2}));
  flow.paragraph(text, kNumber, 8);
  flow.gap(0.5);
}

std::set<std::string> rules_used(const job::Plan& plan) {
  std::set<std::string> out;
  const auto look = [&](const std::vector<job::Figure>& figures) {
    for (const job::Figure& figure : figures) {
      if (!figure.rule.empty()) out.insert(figure.rule);
      for (const job::Term& term : figure.terms) {
        if (term.from.starts_with("rule ")) out.insert(term.from.substr(5));
      }
    }
  };
  for (const job::SetOut& set_out : plan.set_out) look(set_out.figures);
  for (const job::Piece& piece : plan.pieces) look(piece.figures);
  return out;
}

std::vector<std::string> choices(const Sources& sources, const Words& words) {
  std::vector<std::string> out;
  for (const job::SetOut& set_out : sources.plan.set_out) {
    std::string used;
    std::string others;
    for (const job::SetAlternative& answer : set_out.headlaps) {
      const std::string said = words.value(answer.value, "mm", ShownHow::up) + " (" + answer.source + ")";
      if (answer.chosen) {
        used = said;
      } else {
        others += (others.empty() ? "" : "; ") + said;
      }
    }
    if (!others.empty()) {
      out.push_back(words.say("sheet.choice",
                              {{"what", words.say("sheet.headlap_of", {{"slope", set_out.slope, ""}}), ""},
                               {"used", used, ""},
                               {"others", others, ""}}));
    }
  }
  for (const std::string& name : rules_used(sources.plan)) {
    const practice::Rule* rule = sources.pack.find(name);
    if (rule == nullptr || rule->alternatives.empty()) continue;
    // A source that prints several values is named once, after the last of them.
    std::string others;
    for (std::size_t i = 0; i < rule->alternatives.size(); ++i) {
      const practice::Alternative& other = rule->alternatives[i];
      others += (others.empty() ? "" : ", ") + words.value(other.value, rule->unit);
      const bool goes_on =
          i + 1 < rule->alternatives.size() && rule->alternatives[i + 1].source == other.source;
      if (!goes_on) others += " (" + other.source + ")";
    }
    out.push_back(words.say("sheet.choice",
                            {{"what", words.rule(rule->name), ""},
                             {"used", words.value(rule->value, rule->unit) + " (" + rule->source + ")", ""},
                             {"others", others, ""}}));
  }
  return out;
}

// What a person must know before touching lead, one line each.
std::vector<std::string> cautions(const Sources& sources, const Words& words) {
  const job::Params params{{"lift", sources.pack.number("lift.one_person"), "kg"}};
  std::vector<std::string> out;
  for (int i = 1; words.has("sheet.caution." + std::to_string(i)); ++i) {
    out.push_back(words.say("sheet.caution." + std::to_string(i), params));
  }
  return out;
}

}  // namespace

void add_cover(Sheets& sheets) {
  const Words& words = sheets.words();
  const job::Plan& plan = sheets.sources().plan;
  Flow flow(sheets, words.say("sheet.cover"));
  std::string title = plan.title;
  flow.paragraph(draw::shortened(title, kArea.width() * 1.9, pt(20), draw::Weight::bold), pt(20), 0,
                 draw::Weight::bold);
  flow.gap(2);
  for (const job::SetOut& out : plan.set_out) {
    flow.paragraph(words.say("sheet.slope", {{"slope", out.slope, ""},
                                             {"courses", static_cast<double>(out.courses), ""},
                                             {"gauge", out.gauge.in_mm(), "mm"},
                                             {"headlap", out.headlap.in_mm(), "mm"}}),
                   pt(13));
  }

  flow.heading(words.say("sheet.cautions"));
  for (const std::string& caution : cautions(sheets.sources(), words)) {
    flow.paragraph("– " + caution, kNumber, 2);
  }

  flow.heading(words.say("sheet.findings"));
  bool any = false;
  for (const job::Finding& finding : plan.findings) {
    if (is_assumption(finding)) continue;
    say_finding(flow, words, finding);
    any = true;
  }
  if (!any) flow.paragraph(words.say("sheet.nothing_found"), kNumber, 2);

  any = false;
  for (const job::Finding& finding : plan.findings) {
    if (!is_assumption(finding)) continue;
    if (!any) flow.heading(words.say("sheet.assumed"));
    any = true;
    say_finding(flow, words, finding);
  }
  const auto list = [&](std::string_view key, const std::vector<std::string>& lines) {
    if (lines.empty()) return;
    flow.heading(words.say(key));
    for (const std::string& line : lines) flow.paragraph(line, kNumber, 2);
  };
  list("sheet.choices", choices(sheets.sources(), words));
  std::vector<std::string> own;
  for (const job::OverrideUsed& used : plan.practice.overrides) {
    own.push_back(words.say("rule.overridden", {{"rule", words.rule(used.rule), ""},
                                                {"value", used.value, used.unit},
                                                {"pack_value", used.pack_value, used.unit}}));
  }
  list("sheet.own_values", own);
  std::vector<std::string> memory;
  for (const job::MemoryUsed& used : plan.practice.from_memory) {
    memory.push_back(words.say("rule.from_memory",
                               {{"rule", words.rule(used.rule), ""}, {"value", used.value, used.unit}}));
  }
  list("sheet.memory", memory);
  flow.gap(4);
  flow.paragraph(
      words.say("sheet.made_with", {{"pack", plan.practice.pack, ""}, {"engine", plan.engine, ""}}));
}

void add_care(Sheets& sheets) {
  const Words& words = sheets.words();
  Flow flow(sheets, words.say("sheet.care"));
  for (int i = 1; words.has("sheet.care." + std::to_string(i)); ++i) {
    flow.gap(3);
    flow.paragraph(words.say("sheet.care." + std::to_string(i)), pt(13));
  }
  flow.heading(words.say("sheet.cautions"));
  for (const std::string& caution : cautions(sheets.sources(), words)) {
    flow.paragraph(caution, pt(13), 2);
    flow.gap(2);
  }
}

}  // namespace lapwright::sheets

// Figures as sentences that a roofer would accept.
#pragma once

#include <lapwright/job/difference.h>
#include <lapwright/job/plan.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/catalogue.h>
#include <lapwright/practice/pack.h>

#include <string>
#include <string_view>

namespace lapwright::practice {

// One paragraph: the sentence, the sum with its terms, where each term comes from, the source and its
// standing, and what others print.
std::string why_figure(std::string_view kind, const job::Figure& figure, const Pack& pack,
                       const Catalogue& catalogue, job::ShownIn shown_in);

// The parts of it.
std::string sentence_of(std::string_view kind, const job::Figure& figure, const Catalogue& catalogue,
                        job::ShownIn shown_in);
// The formula with each symbol replaced by its value: "L - G + a" gives "265 - 100 + 25".
std::string sum_of(const job::Figure& figure);
// Where a term comes from: "from your survey", or the rule with its standing and source.
std::string origin_of(const job::Term& term, const Pack& pack, const Catalogue& catalogue,
                      job::ShownIn shown_in);

// Where a difference is, and what differs there, as a person says it: "rear / Battens" for "rear /
// battens.length", "width needed" for "width_needed".
std::string place_in_words(const job::Difference& difference, const Catalogue& catalogue);
std::string name_in_words(const job::Difference& difference);

}  // namespace lapwright::practice

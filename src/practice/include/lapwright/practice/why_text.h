// Figures as sentences that a roofer would accept.
#pragma once

#include <lapwright/job/plan.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/catalogue.h>
#include <lapwright/practice/pack.h>

#include <string>

namespace lapwright::practice {

// One paragraph: the sentence, the sum with its terms, where each term comes from, the source and its
// standing, and what others print.
std::string why_figure(std::string_view kind, const job::Figure& figure, const Pack& pack,
                       const Catalogue& catalogue, job::ShownIn shown_in);

}  // namespace lapwright::practice

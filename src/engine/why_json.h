// Figures, rules and faults as JSON, for a host that shows them: every number in words, with where it comes
// from.
#pragma once

#include <lapwright/base/fault.h>
#include <lapwright/job/plan.h>
#include <lapwright/practice/catalogue.h>
#include <lapwright/practice/pack.h>

#include <string>
#include <string_view>
#include <vector>

namespace lapwright::engine {

// Format "lapwright-why/1": figures with sentence, value, formula, the sum with its values put in, terms,
// source, standing, and the rule that decides with what others print.
std::string why_json(std::string_view kind, const std::vector<job::Figure>& figures,
                     const practice::Pack& pack, const practice::Catalogue& catalogue, job::ShownIn shown_in);

// Format "lapwright-rules/1": the pack's rules as the job has them.
std::string rules_json(const practice::Pack& pack, const practice::Catalogue& catalogue,
                       job::ShownIn shown_in);

// Format "lapwright-faults/1".
std::string faults_json(const Faults& faults);

// Format "lapwright-texts/1": every text of the catalogue that needs no values.
std::string texts_json(const practice::Catalogue& catalogue);

}  // namespace lapwright::engine

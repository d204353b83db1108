// A plan as text for a terminal: what was laid out, what to cut, what is doubtful.
#pragma once

#include <lapwright/job/plan.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/catalogue.h>

#include <string>
#include <vector>

namespace lapwright::engine {

std::string plan_table(const job::Survey& survey, const job::Plan& plan,
                       const practice::Catalogue& catalogue);

// One finding a paragraph: level, where, text, source.
std::string findings_text(const std::vector<job::Finding>& findings, const practice::Catalogue& catalogue);

}  // namespace lapwright::engine

// The cutting list as text for a terminal: what to buy, what it costs, how far from the best it can be.
#pragma once

#include <lapwright/job/plan.h>
#include <lapwright/practice/catalogue.h>

#include <string>

namespace lapwright::engine {

std::string cutting_text(const job::Cutting& cutting, const practice::Catalogue& catalogue,
                         job::ShownIn shown_in);

}  // namespace lapwright::engine

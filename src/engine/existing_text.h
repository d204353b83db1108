// What is told of a roof that stands already, and of the odds, in words.
#pragma once

#include "planning.h"

#include <string>

namespace lapwright::engine {

// Gives every suspect and every unexplained leak of the plan its texts.
void put_existing_in_words(Planned& planned);

// For a terminal: suspects the likeliest first, the order to test in, what the lead does not explain. Empty
// where the job says nothing of an existing roof.
std::string existing_text(const Planned& planned);

// For a terminal: what may turn out wrong, the likeliest first. Empty where odds were not asked for.
std::string odds_text(const Planned& planned);

}  // namespace lapwright::engine

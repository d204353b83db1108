// The practice pack as a list that a person can choose from.
#pragma once

#include <lapwright/practice/catalogue.h>
#include <lapwright/practice/pack.h>

#include <string>

namespace lapwright::engine {

// Every rule: name, value, where it comes from and how far it can be trusted, what it means, what others
// print, and past what the trade forbids it.
std::string rules_text(const practice::Pack& pack, const practice::Catalogue& catalogue);

}  // namespace lapwright::engine

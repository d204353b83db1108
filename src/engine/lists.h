// The lists of a plan as CSV.
#pragma once

#include "planning.h"

#include <string>
#include <string_view>
#include <vector>

namespace lapwright::engine {

struct List {
  std::string_view part;  // the paper that it belongs to: "order"
  std::string name;       // "order.csv"
  std::string bytes;
};

std::vector<List> lists_of(const Planned& planned);

}  // namespace lapwright::engine

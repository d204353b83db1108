// The files that belong to a plan: drawings, sheets, papers, lists.
#pragma once

#include "planning.h"

#include <lapwright/engine/engine.h>

#include <vector>

namespace lapwright::engine {

// REQUIRES a request whose papers are known.
std::vector<Document> documents_of(const Planned& planned, const Request& request);

}  // namespace lapwright::engine

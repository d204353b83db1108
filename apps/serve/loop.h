// All connections in one thread: whoever is ready is served, and nobody waits for another.
#pragma once

#include <chrono>

#include "serve/descriptor.h"
#include "serve/site.h"

namespace lapwright::serve {

// Serves until a byte can be read from `stop`. Answers that are on their way then get two seconds more.
void serve_until(const Descriptor& stop, const Descriptor& listener, const Site& site,
                 std::chrono::seconds patience);

}  // namespace lapwright::serve

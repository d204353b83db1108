// Prints one line per function, "name hash": the native half of the test trig-parity.
#include "trig_grid.h"

#include <cinttypes>
#include <cstdio>
#include <string>

int main() {
  for (const auto& function : lapwright::parity::kFunctions) {
    std::printf("%s %016" PRIx64 "\n", std::string(function.name).c_str(),
                lapwright::parity::bits_of(function));
  }
}

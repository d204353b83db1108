// The WebAssembly half of the test trig-parity. tests/wasm/trig_parity.mjs calls it.
#include "trig_grid.h"

extern "C" {
// The host asks by index until the name's length is 0.
const char* grid_name(std::uint32_t index);
std::uint32_t grid_name_length(std::uint32_t index);
std::uint64_t grid_bits(std::uint32_t index);
}

using lapwright::parity::kFunctions;

const char* grid_name(std::uint32_t index) {
  return index < kFunctions.size() ? kFunctions[index].name.data() : nullptr;
}

std::uint32_t grid_name_length(std::uint32_t index) {
  return index < kFunctions.size() ? static_cast<std::uint32_t>(kFunctions[index].name.size()) : 0;
}

std::uint64_t grid_bits(std::uint32_t index) {
  return index < kFunctions.size() ? lapwright::parity::bits_of(kFunctions[index]) : 0;
}

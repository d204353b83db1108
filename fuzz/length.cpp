// Whatever text stands for a length: a fault with a cure, or a length that survives being shown and read
// again.
#include <lapwright/base/numbers.h>
#include <lapwright/job/length_text.h>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

namespace {

using namespace lapwright;
using namespace lapwright::job;

void require(bool holds) {
  if (!holds) std::abort();
}

void judge(Length length) {
  const double mm = length.in_mm();
  require(std::isfinite(mm) && mm >= 0 && mm <= 1e9);
  if (mm > 9e8) return;  // rounded up, it may pass the limit of reading
  // Six decimals of a mm, read again: within half of the last one.
  const auto again = read_length(trimmed(mm, 6) + " mm", LengthUnit::inches);
  require(again && std::abs(again->in_mm() - mm) <= 0.5e-6 + mm * 1e-15);
  const auto whole = read_length(shown_mm(length), LengthUnit::mm);
  require(whole && std::abs(whole->in_mm() - mm) <= 0.5 + 1e-6);
  // Sixteenths: within half of one, and shown the same from then on; up and down enclose the length.
  const std::string shown = shown_inches(length);
  const auto inches = read_length(shown, LengthUnit::mm);
  require(inches && std::abs(inches->in_mm() - mm) <= 25.4 / 32 + 1e-5);
  require(shown_inches(*inches) == shown);
  const auto up = read_length(shown_inches(length, Rounding::up), LengthUnit::mm);
  const auto down = read_length(shown_inches(length, Rounding::down), LengthUnit::mm);
  require(up && down && down->in_mm() <= mm + 1e-5 && mm <= up->in_mm() + 1e-5);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  for (const LengthUnit unit : {LengthUnit::mm, LengthUnit::inches}) {
    const Result<Length> length = read_length(text, unit);
    if (length) {
      judge(*length);
      continue;
    }
    require(length.error().size() == 1);
    const Fault& fault = length.error().front();
    require(fault.code == FaultCode::bad_length && !fault.accepted.empty() && !fault.mend.empty());
    require(fault.path.empty() && fault.spot.line == 0);
  }
  return 0;
}

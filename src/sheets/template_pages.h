// Full-size templates tiled over pages.
#pragma once

namespace lapwright::sheets {

// Neighbouring pages show this much of the template twice, mm; match marks sit in its middle.
inline constexpr double kGlue = 12;

}  // namespace lapwright::sheets

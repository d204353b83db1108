// Coverings and lead laid by hand, for the tracer alone: nothing of the planner is asked.
#pragma once

#include <lapwright/check/trace.h>

#include <cstdint>
#include <vector>

namespace lapwright::sample {

struct Covering {
  double length = 265;
  double width = 165;
  double gauge = 100;
  double joint = 3;
  double offset = 0.5;  // of the bond, of a unit and its joint
  std::int64_t courses = 20;
  std::int64_t units = 7;
  double gap = 0;  // beside the wall at u = 0
  bool wall = false;
};

inline const Covering kTile{};
inline const Covering kSlate{500, 250, 204.5, 5, 0.5, 20, 7, 0, false};

// Course k lies at order 2k; the under-course at -2. Lead under course k takes 2k - 1.
inline check::Traced covering(const Covering& c) {
  check::Traced out;
  const double pitch = c.width + c.joint;
  const double right = c.gap + static_cast<double>(c.units) * pitch - c.joint;
  const double top = static_cast<double>(c.courses) * c.gauge;
  for (std::int64_t k = -1; k < c.courses; ++k) {
    const double tail = k < 0 ? 0 : static_cast<double>(k) * c.gauge;
    const double head = k < 0 ? c.length - c.gauge : tail + c.length;
    // Every other course is moved, in whatever bond.
    const double shift = (k % 2 == 0 ? 0 : c.offset) * pitch;
    for (std::int64_t i = -1; i < c.units; ++i) {
      double u0 = c.gap + shift + static_cast<double>(i) * pitch;
      double u1 = u0 + c.width;
      if (i == c.units - 1) u1 = right;
      u0 = u0 < c.gap ? c.gap : u0;
      if (u1 <= u0 + 1e-6) continue;
      check::Sheet sheet;
      sheet.strips.push_back(check::box(u0, u1, tail, head < top ? head : top));
      sheet.order = 2 * k;
      out.sheets.push_back(std::move(sheet));
    }
  }
  out.eaves = 50;
  out.ours.push_back(check::box(0, right, 0, top - 0.5));
  if (c.wall) out.masonry.push_back(check::box(-200, 0, 0, top));
  return out;
}

// Soakers beside the wall at u = 0: course k's tail set back from its unit's, head at the unit's head below.
inline void add_soakers(check::Traced& traced, const Covering& c, double leg, double set_back,
                        std::int64_t left_out = -1, std::int64_t cut_short = -1, double by = 0) {
  const double top = static_cast<double>(c.courses) * c.gauge;
  for (std::int64_t k = 0; k < c.courses; ++k) {
    if (k == left_out) continue;
    const double tail = static_cast<double>(k) * c.gauge;
    double head = tail - c.gauge + c.length;
    if (k == cut_short) head -= by;
    check::Sheet sheet;
    sheet.strips.push_back(check::box(0, leg, tail + set_back, head < top ? head : top));
    sheet.order = 2 * k - 1;
    sheet.turned_up = true;
    traced.sheets.push_back(std::move(sheet));
  }
}

}  // namespace lapwright::sample

#include "lead_line.h"

namespace lapwright::sheets {

draw::Path lead_line(const std::vector<draw::Point>& points) {
  draw::Path out = draw::polyline(points, draw::LineKind::heavy);
  out.stroke = draw::Stroke{draw::LineKind::heavy, kLead};
  return out;
}

}  // namespace lapwright::sheets

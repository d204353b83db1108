#include "subdivision.h"

#include <lapwright/base/numbers.h>

#include <fmt/format.h>

namespace lapwright::geom {

namespace {

std::string in_mm(GridPoint p) {
  return fmt::format("({}, {})", trimmed(to_length(p.x).in_mm(), 3), trimmed(to_length(p.y).in_mm(), 3));
}

Fault no_geometry(std::string path, std::string read, std::string_view accepted, std::string mend) {
  return {FaultCode::no_geometry, std::move(path),       {},
          std::move(read),        std::string(accepted), std::move(mend)};
}

}  // namespace

std::string path_of(LineKind kind, std::size_t index) {
  switch (kind) {
    case LineKind::outline:
      return fmt::format("net.outline[{}]", index);
    case LineKind::hole:
      return fmt::format("net.holes[{}]", index);
    case LineKind::fold:
      return fmt::format("net.folds[{}]", index);
    case LineKind::cut:
      break;
  }
  return fmt::format("net.cuts[{}]", index);
}

std::string describe(const Net& net, LineKind kind, std::size_t index) {
  if (kind == LineKind::fold)
    return fmt::format("fold {}–{}", in_mm(net.folds[index].from), in_mm(net.folds[index].to));
  if (kind == LineKind::cut)
    return fmt::format("cut {}–{}", in_mm(net.cuts[index].from), in_mm(net.cuts[index].to));
  if (kind == LineKind::hole) return fmt::format("hole {}", index);
  return fmt::format("edge {} of the outline", index);
}

Fault fault_of_sheet(std::string path, std::string read, std::string mend) {
  return no_geometry(
      std::move(path), std::move(read),
      "N1: a simple counter-clockwise outline; simple clockwise holes inside it, apart from each other",
      std::move(mend));
}

Fault fault_of_crease(const Net& net, LineKind kind, std::size_t index, std::string_view what) {
  return no_geometry(
      path_of(kind, index), describe(net, kind, index),
      "N2: creases that begin and end on the outline, on a hole or on each other, and do not cross",
      std::string(what));
}

Fault fault_of_panels(std::string path, std::string read, std::string mend) {
  return no_geometry(std::move(path), std::move(read), "N3: panels that folds join in a tree",
                     std::move(mend));
}

}  // namespace lapwright::geom

#include "reading.h"

#include <lapwright/base/numbers.h>

#include <fmt/core.h>

#include <algorithm>
#include <utility>

#include "fault_order.h"
#include "json_path.h"

namespace lapwright::job {

std::string Path::text() const {
  if (up == nullptr) return "$";
  return up->text() + (key.empty() ? path_of_item(index) : path_of_key(key));
}

void Reading::fault(FaultCode code, const Path& path, SourceSpot spot, std::string read, std::string accepted,
                    std::string mend, FaultRange range) {
  if (faults_.size() >= kKept) {
    uncounted_ += 1;
    return;
  }
  faults_.push_back(
      {code, path.text(), spot, std::move(read), std::move(accepted), std::move(mend), std::move(range)});
}

void Reading::place(Fault fault, const Path& path, SourceSpot spot) {
  this->fault(fault.code, path, spot, std::move(fault.read), std::move(fault.accepted), std::move(fault.mend),
              std::move(fault.range));
}

Faults Reading::take() {
  faults_ = in_file_order(std::move(faults_));
  if (faults_.size() > kShown) {
    const std::size_t more = faults_.size() - kShown + uncounted_;
    faults_.resize(kShown);
    faults_.push_back({FaultCode::too_many,
                       "$",
                       {},
                       fmt::format("{} more {}", more, more == 1 ? "fault" : "faults"),
                       "",
                       "mend the ones above and read the file again"});
  }
  return std::move(faults_);
}

std::string shown(const Document& value) {
  switch (value.kind) {
    case Document::Kind::null:
      return "null";
    case Document::Kind::boolean:
      return value.boolean ? "true" : "false";
    case Document::Kind::number:
      return value.text.size() <= 40 ? value.text : value.text.substr(0, 40) + "…";
    case Document::Kind::text:
      return lapwright::quoted(value.text);
    case Document::Kind::list:
      return value.items.empty() ? "an empty list" : fmt::format("a list of {}", value.items.size());
    case Document::Kind::object:
      break;
  }
  return value.members.empty() ? "an empty object" : "an object";
}

std::string shown_length(double mm, LengthUnit unit) {
  if (unit == LengthUnit::mm) return trimmed(mm, 3) + " mm";
  return fmt::format("{} in ({} mm)", trimmed(mm / 25.4, 3), trimmed(mm, 3));
}

std::string shown_bound(double mm, LengthUnit unit) {
  return unit == LengthUnit::mm ? trimmed(mm, 3) + " mm" : trimmed(mm / 25.4, 3) + " in";
}

}  // namespace lapwright::job

// Reading an object of a data file field by field, gathering faults.
//
// Each call marks its key as known; refuse_others() then finds keys that nobody asked for. A missing or
// mistyped value adds its fault and reads as empty or nought, so that reading goes on and every fault of the
// file is found at once.
#pragma once

#include <lapwright/base/fault.h>
#include <lapwright/job/document.h>
#include <lapwright/job/plan.h>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lapwright::practice {

class Fields {
 public:
  Fields(const job::Document& object, std::string path, Faults& faults);

  std::string text(std::string_view key);
  std::string text_if_any(std::string_view key);
  std::optional<double> number(std::string_view key);  // empty after a fault
  std::optional<double> number_if_any(std::string_view key);
  bool flag_if_any(std::string_view key);
  const job::Document* list(std::string_view key);  // null after a fault
  const job::Document* list_if_any(std::string_view key);
  const job::Document* object(std::string_view key);
  job::Standing standing(std::string_view key);
  void refuse_others();

  void fault(FaultCode code, std::string_view key, std::string read, std::string accepted, std::string mend);
  std::string path_of(std::string_view key) const;

 private:
  const job::Document* take(std::string_view key, job::Document::Kind kind, bool needed);

  const job::Document& object_;
  std::string path_;
  Faults& faults_;
  std::vector<std::string_view> known_;
};

// "$.rules" and 3: "$.rules[3]".
std::string item_path(std::string_view list_path, std::size_t index);
// What a value is, in words: "a number", "a list".
std::string_view name_of(job::Document::Kind kind);

}  // namespace lapwright::practice

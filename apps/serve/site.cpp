#include "serve/site.h"

#include "serve/api.h"

namespace lapwright::serve {

std::optional<Reply> Site::stop(const Head& head, std::string_view address) const {
  if (auto reply = stop_at(gate, head, address)) return reply;
  return refuse_before_body(head);
}

Reply Site::answer(const Head& head, std::string_view body) const {
  return head.path.starts_with("/api/") ? answer_api(jobs, version, head, body) : page.answer(head);
}

}  // namespace lapwright::serve

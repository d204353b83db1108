// What /api/ answers: health, the list of jobs, one job, the bin. docs/serving.md describes it for those who
// call it.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "serve/head.h"
#include "serve/jobs.h"
#include "serve/reply.h"

namespace lapwright::serve {

// What can be refused before the body is read: method, length, kind of body. Nothing when the body may come.
std::optional<Reply> refuse_before_body(const Head& head);

Reply answer_api(const Jobs& jobs, std::string_view version, const Head& head, std::string_view body);

}  // namespace lapwright::serve

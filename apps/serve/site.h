// Everything that is handed out, behind the gate: a request goes in, an answer comes out. It knows no
// sockets.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "serve/gate.h"
#include "serve/jobs.h"
#include "serve/page.h"

namespace lapwright::serve {

struct Site {
  Gate gate;
  Page page;
  Jobs jobs;
  std::string version;

  // As soon as the head is there: who may not ask is told before a body is read. Nothing when the request may
  // go on.
  std::optional<Reply> stop(const Head& head, std::string_view address) const;

  Reply answer(const Head& head, std::string_view body) const;
};

}  // namespace lapwright::serve

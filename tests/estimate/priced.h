// A job planned, cut with the least effort and priced, as the engine does it.
#pragma once

#include "cutting_run.h"
#include "planning.h"

#include <gtest/gtest.h>

#include <string>
#include <string_view>

namespace lapwright::sample {

inline Result<engine::Planned> priced(std::string_view job, std::string_view yard_bytes) {
  auto yard = engine::yard_of(yard_bytes);
  if (!yard) return failed(yard.error());
  auto planned = engine::plan_job(job, yard_bytes);
  if (!planned) return planned;
  cutting::CutPlan cut(planned->plan, yard->yard, planned->pack, 0);
  while (cut.step()) {
  }
  if (const auto taken = engine::take_in(cut, *yard, *planned); !taken) return failed(taken.error());
  if (const auto settled = engine::settle_estimate(*planned, yard->invented ? nullptr : &yard->yard);
      !settled) {
    return failed(settled.error());
  }
  return planned;
}

// `text` with its first `old` replaced; the test fails where there is none.
inline std::string changed(std::string text, std::string_view old, std::string_view with) {
  const std::size_t at = text.find(old);
  EXPECT_NE(at, std::string::npos) << old;
  return at == std::string::npos ? text : text.replace(at, old.size(), with);
}

inline constexpr const char* kDemo = "data/demo/hollin-barn.json";
inline constexpr const char* kDemoYard = "data/demo/yard/yard.json";

}  // namespace lapwright::sample

// Plans a job with the built-in pack and texts, which are read once for all the tests of a program.
#pragma once

#include "planning.h"

#include <gtest/gtest.h>

#include <string_view>

namespace lapwright::sample {

inline Result<engine::Planned> plan_job(std::string_view bytes) {
  static const Result<engine::Known> known = engine::Known::built_in();
  EXPECT_TRUE(known);
  return engine::plan_job(bytes, *known);
}

}  // namespace lapwright::sample

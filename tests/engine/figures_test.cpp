// Every figure of every plan is worked out again from its own formula and terms.
#include "formula.h"
#include "planned.h"
#include "planner.h"
#include "planning.h"
#include "random_job.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace lapwright {
namespace {

// The number of figures recomputed; failures name the job and the piece.
std::size_t recompute(const job::Plan& plan, const std::string& where) {
  std::size_t n = 0;
  const auto look = [&](const std::vector<job::Figure>& figures, const std::string& owner) {
    for (const job::Figure& figure : figures) {
      EXPECT_EQ(sample::complaint_about(figure), "") << where << ", " << owner;
      EXPECT_FALSE(figure.source.empty()) << where << ", " << owner << ", " << figure.name;
      ++n;
    }
  };
  for (const job::SetOut& out : plan.set_out) look(out.figures, out.slope);
  for (const job::Piece& piece : plan.pieces) look(piece.figures, piece.mark);
  return n;
}

TEST(Figures, of_every_kept_job_follow_from_their_terms) {
  std::size_t n = 0;
  for (const std::string& file : sample::job_files({"tests/jobs/good", "tests/jobs/cases", "data/demo"})) {
    const auto planned = sample::plan_job(sample::file_bytes(file));
    if (planned) n += recompute(planned->plan, file);
  }
  EXPECT_GT(n, 500U);
}

TEST(Figures, of_random_jobs_follow_from_their_terms) {
  constexpr std::uint64_t kSeed = 20260401;
  Generator random(kSeed);
  std::size_t n = 0;
  for (int i = 0; i < 400 && !HasFailure(); ++i) {
    const std::string job = sample::random_job(random);
    const auto planned = sample::plan_job(job);
    if (planned) n += recompute(planned->plan, job);
  }
  EXPECT_GT(n, 5000U);
}

}  // namespace
}  // namespace lapwright

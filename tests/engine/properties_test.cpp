// What holds of every plan, over ten thousand surveys made up at random. LAPWRIGHT_LONG=1 makes it a hundred
// thousand.
#include "judge.h"
#include "planned.h"
#include "planner.h"
#include "planning.h"
#include "random_job.h"

#include <lapwright/engine/engine.h>
#include <lapwright/job/read_survey.h>

#include <gtest/gtest.h>

#include <array>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>

namespace lapwright {
namespace {

using sample::Judged;

constexpr std::uint64_t kSeed = 20260214;

std::int64_t how_many() {
  const char* is_long = std::getenv("LAPWRIGHT_LONG");
  if (is_long != nullptr && std::string(is_long) == "1") return 100'000;
#ifdef __SANITIZE_ADDRESS__
  return 1'000;  // the plain build looks at the rest
#else
  return 10'000;
#endif
}

struct Property {
  const char* name;
  std::string (*complaint)(const Judged&);
};

constexpr std::array kProperties{
    Property{"courses", sample::courses_complaint}, Property{"rows", sample::rows_complaint},
    Property{"nets", sample::nets_complaint},       Property{"soakers", sample::soakers_complaint},
    Property{"steps", sample::steps_complaint},     Property{"covers", sample::covers_complaint},
    Property{"nails", sample::nails_complaint},     Property{"marks", sample::marks_complaint},
};

struct Tally {
  std::int64_t planned = 0;
  std::int64_t refused = 0;
  std::int64_t wrong = 0;
  std::int64_t soakers = 0;
  std::int64_t flashings = 0;
  std::int64_t covers = 0;
  std::int64_t nails_left_out = 0;
  std::array<std::int64_t, kProperties.size()> complaints{};
};

// At most three complaints of each property are printed: one bug meets thousands of roofs.
void judge(const std::string& bytes, engine::Planned planned, Tally& tally) {
  // What is wrong and only shown keeps no rule.
  std::erase_if(planned.plan.pieces, [](const job::Piece& piece) { return piece.wrong; });
  constexpr std::int64_t kMost = 3;
  const Judged job{planned.survey, planned.pack, planned.plan};
  for (std::size_t i = 0; i < kProperties.size(); ++i) {
    const std::string complaint = kProperties[i].complaint(job);
    if (complaint.empty() || ++tally.complaints[i] > kMost) continue;
    ADD_FAILURE() << kProperties[i].name << ": " << complaint << "\n" << bytes;
  }
}

void count(const job::Plan& plan, Tally& tally) {
  ++tally.planned;
  if (engine::has_wrong(plan)) ++tally.wrong;
  for (const job::Piece& piece : plan.pieces) {
    (piece.kind == "soaker"           ? tally.soakers
     : piece.kind == "cover-flashing" ? tally.covers
                                      : tally.flashings) += piece.count;
  }
  for (const job::Row& row : plan.rows)
    tally.nails_left_out += static_cast<std::int64_t>(row.nails_left_out.size());
}

bool is_double_lap(const job::Survey& survey) {
  for (const job::Slope& slope : survey.slopes) {
    const job::CoveringKind kind = slope.covering.kind;
    if (kind != job::CoveringKind::plain_tile && kind != job::CoveringKind::slate) return false;
  }
  return true;
}

// The roofs of the cases, and those that once broke a property.
TEST(Properties, hold_of_kept_jobs) {
  Tally tally;
  for (const std::string& file : sample::job_files({"tests/jobs/good", "tests/jobs/cases", "data/demo"})) {
    const std::string bytes = sample::file_bytes(file);
    const auto planned = sample::plan_job(bytes);
    if (!planned || !is_double_lap(planned->survey)) continue;
    count(planned->plan, tally);
    judge(bytes, *planned, tally);
    const auto mirrored = sample::plan_job(sample::mirrored_job(bytes));
    ASSERT_TRUE(mirrored) << file;
    EXPECT_EQ(sample::mirror_complaint({planned->survey, planned->pack, planned->plan}, mirrored->plan), "")
        << file;
  }
  EXPECT_GT(tally.planned, 20);
}

TEST(Properties, hold_of_random_surveys) {
  Generator random(kSeed);
  Tally tally;
  std::int64_t refusals_shown = 0;
  std::int64_t mirrors_shown = 0;
  const std::int64_t n = how_many();
  for (std::int64_t i = 0; i < n; ++i) {
    const std::string bytes = sample::random_job(random);
    const auto planned = sample::plan_job(bytes);
    if (!planned) {
      ++tally.refused;
      const auto survey = job::read_survey(bytes);
      ASSERT_TRUE(survey) << to_line(survey.error().front()) << "\n" << bytes;
      const auto pack = practice::Pack::built_in()->with_overrides(survey->practice, survey->unit_is_inches);
      ASSERT_TRUE(pack);
      for (const Fault& fault : planned.error()) {
        const std::string complaint = sample::refusal_complaint(*survey, *pack, fault);
        if (!complaint.empty() && ++refusals_shown <= 3) ADD_FAILURE() << complaint << "\n" << bytes;
      }
      continue;
    }
    count(planned->plan, tally);
    judge(bytes, *planned, tally);
    if (i % 8 == 0) {
      const auto mirrored = sample::plan_job(sample::mirrored_job(bytes));
      ASSERT_TRUE(mirrored) << bytes;
      const std::string complaint =
          sample::mirror_complaint({planned->survey, planned->pack, planned->plan}, mirrored->plan);
      if (!complaint.empty() && ++mirrors_shown <= 3) ADD_FAILURE() << complaint << "\n" << bytes;
    }
    if (i % 128 == 0) {
      const engine::Outcome once = engine::plan({bytes});
      const engine::Outcome again = engine::plan({std::string(bytes)});
      ASSERT_EQ(once.json, again.json);
      ASSERT_EQ(once.text, again.text);
    }
  }
  std::printf(
      "seed %llu: %lld planned (%lld with a wrong), %lld refused; %lld soakers, %lld step flashings, %lld "
      "covers, "
      "%lld nails left out\n",
      static_cast<unsigned long long>(kSeed), static_cast<long long>(tally.planned),
      static_cast<long long>(tally.wrong), static_cast<long long>(tally.refused),
      static_cast<long long>(tally.soakers), static_cast<long long>(tally.flashings),
      static_cast<long long>(tally.covers), static_cast<long long>(tally.nails_left_out));
  // The properties above must have had something to look at.
  EXPECT_GT(tally.planned, n * 3 / 4);
  EXPECT_GT(tally.refused, 0);
  EXPECT_GT(tally.soakers, n * 10);
  EXPECT_GT(tally.flashings, n);
  EXPECT_GT(tally.covers, n / 4);
  EXPECT_GT(tally.nails_left_out, n / 10);
  for (std::size_t i = 0; i < kProperties.size(); ++i) {
    EXPECT_EQ(tally.complaints[i], 0) << kProperties[i].name;
  }
}

}  // namespace
}  // namespace lapwright

// What may be said of every sheet of every job: nothing off the paper, no words on words, the same twice.
#include "random_job.h"
#include "support.h"

#include <lapwright/draw/pdf.h>

#include <gtest/gtest.h>

namespace {
using namespace lapwright;
using namespace lapwright::sheets;
using namespace lapwright::sheets::test;

constexpr const char* kDemo = "data/demo/hollin-barn.json";

TEST(Sheets, demo_is_fit_to_print) {
  const auto planned = engine::plan_job(bytes_of(kDemo));
  ASSERT_TRUE(planned);
  const draw::Document document = compose(sources_of(*planned));
  EXPECT_GT(document.pages.size(), 20U);
  EXPECT_EQ(troubles(document), "");
  for (const draw::Page& page : document.pages) EXPECT_TRUE(on_paper(page)) << page.title;
}

TEST(Sheets, demo_says_what_the_golden_says) {
  const auto planned = engine::plan_job(bytes_of(kDemo));
  ASSERT_TRUE(planned);
  expect_golden("hollin-barn", *planned);
}

TEST(Sheets, every_text_of_the_demo_is_in_the_catalogue) {
  const auto planned = engine::plan_job(bytes_of(kDemo));
  ASSERT_TRUE(planned);
  EXPECT_EQ(words_of(compose(sources_of(*planned))).find("«"), std::string::npos);
}

// Keys that the sources put together from a kind or a number.
bool is_put_together(const std::string& key) {
  for (const char* stem :
       {"sheet.kind.", "sheet.caution.", "sheet.care.", "sheet.judged.", "sheet.form.look."}) {
    if (key.starts_with(stem)) return true;
  }
  return false;
}

TEST(Sheets, every_text_named_is_in_the_catalogue_and_none_is_left_over) {
  std::string sources;
  for (const auto& entry : std::filesystem::directory_iterator("src/sheets")) {
    if (entry.is_regular_file()) sources += bytes_of(entry.path());
  }
  const auto catalogue = practice::Catalogue::built_in();
  ASSERT_TRUE(catalogue);
  for (const std::string& key : catalogue->keys()) {
    if (!key.starts_with("sheet.") || is_put_together(key)) continue;
    EXPECT_NE(sources.find("\"" + key + "\""), std::string::npos) << key << " is said by nobody";
  }
  std::size_t named = 0;
  for (std::size_t at = sources.find("\"sheet."); at != std::string::npos;
       at = sources.find("\"sheet.", at + 1)) {
    const std::string key = sources.substr(at + 1, sources.find('"', at + 1) - at - 1);
    if (key.ends_with(".")) continue;
    ++named;
    EXPECT_TRUE(catalogue->has(key)) << key;
  }
  EXPECT_GT(named, 50U);
}

// Composes `count` made-up jobs; how many of them the planner took.
int fit_to_print(int count, std::uint64_t seed, std::string (*make)(Generator&)) {
  Generator g(seed);
  int planned_jobs = 0;
  for (int i = 0; i < count; ++i) {
    const std::string job = make(g);
    const auto planned = engine::plan_job(job);
    if (!planned) continue;
    ++planned_jobs;
    const draw::Document document = compose(sources_of(*planned));
    EXPECT_EQ(troubles(document), "") << job;
    for (const draw::Page& page : document.pages) EXPECT_TRUE(on_paper(page)) << page.title << "\n" << job;
    if (testing::Test::HasFailure()) break;
  }
  return planned_jobs;
}

TEST(Sheets, random_jobs_are_fit_to_print) {
  EXPECT_GT(fit_to_print(40, 7, random_job), 35);
}

// Honest and odd jobs alike: what the planner takes can be printed.
TEST(Sheets, odd_jobs_are_fit_to_print) {
  EXPECT_GT(fit_to_print(60, 23, sample::random_job), 30);
}

TEST(Sheets, same_bytes_twice) {
  const auto planned = engine::plan_job(bytes_of(kDemo));
  ASSERT_TRUE(planned);
  EXPECT_EQ(draw::write_pdf(compose(sources_of(*planned))), draw::write_pdf(compose(sources_of(*planned))));
}

TEST(Sheets, inches_are_shown_where_the_job_asks) {
  std::string job = bytes_of(kDemo);
  job.insert(job.find("\"unit\""), "\"show\": \"in\", ");
  const auto planned = engine::plan_job(job);
  ASSERT_TRUE(planned);
  const draw::Document document = compose(sources_of(*planned));
  EXPECT_EQ(troubles(document), "");
  // 190 mm is 7.48 in: a length of lead goes up to the next sixteenth.
  EXPECT_NE(words_of(document).find("35 of 7 1/2 in × 7 1/2 in"), std::string::npos);
}

}  // namespace

// Whatever the engine can say is in the catalogue, and whatever rule it asks for is in the pack: found in the
// sources themselves, and by running every kept job and looking for holes.
#include "planned.h"
#include "planning.h"
#include "random_job.h"

#include <lapwright/engine/engine.h>

#include <gtest/gtest.h>

#include <filesystem>
#include <regex>
#include <set>
#include <string>
#include <vector>

namespace lapwright {
namespace {

// String literals of the form "word.word" in the sources of the stages that speak.
std::set<std::string> dotted_literals(const std::vector<std::string>& modules) {
  std::set<std::string> out;
  const std::regex literal("\"([a-z][a-z_0-9]*\\.[a-z][a-z_0-9]*)\"");
  for (const std::string& module : modules) {
    for (const auto& entry : std::filesystem::recursive_directory_iterator("src/" + module)) {
      if (entry.path().extension() != ".cpp" && entry.path().extension() != ".h") continue;
      const std::string text = sample::file_bytes(entry.path().string());
      for (auto at = std::sregex_iterator(text.begin(), text.end(), literal); at != std::sregex_iterator();
           ++at) {
        const std::string word = (*at)[1];
        if (!word.ends_with(".h")) out.insert(word);  // a file of our own that is included
      }
    }
  }
  return out;
}

TEST(Texts, every_name_in_the_stages_is_a_text_or_a_rule) {
  const auto pack = practice::Pack::built_in();
  const auto texts = practice::Catalogue::built_in();
  ASSERT_TRUE(pack);
  ASSERT_TRUE(texts);
  const std::set<std::string> names = dotted_literals({"setout", "pieces"});
  EXPECT_GT(names.size(), 80U);
  for (const std::string& name : names) {
    if (name == "detail.right") continue;  // right needs no words
    const bool known = pack->find(name) != nullptr || texts->has("finding." + name) || texts->has(name);
    EXPECT_TRUE(known) << name;
  }
}

TEST(Texts, every_finding_in_the_catalogue_is_one_that_can_be_made) {
  const auto texts = practice::Catalogue::built_in();
  ASSERT_TRUE(texts);
  std::set<std::string> names = dotted_literals({"setout", "pieces", "cutting", "check", "engine"});
  for (const std::string& key : texts->keys()) {
    if (!key.starts_with("finding.")) continue;
    EXPECT_TRUE(names.contains(key.substr(8))) << key;
  }
}

TEST(Texts, every_rule_has_a_name_that_a_person_would_use) {
  const auto pack = practice::Pack::built_in();
  const auto texts = practice::Catalogue::built_in();
  ASSERT_TRUE(pack);
  ASSERT_TRUE(texts);
  std::set<std::string> seen;
  for (const practice::Rule& rule : pack->rules()) {
    const std::string key = "label." + rule.name;
    ASSERT_TRUE(texts->has(key)) << rule.name;
    EXPECT_TRUE(seen.insert(texts->say(key, {}, job::ShownIn::mm)).second) << rule.name << " shares its name";
  }
}

TEST(Texts, every_detail_has_a_name_in_its_reasons) {
  const engine::Outcome why = engine::check({R"({"format": "lapwright-job/1", "slopes": [{"pitch": 40,
    "rafter": 3000, "width": 4000, "covering": {"kind": "plain-tile", "length": 265, "width": 165,
    "thickness": 12}, "junctions": [{"kind": "side", "hand": "left", "detail": "apron"}]}]})"});
  EXPECT_NE(why.text.find("soakers and step flashing"), std::string::npos) << why.text;
  EXPECT_EQ(why.text.find("soakers-and-steps"), std::string::npos) << why.text;
}

// Rules kept for pieces that come later; anything else that nobody asks for is left over.
TEST(Texts, every_rule_is_asked_for_or_kept_for_later) {
  const std::set<std::string> later{"cover.pitch_rise", "gauge.plain_tile_most", "headlap.slate_least",
                                    "lead.density", "lead.thickness_tolerance"};
  const auto pack = practice::Pack::built_in();
  ASSERT_TRUE(pack);
  const std::set<std::string> names =
      dotted_literals({"setout", "pieces", "estimate", "cutting", "check", "engine", "practice", "sheets"});
  for (const practice::Rule& rule : pack->rules()) {
    EXPECT_TRUE(names.contains(rule.name) || later.contains(rule.name))
        << rule.name << " is asked for by nobody";
  }
  for (const std::string& name : later) EXPECT_NE(pack->find(name), nullptr) << name;
}

// A hole in a text shows as «name».
void look_for_holes(const std::string& bytes, const std::string& where) {
  const auto planned = engine::plan_job(bytes);
  if (!planned) return;
  const auto holes = [&](const std::string& text, const std::string& what) {
    EXPECT_EQ(text.find("«"), std::string::npos) << where << ", " << what << ": " << text;
  };
  holes(engine::plan({bytes}).text, "table");
  holes(engine::check({bytes}).text, "findings");
  for (const job::WorkStep& step : planned->plan.order_of_work) {
    holes(step.text, "order of work");
    EXPECT_FALSE(step.text.empty()) << where << ": " << step.step;
  }
  std::set<std::string> marks;
  for (const job::Piece& piece : planned->plan.pieces) marks.insert(piece.mark);
  for (const job::SetOut& out : planned->plan.set_out) marks.insert(out.slope);
  for (const std::string& mark : marks) {
    const engine::Outcome why = engine::why({bytes}, mark);
    EXPECT_TRUE(why.faults.empty()) << where << ", " << mark;
    holes(why.text, mark);
  }
}

#ifdef __SANITIZE_ADDRESS__
constexpr int kAtRandom = 5;  // the plain build looks at the rest
#else
constexpr int kAtRandom = 30;
#endif

TEST(Texts, no_job_leaves_a_hole) {
  for (const std::string& file : sample::job_files({"tests/jobs/good", "tests/jobs/cases", "data/demo"})) {
    look_for_holes(sample::file_bytes(file), file);
  }
  Generator random(20260305);
  for (int i = 0; i < kAtRandom && !HasFailure(); ++i) {
    const std::string job = sample::random_job(random);
    look_for_holes(job, job);
  }
}

}  // namespace
}  // namespace lapwright

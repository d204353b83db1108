#include <lapwright/practice/catalogue.h>

#include <lapwright/job/plan.h>
#include <lapwright/job/survey.h>

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

namespace {
using lapwright::FaultCode;
using lapwright::job::Level;
using lapwright::job::Param;
using lapwright::job::ShownIn;
using lapwright::job::Standing;
using lapwright::practice::Catalogue;
using lapwright::practice::shown;
using lapwright::practice::ShownHow;

Catalogue reading(const std::string& key, const std::string& text) {
  return Catalogue::read(R"({"format": "lapwright-texts/1", "language": "xx", "texts": {")" + key +
                         R"(": ")" + text + R"("}})")
      .value();
}

TEST(Catalogue, english_is_sound_and_sorted) {
  const auto english = Catalogue::built_in();
  ASSERT_TRUE(english.has_value());
  EXPECT_EQ(english->language(), "en");
  EXPECT_TRUE(std::is_sorted(english->keys().begin(), english->keys().end()));
  for (const std::string& key : english->keys()) EXPECT_TRUE(english->has(key)) << key;
}

TEST(Catalogue, english_has_every_level_and_standing) {
  const Catalogue english = Catalogue::built_in().value();
  for (const Level level : {Level::note, Level::doubt, Level::wrong}) {
    EXPECT_TRUE(english.has("level." + std::string(name_of(level))));
  }
  for (const Standing standing : {Standing::standard, Standing::guide, Standing::book, Standing::geometry,
                                  Standing::practice, Standing::memory, Standing::measured}) {
    EXPECT_TRUE(english.has("standing." + std::string(name_of(standing)))) << name_of(standing);
  }
  EXPECT_EQ(english.say("standing.memory", {}, ShownIn::mm), "from memory, not seen in print");
}

TEST(Catalogue, lengths_are_shown_in_the_jobs_unit) {
  const Catalogue texts = reading("k", "lap {lap}, {lap}");
  EXPECT_EQ(texts.say("k", {Param{"lap", 190.5, "mm"}}, ShownIn::inches), "lap 7 1/2 in, 7 1/2 in");
  EXPECT_EQ(texts.say("k", {Param{"lap", 190.2, "mm"}}, ShownIn::mm), "lap 190 mm, 190 mm");
}

TEST(Catalogue, params_are_rounded_as_the_text_asks) {
  const Catalogue texts = reading("k", "{x:down} {x} {x:up} {x:fine}");
  EXPECT_EQ(texts.say("k", {Param{"x", 204.5, "mm"}}, ShownIn::mm), "204 mm 205 mm 205 mm 204.5 mm");
  EXPECT_EQ(texts.say("k", {Param{"x", 204.2, "mm"}}, ShownIn::mm), "204 mm 204 mm 205 mm 204.2 mm");
  EXPECT_EQ(texts.say("k", {Param{"x", 26.565, "deg"}}, ShownIn::mm), "26.5° 26.6° 26.6° 26.6°");
  // What is whole but for floating-point noise is not rounded a whole step away.
  EXPECT_EQ(texts.say("k", {Param{"x", 190.0000000001, "mm"}}, ShownIn::mm), "190 mm 190 mm 190 mm 190 mm");
  EXPECT_EQ(texts.say("k", {Param{"x", 189.9999999999, "mm"}}, ShownIn::mm), "190 mm 190 mm 190 mm 190 mm");
}

TEST(Catalogue, words_go_in_as_they_are) {
  const Catalogue texts = reading("k", "{where}: no {thing}");
  EXPECT_EQ(texts.say("k", {Param{"where", "rear {thing}", ""}, Param{"thing", "gap", ""}}, ShownIn::mm),
            "rear {thing}: no gap");
}

TEST(Catalogue, what_is_missing_is_seen) {
  const Catalogue texts = reading("k", "a {b} c");
  EXPECT_EQ(texts.say("nothing", {}, ShownIn::mm), "«nothing»");
  EXPECT_EQ(texts.say("k", {}, ShownIn::mm), "a «b» c");
  EXPECT_FALSE(texts.has("nothing"));
}

TEST(Catalogue, names_the_params_of_a_text) {
  const Catalogue texts = reading("k", "{b:up} {a} {b}");
  EXPECT_EQ(texts.params_of("k"), (std::vector<std::string>{"a", "b"}));
  EXPECT_TRUE(texts.params_of("nothing").empty());
}

TEST(Catalogue, broken_templates_are_refused_with_the_key) {
  for (const std::string text :
       {"{", "}", "a {b", "{}", "{B}", "{b:sideways}", "{b:up:down}", "{a b}", "{{a}}"}) {
    const auto texts = Catalogue::read(
        R"({"format": "lapwright-texts/1", "language": "xx", "texts": {"k.l": ")" + text + R"("}})");
    ASSERT_FALSE(texts.has_value()) << text;
    ASSERT_EQ(texts.error().size(), 1U) << text;
    EXPECT_EQ(texts.error()[0].path, "$.texts[\"k.l\"]");
    EXPECT_EQ(texts.error()[0].code, FaultCode::bad_choice);
  }
}

TEST(Catalogue, broken_files_are_refused) {
  const auto path_of = [](const std::string& bytes) {
    const auto texts = Catalogue::read(bytes);
    return texts || texts.error().size() != 1 ? std::string("?") : texts.error()[0].path;
  };
  EXPECT_EQ(path_of(R"({"format": "lapwright-texts/9", "language": "xx", "texts": {}})"), "$.format");
  EXPECT_EQ(path_of(R"({"format": "lapwright-texts/1", "texts": {}})"), "$.language");
  EXPECT_EQ(path_of(R"({"format": "lapwright-texts/1", "language": "xx", "texts": {"k": 7}})"),
            "$.texts[\"k\"]");
  EXPECT_EQ(path_of(R"({"format": "lapwright-texts/1", "language": "xx", "texts": {}, "more": 1})"),
            "$.more");
  EXPECT_FALSE(
      Catalogue::read(R"({"format": "lapwright-texts/1", "language": "xx", "texts": {"k": "", "k": ""}})")
          .has_value());
}

TEST(Shown, values_in_their_units) {
  EXPECT_EQ(shown(190, "mm", ShownIn::mm), "190 mm");
  EXPECT_EQ(shown(190.5, "mm", ShownIn::inches), "7 1/2 in");
  EXPECT_EQ(shown(35, "deg", ShownIn::mm), "35°");
  EXPECT_EQ(shown(22.5, "deg", ShownIn::inches), "22.5°");
  EXPECT_EQ(shown(2.4, "kg", ShownIn::mm), "2.4 kg");
  EXPECT_EQ(shown(0.4567, "kg", ShownIn::mm), "0.46 kg");
  EXPECT_EQ(shown(0.4567, "kg", ShownIn::mm, ShownHow::down), "0.45 kg");
  EXPECT_EQ(shown(20.41, "kg/m2", ShownIn::mm), "20.41 kg/m²");
  EXPECT_EQ(shown(33600, "mm2", ShownIn::mm), "0.034 m²");
  EXPECT_EQ(shown(12, "", ShownIn::mm), "12");
  EXPECT_EQ(shown(1.5, "", ShownIn::inches), "1.5");
  EXPECT_EQ(shown(1.8, "mm", ShownIn::inches, ShownHow::fine), "1.8 mm");
}
}  // namespace

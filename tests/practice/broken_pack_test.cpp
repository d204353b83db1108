// A broken pack is refused, and the fault says where it is broken.
#include <lapwright/practice/pack.h>

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace {
using lapwright::FaultCode;
using lapwright::Faults;
using lapwright::practice::Pack;

const std::string kSound = R"({
  "format": "lapwright-practice/1",
  "name": "small",
  "rules": [
    {"name": "a.one", "value": 5, "unit": "mm", "standing": "practice", "source": "nobody"},
    {"name": "b.two", "value": 6, "unit": "", "standing": "memory", "source": "recalled", "note": "n",
     "alternatives": [{"value": 7, "standing": "guide", "source": "a guide"}],
     "least": 2, "most": 9, "bound_source": "a guide", "may_be_zero": true}
  ],
  "lead_codes": [{"code": 4, "thickness": 1.8, "kg_per_m2": 20.41, "colour": "blue"}],
  "lead_codes_source": "a standard", "lead_codes_standing": "std",
  "strip_widths": [150, 180], "strip_widths_in_some_yards": [225],
  "strip_widths_source": "a guide", "strip_widths_standing": "guide",
  "soaker_metals": [{"metal": "zinc", "thickness": 0.8, "density": 7180, "standing": "guide", "source": "a guide"}],
  "slate_sizes": [[500, 250]],
  "headlap_tables": [
    {"table": "T", "exposures": ["severe"], "standing": "guide", "source": "a guide",
     "rows": [{"size": [500, 250], "headlaps": [[25, 95], [30, 80]]}]}
  ]
})";

std::string with(const std::string& old_text, const std::string& new_text) {
  std::string text = kSound;
  const std::size_t at = text.find(old_text);
  EXPECT_NE(at, std::string::npos) << old_text;
  if (at != std::string::npos) text.replace(at, old_text.size(), new_text);
  return text;
}

TEST(BrokenPack, the_sound_one_is_read) {
  const auto pack = Pack::read(kSound);
  ASSERT_TRUE(pack.has_value());
  EXPECT_EQ(pack->name(), "small");
  EXPECT_EQ(pack->rule("b.two").alternatives.at(0).value, 7);
  EXPECT_EQ(pack->rule("b.two").least, 2);
  EXPECT_TRUE(pack->rule("b.two").may_be_zero);
  EXPECT_FALSE(pack->rule("a.one").may_be_zero);
}

TEST(BrokenPack, is_refused_with_the_place) {
  struct Case {
    std::string old_text;
    std::string new_text;
    FaultCode code;
    std::string path;
  };
  const std::vector<Case> cases{
      {"lapwright-practice/1", "lapwright-practice/2", FaultCode::bad_format, "$.format"},
      {"\"name\": \"small\",", "", FaultCode::missing_key, "$.name"},
      {"\"name\": \"small\"", "\"name\": \"\"", FaultCode::out_of_range, "$.name"},
      {"\"name\": \"small\"", "\"name\": \"small\", \"colour\": 1", FaultCode::unknown_key, "$.colour"},
      {"\"value\": 5", "\"value\": \"5\"", FaultCode::wrong_type, "$.rules[0].value"},
      {"\"value\": 5", "\"value\": 0", FaultCode::out_of_range, "$.rules[0].value"},
      {"\"value\": 5", "\"value\": -5", FaultCode::out_of_range, "$.rules[0].value"},
      {"\"value\": 5, ", "", FaultCode::missing_key, "$.rules[0].value"},
      {"\"unit\": \"mm\"", "\"unit\": \"furlong\"", FaultCode::bad_choice, "$.rules[0].unit"},
      {"\"unit\": \"mm\", ", "", FaultCode::missing_key, "$.rules[0].unit"},
      {"\"standing\": \"practice\"", "\"standing\": \"rumour\"", FaultCode::bad_choice,
       "$.rules[0].standing"},
      {"\"standing\": \"practice\"", "\"standing\": \"survey\"", FaultCode::bad_choice,
       "$.rules[0].standing"},
      {", \"source\": \"nobody\"", "", FaultCode::missing_key, "$.rules[0].source"},
      {"\"source\": \"nobody\"", "\"source\": \"nobody\", \"leats\": 4", FaultCode::unknown_key,
       "$.rules[0].leats"},
      {"b.two", "a.one", FaultCode::duplicate_key, "$.rules"},
      {"\"least\": 2", "\"least\": 7", FaultCode::contradiction, "$.rules[1].value"},
      {"\"most\": 9", "\"most\": 3", FaultCode::contradiction, "$.rules[1].value"},
      {", \"bound_source\": \"a guide\"", "", FaultCode::missing_key, "$.rules[1].bound_source"},
      {"{\"value\": 7, ", "{", FaultCode::missing_key, "$.rules[1].alternatives[0].value"},
      {"\"may_be_zero\": true", "\"may_be_zero\": 1", FaultCode::wrong_type, "$.rules[1].may_be_zero"},
      {"\"code\": 4", "\"code\": 4.5", FaultCode::out_of_range, "$.lead_codes[0].code"},
      {"\"thickness\": 1.8", "\"thickness\": 0", FaultCode::out_of_range, "$.lead_codes[0].thickness"},
      {"\"kg_per_m2\": 20.41", "\"kg_per_m2\": 0", FaultCode::out_of_range, "$.lead_codes[0].kg_per_m2"},
      {"[150, 180]", "[180, 150]", FaultCode::contradiction, "$.strip_widths[1]"},
      {"[150, 180]", "[150, \"180\"]", FaultCode::out_of_range, "$.strip_widths[1]"},
      {"[150, 180]", "{}", FaultCode::wrong_type, "$.strip_widths"},
      {"\"thickness\": 0.8", "\"thickness\": 1e9", FaultCode::out_of_range, "$.soaker_metals[0].thickness"},
      {"[[500, 250]]", "[[500]]", FaultCode::wrong_type, "$.slate_sizes[0]"},
      {"[[500, 250]]", "[[500, 0]]", FaultCode::out_of_range, "$.slate_sizes[0]"},
      {"\"severe\"", "\"windy\"", FaultCode::bad_choice, "$.headlap_tables[0].exposures[0]"},
      {"\"size\": [500, 250]", "\"size\": \"bigger\"", FaultCode::wrong_type,
       "$.headlap_tables[0].rows[0].size"},
      {"[30, 80]", "[20, 80]", FaultCode::contradiction, "$.headlap_tables[0].rows[0].headlaps[1]"},
      {"[30, 80]", "[30, 0]", FaultCode::out_of_range, "$.headlap_tables[0].rows[0].headlaps[1]"},
      {"[30, 80]", "[30]", FaultCode::wrong_type, "$.headlap_tables[0].rows[0].headlaps[1]"},
      {"[[25, 95], [30, 80]]", "[]", FaultCode::out_of_range, "$.headlap_tables[0].rows[0].headlaps"},
  };
  for (const Case& broken : cases) {
    SCOPED_TRACE(broken.old_text + " → " + broken.new_text);
    const auto pack = Pack::read(with(broken.old_text, broken.new_text));
    ASSERT_FALSE(pack.has_value());
    const Faults& faults = pack.error();
    ASSERT_EQ(faults.size(), 1U) << to_line(faults.back());
    EXPECT_EQ(faults[0].code, broken.code) << to_line(faults[0]);
    EXPECT_EQ(faults[0].path, broken.path);
  }
}

TEST(BrokenPack, a_fault_of_a_value_knows_its_line) {
  const auto pack = Pack::read(with("\"value\": 5", "\"value\": -5"));
  ASSERT_FALSE(pack.has_value());
  EXPECT_EQ(pack.error().at(0).spot.line, 5U);
}

TEST(BrokenPack, what_is_no_pack_at_all_is_refused) {
  for (const std::string text : {"", "{", "[]", "null", "7", "\"pack\"", "{}"}) {
    EXPECT_FALSE(Pack::read(text).has_value()) << text;
  }
}

TEST(BrokenPack, every_fault_is_said_at_once) {
  std::string text = with("\"value\": 5", "\"value\": -5");
  text.replace(text.find("\"kg_per_m2\": 20.41"), 18, "\"kg_per_m2\": -1");
  const auto pack = Pack::read(text);
  ASSERT_FALSE(pack.has_value());
  EXPECT_EQ(pack.error().size(), 2U);
}
}  // namespace

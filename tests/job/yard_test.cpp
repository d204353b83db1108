// The yard's reader: what it takes, and one clear line for each thing that no yard has.
#include "support.h"

#include <lapwright/job/yard.h>

#include <gtest/gtest.h>

namespace {
using namespace lapwright;
using namespace lapwright::job;

std::string yard(const std::string& rolls, const std::string& rest = "") {
  return R"({"format": "lapwright-yard/1", "rolls": [)" + rolls + "]" + rest + "}";
}

constexpr const char* kRoll = R"({"code": 4, "width": 300, "length": 6000, "price_per_kg": 310})";

TEST(Yard, everything_that_may_stand_there) {
  const auto read =
      read_yard(R"({"format": "lapwright-yard/1", "title": "Rack", "unit": "in", "currency": "EUR",
    "rolls": [{"code": 4, "width": 12, "length": "20 ft", "price": 11400, "in_stock": 2},
              {"code": 5, "width": "300 mm", "length": "3 m", "price_per_kg": 300}],
    "offcuts": [{"code": 4, "width": 6, "length": 30, "count": 3}], "scrap_per_kg": 110, "keep_from": [6, 20],
    "keep_percent": 70, "kerf": "1 mm", "minimum_order": 5000, "cut_cost": 12, "width_cost": 50})");
  ASSERT_TRUE(read) << to_line(read.error().front());
  EXPECT_EQ(read->title, "Rack");
  EXPECT_EQ(read->currency, "EUR");
  ASSERT_EQ(read->rolls.size(), 2U);
  EXPECT_DOUBLE_EQ(read->rolls[0].width.in_mm(), 304.8);
  EXPECT_DOUBLE_EQ(read->rolls[0].length.in_mm(), 6096);
  EXPECT_EQ(read->rolls[0].price, 11400);
  EXPECT_EQ(read->rolls[0].in_stock, 2);
  EXPECT_EQ(read->rolls[1].price_per_kg, 300);
  ASSERT_EQ(read->offcuts.size(), 1U);
  EXPECT_EQ(read->offcuts[0].count, 3);
  // The longer side first, whichever way round it was written.
  EXPECT_DOUBLE_EQ(read->keep_length.in_mm(), 508);
  EXPECT_DOUBLE_EQ(read->keep_width.in_mm(), 152.4);
  EXPECT_EQ(read->keep_percent, 70);
  EXPECT_DOUBLE_EQ(read->kerf.in_mm(), 1);
  EXPECT_EQ(read->minimum_order, 5000);
  EXPECT_EQ(read->cut_cost, 12);
  EXPECT_EQ(read->width_cost, 50);
  // Written and read again it is the same yard, in mm.
  const std::string written = write_yard(*read);
  const auto again = read_yard(written);
  ASSERT_TRUE(again) << written;
  EXPECT_EQ(write_yard(*again), written);
  EXPECT_DOUBLE_EQ(again->rolls[0].width.in_mm(), 304.8);
}

TEST(Yard, the_built_in_one_is_read) {
  const auto read = read_yard(test::bytes_of("data/yard/common.json"));
  ASSERT_TRUE(read);
  EXPECT_GT(read->rolls.size(), 100U);
}

struct Bad {
  const char* what;
  std::string text;
  FaultCode code;
  const char* path;
};

TEST(Yard, what_no_yard_has_is_refused_by_name) {
  const std::vector<Bad> bad{
      {"zero width", yard(R"({"code": 4, "width": 0, "length": 6000, "price_per_kg": 310})"),
       FaultCode::out_of_range, "$.rolls[0].width"},
      {"negative length", yard(R"({"code": 4, "width": 300, "length": -6000, "price_per_kg": 310})"),
       FaultCode::out_of_range, "$.rolls[0].length"},
      {"a roll of a kilometre", yard(R"({"code": 4, "width": 300, "length": 1000000, "price_per_kg": 310})"),
       FaultCode::out_of_range, "$.rolls[0].length"},
      {"code 9", yard(R"({"code": 9, "width": 300, "length": 6000, "price_per_kg": 310})"),
       FaultCode::out_of_range, "$.rolls[0].code"},
      {"free lead", yard(R"({"code": 4, "width": 300, "length": 6000, "price_per_kg": 0})"),
       FaultCode::out_of_range, "$.rolls[0].price_per_kg"},
      {"half a penny", yard(R"({"code": 4, "width": 300, "length": 6000, "price_per_kg": 310.5})"),
       FaultCode::out_of_range, "$.rolls[0].price_per_kg"},
      {"no price", yard(R"({"code": 4, "width": 300, "length": 6000})"), FaultCode::missing_key,
       "$.rolls[0]"},
      {"two prices", yard(R"({"code": 4, "width": 300, "length": 6000, "price": 1, "price_per_kg": 310})"),
       FaultCode::contradiction, "$.rolls[0].price"},
      {"wider than long", yard(R"({"code": 4, "width": 700, "length": 600, "price_per_kg": 310})"),
       FaultCode::contradiction, "$.rolls[0].width"},
      {"none in stock",
       yard(R"({"code": 4, "width": 300, "length": 6000, "price_per_kg": 310, "in_stock": 0})"),
       FaultCode::out_of_range, "$.rolls[0].in_stock"},
      {"a million rolls",
       yard(R"({"code": 4, "width": 300, "length": 6000, "price_per_kg": 310, "in_stock": 1000000})"),
       FaultCode::out_of_range, "$.rolls[0].in_stock"},
      {"minus two rolls",
       yard(R"({"code": 4, "width": 300, "length": 6000, "price_per_kg": 310, "in_stock": -2})"),
       FaultCode::out_of_range, "$.rolls[0].in_stock"},
      {"a rack without end",
       yard(kRoll, R"(, "offcuts": [{"code": 4, "width": 100, "length": 300, "count": 1001}])"),
       FaultCode::out_of_range, "$.offcuts[0].count"},
      {"a negative offcut", yard(kRoll, R"(, "offcuts": [{"code": 4, "width": -100, "length": 300}])"),
       FaultCode::out_of_range, "$.offcuts[0].width"},
      {"a sign for a currency", yard(kRoll, R"(, "currency": "G$P")"), FaultCode::bad_choice, "$.currency"},
      {"a currency in small letters", yard(kRoll, R"(, "currency": "gbp")"), FaultCode::bad_choice,
       "$.currency"},
      {"a currency of four letters", yard(kRoll, R"(, "currency": "EURO")"), FaultCode::out_of_range,
       "$.currency"},
      {"a price in another currency",
       yard(kRoll,
            R"(, "prices": [{"item": "covering.unit", "price": 85, "per": "piece", "currency": "EUR"}])"),
       FaultCode::contradiction, "$.prices[0].currency"},
      {"a cut that pays", yard(kRoll, R"(, "cut_cost": -1)"), FaultCode::out_of_range, "$.cut_cost"},
      {"scrap dearer than new", yard(kRoll, R"(, "scrap_per_kg": 310)"), FaultCode::contradiction,
       "$.rolls[0]"},
      {"negative scrap", yard(kRoll, R"(, "scrap_per_kg": -1)"), FaultCode::out_of_range, "$.scrap_per_kg"},
      {"offcut of no count",
       yard(kRoll, R"(, "offcuts": [{"code": 4, "width": 100, "length": 300, "count": 0}])"),
       FaultCode::out_of_range, "$.offcuts[0].count"},
      {"offcut of nothing", yard(kRoll, R"(, "offcuts": [{"code": 4, "width": 0, "length": 300}])"),
       FaultCode::out_of_range, "$.offcuts[0].width"},
      {"kept as dear as new", yard(kRoll, R"(, "keep_percent": 100)"), FaultCode::out_of_range,
       "$.keep_percent"},
      {"keep from one size", yard(kRoll, R"(, "keep_from": [500])"), FaultCode::out_of_range, "$.keep_from"},
      {"saw of a hand's breadth", yard(kRoll, R"(, "kerf": 100)"), FaultCode::out_of_range, "$.kerf"},
      {"nothing at all", yard(""), FaultCode::contradiction, "$.rolls"},
      {"no rolls", R"({"format": "lapwright-yard/1"})", FaultCode::missing_key, "$.rolls"},
      {"a job", R"({"format": "lapwright-job/1", "rolls": [)" + std::string(kRoll) + "]}",
       FaultCode::bad_format, "$.format"},
      {"a misspelt key", yard(kRoll, R"(, "offcut": [])"), FaultCode::unknown_key, "$.offcut"},
  };
  for (const Bad& one : bad) {
    const auto read = read_yard(one.text);
    ASSERT_FALSE(read) << one.what;
    EXPECT_EQ(name_of(read.error().front().code), name_of(one.code))
        << one.what << ": " << to_line(read.error().front());
    EXPECT_EQ(read.error().front().path, one.path) << one.what;
    EXPECT_EQ(read.error().size(), 1U) << one.what << ": " << to_line(read.error().back());
  }
}

TEST(Yard, schema_is_the_published_one) {
  EXPECT_EQ(yard_schema(), test::bytes_of("schema/yard.json"));
}

}  // namespace

// Somebody else's price, a kilogram and a metre, beside the yard's.
#include "planned.h"
#include "priced.h"

#include <lapwright/engine/engine.h>
#include <lapwright/estimate/offer.h>

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace lapwright {
namespace {

// 50 m at 150 wide of code 4 (20.41 kg/m², BS EN 12588 class as usually printed) weigh 153.075 kg.
TEST(Offer, PerKilogramAndPerMetre) {
  const std::vector<std::string> ways{
      "50 m of code 4 at 150 wide, £570",    "£570 for 50 m of code 4, 150 mm wide",
      "code 4, 150 wide, 50 m: 570 GBP",     "5 rolls of 10 m code 4 at 150 wide for £570.00",
      "50 m of code 4 at 150 mm wide, £570", "Code 4 at 150 wide, 50 m, 570.00 GBP"};
  const auto pack = practice::Pack::built_in();
  ASSERT_TRUE(pack);
  const auto yard = job::read_yard(sample::file_bytes(sample::kDemoYard));
  ASSERT_TRUE(yard);
  for (const std::string& words : ways) {
    const auto offer = estimate::read_offer(words);
    ASSERT_TRUE(offer) << words << ": " << to_line(offer.error().front());
    EXPECT_EQ(offer->code, 4) << words;
    EXPECT_EQ(offer->price, 57'000) << words;
    EXPECT_DOUBLE_EQ(offer->length.in_m(), 50) << words;
    EXPECT_DOUBLE_EQ(offer->width.in_mm(), 150) << words;
    const auto judged = estimate::judge(*offer, *yard, *pack);
    ASSERT_TRUE(judged) << words;
    EXPECT_NEAR(judged->mass.in_kg(), 153.075, 1e-9);
    EXPECT_NEAR(judged->per_kg, 57'000 / 153.075, 1e-9);
    EXPECT_NEAR(judged->per_m, 1140, 1e-9);
    ASSERT_TRUE(judged->yard_per_kg && judged->yard_per_m);
    EXPECT_TRUE(judged->same_width);
    EXPECT_NEAR(*judged->yard_per_kg, 310, 1e-9);
    EXPECT_NEAR(*judged->yard_per_m, 310 * 0.15 * 20.41, 1e-9);
  }
  const std::string yard_bytes = sample::file_bytes(sample::kDemoYard);
  const engine::Outcome out = engine::price_check(ways.front(), yard_bytes);
  EXPECT_EQ(out.status, engine::Status::done);
  for (const std::string_view said : {"£3.72", "£11.40", "£3.10", "£9.49", "153", "dearer", "invented"}) {
    EXPECT_NE(out.text.find(said), std::string::npos) << said << "\n" << out.text;
  }
}

// Of another width than the yard has, the kilogram still compares; of another code nothing does.
TEST(Offer, BesideAYardThatHasItNot) {
  const std::string yard = R"({"format": "lapwright-yard/1",
    "rolls": [{"code": 4, "width": 300, "length": 6000, "price": 11400}]})";
  const engine::Outcome other = engine::price_check("10 m of code 4 at 150 wide, £90", yard);
  EXPECT_NE(other.text.find("other widths"), std::string::npos) << other.text;
  EXPECT_NE(other.text.find("cheaper"), std::string::npos) << other.text;
  EXPECT_EQ(other.text.find("invented"), std::string::npos) << other.text;
  const engine::Outcome none = engine::price_check("10 m of code 5 at 150 wide, £90", yard);
  EXPECT_NE(none.text.find("no lead code 5"), std::string::npos) << none.text;
}

TEST(Offer, WhatIsNoneIsRefusedInOneLine) {
  for (const std::string words :
       {"", "50 m of code 4 at 150 wide", "code 4 at 150 wide, £570", "50 m at 150 wide, £570",
        "50 m of code 4, £570", "50 m of code 4 at 150 wide, £570, £580", "50 m of code 9 at 150 wide, £570",
        "50 m of code 4 at 0 wide, £570", "0 m of code 4 at 150 wide, £570",
        "50 m of code 4 at 150 wide, €570", "50 m of code 4 at 150 wide, £570 perhaps 7", "fifty metres",
        "50 m of code 4 at 150 wide, £", "-50 m of code 4 at 150 wide, £570",
        "50 m of code 4 at 150 wide, £0"}) {
    const engine::Outcome out = engine::price_check(words, "");
    EXPECT_EQ(out.status, engine::Status::unreadable) << words << "\n" << out.text;
    EXPECT_EQ(out.faults.size(), 1U) << words;
    for (const std::string& fault : out.faults) EXPECT_EQ(fault.find('\n'), std::string::npos) << fault;
  }
}

}  // namespace
}  // namespace lapwright

// A price adds up to the penny, says what is missing, and refuses a yard that cannot be.
#include "formula.h"
#include "planned.h"
#include "priced.h"

#include <lapwright/engine/engine.h>
#include <lapwright/estimate/price.h>

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

namespace lapwright {
namespace {

using sample::changed;
using sample::file_bytes;
using sample::priced;

const std::vector<std::string> kFolders{"tests/jobs/good", "tests/jobs/cases", "data/demo"};
constexpr std::size_t kEvery = 3;  // of the jobs, each third is priced

std::int64_t sum_of(const job::Price& price, std::string_view name) {
  for (const job::PriceSum& sum : price.sums) {
    if (sum.name == name) return sum.amount;
  }
  ADD_FAILURE() << "no sum " << name;
  return -1;
}

const job::PriceLine* line(const job::Price& price, std::string_view item) {
  for (const job::PriceLine& one : price.lines) {
    if (one.item == item) return &one;
  }
  return nullptr;
}

// Halves of a penny go up; every other share goes to the nearest penny. Worked by hand.
TEST(Price, SharesAreRoundedToThePenny) {
  EXPECT_EQ(estimate::share_of(277'103, 2000), 55'421);  // 554.206
  EXPECT_EQ(estimate::share_of(2, 2000), 0);             // 0.4
  EXPECT_EQ(estimate::share_of(3, 2000), 1);             // 0.6
  EXPECT_EQ(estimate::share_of(4, 1250), 1);             // 0.5
  EXPECT_EQ(estimate::share_of(12, 1250), 2);            // 1.5
  EXPECT_EQ(estimate::share_of(999, 1750), 175);         // 174.825
  EXPECT_EQ(estimate::share_of(0, 2000), 0);
  EXPECT_EQ(estimate::share_of(10'000'000'000, 2000), 2'000'000'000);
  for (std::int64_t pence = 0; pence < 5000; ++pence) {
    const std::int64_t vat = estimate::share_of(pence, 2000);
    EXPECT_LE(std::abs(5 * vat - pence), 2) << pence;  // a fifth, within half a penny
  }
}

// Whoever takes the printed paper and a pocket calculator gets the same: quantities have two decimals, each
// line is their product, and each sum is made of the amounts above it.
void expect_adds_up(const job::Price& price, const std::string& where) {
  std::int64_t materials = 0;
  std::int64_t labour = 0;
  std::int64_t access = 0;
  std::int64_t missing = 0;
  for (const job::PriceLine& one : price.lines) {
    EXPECT_EQ(one.price.has_value(), one.amount.has_value()) << where << ", " << one.item;
    if (!one.amount) {
      ++missing;
      continue;
    }
    EXPECT_GT(*one.price, 0) << where << ", " << one.item;
    const double hundredths = one.quantity * 100;
    EXPECT_NEAR(hundredths, std::round(hundredths), 1e-6) << where << ", " << one.item;
    EXPECT_LE(std::abs(static_cast<double>(*one.amount) -
                       std::round(hundredths) * static_cast<double>(*one.price) / 100),
              0.5 + 1e-6)
        << where << ", " << one.item;
    (one.group == "labour" ? labour : one.group == "access" ? access : materials) += *one.amount;
  }
  EXPECT_EQ(price.missing, missing) << where;
  EXPECT_EQ(sum_of(price, "materials"), materials) << where;
  EXPECT_EQ(sum_of(price, "labour"), labour) << where;
  EXPECT_EQ(sum_of(price, "access"), access) << where;
  EXPECT_EQ(sum_of(price, "net"),
            materials + labour + access + sum_of(price, "overheads") + sum_of(price, "margin"))
      << where;
  const std::int64_t vat = price.vat ? sum_of(price, "vat") : 0;
  EXPECT_EQ(sum_of(price, "total"), sum_of(price, "net") + vat) << where;
  for (const job::PriceSum& sum : price.sums) {
    EXPECT_EQ(sample::complaint_about(sum.figure), "") << where << ", " << sum.name;
    EXPECT_EQ(sum.figure.value, static_cast<double>(sum.amount)) << where << ", " << sum.name;
  }
}

TEST(Price, AddsUpToThePenny) {
  const std::string yard = file_bytes(sample::kDemoYard);
  std::size_t n = 0;
  const std::vector<std::string> files = sample::job_files(kFolders);
  for (std::size_t i = 0; i < files.size(); i += kEvery) {
    const std::string& file = files[i];
    const auto planned = priced(file_bytes(file), yard);
    if (!planned) continue;
    ASSERT_TRUE(planned->plan.price) << file;
    expect_adds_up(*planned->plan.price, file);
    ++n;
  }
  EXPECT_GT(n, 12U);
  // By the day, with other shares and without VAT.
  const auto by_day = priced(file_bytes(sample::kDemo),
                             changed(changed(changed(yard, R"("per_hour": 3150)", R"("per_day": 21000)"),
                                             R"("overheads": 10, "margin": 12.5, "vat": 20)",
                                             R"("overheads": 7.25, "margin": 33.33)"),
                                     R"("price": 68, "per": "m")", R"("price": 327, "per": "length")"));
  ASSERT_TRUE(by_day);
  const job::Price& price = *by_day->plan.price;
  expect_adds_up(price, "by the day");
  EXPECT_FALSE(price.vat);
  // One day for two people; 44 lengths of batten.
  ASSERT_NE(line(price, "labour.days"), nullptr);
  EXPECT_EQ(line(price, "labour.days")->amount, 42'000);
  EXPECT_EQ(line(price, "labour.soaker"), nullptr);
  EXPECT_EQ(line(price, "battens.length")->amount, 44 * 327);
}

// A price that nobody gave is named, counted and left out of the sums; it is never nought.
TEST(Price, WhatIsMissingIsListedAsMissing) {
  const std::string yard = file_bytes(sample::kDemoYard);
  const auto whole = priced(file_bytes(sample::kDemo), yard);
  const auto without =
      priced(file_bytes(sample::kDemo),
             changed(yard, R"({ "item": "fixings.clips", "price": 35, "per": "piece" },)", ""));
  ASSERT_TRUE(whole);
  ASSERT_TRUE(without);
  EXPECT_EQ(whole->plan.price->missing, 0);
  const job::Price& price = *without->plan.price;
  EXPECT_EQ(price.missing, 1);
  ASSERT_NE(line(price, "fixings.clips"), nullptr);
  EXPECT_FALSE(line(price, "fixings.clips")->price);
  EXPECT_FALSE(line(price, "fixings.clips")->amount);
  EXPECT_EQ(sum_of(price, "materials"),
            sum_of(*whole->plan.price, "materials") - *line(*whole->plan.price, "fixings.clips")->amount);
  expect_adds_up(price, "without clips");
  // Every paper and list that shows the price says so.
  engine::Request request;
  const std::string job = file_bytes(sample::kDemo);
  const std::string text = changed(yard, R"({ "item": "fixings.clips", "price": 35, "per": "piece" },)", "");
  request.job = job;
  request.yard = text;
  request.documents = true;
  request.only = "price";
  const engine::Outcome out = engine::plan(request);
  EXPECT_NE(out.text.find("price missing"), std::string::npos);
  for (const engine::Document& document : out.documents) {
    if (document.name == "price.csv") {
      EXPECT_NE(document.bytes.find("price missing"), std::string::npos);
    }
  }
}

// Lead that no roll of the yard can give has no price, but it is asked for and missed.
TEST(Price, LeadThatTheYardHasNotIsMissed) {
  const std::string yard = R"({"format": "lapwright-yard/1", "labour": {"per_hour": 3000},
    "rolls": [{"code": 4, "width": 450, "length": 6000, "price_per_kg": 310}]})";
  const auto planned = priced(file_bytes(sample::kDemo), yard);
  ASSERT_TRUE(planned);
  double soakers = 0;
  for (const job::Piece& piece : planned->plan.pieces) {
    if (piece.code == 3) soakers += piece.mass.in_kg() * static_cast<double>(piece.count);
  }
  const job::PriceLine* missed = line(*planned->plan.price, "lead.no_roll");
  ASSERT_NE(missed, nullptr);
  EXPECT_NEAR(missed->quantity, soakers, 0.006);
  EXPECT_FALSE(missed->amount);
  EXPECT_GT(planned->plan.price->missing, 0);
}

// An offcut is in the price at what it could be sold or kept for: 1.45 m of code 3, 300 wide, weighs 6.512 kg
// (14.97 kg/m²); kept, it is worth 80 % of the yard's cheapest, 305 a kg.
TEST(Price, TheRackIsNotFree) {
  const std::string rack = file_bytes("tests/jobs/yards/rack.json");
  const auto planned =
      priced(file_bytes(sample::kDemo),
             changed(rack, R"("scrap_per_kg": 120)", R"("labour": {"per_hour": 3000}, "scrap_per_kg": 120)"));
  ASSERT_TRUE(planned);
  std::size_t n = 0;
  for (const job::PriceLine& one : planned->plan.price->lines) {
    if (one.item != "lead.from_rack") continue;
    ++n;
    EXPECT_GT(one.price.value_or(0), 0);
    if (one.text.find("code 3") != std::string::npos) {
      EXPECT_NEAR(static_cast<double>(*one.price), 0.8 * 305 * 1.45 * 0.3 * 14.97, 1);
    }
  }
  EXPECT_GT(n, 0U);
  expect_adds_up(*planned->plan.price, "rack");
}

// A crew that sets its own counts moves its own sum, and nothing else.
TEST(Price, CountsOfWorkMayBeChanged) {
  const std::string yard = file_bytes(sample::kDemoYard);
  const std::string job = file_bytes(sample::kDemo);
  const auto ours = priced(job, yard);
  const auto theirs = priced(
      changed(job, R"("slopes": [)",
              R"("practice": {"labour.soaker": 12, "labour.crew": 1, "access.days_a_week": 1}, "slopes": [)"),
      yard);
  ASSERT_TRUE(ours);
  ASSERT_TRUE(theirs);
  const job::Price& a = *ours->plan.price;
  const job::Price& b = *theirs->plan.price;
  EXPECT_EQ(*line(b, "labour.soaker")->amount, 2 * *line(a, "labour.soaker")->amount);
  EXPECT_EQ(line(b, "labour.step")->amount, line(a, "labour.step")->amount);
  EXPECT_EQ(sum_of(b, "materials"), sum_of(a, "materials"));
  EXPECT_EQ(sum_of(a, "access"), 24'000);
  EXPECT_EQ(sum_of(b, "access"), 72'000);  // three days alone, a week each
}

struct Bad {
  std::string what, old, with, path;
};

// Each one clear line: where, what was read, what is accepted.
TEST(Price, YardsThatCannotBe) {
  const std::string yard = file_bytes(sample::kDemoYard);
  const std::string roll = R"({ "code": 3, "width": 150, "length": 3000, "price_per_kg": 310 })";
  const std::string clips = R"({ "item": "fixings.clips", "price": 35, "per": "piece" })";
  const std::vector<Bad> bad{
      {"a roll without a price", roll, R"({ "code": 3, "width": 150, "length": 3000 })", "$.rolls[0]"},
      {"a roll of no width", roll, R"({ "code": 3, "width": 0, "length": 3000, "price_per_kg": 310 })",
       "$.rolls[0].width"},
      {"a roll of no length", roll, R"({ "code": 3, "width": 150, "length": 0, "price_per_kg": 310 })",
       "$.rolls[0].length"},
      {"negative stock", roll,
       R"({ "code": 3, "width": 150, "length": 3000, "price_per_kg": 310, "in_stock": -2 })",
       "$.rolls[0].in_stock"},
      {"a price of nought", clips, R"({ "item": "fixings.clips", "price": 0, "per": "piece" })",
       "$.prices[10].price"},
      {"half a penny", clips, R"({ "item": "fixings.clips", "price": 35.5, "per": "piece" })",
       "$.prices[10].price"},
      {"an item without a price", clips, R"({ "item": "fixings.clips", "per": "piece" })",
       "$.prices[10].price"},
      {"another currency", clips,
       R"({ "item": "fixings.clips", "price": 35, "per": "piece", "currency": "EUR" })",
       "$.prices[10].currency"},
      {"an item that no estimate has", clips, R"({ "item": "fixings.clip", "price": 35, "per": "piece" })",
       "$.prices[10].item"},
      {"per something it is not counted in", clips,
       R"({ "item": "fixings.clips", "price": 35, "per": "kg" })", "$.prices[10].per"},
      {"twice", clips, clips + ", " + clips, "$.prices[11].item"},
      {"a negative margin", R"("margin": 12.5)", R"("margin": -1)", "$.terms.margin"},
      {"a rate of nought", R"("per_hour": 3150)", R"("per_hour": 0)", "$.labour.per_hour"},
      {"no group", R"("valid_days": 30)", R"("valid_days": 30, "leave_out": ["slates"])",
       "$.terms.leave_out"},
  };
  const std::string job = file_bytes(sample::kDemo);
  for (const Bad& one : bad) {
    const std::string text = changed(yard, one.old, one.with);
    engine::Request request;
    request.job = job;
    request.yard = text;
    const engine::Outcome out = engine::plan(request);
    EXPECT_EQ(out.status, engine::Status::unreadable) << one.what;
    ASSERT_EQ(out.faults.size(), 1U) << one.what << ": " << (out.faults.empty() ? "" : out.faults.front());
    EXPECT_TRUE(out.faults.front().starts_with(one.path + " ") ||
                out.faults.front().starts_with(one.path + ":"))
        << one.what << ": " << out.faults.front();
    EXPECT_EQ(out.faults.front().find('\n'), std::string::npos) << one.what;
    EXPECT_NE(out.faults.front().find("accepted"), std::string::npos)
        << one.what << ": " << out.faults.front();
  }
}

}  // namespace
}  // namespace lapwright

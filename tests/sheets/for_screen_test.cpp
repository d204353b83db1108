// What a page is given beside a plan: rolls and pages as pictures, and the yard as it is read.
#include "support.h"

#include <lapwright/engine/engine.h>

#include <algorithm>
#include <iterator>
#include <vector>

namespace {
using namespace lapwright;
using namespace lapwright::sheets::test;

std::size_t count_of(const std::string& text, const std::string& what) {
  std::size_t count = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + what.size()))
    ++count;
  return count;
}

std::string attribute(const std::string& svg, const std::string& name) {
  const std::size_t at = svg.find(" " + name + "=\"") + name.size() + 3;
  return svg.substr(at, svg.find('"', at) - at);
}

engine::Outcome planned(engine::Request request, const std::string& job) {
  request.job = job;
  return engine::plan(request);
}

std::vector<engine::Document> named(const engine::Outcome& outcome, const std::string& start) {
  std::vector<engine::Document> out;
  std::copy_if(outcome.documents.begin(), outcome.documents.end(), std::back_inserter(out),
               [&](const engine::Document& one) { return one.name.starts_with(start); });
  return out;
}

// Every piece of the list is in the picture of its roll, once, under its own place; all rolls are drawn at
// one scale, and the longest fills the width that there is.
TEST(ForScreen, rolls_hold_every_piece_at_one_scale) {
  const std::string job = bytes_of("data/demo/hollin-barn.json");
  engine::Request request;
  request.rolls = true;
  request.room_width = 230;
  const engine::Outcome outcome = planned(request, job);
  const std::vector<engine::Document> rolls = named(outcome, "roll/");
  ASSERT_FALSE(rolls.empty());
  EXPECT_EQ(rolls.size(), outcome.documents.size());
  std::size_t tags = 0;
  double widest = 0;
  for (std::size_t i = 0; i < rolls.size(); ++i) {
    const std::string name = "R" + std::to_string(i + 1);
    EXPECT_EQ(rolls[i].name, "roll/" + name);
    EXPECT_EQ(attribute(rolls[i].bytes, "data-scale"), attribute(rolls[0].bytes, "data-scale"));
    std::size_t here = 0;
    while (count_of(rolls[i].bytes, "data-tag=\"cut/" + name + "/" + std::to_string(here) + "/") == 1) ++here;
    EXPECT_GT(here, 0U) << name;
    tags += here;
    widest = std::max(widest, std::stod(attribute(rolls[i].bytes, "width")));
  }
  EXPECT_EQ(tags, count_of(outcome.json, "\"turned\":"));  // once for each piece that is placed
  EXPECT_LE(widest, 230);
  EXPECT_GT(widest, 200);
  EXPECT_TRUE(named(planned({}, job), "roll/").empty());
}

TEST(ForScreen, pages_are_those_of_the_paper) {
  const std::string job = bytes_of("data/demo/hollin-barn.json");
  engine::Request request;
  request.documents = true;
  request.only = "order";
  EXPECT_TRUE(named(planned(request, job), "page/").empty());
  request.pages = true;
  const engine::Outcome outcome = planned(request, job);
  const std::vector<engine::Document> paper = named(outcome, "order.pdf");
  ASSERT_EQ(paper.size(), 1U);
  const std::vector<engine::Document> pages = named(outcome, "page/order/");
  EXPECT_EQ(pages.size(), count_of(paper[0].bytes, "/Type /Page") - count_of(paper[0].bytes, "/Type /Pages"));
  ASSERT_FALSE(pages.empty());
  EXPECT_EQ(pages[0].name, "page/order/1");
  EXPECT_EQ(attribute(pages[0].bytes, "width"), "210mm");
}

TEST(ForScreen, a_yard_comes_back_as_it_was_read) {
  const engine::Outcome built_in = engine::read_yard({});
  EXPECT_EQ(built_in.status, engine::Status::done);
  EXPECT_NE(built_in.json.find("\"prices_are\":\"invented\""), std::string::npos);
  EXPECT_EQ(engine::read_yard(built_in.json).json, built_in.json);
  const std::string own = bytes_of("data/demo/yard/yard.json");
  const engine::Outcome again = engine::read_yard(own);
  EXPECT_EQ(engine::read_yard(again.json).json, again.json);
  EXPECT_NE(again.json.find("covering.unit_and_half"), std::string::npos);
}

TEST(ForScreen, what_is_wrong_with_a_yard_is_told_at_its_place) {
  const engine::Outcome wrong = engine::read_yard(
      R"({"format":"lapwright-yard/1","rolls":[{"code":4,"width":0,"length":6000,"price_per_kg":310,"in_stock":-1}]})");
  EXPECT_EQ(wrong.status, engine::Status::unreadable);
  EXPECT_EQ(wrong.faults.size(), 2U);
  EXPECT_NE(wrong.json.find("$.rolls[0].width"), std::string::npos);
  EXPECT_NE(wrong.json.find("$.rolls[0].in_stock"), std::string::npos);
}

}  // namespace

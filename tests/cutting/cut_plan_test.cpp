// The stage as a whole: pieces and yard in, a list that its judge finds sound; and the judge sees what is
// broken.
#include "cutting_run.h"
#include "planned.h"
#include "planning.h"

#include <lapwright/cutcheck/cutcheck.h>
#include <lapwright/cutting/cut_plan.h>
#include <lapwright/job/yard.h>

#include <gtest/gtest.h>

#include <cmath>

namespace lapwright::cutting {
namespace {

constexpr std::string_view kHead = R"({"format": "lapwright-yard/1", "rolls": [)";

job::Yard yard_of(std::string_view rolls, std::string_view rest = R"(, "scrap_per_kg": 100})") {
  const std::string text = std::string(kHead) + std::string(rolls) + "]" + std::string(rest);
  auto yard = job::read_yard(text);
  EXPECT_TRUE(yard) << text;
  return yard ? *yard : job::Yard{};
}

geom::Ring rectangle(double length, double width) {
  const auto um = [](double mm) { return static_cast<geom::Grid>(std::llround(mm * 1000)); };
  return {{0, 0}, {um(length), 0}, {um(length), um(width)}, {0, um(width)}};
}

void add(job::Plan& plan, const std::string& mark, std::int64_t code, geom::Ring outline,
         std::int64_t count) {
  job::Piece piece;
  piece.mark = mark;
  piece.kind = "soaker";
  piece.slope = "rear";
  piece.junction = "wall";
  piece.code = code;
  piece.count = count;
  piece.area = geom::area(outline);
  piece.net.outline = std::move(outline);
  plan.pieces.push_back(std::move(piece));
}

practice::Pack pack() {
  return *practice::Pack::built_in();
}

// Plans, and holds that the judge finds nothing.
void cut(job::Plan& plan, const job::Yard& yard, double effort = 0.02) {
  CutPlan run(plan, yard, pack(), effort);
  while (run.step()) {
  }
  plan.cutting = run.result();
  for (const cutcheck::Complaint& complaint : cutcheck::check(plan, yard, pack())) {
    ADD_FAILURE() << complaint.rule << ": " << complaint.where;
  }
}

std::int64_t rolls_of(const job::Cutting& cutting, double length) {
  std::int64_t out = 0;
  for (const job::CutRoll& roll : cutting.rolls) out += roll.length.in_mm() == length ? roll.count : 0;
  return out;
}

// Soakers 265 × 275 of code 3 from 300 × 6 m: 22 from a roll, 24.0 kg of it used, 10.9 % waste (arithmetic on
// the published kg/m²).
TEST(CutPlan, soakers_from_one_roll) {
  const job::Yard yard = yard_of(R"({"code": 3, "width": 300, "length": 6000, "price_per_kg": 300})");
  job::Plan plan;
  add(plan, "S1", 3, rectangle(265, 275), 22);
  cut(plan, yard);
  EXPECT_EQ(rolls_of(*plan.cutting, 6000), 1);
  EXPECT_NEAR(plan.cutting->used.in_kg(), 24.0, 0.05);
  EXPECT_NEAR(1 - plan.cutting->used.in_kg() / plan.cutting->bought.in_kg(), 0.109, 0.001);
  EXPECT_TRUE(plan.cutting->codes.front().best_strips);
  plan.pieces.front().count = 23;
  cut(plan, yard);
  EXPECT_EQ(rolls_of(*plan.cutting, 6000), 2);
}

// A run of 8500 in pieces of 1500 with laps of 100 is 6 pieces, 9.0 m; from rolls of 6 m two, and 3.0 m is
// over.
TEST(CutPlan, a_long_cover_flashing) {
  const job::Yard yard = yard_of(R"({"code": 4, "width": 300, "length": 6000, "price_per_kg": 300})",
                                 R"(, "scrap_per_kg": 100, "keep_from": [500, 150]})");
  job::Plan plan;
  add(plan, "C1", 4, rectangle(1500, 300), 6);
  cut(plan, yard);
  EXPECT_EQ(rolls_of(*plan.cutting, 6000), 2);
  double over = 0;
  for (const job::CutRoll& roll : plan.cutting->rolls) {
    for (const job::CutLeft& left : roll.left)
      over += left.keep ? left.length.in_mm() * static_cast<double>(roll.count) : 0;
  }
  EXPECT_EQ(over, 3000);
  for (const job::CutRoll& roll : plan.cutting->rolls) {
    for (const job::CutPiece& piece : roll.pieces) EXPECT_FALSE(piece.turned);  // never across: 1500 is whole
  }
}

// 14 m of 300 in code 4, sold in 6 m and 3 m: two and one; 85.7 kg, and a roll of 36.7 kg takes two people.
TEST(CutPlan, fourteen_metres) {
  const job::Yard yard = yard_of(R"({"code": 4, "width": 300, "length": 6000, "price_per_kg": 300},
                                    {"code": 4, "width": 300, "length": 3000, "price_per_kg": 300})");
  job::Plan plan;
  add(plan, "A1", 4, rectangle(1000, 300), 14);
  cut(plan, yard);
  EXPECT_EQ(rolls_of(*plan.cutting, 6000), 2);
  EXPECT_EQ(rolls_of(*plan.cutting, 3000), 1);
  EXPECT_NEAR(plan.cutting->used.in_kg(), 85.7, 0.05);
  bool heavy = false;
  for (const job::Finding& finding : findings_of(*plan.cutting, plan, yard, pack())) {
    heavy = heavy || (finding.rule == "cutting.heavy" && std::fabs(finding.value.value_or(0) - 36.7) < 0.05);
  }
  EXPECT_TRUE(heavy);
}

// 450 × 3 m of code 4 weigh 27.56 kg: at 120 a kilogram their scrap brings 3307.
TEST(CutPlan, a_roll_no_dearer_than_its_scrap_is_named) {
  constexpr const char* kScrap = R"(, "scrap_per_kg": 120})";
  const auto faults = faults_of(yard_of(R"({"code": 4, "width": 450, "length": 3000, "price": 3317},
                                           {"code": 4, "width": 450, "length": 3000, "price": 3000})",
                                        kScrap),
                                pack());
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_EQ(faults.front().path, "$.rolls[1].price");
}

TEST(CutPlan, what_cannot_be_cut_is_named_and_the_rest_is_cut) {
  const job::Yard yard =
      yard_of(R"({"code": 4, "width": 300, "length": 3000, "price_per_kg": 300, "in_stock": 1})");
  job::Plan plan;
  add(plan, "W1", 4, rectangle(900, 310), 1);
  add(plan, "L1", 4, rectangle(3010, 100), 2);
  add(plan, "N1", 5, rectangle(200, 200), 3);
  add(plan, "G1", 4, rectangle(1400, 300), 3);
  cut(plan, yard);
  std::map<std::string, std::string> why;
  for (const job::CutRefusal& refusal : plan.cutting->refused) why[refusal.mark] = refusal.why;
  EXPECT_EQ(why["W1"], "too-large");
  EXPECT_EQ(why["L1"], "too-large");
  EXPECT_EQ(why["N1"], "not-stocked");
  EXPECT_EQ(why["G1"], "too-few");
  EXPECT_EQ(rolls_of(*plan.cutting, 3000), 1);
  EXPECT_GE(findings_of(*plan.cutting, plan, yard, pack()).size(), 4U);
}

TEST(CutPlan, nothing_of_a_wrong_detail_is_cut) {
  const job::Yard yard = yard_of(R"({"code": 4, "width": 300, "length": 3000, "price_per_kg": 300})");
  job::Plan plan;
  add(plan, "S1", 4, rectangle(200, 200), 3);
  job::Choice choice;
  choice.slope = "rear";
  choice.junction = "wall";
  choice.level = job::Level::wrong;
  choice.taken = true;
  plan.choices.push_back(choice);
  cut(plan, yard);
  EXPECT_TRUE(plan.cutting->rolls.empty());
  ASSERT_EQ(plan.cutting->refused.size(), 1U);
  EXPECT_EQ(plan.cutting->refused.front().why, "wrong");
}

// Crossed-out pieces stand in the plan so that somebody sees why; no lead is cut, bought or weighed for them.
TEST(CutPlan, crossed_out_pieces_are_never_cut_bought_or_weighed) {
  const job::Yard yard = yard_of(R"({"code": 4, "width": 300, "length": 3000, "price_per_kg": 300})");
  job::Plan sound;
  add(sound, "S1", 4, rectangle(200, 200), 3);
  cut(sound, yard);
  job::Plan plan;
  add(plan, "X1", 4, rectangle(1400, 290), 7);
  plan.pieces.back().wrong = true;
  plan.pieces.back().slope = "another";
  add(plan, "S1", 4, rectangle(200, 200), 3);
  cut(plan, yard);
  for (const job::CutRoll& roll : plan.cutting->rolls) {
    for (const job::CutPiece& piece : roll.pieces) EXPECT_NE(piece.mark, "X1");
  }
  EXPECT_EQ(plan.cutting->bought.in_kg(), sound.cutting->bought.in_kg());
  EXPECT_EQ(plan.cutting->used.in_kg(), sound.cutting->used.in_kg());
  EXPECT_EQ(plan.cutting->price, sound.cutting->price);
  EXPECT_EQ(plan.cutting->hand.cost, sound.cutting->hand.cost);
  ASSERT_EQ(plan.cutting->refused.size(), 1U);
  EXPECT_EQ(plan.cutting->refused.front().mark, "X1");
  EXPECT_EQ(plan.cutting->refused.front().why, "wrong");
  // A list that cuts one is complained of, were it whole in every other way.
  plan.cutting->refused.clear();
  std::swap(plan.pieces[0].wrong, plan.pieces[1].wrong);
  bool caught = false;
  for (const cutcheck::Complaint& complaint : cutcheck::check(plan, yard, pack())) {
    caught = caught || (complaint.rule == "wrong" && complaint.where == "S1");
  }
  EXPECT_TRUE(caught);
}

TEST(CutPlan, the_rack_is_used_and_what_is_left_goes_back) {
  const std::string bytes = sample::file_bytes("tests/jobs/yards/rack.json");
  const auto yard = job::read_yard(bytes);
  ASSERT_TRUE(yard);
  job::Plan plan;
  add(plan, "S1", 4, rectangle(240, 200), 10);
  cut(plan, *yard);
  EXPECT_GT(plan.cutting->from_rack.in_kg(), 0);
  const job::Yard after = yard_after(*yard, *plan.cutting);
  double before_area = 0;
  double after_area = 0;
  for (const job::YardOffcut& o : yard->offcuts)
    before_area += o.width.in_mm() * o.length.in_mm() * static_cast<double>(o.count);
  for (const job::YardOffcut& o : after.offcuts)
    after_area += o.width.in_mm() * o.length.in_mm() * static_cast<double>(o.count);
  double taken = 0;
  double kept = 0;
  for (const job::CutRoll& roll : plan.cutting->rolls) {
    const auto n = static_cast<double>(roll.count);
    if (roll.offcut) taken += roll.width.in_mm() * roll.length.in_mm() * n;
    for (const job::CutLeft& left : roll.left)
      kept += left.keep ? left.width.in_mm() * left.length.in_mm() * n : 0;
  }
  EXPECT_DOUBLE_EQ(after_area, before_area - taken + kept);
  const auto again = job::read_yard(job::write_yard(after));
  ASSERT_TRUE(again);
  EXPECT_EQ(job::write_yard(*again), job::write_yard(after));
}

// Cancelled or out of time after any slice, what is there is a whole plan, and what it says of itself holds.
TEST(CutPlan, whenever_it_is_stopped_the_plan_is_sound) {
  for (const char* rest :
       {R"(, "scrap_per_kg": 100})", R"(, "scrap_per_kg": 100, "keep_from": [500, 150]})"}) {
    const job::Yard yard = yard_of(R"({"code": 4, "width": 300, "length": 3000, "price_per_kg": 300},
                                      {"code": 4, "width": 450, "length": 6000, "price_per_kg": 290},
                                      {"code": 5, "width": 390, "length": 3000, "price_per_kg": 280, "in_stock": 1})",
                                   rest);
    job::Plan plan;
    add(plan, "S1", 4, rectangle(200, 175), 2);
    add(plan, "S2", 4, rectangle(440, 120), 3);
    add(plan, "A1", 5, rectangle(1400, 310), 3);
    for (int i = 0; i < 12; ++i)
      add(plan, "B" + std::to_string(i), 5, rectangle(150 + 7 * i, 130 + 3 * i), 5);
    CutPlan run(plan, yard, pack(), 0.01);
    int stops = 0;
    for (bool more = true; more;) {
      more = run.step();
      if (!run.has_plan()) continue;
      plan.cutting = run.result();
      ++stops;
      for (const cutcheck::Complaint& complaint : cutcheck::check(plan, yard, pack())) {
        ADD_FAILURE() << stops << ": " << complaint.rule << ": " << complaint.where;
        more = false;
      }
    }
    EXPECT_GE(stops, 5);
  }
}

// The engine hands out no list that its judge has not seen: one for another yard is our own fault, and none
// comes out.
TEST(CutPlan, the_judge_is_asked_by_default) {
  const engine::YardUsed planned_with{
      yard_of(R"({"code": 4, "width": 300, "length": 3000, "price_per_kg": 300})"), false};
  const engine::YardUsed another{yard_of(R"({"code": 4, "width": 300, "length": 3000, "price_per_kg": 310})"),
                                 false};
  engine::Planned planned{{}, pack(), *practice::Catalogue::built_in(), {}};
  add(planned.plan, "S1", 4, rectangle(200, 175), 5);
  CutPlan run(planned.plan, planned_with.yard, pack(), 0);
  while (run.step()) {
  }
  EXPECT_TRUE(engine::take_in(run, planned_with, planned));
  const auto refused = engine::take_in(run, another, planned);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().front().code, FaultCode::internal);
}

TEST(CutPlan, a_kerf_keeps_its_room) {
  const job::Yard yard =
      yard_of(R"({"code": 4, "width": 300, "length": 3000, "price_per_kg": 300})", R"(, "kerf": 3})");
  job::Plan plan;
  add(plan, "S1", 4, rectangle(300, 99), 30);  // three beside each other and two cuts: 303 is too wide
  cut(plan, yard);
  EXPECT_EQ(rolls_of(*plan.cutting, 3000), 2);
  plan.pieces.front().net.outline = rectangle(297, 98);
  plan.pieces.front().area = geom::area(plan.pieces.front().net.outline);
  cut(plan, yard);
  EXPECT_EQ(rolls_of(*plan.cutting, 3000), 1);
}

// Steps of real flashings lie head to tail: two of them from less than their two boxes.
TEST(CutPlan, real_jobs_are_cut_soundly) {
  const std::string rack = sample::file_bytes("tests/jobs/yards/rack.json");
  int pairs = 0;
  for (const std::string& file : sample::job_files({"tests/jobs/good", "tests/jobs/cases", "data/demo"})) {
    auto planned = engine::plan_job(sample::file_bytes(file));
    if (!planned) continue;
    for (const std::string& bytes :
         {file.starts_with("data") ? sample::file_bytes("data/yard/common.json") : rack}) {
      const auto yard = job::read_yard(bytes);
      ASSERT_TRUE(yard);
      job::Plan plan = planned->plan;
      SCOPED_TRACE(file);
      cut(plan, *yard, 0);
      for (const job::CutRoll& roll : plan.cutting->rolls) {
        for (const job::CutStep& step : roll.cuts) pairs += step.way == job::CutWay::teeth ? 1 : 0;
      }
    }
  }
  EXPECT_GE(pairs, 10);
}

class Broken : public ::testing::Test {
 protected:
  void SetUp() override {
    yard_ = yard_of(R"({"code": 4, "width": 300, "length": 3000, "price_per_kg": 300},
                       {"code": 4, "width": 450, "length": 6000, "price_per_kg": 290})",
                    R"(, "scrap_per_kg": 100, "offcuts": [{"code": 4, "width": 300, "length": 800}]})");
    add(plan_, "S1", 4, rectangle(200, 175), 20);
    add(plan_, "S2", 4, rectangle(440, 120), 9);
    // A saw-tooth: head to tail two of them fill their rectangle.
    add(plan_, "F1", 4,
        {{0, 0},
         {600'000, 0},
         {600'000, 65'000},
         {450'000, 140'000},
         {450'000, 65'000},
         {300'000, 140'000},
         {300'000, 65'000},
         {150'000, 140'000},
         {150'000, 65'000},
         {0, 140'000}},
        4);
    cut(plan_, yard_);
  }
  bool caught(std::string_view rule) const {
    for (const cutcheck::Complaint& complaint : cutcheck::check(plan_, yard_, pack())) {
      if (complaint.rule == rule) return true;
    }
    return false;
  }
  // Pieces that leave much of every roll, so that no two of the bounds are the same.
  void misfits() {
    yard_ = yard_of(R"({"code": 4, "width": 300, "length": 3000, "price_per_kg": 300},
                       {"code": 4, "width": 450, "length": 6000, "price_per_kg": 290})");
    plan_ = {};
    add(plan_, "S1", 4, rectangle(260, 155), 31);
    add(plan_, "S2", 4, rectangle(305, 230), 25);
    add(plan_, "S3", 4, rectangle(400, 160), 19);
    add(plan_, "S4", 4, rectangle(170, 165), 40);
    cut(plan_, yard_);
  }
  job::CutRoll& roll_with(std::size_t pieces) {
    for (job::CutRoll& roll : plan_.cutting->rolls) {
      if (roll.pieces.size() >= pieces) return roll;
    }
    ADD_FAILURE();
    return plan_.cutting->rolls.front();
  }

  job::Yard yard_;
  job::Plan plan_;
};

TEST_F(Broken, two_pieces_overlap) {
  job::CutRoll& roll = roll_with(2);
  roll.pieces[1].x = roll.pieces[0].x + Length::mm(5);
  roll.pieces[1].y = roll.pieces[0].y;
  EXPECT_TRUE(caught("overlap"));
}

TEST_F(Broken, a_piece_lies_off_its_part) {
  job::CutRoll& roll = roll_with(1);
  roll.pieces[0].y = roll.pieces[0].y + Length::mm(2);
  EXPECT_TRUE(caught("outside"));
}

TEST_F(Broken, teeth_that_bite) {
  for (job::CutRoll& roll : plan_.cutting->rolls) {
    for (job::CutPiece& piece : roll.pieces) {
      if (!piece.reversed) continue;
      piece.reversed = false;
      EXPECT_TRUE(caught("overlap"));
      return;
    }
  }
  FAIL() << "no pair was cut";
}

TEST_F(Broken, one_is_missing) {
  roll_with(1).pieces.pop_back();
  EXPECT_TRUE(caught("missing"));
}

TEST_F(Broken, a_cut_is_at_another_place) {
  job::CutStep& step = roll_with(2).cuts.front();
  step.at.front() = step.at.front() - Length::mm(3);
  EXPECT_TRUE(caught("outside") || caught("cut"));
}

// Four pieces round a middle, each end against the next one's side: they lie side by side and no cut goes
// through.
TEST_F(Broken, a_windmill_that_no_straight_cut_parts) {
  plan_ = {};
  add(plan_, "W1", 4, rectangle(200, 100), 4);
  cut(plan_, yard_);
  job::Cutting& cutting = *plan_.cutting;
  ASSERT_EQ(cutting.rolls.size(), 1U);
  job::CutRoll& roll = cutting.rolls.front();
  roll.left.clear();
  const auto at = [](double x, double y, bool turned) {
    return job::CutPiece{"W1", Length::mm(x), Length::mm(y), turned, false};
  };
  roll.pieces = {at(0, 0, false), at(200, 0, true), at(100, 200, false), at(0, 100, true)};
  // Whatever steps are said to yield them: across at 300, then all four from the square that comes off.
  roll.cuts = {{"roll", job::CutWay::across, {Length::mm(300)}, {"a", ""}, 1},
               {"a", job::CutWay::along, {Length::mm(100), Length::mm(200)}, {"W1", "b", "W1"}, 2},
               {"b", job::CutWay::across, {Length::mm(100), Length::mm(200)}, {"W1", "", "W1"}, 2}};
  EXPECT_TRUE(caught("outside"));
  EXPECT_FALSE(caught("overlap"));
}

// A cut that stops half way: the step names a part that no cut has made.
TEST_F(Broken, a_cut_of_what_is_no_part) {
  roll_with(2).cuts.back().part = "nothing";
  EXPECT_TRUE(caught("cut"));
}

// The knife takes its kerf between two parts, which the list left out.
TEST_F(Broken, a_kerf_that_was_forgotten) {
  yard_.kerf = Length::mm(2);
  EXPECT_TRUE(caught("outside") || caught("cut"));
}

TEST_F(Broken, what_is_kept_is_not_there) {
  yard_ = yard_of(R"({"code": 4, "width": 300, "length": 3000, "price_per_kg": 300})",
                  R"(, "scrap_per_kg": 100, "keep_from": [500, 150]})");
  plan_ = {};
  add(plan_, "S1", 4, rectangle(200, 175), 4);
  cut(plan_, yard_);
  for (job::CutRoll& roll : plan_.cutting->rolls) {
    for (job::CutLeft& left : roll.left) {
      if (!left.keep) continue;
      left.x = left.x - Length::mm(20);
      EXPECT_TRUE(caught("cut"));
      return;
    }
  }
  FAIL() << "nothing was kept";
}

// The same mark twice in the certificate, a price below nothing, a scale of nothing: no proof.
TEST_F(Broken, a_certificate_that_is_none) {
  misfits();
  job::CutCode& code = plan_.cutting->codes.front();
  const job::CutCode before = code;
  code.searched = 0;
  ASSERT_GT(code.strips, code.any + 1);
  code.proof.prices.front().price = -1;
  EXPECT_TRUE(caught("bound"));
  code = before;
  code.searched = 0;
  code.proof.scale = 0;
  EXPECT_TRUE(caught("bound"));
  code = before;
  code.searched = 0;
  code.proof.prices.clear();
  EXPECT_TRUE(caught("bound"));
  code = before;
  code.searched = 0;
  code.proof.prices.push_back(code.proof.prices.front());
  EXPECT_TRUE(caught("bound"));
}

TEST_F(Broken, a_cut_is_left_out) {
  roll_with(2).cuts.pop_back();
  EXPECT_TRUE(caught("outside") || caught("missing"));
}

TEST_F(Broken, marks_run_backwards) {
  for (job::CutRoll& roll : plan_.cutting->rolls) {
    for (job::CutStep& step : roll.cuts) {
      if (step.at.size() < 2) continue;
      std::swap(step.at[0], step.at[1]);
      EXPECT_TRUE(caught("cut"));
      return;
    }
  }
  FAIL() << "no step has two marks";
}

TEST_F(Broken, a_false_bound) {
  misfits();
  job::CutCode& code = plan_.cutting->codes.front();
  const job::CutCode before = code;
  code.strips += 10;
  code.searched = 0;
  EXPECT_TRUE(caught("bound"));
  code = before;
  // Other prices than those that prove it: half of one, ten times another.
  code.searched = 0;
  code.strips = before.strips;
  code.proof.prices.front().price /= 2;
  EXPECT_TRUE(caught("bound"));
  code = before;
  code.searched = 0;
  code.proof.prices.back().price *= 10;
  EXPECT_TRUE(caught("bound"));
  code = before;
  code.any = code.cost + 1;
  EXPECT_TRUE(caught("bound"));
  code = before;
  ASSERT_GT(code.straight, code.any + 1);
  const double gap = plan_.cutting->gap_straight;
  for (const double more : {0.5, 2.0}) {  // and its share told to match
    code.straight = before.straight + more;
    plan_.cutting->gap_straight = plan_.cutting->cost / code.straight - 1;
    EXPECT_TRUE(caught("bound")) << more;
  }
  plan_.cutting->gap_straight = gap;
  code = before;
  code.proof.straight_prices.front().price /= 2;
  EXPECT_TRUE(caught("bound"));
  code = before;
  code.proof.boxes.front().length =
      code.proof.boxes.front().length + Length::mm(1);  // a piece said to be larger
  EXPECT_TRUE(caught("bound"));
  code = before;
  plan_.cutting->gap_strips -= 0.01;
  EXPECT_TRUE(caught("bound"));
}

TEST_F(Broken, an_exhaustive_search_that_was_none) {
  job::CutCode& code = plan_.cutting->codes.front();
  code.searched = code.cost + 100;
  EXPECT_TRUE(caught("bound"));
}

TEST_F(Broken, sums_and_stock) {
  job::Cutting& cutting = *plan_.cutting;
  const job::Cutting before = cutting;
  cutting.price += 1;
  EXPECT_TRUE(caught("sum"));
  cutting = before;
  cutting.cost -= 1;
  EXPECT_TRUE(caught("sum"));
  cutting = before;
  cutting.scrap = cutting.scrap + Mass::kg(0.01);
  EXPECT_TRUE(caught("sum"));
  cutting = before;
  cutting.rolls.front().width = Length::mm(310);
  EXPECT_TRUE(caught("stock"));
  cutting = before;
  cutting.rolls.front().count += 1;
  EXPECT_TRUE(caught("missing"));
  cutting = before;
  bool offcut = false;
  for (job::CutRoll& roll : cutting.rolls) {
    if (!roll.offcut) continue;
    roll.count = 2;
    offcut = true;
  }
  EXPECT_TRUE(!offcut || caught("stock"));
}

}  // namespace
}  // namespace lapwright::cutting

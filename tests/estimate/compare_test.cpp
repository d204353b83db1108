// Two versions of a job: what differs is listed, all of it, and nothing else.
#include "planned.h"
#include "priced.h"

#include <lapwright/engine/engine.h>
#include <lapwright/job/difference.h>

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace lapwright {
namespace {

using job::Difference;
using sample::changed;
using sample::file_bytes;
using sample::priced;

std::size_t count(const std::vector<Difference>& all, std::string_view what) {
  return static_cast<std::size_t>(
      std::count_if(all.begin(), all.end(), [&](const Difference& one) { return one.what == what; }));
}

TEST(Compare, APlanDiffersNotFromItself) {
  for (const std::string file : {"data/demo/hollin-barn.json", "tests/jobs/cases/all-together.json"}) {
    const auto a = priced(file_bytes(file), file_bytes(sample::kDemoYard));
    ASSERT_TRUE(a);
    EXPECT_TRUE(job::differences(a->plan, a->plan).empty()) << file;
  }
}

// Counted another way: everything of the plan as text, by place.
std::multiset<std::string> pieces_as_text(const job::Plan& plan) {
  std::multiset<std::string> out;
  for (const job::Piece& piece : plan.pieces) {
    out.insert(piece.slope + "|" + piece.junction + "|" + piece.face + "|" + piece.kind + "|" +
               std::to_string(piece.count) + "|" + std::to_string(piece.length.in_mm()) + "|" +
               std::to_string(piece.width.in_mm()));
  }
  return out;
}

// The covering is changed on a saved job, plain tiles to slates: every piece, course and figure that changed
// is told.
TEST(Compare, TheCoveringIsChanged) {
  const std::string job = file_bytes(sample::kDemo);
  const std::string tiles =
      R"("kind": "plain-tile", "length": 265, "width": 165, "thickness": [12, 1], "camber": [3, 2],
        "max_gauge": 100, "made": "machine")";
  const auto a = priced(job, file_bytes(sample::kDemoYard));
  const auto b =
      priced(changed(job, tiles, R"("kind": "slate", "length": 500, "width": 250, "thickness": 6)"),
             file_bytes(sample::kDemoYard));
  ASSERT_TRUE(a);
  ASSERT_TRUE(b);
  const std::vector<Difference> all = job::differences(a->plan, b->plan);
  const auto has = [&](std::string_view what, std::string_view name) {
    return std::any_of(all.begin(), all.end(), [&](const Difference& one) {
      return one.what == what && one.name == name && one.a != one.b;
    });
  };
  EXPECT_TRUE(has("set-out", "gauge"));
  EXPECT_TRUE(has("set-out", "courses"));
  EXPECT_TRUE(has("piece", "length"));
  EXPECT_TRUE(has("piece", "count"));
  EXPECT_TRUE(has("quantity", "quantity"));
  EXPECT_TRUE(has("price", "sum"));
  // Of two sorted lists of tails, all but the shared first differ.
  const std::size_t longer = std::max(a->plan.set_out[0].tails.size(), b->plan.set_out[0].tails.size());
  EXPECT_EQ(count(all, "course"), longer - 1);
  // Every piece that is not there in the other plan, in the same size and number, is told of at its place.
  std::multiset<std::string> left = pieces_as_text(a->plan);
  const std::multiset<std::string> right = pieces_as_text(b->plan);
  std::size_t changed_pieces = 0;
  for (const job::Plan* plan : {&a->plan, &b->plan}) {
    const std::multiset<std::string>& others = plan == &a->plan ? right : left;
    job::Plan one_piece;
    for (const job::Piece& piece : plan->pieces) {
      one_piece.pieces = {piece};
      if (others.contains(*pieces_as_text(one_piece).begin())) continue;
      ++changed_pieces;
      const std::string place = piece.slope + " / " + piece.junction;
      EXPECT_TRUE(std::any_of(all.begin(), all.end(), [&](const Difference& one) {
        return one.what == "piece" && one.where.starts_with(place) &&
               one.where.find(piece.kind) != std::string::npos;
      })) << piece.mark;
    }
  }
  EXPECT_GT(changed_pieces, 4U);
  // The other way round it is the same list, with its sides changed.
  const std::vector<Difference> back = job::differences(b->plan, a->plan);
  std::multiset<std::string> there;
  std::multiset<std::string> here;
  for (const Difference& one : all) there.insert(one.what + one.where + one.name + "|" + one.a + "|" + one.b);
  for (const Difference& one : back) here.insert(one.what + one.where + one.name + "|" + one.b + "|" + one.a);
  EXPECT_EQ(there, here);
}

// One headlap more, and what hangs on it: nothing of the walls' masonry changes.
TEST(Compare, OneFigureChanged) {
  const std::string job = file_bytes(sample::kDemo);
  const std::string yard = file_bytes(sample::kDemoYard);
  const auto a = priced(job, yard);
  const auto b =
      priced(changed(job, R"("slopes": [)", R"("practice": {"waste.units": 0.1}, "slopes": [)"), yard);
  ASSERT_TRUE(a);
  ASSERT_TRUE(b);
  for (const Difference& one : job::differences(a->plan, b->plan)) {
    const bool about_units = one.where.find("covering.") != std::string::npos;
    const bool sum = one.what == "price";
    EXPECT_TRUE(about_units || sum) << one.what << ", " << one.where << ", " << one.name;
  }
}

// Table, paper and list tell of the same differences.
TEST(Compare, OnPaperAndAsAList) {
  const std::string a = file_bytes(sample::kDemo);
  const std::string b = changed(a, R"("pitch": 40)", R"("pitch": 45)");
  const std::string yard = file_bytes(sample::kDemoYard);
  engine::Request left;
  left.job = a;
  left.yard = yard;
  left.documents = true;
  engine::Request right = left;
  right.job = b;
  right.documents = false;
  const engine::Outcome out = engine::compare(left, right);
  ASSERT_EQ(out.status, engine::Status::done) << (out.faults.empty() ? "" : out.faults.front());
  ASSERT_EQ(out.documents.size(), 2U);
  EXPECT_EQ(out.documents[0].name, "compare.pdf");
  EXPECT_EQ(out.documents[1].name, "compare.csv");
  const std::string& csv = out.documents[1].bytes;
  const auto rows = std::count(csv.begin(), csv.end(), '\n') - 1;
  EXPECT_GT(rows, 20);
  EXPECT_NE(out.text.find(std::to_string(rows) + " differences"), std::string::npos);
  // In words, not by the names that files use.
  EXPECT_NE(out.text.find("Work: step flashing"), std::string::npos);
  EXPECT_NE(out.text.find("width needed"), std::string::npos);
  EXPECT_EQ(out.text.find("labour.step"), std::string::npos);
  // A side that cannot be read is named.
  right.job = "{";
  const engine::Outcome bad = engine::compare(left, right);
  EXPECT_EQ(bad.status, engine::Status::unreadable);
  ASSERT_EQ(bad.faults.size(), 1U);
  EXPECT_TRUE(bad.faults.front().starts_with("B: ")) << bad.faults.front();
}

}  // namespace
}  // namespace lapwright

// Every paper of a job can be printed and read: nothing lies on anything, nothing is smaller than 11 pt, and
// each page says which job, which page of how many and which plan it belongs to.
#include "../sheets/support.h"

#include "planned.h"
#include "priced.h"

#include <lapwright/engine/engine.h>

#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

namespace lapwright {
namespace {

using sample::file_bytes;
using sheets::Paper;
using sheets::PaperSize;

const std::vector<Paper> kAll(sheets::kPapers.begin(), sheets::kPapers.end());

std::vector<std::string> texts_of(const draw::Page& page) {
  std::vector<std::string> out;
  for (const draw::Plain& thing : draw::expand(page.drawing)) {
    const auto* text = std::get_if<draw::PlainText>(&thing);
    if (text != nullptr) out.push_back(text->text);
  }
  return out;
}

void expect_readable(const draw::Document& document, const engine::Planned& planned,
                     const std::string& where) {
  EXPECT_EQ(sheets::test::troubles(document), "") << where;
  for (std::size_t i = 0; i < document.pages.size(); ++i) {
    const draw::Page& page = document.pages[i];
    const std::string at = where + ", page " + std::to_string(i + 1) + ", " + page.title;
    EXPECT_TRUE(sheets::test::on_paper(page)) << at;
    const std::vector<std::string> texts = texts_of(page);
    const auto says = [&](const std::string& words) {
      return std::any_of(texts.begin(), texts.end(),
                         [&](const std::string& text) { return text.find(words) != std::string::npos; });
    };
    EXPECT_TRUE(says("page " + std::to_string(i + 1) + " of " + std::to_string(document.pages.size()))) << at;
    EXPECT_TRUE(says(planned.plan.fingerprint)) << at;
    EXPECT_TRUE(planned.plan.title.size() > 60 || says(planned.plan.title)) << at;
    EXPECT_FALSE(says("«")) << at;
    for (const draw::Plain& thing : draw::expand(page.drawing)) {
      const auto* text = std::get_if<draw::PlainText>(&thing);
      if (text == nullptr || text->at.y < 30) continue;  // the bars stand in the foot
      EXPECT_GE(text->size, draw::pt(11) - 1e-9) << at << ": " << text->text;
    }
  }
}

void expect_papers(const engine::Planned& planned, const std::string& where) {
  const sheets::Sources sources = sheets::test::sources_of(planned);
  std::size_t single = 0;
  for (const Paper paper : kAll) {
    const draw::Document document = sheets::papers(sources, {paper});
    single += document.pages.size();
    const std::string at = where + ", " + std::string(name_of(paper));
    expect_readable(document, planned, at);
    for (const draw::Page& page : document.pages) EXPECT_EQ(page.width, 210) << at;
  }
  const draw::Document all = sheets::papers(sources, kAll);
  EXPECT_EQ(all.pages.size(), single) << where;
  expect_readable(all, planned, where + ", all");
  const draw::Document wide = sheets::papers(sources, kAll, PaperSize::a3);
  EXPECT_LT(wide.pages.size(), all.pages.size()) << where;
  EXPECT_GE(2 * wide.pages.size(), all.pages.size()) << where;
  for (const draw::Page& page : wide.pages) EXPECT_EQ(page.width, 420) << where;
  expect_readable(wide, planned, where + ", A3");
}

TEST(Papers, CanBePrintedAndRead) {
  const std::string yard = file_bytes(sample::kDemoYard);
  for (const std::string file :
       {"data/demo/hollin-barn.json", "tests/jobs/cases/all-together.json", "tests/jobs/good/inches.json",
        "tests/jobs/cases/a07-step-and-cover.json", "tests/jobs/cases/a05-flat-tile-at-10.json"}) {
    const auto with = sample::priced(file_bytes(file), yard);
    ASSERT_TRUE(with) << file << ": " << to_line(with.error().front());
    expect_papers(*with, file);
  }
  const auto without = sample::priced(file_bytes(sample::kDemo), "");
  ASSERT_TRUE(without);
  expect_papers(*without, "without a yard");
  EXPECT_TRUE(sheets::papers(sheets::test::sources_of(*without), {Paper::quote, Paper::price}).pages.empty());
}

// What is crossed out is on no paper that somebody buys, cuts, fits or pays by.
TEST(Papers, NothingIsOrderedForWhatIsWrong) {
  const auto planned =
      sample::priced(file_bytes("tests/jobs/cases/a07-step-and-cover.json"), file_bytes(sample::kDemoYard));
  ASSERT_TRUE(planned);
  ASSERT_FALSE(planned->plan.pieces.empty());
  const sheets::Sources sources = sheets::test::sources_of(*planned);
  for (const Paper paper : {Paper::order, Paper::cutting, Paper::fitting, Paper::quote, Paper::price}) {
    for (const draw::Page& page : sheets::papers(sources, {paper}).pages) {
      for (const std::string& text : texts_of(page)) {
        EXPECT_EQ(text.find("step and cover flashing,"), std::string::npos) << name_of(paper) << ": " << text;
        EXPECT_EQ(text.find("kg, lead code"), std::string::npos) << name_of(paper) << ": " << text;
        for (const job::Piece& piece : planned->plan.pieces) EXPECT_NE(text, piece.mark) << name_of(paper);
      }
    }
  }
}

// What several slopes need alike is one line to the merchant, and no quantity is lost.
TEST(Papers, TheOrderAddsUpSlopes) {
  const auto planned =
      sample::priced(file_bytes("tests/jobs/cases/all-together.json"), file_bytes(sample::kDemoYard));
  ASSERT_TRUE(planned);
  double tiles = 0;
  for (const job::EstimateLine& line : planned->plan.estimate.lines) {
    if (line.item == "covering.unit") tiles += line.quantity;
  }
  std::size_t lines = 0;
  bool found = false;
  for (const draw::Page& page : sheets::papers(sheets::test::sources_of(*planned), {Paper::order}).pages) {
    for (const std::string& text : texts_of(page)) {
      if (text.starts_with("Plain tiles 265")) ++lines;
      found = found || text == std::to_string(static_cast<std::int64_t>(tiles));
    }
  }
  EXPECT_EQ(lines, 1U);
  EXPECT_TRUE(found) << tiles;
}

// The form to measure by, empty: boxes, and nothing that was measured elsewhere.
TEST(Papers, TheEmptyForm) {
  const engine::Outcome form = engine::form("");
  ASSERT_EQ(form.documents.size(), 1U);
  EXPECT_EQ(form.documents[0].name, "survey.pdf");
  const auto planned = engine::plan_job(file_bytes(sample::kDemo));
  ASSERT_TRUE(planned);
  const job::Survey survey;
  const job::Plan plan;
  const draw::Document blank = sheets::blank_form({survey, plan, planned->pack, planned->catalogue});
  EXPECT_EQ(blank.pages.size(), 4U);
  EXPECT_EQ(sheets::test::troubles(blank), "");
  for (const draw::Page& page : blank.pages) {
    EXPECT_TRUE(sheets::test::on_paper(page)) << page.title;
    for (const std::string& text : texts_of(page)) EXPECT_EQ(text.find(" mm ±"), std::string::npos) << text;
  }
}

// Only what was asked for is written, and a word that is none is refused by name.
TEST(Papers, OnlyThese) {
  const std::string job = file_bytes(sample::kDemo);
  const std::string yard = file_bytes(sample::kDemoYard);
  engine::Request request;
  request.job = job;
  request.yard = yard;
  request.documents = true;
  request.only = "order,quote";
  std::set<std::string> names;
  for (const engine::Document& document : engine::plan(request).documents) names.insert(document.name);
  EXPECT_EQ(names, (std::set<std::string>{"order.pdf", "order.csv", "quote.pdf", "papers.pdf"}));
  request.only = "order,invoice";
  const engine::Outcome unknown = engine::plan(request);
  EXPECT_EQ(unknown.status, engine::Status::unreadable);
  ASSERT_EQ(unknown.faults.size(), 1U);
  EXPECT_NE(unknown.faults[0].find("invoice"), std::string::npos);
  request.only = "quote";
  request.yard = "";
  EXPECT_EQ(engine::plan(request).status, engine::Status::unreadable);  // nothing to quote by
  request.only = "order";
  request.paper = "A5";
  EXPECT_EQ(engine::plan(request).status, engine::Status::unreadable);
}

// An old sheet on site is known for old: a change of the job, the yard or a rule changes the fingerprint.
TEST(Papers, AChangeChangesTheFingerprint) {
  const std::string job = file_bytes(sample::kDemo);
  const std::string yard = file_bytes(sample::kDemoYard);
  std::set<std::string> seen;
  for (const auto& [j, y] : std::vector<std::pair<std::string, std::string>>{
           {job, yard},
           {sample::changed(job, "3600", "3601"), yard},
           {job, sample::changed(yard, "\"price\": 35,", "\"price\": 36,")},
           {sample::changed(job, R"("slopes": [)", R"("practice": {"soaker.set_back": 4}, "slopes": [)"),
            yard},
           {job, ""}}) {
    const auto planned = engine::plan_job(j, y);
    ASSERT_TRUE(planned);
    seen.insert(planned->plan.fingerprint);
  }
  EXPECT_EQ(seen.size(), 5U);
}

}  // namespace
}  // namespace lapwright

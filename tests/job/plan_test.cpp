// write_plan and the schemas, against files that ajv judges too (the test `schema`).
#include "support.h"

#include <lapwright/job/write_plan.h>

#include <gtest/gtest.h>

namespace {
using namespace lapwright;
using namespace lapwright::job;
using namespace lapwright::job::test;

Length mm(double v) {
  return Length::mm(v);
}

// Every member of every struct is set somewhere, so that the golden shows each key.
Plan sample() {
  Plan plan;
  plan.title = "Every key \"½\" \\ tab\tend";
  plan.engine = "0.1.0";
  plan.fingerprint = "00f1";
  plan.practice = {"uk-common 1", {{"soaker.upstand", 80, 75, "mm"}}, {{"lead.longest", 1500, "mm"}}};

  SetOut set_out;
  set_out.slope = "rear";
  set_out.gauge = mm(1000.0 / 3);
  set_out.headlap = mm(65);
  set_out.courses = 2;
  set_out.tails = {mm(0), mm(1000.0 / 3)};
  set_out.lengths = {mm(500), mm(450)};
  set_out.length_from_course = {0, 1};
  set_out.battens = {{mm(200), -1}, {mm(433.3), 0}};
  set_out.figures = {{"gauge",
                      1000.0 / 3,
                      "mm",
                      "r / n",
                      {{"r", 1000, "mm", "survey"}, {"n", 3, "", "set-out"}},
                      "",
                      "geometry",
                      Standing::geometry}};
  set_out.headlaps = {{65, "table A", Standing::standard, true}, {75, "table B", Standing::guide, false}};
  plan.set_out.push_back(set_out);

  Piece soaker;
  soaker.mark = "A1";
  soaker.kind = "soaker";
  soaker.slope = "rear";
  soaker.junction = "house wall";
  soaker.count = 1;
  soaker.code = 3;
  soaker.length = mm(190);
  soaker.width = mm(175);
  soaker.net.outline = {{0, 0}, {175'000, 0}, {175'000, 190'000}, {0, 190'000}};
  soaker.net.holes = {{{10'000, 10'000}, {10'000, 12'000}, {12'000, 12'000}}};
  soaker.net.folds = {{{75'000, 0}, {75'000, 190'000}, Angle::degrees(90), true}};
  soaker.net.cuts = {{{0, 95'000}, {75'000, 95'500}}};
  soaker.area = Area::mm2(33'248);
  soaker.mass = Mass::kg(0.4977);
  soaker.figures = {{"length",
                     190,
                     "mm",
                     "L - G + a",
                     {{"L", 265, "mm", "survey"}},
                     "soaker.head_allowance",
                     "guide",
                     Standing::guide}};
  soaker.placements = {{3, {{0.5, 333.3333, -0.0}, {0.6, 0.8, 0}, {-0.8, 0.6, 0}}}};
  plan.pieces.push_back(soaker);
  Piece gutter;
  gutter.mark = "B1";
  gutter.kind = "back-gutter";
  gutter.slope = "rear";
  gutter.count = 2;
  gutter.metal = "zinc";
  gutter.thickness = mm(0.8);
  gutter.net.outline = {{0, 0}, {1, 0}, {0, 1}};
  gutter.placements = {{1, {}}, {2, {}}};
  plan.pieces.push_back(gutter);

  Row row;
  row.slope = "rear";
  row.course = -1;
  row.length = mm(165);
  row.widths = {{mm(82.5), 1}, {mm(165), 30}};
  row.gap = mm(3);
  row.nail_up = mm(250);
  row.nail_in = mm(30);
  row.nails_left_out = {{0, Hand::left}, {1, Hand::right}};
  plan.rows.push_back(row);
  Row bare;
  bare.slope = "rear";
  bare.nailed = false;
  plan.rows.push_back(bare);

  Cutting cutting;
  cutting.currency = "GBP";
  cutting.invented_yard = true;
  CutRoll roll;
  roll.name = "R1";
  roll.code = 3;
  roll.width = mm(300);
  roll.length = mm(3000);
  roll.offcut = true;
  roll.price = 4041;
  roll.mass = Mass::kg(13.473);
  roll.pieces = {{"A1", mm(0), mm(0), true, true}};
  roll.cuts = {{"roll", CutWay::across, {mm(190)}, {"A1", ""}, 1}};
  roll.left = {{mm(190), mm(0), mm(2810), mm(300), true}};
  cutting.rolls = {roll};
  CutCode code;
  code.code = 3;
  code.cost = 4041;
  code.searched = 4041;
  code.best_strips = true;
  code.proof = {1024, {{"A1", 77}}, {{mm(175), mm(190), {"A1"}}}, mm(5), 512, {{"A1", 66}}};
  cutting.codes = {code};
  cutting.refused = {{"B1", 2, "too-large"}};
  cutting.hand = {4041, Mass::kg(13.473)};
  plan.cutting = cutting;

  plan.findings = {{Level::wrong,
                    "lap.short",
                    {{"lap", 60.0, "mm"}, {"n", 2.0, ""}, {"word", std::string("rear"), ""}},
                    "Lap 60 mm.",
                    60,
                    75,
                    "guide",
                    "rear / house wall / course 3"},
                   {Level::note, "exposure.assumed", {}, "Moderate.", {}, {}, "", ""}};
  plan.order_of_work = {{"rear", "house wall", 0, "work.soaker", "A1", {{"count", 1.0, ""}}, "Fit A1."},
                        {"", "", -2, "work.done", "", {}, "Clear up."}};
  EstimateLine line;
  line.group = "covering";
  line.item = "covering.unit";
  line.slope = "rear";
  line.params = {{"length", 265.0, "mm"}, {"whole", 1000.0, ""}};
  line.text = "Units";
  line.quantity = 1050;
  line.figure.name = "covering.unit";
  line.figure.value = 1050;
  line.figure.formula = "ceil(n * (1 + w))";
  line.figure.terms = {{"n", 1000, "", "rows"}, {"w", 0.05, "", "rule waste.units"}};
  line.figure.rule = "waste.units";
  line.figure.source = "common practice, no source";
  line.figure.standing = Standing::practice;
  plan.estimate.lines.push_back(line);
  plan.estimate.battens.push_back({"rear", {mm(3200), mm(2000)}, 9});
  return plan;
}

TEST(WritePlan, sample_is_the_golden) {
  EXPECT_TRUE(same_as_golden("tests/job/golden/plan.json", write_plan(sample()))) << write_plan(sample());
  EXPECT_TRUE(same_as_golden("tests/job/golden/findings.json", write_findings(sample())));
  EXPECT_EQ(write_plan(sample()), write_plan(sample()));
}

// The document reader is another JSON reader than the writer's own idea of JSON.
TEST(WritePlan, is_json_and_one_line_an_item) {
  const std::string text = write_plan(sample());
  const auto document = read_document(text);
  ASSERT_TRUE(document) << to_line(document.error().front());
  EXPECT_EQ(document->members[0].key, "format");
  EXPECT_EQ(document->members[1].key, "title");
  EXPECT_EQ(document->find("title")->text, sample().title);
  EXPECT_EQ(document->members[2].key, "engine");
  EXPECT_EQ(document->members[3].key, "fingerprint");
  for (const char* key : {"set_out", "pieces", "rows", "findings", "order_of_work"}) {
    std::uint32_t line = document->find(key)->spot.line;
    for (const Document& item : document->find(key)->items) EXPECT_EQ(item.spot.line, ++line) << key;
  }
  const Document& piece = document->find("pieces")->items[0];
  EXPECT_EQ(piece.find("course")->number, 3);
  EXPECT_EQ(piece.find("outline")->items[2].items[1].number, 190);
  EXPECT_EQ(piece.find("placements")->items[0].find("origin")->items[1].text, "333.333");
  EXPECT_EQ(piece.find("placements")->items[0].find("origin")->items[2].text, "0");
  const Document& gutter = document->find("pieces")->items[1];
  EXPECT_EQ(gutter.find("course"), nullptr);  // its placements lie in two
  EXPECT_EQ(gutter.find("code"), nullptr);
  EXPECT_EQ(document->find("rows")->items[1].find("nail"), nullptr);
  const Document& figure = *document->find("set_out")->items[0].find("figures")->find("gauge");
  EXPECT_EQ(figure.find("value")->text, "333.333333333");
}

TEST(WritePlan, a_wall_of_a_thousand_courses_stays_below_a_megabyte) {
  Plan plan = sample();
  const Row row = plan.rows[0];
  const WorkStep step = plan.order_of_work[0];
  Piece& soaker = plan.pieces[0];
  for (std::int64_t course = 0; course < 1000; ++course) {
    const double s = 100.123 * static_cast<double>(course);
    plan.rows.push_back(row);
    plan.rows.back().course = course;
    plan.rows.back().tail = mm(s);
    plan.order_of_work.push_back(step);
    soaker.placements.push_back({course, {{0, s, 0}, {0.642787609687, 0.766044443119, 0}, {0, 1, 0}}});
  }
  EXPECT_LT(write_plan(plan).size(), 1'000'000U);
}

TEST(Schema, files_are_what_the_tables_print) {
  EXPECT_TRUE(same_as_golden("schema/job.json", survey_schema())) << "./test job --bless";
  EXPECT_TRUE(same_as_golden("schema/plan.json", plan_schema())) << "./test job --bless";
  EXPECT_TRUE(read_document(survey_schema()));
  EXPECT_TRUE(read_document(plan_schema()));
}
}  // namespace

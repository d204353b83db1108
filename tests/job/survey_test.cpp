// read_survey: what arrives in the structs, and the exact words of its faults.
#include "support.h"

#include <lapwright/job/plan.h>

#include <gtest/gtest.h>

#include <algorithm>

namespace {
using namespace lapwright;
using namespace lapwright::job;
using namespace lapwright::job::test;

Survey survey_of(std::string_view bytes) {
  auto survey = read_survey(bytes);
  EXPECT_TRUE(survey) << (survey ? "" : to_line(survey.error().front()));
  return survey ? *survey : Survey{};
}

// The least job around some text of a slope, or of a junction.
std::string job_with(const std::string& slope, const std::string& covering_more = "") {
  return R"({"format": "lapwright-job/1", "slopes": [{"pitch": 40, "rafter": 3600, "width": 5200,
"covering": {"kind": "plain-tile", "length": 265, "width": 165, "thickness": 12)" +
         covering_more + "}" + slope + "}]}";
}
std::string junction_job(const std::string& junction) {
  return job_with(",\n\"junctions\": [" + junction + "]");
}

TEST(ReadSurvey, example_of_the_contract) {
  const Survey job = survey_of(bytes_of("tests/jobs/good/barn.json"));
  EXPECT_EQ(job.title, "Hollin Barn, rear addition");
  EXPECT_EQ(job.exposure, Exposure::moderate);
  EXPECT_TRUE(job.exposure_given);
  EXPECT_EQ(job.shown_in, ShownIn::mm);
  ASSERT_EQ(job.practice.size(), 1U);
  EXPECT_EQ(job.practice[0].rule, "soaker.head_allowance");
  EXPECT_EQ(job.practice[0].number, 25);
  EXPECT_TRUE(job.practice[0].is_bare);
  EXPECT_EQ(job.practice[0].spot.line, 3U);
  const Slope& slope = job.slopes.at(0);
  EXPECT_EQ(slope.pitch.value.in_degrees(), 40);
  EXPECT_EQ(slope.rafter.value.in_mm(), 3600);
  EXPECT_EQ(slope.width.value.in_mm(), 5200);
  EXPECT_EQ(slope.faces->in_degrees(), 180);
  EXPECT_EQ(slope.covering.kind, CoveringKind::plain_tile);
  EXPECT_EQ(slope.covering.length.value.in_mm(), 265);
  EXPECT_EQ(slope.covering.max_gauge->in_mm(), 100);
  const Junction& wall = slope.junctions.at(0);
  EXPECT_EQ(wall.kind, JunctionKind::side);
  EXPECT_EQ(wall.hand, Hand::left);
  EXPECT_EQ(wall.to->in_mm(), 3600);
  EXPECT_EQ(wall.wall.first_joint->value.in_mm(), 30);
  EXPECT_EQ(wall.path, "$.slopes[0].junctions[0]");
  EXPECT_EQ(wall.spot.line, 8U);
  const Junction& stack = slope.junctions.at(1);
  EXPECT_EQ(stack.kind, JunctionKind::stack);
  EXPECT_EQ(stack.at->in_mm(), 2600);
  EXPECT_EQ(stack.front->in_mm(), 1500);
  EXPECT_EQ(stack.width->in_mm(), 665);
  EXPECT_EQ(stack.depth->in_mm(), 440);
  EXPECT_FALSE(stack.wall.first_joint);
}

TEST(ReadSurvey, every_key_arrives) {
  const Survey job = survey_of(bytes_of("tests/jobs/good/every_key.json"));
  EXPECT_EQ(*job.date, "2024-05-31");
  EXPECT_EQ(job.shown_in, ShownIn::inches);
  EXPECT_FALSE(job.unit_is_inches);
  EXPECT_EQ(job.exposure, Exposure::very_severe);
  EXPECT_EQ(job.practice[0].number, 25.4);
  EXPECT_TRUE(job.practice[0].is_length_text);
  EXPECT_FALSE(job.practice[0].is_bare);
  const Slope& rear = job.slopes.at(0);
  EXPECT_EQ(rear.pitch.spread.in_degrees(), 0.5);
  EXPECT_EQ(rear.rafter.spread.in_mm(), 5);
  EXPECT_EQ(rear.width.value.in_mm(), 5200);
  EXPECT_EQ(rear.overhang->in_mm(), 50);
  const Covering& slate = rear.covering;
  EXPECT_EQ(slate.thickness.spread.in_mm(), 1);
  EXPECT_EQ(slate.camber.most().in_mm(), 12);
  EXPECT_EQ(slate.headlap->in_mm(), 90);
  EXPECT_EQ(slate.joint->in_mm(), 5);
  EXPECT_EQ(slate.hang->in_mm(), 290);
  EXPECT_EQ(slate.nailing, Nailing::head);
  EXPECT_EQ(slate.made, Made::hand);
  EXPECT_EQ(slate.first_unit, FirstUnit::unit_and_half);
  ASSERT_EQ(slate.sets.size(), 2U);
  EXPECT_EQ(*slate.sets[0].courses, 8);
  EXPECT_EQ(slate.sets[0].max_gauge->in_mm(), 200);
  EXPECT_FALSE(slate.sets[1].courses);
  ASSERT_EQ(job.as_built.size(), 3U);
  EXPECT_EQ(job.as_built[0].kind, FoundKind::pierced);
  EXPECT_EQ(job.as_built[0].piece, "soaker");
  EXPECT_EQ(*job.as_built[0].course, 7);
  EXPECT_EQ(job.as_built[0].across->in_mm(), 25.4);
  EXPECT_EQ(job.as_built[0].up->in_mm(), 60);
  EXPECT_EQ(job.as_built[1].kind, FoundKind::lap);
  EXPECT_EQ(job.as_built[1].face, "left side");
  EXPECT_EQ(*job.as_built[1].number, 2);
  EXPECT_EQ(job.as_built[1].by->in_mm(), 40);
  EXPECT_EQ(job.as_built[2].detail, Detail::cover_flashing);
  EXPECT_EQ(job.as_built[2].slope, "rear");  // the only one with such a junction
  ASSERT_EQ(job.leaks.size(), 2U);
  EXPECT_EQ(job.leaks[0].when, "January gale");
  EXPECT_EQ(job.leaks[0].wind_from->in_degrees(), 225);
  EXPECT_EQ(job.leaks[0].rain, Rain::heavy);
  EXPECT_EQ(job.leaks[0].slope, "rear");
  EXPECT_EQ(job.leaks[0].junction, "side 2");
  EXPECT_EQ(job.leaks[1].slope, "front");
  EXPECT_FALSE(job.leaks[1].rain);
  const auto& j = rear.junctions;
  ASSERT_EQ(j.size(), 6U);
  EXPECT_EQ(j[0].from.in_mm(), 304.8);
  EXPECT_EQ(j[0].to->in_mm(), 3517.9);
  EXPECT_EQ(j[0].wall.kind, WallKind::stone);
  EXPECT_EQ(j[0].gaps.at(0).width.spread.in_mm(), 2);
  EXPECT_FALSE(j[0].gaps.at(0).at);
  EXPECT_EQ(j[0].detail, Detail::soakers_and_cover);
  EXPECT_EQ(j[0].head_fixing, HeadFixing::to_the_batten);
  EXPECT_EQ(j[0].soaker_code, 3);
  EXPECT_EQ(j[0].flashing_code, 4);
  EXPECT_EQ(j[0].corners, Corners::welded);
  EXPECT_EQ(j[1].name, "side 2");
  ASSERT_EQ(j[1].wall.joints.size(), 3U);
  EXPECT_EQ(j[1].wall.joints[1].spread.in_mm(), 2);
  EXPECT_EQ(j[1].wall.joints[2].value.in_mm(), 107);
  EXPECT_EQ(j[1].wall.joints_spot.line, 16U);
  EXPECT_EQ(j[1].gaps.at(1).at->in_mm(), 3000);
  EXPECT_TRUE(j[0].clear.empty());
  ASSERT_EQ(j[1].clear.size(), 2U);
  EXPECT_EQ(j[1].clear[0].height.in_mm(), 3000);
  EXPECT_EQ(j[1].clear[1].at.in_mm(), 3600);
  EXPECT_EQ(j[2].kind, JunctionKind::top);
  EXPECT_EQ(j[3].across, "front");
  EXPECT_EQ(j[4].diameter->in_mm(), 110);
  EXPECT_EQ(j[5].line.at(1).u.in_mm(), 2000);
  EXPECT_EQ(j[5].lean->in_degrees(), -5);
  EXPECT_EQ(job.slopes.at(1).covering.roll_depth->in_mm(), 30);
  EXPECT_EQ(job.slopes.at(1).rafter.value.in_mm(), 100'000);
  EXPECT_EQ(job.slopes.at(2).name, "slope 3");
  EXPECT_EQ(job.joins.at(1).kind, JoinKind::valley);
  EXPECT_EQ(job.joins.at(1).slopes.at(1), "slope 3");
  EXPECT_EQ(job.joins.at(1).detail, JoinDetail::open_valley);
  EXPECT_FALSE(job.joins.at(0).detail);
}

TEST(ReadSurvey, a_file_in_inches) {
  const Survey job = survey_of(bytes_of("tests/jobs/good/inches.json"));
  EXPECT_TRUE(job.unit_is_inches);
  EXPECT_EQ(job.shown_in, ShownIn::inches);
  EXPECT_EQ(job.practice[0].number, 3);  // converted by the pack, which knows the rule's unit
  const Slope& slope = job.slopes.at(0);
  EXPECT_EQ(slope.rafter.value.in_mm(), 3810);
  EXPECT_EQ(slope.width.value.in_mm(), 4578.35);
  EXPECT_TRUE(slope.covering.sides_swapped);
  EXPECT_EQ(slope.covering.length.value.in_mm(), 508);
  EXPECT_EQ(slope.covering.width.value.in_mm(), 254);
  EXPECT_EQ(slope.covering.thickness.spread.in_mm(), 1.5875);
  EXPECT_EQ(slope.junctions[0].wall.course->value.in_mm(), 73.025);
  EXPECT_EQ(slope.junctions[0].gaps[0].width.value.in_mm(), 6.35);
}

TEST(ReadSurvey, defaults) {
  const Survey job = survey_of(bytes_of("tests/jobs/good/least.json"));
  EXPECT_FALSE(job.exposure_given);
  EXPECT_EQ(job.slopes.at(0).name, "slope 1");
  EXPECT_TRUE(job.slopes.at(0).junctions.empty());
  const Survey walls = survey_of(junction_job(R"({"kind": "side", "hand": "left", "name": "side 2"},
      {"kind": "side", "hand": "right"})"));
  EXPECT_EQ(walls.slopes[0].junctions[1].name, "side 3");  // "side 2" is taken
  EXPECT_EQ(walls.slopes[0].junctions[1].wall.kind, WallKind::brick);
  EXPECT_EQ(walls.slopes[0].junctions[1].from.in_mm(), 0);
  EXPECT_FALSE(walls.slopes[0].junctions[1].to);
}

TEST(ReadSurvey, words_are_exact) {
  const std::vector<std::pair<std::string, std::string>> cases = {
      {job_with(", \"overhnag\": 50"),
       "$.slopes[0].overhnag (line 2, column 83): unknown-key; read \"overhnag\"; accepted: the keys name, "
       "pitch, "
       "rafter, width, overhang, faces, covering, junctions; mend: did you mean \"overhang\"?"},
      {job_with(", \"zzz\": 50"),
       "$.slopes[0].zzz (line 2, column 83): unknown-key; read \"zzz\"; accepted: the keys name, pitch, "
       "rafter, width, "
       "overhang, faces, covering, junctions; mend: remove it"},
      {junction_job(R"({"kind": "side", "hand": "left", "up": 3})"),
       "$.slopes[0].junctions[0].up (line 3, column 48): contradiction; read \"up\" with kind \"side\"; "
       "accepted: "
       "\"up\" only with kind \"pipe\"; mend: remove \"up\", or change the kind"},
      {job_with("", R"(, "nailing": "head")"),
       "$.slopes[0].covering.nailing (line 2, column 82): contradiction; read \"nailing\" with kind "
       "\"plain-tile\"; "
       "accepted: \"nailing\" only with kind \"slate\"; mend: remove \"nailing\", or change the kind"},
      {junction_job(R"({"kind": "sied", "hand": "left"})"),
       "$.slopes[0].junctions[0].kind (line 3, column 24): bad-choice; read \"sied\"; accepted: \"side\", "
       "\"top\", "
       "\"stack\", \"pipe\" or \"wall\"; mend: did you mean \"side\"?"},
      {junction_job(R"({"kind": "side", "hand": "left", "wall": {"joints": [30, 107, 182, 175]}})"),
       "$.slopes[0].junctions[0].wall.joints[3] (line 3, column 82): contradiction; read joint 3 at 175 mm "
       "after joint "
       "2 at 182 mm; accepted: heights that rise from joint to joint; mend: sort the joints, lowest first, "
       "and remove "
       "doubles"},
      {junction_job(R"({"kind": "side", "hand": "left", "to": "3.7 m"})"),
       "$.slopes[0].junctions[0].to (line 3, column 54): no-geometry; read 3700 mm; accepted: at most the "
       "slope's "
       "rafter, 3600 mm; mend: shorten \"to\", or measure the slope's rafter again"},
      {junction_job(R"({"kind": "side", "hand": "left", "from": 3600})"),
       "$.slopes[0].junctions[0].from (line 3, column 56): no-geometry; read 3600 mm; accepted: less than "
       "the slope's "
       "rafter, 3600 mm; mend: shorten \"from\", or measure the slope's rafter again"},
      {junction_job(R"({"kind": "side", "hand": "left", "from": 2000, "to": 2000})"),
       "$.slopes[0].junctions[0].to (line 3, column 68): contradiction; read from 2000 mm to 2000 mm; "
       "accepted: a "
       "\"to\" that is more than \"from\"; mend: swap the two, or measure them again"},
      {job_with("", R"(, "max_gauge": "100 mn")"),
       "$.slopes[0].covering.max_gauge (line 2, column 95): bad-length; read \"100 mn\"; accepted: a length "
       "such as "
       "\"75 mm\", \"4.2 m\", \"10 1/2 in\" or \"18 ft 6 in\"; mend: \"mn\" is not a unit of length here: "
       "use mm, cm, "
       "m, in or ft"},
      {R"({"format": "lapwright-job/1", "unit": "in", "slopes": [{"pitch": 40, "rafter": 4000, "width": 100,
"covering": {"kind": "plain-tile", "length": 10, "width": 6, "thickness": 0.5}}]})",
       "$.slopes[0].rafter (line 1, column 80): out-of-range; read 4000; accepted: more than 0 in (0 mm) and "
       "at most "
       "3937.008 in (100000 mm); mend: measure it again; bare numbers in this file are inches"},
  };
  for (const auto& [job, line] : cases) {
    const auto lines = fault_lines(job);
    ASSERT_EQ(lines.size(), 1U) << line;
    EXPECT_EQ(lines.front(), line);
  }
}

TEST(ReadSurvey, all_faults_at_once_in_the_files_order) {
  const auto result = read_survey(R"({"format": "lapwright-job/2",
"slopes": [{"pitch": "steep", "rafter": -3, "width": [5200, 6000],
"covering": {"kind": "slate", "length": 500, "width": 250}, "faces": 400}],
"joins": 3, "colour": "red"})");
  ASSERT_FALSE(result);
  std::vector<std::string> paths;
  for (const Fault& fault : result.error()) paths.push_back(fault.path);
  EXPECT_EQ(paths, (std::vector<std::string>{"$.format", "$.slopes[0].pitch", "$.slopes[0].rafter",
                                             "$.slopes[0].width[1]", "$.slopes[0].covering.thickness",
                                             "$.slopes[0].faces", "$.joins", "$.colour"}));
}

TEST(ReadSurvey, fifty_faults_are_shown_and_the_rest_counted) {
  std::string junctions;
  for (int i = 0; i < 60; ++i)
    junctions += std::string(i == 0 ? "" : ",") + "{\"kind\": 3, \"hand\": \"left\"}";
  const auto lines = fault_lines(junction_job(junctions));
  ASSERT_EQ(lines.size(), 51U);
  EXPECT_EQ(lines.back(),
            "$: too-many; read 10 more faults; mend: mend the ones above and read the file again");
  std::string many = "\"a\": 1";
  for (int i = 0; i < 50'000; ++i) many += ", \"k" + std::to_string(i) + "\": 1";
  EXPECT_NE(
      fault_lines("{\"format\": \"lapwright-job/1\", " + many + "}").back().find("read 49952 more faults"),
      std::string::npos);
}

TEST(ReadSurvey, limits_of_lists) {
  const std::string side = R"({"kind":"side","hand":"left"})";
  std::string junctions = side;
  for (int i = 1; i < 10'000; ++i) junctions += "," + side;
  EXPECT_EQ(survey_of(junction_job(junctions)).slopes[0].junctions.back().name, "side 10000");
  EXPECT_EQ(fault_lines(junction_job(junctions + "," + side)).front().substr(0, 23),
            "$.slopes[0].junctions (");
  const std::string one = R"({"pitch": 40, "rafter": 3600, "width": 5200,
"covering": {"kind": "plain-tile", "length": 265, "width": 165, "thickness": 12})";
  const auto two = fault_lines(R"({"format": "lapwright-job/1", "slopes": [)" + one + ", \"junctions\": [" +
                               junctions + "]}," + one + ", \"junctions\": [" + side + "]}]}");
  ASSERT_EQ(two.size(), 1U);
  EXPECT_NE(two[0].find("too-many; read 10001 junctions; accepted: at most 10000 junctions in a job"),
            std::string::npos);
  std::string slopes = one + "}";
  for (int i = 1; i < 201; ++i) slopes += "," + one + "}";
  EXPECT_NE(
      fault_lines(R"({"format": "lapwright-job/1", "slopes": [)" + slopes + "]}").front().find("too-many"),
      std::string::npos);
}

// Names stand for enumerators in the words' own order.
TEST(Names, words_match_the_enumerators) {
  EXPECT_EQ(name_of(Exposure::very_severe), "very-severe");
  EXPECT_EQ(name_of(ShownIn::inches), "in");
  EXPECT_EQ(name_of(CoveringKind::flat_tile), "flat-tile");
  EXPECT_EQ(name_of(JunctionKind::wall), "wall");
  EXPECT_EQ(name_of(HeadFixing::to_the_batten), "batten");
  EXPECT_EQ(name_of(FirstUnit::unit_and_half), "unit-and-half");
  EXPECT_EQ(name_of(Detail::apron), "apron");
  EXPECT_EQ(name_of(Detail::secret_gutter), "secret-gutter");
  EXPECT_EQ(name_of(Corners::welded), "welded");
  EXPECT_EQ(name_of(Standing::measured), "survey");
  EXPECT_EQ(name_of(Level::wrong), "wrong");
}
}  // namespace

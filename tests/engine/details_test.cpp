// Which detail is right where: one answer at every face, the others with their reasons.
#include "planned.h"
#include "planner.h"
#include "planning.h"

#include <lapwright/engine/engine.h>

#include <gtest/gtest.h>

#include <map>
#include <string>
#include <vector>

namespace lapwright {
namespace {

const std::map<std::string, std::string> kCoverings{
    {"plain-tile",
     R"({ "kind": "plain-tile", "length": 265, "width": 165, "thickness": 12, "max_gauge": 100 })"},
    {"slate", R"({ "kind": "slate", "length": 500, "width": 250, "thickness": 6, "nailing": "centre" })"},
    {"profiled-tile",
     R"({ "kind": "profiled-tile", "length": 420, "width": 330, "thickness": 12, "max_gauge": 345, "roll_pitch": 150, "roll_depth": 30 })"},
    {"flat-tile",
     R"({ "kind": "flat-tile", "length": 420, "width": 330, "thickness": 12, "max_gauge": 345 })"}};

std::string job_of(const std::string& covering, const std::string& junction, double pitch = 40,
                   const std::string& exposure = "moderate") {
  return R"({ "format": "lapwright-job/1", "site": { "exposure": ")" + exposure +
         R"(" }, "slopes": [ { "name": "rear", "pitch": )" + std::to_string(pitch) +
         R"(, "rafter": 3600, "width": 5200, "covering": )" + kCoverings.at(covering) +
         R"(, "junctions": [ )" + junction + " ] } ] }";
}

struct FaceChoices {
  std::string right;
  std::size_t rights = 0;
  std::size_t all = 0;
};

std::map<std::string, FaceChoices> choices_of(const std::string& bytes) {
  std::map<std::string, FaceChoices> out;
  const auto planned = sample::plan_job(bytes);
  EXPECT_TRUE(planned) << bytes;
  if (!planned) return out;
  for (const job::Choice& choice : planned->plan.choices) {
    FaceChoices& face = out[choice.face];
    face.all += 1;
    EXPECT_FALSE(choice.text.empty());
    EXPECT_EQ(choice.text.find("«"), std::string::npos) << choice.text;
    EXPECT_FALSE(choice.source.empty());
    if (choice.level != job::Level::note) continue;
    face.rights += 1;
    face.right = choice.detail;
  }
  return out;
}

TEST(Details, exactly_one_is_right_at_every_face) {
  const std::vector<std::string> places{
      R"({ "kind": "side", "hand": "left")",
      R"({ "kind": "side", "hand": "right")",
      R"({ "kind": "top")",
      R"({ "kind": "stack", "at": 2600, "front": 1500, "width": 665, "depth": 440)",
      R"({ "kind": "wall", "line": [[0, 0], [600, 3600]])",
      R"({ "kind": "wall", "line": [[0, 0], [3600, 1200]])",
      R"({ "kind": "wall", "line": [[4000, 0], [4600, 3600]])",
      R"({ "kind": "wall", "line": [[3600, 1200], [0, 0]])",
      R"({ "kind": "wall", "line": [[0, 0], [0, 1500], [800, 1500], [800, 3600]])"};
  std::size_t faces = 0;
  for (const auto& [covering, text] : kCoverings) {
    for (const std::string& place : places) {
      for (const std::string wall : {"brick", "stone", "render"}) {
        for (const double pitch : {27.5, 40.0, 60.0}) {
          const std::string bytes =
              job_of(covering, place + R"(, "wall": { "kind": ")" + wall + R"(" } })", pitch);
          for (const auto& [face, choices] : choices_of(bytes)) {
            EXPECT_EQ(choices.rights, 1U) << face << " of " << bytes;
            EXPECT_EQ(choices.all, static_cast<std::size_t>(LAPWRIGHT_DETAIL_COUNT));
            faces += 1;
          }
        }
      }
    }
    EXPECT_EQ(
        choices_of(job_of(covering, R"({ "kind": "pipe", "at": 1000, "up": 900, "diameter": 110 })"))[""]
            .right,
        "pipe-slate");
  }
  EXPECT_GT(faces, 300U);
}

// Trade rules of "Which detail": the table of coverings against abutments, common practice, no source.
TEST(Details, are_those_of_the_trade) {
  const std::string side = R"({ "kind": "side", "hand": "left" })";
  EXPECT_EQ(choices_of(job_of("plain-tile", side))[""].right, "soakers-and-steps");
  EXPECT_EQ(choices_of(job_of("slate", side))[""].right, "soakers-and-steps");
  EXPECT_EQ(choices_of(job_of("profiled-tile", side))[""].right, "step-and-cover");
  EXPECT_EQ(choices_of(job_of("flat-tile", side))[""].right, "secret-gutter");
  const std::string render = R"({ "kind": "side", "hand": "left", "wall": { "kind": "render" } })";
  EXPECT_EQ(choices_of(job_of("slate", render))[""].right, "soakers-and-cover");
  EXPECT_EQ(choices_of(job_of("profiled-tile", render))[""].right, "cover-flashing");
  auto stack = choices_of(
      job_of("slate", R"({ "kind": "stack", "at": 2600, "front": 1500, "width": 665, "depth": 440 })"));
  EXPECT_EQ(stack["front"].right, "apron");
  EXPECT_EQ(stack["left side"].right, "soakers-and-steps");
  EXPECT_EQ(stack["right side"].right, "soakers-and-steps");
  EXPECT_EQ(stack["back"].right, "back-gutter");
}

// What the person insists on at a stack speaks of the faces where it has a place.
TEST(Details, asked_for_at_a_stack_is_for_the_faces_that_it_fits) {
  const auto planned = sample::plan_job(job_of(
      "plain-tile",
      R"({ "kind": "stack", "at": 2600, "front": 1500, "width": 665, "depth": 440, "detail": "soakers-and-cover" })"));
  ASSERT_TRUE(planned);
  for (const job::Choice& choice : planned->plan.choices) {
    if (!choice.taken) continue;
    const std::map<std::string, std::string> taken{{"front", "apron"},
                                                   {"left side", "soakers-and-cover"},
                                                   {"right side", "soakers-and-cover"},
                                                   {"back", "back-gutter"}};
    EXPECT_EQ(choice.detail, taken.at(choice.face)) << choice.face;
  }
}

// Cover flashing over plain tiles at 30°: 150 on the rafter's pitch, 219 on the tile's; both are named.
// 75/sin of the pitch: lead trade body's manual, as quoted.
TEST(Details, a_cover_over_plain_tiles_says_both_laps_and_what_to_strip) {
  const std::string bytes = job_of(
      "plain-tile", R"({ "kind": "side", "hand": "left", "from": 1000, "detail": "cover-flashing" })", 30);
  const engine::Outcome out = engine::plan({bytes});
  EXPECT_EQ(out.status, engine::Status::wrong);
  EXPECT_NE(out.text.find("150 mm on the rafter's pitch"), std::string::npos) << out.text.substr(0, 3000);
  EXPECT_NE(out.text.find("220 mm on the unit's own"), std::string::npos);
  EXPECT_NE(out.text.find("gets sideways under"), std::string::npos);
  EXPECT_NE(out.text.find("from course 11 to course 36"), std::string::npos);
  EXPECT_NE(out.text.find("soakers and step flashing"), std::string::npos);
}

// Insisted on, it is shown as far as it can be made: its pieces, with their laps, all marked; but nothing of
// it is fitted, cut or counted, and the answer stays wrong.
TEST(Details, what_is_wrong_is_shown_and_never_made) {
  const std::string wall =
      R"({ "name": "wall", "kind": "side", "hand": "left", "wall": { "kind": "brick", "course": 75, "first_joint": 30 })";
  for (const std::string covering : {"plain-tile", "slate", "flat-tile"}) {
    for (const std::string detail : {"cover-flashing", "step-and-cover"}) {
      const std::string bytes = job_of(covering, wall + R"(, "detail": ")" + detail + "\" }", 30);
      const auto planned = sample::plan_job(bytes);
      ASSERT_TRUE(planned);
      ASSERT_FALSE(planned->plan.pieces.empty()) << covering << " " << detail;
      for (const job::Piece& piece : planned->plan.pieces) {
        EXPECT_EQ(piece.kind, detail);
        EXPECT_TRUE(piece.wrong);
        EXPECT_EQ(piece.mark.front(), 'X');
        EXPECT_LE(piece.length, Length::mm(1500));  // NHBC Standards 7.2.20
        // What lies on the slope laps 150 at 30 degrees (lead trade body's manual, as quoted), or a whole
        // number of steps over it.
        if (detail == "cover-flashing") {
          EXPECT_NEAR(sample::figure_value(piece.figures, "lap"), 150, 1e-9);
        }
      }
      EXPECT_TRUE(planned->plan.order_of_work.empty());
      const engine::Outcome out = engine::plan({bytes, true});
      EXPECT_EQ(out.status, engine::Status::wrong);
      EXPECT_NE(out.json.find("\"wrong\":true"), std::string::npos);
      EXPECT_NE(out.text.find("WRONG, not to be made"), std::string::npos);
      EXPECT_NE(out.text.find("lead in place: 0.0 kg"), std::string::npos);
      for (const auto& document : out.documents)
        EXPECT_FALSE(document.name.starts_with("pattern-")) << document.name;
    }
  }
  // Beside a junction that is right, the right one alone is made.
  const auto both = sample::plan_job(job_of(
      "plain-tile",
      wall + R"(, "detail": "cover-flashing" }, { "name": "other", "kind": "side", "hand": "right" })"));
  ASSERT_TRUE(both);
  for (const job::Piece& piece : both->plan.pieces)
    EXPECT_EQ(piece.wrong, piece.junction == "wall") << piece.mark;
  for (const job::WorkStep& step : both->plan.order_of_work) EXPECT_NE(step.junction, "wall") << step.text;
  // What cannot be made at all is not: steps without joints, soakers without courses.
  const auto render = sample::plan_job(job_of(
      "plain-tile",
      R"({ "kind": "side", "hand": "left", "wall": { "kind": "render" }, "detail": "step-and-cover" })"));
  ASSERT_TRUE(render);
  EXPECT_TRUE(render->plan.pieces.empty());
}

}  // namespace
}  // namespace lapwright

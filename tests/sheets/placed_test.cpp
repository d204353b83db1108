// Views drawn from placed shapes: every panel is there, where the plan says, on jobs with a stack and a pipe.
// The lead at the stack's front and back and round the pipe is made here, of nets with what nets can have:
// bossed lines, many small folds, slanted folds, folds of less than a right angle.
#include "support.h"

#include <lapwright/base/trig.h>
#include <lapwright/draw/expand.h>
#include <lapwright/draw/pdf.h>
#include <lapwright/job/face.h>
#include <lapwright/job/join.h>

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace {
using namespace lapwright;
using namespace lapwright::sheets;
using namespace lapwright::sheets::test;
using geom::Vec3;

constexpr double kThick = 12;

geom::GridPoint g(double x, double y) {
  return geom::grid_point(Length::mm(x), Length::mm(y));
}

geom::Net sheet(double width, double height) {
  geom::Net net;
  net.outline = {g(0, 0), g(width, 0), g(width, height), g(0, height)};
  return net;
}

geom::Fold level_fold(double width, double at, double angle, bool up) {
  return {g(0, at), g(width, at), Angle::degrees(angle), up};
}

void add(job::Plan& plan, const char* mark, const char* kind, const char* junction, const char* face,
         geom::Net net, geom::GridPoint base, geom::Frame frame) {
  job::Piece piece;
  piece.mark = mark;
  piece.kind = kind;
  piece.slope = "rear";
  piece.junction = junction;
  piece.face = face;
  piece.count = 1;
  piece.code = 4;
  const geom::Box box = geom::bounds(net.outline);
  piece.length = geom::to_length(box.width());
  piece.width = geom::to_length(box.height());
  piece.area = geom::net_area(net);
  ASSERT_FALSE(geom::fault_of(net)) << mark;
  piece.net = std::move(net);
  piece.base_point = base;
  piece.placements.push_back({-2, frame});
  plan.pieces.push_back(std::move(piece));
}

job::Figure figure(const char* name, double value) {
  job::Figure out;
  out.name = name;
  out.value = value;
  out.unit = "mm";
  return out;
}

const job::Junction& junction_of(const job::Slope& slope, std::string_view name) {
  return *std::find_if(slope.junctions.begin(), slope.junctions.end(),
                       [&](const job::Junction& j) { return j.name == name; });
}

// The stack's front and back, a corner and the pipe, clad by hand.
void clad(engine::Planned& planned) {
  const job::Slope& slope = planned.survey.slopes.front();
  job::Plan& plan = planned.plan;
  std::erase_if(plan.pieces, [](const job::Piece& piece) {
    return piece.junction != "house wall" && piece.face != "left side" && piece.face != "right side";
  });
  for (const job::Face& face : job::faces_of(slope, junction_of(slope, "stack"))) {
    const job::FaceFrame frame = job::frame_of(face, slope.pitch.value);
    const double length = frame.length.in_mm();
    const double fold = frame.fold.in_degrees();
    if (face.kind == job::FaceKind::front) {
      geom::Net apron = sheet(length + 300, 250);
      apron.folds = {level_fold(length + 300, 150, fold, true)};
      add(plan, "A1", "apron", "stack", "front", apron, g(1, 1),
          {frame.foot + Vec3{-150, -150, kThick}, {1, 0, 0}, {0, 1, 0}});
      plan.pieces.back().figures = {figure("cover", 150), figure("upstand", 100)};
      geom::Net cover = sheet(length, 100);
      cover.folds = {level_fold(length, 75, 90, false)};
      add(plan, "C1", "cover-flashing", "stack", "front", cover, g(1, 1),
          {frame.foot + Vec3{0, 0, kThick} + 55.0 * frame.up, {1, 0, 0}, frame.up});
      plan.pieces.back().figures = {figure("turn_in", 25)};
      geom::Net corner;
      corner.outline = {g(0, 0), g(300, 0), g(300, 250), g(0, 250)};
      corner.folds = {{g(150, 150), g(300, 150), frame.fold, true}};
      corner.cuts = {{g(150, 250), g(150, 150), true}};
      add(plan, "K1", "corner", "stack", "front", corner, g(1, 1),
          {frame.foot + Vec3{-150, -150, kThick + 2}, {1, 0, 0}, {0, 1, 0}});
    }
    if (face.kind == job::FaceKind::back) {
      geom::Net gutter = sheet(length + 300, 500);
      gutter.folds = {level_fold(length + 300, 100, fold, true), level_fold(length + 300, 250, 20, true),
                      level_fold(length + 300, 475, 170, true)};
      add(plan, "B1", "back-gutter", "stack", "back", gutter, g(1, 110),
          {frame.foot + Vec3{-150, -100, 0}, {1, 0, 0}, {0, 1, 0}});
      plan.pieces.back().figures = {figure("upstand", 100), figure("sole", 150)};
    }
  }
  // A top wall and a wall askew: a cover on the roof, an upstand against the face, a turn-in at its top.
  for (const char* name : {"gable", "cheek"}) {
    const job::Face face = job::faces_of(slope, junction_of(slope, name)).front();
    const job::FaceFrame frame = job::frame_of(face, slope.pitch.value);
    const double length = std::min(1500.0, frame.length.in_mm());
    geom::Net net = sheet(length, 300);
    net.folds = {level_fold(length, 150, frame.fold.in_degrees(), true), level_fold(length, 275, 90, false)};
    // The net's x runs along the foot with the face to its left.
    const Vec3 towards_face = -1.0 * frame.away;
    const bool along = cross(frame.along, towards_face).z > 0;
    const Vec3 x = along ? frame.along : -1.0 * frame.along;
    const Vec3 start = along ? frame.foot : frame.foot + length * frame.along;
    add(plan, name == std::string("gable") ? "A2" : "W1",
        name == std::string("gable") ? "apron" : "step-and-cover", name, "", net, g(1, 1),
        {start + 150.0 * frame.away + Vec3{0, 0, kThick}, x, towards_face});
    plan.pieces.back().figures = {figure("cover", 150), figure("upstand", 125), figure("turn_in", 25)};
  }
  const job::Junction& pipe = junction_of(slope, "vent");
  const Vec3 at{pipe.at->in_mm(), pipe.up->in_mm(), kThick};
  geom::Net slate = sheet(400, 400);
  slate.holes = {{g(140, 140), g(140, 260), g(260, 260), g(260, 140)}};
  add(plan, "P1", "pipe-slate", "vent", "", slate, g(1, 1), {at + Vec3{-200, -200, 0}, {1, 0, 0}, {0, 1, 0}});
  constexpr int kFacets = 24;
  const double facet = pipe.diameter->in_mm() * 3.14159 / kFacets;
  geom::Net sleeve = sheet(facet * kFacets, 150);
  for (int i = 1; i < kFacets; ++i)
    sleeve.folds.push_back({g(facet * i, 0), g(facet * i, 150), Angle::degrees(360.0 / kFacets), false});
  const Vec3 up{0, sin(slope.pitch.value), cos(slope.pitch.value)};
  const Vec3 out{0, -up.z, up.y};
  add(plan, "P2", "pipe-sleeve", "vent", "", sleeve, g(1, 1),
      {at + (pipe.diameter->in_mm() / 2) * out + Vec3{-facet / 2, 0, 0}, {1, 0, 0}, up});
  // A gusset with slanted folds.
  geom::Net gusset;
  gusset.outline = {g(0, 0), g(300, 0), g(150, 260)};
  gusset.folds = {{g(75, 130), g(150, 0), Angle::degrees(45), true}};
  add(plan, "G1", "saddle", "stack", "back", gusset, g(200, 10),
      {{2000, 2100, kThick}, {1, 0, 0}, {0, 1, 0}});
}

engine::Planned clad_job() {
  auto planned = engine::plan_job(bytes_of("tests/jobs/good/stack-and-pipe.json"));
  if (!planned) {
    ADD_FAILURE() << "the job does not plan";
    std::abort();
  }
  clad(*planned);
  return *planned;
}

void keep(const draw::Document& document, const char* name) {
  const char* folder = std::getenv("LAPWRIGHT_KEEP");
  if (folder != nullptr)
    std::ofstream(std::filesystem::path(folder) / name, std::ios::binary) << draw::write_pdf(document);
}

void expect_fit(const draw::Document& document) {
  EXPECT_EQ(troubles(document), "");
  for (const draw::Page& page : document.pages) EXPECT_TRUE(on_paper(page)) << page.title;
}

const draw::Page* page_called(const draw::Document& document, const std::string& title) {
  for (const draw::Page& page : document.pages) {
    if (page.title == title) return &page;
  }
  return nullptr;
}

// A drawing of a piece alone carries its mark; one that shows it in its place, "piece/MARK/COURSE/JUNCTION".
bool is_of(std::string_view tag, std::string_view mark) {
  return tag == mark || tag.starts_with("piece/" + std::string(mark) + "/");
}

std::set<std::string> tags_of(const draw::Page& page) {
  std::set<std::string> out;
  for (const draw::Item& item : page.drawing.items()) {
    const auto* path = std::get_if<draw::Path>(&item);
    if (path == nullptr) continue;
    out.insert(path->tag);
    if (path->tag.starts_with("piece/")) out.insert(path->tag.substr(6, path->tag.find('/', 6) - 6));
  }
  return out;
}

std::string words_on(const draw::Page& page) {
  std::string out;
  for (const draw::Plain& thing : draw::expand(page.drawing)) {
    if (const auto* text = std::get_if<draw::PlainText>(&thing)) out += text->text + "\n";
  }
  return out;
}

TEST(Placed, clad_job_is_fit_to_print) {
  const engine::Planned planned = clad_job();
  const draw::Document document = compose(sources_of(planned));
  keep(document, "clad.pdf");
  expect_fit(document);
}

// The corners of a panel as the roof view must show them.
std::vector<draw::Point> seen_square_on(const geom::Panel& panel, const geom::Frame& frame, double scale) {
  std::vector<draw::Point> out;
  for (const geom::GridPoint& p : panel.ring) {
    const Vec3 q = frame.at(geom::to_length(p.x).in_mm(), geom::to_length(p.y).in_mm());
    out.push_back({q.x * scale, q.y * scale});
  }
  return out;
}

bool drawn(const draw::Drawing& drawing, const std::string& mark, const std::vector<draw::Point>& ring) {
  for (const draw::Item& item : drawing.items()) {
    const auto* path = std::get_if<draw::Path>(&item);
    if (path == nullptr || !is_of(path->tag, mark) || path->contours.size() != 1) continue;
    const auto& vertices = path->contours.front().vertices;
    if (vertices.size() != ring.size()) continue;
    bool same = true;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      same = same && std::abs(vertices[i].at.x - ring[i].x) < 1e-3 &&
             std::abs(vertices[i].at.y - ring[i].y) < 1e-3;
    }
    if (same) return true;
  }
  return false;
}

TEST(Placed, clad_job_says_what_the_golden_says) {
  expect_golden("stack-and-pipe", clad_job());
}

TEST(Placed, roof_view_shows_every_panel_of_every_piece) {
  const engine::Planned planned = clad_job();
  const std::vector<NamedDrawing> views = roof_views(sources_of(planned));
  ASSERT_EQ(views.size(), 1U);
  EXPECT_EQ(views.front().stem, "roof-rear");
  constexpr double kScale = 0.05;  // 1:20, as sheets.h says
  std::size_t panels = 0;
  for (const job::Piece& piece : planned.plan.pieces) {
    const auto parts = geom::split_into_panels(piece.net, piece.base_point);
    ASSERT_TRUE(parts);
    for (const job::Placement& placement : piece.placements) {
      const auto frames = geom::fold_panels(piece.net, *parts, placement.frame);
      for (std::size_t i = 0; i < frames.size(); ++i) {
        ++panels;
        EXPECT_TRUE(drawn(views.front().drawing, piece.mark, seen_square_on((*parts)[i], frames[i], kScale)))
            << piece.mark << " panel " << i;
      }
    }
  }
  EXPECT_GT(panels, 100U);
}

TEST(Placed, every_junction_has_its_views) {
  const engine::Planned planned = clad_job();
  const draw::Document document = compose(sources_of(planned));
  struct Expected {
    const char* title;
    std::set<std::string> shows;
  };
  const Expected all[] = {
      {"Roof: rear", {"A1", "C1", "K1", "B1", "P1", "P2", "S1", "F1", "stack", "vent"}},
      {"Wall: rear / stack, front", {"A1", "C1", "K1"}},
      {"Wall: rear / stack, back", {"B1", "G1"}},
      {"Wall: rear / stack, left side", {}},
      {"Section up the slope through the middle: rear / stack", {"A1", "C1", "B1"}},
      {"Section square to the wall: rear / stack, front", {"A1", "C1"}},
      {"Section square to the wall: rear / stack, back", {"B1"}},
      {"Section through the pipe: rear / vent", {"P1", "P2"}},
      {"Wall: rear / cheek", {"W1"}},
      {"Wall: rear / gable", {"A2"}},
      {"Section square to the wall: rear / cheek", {"W1"}},
      {"Section square to the wall: rear / gable", {"A2"}},
  };
  for (const Expected& expected : all) {
    const draw::Page* page = page_called(document, expected.title);
    ASSERT_NE(page, nullptr) << expected.title;
    const std::set<std::string> tags = tags_of(*page);
    const std::string words = words_on(*page);
    for (const std::string& mark : expected.shows) {
      EXPECT_TRUE(tags.contains(mark) || tags.contains("at/" + mark)) << mark << " on " << expected.title;
      if (mark.size() != 2) continue;
      EXPECT_NE(words.find(mark + "\n"), std::string::npos) << mark << " on " << expected.title;
    }
  }
}

// Eight sides of walls and stacks with the same laps: one section up the slope, one across for each hand.
TEST(Placed, walls_alike_share_a_section) {
  const auto planned = engine::plan_job(bytes_of("tests/jobs/cases/all-together.json"));
  ASSERT_TRUE(planned);
  const draw::Document document = compose(sources_of(*planned));
  std::map<std::string, int> pages;
  std::string said;
  for (const draw::Page& page : document.pages) {
    for (const char* title : {"Section up the slope: ", "Section at the wall: "}) {
      if (!page.title.starts_with(title)) continue;
      ++pages[title];
      said += page.title + "\n" + words_on(page);
    }
  }
  EXPECT_EQ(pages["Section up the slope: "], 1);
  EXPECT_EQ(pages["Section at the wall: "], 2);
  std::replace(said.begin(), said.end(), '\n', ' ');
  for (const job::Piece& piece : planned->plan.pieces) {
    if (piece.kind != "soaker") continue;
    EXPECT_NE(said.find(piece.slope + " / " + piece.junction), std::string::npos) << piece.junction;
  }
}

// The apron was given cover and upstand: 150 on the roof, 100 up the stack. The gutter has no figure for the
// rest of it: plain numbers.
TEST(Placed, sections_name_the_lengths_that_pieces_name) {
  const engine::Planned planned = clad_job();
  const draw::Document document = compose(sources_of(planned));
  const draw::Page* front = page_called(document, "Section square to the wall: rear / stack, front");
  ASSERT_NE(front, nullptr);
  EXPECT_NE(words_on(*front).find("apron: cover 150 + upstand 100"), std::string::npos) << words_on(*front);
  EXPECT_NE(words_on(*front).find("turn in 25"), std::string::npos);
  const draw::Page* back = page_called(document, "Section square to the wall: rear / stack, back");
  ASSERT_NE(back, nullptr);
  EXPECT_NE(words_on(*back).find("back gutter: upstand 100 + sole 150 + 225 + 25"), std::string::npos)
      << words_on(*back);
}

// Core 45, the first sheet 75 up and over it, the other right round and 40 beyond (from memory).
TEST(Placed, a_wide_gutter_has_its_roll_cut_through) {
  const auto planned = engine::plan_job(bytes_of("tests/jobs/cases/a17-wide-stack.json"));
  ASSERT_TRUE(planned);
  const draw::Document document = compose(sources_of(*planned));
  const draw::Page* page = page_called(document, "Section through the roll: rear / stack");
  ASSERT_NE(page, nullptr);
  const std::string words = words_on(*page);
  for (const char* said : {"core 45", "laid first, up and over 75", "laid last, right over 156", "beyond 40"})
    EXPECT_NE(words.find(said), std::string::npos) << said << " in " << words;
}

TEST(Placed, a_curve_is_rolled_and_a_bossed_line_is_not_cut) {
  const engine::Planned planned = clad_job();
  const draw::Document document = compose(sources_of(planned));
  const draw::Page* sleeve = page_called(document, "P2: pipe sleeve");
  ASSERT_NE(sleeve, nullptr);
  EXPECT_NE(words_on(*sleeve).find("Folds 1 to 23: roll round"), std::string::npos) << words_on(*sleeve);
  EXPECT_EQ(words_on(*sleeve).find("Fold 2:"), std::string::npos);
  for (const char* title : {"K1: corner piece", "Full-size template of K1"}) {
    const draw::Page* corner = page_called(document, title);
    ASSERT_NE(corner, nullptr) << title;
    EXPECT_NE(words_on(*corner).find("boss\n"), std::string::npos) << title;
    for (const draw::Item& item : corner->drawing.items()) {
      const auto* path = std::get_if<draw::Path>(&item);
      if (path == nullptr || !path->stroke || !is_of(path->tag, "K1")) continue;
      const bool straight = path->contours.size() == 1 && path->contours[0].vertices.size() == 2;
      if (!straight || path->stroke->kind != draw::LineKind::cut) continue;
      // No line to be cut runs inside the sheet: each lies on its box.
      const draw::Point a = path->contours[0].vertices[0].at;
      const draw::Point b = path->contours[0].vertices[1].at;
      draw::Drawing all;
      for (const draw::Item& other : corner->drawing.items()) {
        const auto* line = std::get_if<draw::Path>(&other);
        if (line != nullptr && is_of(line->tag, "K1") && line->stroke &&
            line->stroke->kind == draw::LineKind::cut)
          all.add(*line);
      }
      const draw::Box box = draw::extents_of_points(all);
      const auto on = [&](double p, double q, double edge) {
        return std::abs(p - edge) < 0.01 && std::abs(q - edge) < 0.01;
      };
      EXPECT_TRUE(on(a.x, b.x, box.left) || on(a.x, b.x, box.right) || on(a.y, b.y, box.bottom) ||
                  on(a.y, b.y, box.top))
          << title;
    }
  }
  const draw::Page* gusset = page_called(document, "G1: saddle");
  ASSERT_NE(gusset, nullptr);
  EXPECT_NE(words_on(*gusset).find("Fold 1: slanted, from 75 mm across, 130 mm up to"), std::string::npos)
      << words_on(*gusset);
}

bool has_tag(const draw::Page& page, std::string_view tag) {
  return tags_of(page).contains(std::string(tag));
}

TEST(Placed, what_is_wrong_or_doubtful_stands_on_every_sheet_of_its_junction) {
  engine::Planned planned = clad_job();
  std::erase_if(planned.plan.findings, [](const job::Finding& f) { return f.level != job::Level::note; });
  job::Finding wrong;
  wrong.level = job::Level::wrong;
  wrong.text = "The gutter is too narrow to stand in.";
  wrong.where = "rear / stack / back";
  job::Finding doubt = wrong;
  doubt.level = job::Level::doubt;
  doubt.text = "The pipe leans.";
  doubt.where = "rear / vent[0]";
  planned.plan.findings.insert(planned.plan.findings.begin(), {wrong, doubt});
  const draw::Document document = compose(sources_of(planned));
  expect_fit(document);
  keep(document, "wrong.pdf");
  std::size_t warned = 0;
  for (const draw::Page& page : document.pages) {
    const bool of_stack = page.title.find("/ stack") != std::string::npos ||
                          page.title == "B1: back gutter" || page.title == "A1: apron" ||
                          page.title == "Roof: rear";
    const bool of_pipe = page.title.find("/ vent") != std::string::npos || page.title == "P1: pipe slate";
    if (of_stack) {
      ++warned;
      EXPECT_TRUE(has_tag(page, "wrong")) << page.title;
      EXPECT_NE(words_on(page).find("WRONG: do not work from this sheet"), std::string::npos) << page.title;
      EXPECT_NE(words_on(page).find("The gutter is too narrow to stand in."), std::string::npos)
          << page.title;
    }
    if (of_pipe) {
      ++warned;
      EXPECT_TRUE(has_tag(page, "doubt")) << page.title;
      EXPECT_NE(words_on(page).find("DOUBT: rear / vent[0]: The pipe leans."), std::string::npos)
          << page.title;
    }
    if (page.title.find("house wall") != std::string::npos) {
      EXPECT_FALSE(has_tag(page, "wrong") || has_tag(page, "doubt")) << page.title;
    }
  }
  EXPECT_GT(warned, 10U);
}

// Two slopes of 35° that meet square in a valley, lined by one hand-made piece on the first: 200 mm of sole
// on either side of the line.
engine::Planned valley_job() {
  auto planned = engine::plan_job(bytes_of("tests/jobs/good/valley.json"));
  if (!planned) {
    ADD_FAILURE() << "the job does not plan";
    std::abort();
  }
  std::erase_if(planned->plan.pieces, [](const job::Piece& piece) {
    return piece.kind != "soaker" && piece.kind != "step-flashing";
  });
  const auto joins = job::joins_of(planned->survey, 0);
  if (joins.size() != 1) {
    ADD_FAILURE() << "one valley expected";
    return *planned;
  }
  const job::JoinLine& line = joins[0].line;
  const job::JoinSide& side = line.sides[joins[0].side];
  const double long_ = 1500;
  geom::Net valley = sheet(400, long_);
  valley.folds = {{g(200, 0), g(200, long_), line.fold, true}};
  const Vec3 along = geom::unit({side.drift, 1, 0});
  const Vec3 into{-along.y, along.x, 0};  // left of a line at the right end
  const Vec3 foot{planned->survey.slopes[0].width.value.in_mm(), 0, 0};
  add(planned->plan, "V1", "valley", "valley", "", valley, g(1, 1),
      {foot + 600.0 * along + 200.0 * into, -1.0 * into, along});
  planned->plan.pieces.back().slope = planned->survey.slopes[0].name;
  return *planned;
}

TEST(Placed, valley_says_what_the_golden_says) {
  expect_golden("valley", valley_job());
}

TEST(Placed, a_valley_is_cut_square_to_its_line) {
  const engine::Planned planned = valley_job();
  const draw::Document document = compose(sources_of(planned));
  keep(document, "valley.pdf");
  expect_fit(document);
  const draw::Page* page = page_called(document, "Section square to the line: rear and addition");
  ASSERT_NE(page, nullptr);
  EXPECT_TRUE(tags_of(*page).contains("V1"));
  // Square to its line the piece is as wide as its net is: 200 either side.
  EXPECT_NE(words_on(*page).find("valley piece: 200 + 200"), std::string::npos) << words_on(*page);
}

// The two slopes are alike, so what the piece covers of one it covers of the other, mirrored in the line.
TEST(Placed, a_valley_piece_is_seen_on_both_its_slopes) {
  const engine::Planned planned = valley_job();
  const std::vector<NamedDrawing> views = roof_views(sources_of(planned));
  ASSERT_EQ(views.size(), 2U);
  ASSERT_EQ(views[1].stem, "roof-addition");
  const job::Piece& piece = planned.plan.pieces.back();
  const auto parts = geom::split_into_panels(piece.net, piece.base_point);
  ASSERT_TRUE(parts);
  const double width = planned.survey.slopes[0].width.value.in_mm();
  constexpr double kScale = 0.05;
  std::set<std::pair<std::int64_t, std::int64_t>> expected;  // in hundredths of a mm of paper
  for (const draw::Point& p : seen_square_on((*parts)[0], piece.placements[0].frame, kScale)) {
    expected.insert({std::lround((width * kScale - p.x) * 100), std::lround(p.y * 100)});
  }
  ASSERT_EQ(expected.size(), 4U);
  bool found = false;
  for (const draw::Item& item : views[1].drawing.items()) {
    const auto* path = std::get_if<draw::Path>(&item);
    if (path == nullptr || !is_of(path->tag, "V1") || path->contours.size() != 1) continue;
    std::set<std::pair<std::int64_t, std::int64_t>> made;
    for (const draw::Vertex& v : path->contours[0].vertices)
      made.insert({std::lround(v.at.x * 100), std::lround(v.at.y * 100)});
    found = found || made == expected;
  }
  EXPECT_TRUE(found);
}

// A roof with a stack, a pipe, a wall on a line and a top wall, of sizes that vary widely.
std::string random_roof(Generator& g) {
  const int width = static_cast<int>(g.between(4000, 9000));
  const int rafter = static_cast<int>(g.between(3000, 7000));
  const int stack = static_cast<int>(g.between(1300, width / 2));
  const int front = static_cast<int>(g.between(400, rafter / 2));
  const std::string covering =
      g.chance(0.4)
          ? std::string(R"("kind": "slate", "length": 500, "width": 250, "thickness": 6)")
          : std::string(
                R"("kind": "plain-tile", "length": 265, "width": 165, "thickness": 12, "max_gauge": 100)");
  const std::string wall =
      g.chance(0.5) ? R"({"kind": "brick", "course": 75, "first_joint": 40})" : R"({"kind": "stone"})";
  return fmt::format(
      R"({{"format": "lapwright-job/1", "title": "A roof", "unit": "mm"{}, "site": {{"exposure": "moderate"}},
 "slopes": [{{"name": "rear", "pitch": {}, "rafter": {}, "width": {}, "covering": {{{}}}, "junctions": [
  {{"name": "{}", "kind": "stack", "at": {}, "front": {}, "width": {}, "depth": {}, "wall": {}}},
  {{"name": "vent", "kind": "pipe", "at": {}, "up": {}, "diameter": {}}},
  {{"name": "over", "kind": "top", "from": 0, "to": {}, "wall": {}}},
  {{"name": "cheek", "kind": "wall", "line": [[{}, {}], [{}, {}]], "wall": {}}}]}}]}})",
      g.chance(0.3) ? R"(, "show": "in")" : "", g.between(30, 55), rafter, width, covering,
      g.chance(0.2) ? std::string(70, 'W') : "stack", stack, front, g.between(400, 900), g.between(300, 700),
      wall, width - g.between(300, 700), g.between(600, rafter - 400), g.between(50, 160), width, wall,
      width - 1200, rafter - g.between(700, 1200), width - g.between(100, 1000), rafter - g.between(50, 300),
      wall);
}

TEST(Placed, random_roofs_are_fit_to_print) {
  Generator generator(5);
  int planned_jobs = 0;
  for (int i = 0; i < 25; ++i) {
    const std::string job = random_roof(generator);
    const auto planned = engine::plan_job(job);
    if (!planned) continue;
    ++planned_jobs;
    SCOPED_TRACE(job);
    expect_fit(compose(sources_of(*planned)));
    for (const NamedDrawing& view : roof_views(sources_of(*planned))) EXPECT_FALSE(view.drawing.empty());
    if (HasFailure()) break;
  }
  EXPECT_GT(planned_jobs, 18);
}

// Sheets are read on a roof: numbers and words of 11 pt and more, but for the bars and what stands in a ring.
TEST(Placed, nothing_drawn_is_too_small_to_read) {
  const engine::Planned planned = clad_job();
  const draw::Document document = compose(sources_of(planned));
  for (const draw::Page& page : document.pages) {
    for (const draw::Plain& thing : draw::expand(page.drawing)) {
      const auto* text = std::get_if<draw::PlainText>(&thing);
      if (text == nullptr || text->at.y < 30) continue;  // the bars stand in the foot
      EXPECT_GE(text->size, draw::pt(11) - 1e-9) << page.title << ": " << text->text;
    }
  }
}

}  // namespace

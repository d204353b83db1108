// Lead folded against walls on any line and stacks through the ridge, over random roofs: every panel lies on
// its plane, seams close, pieces make the wall's true length. The planes are put up here as vectors in a
// level frame (along the eaves, level towards the ridge, upright), from the survey's numbers alone.
#include "planned.h"
#include "planner.h"

#include <lapwright/base/generator.h>
#include <lapwright/geom/net.h>

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace lapwright {
namespace {

using geom::Vec3;

constexpr double kRadian = 3.14159265358979323846 / 180;
constexpr double kTenth = 0.1;  // mm: how near a panel must come to its plane
#ifdef __SANITIZE_ADDRESS__
constexpr int kLines = 400;
constexpr int kStacks = 400;
#else
constexpr int kLines = 10'000;
constexpr int kStacks = 5'000;  // and ten thousand in the middle of a slope, beside the chimney's own tests
#endif

// Between a slope's own frame (u, s, n) and the level one.
struct Tilt {
  double sine;
  double cosine;

  explicit Tilt(double pitch) : sine(std::sin(pitch * kRadian)), cosine(std::cos(pitch * kRadian)) {}
  Vec3 level(Vec3 p) const { return {p.x, p.y * cosine - p.z * sine, p.y * sine + p.z * cosine}; }
};

struct Flat {
  Vec3 point;
  Vec3 normal;

  double off(Vec3 p) const { return dot(p - point, normal); }
};

// A folded panel, in the level frame.
struct Lying {
  std::vector<Vec3> points;
  Vec3 normal;

  double strays(const Flat& plane) const {
    double worst = 0;
    for (const Vec3& p : points) worst = std::max(worst, std::fabs(plane.off(p)));
    return worst;
  }
  bool on(const Flat& plane) const { return strays(plane) < kTenth; }
  // The part of it that is nearest to the side that the normal points to.
  double foremost(const Flat& plane) const {
    double most = -1e9;
    for (const Vec3& p : points) most = std::max(most, plane.off(p));
    return most;
  }
  bool square_to(const Flat& plane) const { return std::fabs(dot(normal, plane.normal)) < 1e-6; }
};

std::vector<Lying> folded(const job::Piece& piece, const job::Placement& place, const Tilt& tilt) {
  std::vector<Lying> out;
  const auto panels = geom::split_into_panels(piece.net, piece.base_point);
  EXPECT_TRUE(panels) << piece.kind;
  if (!panels) return out;
  const auto frames = geom::fold_panels(piece.net, *panels, place.frame);
  for (std::size_t i = 0; i < frames.size(); ++i) {
    Lying panel;
    for (const geom::GridPoint g : (*panels)[i].ring) {
      panel.points.push_back(
          tilt.level(frames[i].at(static_cast<double>(g.x) / 1000, static_cast<double>(g.y) / 1000)));
    }
    panel.normal = tilt.level(frames[i].normal());
    out.push_back(std::move(panel));
  }
  return out;
}

std::string covering(const std::string& kind, double thickness) {
  const std::string size = kind == "plain-tile" ? R"("length": 265, "width": 165, "max_gauge": 100)"
                           : kind == "slate"    ? R"("length": 500, "width": 250, "headlap": 100)"
                                                : R"("length": 420, "width": 330, "max_gauge": 345)";
  const std::string rolls = kind == "profiled-tile" ? R"(, "roll_pitch": 100, "roll_depth": 30)" : "";
  return R"("covering": { "kind": ")" + kind + R"(", )" + size + R"(, "thickness": )" +
         std::to_string(thickness) + rolls + " }";
}

// A wall along a line, and what stands in its way, from the survey.
struct Line {
  double pitch, units, lean, length;
  Vec3 from, to;  // (u, s, 0), in the order in which they are walked: the roof lies on the right
  std::string kind, wall, exposure;

  std::string job() const {
    const auto point = [](Vec3 p) { return "[" + std::to_string(p.x) + ", " + std::to_string(p.y) + "]"; };
    return R"({ "format": "lapwright-job/1", "site": { "exposure": ")" + exposure +
           R"(" }, "slopes": [ { "pitch": )" + std::to_string(pitch) +
           R"(, "rafter": 4000, "width": 6000, )" + covering(kind, units) +
           R"(, "junctions": [ { "kind": "wall", "line": [)" + point(from) + ", " + point(to) +
           R"(], "lean": )" + std::to_string(lean) + R"(, "wall": { "kind": ")" + wall + "\"" +
           (wall == "brick" ? R"(, "course": 75, "first_joint": 30)" : "") + " } } ] } ] }";
  }
};

Line random_line(Generator& random) {
  static const std::vector<std::string> kinds{"plain-tile", "slate", "flat-tile", "profiled-tile"};
  Line l;
  l.pitch = 25 + 0.5 * static_cast<double>(random.between(0, 60));
  l.units = 6 + static_cast<double>(random.between(0, 14));
  l.lean = random.chance(0.5) ? 0 : static_cast<double>(random.between(-8, 8));
  l.length = static_cast<double>(random.between(900, 1500));
  // Clear of what is taken for straight up the slope or level, or exactly that.
  double way = static_cast<double>(random.between(-179, 180));
  if (std::fabs(std::remainder(way, 90)) < 2) way = 90 * std::round(way / 90);
  const Vec3 there{std::sin(way * kRadian) * l.length, std::cos(way * kRadian) * l.length, 0};
  l.from = Vec3{3000, 2000, 0} - 0.5 * there;
  l.to = l.from + there;
  // A tenth of a micron, as the job's text holds it.
  const auto rounded = [](double v) { return std::round(v * 1e6) / 1e6; };
  l.from = {rounded(l.from.x), rounded(l.from.y), 0};
  l.to = {rounded(l.to.x), rounded(l.to.y), 0};
  l.kind = kinds[static_cast<std::size_t>(random.between(0, 3))];
  l.wall = random.chance(0.6) ? "brick" : "render";
  l.exposure = random.chance(0.5) ? "moderate" : "severe";
  return l;
}

// A gutter's sole: level square to the wall on plan, its one edge on the roof, its other on the wall.
bool is_sole(const Lying& panel, Vec3 along, Vec3 out, const Flat& roof, const Flat& wall) {
  const Flat plane{panel.points.front(), unit(cross(along, out))};
  if (!panel.on(plane)) return false;
  std::size_t on_roof = 0;
  std::size_t on_wall = 0;
  for (const Vec3& p : panel.points) {
    on_roof += std::fabs(roof.off(p)) < kTenth;
    on_wall += std::fabs(wall.off(p)) < kTenth;
  }
  return on_roof >= 2 && on_wall >= 2;
}

TEST(Folding, lead_at_walls_on_any_line) {
  Generator random(20261126);
  std::map<std::string, std::int64_t> seen;
  for (int i = 0; i < kLines && !HasFailure(); ++i) {
    const Line l = random_line(random);
    const auto planned = sample::plan_job(l.job());
    if (!planned) {
      ++seen["refused"];
      continue;
    }
    const Tilt tilt(l.pitch);
    const Vec3 foot = tilt.level(l.from);
    const Vec3 walked = tilt.level(l.to) - foot;
    const double true_length = length_of(walked);
    const Vec3 along = unit(walked);
    const Vec3 out = unit(Vec3{along.y, -along.x, 0});  // level, to the right: towards the roof
    const Vec3 rises = std::cos(l.lean * kRadian) * Vec3{0, 0, 1} - std::sin(l.lean * kRadian) * out;
    const Vec3 across = cross(along, rises);
    const Flat wall{foot, unit(dot(across, out) < 0 ? -1.0 * across : across)};
    const Vec3 up = tilt.level({0, 0, 1});
    const Flat roof{foot, up};
    const Flat units{foot + l.units * up, up};
    const Flat channel{foot - 25.0 * up, up};  // a secret gutter's sole, 25 deep (trade guides)
    for (const job::Piece& piece : planned->plan.pieces) {
      EXPECT_EQ(geom::fault_of(piece.net), std::nullopt) << l.job();
      double least = 1e9;
      double most = -1e9;
      for (const job::Placement& place : piece.placements) {
        std::size_t on_wall = 0;
        for (const Lying& panel : folded(piece, place, tilt)) {
          if (panel.on(wall)) {
            ++on_wall;
            ++seen[piece.kind];
            for (const Vec3& p : panel.points) {
              least = std::min(least, dot(p - foot, along));
              most = std::max(most, dot(p - foot, along));
            }
            continue;
          }
          const bool lies = panel.on(roof) || panel.on(units) ||
                            (piece.kind == "secret-gutter" && (panel.on(channel) || panel.square_to(roof)));
          const bool hook = piece.kind == "soaker" && panel.square_to(roof) && panel.foremost(roof) < kTenth;
          const bool turned_in = panel.square_to(wall) && panel.foremost(wall) < kTenth;
          const bool sole = piece.kind == "back-gutter" && is_sole(panel, along, out, roof, wall);
          EXPECT_TRUE(lies || hook || turned_in || sole) << piece.kind << "\n" << l.job();
        }
        EXPECT_GE(on_wall, piece.kind == "soaker" ? 0U : 1U) << piece.kind << "\n" << l.job();
      }
      const bool whole = piece.placements.size() == 1 && piece.count == 1 && piece.kind != "soaker" &&
                         piece.kind != "step-flashing" && piece.kind != "step-and-cover";
      if (!whole) continue;
      ++seen["whole"];
      EXPECT_NEAR(most - least, true_length, kTenth) << piece.kind << "\n" << l.job();
    }
  }
  for (const char* kind : {"soaker", "step-flashing", "cover-flashing", "step-and-cover", "secret-gutter",
                           "apron", "back-gutter", "whole"}) {
    EXPECT_GT(seen[kind], kLines / 20) << kind;
  }
  EXPECT_LT(seen["refused"], kLines / 4);
}

// A stack through the ridge of two slopes, each of its own pitch; both are as wide.
struct Ridge {
  double pitch, other, units, front, depth, at, width;
  std::string corners;

  static constexpr double kRafter = 3000;
  static constexpr double kEaves = 5000;
  double there() const {  // rafter of the other slope, whose eaves are level with this one's
    return kRafter * std::sin(pitch * kRadian) / std::sin(other * kRadian);
  }
  std::string slope(const std::string& name, double its_pitch, double rafter,
                    const std::string& junctions) const {
    return R"({ "name": ")" + name + R"(", "pitch": )" + std::to_string(its_pitch) + R"(, "rafter": )" +
           std::to_string(rafter) + R"(, "width": 5000, )" + covering("plain-tile", units) + junctions + " }";
  }
  std::string job() const {
    return R"({ "format": "lapwright-job/1", "slopes": [ )" +
           slope("rear", pitch, kRafter,
                 R"(, "junctions": [ { "kind": "stack", "at": )" + std::to_string(at) + R"(, "front": )" +
                     std::to_string(front) + R"(, "width": )" + std::to_string(width) + R"(, "depth": )" +
                     std::to_string(depth) + R"(, "across": "street", "corners": ")" + corners +
                     R"(", "wall": { "kind": "brick", "course": 75, "first_joint": 30 } } ])") +
           ", " + slope("street", other, there(), "") +
           R"( ], "joins": [ { "kind": "ridge", "slopes": ["rear", "street"] } ] })";
  }
};

struct Edge {
  Vec3 a;
  Vec3 b;
  bool same_as(const Edge& o) const {
    const auto near = [](Vec3 p, Vec3 q) { return length_of(p - q) < kTenth; };
    return (near(a, o.a) && near(b, o.b)) || (near(a, o.b) && near(b, o.a));
  }
};

std::vector<Edge> edges_of(const job::Piece& piece, const Tilt& tilt) {
  std::vector<Edge> out;
  for (const job::Placement& place : piece.placements) {
    for (const Lying& panel : folded(piece, place, tilt)) {
      for (std::size_t k = 0; k < panel.points.size(); ++k)
        out.push_back({panel.points[k], panel.points[(k + 1) % panel.points.size()]});
    }
  }
  return out;
}

// Each welded piece has two seams a placement, edge to edge, so as long as each other.
void judge_seams(const job::Plan& plan, const job::Piece& welded, const Tilt& tilt, const std::string& job) {
  const bool gusset = sample::figure(welded.figures, "apex") != nullptr;
  std::vector<Edge> others;
  for (const job::Piece* other : sample::pieces_of(plan, gusset ? "saddle" : "apron")) {
    if (other->slope != welded.slope) continue;
    for (const Edge& e : edges_of(*other, tilt)) others.push_back(e);
  }
  std::size_t closed = 0;
  for (const Edge& e : edges_of(welded, tilt)) {
    closed += std::any_of(others.begin(), others.end(), [&](const Edge& o) { return e.same_as(o); });
  }
  EXPECT_EQ(closed, 2U * welded.placements.size()) << (gusset ? "gusset" : "corner") << "\n" << job;
}

TEST(Folding, lead_at_stacks_through_the_ridge) {
  Generator random(20261127);
  std::map<std::string, std::int64_t> seen;
  for (int i = 0; i < kStacks && !HasFailure(); ++i) {
    Ridge r;
    r.pitch = 36 + 0.5 * static_cast<double>(random.between(0, 40));
    r.other = random.chance(0.3) ? r.pitch : 36 + 0.5 * static_cast<double>(random.between(0, 40));
    r.units = 8 + static_cast<double>(random.between(0, 12));
    r.front = 2200 + static_cast<double>(random.between(0, 500));
    r.depth = 900 + static_cast<double>(random.between(0, 400));
    r.at = 1800 + static_cast<double>(random.between(0, 1400));
    r.width = 400 + static_cast<double>(random.between(0, 600));
    r.corners = random.chance(0.5) ? "welded" : "bossed";
    const std::string job = r.job();
    const auto planned = sample::plan_job(job);
    ASSERT_TRUE(planned) << job;
    // The same stack seen from either slope: where its front stands, and the other slope's finished face.
    struct Seen {
      Tilt tilt;
      double pitch, beyond, rafter, at, front;
    };
    const Tilt here(r.pitch);
    const Tilt there(r.other);
    const double on_rear = (Ridge::kRafter - r.front) * here.cosine;
    const std::map<std::string, Seen> slopes{
        {"rear", {here, r.pitch, r.other, Ridge::kRafter, r.at, r.front}},
        {"street",
         {there, r.other, r.pitch, r.there(), Ridge::kEaves - r.at,
          r.there() - (r.depth - on_rear) / there.cosine}}};
    for (const job::Piece& piece : planned->plan.pieces) {
      const Seen& s = slopes.at(piece.slope);
      const Vec3 up{0, -s.tilt.sine, s.tilt.cosine};
      const Vec3 beyond{0, std::sin(s.beyond * kRadian), std::cos(s.beyond * kRadian)};
      const Vec3 ridge = s.tilt.level({0, s.rafter, 0});
      const Flat roof{{0, 0, 0}, up};
      const Flat units{r.units * up, up};
      const Flat other_units{ridge + r.units * beyond, beyond};
      const Flat front{s.tilt.level({0, s.front, 0}), {0, -1, 0}};
      const Flat left{{s.at - r.width / 2, 0, 0}, {-1, 0, 0}};
      const Flat right{{s.at + r.width / 2, 0, 0}, {1, 0, 0}};
      EXPECT_EQ(geom::fault_of(piece.net), std::nullopt) << job;
      for (const job::Placement& place : piece.placements) {
        std::size_t upright = 0;
        for (const Lying& panel : folded(piece, place, s.tilt)) {
          ++seen[piece.kind];
          if (panel.on(left) || panel.on(right) || panel.on(front)) {
            ++upright;
            continue;
          }
          const bool lies =
              panel.on(roof) || panel.on(units) || (piece.kind == "saddle" && panel.on(other_units));
          const bool hook = piece.kind == "soaker" && panel.square_to(roof) && panel.foremost(roof) < kTenth;
          // Steps are measured from the corner of the finished units, which stands forward of the masonry's
          // by their thickness on the slant.
          const double forward = piece.kind == "step-flashing" ? r.units * s.tilt.sine : 0;
          const bool inside = panel.foremost(left) < kTenth && panel.foremost(right) < kTenth &&
                              panel.foremost(front) < forward + kTenth;
          const bool turned_in = inside && std::fabs(std::fabs(panel.normal.z) - 1) < 1e-4;  // level
          EXPECT_TRUE(lies || hook || turned_in) << piece.kind << "\n" << job;
        }
        EXPECT_GE(upright, 1U) << piece.kind << "\n" << job;
      }
      if (piece.kind == "corner") judge_seams(planned->plan, piece, s.tilt, job);
    }
  }
  for (const char* kind : {"soaker", "step-flashing", "apron", "saddle", "corner"})
    EXPECT_GT(seen[kind], kStacks) << kind;
}

}  // namespace
}  // namespace lapwright

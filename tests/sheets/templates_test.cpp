// The templates, glued by their marks, are the net; the patterns are the net.
#include "support.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

namespace {
using namespace lapwright;
using namespace lapwright::sheets;
using namespace lapwright::sheets::test;
using draw::Point;

struct Segment {
  Point a;
  Point b;
  draw::LineKind kind;
};

double away(Point p, const Segment& s) {
  const Point d = s.b - s.a;
  const double square = d.x * d.x + d.y * d.y;
  const double t =
      square > 0 ? std::clamp(((p.x - s.a.x) * d.x + (p.y - s.a.y) * d.y) / square, 0.0, 1.0) : 0;
  const Point q = p - (s.a + d * t);
  return std::sqrt(q.x * q.x + q.y * q.y);
}

double nearest(Point p, const std::vector<Segment>& among, draw::LineKind kind) {
  double best = 1e9;
  for (const Segment& s : among) {
    if (s.kind == kind) best = std::min(best, away(p, s));
  }
  return best;
}

Point flat(geom::GridPoint p) {
  return {geom::to_length(p.x).in_mm(), geom::to_length(p.y).in_mm()};
}

std::vector<Segment> net_segments(const geom::Net& net) {
  std::vector<Segment> out;
  for (std::size_t i = 0; i < net.outline.size(); ++i) {
    out.push_back(
        {flat(net.outline[i]), flat(net.outline[(i + 1) % net.outline.size()]), draw::LineKind::cut});
  }
  for (const geom::Cut& cut : net.cuts) out.push_back({flat(cut.from), flat(cut.to), draw::LineKind::cut});
  for (const geom::Fold& fold : net.folds)
    out.push_back({flat(fold.from), flat(fold.to), draw::LineKind::fold});
  return out;
}

struct Tile {
  std::map<std::string, Point> marks;  // middle of each match mark
  std::vector<Segment> lines;
};

Tile tile_of(const draw::Page& page, const std::string& mark) {
  Tile out;
  for (const draw::Item& item : page.drawing.items()) {
    const auto* path = std::get_if<draw::Path>(&item);
    if (path == nullptr) continue;
    if (path->tag.starts_with("match-")) {
      draw::Drawing alone;
      alone.add(*path);
      const draw::Box box = draw::extents_of_points(alone);
      if (box.width() > 4 && box.height() > 4) {
        out.marks[path->tag] = {(box.left + box.right) / 2, (box.bottom + box.top) / 2};
      }
    }
    if (path->tag != mark || !path->stroke || path->contours.size() != 1) continue;
    const auto& v = path->contours[0].vertices;
    if (v.size() == 2) out.lines.push_back({v[0].at, v[1].at, path->stroke->kind});
  }
  return out;
}

// All tiles laid on the first by their marks. Empty when they do not hang together.
std::vector<Segment> glued(const std::vector<Tile>& tiles) {
  std::vector<std::optional<Point>> shift(tiles.size());
  shift[0] = Point{};
  for (std::size_t round = 0; round < tiles.size(); ++round) {
    for (std::size_t i = 0; i < tiles.size(); ++i) {
      for (std::size_t j = 0; j < tiles.size(); ++j) {
        if (!shift[i] || shift[j]) continue;
        for (const auto& [name, at] : tiles[i].marks) {
          const auto same = tiles[j].marks.find(name);
          if (same != tiles[j].marks.end()) shift[j] = *shift[i] + at - same->second;
        }
      }
    }
  }
  std::vector<Segment> out;
  for (std::size_t i = 0; i < tiles.size(); ++i) {
    if (!shift[i]) return {};
    for (const Segment& s : tiles[i].lines) out.push_back({s.a + *shift[i], s.b + *shift[i], s.kind});
  }
  return out;
}

// The net's own lines turned and moved as the template lies.
std::vector<Segment> laid_like(const std::vector<Segment>& net, const std::vector<Segment>& sheet,
                               bool turned) {
  std::vector<Segment> out = net;
  Point net_low{1e9, 1e9};
  Point sheet_low{1e9, 1e9};
  const auto low = [](Point& into, Point p) { into = {std::min(into.x, p.x), std::min(into.y, p.y)}; };
  for (Segment& s : out) {
    if (turned) s = {{-s.a.y, s.a.x}, {-s.b.y, s.b.x}, s.kind};
    low(net_low, s.a);
    low(net_low, s.b);
  }
  for (const Segment& s : sheet) {
    low(sheet_low, s.a);
    low(sheet_low, s.b);
  }
  for (Segment& s : out) s = {s.a + sheet_low - net_low, s.b + sheet_low - net_low, s.kind};
  return out;
}

double furthest(const std::vector<Segment>& of, const std::vector<Segment>& from) {
  double worst = 0;
  for (const Segment& s : of) {
    for (int i = 0; i <= 20; ++i)
      worst = std::max(worst, nearest(s.a + (s.b - s.a) * (i / 20.0), from, s.kind));
  }
  return worst;
}

void expect_templates(const engine::Planned& planned) {
  const draw::Document document = compose(sources_of(planned));
  for (const job::Piece& piece : planned.plan.pieces) {
    if (piece.kind != "soaker" && piece.kind != "step-flashing") continue;
    std::vector<Tile> tiles;
    const std::string title =
        planned.catalogue.say("sheet.template", {{"mark", piece.mark, ""}}, job::ShownIn::mm);
    for (const draw::Page& page : document.pages) {
      if (page.title == title) tiles.push_back(tile_of(page, piece.mark));
    }
    ASSERT_FALSE(tiles.empty()) << piece.mark;
    const std::vector<Segment> sheet = glued(tiles);
    ASSERT_FALSE(sheet.empty()) << piece.mark << ": the pages do not hang together";
    const std::vector<Segment> net = net_segments(piece.net);
    double best = 1e9;
    for (const bool turned : {false, true}) {
      const std::vector<Segment> laid = laid_like(net, sheet, turned);
      best = std::min(best, std::max(furthest(sheet, laid), furthest(laid, sheet)));
    }
    EXPECT_LT(best, 0.1) << piece.mark << " of " << tiles.size() << " pages";
  }
}

TEST(Templates, glued_by_their_marks_are_the_net) {
  const auto planned = engine::plan_job(bytes_of("data/demo/hollin-barn.json"));
  ASSERT_TRUE(planned);
  expect_templates(*planned);
}

TEST(Templates, hold_for_random_jobs) {
  Generator g(11);
  for (int i = 0; i < 12; ++i) {
    const auto planned = engine::plan_job(random_job(g));
    if (planned) expect_templates(*planned);
    if (HasFatalFailure()) break;
  }
}

TEST(Patterns, are_the_net_in_true_mm) {
  const auto planned = engine::plan_job(bytes_of("data/demo/hollin-barn.json"));
  ASSERT_TRUE(planned);
  const std::vector<NamedDrawing> all = patterns(sources_of(*planned));
  std::size_t found = 0;
  for (const job::Piece& piece : planned->plan.pieces) {
    for (const NamedDrawing& drawing : all) {
      if (drawing.title != piece.mark) continue;
      ++found;
      const draw::Box box = draw::extents_of_points(drawing.drawing);
      const geom::Box net = geom::bounds(piece.net.outline);
      EXPECT_NEAR(box.width(), geom::to_length(net.width()).in_mm(), 1e-6);
      EXPECT_NEAR(box.height(), geom::to_length(net.height()).in_mm(), 1e-6);
      for (const draw::Item& item : drawing.drawing.items()) {
        const auto* path = std::get_if<draw::Path>(&item);
        ASSERT_NE(path, nullptr) << "a pattern holds lines alone";
        EXPECT_TRUE(path->stroke && (path->stroke->kind == draw::LineKind::cut ||
                                     path->stroke->kind == draw::LineKind::fold));
      }
    }
  }
  EXPECT_EQ(found, planned->plan.pieces.size());
}

}  // namespace

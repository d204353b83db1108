// Where water gets to on a slope, and whether it gets through: an exact reachability over placed sheets.
//
// The model (docs/water.md says why, and what it leaves out):
//  - Sheets (units and lead) lie in a stack. Rain wets the topmost one at every point, gaps included.
//  - On a sheet water runs down within ±φ of the line of fall, whatever lies on top of it.
//  - At an open side, a tail, a head or a hole it drops to the highest sheet below it at that spot. Where
//  there
//    is none it has leaked, except past the fascia or past an edge that is not ours to judge.
//  - From its last exposed point a path may climb so far in all, straight up; the budget is never renewed
//  under
//    cover.
// What a path can still reach on a sheet is one number at every place along the eaves: how far up it stands
// plus what is left of its climb. Going sideways by d costs d / tan φ of it; dropping to another sheet costs
// nothing. So every sheet carries an upper envelope of straight lines, worked out once, from the top of the
// stack down: nothing is sampled, and no cell size decides.
//
// All lengths mm, in the slope's own frame (u along the eaves, s up the slope).
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace lapwright::check {

// A sheet's outline between two upright lines: from lo up to hi, both straight.
struct Strip {
  double u0 = 0;
  double u1 = 0;
  double lo0 = 0;
  double lo1 = 0;
  double hi0 = 0;
  double hi1 = 0;
};

enum class SheetEdge : std::uint8_t {
  open,     // water that reaches it drops
  barrier,  // an upstand, an interlock, a roll: water is kept on the sheet
};

struct Hole {
  double u = 0;
  double s = 0;
};

struct Sheet {
  std::vector<Strip> strips;  // from left to right, each beginning where the one before ends
  std::int64_t order = 0;     // higher lies over lower
  SheetEdge left = SheetEdge::open;
  SheetEdge right = SheetEdge::open;
  bool turned_up = false;   // where its edge meets masonry it stands up against it
  bool drains = false;      // a gutter: what lands in it is led away
  std::vector<Hole> holes;  // nails through it
  std::size_t owner = 0;    // whose it is; the tracer only hands it back
};

struct Traced {
  std::vector<Sheet> sheets;
  // What has to be dry below. What drops to no sheet outside of this, or below `eaves` (the fascia's face),
  // is not ours to judge.
  std::vector<Strip> ours;
  double eaves = 0;
  // Past the fascia goes what is driven up from it, too: so far up as the climb, and no further than this.
  double driven = 0;
  // What stands through the roof: rain on it is not ours, but a sheet that is not turned up against it lets
  // water down between.
  std::vector<Strip> masonry;
  // Masonry with the gap that units leave beside it: within this, lead that is turned up is dressed round the
  // masonry's corners.
  std::vector<Strip> dressed;
  // Corners that are bossed or welded: closed, though no flat shape shows it.
  std::vector<Strip> closed;
};

struct Weather {
  double drift = 0;  // degrees to either side of the line of fall; below 90
  double climb = 0;  // mm along the sheets
};

struct Spot {
  double u = 0;
  double s = 0;
  std::size_t sheet = 0;  // that it ran on; the number of sheets: bare roof
};

enum class Through : std::uint8_t { bare, side, tail, head, hole };

struct Leak {
  double u = 0;
  double s = 0;
  Through through = Through::bare;
  std::vector<Spot> path;  // from where it was last rained on, to the leak
};

// What of a sheet is wet: of one upright strip of it, up to the line from s0 to s1.
struct Wet {
  std::size_t sheet = 0;
  double u0 = 0;
  double u1 = 0;
  double s0 = 0;
  double s1 = 0;
};

class Tracer {
 public:
  explicit Tracer(Traced traced);

  const Traced& traced() const { return traced_; }
  // Whether it stays dry: stops at the first leak.
  bool stands(Weather weather) const;
  // Every leak, one for each sheet edge and hole that lets through and each bare place, lowest first.
  std::vector<Leak> leaks(Weather weather) const;
  std::vector<Wet> wet(Weather weather) const;

  // The greatest drift stood without climb, to 0.02 degrees, up to `most`; less than 0: leaks without any.
  double drift_stood(double most = 85) const;
  // The greatest climb stood at this drift, to 0.1 mm, up to `most`; less than 0: leaks without any.
  double climb_stood(double drift, double most = 500) const;

 private:
  // A place on a sheet's boundary and what lies below it: at one u from s0 up to s1 (a side), or along u0 to
  // u1 where the boundary runs from s0 to s1.
  struct Link {
    Through kind = Through::side;
    double u0 = 0;
    double u1 = 0;
    double s0 = 0;
    double s1 = 0;
    std::int64_t target = -1;
  };
  struct Line {
    double u0 = 0;
    double u1 = 0;
    double v0 = 0;
    double v1 = 0;
  };
  struct Extent {
    double u0 = 1e300;
    double u1 = -1e300;
    double s0 = 1e300;
    double s1 = -1e300;
  };
  // A sheet's extent and its shares of the lists of links and of exposed lines.
  struct Node {
    Extent extent;
    std::size_t link_from = 0;
    std::size_t link_to = 0;
    std::size_t line_from = 0;
    std::size_t line_to = 0;
  };
  class Run;
  static Extent extent_of(const Sheet& sheet);

  void find_nodes();
  void find_bare();
  void expose(std::size_t sheet);
  void link_sides(std::size_t sheet);
  void link_ends(std::size_t sheet);
  void link_holes(std::size_t sheet);
  void link_bound(std::size_t sheet, const Strip& strip, bool head);
  // What lies below this sheet at a spot just past its edge; (in_u, in_s) leads back to just inside of it.
  std::int64_t below(std::size_t sheet, double u, double s, double in_u, double in_s) const;
  std::int64_t highest_under(std::size_t sheet, double u, double s, bool turned_up = false) const;
  std::span<const std::size_t> near(double s) const;

  Traced traced_;
  std::vector<Link> links_;
  std::vector<Line> exposed_;
  std::vector<Node> nodes_;
  std::vector<std::size_t> from_top_;
  std::vector<Leak> bare_;
  double low_ = 0;
  double band_ = 1;
  std::vector<std::vector<std::size_t>> bands_;
};

// Two strips of rectangles are so common that they have a maker.
Strip box(double u0, double u1, double s0, double s1);

}  // namespace lapwright::check

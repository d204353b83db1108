// The survey: what a person measured and chose, as plain structs. Format "lapwright-job/1"
// (docs/job-file.md).
//
// Lengths are already in mm, whatever unit the file used; `shown_in` remembers how the person wants them
// shown. A survey that came through read_survey() holds only finite values within the ranges that the schema
// prints; whether they make a sound roof is for the planner to say.
#pragma once

#include <lapwright/base/fault.h>
#include <lapwright/base/units.h>
#include <lapwright/job/detail_list.h>

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace lapwright::job {

enum class Exposure : std::uint8_t { sheltered, moderate, severe, very_severe };
enum class ShownIn : std::uint8_t { mm, inches };
enum class CoveringKind : std::uint8_t { plain_tile, slate, profiled_tile, flat_tile };
// hung: from pegs or a hook at the head, as old random slates are; it takes no nail allowance from the gauge.
enum class Nailing : std::uint8_t { centre, head, hung };
enum class Made : std::uint8_t { hand, machine };
enum class JunctionKind : std::uint8_t { side, top, stack, pipe, wall };
enum class Hand : std::uint8_t {
  left,
  right
};  // the wall's side of the slope, seen facing the roof from the ground
enum class WallKind : std::uint8_t { brick, stone, render };
enum class HeadFixing : std::uint8_t { hooked, to_the_batten, flush };
enum class FirstUnit : std::uint8_t { unit, unit_and_half };  // what the eaves course begins with at a wall
enum class JoinKind : std::uint8_t { ridge, hip, valley };
// How the line is made: a lead-lined gutter in sight, or units cut to meet over a soaker in every course.
enum class JoinDetail : std::uint8_t { open_valley, mitred };
// The details that the planner has a file for, by its name (cmake/details.cmake).
#define LAPWRIGHT_ENUMERATOR(name, word) name,
enum class Detail : std::uint8_t { LAPWRIGHT_DETAILS(LAPWRIGHT_ENUMERATOR) };
#undef LAPWRIGHT_ENUMERATOR
enum class Corners : std::uint8_t { bossed, welded };
enum class SoakerMetal : std::uint8_t { aluminium, zinc, copper };
// How lead that lies on the roof already differs from what would be laid there.
enum class FoundKind : std::uint8_t {
  missing,
  cut_short,  // at its upper end, by so much
  shifted,    // slid down the slope by so much; less than 0: up
  pierced,    // a nail through it
  lap,        // covers the piece below it by so much only
  reversed,   // lies under the piece below it
  loose,      // not let into the wall
  low,        // its upstand is so high only, square to the roof
  detail,     // the whole junction is made in another way
};
enum class Rain : std::uint8_t { none, light, steady, heavy };

// A change of unit length up the slope. Every set but the last says how many courses it has; the last fills
// the rest.
struct UnitSet {
  Length length;
  std::optional<std::int64_t> courses;
  std::optional<Length> max_gauge;
};

struct Covering {
  CoveringKind kind = CoveringKind::plain_tile;
  Measured<Length> length;  // the longer side, whichever way round the file gave it
  Measured<Length> width;
  Measured<Length> thickness;
  Measured<Length> camber;  // rise of the unit above flat, at its worst place
  std::optional<Length> max_gauge;
  std::optional<Length> headlap;      // where the person fixes it
  std::optional<Length> joint;        // open perp between neighbours
  std::optional<Length> hang;         // from the tail to where the unit bears on its batten (a tile's nib)
  Nailing nailing = Nailing::centre;  // slates only
  Made made = Made::machine;
  FirstUnit first_unit = FirstUnit::unit;
  std::vector<UnitSet> sets;         // diminishing units, eaves first; empty: one length throughout
  std::optional<Length> roll_pitch;  // profiled tiles
  std::optional<Length> roll_depth;
  bool sides_swapped = false;  // the file gave the shorter side as the length
};

struct Wall {
  WallKind kind = WallKind::brick;
  std::optional<Measured<Length>> course;
  std::optional<Measured<Length>> first_joint;  // upright, above the roof's surface at `from`
  std::vector<Measured<Length>> joints;  // measured heights from the same point; replace course + first_joint
  SourceSpot joints_spot;
};

// The gap between the wall and the units beside it, at a place up the slope (a single gap holds everywhere).
struct GapAt {
  std::optional<Length> at;
  Measured<Length> width;
};

// The upright clear height between the roof and what hangs over the wall (a soffit), at a place up the slope.
struct ClearAt {
  Length at;
  Length height;
};

struct Junction {
  std::string name;
  JunctionKind kind = JunctionKind::side;
  Wall wall;
  std::optional<Detail> detail;  // where the person insists
  std::optional<HeadFixing> head_fixing;
  std::optional<std::int64_t> soaker_code;
  std::optional<SoakerMetal> soaker_metal;  // other than lead
  std::optional<std::int64_t> flashing_code;
  std::vector<GapAt> gaps;
  std::vector<ClearAt> clear;  // rising places; linear between them; empty: nothing hangs over the wall

  // side
  Hand hand = Hand::left;
  Length from;               // up the slope, from the tail of the eaves course
  std::optional<Length> to;  // the slope's top edge unless said otherwise

  // stack: middle along the eaves, front face up the slope, level sizes; pipe: at, up, diameter
  std::optional<Length> at;
  std::optional<Length> front;
  std::optional<Length> width;
  std::optional<Length> depth;
  std::optional<std::string> across;  // the other slope's name, when it stands through the ridge
  std::optional<Length> up;
  std::optional<Length> diameter;

  // wall: any line in the slope's plane, (u, s)
  struct LinePoint {
    Length u;
    Length s;
  };
  std::vector<LinePoint> line;
  std::optional<Angle> lean;
  std::optional<Corners> corners;

  SourceSpot spot;
  std::string path;  // JSON path of this junction, for what is found later
};

struct Slope {
  std::string name;
  Measured<Angle> pitch;
  Measured<Length> rafter;         // from the tail of the eaves course to the top edge, up the slope
  Measured<Length> width;          // along the eaves
  std::optional<Length> overhang;  // of the eaves course's tail past the fascia
  std::optional<Angle> faces;      // bearing on plan
  Covering covering;
  std::vector<Junction> junctions;
  SourceSpot spot;
  std::string path;
};

struct Join {
  JoinKind kind = JoinKind::ridge;
  std::vector<std::string> slopes;
  std::optional<JoinDetail> detail;  // where the person insists; a valley is open unless it says otherwise
};

// A practice rule that the job sets its own value for. A bare number is in the rule's own unit when that is
// not a length; a length is in the file's unit or names one.
struct Override {
  std::string rule;
  double number = 0;            // lengths: mm
  bool is_length_text = false;  // the value named a unit of length
  bool is_bare = false;         // a bare number, not yet converted: `number` is as written
  SourceSpot spot;
};

// One line of what was found.
struct AsBuilt {
  FoundKind kind = FoundKind::missing;
  std::string slope;
  std::string junction;
  std::string face;                    // of a junction with several; empty: all of them
  std::string piece;                   // its kind: "soaker"; empty of a detail
  std::optional<std::int64_t> course;  // counted as findings do: 1 is the eaves course
  std::optional<std::int64_t> number;  // of pieces without a course: 1 is the lowest
  std::optional<Length> by;            // cut_short, shifted, lap, low
  std::optional<Length> across;        // pierced: from the wall, or from its left edge
  std::optional<Length> up;            // pierced: from its tail
  std::optional<Detail> detail;
};

// A leak that somebody noted.
struct LeakSeen {
  std::string when;
  std::optional<Angle> wind_from;  // bearing that the wind blew from
  std::optional<Rain> rain;
  std::string where;  // as given
  std::string slope;  // that `where` names, if it names one
  std::string junction;
};

struct Survey {
  std::string title;
  std::optional<std::string> date;  // printed on sheets as given; nothing reads a clock
  std::optional<std::string> measured_by;
  ShownIn shown_in = ShownIn::mm;
  bool unit_is_inches = false;  // of bare numbers in the file
  Exposure exposure = Exposure::moderate;
  bool exposure_given = false;
  std::vector<Override> practice;
  std::vector<std::string> guessed;  // places in the file ("slopes[0].rafter") whose values nobody measured
  std::vector<Slope> slopes;
  std::vector<Join> joins;
  std::vector<AsBuilt> as_built;
  std::vector<LeakSeen> leaks;
};

std::string_view name_of(Exposure v);
std::string_view name_of(ShownIn v);
std::string_view name_of(CoveringKind v);
std::string_view name_of(Nailing v);
std::string_view name_of(Made v);
std::string_view name_of(JunctionKind v);
std::string_view name_of(Hand v);
std::string_view name_of(WallKind v);
std::string_view name_of(HeadFixing v);
std::string_view name_of(FirstUnit v);
std::string_view name_of(JoinKind v);
std::string_view name_of(JoinDetail v);
std::string_view name_of(Detail v);
std::string_view name_of(Corners v);
std::string_view name_of(SoakerMetal v);
std::string_view name_of(FoundKind v);
std::string_view name_of(Rain v);

}  // namespace lapwright::job

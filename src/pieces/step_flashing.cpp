#include "step_flashing.h"

#include "on_face.h"
#include "sheet.h"
#include "soaker.h"
#include "step_net.h"
#include "steps.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>
#include <lapwright/practice/defaults.h>
#include <lapwright/practice/figure.h>

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace lapwright::pieces {

namespace {

using geom::to_grid;
using job::Level;
using practice::Why;

struct Span {
  std::size_t first;  // steps [first, last)
  std::size_t last;
};

// Whole steps, greedily from the bottom: as many as the longest piece holds; the next begins as few steps
// back as give the lap. Empty when one step and its lap are longer than a piece can be.
std::vector<Span> divide(const Steps& steps, Length longest, Length least_lap) {
  std::vector<Span> spans;
  const std::size_t n = steps.steps.size();
  std::size_t first = 0;
  while (true) {
    std::size_t last = first;
    const auto blank = [&](std::size_t to) {
      const Reach reach = reach_of(steps, first, to);
      return reach.high - reach.low;
    };
    while (last < n && blank(last + 1) <= longest + tolerance::kNoise) ++last;
    if (last == first) return {};
    spans.push_back({first, last});
    if (last == n) return spans;
    std::size_t next = last;
    while (next > first && boundary(steps, last) - boundary(steps, next) < least_lap - tolerance::kNoise)
      --next;
    if (next <= first) return {};
    first = next;
  }
}

// Height of the water line at `a`, upright above the roof at the wall's lower end.
double water_line_height(const Steps& steps, Length a) {
  return a.in_mm() * sin(steps.pitch) + steps.water_line.in_mm() * cos(steps.pitch);
}

struct Widths {
  Length needed;
  Length strip;
};

// The flattest that the foot line can be, within the survey's spread.
Angle flattest(const Place& place) {
  return frame_of(place.face, place.slope.pitch.least()).rise_in_face;
}

std::optional<Widths> choose_strip(const Place& place, const Steps& steps, const std::string& where,
                                   job::JunctionPlan& plan) {
  const practice::Pack& pack = place.pack;
  const Length spread = practice::brick_course(place.junction.wall, pack).spread;
  const Length needed =
      steps.water_line + (steps.largest_height + spread + steps.turn_in) * cos(flattest(place));
  const auto strip = pack.next_strip_width(needed - tolerance::kGrid);
  const Length usual = Length::mm(150);
  if (!strip) {
    plan.findings.push_back(
        {Level::wrong,
         "step.no_strip",
         {{"needed", needed.in_mm(), "mm"}, {"joint", steps.largest_height.in_mm(), "mm"}},
         "",
         needed.in_mm(),
         pack.strip_widths().back().in_mm(),
         "geometry",
         where});
    return std::nullopt;
  }
  if (needed > usual + tolerance::kGrid) {
    plan.findings.push_back({Level::note,
                             "step.strip_not_150",
                             {{"needed", needed.in_mm(), "mm"},
                              {"usual", usual.in_mm(), "mm"},
                              {"strip", strip->in_mm(), "mm"},
                              {"joint", (steps.largest_height + spread).in_mm(), "mm"},
                              {"water_line", steps.water_line.in_mm(), "mm"},
                              {"turn_in", steps.turn_in.in_mm(), "mm"},
                              {"pitch", flattest(place).in_degrees(), "deg"}},
                             "",
                             needed.in_mm(),
                             usual.in_mm(),
                             "geometry",
                             where});
  }
  return Widths{needed, *strip};
}

std::vector<job::Figure> figures_of(const Place& place, const Steps& steps, const Span& span,
                                    const Widths& widths) {
  const job::Junction& junction = place.junction;
  const practice::Pack& pack = place.pack;
  std::vector<job::Figure> out;
  const Angle pitch = steps.pitch;
  const Length lower = boundary(steps, span.first);
  const Length upper = boundary(steps, span.last);
  const Reach reach = reach_of(steps, span.first, span.last);
  out.push_back(Why("run", "(zq - zp) / sin(pitch)", "mm")
                    .term("zq", water_line_height(steps, upper), "mm", "water line at the upper end")
                    .term("zp", water_line_height(steps, lower), "mm", "water line at the lower end")
                    .survey("pitch", pitch)
                    .gives(upper - lower));
  out.push_back(Why("length", "run + foot + head", "mm")
                    .term("run", (upper - lower).in_mm(), "mm", "figure run")
                    .term("foot", (lower - reach.low).in_mm(), "mm", "lean of the plumb lower end")
                    .term("head", (reach.high - upper).in_mm(), "mm", "lean of the plumb upper end")
                    .decided_by(practice::longest_flashing(practice::flashing_code(junction, pack), pack))
                    .gives(reach.high - reach.low));
  out.push_back(Why("steps", "n", "")
                    .term("n", static_cast<double>(span.last - span.first), "", "bed joints")
                    .gives(static_cast<double>(span.last - span.first)));
  const Length spread = practice::brick_course(junction.wall, pack).spread;
  const bool square = place.frame.up.z == 1.0;
  Why needed("width_needed", square ? "w + (d + t) * cos(pitch)" : "w / k + (d + t) * cos(pitch)", "mm");
  needed.rule("w", pack.rule("wall.water_line"));
  if (!square) needed.term("k", place.frame.up.z, "", "lean of the face to the roof");
  out.push_back(needed.term("d", (steps.largest_height + spread).in_mm(), "mm", "largest step")
                    .rule("t", pack.rule("step.turn_in"))
                    .survey("pitch", flattest(place))
                    .gives(widths.needed));
  Why strip("width", "strip", "mm");
  strip.term("strip", widths.strip.in_mm(), "mm", "next stocked strip");
  job::Figure strip_figure = strip.gives(widths.strip);
  strip_figure.source = "strip widths as usually stocked; check the merchant's list";
  strip_figure.standing = job::Standing::guide;
  out.push_back(std::move(strip_figure));
  return out;
}

// How far the piece above laps over this one.
job::Figure lap_figure(const Steps& steps, const Span& span, const Span& next, const practice::Pack& pack) {
  const Length upper = boundary(steps, span.last);
  const Length lower = boundary(steps, next.first);
  return Why("lap", "(zq - zr) / sin(pitch)", "mm")
      .term("zq", water_line_height(steps, upper), "mm", "water line at the upper end")
      .term("zr", water_line_height(steps, lower), "mm", "water line where the next piece begins")
      .survey("pitch", steps.pitch)
      .decided_by(pack.rule("flashing.lap_along_wall"))
      .gives(upper - lower);
}

void say_joints(const job::Junction& junction, const Steps& steps, const practice::Pack& pack,
                const std::string& where, job::JunctionPlan& plan) {
  const job::Wall& wall = junction.wall;
  if (wall.joints.empty() && !wall.first_joint) {
    plan.findings.push_back({Level::doubt,
                             "wall.first_joint_assumed",
                             {{"first", practice::brick_course(wall, pack).value.in_mm(), "mm"}},
                             "",
                             std::nullopt,
                             std::nullopt,
                             "survey",
                             where});
  }
  if (wall.joints.empty() && !wall.course) {
    plan.findings.push_back({Level::doubt,
                             "wall.course_assumed",
                             {{"course", pack.number("wall.course"), "mm"}},
                             "",
                             std::nullopt,
                             std::nullopt,
                             pack.rule("wall.course").source,
                             where});
  }
  const Length course = practice::brick_course(wall, pack).most();
  const Length lowest = wall.joints.empty() ? wall.first_joint.value_or(Measured<Length>(course)).value
                                            : wall.joints.front().value;
  // The lowest joint above the roof cannot stand more than a course above it.
  const Length most =
      wall.joints.size() > 1 ? max(course, wall.joints[1].value - wall.joints[0].value) : course;
  if (lowest > most + tolerance::kHandCut) {
    plan.findings.push_back({Level::doubt,
                             "wall.first_joint_high",
                             {{"first", lowest.in_mm(), "mm"}, {"course", most.in_mm(), "mm"}},
                             "",
                             lowest.in_mm(),
                             most.in_mm(),
                             "geometry",
                             where});
  }
  if (steps.joints_skipped > 0) {
    const Length clears = steps.water_line / cos(steps.pitch);
    plan.findings.push_back({Level::note,
                             "step.joints_below_water_line",
                             {{"count", static_cast<double>(steps.joints_skipped), ""},
                              {"clears", clears.in_mm(), "mm"},
                              {"first", steps.steps.front().joint.in_mm(), "mm"}},
                             "",
                             static_cast<double>(steps.joints_skipped),
                             std::nullopt,
                             pack.rule("wall.water_line").source,
                             where});
  }
  for (std::size_t i = 1; i + 1 < steps.steps.size(); ++i) {
    if (steps.steps[i].turned_in) continue;
    plan.findings.push_back(
        {Level::doubt,
         "step.run_too_short",
         {{"joint", steps.steps[i].joint.in_mm(), "mm"}, {"least", pack.number("step.least_run"), "mm"}},
         "",
         std::nullopt,
         pack.number("step.least_run"),
         pack.rule("step.least_run").source,
         where});
    break;
  }
}

// Neighbouring joints must leave room for the turn-in of the lower one under the next edge.
std::optional<Fault> joints_too_close(const job::Junction& junction, const Steps& steps) {
  for (std::size_t i = 1; i < steps.steps.size(); ++i) {
    const Step& step = steps.steps[i];
    if (step.height > steps.turn_in + tolerance::kHandCut) continue;
    return Fault{FaultCode::no_geometry,
                 junction.path + ".wall",
                 junction.wall.joints_spot,
                 "joints at " + trimmed(steps.steps[i - 1].joint.in_mm(), 1) + " and " +
                     trimmed(step.joint.in_mm(), 1) + " mm",
                 "bed joints further apart than the turn-in of " + trimmed(steps.turn_in.in_mm(), 1) +
                     " mm and a cut's width",
                 "check these two heights; each is measured from the same point"};
  }
  return std::nullopt;
}

}  // namespace

Result<void> plan_step_flashings(const Place& place, job::JunctionPlan& plan) {
  const job::Junction& junction = place.junction;
  const practice::Pack& pack = place.pack;
  const std::string where = place.where();
  auto heights = joint_heights(place);
  if (!heights) return failed(std::move(heights.error()));
  const Steps steps = fall_of_steps(*heights, place);
  if (auto fault = joints_too_close(junction, steps)) return failed(std::move(*fault));
  say_joints(junction, steps, pack, where, plan);
  const auto widths = choose_strip(place, steps, where, plan);
  if (!widths) return {};

  const std::int64_t code = practice::flashing_code(junction, pack);
  const practice::Rule& longest_rule = practice::longest_flashing(code, pack);
  const Length longest = Length::mm(longest_rule.value);
  const Length least_lap = pack.length("flashing.lap_along_wall");
  const std::vector<Span> spans = divide(steps, longest, least_lap);
  if (spans.empty()) {
    plan.findings.push_back({Level::wrong,
                             "step.longer_than_piece",
                             {{"longest", longest.in_mm(), "mm"}, {"lap", least_lap.in_mm(), "mm"}},
                             "",
                             std::nullopt,
                             longest.in_mm(),
                             longest_rule.source,
                             where});
    return {};
  }

  const std::size_t first_piece = plan.pieces.size();
  const Length roof = up_the_face(place, finished_face(place.slope.covering));
  for (std::size_t s = 0; s < spans.size(); ++s) {
    const Span& span = spans[s];
    const geom::Net net = for_face(step_net(steps, span.first, span.last), place.face);
    const Reach reach = reach_of(steps, span.first, span.last);
    const Length start = reach.low;
    const Length length = reach.high - reach.low;
    std::size_t index = first_piece;
    while (index < plan.pieces.size() && !geom::same_net(plan.pieces[index].net, net)) ++index;
    if (index == plan.pieces.size()) {
      const geom::GridPoint on_face = step_face_point(steps, span.first, span.last);
      job::Piece piece =
          lead_piece("step-flashing", place, net, for_face(on_face, to_grid(length), place.face));
      piece.length = length;
      piece.width = widths->strip;
      piece.code = code;
      piece.figures = figures_of(place, steps, span, *widths);
      weigh(piece, pack);
      plan.pieces.push_back(std::move(piece));
    }
    job::Piece& piece = plan.pieces[index];
    if (s + 1 < spans.size()) {
      bool has_lap = false;
      for (const job::Figure& f : piece.figures) has_lap = has_lap || f.name == "lap";
      if (!has_lap) piece.figures.push_back(lap_figure(steps, span, spans[s + 1], pack));
    }
    piece.placements.push_back({-2, on_wall(place, start, length, roof + foot_of(steps, span.first))});
    piece.count += 1;
    job::WorkStep work;
    work.slope = place.slope.name;
    work.junction = junction.name;
    work.step = s == 0 ? "work.step_flashing_first" : "work.step_flashing";
    work.params = {{"steps", static_cast<double>(span.last - span.first), ""},
                   {"first_joint", steps.steps[span.first].joint.in_mm(), "mm"},
                   {"last_joint", steps.steps[span.last - 1].joint.in_mm(), "mm"},
                   {"at", (place.face.from.s + start).in_mm(), "mm"},
                   {"turn_in", steps.turn_in.in_mm(), "mm"}};
    if (s > 0) {
      work.params.push_back(
          {"lap", (boundary(steps, spans[s - 1].last) - boundary(steps, span.first)).in_mm(), "mm"});
    }
    plan.work_after_courses.push_back(std::move(work));
    plan.piece_of_work.push_back(static_cast<std::int64_t>(index));
  }
  return {};
}

}  // namespace lapwright::pieces

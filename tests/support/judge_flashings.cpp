// Step and cover flashings, and surveys that make none.
#include "judge_places.h"

#include "planned.h"

#include <algorithm>
#include <vector>

namespace lapwright::sample {

namespace {

// The joints that the survey gives, as far up as the wall's upper end needs.
std::vector<double> joints_of(const Judged& job, const WallPlace& wall, double head) {
  const job::Wall& w = wall.junction->wall;
  const double course = w.course ? mm(w.course->value) : job.pack.number("wall.course");
  std::vector<double> out;
  for (const auto& joint : w.joints) out.push_back(mm(joint.value));
  if (out.empty()) out.push_back(w.first_joint ? mm(w.first_joint->value) : course);
  if (w.joints.empty() || w.course) {
    while (out.back() < head) out.push_back(out.back() + course);
  }
  return out;
}

double course_spread(const WallPlace& wall) {
  return wall.junction->wall.course ? mm(wall.junction->wall.course->spread) : 0;
}

double longest_piece(const Judged& job, std::int64_t code) {
  const double most = job.pack.number("flashing.piece_most");
  return code >= 4 ? most : std::min(most, job.pack.number("flashing.piece_most_code_3"));
}

std::string strip_complaint(const Judged& job, const WallPlace& wall, const job::Piece& piece,
                            double needed) {
  const double width = mm(piece.width);
  double below = 0;
  bool stocked = false;
  for (const Length w : job.pack.strip_widths()) {
    stocked = stocked || mm(w) == width;
    if (mm(w) < width) below = std::max(below, mm(w));
  }
  if (!stocked) return complaint(wall, "strip that nobody stocks", width, 0);
  if (width < needed - kSmall) return complaint(wall, "strip too narrow", width, needed);
  if (below >= needed + kSmall) return complaint(wall, "a narrower strip would do", below, needed);
  return {};
}

// Turn-ins go into the wall, as deep as the rule; where a piece is trimmed square under the next, less.
std::string turn_in_complaint(const WallPlace& wall, const std::vector<geom::Vec3>& panel, double turn_in,
                              bool trimmed = false) {
  const Range u = range_of(panel, &geom::Vec3::x);
  const double out_of_wall = wall.inwards > 0 ? u.high - wall.u : wall.u - u.low;
  const double deepest = wall.inwards > 0 ? wall.u - u.low : u.high - wall.u;
  if (out_of_wall > kTenth) return complaint(wall, "turn-in out of the wall", out_of_wall, kTenth);
  if (deepest > turn_in + kTenth || deepest < (trimmed ? kTenth : turn_in - kTenth))
    return complaint(wall, "turn-in", deepest, turn_in);
  return {};
}

std::string base_complaint(const WallPlace& wall, const Placed& p) {
  const Range u = range_of(p.panels[0], &geom::Vec3::x);
  const double off = std::max(std::fabs(u.low - wall.u), std::fabs(u.high - wall.u));
  if (off > kTenth) return complaint(wall, "off the wall", off, kTenth);
  const Range n = range_of(p.panels[0], &geom::Vec3::z);
  // Only a piece that begins where the wall's plumb end has already cut its foot away hangs above the units.
  const bool has_foot = range_of(p.panels[0], &geom::Vec3::y).low <= wall.to + kTenth;
  if (n.low < wall.face - kTenth || (has_foot && n.low > wall.face + kTenth)) {
    return complaint(wall, "foot off the units", n.low, wall.face);
  }
  return {};
}

// The wall's ends are plumb: nothing stands past them.
std::string ends_complaint(const WallPlace& wall, const Placed& p) {
  for (const auto& panel : p.panels) {
    for (const geom::Vec3& at : panel) {
      const double level = (at.y - wall.from) * wall.cosine - (at.z - wall.face) * wall.sine;
      const double end = (wall.to - wall.from) * wall.cosine;
      if (level < -kTenth || level > end + kTenth) return complaint(wall, "past the wall's end", level, end);
    }
  }
  return {};
}

// The lead's outward face must look to the roof's side.
std::string facing_complaint(const WallPlace& wall, const Placed& p) {
  const double outward = p.frames[0].normal().x * wall.inwards;
  return outward > 0.999 ? std::string() : complaint(wall, "weather face to the wall", outward, 1);
}

}  // namespace

std::string steps_complaint(const Judged& job) {
  const double water = job.pack.number("wall.water_line");
  const double turn_in = job.pack.number("step.turn_in");
  const double least_run = job.pack.number("step.least_run");
  const double least_lap = job.pack.number("flashing.lap_along_wall");
  for (const WallPlace& wall : walls_of(job)) {
    const std::vector<Placed> pieces = placed_at(job, wall, "step-flashing");
    if (pieces.empty()) continue;
    const double run = wall.to - wall.from;
    const double clears =
        water / wall.cosine;  // upright, where the water line meets the wall's plumb lower end
    const std::vector<double> joints = joints_of(job, wall, run * wall.sine + clears);
    // The joints that can be turned into: those that clear the water line and have a level edge long enough
    // to fold.
    std::vector<double> wanted;
    double largest = 0;
    double below = clears;
    for (const double z : joints) {
      if (z <= clears + 1e-3) continue;
      const double edge = (std::min(z, run * wall.sine + clears) - below) / wall.sine * wall.cosine;
      if (edge >= least_run) {
        wanted.push_back(z);
        largest = std::max(largest, z - below);
      }
      below = z;
      if (z >= run * wall.sine + clears - 1e-3) break;
    }
    std::vector<double> folded;
    double runs = 0;
    double laps = 0;
    double end_before = 0;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      const Placed& p = pieces[i];
      const job::Piece& piece = *p.piece;
      if (std::string c = base_complaint(wall, p); !c.empty()) return c;
      if (std::string c = facing_complaint(wall, p); !c.empty()) return c;
      if (std::string c = ends_complaint(wall, p); !c.empty()) return c;
      const double most = longest_piece(job, *piece.code);
      if (mm(piece.length) > most + kSmall) return complaint(wall, "piece too long", mm(piece.length), most);
      for (std::size_t f = 1; f < p.panels.size(); ++f) {
        const double highest = range_of(p.panels[f], &geom::Vec3::y).high;
        bool is_top = true;
        for (std::size_t g = 1; g < p.panels.size(); ++g) {
          is_top = is_top && range_of(p.panels[g], &geom::Vec3::y).high <= highest;
        }
        const bool trimmed = is_top && i + 1 < pieces.size();
        if (std::string c = turn_in_complaint(wall, p.panels[f], turn_in, trimmed); !c.empty()) return c;
        const geom::Fold& fold = piece.net.folds[*p.flat[f].hinge];
        double joint = 0;
        for (const geom::GridPoint g : {fold.from, fold.to}) {
          const geom::Vec3 at =
              p.frames[0].at(static_cast<double>(g.x) / 1000, static_cast<double>(g.y) / 1000);
          if (at.z - wall.face < water - kTenth)
            return complaint(wall, "step below the water line", at.z - wall.face, water);
          joint = upright(wall, at);
        }
        for (const geom::Vec3& corner : p.panels[f]) {
          if (std::fabs(upright(wall, corner) - joint) > kTenth) {
            return complaint(wall, "turn-in not level", upright(wall, corner), joint);
          }
        }
        double nearest = 1e9;
        for (const double z : joints) nearest = std::min(nearest, std::fabs(z - joint));
        if (nearest > kTenth) return complaint(wall, "step beside the joint", joint, joint + nearest);
        folded.push_back(joint);
      }
      const double piece_run = figure_value(piece.figures, "run");
      runs += piece_run;
      if (i + 1 < pieces.size()) {
        const double lap = figure_value(piece.figures, "lap");
        if (!(lap >= least_lap - kNoise)) return complaint(wall, "lap", lap, least_lap);
        laps += lap;
      }
      // Where it begins on the water line, found on the net: the lowest riser's foot.
      double begins = 1e18;
      for (const geom::GridPoint g : piece.net.outline) {
        const geom::Vec3 at =
            p.frames[0].at(static_cast<double>(g.x) / 1000, static_cast<double>(g.y) / 1000);
        if (std::fabs(at.z - wall.face - water) < 2e-3) begins = std::min(begins, at.y);
      }
      if (i == 0) {
        const double start = wall.from + water * wall.sine / wall.cosine;
        if (std::fabs(begins - start) > kSmall) return complaint(wall, "first piece begins", begins, start);
      } else if (std::fabs(end_before - figure_value(pieces[i - 1].piece->figures, "lap") - begins) >
                 kSmall) {
        return complaint(wall, "piece begins", begins, end_before);
      }
      end_before = begins + piece_run;
    }
    if (std::fabs(runs - laps - run) > kSmall) return complaint(wall, "runs less laps", runs - laps, run);
    std::sort(folded.begin(), folded.end());
    std::vector<double> distinct;
    for (const double z : folded) {
      if (distinct.empty() || z - distinct.back() > 1) distinct.push_back(z);
    }
    if (distinct.size() != wanted.size()) {
      return complaint(wall, "joints turned into", static_cast<double>(distinct.size()),
                       static_cast<double>(wanted.size()));
    }
    for (std::size_t i = 0; i < wanted.size(); ++i) {
      if (std::fabs(distinct[i] - wanted[i]) > kTenth)
        return complaint(wall, "joint", distinct[i], wanted[i]);
    }
    const double flattest =
        (wall.slope->pitch.value.in_degrees() - wall.slope->pitch.spread.in_degrees()) * kRadian;
    const double needed = water + (largest + course_spread(wall) + turn_in) * std::cos(flattest);
    if (std::string c = strip_complaint(job, wall, *pieces[0].piece, needed); !c.empty()) return c;
  }
  return {};
}

std::string covers_complaint(const Judged& job) {
  const double height = job.pack.number("chase.height");
  const double turn_in = job.pack.number("step.turn_in");
  const double lap = job.pack.number("flashing.lap_along_wall");
  for (const WallPlace& wall : walls_of(job)) {
    const std::vector<Placed> pieces = placed_at(job, wall, "cover-flashing");
    double reached = wall.from + lap;
    for (const Placed& p : pieces) {
      const job::Piece& piece = *p.piece;
      if (std::string c = base_complaint(wall, p); !c.empty()) return c;
      if (std::string c = facing_complaint(wall, p); !c.empty()) return c;
      const double most = longest_piece(job, *piece.code);
      if (mm(piece.length) > most + kSmall) return complaint(wall, "piece too long", mm(piece.length), most);
      const Range along = range_of(p.panels[0], &geom::Vec3::y);
      if (std::fabs(along.low - (reached - lap)) > kSmall)
        return complaint(wall, "lap of covers", along.low, reached - lap);
      reached = along.high;
      if (p.panels.size() != 2)
        return complaint(wall, "panels of a cover", static_cast<double>(p.panels.size()), 2);
      if (std::string c = turn_in_complaint(wall, p.panels[1], turn_in); !c.empty()) return c;
      for (const geom::Vec3& corner : p.panels[1]) {
        if (std::fabs(corner.z - wall.face - height) > kTenth)
          return complaint(wall, "chase", corner.z - wall.face, height);
      }
      if (std::string c = strip_complaint(job, wall, piece, height + turn_in); !c.empty()) return c;
    }
    if (!pieces.empty() && std::fabs(reached - wall.to) > kSmall)
      return complaint(wall, "covers end", reached, wall.to);
  }
  return {};
}

namespace {

std::string sets_refusal(const job::Survey& survey, const practice::Pack& pack) {
  for (const job::Slope& slope : survey.slopes) {
    const job::Covering& c = slope.covering;
    const bool head = c.kind == job::CoveringKind::slate && c.nailing == job::Nailing::head;
    double least_headlap = 500;
    if (c.headlap) {
      least_headlap = mm(*c.headlap);
    } else if (c.kind == job::CoveringKind::slate) {
      for (const auto& a :
           pack.slate_headlaps(c.length.value, c.width.value, slope.pitch.value, survey.exposure)) {
        if (a.headlap) least_headlap = std::min(least_headlap, mm(*a.headlap));
      }
    }
    double up = 0;
    for (const job::UnitSet& set : c.sets) {
      double gauge = (mm(set.length) - least_headlap - (head ? pack.number("slate.head_nail") : 0)) / 2;
      if (set.max_gauge) gauge = std::min(gauge, mm(*set.max_gauge));
      if (!set.max_gauge && c.max_gauge) gauge = std::min(gauge, mm(*c.max_gauge));
      up += gauge * static_cast<double>(set.courses.value_or(0));
    }
    if (up >= mm(slope.rafter.value) - kNoise) return {};
  }
  return "sets refused that leave room for the last";
}

}  // namespace

std::string refusal_complaint(const job::Survey& survey, const practice::Pack& pack, const Fault& fault) {
  if (fault.code != FaultCode::no_geometry || fault.path.empty() || fault.accepted.empty() ||
      fault.mend.empty()) {
    return "an unfit fault: " + to_line(fault);
  }
  if (fault.path.ends_with(".covering.sets")) return sets_refusal(survey, pack);
  const job::Plan none;
  const Judged job{survey, pack, none};
  for (const WallPlace& wall : walls_of(job)) {
    if (!fault.path.starts_with(wall.junction->path + ".wall")) continue;
    const double run = wall.to - wall.from;
    const double clears = pack.number("wall.water_line") / wall.cosine;
    const double head = run * wall.sine + clears;
    const std::vector<double> joints = joints_of(job, wall, head);
    if (fault.path.ends_with(".joints")) {
      if (joints.back() < head || mm(wall.junction->wall.joints.back().value) <= clears) return {};
      return "joints refused that reach far enough: " + to_line(fault);
    }
    double least = 1e9;
    for (std::size_t i = 1; i < joints.size(); ++i) least = std::min(least, joints[i] - joints[i - 1]);
    const double room = pack.number("step.turn_in") + 3;
    return least <= room + kSmall ? std::string() : "joints refused that stand apart: " + to_line(fault);
  }
  return "a fault of no known kind: " + to_line(fault);
}

}  // namespace lapwright::sample

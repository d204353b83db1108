// The order of work in large type, a picture beside each step; like courses stand in one row.
#include "bends.h"
#include "pages.h"
#include "solid.h"

#include <lapwright/draw/font.h>
#include <lapwright/draw/symbols.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace lapwright::sheets {

namespace {

using draw::LineKind;
using draw::Point;
using draw::pt;

struct Task {
  const job::WorkStep* step = nullptr;
  std::vector<std::int64_t> courses;  // numbered from 1; empty when it is not one of many
};

bool same_but_number(const job::WorkStep& a, const job::WorkStep& b) {
  if (a.slope != b.slope || a.junction != b.junction || a.step != b.step || a.mark != b.mark ||
      a.params.size() != b.params.size()) {
    return false;
  }
  for (std::size_t i = 0; i < a.params.size(); ++i) {
    if (a.params[i].name != b.params[i].name) return false;
    if (a.params[i].name != "number" && a.params[i].value != b.params[i].value) return false;
  }
  return true;
}

std::vector<Task> tasks_of(const job::Plan& plan) {
  std::vector<Task> out;
  for (const job::WorkStep& step : plan.order_of_work) {
    if (step.step == "work.course" || step.step == "work.course_at_face") {
      const auto like = std::find_if(out.begin(), out.end(), [&](const Task& task) {
        return !task.courses.empty() && same_but_number(*task.step, step);
      });
      if (like != out.end()) {
        like->courses.push_back(step.course + 1);
        continue;
      }
      out.push_back({&step, {step.course + 1}});
    } else {
      out.push_back({&step, {}});
    }
  }
  return out;
}

// "3, 5, 7 … 35": runs of equal stride are told by their first three and their last.
std::string numbers(const std::vector<std::int64_t>& of) {
  std::string out;
  std::size_t i = 0;
  while (i < of.size()) {
    std::size_t end = i + 1;
    if (end < of.size()) {
      const std::int64_t stride = of[end] - of[i];
      while (end + 1 < of.size() && of[end + 1] - of[end] == stride) ++end;
    }
    const std::size_t run = std::min(end, of.size() - 1) - i + 1;
    constexpr std::size_t kTold = 5;
    if (run >= kTold) {
      out += (out.empty() ? "" : ", ") + std::to_string(of[i]) + ", " + std::to_string(of[i + 1]) + ", " +
             std::to_string(of[i + 2]) + " … " + std::to_string(of[i + run - 1]);
      i += run;
    } else {
      out += (out.empty() ? "" : ", ") + std::to_string(of[i]);
      ++i;
    }
  }
  return out;
}

std::string task_text(const Words& words, const Task& task) {
  if (task.courses.size() < 2) return task.step->text;
  job::Params params = task.step->params;
  for (job::Param& param : params) {
    if (param.unit == "key") {
      param.value = words.say(std::get<std::string>(param.value), task.step->params);
      param.unit.clear();
    }
    if (param.name == "number") {
      param.value = numbers(task.courses);
      param.unit.clear();
    }
  }
  params.push_back({"mark", task.step->mark, ""});
  params.push_back({"junction", task.step->junction, ""});
  params.push_back({"slope", task.step->slope, ""});
  return words.say(task.step->step == "work.course" ? "sheet.work.courses" : "sheet.work.courses_at_face",
                   params);
}

constexpr double kWide = 44;
constexpr double kHigh = 22;

// Seen from above, the wall on its own side: what lies there already, the lead, and what goes over it.
draw::Drawing course_picture(bool left, bool first) {
  draw::Drawing out;
  const auto box = [&](double x, double y, double w, double h, LineKind kind) {
    return draw::rectangle(left ? x : kWide - x - w, y, w, h, kind);
  };
  draw::Path wall = box(0, 0, 5, kHigh, LineKind::outline);
  wall.fill = draw::Fill::hatched(draw::HatchKind::brick);
  out.add(std::move(wall));
  for (int i = 0; i < 2; ++i) {
    draw::Path below = box(6 + 19.0 * i, first ? 2 : 0, 18.5, 13, LineKind::thin);
    below.fill = draw::Fill::white();
    out.add(std::move(below));
  }
  draw::Path soaker = box(5, 4.5, 11, 11, LineKind::outline);
  soaker.fill = draw::Fill::level(0.72);
  out.add(std::move(soaker));
  draw::Path upstand = box(4.2, 4.5, 1.4, 11, LineKind::outline);
  upstand.fill = draw::Fill::black();
  out.add(std::move(upstand));
  out.add(box(6, 3.5, 28, 17, LineKind::hidden));
  const Point from{left ? 40.0 : kWide - 40, 19};
  const Point to{left ? 34.8 : kWide - 34.8, 13};
  out.add(draw::arrow(from, to, LineKind::thin));
  return out;
}

draw::Drawing steps_picture(bool left, bool stepped) {
  draw::Drawing out;
  const auto p = [&](double x, double y) { return Point{left ? x : kWide - x, y}; };
  std::vector<Point> lead{p(2, 1), p(42, 15)};
  if (stepped) {
    for (int i = 4; i >= 0; --i) {
      const double x = 2 + 8.0 * i;
      const double base = 1 + 0.35 * 8 * i;
      lead.push_back(p(x + 8, base + 5.8));
      lead.push_back(p(x, base + 5.8));
    }
  } else {
    lead.push_back(p(42, 20));
    lead.push_back(p(2, 6));
  }
  draw::Path sheet = draw::polygon(lead, LineKind::outline);
  sheet.fill = draw::Fill::level(0.72);
  out.add(std::move(sheet));
  if (stepped) {
    for (int i = 0; i < 5; ++i) {
      const double y = 6.8 + 2.8 * i;
      const double x = 2 + 8.0 * i;
      out.add(draw::line(p(std::max(0.0, x - 12), y), p(x, y), LineKind::thin));
    }
  } else {
    draw::Path chase = draw::line(p(2, 6), p(42, 20));
    chase.stroke = draw::Stroke{LineKind::heavy, 0.9};
    out.add(std::move(chase));
  }
  return out;
}

draw::Drawing battens_picture(bool with_units) {
  draw::Drawing out;
  for (int i = 0; i < 4; ++i) {
    if (with_units) {
      if (i > 0) continue;
      for (int unit = 0; unit < 5; ++unit)
        out.add(draw::rectangle(2 + 8.0 * unit, 6, 7.6, 10, LineKind::outline));
      continue;
    }
    draw::Path batten = draw::rectangle(2, 2 + 5.0 * i, 40, 2, LineKind::outline);
    batten.fill = draw::Fill::hatched(draw::HatchKind::timber);
    out.add(std::move(batten));
  }
  return out;
}

std::vector<Point> flat_ring(const geom::Ring& ring) {
  std::vector<Point> out;
  for (const geom::GridPoint& p : ring)
    out.push_back({geom::to_length(p.x).in_mm(), geom::to_length(p.y).in_mm()});
  return out;
}

// The piece as it stands, seen along its first fold: how it is bent and which way up it goes. A flat one is
// shown flat.
draw::Drawing profile(const Sources& sources, const job::Piece& piece) {
  draw::Drawing whole;
  const std::vector<PlacedPiece> all = in_place(piece);
  const job::Slope* slope = slope_of(sources.survey, piece.slope);
  if (all.empty() || slope == nullptr) return {};
  const PlacedPiece& one = all.front();
  if (piece.net.folds.empty() || rolled(piece.net, 0)) {
    draw::Path sheet = draw::polygon(flat_ring(piece.net.outline), LineKind::outline);
    sheet.fill = draw::Fill::level(0.72);
    whole.add(std::move(sheet));
  } else {
    const geom::Fold& fold = piece.net.folds.front();
    const geom::Frame& frame = one.frames.front();
    const geom::Vec3 along =
        geom::unit(in_space(frame, {fold.to}).front() - in_space(frame, {fold.from}).front());
    // Never straight up: a pipe's folds are, and are shown flat above.
    const geom::Vec3 up = upright(slope->pitch.value);
    constexpr double kSteep = 0.95;
    const bool steep = std::abs(dot(along, up)) > kSteep;
    const View view =
        view_of(one.placement->frame.origin, steep ? geom::Vec3{1, 0, 0} : along, slope->pitch.value);
    for (std::size_t i = 0; i < one.panels.size(); ++i) {
      std::vector<Point> ring;
      for (const geom::Vec3& p : corners(one, i)) ring.push_back(view.flat(p));
      draw::Path sheet = draw::polygon(ring, LineKind::heavy);
      sheet.stroke = draw::Stroke{LineKind::heavy, 0.7};
      whole.add(std::move(sheet));
    }
  }
  const draw::Box box = draw::extents_of_points(whole);
  const double scale =
      std::min((kWide - 4) / std::max(1.0, box.width()), (kHigh - 3) / std::max(1.0, box.height()));
  draw::Drawing out;
  out.add(whole, {.move = Point{kWide / 2, kHigh / 2} -
                          Point{(box.left + box.right) / 2, (box.bottom + box.top) / 2} * scale,
                  .scale = scale});
  return out;
}

// Which side of the roof beside it the masonry stands on: at a stack's left side, the right.
bool wall_at_left(const Sources& sources, const job::WorkStep& step) {
  const job::Slope* slope = slope_of(sources.survey, step.slope);
  if (slope == nullptr) return true;
  std::string face_named;
  for (const job::Param& param : step.params) {
    if (param.name == "face" && std::holds_alternative<std::string>(param.value))
      face_named = std::get<std::string>(param.value);
  }
  for (const job::Junction& junction : junctions_on(sources.survey, *slope)) {
    if (junction.name != step.junction) continue;
    for (const job::Face& face : straight_faces(*slope, junction)) {
      if (face.name == face_named) return face.hand == job::Hand::left;
    }
  }
  return true;
}

draw::Drawing picture(const Sources& sources, const job::WorkStep& step) {
  const bool left = wall_at_left(sources, step);
  if (step.step.starts_with("work.course")) return course_picture(left, step.step == "work.course_first");
  if (step.step.starts_with("work.step_flashing")) return steps_picture(left, true);
  if (step.step.starts_with("work.cover_flashing")) return steps_picture(left, false);
  if (step.step == "work.set_out") return battens_picture(false);
  if (step.step == "work.under_course") return battens_picture(true);
  for (const job::Piece& piece : sources.plan.pieces) {
    if (!step.mark.empty() && piece.mark == step.mark && piece.slope == step.slope &&
        piece.junction == step.junction)
      return profile(sources, piece);
  }
  return {};
}

// What is wrong or doubtful at a junction stands before the first step there.
void warn(Flow& flow, const Words& words, const job::Plan& plan, const job::WorkStep& step) {
  if (step.junction.empty()) return;
  for (const job::Finding* finding : warnings_at(plan, {{step.slope, step.junction}})) {
    draw::Drawing& page = flow.need(draw::line_height(kNumber) * 3);
    page.add(level_shape(finding->level, {kArea.left + 4, flow.y() - draw::line_height(kNumber) / 2}));
    flow.paragraph(words.say("level." + std::string(name_of(finding->level))) + ": " + finding->where + ": " +
                       finding->text,
                   kNumber, 9,
                   finding->level == job::Level::wrong ? draw::Weight::bold : draw::Weight::regular);
    flow.gap(1);
  }
}

}  // namespace

void add_fitting_list(Sheets& sheets) {
  const Words& words = sheets.words();
  const std::vector<Task> tasks = tasks_of(sheets.sources().plan);
  if (tasks.empty()) return;
  const double size = pt(14);
  const double line = draw::line_height(size);
  Flow flow(sheets, words.say("sheet.fitting"));
  flow.paragraph(words.say("sheet.fitting_note"));
  flow.gap(2);
  std::set<std::pair<std::string, std::string>> begun;
  for (const Task& task : tasks) {
    if (begun.insert({task.step->slope, task.step->junction}).second)
      warn(flow, words, sheets.sources().plan, *task.step);
    const double left = kArea.left + 19;
    const double wide = kArea.width() - 19 - kWide - 8;
    const std::vector<std::string> lines = draw::wrapped(task_text(words, task), wide, size);
    // A step's words are kept together unless they alone fill a page.
    const double all = line * static_cast<double>(lines.size()) + 5;
    const double high = std::max(all, kHigh + 5);
    flow.need(std::min(high, kArea.height() - 6));
    draw::Drawing& page = sheets.page();
    const double top = flow.y();
    page.add(draw::line({kArea.left, top}, {kArea.right, top}, LineKind::thin));
    page.add(draw::rectangle(kArea.left + 1, top - 9, 6, 6, LineKind::outline));
    if (!task.step->mark.empty()) {
      const double most = 8;
      double mark_size = pt(18);
      while (draw::ring_radius(task.step->mark, mark_size) > most) mark_size *= 0.9;
      page.add(draw::ringed_mark({kArea.left + 9, top - 19}, task.step->mark, mark_size));
    }
    page.add(picture(sheets.sources(), *task.step), {.move = {kArea.right - kWide - 2, top - kHigh - 2.5}});
    double y = top - line - 1;
    std::size_t said = 0;
    for (const std::string& text : lines) {
      if (y < kArea.bottom + 1) break;
      page.add(text_at(text, {left, y}, size));
      y -= line;
      ++said;
    }
    flow.gap(said == lines.size() ? high : kArea.height());
    for (; said < lines.size(); ++said) {
      flow.paragraph(lines[said], size, 19);
    }
  }
}

}  // namespace lapwright::sheets

#include "parts.h"

#include <lapwright/base/numbers.h>

#include <cmath>
#include <string>

namespace lapwright::estimate {

namespace {

using practice::Why;

// Counts that hours are made of: pieces, or millimetres of their lengths.
struct Counts {
  double soakers = 0;
  double steps = 0;
  double covers = 0;
  double aprons = 0;
  double back_gutters = 0;
  double saddles = 0;
  double welded = 0;
  double bossed = 0;
  double valleys = 0;
  double secret_gutters = 0;
  double pipes = 0;
  double other = 0;
};

Counts count(const Sources& sources) {
  Counts out;
  for (const job::Piece* at : sources.pieces) {
    const job::Piece& piece = *at;
    const auto n = static_cast<double>(piece.count);
    const double length = piece.length.in_mm() * n;
    if (piece.kind == "soaker" || piece.kind == "mitred-soaker") {
      out.soakers += n;
    } else if (piece.kind == "step-flashing" || piece.kind == "step-and-cover") {
      out.steps += length;
    } else if (piece.kind == "cover-flashing" || piece.kind == "cheek-flashing") {
      out.covers += length;
    } else if (piece.kind == "apron") {
      out.aprons += length;
    } else if (piece.kind == "back-gutter") {
      out.back_gutters += n;
    } else if (piece.kind == "saddle" || piece.kind == "valley-saddle") {
      out.saddles += n;
    } else if (piece.kind == "corner" || piece.kind == "gusset") {
      out.welded += n;
    } else if (piece.kind == "valley") {
      out.valleys += length;
    } else if (piece.kind == "secret-gutter") {
      out.secret_gutters += length;
    } else if (piece.kind == "pipe-slate") {
      out.pipes += n;
    } else if (piece.kind != "pipe-sleeve") {
      out.other += n;  // a sleeve is part of its pipe slate
    }
    for (const geom::Cut& cut : piece.net.cuts) {
      if (cut.worked) out.bossed += n;
    }
  }
  return out;
}

}  // namespace

void add_labour(const Sources& sources, Lines& lines) {
  const practice::Pack& pack = sources.pack;
  if (sources.pieces.empty()) return;
  const Counts counts = count(sources);
  double hours = 0;
  const auto each = [&](std::string_view item, double n) {
    const practice::Rule& minutes = pack.rule(item);
    const double h = n * minutes.value / 60;
    hours += h;
    lines.add("labour", "",
              Why(item, "n * m / 60", "h").term("n", n, "", kFromPieces).rule("m", minutes).gives(h),
              {{"n", n, ""}, {"minutes", minutes.value, "min"}});
  };
  const auto metre = [&](std::string_view item, double mm, std::string_view from = kFromPieces) {
    const practice::Rule& minutes = pack.rule(item);
    const double h = mm / 1000 * minutes.value / 60;
    hours += h;
    lines.add("labour", "",
              Why(item, "l / 1000 * m / 60", "h").term("l", mm, "mm", from).rule("m", minutes).gives(h),
              {{"n", mm / 1000, "m"}, {"minutes", minutes.value, "min"}});
  };
  each("labour.setting_up", 1);
  each("labour.soaker", counts.soakers);
  metre("labour.step", counts.steps);
  metre("labour.cover", counts.covers);
  metre("labour.apron", counts.aprons);
  each("labour.back_gutter", counts.back_gutters);
  each("labour.saddle", counts.saddles);
  each("labour.corner_bossed", counts.bossed);
  each("labour.corner_welded", counts.welded);
  metre("labour.valley", counts.valleys);
  metre("labour.secret_gutter", counts.secret_gutters);
  each("labour.pipe", counts.pipes);
  each("labour.other_piece", counts.other);
  double raked = 0;
  double chased = 0;
  for (const job::EstimateLine& line : lines.all()) {
    if (line.item == "finishing.rake_out") raked = line.quantity * 1000;
    if (line.item == "finishing.chase") chased = line.quantity * 1000;
  }
  metre("labour.joint", raked, "turn-ins");
  metre("labour.chase", chased, "turn-ins");

  const practice::Rule& crew = pack.rule("labour.crew");
  const practice::Rule& day = pack.rule("labour.hours_a_day");
  const double days = static_cast<double>(whole_up(hours / (crew.value * day.value) * 2)) / 2;
  lines.add("labour", "",
            Why("labour.days", "ceil(h / (c * d) * 2) / 2", "days")
                .term("h", hours, "h", kFromLines)
                .rule("c", crew)
                .rule("d", day)
                .gives(days),
            {{"hours", hours, "h"}, {"crew", crew.value, ""}});
  const practice::Rule& week = pack.rule("access.days_a_week");
  lines.add("access", "",
            Why("access.scaffold", "ceil(d / w)", "weeks")
                .term("d", days, "days", kFromLines)
                .rule("w", week)
                .gives(static_cast<double>(whole_up(days / week.value))));
}

}  // namespace lapwright::estimate

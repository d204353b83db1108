#include "layout.h"

#include "grid.h"

#include <algorithm>

namespace lapwright::cutting {

namespace {

// "a" to "z", then "aa".
std::string letters(std::size_t n) {
  std::string out;
  for (++n; n > 0; n = (n - 1) / 26) out.insert(out.begin(), static_cast<char>('a' + (n - 1) % 26));
  return out;
}

Length mm(std::int32_t value) {
  return Length::mm(value);
}

class Layout {
 public:
  Layout(const Pattern& pattern, const Pieces& pieces, std::int32_t width, std::int32_t length)
      : pattern_(pattern), pieces_(pieces), width_(width), length_(length) {}

  job::CutRoll run() {
    std::size_t number = 0;
    job::CutStep step{"roll", job::CutWay::across, {}, {}, 0};
    std::vector<std::pair<const Section*, std::string>> later;
    std::int32_t x = 0;
    // A section's strips fill it or leave an edge over; the part's own length is without the kerf.
    for (const Section& section : pattern_.sections) {
      const std::int32_t long_as = std::min(section.length - pieces_.kerf, length_);
      const bool all = long_as == length_;
      std::string name = whole(section, all);
      if (name.empty()) name = all ? "roll" : letters(number++);
      for (std::int32_t i = 0; i < section.copies; ++i) {
        place(section, x, long_as);
        mark(step, x + long_as, length_, name);
        x += long_as + pieces_.kerf;
      }
      if (whole(section, all).empty()) {
        later.emplace_back(&section, name);
      } else {
        teeth(section.strips.front().cells.front(), name);
      }
    }
    rest(step, x, length_);
    if (x < length_) left(x, 0, length_ - x, width_);
    finish(std::move(step));
    for (const auto& [section, name] : later) cut_section(*section, name);
    return std::move(out_);
  }

 private:
  const Fitting& fitting(const Cell& cell) const {
    return pieces_.fittings[static_cast<std::size_t>(cell.option)];
  }
  std::int32_t long_of(const Cell& cell) const { return lies_along(fitting(cell).option, cell.turned); }
  std::int32_t wide_of(const Cell& cell) const { return lies_across(fitting(cell).option, cell.turned); }

  // The last name of a cell: its mark, or of a pair both.
  std::string name_of(const Cell& cell) const {
    std::string out;
    for (const Member& member : fitting(cell).members) {
      out += (out.empty() ? "" : "+") + pieces_.marks[static_cast<std::size_t>(member.type)];
    }
    return out;
  }

  // The piece's name where a strip or section is one cell and needs no further cut; else empty.
  std::string whole(const Strip& strip, std::int32_t long_as) const {
    if (strip.cells.size() != 1 || strip.cells.front().count != 1) return {};
    const Cell& cell = strip.cells.front();
    const bool fits = long_of(cell) == long_as && wide_of(cell) == strip.width - pieces_.kerf;
    return fits ? name_of(cell) : std::string();
  }
  std::string whole(const Section& section, bool all) const {
    if (section.strips.size() != 1 || section.strips.front().copies != 1) return {};
    const Strip& strip = section.strips.front();
    if (std::min(strip.width - pieces_.kerf, width_) != width_) return {};
    return whole(strip, all ? length_ : section.length - pieces_.kerf);
  }

  static void mark(job::CutStep& step, std::int32_t at, std::int32_t end, const std::string& name) {
    step.gives.push_back(name);
    if (at < end) step.at.push_back(mm(at));
  }
  void rest(job::CutStep& step, std::int32_t at, std::int32_t end) const {
    if (at < end) step.gives.emplace_back();
  }
  void finish(job::CutStep step) {
    if (step.at.empty()) return;
    step.cuts = static_cast<std::int64_t>(step.at.size());
    out_.cuts.push_back(std::move(step));
  }

  void left(std::int32_t x, std::int32_t y, std::int32_t along, std::int32_t across) {
    if (along > 0 && across > 0) out_.left.push_back({mm(x), mm(y), mm(along), mm(across), false});
  }

  // Pieces and leftovers of one copy of a section.
  void place(const Section& section, std::int32_t x, std::int32_t long_as) {
    std::int32_t y = 0;
    for (const Strip& strip : section.strips) {
      const std::int32_t wide_as = std::min(strip.width - pieces_.kerf, width_);
      for (std::int32_t i = 0; i < strip.copies; ++i) {
        std::int32_t at = x;
        for (const Cell& cell : strip.cells) {
          for (std::int32_t n = 0; n < cell.count; ++n) {
            place(cell, at, y);
            left(at, y + wide_of(cell) + pieces_.kerf, long_of(cell), wide_as - wide_of(cell) - pieces_.kerf);
            at += long_of(cell) + pieces_.kerf;
          }
        }
        left(at, y, x + long_as - at, wide_as);
        y += wide_as + pieces_.kerf;
      }
    }
    left(x, y, long_as, width_ - y);
  }

  void place(const Cell& cell, std::int32_t x, std::int32_t y) {
    const Fitting& from = fitting(cell);
    for (const Member& member : from.members) {
      const Option& single = pieces_.fittings[pieces_.singles[static_cast<std::size_t>(member.type)]].option;
      job::CutPiece piece;
      piece.mark = pieces_.marks[static_cast<std::size_t>(member.type)];
      piece.turned = cell.turned;
      piece.reversed = member.reversed;
      // A quarter turn to the left takes (x, y) to (across − y, x).
      const std::int32_t dx = cell.turned ? from.option.across - member.y - single.across : member.x;
      const std::int32_t dy = cell.turned ? member.x : member.y;
      piece.x = mm(x + dx);
      piece.y = mm(y + dy);
      out_.pieces.push_back(std::move(piece));
    }
  }

  void cut_section(const Section& section, const std::string& name) {
    const std::int32_t long_as = std::min(section.length - pieces_.kerf, length_);
    job::CutStep step{name, job::CutWay::along, {}, {}, 0};
    std::vector<std::pair<const Strip*, std::string>> later;
    std::int32_t y = 0;
    std::size_t number = 0;
    for (const Strip& strip : section.strips) {
      const std::int32_t wide_as = std::min(strip.width - pieces_.kerf, width_);
      std::string strip_name = whole(strip, long_as);
      const bool goes_on = strip_name.empty();
      if (goes_on) strip_name = wide_as == width_ ? name : name + std::to_string(++number);
      for (std::int32_t i = 0; i < strip.copies; ++i) {
        mark(step, y + wide_as, width_, strip_name);
        y += wide_as + pieces_.kerf;
      }
      if (goes_on) later.emplace_back(&strip, strip_name);
      if (!goes_on) teeth(strip.cells.front(), strip_name);
    }
    rest(step, y, width_);
    finish(std::move(step));
    for (const auto& [strip, strip_name] : later) cut_strip(*strip, strip_name, long_as);
  }

  void cut_strip(const Strip& strip, const std::string& name, std::int32_t long_as) {
    const std::int32_t wide_as = std::min(strip.width - pieces_.kerf, width_);
    job::CutStep step{name, job::CutWay::across, {}, {}, 0};
    std::vector<job::CutStep> trims;
    std::int32_t at = 0;
    std::size_t number = 0;
    for (const Cell& cell : strip.cells) {
      const bool trim = wide_of(cell) < wide_as;
      std::string cell_name = name_of(cell);
      if (trim) {
        // One piece over the whole strip keeps the strip's name.
        const bool only = strip.cells.size() == 1 && cell.count == 1 && long_of(cell) == long_as;
        const std::string before = only ? name : name + "." + std::to_string(++number);
        trims.push_back({before, job::CutWay::along, {mm(wide_of(cell))}, {cell_name, ""}, 1});
        cell_name = before;
      }
      for (std::int32_t i = 0; i < cell.count; ++i) {
        mark(step, at + long_of(cell), long_as, cell_name);
        at += long_of(cell) + pieces_.kerf;
      }
    }
    rest(step, at, long_as);
    finish(std::move(step));
    for (job::CutStep& trim : trims) out_.cuts.push_back(std::move(trim));
    for (const Cell& cell : strip.cells) teeth(cell, name_of(cell));
  }

  // A pair is parted along its teeth, once for all pairs of that name.
  void teeth(const Cell& cell, const std::string& name) {
    if (fitting(cell).members.size() < 2) return;
    for (const job::CutStep& step : out_.cuts) {
      if (step.way == job::CutWay::teeth && step.part == name) return;
    }
    job::CutStep step{name, job::CutWay::teeth, {}, {}, 1};
    for (const Member& member : fitting(cell).members) {
      step.gives.push_back(pieces_.marks[static_cast<std::size_t>(member.type)]);
    }
    out_.cuts.push_back(std::move(step));
  }

  const Pattern& pattern_;
  const Pieces& pieces_;
  std::int32_t width_;
  std::int32_t length_;
  job::CutRoll out_;
};

}  // namespace

job::CutRoll lay_out(const Problem& problem, const Pattern& pattern, const Pieces& pieces, std::int32_t width,
                     std::int32_t length) {
  job::CutRoll out = Layout(pattern, pieces, width, length).run();
  // The parting along the teeth comes last: it is snips' work, and every pair of a name may come from several
  // strips.
  std::stable_partition(out.cuts.begin(), out.cuts.end(),
                        [](const job::CutStep& step) { return step.way != job::CutWay::teeth; });
  const Keep& keep = problem.keep;
  if (keep.per_million == 0) return out;
  // Worth keeping: what spans the roll's whole width or length, the better of the two.
  job::CutLeft* best = nullptr;
  std::int64_t most = 0;
  for (job::CutLeft& left : out.left) {
    const auto along = static_cast<std::int64_t>(left.length.in_mm());
    const auto across = static_cast<std::int64_t>(left.width.in_mm());
    if (across != width && along != length) continue;
    const std::int64_t value = worth(keep, across, along);
    if (value > most) {
      most = value;
      best = &left;
    }
  }
  if (best != nullptr) best->keep = true;
  return out;
}

}  // namespace lapwright::cutting

#include "paper.h"

#include <lapwright/base/numbers.h>
#include <lapwright/draw/font.h>
#include <lapwright/draw/symbols.h>

#include <algorithm>
#include <array>

namespace lapwright::sheets {

namespace {

using draw::Anchor;
using draw::LineKind;
using draw::Point;
using draw::pt;
using draw::Weight;

constexpr double kLeft = 7;
constexpr double kRight = 203;
constexpr double kBottom = 7;
constexpr double kTop = 290;

// 100 mm in ten fields: proves that the printer kept the size.
draw::Drawing proving_bar(Point at, const std::string& words) {
  draw::Drawing out;
  for (int i = 0; i < 10; ++i) {
    draw::Path field = draw::rectangle(at.x + 10 * i, at.y, 10, 2, LineKind::thin);
    field.fill = i % 2 == 0 ? draw::Fill::black() : draw::Fill::white();
    field.layer = draw::Layer::mark;
    field.tag = "bar";
    out.add(std::move(field));
  }
  const double size = draw::size_to_fit(words, 100, kNumber, pt(6));
  draw::Text text = text_at(draw::shortened(words, 100, size), at + Point{0, 4}, size);
  text.layer = draw::Layer::mark;
  out.add(std::move(text));
  return out;
}

}  // namespace

draw::Text text_at(std::string text, Point at, double size, Weight weight, Anchor anchor) {
  draw::Text out;
  out.text = std::move(text);
  out.at = at;
  out.size = size;
  out.weight = weight;
  out.anchor = anchor;
  return out;
}

double usual_scale(double width, double height, double room_width, double room_height) {
  constexpr std::array<double, 12> kOneTo{1, 2, 2.5, 5, 10, 20, 25, 50, 100, 200, 500, 1000};
  for (const double one_to : kOneTo) {
    if (width / one_to <= room_width && height / one_to <= room_height) return 1 / one_to;
  }
  return 1 / kOneTo.back();
}

std::string scale_name(double scale) {
  return "1:" + trimmed(1 / scale, 1);
}

draw::Drawing level_shape(job::Level level, Point middle) {
  draw::Drawing out;
  constexpr double kReach = 1.7;
  if (level == job::Level::wrong) {
    for (const double side : {1.0, -1.0}) {
      draw::Path stroke =
          draw::line(middle - Point{kReach, side * kReach}, middle + Point{kReach, side * kReach});
      stroke.stroke = draw::Stroke{LineKind::cut, 1};
      out.add(std::move(stroke));
    }
  } else if (level == job::Level::doubt) {
    out.add(draw::polygon({middle + Point{0, 2}, middle + Point{-2, -1.6}, middle + Point{2, -1.6}},
                          LineKind::heavy));
  } else {
    draw::Path dot = draw::circle(middle, 1, LineKind::thin);
    dot.fill = draw::Fill::black();
    out.add(std::move(dot));
  }
  return out;
}

namespace {

// "rear / house wall / course 3" is at the place rear / house wall; so is "rear / house wall[2]".
bool stands_at(const std::string& where, const std::string& place) {
  if (!where.starts_with(place)) return false;
  if (where.size() == place.size()) return true;
  const std::string rest = where.substr(place.size());
  return rest.starts_with(" /") || rest.starts_with("[") || rest.starts_with(",");
}

constexpr double kBannerIn = 9;  // from its edge to its words
constexpr std::size_t kBannerLines = 9;

}  // namespace

std::vector<const job::Finding*> warnings_at(const job::Plan& plan, const About& about) {
  std::vector<const job::Finding*> out;
  for (const job::Level level : {job::Level::wrong, job::Level::doubt}) {
    for (const job::Finding& finding : plan.findings) {
      if (finding.level != level) continue;
      const bool here = std::any_of(about.begin(), about.end(), [&](const Place& place) {
        if (place.slope.empty()) return false;
        const std::string at = place.junction.empty() ? place.slope : place.slope + " / " + place.junction;
        return stands_at(finding.where, at);
      });
      if (here) out.push_back(&finding);
    }
  }
  return out;
}

std::vector<Sheets::BannerLine> Sheets::banner_lines(const About& about) const {
  const std::vector<const job::Finding*> all = warnings_at(sources_.plan, about);
  std::vector<BannerLine> out;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const std::string said = words_.say("level." + std::string(name_of(all[i]->level))) + ": " +
                             all[i]->where + ": " + all[i]->text;
    const draw::Weight weight = all[i]->level == job::Level::wrong ? Weight::bold : Weight::regular;
    const std::vector<std::string> lines =
        draw::wrapped(said, kArea.width() - kBannerIn - 4, kNumber, weight);
    if (i > 0 && out.size() + lines.size() > kBannerLines) {
      out.push_back({all[i]->level, words_.say("sheet.more_on_cover",
                                               {{"count", static_cast<double>(all.size() - i), ""}})});
      break;
    }
    for (std::size_t k = 0; k < lines.size(); ++k) {
      out.push_back({k == 0 ? std::optional(all[i]->level) : std::nullopt, lines[k]});
    }
  }
  return out;
}

double Sheets::banner_height(const About& about) const {
  const std::vector<BannerLine> lines = banner_lines(about);
  if (lines.empty()) return 0;
  const bool wrong = lines.front().starts == job::Level::wrong;
  return static_cast<double>(lines.size()) * draw::line_height(kNumber) + (wrong ? 15 : 5);
}

void Sheets::banner(const About& about) {
  const double high = banner_height(about);
  top_ = kArea.top - high;
  if (high <= 0) return;
  draw::Drawing& d = page();
  const bool wrong = banner_lines(about).front().starts == job::Level::wrong;
  draw::Path box = draw::rectangle(kArea.left, top_ + 1, kArea.width(), high - 1, LineKind::heavy);
  box.stroke = draw::Stroke{LineKind::heavy, wrong ? 1.4 : 0.5};
  box.layer = draw::Layer::mark;
  box.tag = wrong ? "wrong" : "doubt";
  d.add(std::move(box));
  double y = kArea.top - 1.5;
  if (wrong) {
    // Word and shape, large: this sheet is not to be worked from.
    d.add(level_shape(job::Level::wrong, {kArea.left + 6, y - 4.5}), {}, "wrong");
    d.add(text_at(words_.say("sheet.wrong_banner"), {kArea.left + 12, y - 7}, pt(18), Weight::bold));
    y -= 10;
  }
  for (const BannerLine& line : banner_lines(about)) {
    y -= draw::line_height(kNumber);
    const bool bold = line.starts == job::Level::wrong;
    if (line.starts) d.add(level_shape(*line.starts, {kArea.left + 4.5, y + 1.4}));
    d.add(text_at(line.text, {kArea.left + kBannerIn, y}, kNumber, bold ? Weight::bold : Weight::regular));
  }
}

void add_note(Sheets& sheets, const std::string& text) {
  double y = sheets.top() - 5;
  for (const std::string& line : draw::wrapped(text, kArea.width() - 4, kNumber)) {
    sheets.page().add(text_at(line, {kArea.left + 2, y}));
    y -= draw::line_height(kNumber);
  }
}

draw::Drawing& Sheets::begin(std::string name, std::optional<double> scale, const About& about) {
  draw::Page page;
  page.title = std::move(name);
  pages_.push_back(std::move(page));
  scales_.push_back(scale);
  banner(about);
  return pages_.back().drawing;
}

std::vector<Sheets::Leaf> Sheets::leaves() const {
  std::vector<Leaf> out;
  for (std::size_t i = 0; i < pages_.size(); ++i) {
    const bool begins = std::find(leaves_.begin(), leaves_.end(), i) != leaves_.end();
    if (size_ == PaperSize::a3 && !begins && !out.empty() && !out.back().right) {
      out.back().right = i;
    } else {
      out.push_back({i, std::nullopt});
    }
  }
  return out;
}

// Name and scale of one page, whose upright half of the paper begins at x.
void Sheets::half(std::size_t index, double x, double number_width, draw::Drawing& into) const {
  const double room = kRight - kLeft - 9;
  into.add(text_at(draw::shortened(pages_[index].title, room - number_width, pt(15), Weight::bold),
                   {x + kLeft + 3, kTop - 7}, pt(15), Weight::bold));
  if (const std::optional<double> scale = scales_[index]) {
    into.add(draw::scale_bar({x + kLeft + 3, kBottom + 9.5}, *scale, 45));
    into.add(text_at(scale_name(*scale), {x + kLeft + 60, kBottom + 9.5}, kNumber, Weight::bold));
  }
}

draw::Page Sheets::framed(const Leaf& leaf, std::size_t number, std::size_t of) {
  draw::Page page = std::move(pages_[leaf.left]);
  pages_[leaf.left].title = page.title;
  const bool wide = size_ == PaperSize::a3;
  const double half_wide = page.width;
  if (wide) page.width *= 2;
  const double right = wide ? half_wide + kRight : kRight;
  draw::Drawing& d = page.drawing;
  if (leaf.right) d.add(pages_[*leaf.right].drawing, {.move = {half_wide, 0}});
  draw::Path border = draw::rectangle(kLeft, kBottom, right - kLeft, kTop - kBottom, LineKind::heavy);
  border.layer = draw::Layer::frame;
  d.add(std::move(border));
  for (const double y : {kArea.top + 3, kArea.bottom - 2}) {
    draw::Path rule = draw::line({kLeft, y}, {right, y}, LineKind::outline);
    rule.layer = draw::Layer::frame;
    d.add(std::move(rule));
  }
  if (wide) {
    draw::Path fold = draw::line({half_wide, kArea.bottom - 2}, {half_wide, kArea.top + 3}, LineKind::thin);
    fold.layer = draw::Layer::frame;
    d.add(std::move(fold));
  }
  const std::string numbered = words_.say(
      "sheet.page", {{"page", static_cast<double>(number), ""}, {"pages", static_cast<double>(of), ""}});
  const double number_width = draw::text_width(numbered, kNumber);
  half(leaf.left, 0, number_width, d);
  if (leaf.right) half(*leaf.right, half_wide, number_width, d);
  d.add(text_at(numbered, {right - 3, kTop - 7}, kNumber, Weight::regular, Anchor::end));
  const double room = right - kLeft - 9;
  std::string when = sources_.survey.date.value_or("");
  when = draw::shortened(when, 60, kNumber);
  const double when_width = draw::text_width(when, kNumber);
  d.add(text_at(draw::shortened(sources_.plan.title, room - when_width, kNumber), {kLeft + 3, kTop - 14.5},
                kNumber));
  if (!when.empty()) d.add(text_at(when, {right - 3, kTop - 14.5}, kNumber, Weight::regular, Anchor::end));
  if (!sources_.plan.fingerprint.empty()) {
    d.add(text_at(words_.say("sheet.fingerprint", {{"fingerprint", sources_.plan.fingerprint, ""}}),
                  {kLeft + 3, kBottom + 3}, kNumber));
  }
  d.add(proving_bar({right - 105, kBottom + 5}, words_.say("sheet.bar")));
  return page;
}

draw::Document Sheets::done() {
  draw::Document out;
  out.title = sources_.plan.title;
  out.language = sources_.catalogue.language();
  const std::vector<Leaf> all = leaves();
  for (std::size_t i = 0; i < all.size(); ++i) out.pages.push_back(framed(all[i], i + 1, all.size()));
  pages_.clear();
  return out;
}

Flow::Flow(Sheets& sheets, std::string name) : sheets_(sheets), name_(std::move(name)) {
  sheets_.begin(name_);
  y_ = kArea.top - 2;
}

draw::Drawing& Flow::need(double height) {
  if (y_ - height < kArea.bottom) {
    sheets_.begin(name_);
    y_ = kArea.top - 2;
  }
  return sheets_.page();
}

void Flow::heading(const std::string& text) {
  constexpr double kWithSomethingBelow = 22;
  need(kWithSomethingBelow);
  y_ -= 2.5;
  paragraph(text, pt(13), 0, Weight::bold);
  y_ -= 1;
}

void Flow::blank(const std::string& label, const std::string& filled) {
  constexpr double kLineFrom = 62;
  draw::Drawing& page = need(11);
  y_ -= 10;
  page.add(text_at(label, {kArea.left + 1, y_ + 1}));
  if (!filled.empty()) {
    const double room = kArea.width() - kLineFrom - 4;
    page.add(text_at(draw::shortened(filled, room, kNumber, Weight::bold),
                     {kArea.left + kLineFrom + 2, y_ + 1}, kNumber, Weight::bold));
  }
  page.add(draw::line({kArea.left + kLineFrom, y_}, {kArea.right - 2, y_}, LineKind::thin));
}

void Flow::paragraph(const std::string& text, double size, double indent, Weight weight) {
  const double step = draw::line_height(size);
  for (const std::string& line : draw::wrapped(text, kArea.width() - 2 - indent, size, weight)) {
    draw::Drawing& page = need(step);
    y_ -= step;
    if (!line.empty())
      page.add(text_at(line, {kArea.left + 1 + indent, y_ + draw::descender_depth(size)}, size, weight));
  }
}

}  // namespace lapwright::sheets

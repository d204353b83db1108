#include "template_pages.h"

#include "pages.h"
#include "pattern.h"

#include <lapwright/draw/font.h>
#include <lapwright/draw/symbols.h>

#include <algorithm>
#include <cmath>

namespace lapwright::sheets {

namespace {

using draw::LineKind;
using draw::Point;

// The paper's window on the template.
constexpr draw::Box kWindow{kArea.left, kArea.bottom, kArea.right, kArea.top - 10};

struct Tiling {
  bool turned = false;  // the net's x runs up the page
  std::size_t across = 1;
  std::size_t up = 1;
};

std::size_t tiles(double length, double window) {
  if (length <= window) return 1;
  return static_cast<std::size_t>(std::ceil((length - kGlue) / (window - kGlue) - 1e-9));
}

Tiling tiling_of(double width, double height) {
  const Tiling straight{false, tiles(width, kWindow.width()), tiles(height, kWindow.height())};
  const Tiling turned{true, tiles(height, kWindow.width()), tiles(width, kWindow.height())};
  return turned.across * turned.up < straight.across * straight.up ? turned : straight;
}

// "A" to "Z", then "AA".
std::string letters(std::size_t n) {
  std::string out;
  for (++n; n > 0; n = (n - 1) / 26) out.insert(out.begin(), static_cast<char>('A' + (n - 1) % 26));
  return out;
}

class Templates {
 public:
  Templates(Sheets& sheets, const job::Piece& piece) : sheets_(sheets), piece_(piece) {
    const geom::Box box = geom::bounds(piece.net.outline);
    const double width = geom::to_length(box.width()).in_mm();
    const double height = geom::to_length(box.height()).in_mm();
    tiling_ = tiling_of(width, height);
    const draw::Placement turn{.rotation = tiling_.turned ? 90.0 : 0.0};
    draw::Drawing laid;
    laid.add(pattern(piece.net), turn);
    const draw::Box extents = draw::extents_of_points(laid);
    net_.add(laid, {.move = {-extents.left, -extents.bottom}});
    width_ = extents.width();
    height_ = extents.height();
  }

  void draw() {
    for (std::size_t row = 0; row < tiling_.up; ++row) {
      for (std::size_t column = 0; column < tiling_.across; ++column) page(column, row);
    }
  }

 private:
  std::size_t number(std::size_t column, std::size_t row) const { return row * tiling_.across + column; }

  // Where the net's low corner lies on this page. A single tile sits in the middle of the window.
  Point corner(std::size_t column, std::size_t row) const {
    const auto low = [](std::size_t n, std::size_t i, double from, double window, double length) {
      return n == 1 ? from + (window - length) / 2 : from - static_cast<double>(i) * (window - kGlue);
    };
    return {low(tiling_.across, column, kWindow.left, kWindow.width(), width_),
            low(tiling_.up, row, kWindow.bottom, kWindow.height(), height_)};
  }

  void seam(draw::Drawing& page, const draw::Box& band, std::size_t low, std::size_t high, bool glue) {
    if (glue) {
      draw::Path area = draw::rectangle(band.left, band.bottom, band.width(), band.height(), LineKind::thin);
      area.fill = draw::Fill::hatched(draw::HatchKind::glue_here);
      area.layer = draw::Layer::mark;
      page.add(std::move(area));
    }
    const bool level = band.width() > band.height();
    const Point middle{(band.left + band.right) / 2, (band.bottom + band.top) / 2};
    const double reach = (level ? band.width() : band.height()) / 2 - 18;
    const std::string name = letters(low) + letters(high);
    for (const int i : {1, 2}) {
      const double along = i == 1 ? -reach : reach;
      draw::Path ground =
          draw::rectangle(middle.x + (level ? along : 0) - 4.5, middle.y + (level ? 0 : along) - 4.5, 9, 9);
      ground.stroke.reset();
      ground.fill = draw::Fill::white();
      ground.layer = draw::Layer::mark;
      page.add(std::move(ground));
      const Point at = middle + (level ? Point{along, 0} : Point{0, along});
      draw::Drawing mark = draw::match_mark(at, "");
      page.add(mark, {}, "match-" + name + std::to_string(i));
      draw::Text text =
          text_at(name + std::to_string(i), at + Point{level ? 6.0 : 0.0, level ? 0.0 : 6.0}, kNumber,
                  draw::Weight::bold, level ? draw::Anchor::start : draw::Anchor::middle);
      text.seat = draw::Seat::middle;
      text.on_white = true;
      text.layer = draw::Layer::mark;
      page.add(std::move(text));
    }
  }

  void page(std::size_t column, std::size_t row) {
    const Words& words = sheets_.words();
    const std::size_t index = number(column, row);
    const std::size_t all = tiling_.across * tiling_.up;
    draw::Drawing& page = sheets_.begin(words.say("sheet.template", {{"mark", piece_.mark, ""}}));
    const std::vector<const job::Finding*> warnings =
        warnings_at(sheets_.sources().plan, places_of(sheets_.sources().plan, piece_));
    const std::string note = all == 1 ? words.say("sheet.template_whole")
                                      : words.say("sheet.template_page", {{"letter", letters(index), ""},
                                                                          {"last", letters(all - 1), ""}});
    page.add(text_at(draw::shortened(note, kArea.width() - 4, kNumber), {kArea.left + 2, kArea.top - 5}));
    if (!warnings.empty()) warn(page, *warnings.front());
    // The upper and right-hand band is pasted under the next page; that page shows the same strip again.
    const double glue = kGlue;
    const std::size_t up = row + 1 < tiling_.up ? number(column, row + 1) : index;
    const std::size_t right = column + 1 < tiling_.across ? number(column + 1, row) : index;
    if (up != index)
      seam(page, {kWindow.left, kWindow.top - glue, kWindow.right, kWindow.top}, index, up, true);
    if (row > 0) {
      seam(page, {kWindow.left, kWindow.bottom, kWindow.right, kWindow.bottom + glue},
           number(column, row - 1), index, false);
    }
    if (right != index)
      seam(page, {kWindow.right - glue, kWindow.bottom, kWindow.right, kWindow.top}, index, right, true);
    if (column > 0) {
      seam(page, {kWindow.left, kWindow.bottom, kWindow.left + glue, kWindow.top}, number(column - 1, row),
           index, false);
    }
    if (all > 1) {
      draw::Path trim =
          draw::rectangle(kWindow.left, kWindow.bottom, kWindow.width(), kWindow.height(), LineKind::thin);
      trim.layer = draw::Layer::mark;
      trim.tag = "trim";
      page.add(std::move(trim));
    }
    const Point move = corner(column, row);
    draw::Drawing laid;
    laid.add(net_, {.move = move});
    page.add(cropped(laid, kWindow), {}, piece_.mark);
    if (index == 0) ring(page, move);
    name_bossed(page, move);
  }

  // What is wrong or doubtful where this piece goes stands above the words: the window keeps its size.
  void warn(draw::Drawing& page, const job::Finding& finding) const {
    const Words& words = sheets_.words();
    const std::string said = words.say("level." + std::string(name_of(finding.level))) + ", " +
                             words.say("sheet.see_cover") + ": " + finding.text;
    page.add(level_shape(finding.level, {kArea.left + 4.5, kArea.top + 0.4}));
    page.add(text_at(draw::shortened(said, kArea.width() - 12, kNumber, draw::Weight::bold),
                     {kArea.left + 9, kArea.top - 0.8}, kNumber, draw::Weight::bold));
  }

  // Beside a line that is worked, what is done there.
  void name_bossed(draw::Drawing& page, Point move) const {
    const geom::Box box = geom::bounds(piece_.net.outline);
    for (const geom::Cut& cut : piece_.net.cuts) {
      if (!cut.worked) continue;
      const double x = geom::to_length((cut.from.x + cut.to.x) / 2 - box.low.x).in_mm();
      const double y = geom::to_length((cut.from.y + cut.to.y) / 2 - box.low.y).in_mm();
      const Point at = move + (tiling_.turned ? Point{width_ - y, x} : Point{x, y});
      if (!kWindow.holds({at.x - 8, at.y - 4, at.x + 8, at.y + 4})) continue;
      draw::Text word = text_at(sheets_.words().say("sheet.boss"), at, kNumber, draw::Weight::regular,
                                draw::Anchor::middle);
      word.seat = draw::Seat::middle;
      word.on_white = true;
      word.layer = draw::Layer::mark;
      page.add(std::move(word));
    }
  }

  // On the lead's face, so that the mark stays with the template once it is cut out.
  void ring(draw::Drawing& page, Point move) {
    constexpr double kOnFirstPage = 120;
    const geom::Box box = geom::bounds(piece_.net.outline);
    const double x = std::min(geom::to_length(piece_.base_point.x - box.low.x).in_mm(), kOnFirstPage);
    const double y = geom::to_length(piece_.base_point.y - box.low.y).in_mm();
    const Point at = move + (tiling_.turned ? Point{width_ - y, x} : Point{x, y});
    const double radius = draw::ring_radius(piece_.mark);
    page.add(draw::ringed_mark({std::clamp(at.x, kWindow.left + radius, kWindow.right - radius),
                                std::clamp(at.y, kWindow.bottom + radius, kWindow.top - radius)},
                               piece_.mark));
  }

  Sheets& sheets_;
  const job::Piece& piece_;
  Tiling tiling_;
  draw::Drawing net_;
  double width_ = 0;
  double height_ = 0;
};

// Worth a template: what a tape alone does not set out, and what takes few pages.
bool worth_a_template(const job::Piece& piece) {
  if (piece.kind == "step-flashing" || piece.kind == "soaker") return true;
  if (piece.kind == "cover-flashing") return false;
  const geom::Box box = geom::bounds(piece.net.outline);
  const Tiling tiling =
      tiling_of(geom::to_length(box.width()).in_mm(), geom::to_length(box.height()).in_mm());
  constexpr std::size_t kFewPages = 6;
  if (tiling.across * tiling.up > kFewPages) return false;
  const auto square = [](geom::GridPoint a, geom::GridPoint b) { return a.x == b.x || a.y == b.y; };
  const geom::Net& net = piece.net;
  const std::size_t n = net.outline.size();
  for (std::size_t i = 0; i < n; ++i) {
    if (!square(net.outline[i], net.outline[(i + 1) % n])) return true;
  }
  return n > 4 || !net.holes.empty() || !net.cuts.empty() ||
         !std::all_of(net.folds.begin(), net.folds.end(),
                      [&](const geom::Fold& fold) { return square(fold.from, fold.to); });
}

}  // namespace

void add_templates(Sheets& sheets) {
  for (const job::Piece* piece : distinct_pieces(sheets.sources().plan)) {
    if (piece->wrong || !worth_a_template(*piece)) continue;
    Templates(sheets, *piece).draw();
  }
}

}  // namespace lapwright::sheets

// Sheets of paper: the frame that all of them share, and text that flows from one to the next.
#pragma once

#include "words.h"

#include <lapwright/draw/drawing.h>
#include <lapwright/draw/style.h>

#include <optional>
#include <string>
#include <vector>

namespace lapwright::sheets {

// What a page has to draw on, mm of paper. Its size lets a soaker of usual size print whole.
inline constexpr draw::Box kArea{10, 27, 200, 269};
inline constexpr double kNumber = draw::pt(11);

// What a sheet is about, so that it can say what is wrong or doubtful there. Without a junction: the whole
// slope.
struct Place {
  std::string slope;
  std::string junction;
  friend bool operator==(const Place&, const Place&) = default;
};
using About = std::vector<Place>;

// The findings, `wrong` first, that a sheet about these places must carry.
std::vector<const job::Finding*> warnings_at(const job::Plan& plan, const About& about);

class Sheets {
 public:
  explicit Sheets(const Sources& sources, PaperSize size = PaperSize::a4)
      : sources_(sources), words_(sources), size_(size) {}

  // What is begun next begins a sheet of paper, even where half of one is free (A3).
  void new_leaf() { leaves_.push_back(pages_.size()); }

  // A new page; `scale` is that of its drawing (0.1 for 1:10) and gets a bar. What is wrong or doubtful at
  // the places that the page is about stands at its top.
  draw::Drawing& begin(std::string name, std::optional<double> scale = std::nullopt, const About& about = {});
  // The upper end of what is left of the page that was begun last, and its height on a page about these.
  double top() const { return top_; }
  double room(const About& about) const { return kArea.height() - banner_height(about); }
  draw::Drawing& page() { return pages_.back().drawing; }
  const Words& words() const { return words_; }
  const Sources& sources() const { return sources_; }
  std::size_t count() const { return pages_.size(); }
  draw::Document done();

 private:
  // Where a page goes on its paper, and how many sheets of paper there are.
  struct Leaf {
    std::size_t left = 0;              // index of a page
    std::optional<std::size_t> right;  // A3 only
  };
  std::vector<Leaf> leaves() const;
  draw::Page framed(const Leaf& leaf, std::size_t number, std::size_t of);
  void half(std::size_t index, double x, double number_width, draw::Drawing& into) const;
  struct BannerLine {
    std::optional<job::Level> starts;  // a finding of this level begins here
    std::string text;
  };
  std::vector<BannerLine> banner_lines(const About& about) const;
  double banner_height(const About& about) const;
  void banner(const About& about);

  const Sources& sources_;
  Words words_;
  std::vector<draw::Page> pages_;
  std::vector<std::optional<double>> scales_;
  PaperSize size_;
  std::vector<std::size_t> leaves_;  // pages that begin a sheet of paper
  double top_ = kArea.top;
};

// Text and rows from the top of a sheet down; a new sheet of the same name when one is full.
class Flow {
 public:
  Flow(Sheets& sheets, std::string name);

  // Room for `height` mm: a new sheet if there is none. Returns the page to draw on.
  draw::Drawing& need(double height);
  void heading(const std::string& text);
  void paragraph(const std::string& text, double size = kNumber, double indent = 0,
                 draw::Weight weight = draw::Weight::regular);
  // A line to write on, after its label; `filled` where it is known.
  void blank(const std::string& label, const std::string& filled = {});
  void gap(double mm) { y_ -= mm; }
  double y() const { return y_; }

 private:
  Sheets& sheets_;
  std::string name_;
  double y_ = 0;
};

draw::Text text_at(std::string text, draw::Point at, double size = kNumber,
                   draw::Weight weight = draw::Weight::regular, draw::Anchor anchor = draw::Anchor::start);

// The largest usual scale at which `width` × `height` of the real thing fits into the room.
double usual_scale(double width, double height, double room_width, double room_height);
std::string scale_name(double scale);  // "1:10"

// Words at the head of the page that was begun last, wrapped: at most three lines fit above what is drawn
// below kNoteHigh.
inline constexpr double kNoteHigh = 18;
void add_note(Sheets& sheets, const std::string& text);

// The shape of a finding beside its words: a cross, a triangle, a dot.
draw::Drawing level_shape(job::Level level, draw::Point middle);

}  // namespace lapwright::sheets

// Rings, numbers and words set beside what they name, where nothing else stands.
#pragma once

#include <lapwright/draw/drawing.h>

#include <optional>
#include <string>
#include <vector>

namespace lapwright::sheets {

// All in mm of paper.
class Labels {
 public:
  // Nothing is set outside this box.
  explicit Labels(const draw::Box& room) : room_(room) {}

  void take(const draw::Box& box) { taken_.push_back(box); }
  void take_texts(const draw::Drawing& drawing);
  bool clear(const draw::Box& box) const;
  const std::vector<draw::Box>& taken() const { return taken_; }

  // A ring with a leader to a dot at `on`, at the nearest clear place, `least` away or further, first on the
  // side that `away` points to. False when there is none: the mark then stands in no ring here.
  bool mark(draw::Drawing& out, draw::Point on, const std::string& mark, double least, draw::Point away,
            double size);
  // A length along from → to, on the side that `away` points to or else on the other, at the nearest clear
  // place; false when there is none.
  bool length(draw::Drawing& out, draw::Point from, draw::Point to, draw::Point away,
              const std::string& text);

 private:
  draw::Box room_;
  std::vector<draw::Box> taken_;
};

}  // namespace lapwright::sheets

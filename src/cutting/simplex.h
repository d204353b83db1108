// The linear program of column generation: cover every row as cheaply as the columns known so far allow.
//
// Rows of pieces ask for at least their demand; rows of limited stock allow at most what there is. Columns
// come one by one; only the basis and its inverse are kept, dense: a few dozen rows. Costs are scaled to
// about 1 and right-hand sides are shaken a little, because without both it stalls in degenerate steps.
// Nothing proven rests on its doubles: bound.h turns its prices into whole numbers and checks them.
#pragma once

#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

namespace lapwright::cutting {

struct Column {
  double cost = 0;
  std::vector<std::pair<std::int32_t, double>> entries;  // row, coefficient
  std::int32_t tag = -1;                                 // the caller's own
};

class Simplex {
 public:
  // `start` has one column per row of pieces, with an entry on that row: a way to make it, however dear.
  Simplex(const std::vector<double>& at_least, const std::vector<double>& at_most,
          const std::vector<Column>& start);

  // Takes the column into the basis if that lowers the cost. Returns whether it did.
  bool enter(const Column& column);
  // Takes in surplus and slack while they lower the cost.
  void settle();
  double reduced_cost(const Column& column) const;

  double price(std::size_t row) const { return prices_[row]; }  // >= 0 on pieces, <= 0 on stock, once settled
  double value() const;
  std::size_t rows() const { return m_; }

  struct Share {
    std::int32_t tag = -1;
    double amount = 0;
  };
  std::vector<Share> basis() const;  // columns with a tag in the basis, and how much of each

 private:
  using Entries = std::vector<std::pair<std::int32_t, double>>;
  bool enter_direction(const std::vector<double>& direction, double cost, std::int32_t tag, Entries entries);
  void price_again();
  void invert_again();

  std::size_t m_ = 0;
  std::size_t pieces_ = 0;
  std::vector<double> inverse_;  // row by row
  std::vector<double> x_;
  std::vector<double> costs_;
  std::vector<std::int32_t> tags_;
  std::vector<double> prices_;
  std::vector<double> sides_;     // right-hand sides
  std::vector<Entries> columns_;  // of the basis
  std::size_t steps_ = 0;         // since the inverse was made anew
};

}  // namespace lapwright::cutting

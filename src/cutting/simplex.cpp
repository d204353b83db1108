#include "simplex.h"

#include <cmath>
#include <limits>
#include <utility>

namespace lapwright::cutting {

namespace {
constexpr double kShake = 1e-7;
constexpr double kLower = 1e-9;
constexpr double kPivot = 1e-9;
constexpr std::size_t kStepsMost = 100;
}  // namespace

Simplex::Simplex(const std::vector<double>& at_least, const std::vector<double>& at_most,
                 const std::vector<Column>& start)
    : m_(at_least.size() + at_most.size()), pieces_(at_least.size()) {
  inverse_.assign(m_ * m_, 0);
  x_.assign(m_, 0);
  costs_.assign(m_, 0);
  tags_.assign(m_, -1);
  prices_.assign(m_, 0);
  for (std::size_t i = 0; i < m_; ++i) {
    const double side = (i < pieces_ ? at_least[i] : at_most[i - pieces_]) +
                        kShake * (1 + static_cast<double>((i * 7919) % 101) / 101);
    double pivot = 1;
    if (i < pieces_) {
      for (const auto& [row, value] : start[i].entries) {
        if (static_cast<std::size_t>(row) == i) pivot = value;
      }
      costs_[i] = start[i].cost;
      tags_[i] = start[i].tag;
    }
    inverse_[i * m_ + i] = 1 / pivot;
    x_[i] = side / pivot;
    sides_.push_back(side);
    columns_.push_back({{static_cast<std::int32_t>(i), pivot}});
  }
  price_again();
}

void Simplex::price_again() {
  for (std::size_t j = 0; j < m_; ++j) prices_[j] = 0;
  for (std::size_t i = 0; i < m_; ++i) {
    const double cost = costs_[i];
    if (cost == 0) continue;
    const double* row = &inverse_[i * m_];
    for (std::size_t j = 0; j < m_; ++j) prices_[j] += cost * row[j];
  }
}

double Simplex::reduced_cost(const Column& column) const {
  double out = column.cost;
  for (const auto& [row, value] : column.entries) out -= prices_[static_cast<std::size_t>(row)] * value;
  return out;
}

bool Simplex::enter(const Column& column) {
  if (reduced_cost(column) > -kLower) return false;
  std::vector<double> direction(m_, 0);
  for (std::size_t i = 0; i < m_; ++i) {
    const double* row = &inverse_[i * m_];
    double sum = 0;
    for (const auto& [r, value] : column.entries) sum += row[r] * value;
    direction[i] = sum;
  }
  return enter_direction(direction, column.cost, column.tag, column.entries);
}

bool Simplex::enter_direction(const std::vector<double>& direction, double cost, std::int32_t tag,
                              Entries entries) {
  std::size_t leaves = m_;
  double least = std::numeric_limits<double>::max();
  for (std::size_t i = 0; i < m_; ++i) {
    if (direction[i] <= kPivot) continue;
    const double ratio = x_[i] / direction[i];
    if (ratio < least) {
      least = ratio;
      leaves = i;
    }
  }
  if (leaves == m_) return false;
  if (least < 0) least = 0;
  for (std::size_t i = 0; i < m_; ++i) {
    if (i != leaves) x_[i] -= least * direction[i];
  }
  x_[leaves] = least;
  costs_[leaves] = cost;
  tags_[leaves] = tag;
  columns_[leaves] = std::move(entries);
  double* pivot_row = &inverse_[leaves * m_];
  const double pivot = direction[leaves];
  for (std::size_t j = 0; j < m_; ++j) pivot_row[j] /= pivot;
  for (std::size_t i = 0; i < m_; ++i) {
    if (i == leaves || direction[i] == 0) continue;
    double* row = &inverse_[i * m_];
    const double factor = direction[i];
    for (std::size_t j = 0; j < m_; ++j) row[j] -= factor * pivot_row[j];
  }
  if (++steps_ > kStepsMost) invert_again();
  price_again();
  return true;
}

// Gauss and Jordan on the columns of the basis: what many steps have blurred is sharp again.
void Simplex::invert_again() {
  steps_ = 0;
  std::vector<double> basis(m_ * m_, 0);
  std::vector<double> out(m_ * m_, 0);
  for (std::size_t i = 0; i < m_; ++i) {
    for (const auto& [row, value] : columns_[i]) basis[static_cast<std::size_t>(row) * m_ + i] = value;
    out[i * m_ + i] = 1;
  }
  for (std::size_t k = 0; k < m_; ++k) {
    std::size_t pivot = k;
    for (std::size_t i = k; i < m_; ++i) {
      if (std::fabs(basis[i * m_ + k]) > std::fabs(basis[pivot * m_ + k])) pivot = i;
    }
    if (std::fabs(basis[pivot * m_ + k]) < kPivot) return;  // as good as singular: the old inverse stays
    if (pivot != k) {
      for (std::size_t j = 0; j < m_; ++j) {
        std::swap(basis[pivot * m_ + j], basis[k * m_ + j]);
        std::swap(out[pivot * m_ + j], out[k * m_ + j]);
      }
    }
    const double by = basis[k * m_ + k];
    for (std::size_t j = 0; j < m_; ++j) {
      basis[k * m_ + j] /= by;
      out[k * m_ + j] /= by;
    }
    for (std::size_t i = 0; i < m_; ++i) {
      const double factor = basis[i * m_ + k];
      if (i == k || factor == 0) continue;
      for (std::size_t j = 0; j < m_; ++j) {
        basis[i * m_ + j] -= factor * basis[k * m_ + j];
        out[i * m_ + j] -= factor * out[k * m_ + j];
      }
    }
  }
  inverse_ = std::move(out);
  for (std::size_t i = 0; i < m_; ++i) {
    double sum = 0;
    for (std::size_t j = 0; j < m_; ++j) sum += inverse_[i * m_ + j] * sides_[j];
    x_[i] = sum < 0 ? 0 : sum;
  }
}

void Simplex::settle() {
  // Surplus of a row of pieces is the column −e_i, slack of a row of stock e_i, both free.
  for (std::size_t round = 0; round < 50 * m_ + 50; ++round) {
    std::size_t worst = m_;
    double most = kLower;
    for (std::size_t i = 0; i < m_; ++i) {
      const double wrong = i < pieces_ ? -prices_[i] : prices_[i];
      if (wrong > most) {
        most = wrong;
        worst = i;
      }
    }
    if (worst == m_) return;
    const double sign = worst < pieces_ ? -1 : 1;
    std::vector<double> direction(m_, 0);
    for (std::size_t i = 0; i < m_; ++i) direction[i] = sign * inverse_[i * m_ + worst];
    if (!enter_direction(direction, 0, -1, {{static_cast<std::int32_t>(worst), sign}})) return;
  }
}

double Simplex::value() const {
  double sum = 0;
  for (std::size_t i = 0; i < m_; ++i) sum += costs_[i] * x_[i];
  return sum;
}

std::vector<Simplex::Share> Simplex::basis() const {
  std::vector<Share> out;
  for (std::size_t i = 0; i < m_; ++i) {
    if (tags_[i] >= 0) out.push_back({tags_[i], x_[i]});
  }
  return out;
}

}  // namespace lapwright::cutting

// What one code of lead is asked for, and what the yard has of it, as a problem.
#pragma once

#include "layout.h"

#include <lapwright/cutting/problem.h>
#include <lapwright/job/plan.h>
#include <lapwright/job/yard.h>
#include <lapwright/practice/pack.h>

#include <cstdint>
#include <string>
#include <vector>

namespace lapwright::cutting {

struct StockOf {
  std::int32_t width = 0;  // mm
  std::int32_t length = 0;
  bool offcut = false;
  double price = 0;  // of one, pence or cents; 0 from the rack
  double worth = 0;  // of an offcut: what it was worth in the rack
};

struct CodeDemand {
  std::int64_t code = 0;
  double kg_per_mm2 = 0;
  double scrap_per_mm2 = 0;  // pence or cents
  double keep_per_mm2 = 0;
  Problem problem;
  Pieces pieces;
  std::vector<double> areas;  // of one piece of each type, mm²
  std::vector<StockOf> stocks;
};

struct Demand {
  std::vector<CodeDemand> codes;  // ascending
  std::vector<job::CutRefusal> refused;
};

// Thousandths of a penny or cent: the money of the problems.
inline constexpr double kMoneyParts = 1000;

Demand demand_of(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack);

}  // namespace lapwright::cutting

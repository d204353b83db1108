// The cutting list: what to buy, and how each roll is cut, as plain structs. Part of the plan.
//
// On a roll x runs along it from the end that the tape is hooked on, y across it from the edge nearest to the
// person; both in whole mm. Money is in pence or cents.
#pragma once

#include <lapwright/base/units.h>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace lapwright::job {

// Where one piece lies. Its box is [x, x + length] × [y, y + width]; the net's own box is laid into the low
// corner.
struct CutPiece {
  std::string mark;
  Length x;
  Length y;
  bool turned = false;  // the net's x runs across the roll
  bool reversed =
      false;  // then turned end for end about the middle of its box: the other half of a head-to-tail pair
};

enum class CutWay : std::uint8_t { across, along, teeth };

// One step of the hand: the part named is cut at every mark, measured by tape from one of its ends (across)
// or edges (along). Where several parts have that name, all of them are cut alike. Along the teeth of a pair
// there is no mark.
struct CutStep {
  std::string part;  // "roll", or a name that an earlier step gave
  CutWay way = CutWay::across;
  std::vector<Length> at;
  std::vector<std::string> gives;  // part by part from the hooked end; "" is left over
  std::int64_t cuts = 0;           // how many cuts of the knife, over all parts of that name
};

struct CutLeft {
  Length x;
  Length y;
  Length length;  // along the roll
  Length width;
  bool keep = false;  // worth keeping; otherwise scrap
};

struct CutRoll {
  std::string name;  // "R1", ...
  std::int64_t code = 0;
  Length width;
  Length length;
  std::int64_t count = 1;  // cut alike
  bool offcut = false;     // from the rack, not bought
  double price = 0;        // of one; 0 from the rack
  Mass mass;               // of one
  std::vector<CutPiece> pieces;
  std::vector<CutStep> cuts;
  std::vector<CutLeft> left;
};

// Who wants to see the strip bound proven: prices of the pieces, in 1/scale of money, at which no strip
// pattern is worth more than its stock. Money here is thousandths of a penny or cent.
struct CutProof {
  std::int64_t scale = 1;
  struct Price {
    std::string mark;
    std::int64_t price = 0;
  };
  std::vector<Price> prices;
  // The rectangles that pieces may be cut from: one piece each, or several head to tail. Whole mm.
  struct Box {
    Length length;
    Length width;
    std::vector<std::string> marks;
  };
  std::vector<Box> boxes;
  // Of the bound on straight cutting: prices in 1/straight_scale of 1024 of the same money, all sides rounded
  // down to steps first. No step: that bound was not worked out, or is no more than that of any cutting.
  Length straight_step;
  std::int64_t straight_scale = 0;
  std::vector<Price> straight_prices;
};

// Of one code: what no plan can be cheaper than, in the same money as `cost`.
struct CutCode {
  std::int64_t code = 0;
  double cost = 0;  // of this plan: bought, less what is kept and what scrap brings
  double any = 0;   // no cutting at all can be cheaper
  double straight =
      0;              // no straight edge-to-edge cutting; not less than `any`; 0 where it was not worked out
  double strips = 0;  // no strip cutting: strips over the whole width or length, pieces side by side in them
  double searched = 0;  // the cheapest strip cutting of a small job, every one of them tried; 0: not tried
  bool best_strips = false;  // no strip cutting is cheaper than this plan
  CutProof proof;
};

struct CutRefusal {
  std::string mark;
  std::int64_t count = 0;
  std::string why;  // "too-large", "not-stocked", "too-few", "wrong"
};

// By width, then first fit: what a hand would do without a plan.
struct HandMethod {
  double cost = 0;
  Mass bought;
};

struct Cutting {
  std::string currency;
  bool invented_yard = false;  // no yard file: widths, lengths and prices are made up
  std::vector<CutRoll> rolls;
  std::vector<CutCode> codes;
  std::vector<CutRefusal> refused;
  Mass bought;
  Mass from_rack;
  Mass used;
  Mass kept;
  Mass scrap;
  double price = 0;       // of what is bought
  double kept_worth = 0;  // of what is kept, less what was taken from the rack
  double scrap_worth = 0;
  double cost = 0;   // price less both
  double order = 0;  // what the merchant asks: the price, or the minimum order
  std::int64_t cuts = 0;
  std::int64_t widths = 0;  // different widths of roll bought
  double gap_any = 0;       // how far the cost can be above the best of all, as a share
  double gap_straight = 0;
  double gap_strips = 0;
  HandMethod hand;
};

}  // namespace lapwright::job

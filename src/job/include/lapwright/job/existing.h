// What a roof that stands already lets through, told from what was found on it ("as_built") and from the
// leaks that were noted ("leaks"): for the plan's file, for the findings' and for a screen.
//
// As JSON, under "existing": findings[] of the roof as found (as a plan's findings); suspects[], the
// likeliest first; unexplained[], the noted leaks that the lead does not explain.
#pragma once

#include <lapwright/job/finding.h>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace lapwright::job {

// What it takes before water comes through.
enum class Gives : std::uint8_t {
  any_rain,  // no wind at all
  sideways,  // wind across: water creeps off the line of fall
  driven,    // wind up the slope
  rain_on_wall,
  little,  // stands what the covering stands; only less than the practice asks
};
std::string_view name_of(Gives v);  // "any-rain", "sideways", "driven", "rain-on-wall", "little"

struct Suspect {
  std::string slope;
  std::string junction;
  std::string face;
  std::string
      found;  // "missing", "short", ..., as the job says; empty: nothing was noted, and it gives all the same
  std::string piece;           // kind
  std::int64_t course = 0;     // as findings count them; 0: not tied to one
  std::int64_t as_built = -1;  // index into the job's list; -1: none
  Gives gives = Gives::little;
  double drift = 0;  // as of a Frontier, with this fault alone
  double climb = 0;
  double rise = 0;
  double wind = 0;  // m/s
  double covering_drift = 0;
  double covering_climb = 0;
  std::optional<double> wind_from;  // bearing in which it gives first, where the slope's own is known
  double u = 0;                     // where it comes through first, mm in the slope
  double s = 0;
  std::int64_t strip_from = 0;  // courses whose units come off beside it; 0: none
  std::int64_t strip_to = 0;
  struct Fit {
    std::string mark;  // of this plan
    std::string kind;
    std::int64_t count = 0;
  };
  std::vector<Fit> fit;
  std::vector<std::string> rules;   // of the findings that it alone makes
  std::vector<std::int64_t> leaks;  // indices of the noted leaks that it explains
  double score = 0;                 // how well it explains them
  std::int64_t hose = 0;            // 1 first: tested with a hose from the lowest up
  std::vector<std::string> texts;   // in words: what was found, when it gives, what to do
};

// A leak that no suspect explains.
struct Unexplained {
  std::int64_t leak = 0;  // index into the job's list
  std::string when;
  std::vector<std::string> causes;  // keys "existing.cause.CAUSE"
  std::string text;
};

struct Existing {
  std::vector<Finding> findings;
  std::vector<Suspect> suspects;
  std::vector<Unexplained> unexplained;
};

}  // namespace lapwright::job

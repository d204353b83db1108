// Measured rules: each takes a slope as placed and says, for every place that it measures, the value and
// limit.
#pragma once

#include <lapwright/check/examine.h>

#include <optional>
#include <string>

namespace lapwright::check {

// Gathers measurements: the nearest to its limit of each rule at each junction, and a finding for every one
// that does not hold.
class Measures {
 public:
  Measures(const PlacedSlope& of_slope, const job::Survey& of_survey, const practice::Pack& limits,
           const Options& how, Examined& out)
      : slope(of_slope), survey(of_survey), pack(limits), options(how), out_(out) {}

  struct At {
    std::string junction;
    std::string face;
    std::int64_t course = -2;
  };
  void least(const std::string& rule, const At& at, double value, double limit, const std::string& source,
             job::Level level = job::Level::wrong);
  void most(const std::string& rule, const At& at, double value, double limit, const std::string& source,
            job::Level level = job::Level::wrong);
  void least(const std::string& rule, const At& at, double value, const practice::Rule& limit,
             job::Level level = job::Level::wrong) {
    least(rule, at, value, limit.value, limit.source, level);
  }
  // Something that is there or not.
  void broken(const std::string& rule, const At& at, const job::Params& params, const std::string& source,
              job::Level level = job::Level::wrong);
  std::string where(const At& at) const;

  const PlacedSlope& slope;
  const job::Survey& survey;
  const practice::Pack& pack;
  const Options& options;

 private:
  void take(job::Measure measure, const At& at, job::Level level);
  static job::Finding finding_of(const job::Measure& measure, const At& at, job::Level level);
  void keep(job::Measure measure);
  Examined& out_;
};

void measure_covering(Measures& m);
void measure_soakers(Measures& m);
void measure_flashings(Measures& m);
void measure_nails(Measures& m);
void measure_pipes(Measures& m);
// Welded corners, and saddles where a stack stands through the ridge.
void measure_stacks(Measures& m);
// Valleys and mitred hips, along their line.
void measure_joins(Measures& m);
// Water down the walls' faces.
void trace_faces(Measures& m);

}  // namespace lapwright::check

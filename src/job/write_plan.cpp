#include <lapwright/job/write_plan.h>

#include <lapwright/job/json_text.h>
#include "plan_fields.h"

namespace lapwright::job {

namespace {

constexpr int kMmDecimals = 3;     // 1 µm, the grid of the nets
constexpr int kOtherDecimals = 9;  // so that a formula recomputed from its terms gives its value

// Hands the fields of plan_fields.h to a JsonText.
class Writer {
 public:
  // row() entries
  void mm(Length value) { json_.number(value.in_mm(), kMmDecimals); }
  void count(std::int64_t value) { json_.count(value); }
  void word(std::string_view value, Words /*words*/) { json_.text(value); }

  // fields() members
  void format(std::string_view key, std::string_view value) { text(key, {}, value); }
  void text(std::string_view key, std::string_view /*about*/, std::string_view value,
            When when = When::always) {
    if (when == When::given && value.empty()) return;
    json_.key(key);
    json_.text(value);
  }
  void word(std::string_view key, std::string_view about, std::string_view value, Words /*words*/) {
    text(key, about, value);
  }
  void mm(std::string_view key, std::string_view /*about*/, std::optional<Length> value) {
    if (!value) return;
    json_.key(key);
    mm(*value);
  }
  void mm(std::string_view key, std::string_view about, Length value) {
    mm(key, about, std::optional(value));
  }
  void number(std::string_view key, std::string_view /*about*/, std::optional<double> value) {
    if (!value) return;
    json_.key(key);
    json_.number(*value, kOtherDecimals);
  }
  void number(std::string_view key, std::string_view about, double value) {
    number(key, about, std::optional(value));
  }
  void count(std::string_view key, std::string_view /*about*/, std::optional<std::int64_t> value) {
    if (!value) return;
    json_.key(key);
    json_.count(*value);
  }
  void count(std::string_view key, std::string_view about, std::int64_t value) {
    count(key, about, std::optional(value));
  }
  void flag(std::string_view key, std::string_view /*about*/, bool value, When when = When::always) {
    if (when == When::given && !value) return;
    json_.key(key);
    json_.flag(value);
  }
  void point(std::string_view key, std::string_view /*about*/, geom::GridPoint value) {
    json_.key(key);
    one_row(value);
  }
  void place(std::string_view key, std::string_view /*about*/, geom::Vec3 v) { triple(key, v, kMmDecimals); }
  void direction(std::string_view key, std::string_view /*about*/, geom::Vec3 v) {
    triple(key, v, kOtherDecimals);
  }

  void lengths(std::string_view key, std::string_view /*about*/, const std::vector<Length>& values) {
    json_.key(key);
    json_.open_list();
    for (const Length value : values) mm(value);
    json_.close_list();
  }
  void counts(std::string_view key, std::string_view /*about*/, const std::vector<std::int64_t>& values) {
    json_.key(key);
    json_.open_list();
    for (const std::int64_t value : values) json_.count(value);
    json_.close_list();
  }
  void names(std::string_view key, std::string_view /*about*/, const std::vector<std::string>& values) {
    json_.key(key);
    json_.open_list();
    for (const std::string& value : values) json_.text(value);
    json_.close_list();
  }
  template <class T>
  void object(std::string_view key, std::string_view /*about*/, const T& value, bool given) {
    if (!given) return;
    json_.key(key);
    one_object(value);
  }
  template <class T>
  void rows(std::string_view key, std::string_view /*about*/, const std::vector<T>& items, When when) {
    if (when == When::given && items.empty()) return;
    json_.key(key);
    all_rows(items);
  }
  void rings(std::string_view key, std::string_view /*about*/, const std::vector<geom::Ring>& rings) {
    if (rings.empty()) return;
    json_.key(key);
    json_.open_list();
    for (const geom::Ring& ring : rings) all_rows(ring);
    json_.close_list();
  }
  template <class T>
  void list(std::string_view key, std::string_view /*about*/, const std::vector<T>& items, When when) {
    if (when == When::given && items.empty()) return;
    json_.key(key);
    json_.open_list();
    for (const T& item : items) one_object(item);
    json_.close_list();
  }
  template <class T>
  void lines(std::string_view key, std::string_view /*about*/, const std::vector<T>& items) {
    json_.key(key);
    json_.open_lines('[');
    for (const T& item : items) one_object(item);
    json_.close_lines(']');
  }
  void named(std::string_view key, std::string_view /*about*/, const std::vector<Figure>& figures) {
    if (figures.empty()) return;
    json_.key(key);
    json_.open_object();
    for (const Figure& figure : figures) {
      json_.key(figure.name);
      one_object(figure);
    }
    json_.close_object();
  }
  void params(std::string_view key, std::string_view /*about*/, const Params& params) {
    if (params.empty()) return;
    json_.key(key);
    json_.open_object();
    for (const Param& param : params) {
      json_.key(param.name);
      if (const auto* word = std::get_if<std::string>(&param.value)) {
        json_.text(*word);
      } else if (param.unit.empty()) {
        json_.number(std::get<double>(param.value), kOtherDecimals);
      } else {
        json_.open_list();
        json_.number(std::get<double>(param.value), kOtherDecimals);
        json_.text(param.unit);
        json_.close_list();
      }
    }
    json_.close_object();
  }

  template <class T>
  std::string whole(const T& value) {
    json_.open_lines('{');
    fields(*this, value);
    json_.close_lines('}');
    return json_.take() + '\n';
  }

 private:
  template <class T>
  void one_object(const T& value) {
    json_.open_object();
    fields(*this, value);
    json_.close_object();
  }
  template <class T>
  void one_row(const T& value) {
    json_.open_list();
    row(*this, value);
    json_.close_list();
  }
  template <class T>
  void all_rows(const std::vector<T>& items) {
    json_.open_list();
    for (const T& item : items) one_row(item);
    json_.close_list();
  }
  void triple(std::string_view key, geom::Vec3 v, int decimals) {
    json_.key(key);
    json_.open_list();
    json_.number(v.x, decimals);
    json_.number(v.y, decimals);
    json_.number(v.z, decimals);
    json_.close_list();
  }

  JsonText json_;
};

}  // namespace

std::string write_plan(const Plan& plan) {
  return Writer().whole(plan);
}

std::string write_findings(const Plan& plan) {
  return Writer().whole(FindingList{plan.existing ? plan.existing->findings : plan.findings, plan});
}

}  // namespace lapwright::job

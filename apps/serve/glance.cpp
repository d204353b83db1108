#include "serve/glance.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstddef>

namespace lapwright::serve {

namespace {

using Json = nlohmann::json;

constexpr std::size_t kMostDepth = 64;

std::string spot(std::string_view bytes, std::size_t at) {
  const std::string_view before = bytes.substr(0, at > 0 ? at - 1 : 0);
  const auto line = std::ranges::count(before, '\n') + 1;
  const std::size_t start = before.rfind('\n');
  const std::size_t column = before.size() - (start == std::string_view::npos ? 0 : start + 1) + 1;
  return "line " + std::to_string(line) + ", column " + std::to_string(column);
}

// Follows the text without building anything from it: no depth or number of values costs memory.
class Looker : public nlohmann::json_sax<Json> {
 public:
  Looker(std::string_view bytes, Glance& glance) : bytes_(bytes), glance_(glance) {}

  bool null() override { return value(); }
  bool boolean(bool /*value*/) override { return value(); }
  bool number_integer(number_integer_t /*value*/) override { return value(); }
  bool number_unsigned(number_unsigned_t /*value*/) override { return value(); }
  bool number_float(number_float_t /*value*/, const string_t& /*text*/) override { return value(); }
  bool binary(binary_t& /*value*/) override { return value(); }
  bool string(string_t& text) override {
    if (at_title_) glance_.title = text;
    return value();
  }
  bool key(string_t& name) override {
    at_title_ = depth_ == 1 && name == "title";
    return true;
  }
  bool start_object(std::size_t /*size*/) override { return deeper(); }
  bool end_object() override { return higher(); }
  bool start_array(std::size_t /*size*/) override { return depth_ == 0 ? value() : deeper(); }
  bool end_array() override { return higher(); }
  bool parse_error(std::size_t at, const std::string& /*token*/, const Json::exception& /*why*/) override {
    glance_.fault = "This is not JSON: it cannot be read from " + spot(bytes_, at) + ".";
    return false;
  }

 private:
  bool value() {
    if (depth_ == 0) glance_.fault = "This is JSON, but not a job: a job is an object in braces.";
    return depth_ > 0;
  }
  bool deeper() {
    at_title_ = false;
    if (++depth_ <= kMostDepth) return true;
    glance_.fault = "This is not a job: its brackets are over 64 deep.";
    return false;
  }
  bool higher() {
    --depth_;
    return true;
  }

  std::string_view bytes_;
  Glance& glance_;
  std::size_t depth_ = 0;
  bool at_title_ = false;
};

}  // namespace

Glance glance_at(std::string_view bytes) {
  Glance glance;
  Looker looker(bytes, glance);
  const bool sound = Json::sax_parse(bytes.begin(), bytes.end(), &looker);
  if (!sound && glance.fault.empty()) glance.fault = "This is not JSON.";
  return glance;
}

std::string json_text(std::string_view text) {
  return Json(std::string(text)).dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace lapwright::serve

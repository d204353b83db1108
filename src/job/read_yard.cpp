#include <lapwright/base/numbers.h>
#include <lapwright/job/yard.h>

#include <lapwright/job/json_text.h>
#include "reading.h"
#include "table_reader.h"
#include "yard_fields.h"

namespace lapwright::job {

namespace {

LengthUnit unit_of(const Document& yard) {
  const Document* unit = yard.find("unit");
  const bool inches = unit != nullptr && unit->kind == Document::Kind::text && unit->text == kShownInWords[1];
  return inches ? LengthUnit::inches : LengthUnit::mm;
}

constexpr int kMmDecimals = 3;

// Always in mm, whatever the file was in: what is written back is exact that way.
class YardText {
 public:
  std::string whole(const Yard& yard) {
    json_.open_lines('{');
    text("format", kYardFormat);
    if (!yard.title.empty()) text("title", yard.title);
    text("currency", yard.currency);
    json_.key("rolls");
    json_.open_lines('[');
    for (const YardRoll& roll : yard.rolls) {
      size(roll.code, roll.width, roll.length);
      given("price_per_kg", roll.price_per_kg);
      given("price", roll.price);
      given("in_stock", roll.in_stock);
      json_.close_object();
    }
    json_.close_lines(']');
    json_.key("offcuts");
    json_.open_lines('[');
    for (const YardOffcut& offcut : yard.offcuts) {
      size(offcut.code, offcut.width, offcut.length);
      if (offcut.count != 1) given("count", offcut.count);
      json_.close_object();
    }
    json_.close_lines(']');
    given("scrap_per_kg", yard.scrap_per_kg);
    if (yard.keep_length > Length{}) {
      json_.key("keep_from");
      json_.open_list();
      json_.number(yard.keep_length.in_mm(), kMmDecimals);
      json_.number(yard.keep_width.in_mm(), kMmDecimals);
      json_.close_list();
    }
    given("keep_percent", yard.keep_percent);
    mm("kerf", yard.kerf);
    given("minimum_order", yard.minimum_order);
    given("cut_cost", yard.cut_cost);
    given("width_cost", yard.width_cost);
    if (yard.prices_invented) text("prices_are", "invented");
    prices(yard);
    json_.close_lines('}');
    return json_.take() + '\n';
  }

 private:
  void prices(const Yard& yard) {
    if (!yard.prices.empty()) {
      json_.key("prices");
      json_.open_lines('[');
      for (const YardPrice& price : yard.prices) {
        json_.open_object();
        text("item", price.item);
        given("price", price.price);
        text("per", name_of(price.per));
        if (!price.currency.empty()) text("currency", price.currency);
        json_.close_object();
      }
      json_.close_lines(']');
    }
    if (yard.labour) {
      json_.key("labour");
      json_.open_object();
      given("per_hour", yard.labour->per_hour);
      given("per_day", yard.labour->per_day);
      json_.close_object();
    }
    if (yard.terms) terms(*yard.terms);
  }
  void terms(const YardTerms& terms) {
    json_.key("terms");
    json_.open_object();
    percent("overheads", terms.overheads);
    percent("margin", terms.margin);
    if (terms.vat) percent("vat", *terms.vat);
    if (terms.valid_days > 0) given("valid_days", terms.valid_days);
    texts("not_included", terms.not_included);
    texts("leave_out", terms.leave_out);
    if (!terms.provisional.empty()) {
      json_.key("provisional");
      json_.open_list();
      for (const YardTerms::Provisional& one : terms.provisional) {
        json_.open_object();
        text("what", one.what);
        given("price", one.price);
        json_.close_object();
      }
      json_.close_list();
    }
    json_.close_object();
  }
  void percent(std::string_view key, std::int64_t hundredths) {
    json_.key(key);
    json_.number(static_cast<double>(hundredths) / 100, 2);
  }
  void texts(std::string_view key, const std::vector<std::string>& values) {
    if (values.empty()) return;
    json_.key(key);
    json_.open_list();
    for (const std::string& value : values) json_.text(value);
    json_.close_list();
  }
  void text(std::string_view key, std::string_view value) {
    json_.key(key);
    json_.text(value);
  }
  void mm(std::string_view key, Length value) {
    json_.key(key);
    json_.number(value.in_mm(), kMmDecimals);
  }
  void given(std::string_view key, std::optional<std::int64_t> value) {
    if (!value) return;
    json_.key(key);
    json_.count(*value);
  }
  void size(std::int64_t code, Length width, Length length) {
    json_.open_object();
    given("code", code);
    mm("width", width);
    mm("length", length);
  }

  JsonText json_;
};

}  // namespace

Result<Yard> read_yard(std::string_view bytes) {
  const Result<Document> document = read_document(bytes);
  if (!document) return failed(document.error());
  Reading reading(unit_of(*document));
  Yard yard;
  const Path root;
  read_object(reading, yard_table(), *document, &yard, root);
  if (!reading.sound()) return failed(reading.take());
  return yard;
}

std::string write_yard(const Yard& yard) {
  return YardText().whole(yard);
}

}  // namespace lapwright::job

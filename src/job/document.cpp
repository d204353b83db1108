// JSON bytes to a Document. nlohmann's SAX reader judges the text; positions come from a cursor of our own,
// which walks over each token once the reader has accepted it: between two tokens stand only blanks, ',' and
// ':'.
#include <lapwright/job/document.h>

#include <fast_float/fast_float.h>
#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

#include "fault_order.h"
#include "json_path.h"

namespace lapwright::job {

namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

bool is_blank(char c) {
  return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}
bool is_word_part(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '-' ||
         c == '.' || c == '+';
}

// A place in the text that only moves forward, so that lines and columns cost one pass over the file. Columns
// count characters, not bytes.
class Cursor {
 public:
  explicit Cursor(std::string_view text) : text_(text) {}

  std::size_t at() const { return at_; }
  bool at_end() const { return at_ >= text_.size(); }
  char peek() const { return at_end() ? '\0' : text_[at_]; }
  SourceSpot spot() const { return {line_, column_}; }
  std::string_view text() const { return text_; }

  void step() {
    const char c = text_[at_];
    at_ += 1;
    if (c == '\n') {
      line_ += 1;
      column_ = 1;
    } else if (at_end() || (static_cast<unsigned char>(text_[at_]) & 0xC0U) != 0x80U) {
      column_ += 1;
    }
  }
  void step_to(std::size_t place) {
    while (!at_end() && at_ < place) step();
  }
  void skip_separators() {
    while (!at_end() && (is_blank(peek()) || peek() == ',' || peek() == ':')) step();
  }
  void skip_blanks() {
    while (!at_end() && is_blank(peek())) step();
  }
  // Over a string whose opening quote is here. REQUIRES that the reader has accepted it.
  void skip_string() {
    step();
    while (!at_end() && peek() != '"') {
      if (peek() == '\\') step();
      if (!at_end()) step();
    }
    if (!at_end()) step();
  }
  // Over a number by JSON's own grammar, so that "01" ends after the 0.
  std::string_view take_number() {
    const std::size_t from = at_;
    if (peek() == '-') step();
    if (peek() == '0') {
      step();
    } else {
      skip_digits();
    }
    if (peek() == '.') {
      step();
      skip_digits();
    }
    if (peek() == 'e' || peek() == 'E') {
      step();
      if (peek() == '+' || peek() == '-') step();
      skip_digits();
    }
    return text_.substr(from, at_ - from);
  }
  void skip_digits() {
    while (peek() >= '0' && peek() <= '9') step();
  }

 private:
  std::string_view text_;
  std::size_t at_ = 0;
  std::uint32_t line_ = 1;
  std::uint32_t column_ = 1;
};

std::string word_at(std::string_view text, std::size_t at) {
  std::size_t end = at;
  while (end < text.size() && end - at < 24 && is_word_part(text[end])) ++end;
  if (end == at && end < text.size()) ++end;
  return std::string(text.substr(at, end - at));
}

// The reader stops at the byte that does not continue a character; what is wrong is then the one that began
// it.
std::size_t ill_formed_at(std::string_view text, std::size_t stopped) {
  for (std::size_t back = 1; back <= 3 && back <= stopped; ++back) {
    const auto byte = static_cast<unsigned char>(text[stopped - back]);
    if (byte < 0x80U) break;
    if (byte < 0xC0U) continue;
    const std::size_t length = byte < 0xE0U ? 2 : byte < 0xF0U ? 3 : 4;
    return back < length ? stopped - back : stopped;
  }
  return stopped;
}

// Builds the tree. Every callback returns false to stop the reader; the reason is then in faults_.
class Builder {
 public:
  using number_integer_t = std::int64_t;
  using number_unsigned_t = std::uint64_t;
  using number_float_t = double;
  using string_t = std::string;
  using binary_t = std::vector<std::uint8_t>;

  explicit Builder(std::string_view text) : cursor_(text) {}

  bool null() {
    Document* value = begin_value(Document::Kind::null);
    if (value == nullptr) return false;
    cursor_.step_to(cursor_.at() + 4);
    return true;
  }
  bool boolean(bool flag) {
    Document* value = begin_value(Document::Kind::boolean);
    if (value == nullptr) return false;
    value->boolean = flag;
    cursor_.step_to(cursor_.at() + (flag ? 4U : 5U));
    return true;
  }
  bool number_integer(std::int64_t /*unused*/) { return number(); }
  bool number_unsigned(std::uint64_t /*unused*/) { return number(); }
  bool number_float(double /*unused*/, const std::string& /*unused*/) { return number(); }
  bool string(std::string& text) {
    Document* value = begin_value(Document::Kind::text);
    if (value == nullptr) return false;
    value->text = std::move(text);
    cursor_.skip_string();
    return true;
  }
  bool binary(binary_t& /*unused*/) { return false; }
  bool start_object(std::size_t /*unused*/) { return open(Document::Kind::object); }
  bool start_array(std::size_t /*unused*/) { return open(Document::Kind::list); }
  bool key(std::string& text) {
    cursor_.skip_separators();
    Document& object = *open_.back();
    object.members.push_back({std::move(text), {}, cursor_.spot()});
    cursor_.skip_string();
    return true;
  }
  bool end_object() {
    find_duplicates(*open_.back());
    close();
    return true;
  }
  bool end_array() {
    close();
    return true;
  }
  bool parse_error(std::size_t position, const std::string& /*unused*/,
                   const nlohmann::json::exception& why) {
    stop_at_error(position, why);
    return false;
  }

  Result<Document> take() {
    if (faults_.empty()) return std::move(root_);
    faults_ = in_file_order(std::move(faults_));
    return failed(std::move(faults_));
  }

 private:
  enum class Where : std::uint8_t { last, next };

  // Of the value read last in the innermost bracket, or of the one that would come next.
  std::string path(Where where = Where::last) const {
    std::string out = "$";
    for (const Document* level : open_) {
      const bool next = where == Where::next && level == open_.back();
      if (level->kind == Document::Kind::list) {
        const std::size_t n = level->items.size();
        out += path_of_item(next || n == 0 ? n : n - 1);
      } else if (!next && !level->members.empty()) {
        out += path_of_key(level->members.back().key);
      }
    }
    return out;
  }

  void fault(FaultCode code, SourceSpot spot, std::string read, std::string accepted, std::string mend,
             Where where = Where::last) {
    faults_.push_back({code, path(where), spot, std::move(read), std::move(accepted), std::move(mend)});
  }

  // Where a new value of the innermost bracket stands: an object has its key already.
  Where place_of_new() const {
    return !open_.empty() && open_.back()->kind == Document::Kind::list ? Where::next : Where::last;
  }

  Document* begin_value(Document::Kind kind) {
    cursor_.skip_separators();
    values_ += 1;
    if (values_ > kMaxValues) {
      fault(FaultCode::too_many, cursor_.spot(), fmt::format("more than {} values", kMaxValues),
            fmt::format("a file of at most {} values", kMaxValues), "split the job into several files",
            place_of_new());
      return nullptr;
    }
    Document* value = &root_;
    if (!open_.empty()) {
      Document& parent = *open_.back();
      if (parent.kind == Document::Kind::list) {
        value = &parent.items.emplace_back();
      } else {
        value = &parent.members.back().value;
      }
    }
    value->kind = kind;
    value->spot = cursor_.spot();
    return value;
  }

  bool number() {
    Document* value = begin_value(Document::Kind::number);
    if (value == nullptr) return false;
    const std::string_view text = cursor_.take_number();
    value->text = std::string(text);
    const auto parsed = fast_float::from_chars(text.data(), text.data() + text.size(), value->number);
    if (parsed.ec != std::errc{} || !std::isfinite(value->number)) {
      fault(FaultCode::bad_number, value->spot, std::string(text), "a number that a double can hold",
            "write a number of ordinary size");
      return false;
    }
    return true;
  }

  bool open(Document::Kind kind) {
    if (open_.size() >= kMaxDepth) {
      cursor_.skip_separators();
      fault(FaultCode::too_deep, cursor_.spot(), fmt::format("more than {} levels of brackets", kMaxDepth),
            fmt::format("at most {} levels", kMaxDepth), "remove the surplus brackets", place_of_new());
      return false;
    }
    Document* value = begin_value(kind);
    if (value == nullptr) return false;
    open_.push_back(value);
    cursor_.step();
    return true;
  }

  void close() {
    cursor_.skip_separators();
    if (!cursor_.at_end()) cursor_.step();
    open_.pop_back();
  }

  // By sorting, because an object with 100,000 keys must not cost a look at every pair.
  void find_duplicates(const Document& object) {
    const auto& members = object.members;
    std::vector<std::size_t> order(members.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      const int by_key = members[a].key.compare(members[b].key);
      return by_key != 0 ? by_key < 0 : a < b;
    });
    std::size_t first = 0;
    for (std::size_t i = 1; i < order.size(); ++i) {
      const auto& member = members[order[i]];
      if (members[order[first]].key != member.key) {
        first = i;
        continue;
      }
      if (faults_.size() >= kMaxFaults) return;
      const SourceSpot before = members[order[first]].spot;
      std::string where = path();
      // path() names the last member of the object that is being closed; the fault is about another one.
      const std::string last = path_of_key(members.back().key);
      where.resize(where.size() - last.size());
      faults_.push_back({FaultCode::duplicate_key, where + path_of_key(member.key), member.spot,
                         lapwright::quoted(member.key), "each key once",
                         fmt::format("keep one of the two; the first stands in line {}, column {}",
                                     before.line, before.column)});
    }
  }

  void stop_at_error(std::size_t position, const nlohmann::json::exception& why) {
    const std::string_view text = cursor_.text();
    const std::size_t token_before = cursor_.at();
    cursor_.skip_blanks();
    bool after_comma = false;
    bool after_separator = false;
    if (cursor_.peek() == ',' || cursor_.peek() == ':') {
      after_separator = true;
      after_comma = cursor_.peek() == ',';
      cursor_.step();
      cursor_.skip_blanks();
    }
    const Where where = after_comma ? Where::next : Where::last;
    const std::string_view message = why.what();
    const std::string word = word_at(text, cursor_.at());
    if (message.find("ill-formed UTF-8") != std::string_view::npos) {
      cursor_.step_to(ill_formed_at(text, position == 0 ? 0 : position - 1));
      fault(FaultCode::not_json, cursor_.spot(), lapwright::quoted(text.substr(cursor_.at(), 1)),
            "text in UTF-8", "save the file as UTF-8", where);
    } else if (why.id == 406) {
      fault(FaultCode::bad_number, cursor_.spot(), word, "a number that a double can hold",
            "write a number of ordinary size", where);
    } else if (is_number_word(word)) {
      fault(FaultCode::bad_number, cursor_.spot(), word, "a finite number", "write the number in digits",
            where);
    } else if (text.find_first_not_of(" \t\r\n") == std::string_view::npos) {
      fault(FaultCode::not_json, cursor_.spot(), "an empty file", "a JSON object: { ... }",
            "write the job into the file");
    } else if (cursor_.peek() == '"' && message.find("invalid string") != std::string_view::npos) {
      const bool unclosed = message.find("missing closing quote") != std::string_view::npos ||
                            message.find("U+000A") != std::string_view::npos ||
                            message.find("U+000D") != std::string_view::npos;
      fault(FaultCode::not_json, cursor_.spot(), lapwright::quoted(first_line(text.substr(cursor_.at())), 24),
            unclosed ? "a text that ends with a quote on the line where it begins"
                     : "a text without control characters, and only the escapes of JSON",
            unclosed ? "close the text with \"" : "write a tab as \\t, a backslash as \\\\, a quote as \\\"",
            where);
    } else if (cursor_.at_end() || position > text.size()) {
      cursor_.step_to(text.size());
      fault(FaultCode::not_json, cursor_.spot(), "the end of the file",
            open_.empty() ? "one JSON value" : fmt::format("the rest of the {}", open_kind()),
            open_.empty()
                ? "complete the file"
                : fmt::format("complete the file: the {} that begins in line {}, column {} is not closed",
                              open_kind(), open_.back()->spot.line, open_.back()->spot.column),
            where);
    } else {
      fault(FaultCode::not_json, cursor_.spot(), lapwright::quoted(word, 24), "JSON",
            advice(after_comma, after_separator, token_before), where);
    }
  }

  std::string_view open_kind() const {
    return open_.back()->kind == Document::Kind::list ? std::string_view("list") : std::string_view("object");
  }

  static std::string_view first_line(std::string_view text) {
    return text.substr(0, text.find_first_of("\r\n"));
  }

  static bool is_number_word(std::string_view word) {
    if (!word.empty() && (word.front() == '-' || word.front() == '+')) word.remove_prefix(1);
    return word == "NaN" || word == "nan" || word == "Infinity" || word == "inf" || word == "Inf";
  }

  std::string advice(bool after_comma, bool after_separator, std::size_t token_before) const {
    const char c = cursor_.peek();
    if (c == '\'') return "put texts and keys in double quotes";
    if (c == '/' || c == '#') return "JSON has no comments: remove it";
    if (after_comma && (c == '}' || c == ']')) return "remove the comma before it";
    if (open_.empty() && token_before > 0) return "remove what follows the closing bracket";
    if (c == '}' || c == ']') return "look for a bracket too many, or one of the wrong kind";
    if (c == '+' || c == '.') return "write numbers as 0.5 or 5, without a leading point or plus";
    if (c >= '0' && c <= '9') return "write numbers as 0.5 or 5; put a comma between two values";
    const bool expects_key = !open_.empty() && open_.back()->kind == Document::Kind::object &&
                             (after_comma || !after_separator) && c != '"';
    if (expects_key)
      return "write \"key\": value, with the key in double quotes, and a comma between two of them";
    if (!after_separator && token_before > 0) return "put a comma between two values, a colon after a key";
    return "write a text in double quotes, a number, true, false, a list or an object";
  }

  static constexpr std::size_t kMaxFaults = 1000;

  Cursor cursor_;
  Document root_;
  std::vector<Document*> open_;  // stable: a container gets no further item while its last one is open
  std::size_t values_ = 0;
  Faults faults_;
};

}  // namespace

const Document* Document::find(std::string_view key) const {
  for (const Member& member : members) {
    if (member.key == key) return &member.value;
  }
  return nullptr;
}

Result<Document> read_document(std::string_view bytes) {
  if (bytes.size() > kMaxBytes) {
    return failed({FaultCode::too_many,
                   "$",
                   {},
                   fmt::format("{} bytes", bytes.size()),
                   fmt::format("a file of at most {} bytes", kMaxBytes),
                   "split the job into several files"});
  }
  if (bytes.starts_with(kByteOrderMark)) {
    return failed({FaultCode::not_json,
                   "$",
                   {1, 1},
                   "a byte order mark",
                   "JSON without one (RFC 8259, section 8.1)",
                   "save the file as UTF-8 without a byte order mark"});
  }
  Builder builder(bytes);
  const bool whole = nlohmann::json::sax_parse(bytes.begin(), bytes.end(), &builder);
  Result<Document> result = builder.take();
  if (!whole && result) {
    return failed({FaultCode::internal, "$", {}, "JSON that the reader refused without a reason", "", ""});
  }
  return result;
}

}  // namespace lapwright::job

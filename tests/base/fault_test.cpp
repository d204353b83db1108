#include <lapwright/base/fault.h>
#include <lapwright/base/generator.h>

#include <gtest/gtest.h>

#include <set>
#include <string>

namespace {

using lapwright::Fault;
using lapwright::FaultCode;
using lapwright::Generator;
using lapwright::kFaultNames;
using lapwright::name_of;
using lapwright::quoted;
using lapwright::to_line;

TEST(FaultTable, has_one_row_per_code_in_order) {
  // `internal` is the last code by agreement: a code added after it, or a row forgotten, breaks this.
  EXPECT_EQ(kFaultNames.size(), static_cast<std::size_t>(FaultCode::internal) + 1);
  std::set<std::string> names;
  for (std::size_t i = 0; i < kFaultNames.size(); ++i) {
    EXPECT_EQ(static_cast<std::size_t>(kFaultNames[i].code), i);
    EXPECT_EQ(name_of(kFaultNames[i].code), kFaultNames[i].name);
    names.insert(std::string(kFaultNames[i].name));
  }
  EXPECT_EQ(names.size(), kFaultNames.size()) << "two codes share a name";
}

TEST(FaultTable, names_are_words_joined_by_hyphens) {
  for (const auto& row : kFaultNames) {
    EXPECT_FALSE(row.name.empty());
    EXPECT_EQ(row.name.find_first_not_of("abcdefghijklmnopqrstuvwxyz-"), std::string_view::npos) << row.name;
  }
}

TEST(FaultLine, says_where_what_and_how_to_mend) {
  const Fault fault{FaultCode::wrong_type, "$.slopes[0].pitch", {6, 16},
                    "\"steep\"",           "degrees, 0 to 90",  "give a number"};
  EXPECT_EQ(to_line(fault),
            "$.slopes[0].pitch (line 6, column 16): wrong-type; read \"steep\"; accepted: degrees, 0 to 90; "
            "mend: give a number");
}

TEST(FaultLine, leaves_out_what_is_unknown) {
  EXPECT_EQ(to_line({FaultCode::missing_key, "$.title", {}, "", "", ""}), "$.title: missing-key");
}

bool one_clean_line(const std::string& line) {
  for (const char c : line) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x20U || byte == 0x7FU) return false;
  }
  return line.find("\xC2\x9B") == std::string::npos && line.find("\xE2\x80\xA8") == std::string::npos;
}

TEST(FaultLine, has_no_control_character_whatever_was_read) {
  Generator generator(11);
  for (int round = 0; round < 2000; ++round) {
    std::string bytes;
    for (auto n = generator.between(0, 300); n > 0; --n)
      bytes += static_cast<char>(generator.between(0, 255));
    EXPECT_TRUE(one_clean_line(to_line({FaultCode::bad_choice, bytes, {1, 1}, bytes, bytes, bytes})))
        << round;
    EXPECT_TRUE(one_clean_line(lapwright::quoted(bytes))) << round;
  }
}

TEST(Quoted, shows_what_cannot_be_seen) {
  EXPECT_EQ(quoted("a\nb\t\x1B[31m"), R"("a\x0ab\x09\x1b[31m")");
  EXPECT_EQ(quoted("say \"no\""), R"("say \"no\"")");
  EXPECT_EQ(quoted("\xC2\x9B"), R"("\xc2\x9b")");                          // a control character of two bytes
  EXPECT_EQ(quoted("\xE2\x80\xA8"), R"("\xe2\x80\xa8")");                  // line separator
  EXPECT_EQ(quoted("½ dachfuß"), "\"½ dachfuß\"");                         // honest text stays
  EXPECT_EQ(quoted("\xC0\xAF\xED\xA0\x80"), R"("\xc0\xaf\xed\xa0\x80")");  // overlong form, surrogate
}

TEST(Quoted, keeps_at_most_the_limit_and_cuts_between_characters) {
  EXPECT_EQ(quoted("abcdef", 6), "\"abcdef\"");
  EXPECT_EQ(quoted("abcdefg", 6), "\"abcdef…\"");
  EXPECT_EQ(quoted("ab½", 3), "\"ab…\"");
  EXPECT_EQ(quoted("ab½", 4), "\"ab½\"");
}

}  // namespace

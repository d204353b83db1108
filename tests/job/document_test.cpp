// Properties of document.h: places, limits, what is not JSON (RFC 8259).
#include <lapwright/job/document.h>

#include <gtest/gtest.h>

#include <cmath>
#include <string>

namespace {
using namespace lapwright;
using namespace lapwright::job;

std::string only_fault(std::string_view bytes) {
  const Result<Document> document = read_document(bytes);
  if (document) return "read";
  EXPECT_EQ(document.error().size(), 1U);
  return to_line(document.error().front());
}

TEST(Document, every_value_and_key_knows_its_place) {
  const auto document = read_document("{\n  \"é\\\"é\" : [1,\t-2.5e1 ,null],\r\n\"b\":{\"c\":true}  }");
  ASSERT_TRUE(document);
  const auto& first = document->members[0];
  EXPECT_EQ(first.key, "é\"é");
  EXPECT_EQ(first.spot.line, 2U);
  EXPECT_EQ(first.spot.column, 3U);
  EXPECT_EQ(first.value.spot.column, 12U);  // columns count characters
  EXPECT_EQ(first.value.items[0].spot.column, 13U);
  EXPECT_EQ(first.value.items[1].spot.column, 16U);
  EXPECT_EQ(first.value.items[1].text, "-2.5e1");
  EXPECT_EQ(first.value.items[1].number, -25);
  EXPECT_EQ(first.value.items[2].spot.column, 24U);
  const Document* c = document->find("b")->find("c");
  EXPECT_EQ(c->spot.line, 3U);
  EXPECT_EQ(c->spot.column, 10U);
  EXPECT_TRUE(c->boolean);
}

TEST(Document, numbers_are_the_nearest_double) {
  const auto document =
      read_document("[0.1, 9007199254740993, 1e-400, -0, 1E+2, 123456789012345678901234567890]");
  ASSERT_TRUE(document);
  EXPECT_EQ(document->items[0].number, 0.1);
  EXPECT_EQ(document->items[1].number, 9007199254740992.0);
  EXPECT_EQ(document->items[2].number, 0);
  EXPECT_TRUE(std::signbit(document->items[3].number));
  EXPECT_EQ(document->items[4].number, 100);
  EXPECT_EQ(document->items[5].number, 123456789012345678901234567890.0);
}

TEST(Document, limits_refuse_with_one_fault_each) {
  EXPECT_EQ(only_fault(std::string(100'000, '[')).substr(64 + 33),
            " (line 1, column 33): too-deep; read more than 32 levels of brackets; accepted: at most 32 "
            "levels; mend: "
            "remove the surplus brackets");
  EXPECT_TRUE(read_document(std::string(32, '[') + std::string(32, ']')));
  std::string objects;
  for (int i = 0; i < 50'000; ++i) objects += "{\"a\":";
  EXPECT_NE(only_fault(objects).find("too-deep"), std::string::npos);

  std::string million = "[0";
  for (int i = 0; i < 1'000'000; ++i) million += ",0";
  EXPECT_EQ(only_fault(million + "]"),
            "$[199999] (line 1, column 400000): too-many; read more than 200000 values; accepted: a file of "
            "at most "
            "200000 values; mend: split the job into several files");
  EXPECT_EQ(
      only_fault(std::string(8'000'001, ' ')),
      "$: too-many; read 8000001 bytes; accepted: a file of at most 8000000 bytes; mend: split the job into "
      "several files");
}

TEST(Document, a_hundred_thousand_keys_cost_no_look_at_every_pair) {
  std::string keys = "{\"k0\":0";
  for (int i = 1; i < 100'000; ++i) keys += ",\"k" + std::to_string(i) + "\":0";
  EXPECT_TRUE(read_document(keys + "}"));
  EXPECT_EQ(only_fault(keys + ",\n\"k777\":1}"),
            "$.k777 (line 2, column 1): duplicate-key; read \"k777\"; accepted: each key once; mend: keep "
            "one of the "
            "two; the first stands in line 1, column 6885");
}

TEST(Document, says_what_is_not_json) {
  struct Case {
    std::string bytes, line;
  };
  const Case cases[] = {
      {"",
       "$ (line 1, column 1): not-json; read an empty file; accepted: a JSON object: { ... }; mend: write "
       "the job "
       "into the file"},
      {"{\"a\": NaN}",
       "$.a (line 1, column 7): bad-number; read NaN; accepted: a finite number; mend: write the "
       "number in digits"},
      {"[-Infinity]",
       "$[0] (line 1, column 2): bad-number; read -Infinity; accepted: a finite number; mend: write the "
       "number in digits"},
      {"[1,\n 1e999]",
       "$[1] (line 2, column 2): bad-number; read 1e999; accepted: a number that a double can hold; "
       "mend: write a number of ordinary size"},
      {"{\"a\":\"\xC3\xA9\xC3\"}",
       "$.a (line 1, column 8): not-json; read \"\\xc3\"; accepted: text in UTF-8; mend: "
       "save the file as UTF-8"},
      {"{\"a\":\"\xC3\xA9\xFF\"}",
       "$.a (line 1, column 8): not-json; read \"\\xff\"; accepted: text in UTF-8; mend: "
       "save the file as UTF-8"},
      {"\xEF\xBB\xBF{}",
       "$ (line 1, column 1): not-json; read a byte order mark; accepted: JSON without one (RFC "
       "8259, section 8.1); mend: save the file as UTF-8 without a byte order mark"},
      {"{\"a\": [1, 2",
       "$.a[1] (line 1, column 12): not-json; read the end of the file; accepted: the rest of the "
       "list; mend: complete the file: the list that begins in line 1, column 7 is not closed"},
      {"{\"a\":1,}",
       "$ (line 1, column 8): not-json; read \"}\"; accepted: JSON; mend: remove the comma before it"},
      {"{} []",
       "$ (line 1, column 4): not-json; read \"[\"; accepted: JSON; mend: remove what follows the closing "
       "bracket"},
      {"[01]",
       "$[0] (line 1, column 3): not-json; read \"1\"; accepted: JSON; mend: write numbers as 0.5 or 5; put "
       "a "
       "comma between two values"},
      {"{\"a\":\"\\ud800\"}",
       "$.a (line 1, column 6): not-json; read \"\\\"\\ud800\\\"}\"; accepted: a text without "
       "control characters, and only the escapes of JSON; mend: write a tab as \\t, a backslash "
       "as \\\\, a quote as \\\""},
  };
  for (const Case& c : cases) EXPECT_EQ(only_fault(c.bytes), c.line);
}

TEST(Document, every_duplicate_is_named) {
  const auto document = read_document("{\"a\":1,\"b\":{\"c\":1,\"c\":2},\"a\":3,\"a\":4}");
  ASSERT_FALSE(document);
  ASSERT_EQ(document.error().size(), 3U);
  EXPECT_EQ(document.error()[0].path, "$.b.c");
  EXPECT_EQ(document.error()[1].path, "$.a");
  EXPECT_EQ(document.error()[2].spot.column, 32U);
}
}  // namespace

#include <lapwright/draw/font.h>

#include "truetype.h"
#include "utf8.h"

#include <gtest/gtest.h>

#include <string>

namespace {
using namespace lapwright::draw;

std::vector<char32_t> code_points(std::string_view text) {
  std::vector<char32_t> out;
  while (!text.empty()) out.push_back(take_code_point(text));
  return out;
}

TEST(Utf8, reads_every_length_and_writes_it_back) {
  const std::string text = "aé½\u0416\u4E2D\U0001F600";
  const std::vector<char32_t> expected{U'a', U'é', U'½', U'\u0416', U'\u4E2D', U'\U0001F600'};
  EXPECT_EQ(code_points(text), expected);
  std::string back;
  for (const char32_t c : expected) append_utf8(back, c);
  EXPECT_EQ(back, text);
}

// The cases of RFC 3629, section 3 and 10: overlong forms, surrogates, beyond U+10FFFF, cut short.
TEST(Utf8, takes_bad_bytes_one_by_one) {
  for (const std::string bad : {"\xC0\xAF", "\xE0\x80\x80", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\xF5",
                                "\xFF", "\x80", "\xC3", "\xE4\xB8", "\xF0\x9F\x98"}) {
    EXPECT_EQ(code_points(bad), std::vector<char32_t>(bad.size(), kBadByte));
  }
  EXPECT_EQ(code_points("\xE4"
                        "a"),
            (std::vector<char32_t>{kBadByte, U'a'}));
}

TEST(TextWidth, grows_with_size_and_adds_up) {
  EXPECT_DOUBLE_EQ(text_width("lead", 4), 2 * text_width("lead", 2));
  EXPECT_DOUBLE_EQ(text_width("lead", 4), text_width("le", 4) + text_width("ad", 4));
  EXPECT_GT(text_width("lead", 4, Weight::bold), text_width("lead", 4));
  EXPECT_EQ(text_width("", 4), 0);
}

TEST(TextWidth, tabular_figures_are_all_of_one_width) {
  for (const char* digit : {"0", "2", "3", "4", "5", "6", "7", "8", "9"}) {
    EXPECT_EQ(text_width(digit, 4), text_width("1", 4));
  }
}

TEST(TextWidth, counts_what_is_drawn) {
  EXPECT_EQ(text_width(std::string("a\0b\x1b\x7f", 5), 4), text_width("ab", 4));
  EXPECT_EQ(text_width("a\u202Eb\u200B", 4), text_width("ab", 4));
  EXPECT_EQ(text_width("a\tb\n", 4), text_width("a b ", 4));
  EXPECT_EQ(text_width("\u4E2D\xff", 4), text_width("\u25A1\u25A1", 4));
}

TEST(MissingGlyphs, names_each_once_in_order) {
  EXPECT_EQ(missing_glyphs("Ø½ °±é×² ⅝ → ✓ √ θ − … ″ □"), "");
  EXPECT_EQ(missing_glyphs("\u4E2D\u0416 ok \u4E2D"), "\u4E2D\u0416");
  EXPECT_EQ(missing_glyphs("\xff\xfe"), "\uFFFD");
  EXPECT_EQ(missing_glyphs("tab\t and bell\a"), "");
}

TEST(Shortened, keeps_what_fits_and_says_when_it_cut) {
  const double size = 3;
  EXPECT_EQ(shortened("Hollin Barn", 100, size), "Hollin Barn");
  for (double width = 0; width < 40; width += 0.7) {
    const std::string text = shortened("Hollin Barn, rear slope é½", width, size);
    EXPECT_LE(text_width(text, size), width);
    if (!text.empty() && text != "Hollin Barn, rear slope é½") {
      EXPECT_TRUE(text.ends_with("…"));
      EXPECT_FALSE(text.ends_with(" …"));
    }
  }
  EXPECT_EQ(shortened("WWWW", 0.5, size), "");
}

TEST(SizeToFit, fits_or_stops_at_the_least) {
  const double full = text_width("Hollin Barn", 4);
  EXPECT_EQ(size_to_fit("Hollin Barn", full, 4, 2), 4);
  const double smaller = size_to_fit("Hollin Barn", full * 0.75, 4, 2);
  EXPECT_NEAR(text_width("Hollin Barn", smaller), full * 0.75, 1e-9);
  EXPECT_EQ(size_to_fit("Hollin Barn", full * 0.1, 4, 2), 2);
}

TEST(Wrapped, breaks_at_spaces_and_inside_a_word_only_when_it_must) {
  const double size = 3;
  const double wide = text_width("dress down the", size) + 0.01;
  EXPECT_EQ(wrapped("dress down the lead", wide, size), (std::vector<std::string>{"dress down the", "lead"}));
  EXPECT_EQ(wrapped("one\n\ntwo", wide, size), (std::vector<std::string>{"one", "", "two"}));
  EXPECT_EQ(wrapped("", wide, size), std::vector<std::string>{""});
  // No character is lost, and no line is too wide, whatever the width.
  const std::string text = "a Llanfairpwllgwyngyll b cc dddddddddddddddd e";
  for (double width = 3; width < 60; width += 1.3) {
    std::string joined;
    for (const std::string& line : wrapped(text, width, size)) {
      EXPECT_LE(text_width(line, size), width) << line;
      joined += line;
    }
    std::string letters;
    std::string expected;
    for (const char c : joined) letters += c == ' ' ? "" : std::string(1, c);
    for (const char c : text) expected += c == ' ' ? "" : std::string(1, c);
    EXPECT_EQ(letters, expected) << width;
  }
  // Narrower than a character: one a line, and it ends.
  EXPECT_EQ(wrapped("abc", 0.1, size), (std::vector<std::string>{"a", "b", "c"}));
}

TEST(TrueType, refuses_a_broken_file_without_reading_beyond_it) {
  const std::string_view good = font_file(Weight::regular);
  for (std::size_t keep = 0; keep < good.size(); keep += 97) {
    std::vector<unsigned char> part(good.begin(), good.begin() + static_cast<std::ptrdiff_t>(keep));
    const auto face = TrueType::read(part);
    if (!face) continue;
    for (std::uint32_t c = 0; c < 0x10000; c += 31) {  // must only not crash: the sanitizers watch
      const std::uint16_t glyph = face->glyph_of(static_cast<char32_t>(c));
      EXPECT_LT(glyph, face->glyph_count());
    }
    EXPECT_GE(face->subset({1, 2, 3}).size(), 100U);
  }
  std::uint32_t seed = 12345;
  for (int round = 0; round < 40; ++round) {
    std::vector<unsigned char> bytes(good.begin(), good.end());
    for (int k = 0; k < 400; ++k) {
      seed = seed * 1664525U + 1013904223U;
      bytes[(seed >> 8U) % (k < 200 ? 600U : bytes.size())] = static_cast<unsigned char>(seed);
    }
    const auto face = TrueType::read(bytes);
    if (face) {
      EXPECT_FALSE(face->subset({5, 700, 65535}).empty());
    }
  }
}

TEST(TrueType, subset_keeps_the_glyphs_asked_for_and_their_parts) {
  const std::string_view file = font_file(Weight::regular);
  const std::vector<unsigned char> bytes(file.begin(), file.end());
  const auto face = TrueType::read(bytes);
  ASSERT_TRUE(face);
  // é is made of e and the accent.
  const std::uint16_t accented = face->glyph_of(U'é');
  const std::string small = face->subset({accented});
  EXPECT_LT(small.size(), file.size() / 4);
  EXPECT_GT(small.size(), 1000U);
}

}  // namespace

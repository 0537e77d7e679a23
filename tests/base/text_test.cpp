#include "stakewright/base/text.hpp"

#include <gtest/gtest.h>

#include <random>

namespace stakewright::base {
namespace {

TEST(InQuotes, ShowsPlainTextAsItIs) {
  EXPECT_EQ(in_quotes("12' 4\""), "\"12' 4\"\"");
  EXPECT_EQ(in_quotes("Zürich"), "\"Zürich\"");
  EXPECT_EQ(in_quotes(""), "\"\"");
}

TEST(InQuotes, WritesOutWhatWouldMoveTheCursorOrTurnTheLine) {
  EXPECT_EQ(in_quotes("a\x1b[2J\n\t"), "\"a\\x1b[2J\\x0a\\x09\"");
  EXPECT_EQ(in_quotes("a\u202eb"), "\"a\\u202eb\"");
  EXPECT_EQ(in_quotes("\u0085"), "\"\\u0085\"");
  EXPECT_EQ(in_quotes("\xff\xc3"), "\"\\xff\\xc3\"");
}

TEST(InQuotes, CutsALongTextBetweenCharacters) {
  EXPECT_EQ(in_quotes(std::string(40, 'x')), "\"" + std::string(40, 'x') + "\"");
  EXPECT_EQ(in_quotes(std::string(41, 'x')), "\"" + std::string(40, 'x') + "...\"");
  // The euro sign has three bytes and would end in byte 41.
  EXPECT_EQ(in_quotes(std::string(38, 'x') + "\u20ac"), "\"" + std::string(38, 'x') + "...\"");
}

TEST(InQuotes, IsPrintableWhateverTheBytes) {
  constexpr unsigned seed = 7;
  std::mt19937 random(seed);
  std::uniform_int_distribution<int> byte(0, 255);
  for (int k = 0; k < 5000; ++k) {
    std::string text;
    for (int j = 0; j < 50; ++j) text += static_cast<char>(byte(random));
    EXPECT_TRUE(is_printable(in_quotes(text))) << "seed " << seed << ", case " << k;
  }
}

// RFC 3629, section 4 (the grammar) and section 10 (overlong forms).
TEST(Utf8, IsHeldToTheStandard) {
  for (const char* good : {"", "plain", "\u00e9", "\u20ac", "\U0001F600", "\xf4\x8f\xbf\xbf"})
    EXPECT_FALSE(first_byte_not_utf8(good)) << good;
  struct Case {
    const char* text;
    std::size_t bad;
  };
  for (const Case& c : {Case{"ab\xc0\x80", 2}, Case{"\xe0\x80\xaf", 0}, Case{"\xed\xa0\x80", 0},
                        Case{"\xf4\x90\x80\x80", 0}, Case{"a\x80", 1}, Case{"\xf5\x80\x80\x80", 0},
                        Case{"abc\xe2\x82", 3}, Case{"\xf0\x80\x80\xaf", 0}})
    EXPECT_EQ(first_byte_not_utf8(c.text), c.bad) << in_quotes(c.text);
}

TEST(Utf8, CountsCharactersNotBytes) {
  EXPECT_EQ(character_count("Zürich"), 6U);
  EXPECT_EQ(character_count("\u20ac\U0001F600"), 2U);
  EXPECT_EQ(character_count("\xff\xff"), 2U);
}

// Levenshtein's own measure: kitten to sitting is 3 (from memory); a change-over counts once.
TEST(Edits, AreCountedAsAReaderWould) {
  EXPECT_EQ(edits_between("kitten", "sitting"), 3U);
  EXPECT_EQ(edits_between("across_flats", "across_flast"), 1U);
  EXPECT_EQ(edits_between("", "side"), 4U);
  EXPECT_EQ(edits_between("side", ""), 4U);
  EXPECT_EQ(edits_between("side", "side"), 0U);
}

}  // namespace
}  // namespace stakewright::base

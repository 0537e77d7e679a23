#include "text.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

namespace stakewright::cli {
namespace {

using testing::Each;
using testing::HasSubstr;
using testing::Not;

std::vector<std::string> lines_of(const std::string& text) {
  std::istringstream in(text);
  std::vector<std::string> lines;
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

TEST(PlainText, KeepsLettersOfAnyScript) {
  EXPECT_EQ(plain("Grünes Häuschen, 東屋, ½\""), "Grünes Häuschen, 東屋, ½\"");
}

TEST(PlainText, LetsNoControlCharacterReachTheTerminal) {
  EXPECT_EQ(plain("a\x1b[31mb"), "a\uFFFD[31mb");
  EXPECT_EQ(plain("a\nb\tc\rd"), "a b c d");
  EXPECT_EQ(plain("a\u009bb\x7f"), "a\uFFFDb\uFFFD");
  EXPECT_EQ(plain("a\u202eb"), "a\uFFFDb");  // would turn the rest of the row round
}

TEST(PlainText, MarksBytesThatAreNotUtf8) {
  EXPECT_EQ(plain("a\xFF"
                  "b"),
            "a\uFFFDb");
  EXPECT_EQ(plain("\xC0\x80"), "\uFFFD\uFFFD");            // overlong
  EXPECT_EQ(plain("\xED\xA0\x80"), "\uFFFD\uFFFD\uFFFD");  // a surrogate
  EXPECT_EQ(plain("\xE2\x82"), "\uFFFD\uFFFD");            // cut off
}

// Widths: Unicode UAX #11, from memory: a wide ideograph takes two columns, a combining mark none.
TEST(DisplayWidth, CountsColumnsNotBytes) {
  EXPECT_EQ(display_width("9' 2-7/8\""), 9U);
  EXPECT_EQ(display_width("Häuschen"), 8U);
  EXPECT_EQ(display_width("東屋"), 4U);
  EXPECT_EQ(display_width("e\u0301"), 1U);
  EXPECT_EQ(display_width("120.00°"), 7U);
}

TEST(Paragraph, WrapsAtTheReportsWidthAndLosesNoWord) {
  std::string text;
  for (int i = 0; i < 60; ++i) text += "stake" + std::to_string(i) + ' ';
  const auto lines = lines_of(paragraph(text));
  EXPECT_GT(lines.size(), 1U);
  std::string joined;
  for (const auto& line : lines) {
    EXPECT_LE(display_width(line), kReportWidth);
    joined += line + ' ';
  }
  EXPECT_EQ(joined, text);
}

TEST(Paragraph, IndentsAllButItsFirstLine) {
  const auto lines = lines_of(paragraph(std::string(60, 'a') + ' ' + std::string(60, 'b'), 2));
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_EQ(lines[0], std::string(60, 'a'));
  EXPECT_EQ(lines[1], "  " + std::string(60, 'b'));
}

TEST(Table, AlignsItsColumns) {
  const std::string text = table({{"stake"}, {"pull", Align::right}, {"note"}},
                                 {{"A", "9' 2\"", "x"}, {"BB", "13' 10-1/4\"", ""}}, Emphasis::off);
  EXPECT_EQ(text,
            "  stake         pull  note\n"
            "  A            9' 2\"  x\n"
            "  BB     13' 10-1/4\"\n");
}

TEST(Table, AlignsWideAndCombiningLetters) {
  const auto lines = lines_of(table(
      {{"line"}, {"side"}}, {{"東屋", "|"}, {"e\u0301t", "|"}, {"slab", "|"}}, Emphasis::off));
  ASSERT_EQ(lines.size(), 4U);
  for (std::size_t i = 1; i < lines.size(); ++i) {
    EXPECT_EQ(display_width(lines[i].substr(0, lines[i].find('|'))), 8U) << lines[i];
  }
}

TEST(Table, WrapsALongLastColumnUnderItself) {
  std::string sentence;
  for (int i = 0; i < 40; ++i) sentence += "words ";
  const auto lines = lines_of(table({{"chance"}, {"cause"}}, {{"97 %", sentence}}, Emphasis::off));
  ASSERT_GT(lines.size(), 3U);
  for (const auto& line : lines) EXPECT_LE(display_width(line), kReportWidth) << line;
  EXPECT_EQ(lines[2].substr(0, 10), std::string(10, ' '));
  EXPECT_EQ(lines[2].substr(10, 5), "words");
}

TEST(Table, HasNoHeadingRowWhenNoColumnHasAHeading) {
  EXPECT_EQ(table({{""}, {"", Align::right}}, {{"side", "1 m"}}, Emphasis::off), "  side  1 m\n");
}

TEST(Table, LeavesOutAColumnWithNothingInIt) {
  EXPECT_EQ(table({{"a"}, {""}, {"c"}}, {{"1", "", "3"}}, Emphasis::off), "  a  c\n  1  3\n");
}

TEST(Table, LeavesNoRoomAtTheEndOfALine) {
  EXPECT_THAT(lines_of(table({{"a"}, {"note"}}, {{"1", ""}, {"2", "x"}}, Emphasis::off)),
              Each(Not(testing::EndsWith(" "))));
}

TEST(Emphasised, HeadingsCloseWhatTheyOpen) {
  EXPECT_EQ(heading("Corners", Emphasis::on), "\x1b[1mCorners\x1b[0m\n");
  EXPECT_EQ(heading("Corners", Emphasis::off), "Corners\n");
  const std::string text = table({{"a"}}, {{"1"}}, Emphasis::on);
  EXPECT_EQ(text, "\x1b[1m  a\x1b[0m\n  1\n");
}

TEST(Emphasised, HeadingsCannotBeForgedByATitle) {
  EXPECT_THAT(heading("x\x1b[2Jy", Emphasis::off), Not(HasSubstr("\x1b")));
}

}  // namespace
}  // namespace stakewright::cli

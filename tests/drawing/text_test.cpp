#include "stakewright/drawing/text.hpp"

#include <gtest/gtest.h>

namespace stakewright::drawing {
namespace {

constexpr double kHundredth_pt = 0.01;

Text words(std::string text, double size_pt = 10.0) {
  return {.at = {100.0, 200.0}, .text = std::move(text), .size_pt = size_pt};
}

TEST(Face, IsInstalled) { EXPECT_TRUE(face_is_installed()); }

// DejaVu Sans 2.37, read from its hmtx and glyf tables with a hex dump: A 1401
// and H 1540 of 2048 units wide, H 1493 high.
TEST(TextSize, FollowsTheWidthsInTheFontFile) {
  EXPECT_NEAR(text_size(words("A", 20.48)).width_pt, 14.01, kHundredth_pt);
  EXPECT_NEAR(text_size(words("H", 20.48)).width_pt, 15.40, kHundredth_pt);
  EXPECT_NEAR(cap_height_pt(20.48), 14.93, kHundredth_pt);
  EXPECT_NEAR(inked(words("H", 20.48)).height_pt, 14.93, kHundredth_pt);
}

TEST(TextSize, GrowsInProportionSoThatAPageCanBeScaled) {
  const double at_ten = text_size(words("13' 10-1/4\"")).width_pt;
  EXPECT_NEAR(text_size(words("13' 10-1/4\"", 30.0)).width_pt, 3.0 * at_ten, 3 * kHundredth_pt);
}

TEST(Anchor, PutsTheTextBeforeAroundOrAfterItsPlace) {
  Text text = words("octagon");
  const double width = text_size(text).width_pt;
  EXPECT_NEAR(inked(text).x_pt, 100.0, 1.0);
  text.anchor = Anchor::end;
  EXPECT_NEAR(inked(text).right_pt(), 100.0, 1.0);
  text.anchor = Anchor::middle;
  EXPECT_NEAR(inked(text).x_pt, 100.0 - width / 2.0, 1.0);
}

TEST(Baseline, CarriesTheFeetOfTheLetters) {
  EXPECT_NEAR(inked(words("HEX")).bottom_pt(), 200.0, kHundredth_pt);
}

TEST(Wrapped, BreaksIntoLinesNoWiderThanAsked) {
  Text text = words("Have buried services located before you drive a stake.");
  text.fit = Fit::wrapped;
  text.width_pt = 90.0;
  const TextSize size = text_size(text);
  EXPECT_GE(size.lines, 3);
  EXPECT_LE(size.width_pt, 90.0);
  EXPECT_NEAR(size.height_pt, size.lines * text_size(words("H")).height_pt, kHundredth_pt);
}

TEST(Cut, KeepsToItsWidthAndSaysSo) {
  Text text = words("Orchard shelter");
  text.fit = Fit::cut;
  text.width_pt = 300.0;
  EXPECT_FALSE(text_size(text).cut);
  text.text = std::string(200, 'W');
  EXPECT_TRUE(text_size(text).cut);
  EXPECT_LE(text_size(text).width_pt, 300.0);
}

TEST(Cut, StartsRightToLeftTextWhereItWasAskedFor) {
  Text text = words("סככת עץ בפרדס");
  text.fit = Fit::cut;
  text.width_pt = 400.0;
  EXPECT_NEAR(inked(text).x_pt, 100.0, 2.0);
  EXPECT_LT(inked(text).right_pt(), 300.0);
}

TEST(Cut, KeepsStackedMarksInsideTheLine) {
  std::string stacked = "A";
  for (int i = 0; i < 60; ++i) stacked += "\u0301";
  Text text = words(stacked);
  EXPECT_GT(inked(text).height_pt, 40.0) << "the marks no longer stack: this test holds nothing";
  text.fit = Fit::cut;
  text.width_pt = 300.0;
  EXPECT_GE(inked(text).y_pt, 200.0 - 10.0);
  EXPECT_LE(inked(text).bottom_pt(), 203.0);
}

TEST(Cut, TakesANewlineAsPartOfTheLine) {
  Text text = words("two\nlines");
  text.fit = Fit::cut;
  text.width_pt = 300.0;
  EXPECT_EQ(text_size(text).lines, 1);
}

}  // namespace
}  // namespace stakewright::drawing

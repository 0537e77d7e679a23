#include "stakewright/base/angle.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string>

#include "refusal.hpp"

namespace stakewright::base {
namespace {

TEST(PitchFromText, TakesRiseOverRunDegreesAndANumber) {
  EXPECT_DOUBLE_EQ(pitch_from_text("8/12"), 8.0 / 12.0);
  EXPECT_DOUBLE_EQ(pitch_from_text(" 7.5 / 12 "), 0.625);
  EXPECT_DOUBLE_EQ(pitch_from_text("0.667"), 0.667);
  EXPECT_DOUBLE_EQ(pitch_from_text("1"), 1.0);
  // A 12 in 12 pitch is 45 degrees, by definition of the tangent.
  EXPECT_NEAR(pitch_from_text("45deg"), 1.0, 1e-15);
  EXPECT_NEAR(pitch_from_text("45\u00b0"), 1.0, 1e-15);
  EXPECT_NEAR(pitch_from_text("33.7 deg"), 8.0 / 12.0, 0.0005);
}

TEST(AngleFromText, TakesDegreesMinutesSecondsDecimalDegreesAndGon) {
  EXPECT_NEAR(angle_rad_from_text("60-00-20"), (60.0 + 20.0 / 3600.0) * kDegree_rad, 1e-15);
  EXPECT_NEAR(angle_rad_from_text("60-30"), 60.5 * kDegree_rad, 1e-15);
  EXPECT_NEAR(angle_rad_from_text("59-59-59.5"), (60.0 - 0.5 / 3600.0) * kDegree_rad, 1e-14);
  EXPECT_NEAR(angle_rad_from_text("60.25"), 60.25 * kDegree_rad, 1e-15);
  EXPECT_NEAR(angle_rad_from_text(" 60.25 deg "), 60.25 * kDegree_rad, 1e-15);
  // A full turn is 400 gon, by definition (ISO 80000-3, annex).
  EXPECT_NEAR(angle_rad_from_text("100gon"), 90.0 * kDegree_rad, 1e-15);
}

TEST(AngleFromText, RefusesNothingAFullTurnAndSixtyMinutes) {
  for (const char* text : {"", "0", "-5", "360", "400gon", "60-60", "60-00-60", "60.5-30", "60-",
                           "60-00-", "60-1.5", "x", "60rad"})
    EXPECT_THAT(refusal([&] { angle_rad_from_text(text); }),
                testing::HasSubstr("accepted: an angle above 0 and below 360 degrees"))
        << text;
}

TEST(DmsFromAngle, RoundsToASecondAndComesBack) {
  EXPECT_EQ(dms_from_angle((60.0 + 20.0 / 3600.0) * kDegree_rad), "60-00-20");
  EXPECT_EQ(dms_from_angle((60.0 - 0.4 / 3600.0) * kDegree_rad), "60-00-00");
  EXPECT_EQ(dms_from_angle(-0.5 * kDegree_rad), "-0-30-00");
  EXPECT_EQ(dms_from_angle(-1e-9), "0-00-00");
  for (int second = 1; second < 360 * 3600; second += 997) {
    const double angle_rad = second / 3600.0 * kDegree_rad;
    EXPECT_NEAR(angle_rad_from_text(dms_from_angle(angle_rad)), angle_rad, 1e-12);
  }
}

TEST(PitchFromText, RefusesFlatSteepAndMeaningless) {
  for (const char* text : {"", "0", "0/12", "8/0", "-8/12", "89deg", "90deg", "225deg", "1e9", "58",
                           "8/12x", "8/", "/12", "nan", "inf", "steep", "8:12", "0deg"})
    EXPECT_THAT(refusal([&] { pitch_from_text(text); }),
                testing::HasSubstr("accepted: a pitch above 0 and below 89 degrees"))
        << text;
}

TEST(AngleText, RoundsToHundredthsOfADegree) {
  EXPECT_EQ(text_from_angle(std::atan(0.5)), "26.57\u00b0");  // from memory: atan 1/2 = 26.565
  EXPECT_EQ(text_from_angle(-0.5 * kDegree_rad), "-0.50\u00b0");
  EXPECT_EQ(text_from_angle(-1e-9), "0.00\u00b0");
  EXPECT_EQ(text_from_angle(std::numeric_limits<double>::infinity()), "-");
}

TEST(BearingText, RunsFromZeroToUnderAFullTurn) {
  EXPECT_EQ(text_from_bearing(184.3 * kDegree_rad), "184.3\u00b0");
  EXPECT_EQ(text_from_bearing(-90.0 * kDegree_rad), "270.0\u00b0");
  EXPECT_EQ(text_from_bearing(359.97 * kDegree_rad), "0.0\u00b0");
  EXPECT_EQ(text_from_bearing(-0.01 * kDegree_rad), "0.0\u00b0");
  EXPECT_EQ(text_from_bearing(725.0 * kDegree_rad), "5.0\u00b0");
  EXPECT_EQ(text_from_bearing(std::nan("")), "-");
}

}  // namespace
}  // namespace stakewright::base

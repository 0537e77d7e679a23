// Expected meters follow from 1 in = 25.4 mm exactly (international yard and pound agreement,
// 1959) and are worked by hand beside each figure.
#include "stakewright/base/length.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <clocale>
#include <string>

#include "refusal.hpp"

namespace stakewright::base {
namespace {

using testing::HasSubstr;

constexpr double kExact_m = 1e-12;  // doubles near 10 m are 2e-15 apart

double feet_job(const std::string& text) { return length_m_from_text(text, Units::feet_inches); }

std::string refused(const std::string& text) {
  return refusal([&] { length_m_from_text(text, Units::feet_inches); });
}

TEST(LengthFromText, TakesFeetInchesAndFractionsAsACrewWritesThem) {
  // 12 ft 4 5/16 in = 148.3125 in = 3767.1375 mm.
  for (const char* text :
       {"12' 4-5/16\"", "12-4-5/16", "12' 4 5/16\"", "12'4-5/16\"", "12ft 4 5/16in", "12'-4-5/16\"",
        "12-4-5/16\"", "12' 4-5/16", "148 5/16in", "148-5/16\"", "  12' 4-5/16\"  ",
        "12 FT 4-5/16 IN", "12 - 4 - 5/16"})
    EXPECT_NEAR(feet_job(text), 3.7671375, kExact_m) << text;
  // 13 ft 10 1/4 in = 166.25 in = 4222.75 mm.
  for (const char* text : {"13-10-1/4", "13' 10-1/4\"", "13ft 10 1/4in", "13' 10.25\""})
    EXPECT_NEAR(feet_job(text), 4.22275, kExact_m) << text;
  EXPECT_NEAR(feet_job("10-1/4\""), 0.26035, kExact_m);
  EXPECT_NEAR(feet_job("3/4in"), 0.01905, kExact_m);
  EXPECT_NEAR(feet_job(".5in"), 0.0127, kExact_m);
  EXPECT_NEAR(feet_job("16ft"), 4.8768, kExact_m);
  EXPECT_NEAR(feet_job("13-10"), 4.2164, kExact_m);       // 166 in
  EXPECT_NEAR(feet_job("13' 3/4\""), 3.98145, kExact_m);  // 156.75 in
}

TEST(LengthFromText, TakesMetric) {
  for (const char* text : {"3.766m", "3766mm", "376.6cm", "3766 mm", "3.766 m"})
    EXPECT_NEAR(feet_job(text), 3.766, kExact_m) << text;
}

TEST(LengthFromText, ReadsABareNumberInTheUnitsOfTheJob) {
  EXPECT_NEAR(feet_job("12.36"), 3.767328, kExact_m);  // 12.36 · 0.3048
  EXPECT_NEAR(length_m_from_text("3766", Units::millimeters), 3.766, kExact_m);
  EXPECT_NEAR(length_m_from_text("3.766", Units::meters), 3.766, kExact_m);
  EXPECT_EQ(feet_job("0"), 0.0);
}

TEST(LengthFromText, NeedsNoUnitForFeetInchesAndAFractionInAnyJob) {
  EXPECT_NEAR(length_m_from_text("12-4-5/16", Units::millimeters), 3.7671375, kExact_m);
  // "13-10" in a metric job may be anything.
  EXPECT_THAT(refusal([] { length_m_from_text("13-10", Units::meters); }),
              HasSubstr("accepted: a length such as"));
}

TEST(LengthFromText, TakesTypographicMarksAndAMinus) {
  EXPECT_NEAR(feet_job("13\u2032 10-1/4\u2033"), 4.22275, kExact_m);
  EXPECT_NEAR(feet_job("13\u2019 10-1/4\u201d"), 4.22275, kExact_m);
  EXPECT_NEAR(feet_job("-12' 4-5/16\""), -3.7671375, kExact_m);
  EXPECT_NEAR(feet_job("\u2212 3/4\""), -0.01905, kExact_m);
  EXPECT_FALSE(std::signbit(feet_job("-0")));
}

TEST(LengthFromText, RefusesTwelveInchesAfterFeet) {
  EXPECT_EQ(refused("12' 14\""), "read \"12' 14\"\"; accepted: fewer than 12 inches after feet");
  EXPECT_THAT(refused("12' 12\""), HasSubstr("fewer than 12 inches"));
  EXPECT_NEAR(feet_job("12' 11-63/64\""), 155.984375 * 0.0254, kExact_m);
}

TEST(LengthFromText, RefusesFractionsNoTapeHas) {
  for (const char* text : {"3/0in", "1/3in", "1/128in", "5/10in", "1/1in"})
    EXPECT_THAT(refused(text),
                HasSubstr("accepted: halves, quarters, 8ths, 16ths, 32nds and 64ths"))
        << text;
  for (const char* text : {"4/4in", "9/8in", "12' 3-5/4\""})
    EXPECT_THAT(refused(text), HasSubstr("top is less than its bottom")) << text;
  EXPECT_THAT(refused("10-1/4"), HasSubstr("an inch mark after a fraction"));  // feet or inches?
}

TEST(LengthFromText, RefusesWhatIsNoLength) {
  for (const char* text :
       {"",       " ",       "'",     "\"",       "-",           "/",        "ft",
        "in",     "abc",     "nan",   "inf",      "1e300",       "1e3m",     "5.m",
        ".",      "..5m",    "16ftx", "16ft 3ft", "12' 4\" 2\"", "3.766m m", "3.766km",
        "--3m",   "3.766m-", "+3m",   "0x10",     "12 4-5/16\"", "1/2ft",    "12' -",
        "12' 4-", "12-",     "1/in",  "1/2/4in",  "3m 20",       "\u0663m"})
    EXPECT_THAT(refused(text), HasSubstr("accepted: ")) << text;
  EXPECT_THAT(refused("3,766m"), HasSubstr("a decimal point, and no comma"));
  EXPECT_THAT(refused("12.5' 3\""), HasSubstr("whole feet before inches"));
  EXPECT_THAT(refused("12' 3.5-1/4\""), HasSubstr("whole inches before a fraction"));
}

TEST(LengthFromText, RefusesLengthsNoJobHas) {
  EXPECT_NEAR(feet_job("10000m"), 10000.0, kExact_m);
  EXPECT_THAT(refused("10000.001m"), HasSubstr("lengths up to 10000 m"));
  EXPECT_THAT(refused("-32809ft"), HasSubstr("lengths up to 10000 m"));
  EXPECT_THAT(refused(std::string(400, '9') + "m"), HasSubstr("lengths up to 10000 m"));
  EXPECT_EQ(feet_job("0." + std::string(400, '0') + "1m"), 0.0);  // under the least double
}

TEST(LengthFromText, QuotesLittleOfALongTextAndNothingThatMovesTheCursor) {
  const std::string message = refused(std::string(100000, '\x1b'));
  EXPECT_LT(message.size(), 400U);
  EXPECT_THAT(message, HasSubstr("\\x1b"));
  EXPECT_THAT(message, testing::Not(HasSubstr("\x1b")));
}

TEST(LengthFromText, ReadsAPointInALocaleOfCommas) {
  // Without such a locale on the machine this still holds that the "C" locale is not needed.
  const std::string before = std::setlocale(LC_ALL, nullptr);
  std::setlocale(LC_ALL, "de_DE.UTF-8");
  EXPECT_NEAR(feet_job("3.766m"), 3.766, kExact_m);
  EXPECT_EQ(text_from_length(3.766, Units::meters), "3.766 m");
  std::setlocale(LC_ALL, before.c_str());
}

TEST(AreaFromText, TakesSquareFeetAndSquareMeters) {
  // 1 sq ft = 0.3048² m² = 0.09290304 m².
  for (const char* text : {"200sqft", "200 sq ft", "200ft2", "200 ft\u00b2", "200"})
    EXPECT_NEAR(area_m2_from_text(text, Units::feet_inches), 18.580608, kExact_m) << text;
  for (const char* text : {"18.6m2", "18.6 m\u00b2", "18.6sqm", "18.6 sq m", "18.6"})
    EXPECT_NEAR(area_m2_from_text(text, Units::millimeters), 18.6, kExact_m) << text;
  EXPECT_NEAR(area_m2_from_text("18.6", Units::meters), 18.6, kExact_m);
}

TEST(AreaFromText, RefusesTheRest) {
  for (const char* text :
       {"", "sqft", "200 acres", "18.6m", "1e3m2", "nan", "18,6m2", "200000000m2"})
    EXPECT_THAT(refusal([&] { area_m2_from_text(text, Units::meters); }), HasSubstr("accepted: "))
        << text;
}

}  // namespace
}  // namespace stakewright::base

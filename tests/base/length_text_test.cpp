#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

#include "stakewright/base/length.hpp"

namespace stakewright::base {
namespace {

constexpr unsigned kSeed = 20240611;

TEST(LengthText, WritesFeetInchesAndFractionsInLowestTerms) {
  // Meters worked by hand from 1 in = 25.4 mm.
  EXPECT_EQ(text_from_length(4.22275, Units::feet_inches), "13' 10-1/4\"");
  EXPECT_EQ(text_from_length(0.26035, Units::feet_inches), "10-1/4\"");
  EXPECT_EQ(text_from_length(-0.01905, Units::feet_inches), "-3/4\"");
  EXPECT_EQ(text_from_length(0.0, Units::feet_inches), "0\"");
  EXPECT_EQ(text_from_length(4.8768, Units::feet_inches), "16' 0\"");
  EXPECT_EQ(text_from_length(0.0254, Units::feet_inches), "1\"");
  EXPECT_EQ(text_from_length(3.96875, Units::feet_inches), "13' 0-1/4\"");  // 156.25 in
  EXPECT_EQ(text_from_length(-3.7671375, Units::feet_inches), "-12' 4-5/16\"");
  EXPECT_EQ(text_from_length(3.7671375, Units::feet_inches, 4), "12' 4-1/4\"");
  EXPECT_EQ(text_from_length(3.7671375, Units::feet_inches, 1), "12' 4\"");
}

TEST(LengthText, CarriesFromFractionToInchToFoot) {
  // 11 31/32 in to the nearest 1/16 is a foot.
  EXPECT_EQ(text_from_length(11.97 * 0.0254, Units::feet_inches), "1' 0\"");
  EXPECT_EQ(text_from_length(23.97 * 0.0254, Units::feet_inches), "2' 0\"");
  EXPECT_EQ(text_from_length(3.99 * 0.0254, Units::feet_inches), "4\"");
}

TEST(LengthText, WritesMetricToTheMillimeter) {
  EXPECT_EQ(text_from_length(3.7664, Units::millimeters), "3766 mm");
  EXPECT_EQ(text_from_length(3.7666, Units::meters), "3.767 m");
  EXPECT_EQ(text_from_length(-0.0051, Units::meters), "-0.005 m");
  EXPECT_EQ(text_from_length(12.0, Units::meters), "12.000 m");
}

TEST(LengthText, HasNoMinusBeforeNothingAndNoFigureForNoNumber) {
  for (const Units units : {Units::feet_inches, Units::millimeters, Units::meters}) {
    EXPECT_EQ(text_from_length(-1e-6, units), text_from_length(0.0, units));
    EXPECT_EQ(text_from_small_length(-1e-6, units), text_from_small_length(0.0, units));
    EXPECT_EQ(text_from_length(std::nan(""), units), "-");
    EXPECT_EQ(text_from_length(std::numeric_limits<double>::infinity(), units), "-");
    EXPECT_EQ(text_from_length(1e300, units), "-");
    EXPECT_EQ(text_from_area(std::nan(""), units), "-");
  }
}

TEST(SmallLengthText, IsOneStepFiner) {
  EXPECT_EQ(text_from_small_length(5.0 / 32.0 * 0.0254, Units::feet_inches), "5/32\"");
  EXPECT_EQ(text_from_small_length(0.00393, Units::millimeters), "3.9 mm");
  EXPECT_EQ(text_from_small_length(0.00393, Units::meters), "3.9 mm");
  EXPECT_EQ(text_from_small_length(-0.0254, Units::meters), "-25.4 mm");
}

TEST(AreaText, WritesSquareFeetAndSquareMeters) {
  EXPECT_EQ(text_from_area(19.31, Units::meters), "19.31 m\u00b2");
  EXPECT_EQ(text_from_area(18.580608, Units::feet_inches), "200.0 sq ft");  // 200 · 0.09290304
}

// The finest steps nearest a length, by whole numbers and with no text.
double rounded_m(double length_m, Units units, int per_inch) {
  const double step_m = units == Units::feet_inches ? 0.0254 / per_inch : 0.001;
  return std::round(length_m / step_m) * step_m;
}

TEST(LengthText, ReadBackIsTheRoundedLengthInEitherSystem) {
  std::mt19937 random(kSeed);
  std::uniform_real_distribution<double> exponent(-4.0, 4.0);  // 0.1 mm to 10 km
  std::uniform_int_distribution<int> power(0, 6);
  std::bernoulli_distribution minus(0.5);
  for (int k = 0; k < 20000; ++k) {
    const double length_m = std::pow(10.0, exponent(random)) * (minus(random) ? -0.999 : 0.999);
    const int per_inch = 1 << power(random);
    for (const Units units : {Units::feet_inches, Units::millimeters, Units::meters}) {
      const std::string text = text_from_length(length_m, units, per_inch);
      EXPECT_NEAR(length_m_from_text(text, units), rounded_m(length_m, units, per_inch), 2e-12)
          << text << ", seed " << kSeed;
      // Text that carries its unit reads the same in any job.
      EXPECT_EQ(length_m_from_text(text, Units::feet_inches),
                length_m_from_text(text, Units::meters))
          << text << ", seed " << kSeed;
      EXPECT_EQ(text_from_length(length_m_from_text(text, units), units, per_inch), text);
    }
  }
}

TEST(SmallLengthText, ReadBackIsWithinHalfAStep) {
  std::mt19937 random(kSeed);
  std::uniform_real_distribution<double> length(-0.5, 0.5);
  for (int k = 0; k < 5000; ++k) {
    const double length_m = length(random);
    const std::string inches = text_from_small_length(length_m, Units::feet_inches);
    const std::string metric = text_from_small_length(length_m, Units::meters);
    EXPECT_NEAR(length_m_from_text(inches, Units::meters), length_m, 0.0254 / 64 + 1e-12) << inches;
    EXPECT_NEAR(length_m_from_text(metric, Units::meters), length_m, 0.00005 + 1e-12) << metric;
  }
}

TEST(AreaText, ReadBackIsWithinHalfAStep) {
  std::mt19937 random(kSeed);
  std::uniform_real_distribution<double> area(0.0, 500.0);
  for (int k = 0; k < 5000; ++k) {
    const double area_m2 = area(random);
    EXPECT_NEAR(area_m2_from_text(text_from_area(area_m2, Units::meters), Units::feet_inches),
                area_m2, 0.005 + 1e-9);
    EXPECT_NEAR(area_m2_from_text(text_from_area(area_m2, Units::feet_inches), Units::meters),
                area_m2, 0.05 * 0.09290304 + 1e-9);
  }
}

}  // namespace
}  // namespace stakewright::base

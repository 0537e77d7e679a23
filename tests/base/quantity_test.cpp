#include "stakewright/base/quantity.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "refusal.hpp"

namespace stakewright::base {
namespace {

double read(const std::string& text, Quantity quantity) {
  return quantity_from_text(text, quantity);
}

// Fixed points of the scales: 32 F = 0 C, 68 F = 20 C, 212 F = 100 C, -40 F = -40 C.
TEST(Quantity, TakesTemperaturesInEitherScale) {
  EXPECT_NEAR(read("32F", Quantity::temperature), 0.0, 1e-12);
  EXPECT_NEAR(read("68 F", Quantity::temperature), 20.0, 1e-12);
  EXPECT_NEAR(read("212\u00b0F", Quantity::temperature), 100.0, 1e-12);
  EXPECT_NEAR(read("-40f", Quantity::temperature), -40.0, 1e-12);
  for (const char* text : {"35", "35C", "35 \u00b0C"})
    EXPECT_EQ(read(text, Quantity::temperature), 35.0) << text;
}

// NIST Special Publication 811 (2008), appendix B.8: 1 lbf = 4.448 222 N, 1 kgf = 9.806 65 N,
// 1 psi = 6894.757 Pa, 1 lbf/ft = 14.593 90 N/m, 1 in² = 6.4516 cm² (from memory, except that
// 6.4516 and 9.80665 are exact).
TEST(Quantity, TakesPoundsAndInches) {
  EXPECT_NEAR(read("1lbf", Quantity::pull), 4.448222, 5e-7);
  EXPECT_NEAR(read("10 kgf", Quantity::pull), 98.0665, 1e-12);
  EXPECT_NEAR(read("1in2", Quantity::section), 6.4516e-4, 1e-18);
  EXPECT_NEAR(read("29e6psi", Quantity::modulus), 29e6 * 6894.757, 29e6 * 5e-4);
  EXPECT_NEAR(read("1lbf/ft", Quantity::weight), 14.59390, 5e-6);
  EXPECT_NEAR(read("6.45e-6/F", Quantity::expansion), 11.61e-6, 1e-12);  // · 9/5
}

TEST(Quantity, TakesABareNumberInItsFirstUnit) {
  EXPECT_EQ(read("50", Quantity::pull), 50.0);
  EXPECT_EQ(read("50N", Quantity::pull), 50.0);
  EXPECT_NEAR(read("2.6", Quantity::section), 2.6e-6, 1e-20);
  EXPECT_NEAR(read("2.6mm\u00b2", Quantity::section), 2.6e-6, 1e-20);
  EXPECT_EQ(read("200", Quantity::modulus), 200e9);
  EXPECT_EQ(read("200 GPa", Quantity::modulus), 200e9);
  EXPECT_EQ(read("0.17", Quantity::weight), 0.17);
  EXPECT_EQ(read("1.15E-5", Quantity::expansion), 1.15e-5);
}

// NIST Special Publication 811 (2008), appendix B.8: 1 cubic foot = 2.831 685 E-02 m³, 1 cubic yard
// = 7.645 549 E-01 m³ (from memory).
TEST(Quantity, TakesVolumesAndNeverABareOne) {
  for (const char* text : {"1cuft", "1 cu ft", "1ft3", "1 ft\u00b3"})
    EXPECT_NEAR(read(text, Quantity::volume), 2.831685e-2, 5e-9) << text;
  EXPECT_NEAR(read("17L", Quantity::volume), 0.017, 1e-15);
  EXPECT_NEAR(read("0.017 m3", Quantity::volume), 0.017, 1e-15);
  EXPECT_THAT(refusal([] { read("0.6", Quantity::volume); }), testing::HasSubstr("0.6 cu ft"));
}

TEST(Volume, IsWrittenInCubicYardsOrCubicMeters) {
  EXPECT_EQ(text_from_volume(0.7645549, Units::feet_inches), "1.00 cu yd");
  EXPECT_EQ(text_from_volume(2.0, Units::feet_inches), "2.62 cu yd");  // 2 / 0.7645549 = 2.6159
  EXPECT_EQ(text_from_volume(2.0, Units::meters), "2.00 m\u00b3");
  EXPECT_EQ(text_from_volume(0.125, Units::millimeters), "0.12 m\u00b3");
  EXPECT_EQ(text_from_volume(INFINITY, Units::meters), "-");
}

TEST(Quantity, RefusesOtherUnitsAndTextThatIsNoFigure) {
  for (const char* text : {"", "hot", "95K", "F", "95FF", "9 5F", "1e", "nan", "--5"})
    EXPECT_THAT(refusal([&] { read(text, Quantity::temperature); }),
                testing::HasSubstr("accepted: a temperature such as"))
        << text;
  EXPECT_THAT(refusal([] { read("20lb", Quantity::pull); }), testing::HasSubstr("12lbf"));
  EXPECT_THAT(refusal([] { read("2.6cm2", Quantity::section); }), testing::HasSubstr("mm2"));
}

TEST(Quantity, LeavesAFigurePastADoubleForTheRangeToRefuse) {
  EXPECT_TRUE(std::isinf(read("1e999", Quantity::pull)));
  EXPECT_TRUE(std::isinf(read(".5e999", Quantity::pull)));
  EXPECT_EQ(read("1e-999", Quantity::pull), 0.0);
}

}  // namespace
}  // namespace stakewright::base

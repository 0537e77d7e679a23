#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

#include "refusal.hpp"
#include "stakewright/readings/classes.hpp"
#include "stakewright/readings/observation.hpp"

namespace stakewright::readings {
namespace {

Instrument built_in(const std::string& name) {
  for (const Instrument& instrument : built_in_instruments())
    if (instrument.name == name) return instrument;
  ADD_FAILURE() << "no " << name;
  return {};
}

TEST(TapeLimit, NeverShrinksAsTheTapeIsPaidOut) {
  for (const TapeClass tape : {TapeClass::I, TapeClass::II, TapeClass::III})
    for (int cm = 1; cm < 5000; ++cm)
      EXPECT_LE(tape_limit_m(tape, cm / 100.0), tape_limit_m(tape, (cm + 1) / 100.0)) << cm;
}

TEST(TapeLimit, SurvivesAMeterThatHasBeenThroughFeet) {
  const double five_meters = 5.0 / 0.3048 * 0.3048;
  EXPECT_EQ(tape_limit_m(TapeClass::II, five_meters), tape_limit_m(TapeClass::II, 5.0));
  EXPECT_EQ(tape_limit_m(TapeClass::II, std::nextafter(5.0, 6.0)),
            tape_limit_m(TapeClass::II, 5.0));
  EXPECT_GT(tape_limit_m(TapeClass::II, 5.0001), tape_limit_m(TapeClass::II, 5.0));
}

TEST(TapeLimit, IsOfALengthAboveZero) {
  for (const double length_m : {0.0, -1.0, std::nan(""), std::numeric_limits<double>::infinity()}) {
    EXPECT_THAT(refusal([=] { tape_limit_m(TapeClass::I, length_m); }),
                testing::HasSubstr("a length above 0"));
    EXPECT_THAT(refusal([=] { laser_limit_m(length_m); }), testing::HasSubstr("a length above 0"));
  }
}

// C. D. Ghilani, Adjustment Computations, errors of centering (from memory): sights of 250 and 450
// ft.  Targets within 0.003 ft: 2.8".  The instrument within 0.005 ft in its place, that is over
// root two each way, for an angle of 50 degrees: 2.2".
TEST(StandardDeviationOfAnAngle, HasThePublishedShareOfMiscentering) {
  constexpr double kFoot_m = 0.3048;
  constexpr double kSecond_rad = 3.14159265358979 / 180.0 / 3600.0;
  Instrument circle;
  circle.kind = Kind::angle;
  circle.centering_m = 0.003 * kFoot_m;
  const double in_line = standard_deviation_rad(circle, {250.0 * kFoot_m, 450.0 * kFoot_m, 0.0});
  EXPECT_NEAR(in_line / kSecond_rad, 2.8, 0.05);
  circle.centering_m = 0.005 / std::sqrt(2.0) * kFoot_m;
  const double apart_ft = std::sqrt(250.0 * 250.0 + 450.0 * 450.0 -
                                    2.0 * 250.0 * 450.0 * std::cos(50.0 * 3600.0 * kSecond_rad));
  const double with =
      standard_deviation_rad(circle, {250.0 * kFoot_m, 450.0 * kFoot_m, apart_ft * kFoot_m});
  const double without = standard_deviation_rad(circle, {250.0 * kFoot_m, 450.0 * kFoot_m, 0.0});
  EXPECT_NEAR(std::sqrt(with * with - without * without) / kSecond_rad, 2.2, 0.06);
}

// Monte Carlo over the same three places: the formula is the first order of what miscentering does.
TEST(StandardDeviationOfAnAngle, IsTheScatterOfAnglesTurnedOffCenter) {
  std::mt19937 random(7);
  std::normal_distribution<double> normal(0.0, 1.0);
  Instrument circle;
  circle.kind = Kind::angle;
  circle.angle_rad = 2e-4;
  circle.centering_m = 0.001;
  double sum = 0.0;
  constexpr int kRounds = 20000;
  for (int round = 0; round < kRounds; ++round) {
    const auto off = [&] { return circle.centering_m * normal(random); };
    const double from = std::atan2(off() + 0.0, 3.0 + off());
    const double to = std::atan2(4.0 + off(), off());
    // The instrument off its own place: seen along both sights.
    const double x = off();
    const double y = off();
    const double from_at = std::atan2(-x, 3.0 - y);
    const double to_at = std::atan2(4.0 - x, -y);
    const double error = to - from + to_at - from_at - std::acos(-1.0) + 2e-4 * normal(random);
    sum += error * error;
  }
  const double sd = standard_deviation_rad(circle, {3.0, 4.0, 5.0});
  EXPECT_NEAR(std::sqrt(sum / kRounds) / sd, 1.0, 0.02);
}

TEST(BuiltInInstruments, RankCirclesAsTheTradeRanksThem) {
  const Sights sights{3.5, 3.5, 2.7};
  const double station = standard_deviation_rad(built_in("total station"), sights);
  const double circle = standard_deviation_rad(built_in("circle"), sights);
  const double transit = standard_deviation_rad(built_in("transit"), sights);
  EXPECT_LT(station, circle);
  EXPECT_LT(circle, transit);
}

TEST(BuiltInInstruments, AreSteelFibreglassLaserLevelAndCircle) {
  std::vector<std::string> names;
  for (const Instrument& instrument : built_in_instruments()) names.push_back(instrument.name);
  EXPECT_THAT(names, testing::IsSupersetOf({"steel", "fibreglass", "laser", "level", "circle"}));
  for (const Kind kind : {Kind::tape, Kind::laser, Kind::level, Kind::angle})
    EXPECT_EQ(built_in(default_instrument(kind)).kind, kind);
}

// All of an instrument's variance at a length, its own share included.
double total_variance_m2(const Instrument& instrument, double length_m) {
  const double sd_m = standard_deviation_m(instrument, length_m);
  return sd_m * sd_m + std::pow(instrument.scale * length_m, 2) + std::pow(instrument.zero_m, 2);
}

// The figures by hand from the class tables: II has a 0.3, b 0.2, c 0.2 mm, III has 0.6, 0.4, 0.3
// (sources in tests/published/readings_test.cpp); a band's variance is its half-width squared
// over 3; reading to 1/16 in adds (1.5875 mm)²/12; centering within 2 mm adds 2·(2 mm)²/3.
TEST(BuiltInInstruments, AddUpToTheirPublishedClass) {
  const double beside_mm2 = 1.5875 * 1.5875 / 12.0 + 2.0 * 4.0 / 3.0;
  for (const double length_m : {1.0, 3.5, 10.0, 30.0}) {
    const double steel_mm2 =
        (0.5 * 0.5 + 0.04 * length_m * length_m + 0.2 * 0.2) / 3.0 + beside_mm2;
    const double fibreglass_mm2 = (1.0 + 0.16 * length_m * length_m + 0.3 * 0.3) / 3.0 + beside_mm2;
    EXPECT_NEAR(1e6 * total_variance_m2(built_in("steel"), length_m), steel_mm2, 1e-9);
    EXPECT_NEAR(1e6 * total_variance_m2(built_in("fibreglass"), length_m), fibreglass_mm2, 1e-9);
  }
}

// By the class printed on the tape, whatever it is made of.
TEST(BuiltInInstruments, OfOneClassHaveTheSameFigures) {
  for (const auto& [one, other] :
       {std::pair{"steel", "steel II"}, std::pair{"fibreglass", "fibreglass III"},
        std::pair{"steel III", "fibreglass III"}, std::pair{"steel I", "fibreglass I"}}) {
    for (const double length_m : {2.0, 10.0})
      EXPECT_DOUBLE_EQ(total_variance_m2(built_in(one), length_m),
                       total_variance_m2(built_in(other), length_m));
  }
  EXPECT_LT(total_variance_m2(built_in("steel I"), 10.0),
            total_variance_m2(built_in("steel II"), 10.0));
  EXPECT_FALSE(built_in("fibreglass II").expansion_per_c.has_value());
  EXPECT_TRUE(built_in("steel III").expansion_per_c.has_value());
}

// The band of SI 2016/1153, Schedule 1I: a + bL, L rounded up, and c from the end; as a standard
// uncertainty over the root of 3.  Without what the crew adds: centering and reading to 1/16 in.
TEST(BuiltInInstruments, StayWithinTheBandOfTheirClassAtEveryLength) {
  const double beside_m2 = 1e-6 * (1.5875 * 1.5875 / 12.0 + 2.0 * 4.0 / 3.0);
  for (const auto& [name, tape] :
       {std::pair{"steel I", TapeClass::I}, std::pair{"steel II", TapeClass::II},
        std::pair{"fibreglass III", TapeClass::III}}) {
    for (int tenths = 1; tenths <= 500; ++tenths) {
      const double length_m = tenths / 10.0;
      const double band_m = tape_limit_m(tape, length_m, TapeStart::end) / std::sqrt(3.0);
      const double own_m = std::sqrt(total_variance_m2(built_in(name), length_m) - beside_m2);
      EXPECT_LE(own_m, band_m) << name << ' ' << length_m;
      EXPECT_GE(own_m, 0.6 * band_m) << name << ' ' << length_m;
    }
  }
}

// Twice the law, from memory: what makers commonly state for bright sun.
TEST(BuiltInInstruments, GiveALaserInTheSunTwiceTheLaw) {
  const double centering_m2 = 1e-6 * 2.0 * 4.0 / 3.0;
  for (const double length_m : {1.0, 10.0, 30.0})
    EXPECT_NEAR(total_variance_m2(built_in("laser in sun"), length_m) - centering_m2,
                4.0 * (total_variance_m2(built_in("laser"), length_m) - centering_m2), 1e-15);
}

// The law at two sigma: 1 mm at short range, 1.5 mm at 30 m.
TEST(BuiltInInstruments, GiveTheLaserItsMakersLaw) {
  const Instrument laser = built_in("laser");
  const double centering_mm2 = 2.0 * 4.0 / 3.0;
  EXPECT_NEAR(1e6 * total_variance_m2(laser, 1e-9), 0.5 * 0.5 + centering_mm2, 1e-9);
  EXPECT_NEAR(1e6 * total_variance_m2(laser, 30.0), 0.75 * 0.75 + centering_mm2, 1e-9);
  for (int half_meters = 1; half_meters <= 60; ++half_meters) {
    const double length_m = half_meters / 2.0;
    const double of_law_mm = 500.0 * laser_limit_m(length_m);
    const double of_model_mm = std::sqrt(1e6 * total_variance_m2(laser, length_m) - centering_mm2);
    EXPECT_GE(of_model_mm, 0.99 * of_law_mm) << length_m;
    EXPECT_LE(of_model_mm, 1.07 * of_law_mm) << length_m;
  }
}

TEST(BuiltInInstruments, AreRankedAsTheTradeRanksThem) {
  for (const double length_m : {2.0, 5.0, 10.0}) {
    EXPECT_LT(total_variance_m2(built_in("laser"), length_m),
              total_variance_m2(built_in("steel"), length_m));
    EXPECT_LT(total_variance_m2(built_in("steel"), length_m),
              total_variance_m2(built_in("fibreglass"), length_m));
  }
}

// By hand: step 25.4/16 mm over √12 is 0.4583 mm; 1 mm over √3 is 0.5774 mm; as squares 0.7371 mm,
// and with the detector's 1 mm over √3 0.9363 mm.  6 mm and 3 mm in 30 m are two standard
// deviations.
TEST(BuiltInInstruments, ReadARodAsTheirParts) {
  EXPECT_NEAR(built_in("level").constant_m, 0.7371e-3, 5e-8);
  EXPECT_NEAR(built_in("rotating laser").constant_m, 0.9363e-3, 5e-8);
  EXPECT_NEAR(built_in("level").per_length, 1e-4, 1e-15);
  EXPECT_NEAR(built_in("rotating laser").per_length, 5e-5, 1e-15);
  EXPECT_EQ(built_in("rotating laser").kind, Kind::level);
}

TEST(StandardDeviation, AddsItsPartsAsSquares) {
  Instrument instrument;
  instrument.constant_m = 0.003;
  instrument.per_length = 0.0004;
  EXPECT_DOUBLE_EQ(standard_deviation_m(instrument, 10.0), 0.005);  // 3, 4, 5 mm
  instrument.constant_m = 0.001;
  instrument.per_length = 0.0;
  instrument.centering_m = 0.002;
  EXPECT_DOUBLE_EQ(standard_deviation_m(instrument, 10.0), 0.003);  // 1 + 2·4 = 9 mm²
}

}  // namespace
}  // namespace stakewright::readings

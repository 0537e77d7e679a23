#include "stakewright/readings/corrections.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>

#include "refusal.hpp"

namespace stakewright::readings {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

Reading taped(double value_m) {
  Reading reading;
  reading.from = "A";
  reading.to = "C";
  reading.value_m = value_m;
  return reading;
}

Instrument known_tape() {
  Instrument tape;
  tape.name = "checked";
  tape.nominal_m = 30.0;
  tape.actual_m = 29.996;
  tape.expansion_per_c = 11.5e-6;
  tape.standard_pull_n = 50.0;
  tape.section_m2 = 2.5e-6;
  tape.modulus_pa = 200e9;
  tape.weight_n_per_m = 0.2;
  return tape;
}

std::vector<Cause> causes_of(const std::vector<Correction>& made) {
  std::vector<Cause> causes;
  for (const Correction& correction : made) causes.push_back(correction.cause);
  return causes;
}

double length_m(const Reading& reading, const Instrument& instrument) {
  double length = reading.value_m;
  for (const Correction& correction : corrections(reading, instrument))
    length += correction.amount_m;
  return length;
}

TEST(Corrections, AreMadeOnlyWhenTheirFiguresAreThere) {
  Reading reading = taped(10.0);
  EXPECT_THAT(corrections(reading, Instrument{}), IsEmpty());
  reading.temperature_c = 35.0;
  reading.pull_n = 80.0;
  EXPECT_THAT(corrections(reading, Instrument{}), IsEmpty());
  EXPECT_THAT(causes_of(corrections(taped(10.0), known_tape())),
              ElementsAre(Cause::standardization, Cause::sag));
  Instrument no_section = known_tape();
  no_section.section_m2.reset();
  EXPECT_THAT(causes_of(corrections(reading, no_section)),
              ElementsAre(Cause::standardization, Cause::temperature, Cause::sag));
}

TEST(Corrections, ComeInTheirOrder) {
  Reading reading = taped(10.0);
  reading.burned_m = 0.3048;
  reading.temperature_c = 35.0;
  reading.pull_n = 80.0;
  reading.slope_m = 0.2;
  EXPECT_THAT(causes_of(corrections(reading, known_tape())),
              ElementsAre(Cause::burned, Cause::standardization, Cause::temperature, Cause::pull,
                          Cause::sag, Cause::slope));
}

TEST(Corrections, TakeOffTheMarkATapeWasBurnedOn) {
  Reading reading = taped(4.5);
  reading.burned_m = 0.3048;
  EXPECT_DOUBLE_EQ(length_m(reading, Instrument{}), 4.1952);
}

TEST(Corrections, HaveTheSignsOfTheTrade) {
  // A short tape, a cold tape and a slack pull read long; a warm, hard-pulled tape reads short.
  EXPECT_LT(standardization_correction_m(10.0, 30.0, 29.996), 0.0);
  EXPECT_LT(temperature_correction_m(10.0, 11.5e-6, -5.0, 20.0), 0.0);
  EXPECT_GT(temperature_correction_m(10.0, 11.5e-6, 35.0, 20.0), 0.0);
  EXPECT_GT(pull_correction_m(10.0, 80.0, 50.0, 2.5e-6, 200e9), 0.0);
  // A tape that sags or slopes always reads long.
  EXPECT_LT(sag_correction_m(10.0, 0.2, 50.0), 0.0);
  EXPECT_LT(slope_correction_m(10.0, 0.5), 0.0);
  EXPECT_EQ(slope_correction_m(10.0, -0.5), slope_correction_m(10.0, 0.5));
}

TEST(Corrections, VanishAtTheStandardState) {
  Reading reading = taped(8.0);
  reading.temperature_c = 20.0;
  reading.pull_n = 50.0;
  reading.slope_m = 0.0;
  reading.burned_m = 0.0;
  Instrument tape = known_tape();
  tape.actual_m = tape.nominal_m;
  tape.weight_n_per_m.reset();
  EXPECT_EQ(length_m(reading, tape), 8.0);
}

// A 3-4-5 triangle: 5 m up a rise of 3 m is 4 m level.
TEST(SlopeCorrection, IsExactOnAnyGrade) {
  EXPECT_DOUBLE_EQ(5.0 + slope_correction_m(5.0, 3.0), 4.0);
  // For a small rise it is v²/2s and a little more, with no digits lost.
  EXPECT_NEAR(slope_correction_m(10.0, 1e-6), -5e-14, 1e-20);
}

// The parabola's arc is 8 f²/(3 l) longer than its chord, f the dip w l²/(8 P): worked as an
// integral of the parabola's own slope, not from the formula under test.
TEST(SagCorrection, IsTheArcLessTheChordOfALightTape) {
  const double span_m = 20.0;
  const double weight = 0.2;
  const double pull_n = 50.0;
  double arc_m = 0.0;
  constexpr int pieces = 20000;
  const double piece_m = span_m / pieces;
  for (int k = 0; k < pieces; ++k) {
    const double x_m = (k + 0.5) * piece_m - span_m / 2.0;
    arc_m += std::hypot(piece_m, weight * x_m / pull_n * piece_m);
  }
  EXPECT_NEAR(sag_correction_m(span_m, weight, pull_n), span_m - arc_m, 0.01 * (arc_m - span_m));
}

TEST(Corrections, RefuseFiguresThatLeaveNoLength) {
  Reading burned = taped(1.0);
  burned.burned_m = 1.0;
  burned.line = 7;
  EXPECT_EQ(refusal([&] { corrections(burned, Instrument{}); }),
            "reading A to C (line 7): after the correction for burned no length is left; "
            "accepted: a length above 0");
  Reading steep = taped(1.0);
  steep.slope_m = 1.5;
  EXPECT_THAT(refusal([&] { corrections(steep, Instrument{}); }), HasSubstr("for slope"));
  Instrument heavy;
  heavy.weight_n_per_m = 100.0;
  heavy.standard_pull_n = 1.0;
  EXPECT_THAT(refusal([&] { corrections(taped(10.0), heavy); }), HasSubstr("for sag"));
}

TEST(Corrections, StayCloseToNothingForAnyGoodTape) {
  constexpr unsigned seed = 11;
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> length(0.5, 30.0);
  std::uniform_real_distribution<double> temperature(-20.0, 45.0);
  std::uniform_real_distribution<double> pull(40.0, 120.0);
  for (int k = 0; k < 1000; ++k) {
    Reading reading = taped(length(random));
    reading.temperature_c = temperature(random);
    reading.pull_n = pull(random);
    // 40 degrees of steel 0.46 mm a meter, tape 0.13 mm a meter, pull 0.14 mm a meter, and sag
    // (0.2 · 30 / 40)² / 24 = 0.94 mm a meter at the longest and slackest.
    EXPECT_NEAR(length_m(reading, known_tape()), reading.value_m, 0.0017 * reading.value_m)
        << "seed " << seed;
  }
}

}  // namespace
}  // namespace stakewright::readings

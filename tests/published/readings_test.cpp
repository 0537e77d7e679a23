// Published figures for tapes and lasers.  The tolerance beside each is what its printed digits
// allow; where a source prints too few, its exact value was worked from its inputs by hand
// calculator, not by this library.
#include <gtest/gtest.h>

#include <cmath>

#include "stakewright/base/quantity.hpp"
#include "stakewright/readings/classes.hpp"
#include "stakewright/readings/corrections.hpp"

namespace stakewright::readings {
namespace {

using base::Quantity;

constexpr double kFoot_m = 0.3048;

// In feet, pounds and degrees Fahrenheit, as the sources print them; the library works in SI.
double newtons(const char* text) { return base::quantity_from_text(text, Quantity::pull); }
double per_meter(const char* text) { return base::quantity_from_text(text, Quantity::weight); }
double celsius(const char* text) { return base::quantity_from_text(text, Quantity::temperature); }
double expansion(const char* text) { return base::quantity_from_text(text, Quantity::expansion); }
double section(const char* text) { return base::quantity_from_text(text, Quantity::section); }
double modulus(const char* text) { return base::quantity_from_text(text, Quantity::modulus); }

double temperature_ft(double length_ft, const char* per_f, const char* at, const char* standard) {
  return temperature_correction_m(length_ft * kFoot_m, expansion(per_f), celsius(at),
                                  celsius(standard)) /
         kFoot_m;
}

double sag_ft(double span_ft, const char* weight, const char* pull) {
  return sag_correction_m(span_ft * kFoot_m, per_meter(weight), newtons(pull)) / kFoot_m;
}

double pull_ft(double length_ft, const char* pull, const char* standard, const char* area,
               const char* young) {
  return pull_correction_m(length_ft * kFoot_m, newtons(pull), newtons(standard), section(area),
                           modulus(young)) /
         kFoot_m;
}

double standardization_ft(double length_ft, double nominal_ft, double actual_ft) {
  return standardization_correction_m(length_ft * kFoot_m, nominal_ft * kFoot_m,
                                      actual_ft * kFoot_m) /
         kFoot_m;
}

// UK Measuring Instruments Regulations 2016 (SI 2016/1153), Schedule 1I, chapter 1, paragraphs 1
// and 2, tables 1 and 2 (the numbers of Directive 2014/32/EU, MI-008, and OIML R 35-1):
// a + bL, L in meters rounded up.  The rows are that rule worked by hand, in mm.
TEST(TapeLimit, FollowsTheTablesOfTheRegulations) {
  struct Row {
    double length_m, class_1_mm, class_2_mm, class_3_mm;
  };
  for (const Row& row :
       {Row{1, 0.2, 0.5, 1.0}, Row{2, 0.3, 0.7, 1.4}, Row{3, 0.4, 0.9, 1.8}, Row{5, 0.6, 1.3, 2.6},
        Row{8, 0.9, 1.9, 3.8}, Row{10, 1.1, 2.3, 4.6}, Row{20, 2.1, 4.3, 8.6},
        Row{30, 3.1, 6.3, 12.6}, Row{50, 5.1, 10.3, 20.6}}) {
    EXPECT_NEAR(1e3 * tape_limit_m(TapeClass::I, row.length_m), row.class_1_mm, 1e-9);
    EXPECT_NEAR(1e3 * tape_limit_m(TapeClass::II, row.length_m), row.class_2_mm, 1e-9);
    EXPECT_NEAR(1e3 * tape_limit_m(TapeClass::III, row.length_m), row.class_3_mm, 1e-9);
  }
}

// The same regulations: 4.2 m counts as 5 (1.3 mm, not 1.14), and from the end c is added.
TEST(TapeLimit, RoundsTheLengthUpAndAddsForTheEndFace) {
  EXPECT_NEAR(1e3 * tape_limit_m(TapeClass::II, 4.2), 1.3, 1e-9);
  EXPECT_NEAR(1e3 * tape_limit_m(TapeClass::II, 4.2, TapeStart::end), 1.5, 1e-9);
  EXPECT_NEAR(1e3 * tape_limit_m(TapeClass::I, 4.2, TapeStart::end), 0.7, 1e-9);
  EXPECT_NEAR(1e3 * tape_limit_m(TapeClass::III, 4.2, TapeStart::end), 2.9, 1e-9);
}

// The older trade rule, SI 1986/1682, part V, regulation 24
// (legislation.gov.uk/uksi/1986/1682/part/V): 0.6 mm and 0.4 mm for each meter, rounded up, which
// class III took over.
TEST(TapeLimit, OfClassThreeIsTheOlderTradeRule) {
  for (const double length_m : {0.5, 1.0, 4.2, 9.01, 30.0})
    EXPECT_NEAR(1e3 * tape_limit_m(TapeClass::III, length_m), 0.6 + 0.4 * std::ceil(length_m),
                1e-9);
}

// NIST Handbook 44, section 5.52, metal tapes, maintenance tolerances: an independent authority's
// figures for the same lengths.  Class II is from 0.88 to 1.45 times them.
TEST(TapeLimit, IsOfTheOrderOfTheHandbookTolerances) {
  struct Row {
    double feet, tolerance_in;
  };
  for (const Row& row : {Row{6, 1.0 / 32}, Row{30, 1.0 / 16}, Row{55, 1.0 / 8}, Row{80, 3.0 / 16},
                         Row{100, 1.0 / 4}}) {
    const double class_2_in = tape_limit_m(TapeClass::II, row.feet * kFoot_m) / 0.0254;
    EXPECT_LE(class_2_in, 1.5 * row.tolerance_in) << row.feet << " ft";
    EXPECT_GE(class_2_in, 0.85 * row.tolerance_in) << row.feet << " ft";
  }
}

// A laser maker's published accuracy law: 1 mm to 10 m, then + 0.025 mm a meter; 30 m -> 1.5 mm.
TEST(LaserLimit, FollowsAMakersLaw) {
  EXPECT_NEAR(1e3 * laser_limit_m(3.0), 1.0, 1e-12);
  EXPECT_NEAR(1e3 * laser_limit_m(10.0), 1.0, 1e-12);
  EXPECT_NEAR(1e3 * laser_limit_m(30.0), 1.5, 1e-12);
}

// JCGM 100:2008 (GUM), 4.3.7 (from memory): a band of +/- 0.40e-6 per degree for copper is given
// there as a standard uncertainty of 0.23e-6.
TEST(SdFromLimit, ReproducesTheCopperExample) {
  EXPECT_NEAR(sd_from_limit(0.40e-6), 0.23e-6, 0.005e-6);
}

// JCGM 100:2008 (GUM), F.2.2.1 (from memory): a step contributes 0.29 of itself.
TEST(SdFromStep, IsTheGuidesFigureForAnIndication) { EXPECT_NEAR(sd_from_step(1.0), 0.29, 0.005); }

// "Taping Corrections", lecture, slideplayer.com 13085605.
TEST(StandardizationCorrection, GivesTheLecturesLength) {
  EXPECT_NEAR(500.00 + standardization_ft(500.00, 100.00, 100.02), 500.10, 0.005);
  EXPECT_NEAR(500.00 - standardization_ft(500.00, 100.00, 100.02), 499.90, 0.005);  // laying out
}

// The same lecture: 300.00 ft up 5 degrees is 298.86 ft level and 26.15 ft of rise, and the rule
// v²/2s comes to 1.14 ft.  The rise at full digits is 300 sin 5 = 26.1467 ft.
TEST(SlopeCorrection, GivesTheLecturesLevelLength) {
  const double correction_ft = slope_correction_m(300.0 * kFoot_m, 26.1467 * kFoot_m) / kFoot_m;
  EXPECT_NEAR(300.0 + correction_ft, 298.8584, 0.0001);
  EXPECT_NEAR(correction_ft, -1.14, 0.005);
}

// The same lecture: 368.50 ft at 22 F, standard 68 F, 6.5e-6 per degree: -0.11 -> 368.39 ft.
TEST(TemperatureCorrection, GivesTheLecturesColdTape) {
  EXPECT_NEAR(temperature_ft(368.50, "6.5e-6/F", "22F", "68F"), -0.11018, 0.000005);
  EXPECT_NEAR(368.50 + temperature_ft(368.50, "6.5e-6/F", "22F", "68F"), 368.39, 0.005);
}

// US Navy rule of thumb, tpub.com/engbas/12-14.htm: 0.01 ft in 100 ft for 15 F (0.0000065 a
// degree).
TEST(TemperatureCorrection, GivesTheRuleOfThumb) {
  EXPECT_NEAR(temperature_ft(100.0, "0.0000065/F", "83F", "68F"), 0.01, 0.0005);
}

// The same lecture: a tape of 2.8 lb in 100 ft held at its ends only, three whole lengths and
// 48.75 ft: -0.71 ft at 12 lb, -0.31 at 18 lb; at 12 lb in six spans of 50 ft and one of 48.75,
// -0.20 ft.
TEST(SagCorrection, GivesTheLecturesSpans) {
  const auto spans_ft = [](int whole, double each_ft, const char* pull) {
    return whole * sag_ft(each_ft, "0.028lbf/ft", pull) + sag_ft(48.75, "0.028lbf/ft", pull);
  };
  EXPECT_NEAR(spans_ft(3, 100.0, "12lbf"), -0.70684, 0.000005);
  EXPECT_NEAR(spans_ft(3, 100.0, "18lbf"), -0.31415, 0.000005);
  EXPECT_NEAR(spans_ft(6, 50.0, "12lbf"), -0.19642, 0.000005);
}

// The same lecture: 100 ft at 18 against 12 lb, 0.015 sq in, 29e6 psi: +0.0014 ft.
TEST(PullCorrection, GivesTheLecturesStretch) {
  EXPECT_NEAR(pull_ft(100.0, "18lbf", "12lbf", "0.015in2", "29e6psi"), 0.0014, 0.00005);
  EXPECT_NEAR(pull_ft(100.0, "18lbf", "12lbf", "0.015in2", "29e6psi"), 0.0013793, 0.00000005);
}

// The pull at which stretch and sag of a 100 ft tape of 2.8 lb, 0.015 sq in, standard 12 lb, 29e6
// psi cancel.  MISPRINT: that lecture gives 31 lb, which belongs to 0.002 sq in; for its own
// inputs it is 56.5 lb (P - 12) / (A E) = W² / (24 P²).
TEST(PullCorrection, CancelsSagAtTheNormalTensionNotAtTheMisprint) {
  const auto both_ft = [](const char* pull, const char* area) {
    return pull_ft(100.0, pull, "12lbf", area, "29e6psi") + sag_ft(100.0, "0.028lbf/ft", pull);
  };
  EXPECT_NEAR(both_ft("56.5lbf", "0.015in2"), 0.0, 0.0001);
  EXPECT_NEAR(both_ft("31.3lbf", "0.002in2"), 0.0, 0.0005);
  EXPECT_LT(both_ft("31lbf", "0.015in2"), -0.02);
}

// An elementary-surveying problem, justaaa.com civil 875987: lay out 529.81 ft with a tape of
// 100.010 ft at 68 F and 12 lb, 0.0075 sq in, used at 95 F and 20 lb: corrections 0.053, 0.092,
// 0.0195 ft, all subtracted -> 529.645 ft.
TEST(Corrections, GiveTheLayoutProblemWithSignsTurnedAbout) {
  const double standard_ft = standardization_ft(529.81, 100.000, 100.010);
  const double warmth_ft = temperature_ft(529.81, "6.45e-6/F", "95F", "68F");
  const double stretch_ft = pull_ft(529.81, "20lbf", "12lbf", "0.0075in2", "29e6psi");
  EXPECT_NEAR(standard_ft, 0.053, 0.0005);
  EXPECT_NEAR(warmth_ft, 0.092, 0.0005);
  EXPECT_NEAR(stretch_ft, 0.0195, 0.00005);
  EXPECT_NEAR(529.81 - standard_ft - warmth_ft - stretch_ft, 529.645, 0.0005);
}

// A standard text's problem (Gee 141, module 2): 171.278 m with a 30 m tape of 29.996 m is
// 171.255 m (correction -0.023).
TEST(StandardizationCorrection, GivesTheShortTapesLength) {
  EXPECT_NEAR(171.278 + standardization_correction_m(171.278, 30.0, 29.996), 171.255, 0.0005);
}

// curioustab.com 66919: a 50 m tape of 4 kg at 5 kgf, supported every 10 m: 0.0533 m; in one
// span: 1.33 m (the first term only, as this library's).
TEST(SagCorrection, GivesManySpansAndOne) {
  const double weight = 4.0 * 9.80665 / 50.0;
  EXPECT_NEAR(5.0 * sag_correction_m(10.0, weight, newtons("5kgf")), -0.0533, 0.00005);
  EXPECT_NEAR(sag_correction_m(50.0, weight, newtons("5kgf")), -1.33, 0.005);
}

// The same tape and pull as one reading with four supports between its ends, in one span, and lying
// on the ground.
TEST(Corrections, SagBetweenEvenSupports) {
  Instrument tape;
  tape.weight_n_per_m = 4.0 * 9.80665 / 50.0;
  Reading reading;
  reading.value_m = 50.0;
  reading.pull_n = newtons("5kgf");
  const auto sag_m = [&](int spans) {
    reading.spans = spans;
    const auto made = corrections(reading, tape);
    return made.empty() ? 0.0 : made.front().amount_m;
  };
  EXPECT_NEAR(sag_m(5), -0.0533, 0.00005);
  EXPECT_NEAR(sag_m(1), -1.33, 0.005);
  EXPECT_EQ(sag_m(0), 0.0);
}

// curioustab.com 66828: a 30 m tape of 15 by 1 mm, 30 to 40 kgf, 2.2e6 kgf/cm²: +0.000909 m.
// An exam note: 30 m, 25 against 15 kgf, 0.02 cm², 2e6 kgf/cm²: +0.0075 m.
TEST(PullCorrection, GivesTheMetricTapes) {
  constexpr double kgf_per_cm2 = 9.80665e4;
  EXPECT_NEAR(
      pull_correction_m(30.0, newtons("40kgf"), newtons("30kgf"), 15e-6, 2.2e6 * kgf_per_cm2),
      0.000909, 5e-7);
  EXPECT_NEAR(pull_correction_m(30.0, newtons("25kgf"), newtons("15kgf"), 2e-6, 2e6 * kgf_per_cm2),
              0.0075, 0.00005);
}

// assignmentexpert.com 232885: 458.650 m with a 50 m tape of 0.05 kg/m and 0.04 cm², 2.1e6
// kgf/cm², standard 5.5 kg supported, used at 8 kg and held at its ends: pull +0.014 m as
// printed; sag of nine spans and 8.65 m -1.83211 m and the length 456.832 m worked from its inputs.
TEST(Corrections, GiveTheCombinedProblem) {
  const double weight = 0.05 * 9.80665;
  const double stretch_m =
      pull_correction_m(458.650, newtons("8kgf"), newtons("5.5kgf"), 4e-6, 2.1e6 * 9.80665e4);
  const double sag_m = 9.0 * sag_correction_m(50.0, weight, newtons("8kgf")) +
                       sag_correction_m(8.65, weight, newtons("8kgf"));
  EXPECT_NEAR(stretch_m, 0.014, 0.0005);
  EXPECT_NEAR(sag_m, -1.83211, 0.000005);
  EXPECT_NEAR(458.650 + stretch_m + sag_m, 456.832, 0.0005);
}

}  // namespace
}  // namespace stakewright::readings

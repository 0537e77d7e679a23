// What to read on a tape so that a stake stands at the true distance.
#include "stakewright/readings/setting_out.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "refusal.hpp"
#include "stakewright/base/quantity.hpp"
#include "stakewright/readings/missing_figures.hpp"

namespace stakewright::readings {
namespace {

using base::Quantity;
using base::quantity_from_text;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr double kFoot_m = 0.3048;

Instrument blue_tape() {
  Instrument tape;
  tape.name = "blue tape";
  tape.nominal_m = 100.000 * kFoot_m;
  tape.actual_m = 100.010 * kFoot_m;
  tape.expansion_per_c = quantity_from_text("6.45e-6/F", Quantity::expansion);
  tape.standard_temperature_c = quantity_from_text("68F", Quantity::temperature);
  tape.standard_pull_n = quantity_from_text("12lbf", Quantity::pull);
  tape.section_m2 = quantity_from_text("0.0075in2", Quantity::section);
  tape.modulus_pa = quantity_from_text("29e6psi", Quantity::modulus);
  return tape;
}

Held held(const char* temperature, const char* pull) {
  return {quantity_from_text(temperature, Quantity::temperature),
          quantity_from_text(pull, Quantity::pull)};
}

double corrected_m(double reading_m, const Instrument& tape, const Held& as) {
  double length_m = reading_m;
  for (const Correction& correction : corrections_at(reading_m, tape, as))
    length_m += correction.amount_m;
  return length_m;
}

// An elementary-surveying problem, justaaa.com civil 875987: to lay out 529.81 ft with a tape of
// 100.010 ft at 68 F and 12 lb, 0.0075 sq in, at 95 F and 20 lb, read 529.645 ft.  Its corrections
// are taken from the true length; made from the reading they differ by a ten-thousandth.
TEST(SettingOut, GivesTheReadingOfTheLayoutProblem) {
  EXPECT_NEAR(reading_for_m(529.81 * kFoot_m, blue_tape(), held("95F", "20lbf")) / kFoot_m, 529.645,
              0.0005);
}

// "Taping Corrections", lecture, slideplayer.com 13085605: 500.00 ft with a tape 100.02 ft true:
// read 499.90.
TEST(SettingOut, GivesTheLecturesReadingOnALongTape) {
  Instrument tape;
  tape.nominal_m = 100.00 * kFoot_m;
  tape.actual_m = 100.02 * kFoot_m;
  EXPECT_NEAR(reading_for_m(500.00 * kFoot_m, tape, {}) / kFoot_m, 499.90, 0.005);
}

TEST(SettingOut, ReadSoTheCorrectedLengthIsTheTrueOne) {
  std::mt19937 random(5);
  std::uniform_real_distribution<double> share(0.0, 1.0);
  for (int k = 0; k < 200; ++k) {
    Instrument tape = blue_tape();
    tape.actual_m = *tape.nominal_m * (1.0 + 0.02 * (share(random) - 0.5));
    tape.weight_n_per_m = 0.5 * share(random);
    const Held as{100.0 * share(random) - 40.0, 40.0 + 100.0 * share(random)};
    const double true_m = 0.5 + 40.0 * share(random);
    EXPECT_NEAR(corrected_m(reading_for_m(true_m, tape, as), tape, as), true_m, 1e-12) << k;
  }
}

TEST(SettingOut, TurnsEverySignOfMeasuringAbout) {
  const Instrument tape = blue_tape();
  EXPECT_LT(reading_for_m(10.0, tape, held("95F", "12lbf")),
            reading_for_m(10.0, tape, held("68F", "12lbf")));  // warm: read less
  EXPECT_LT(reading_for_m(10.0, tape, held("68F", "20lbf")),
            reading_for_m(10.0, tape, held("68F", "12lbf")));  // pulled hard: read less
  Instrument hanging = tape;
  hanging.weight_n_per_m = 0.4;
  EXPECT_GT(reading_for_m(10.0, hanging, {}), reading_for_m(10.0, tape, {}));  // sag: read more
}

TEST(SettingOut, WithoutFiguresReadsTheTrueLength) {
  EXPECT_DOUBLE_EQ(reading_for_m(7.0, Instrument{}, held("35F", "20lbf")), 7.0);
}

TEST(SettingOut, RefusesATapeThatHangsLikeAChain) {
  Instrument tape = blue_tape();
  tape.weight_n_per_m = 10.0;
  EXPECT_THAT(refusal([&] { reading_for_m(30.0, tape, held("68F", "5lbf")); }),
              HasSubstr("hangs so deep"));
}

Reading with(const std::string& instrument, bool temperature, bool pull) {
  Reading reading;
  reading.instrument = instrument;
  if (temperature) reading.temperature_c = 5.0;
  if (pull) reading.pull_n = 80.0;
  return reading;
}

std::vector<std::string> remarks(const std::vector<Reading>& readings,
                                 const std::vector<Instrument>& instruments) {
  return told_in_english(missing_figures(readings, instruments));
}

TEST(MissingFigures, AreToldOncePerInstrument) {
  const auto all = built_in_instruments();
  EXPECT_THAT(remarks({with("fibreglass", true, false), with("fibreglass", true, false)}, all),
              ElementsAre("A temperature is given for fibreglass, but not its expansion: no "
                          "correction is made for it."));
  EXPECT_THAT(remarks({with("steel", true, true)}, all),
              ElementsAre("A pull is given for steel, but not its section, modulus and standard "
                          "pull: no correction is made for it."));
  EXPECT_THAT(remarks({with("steel", true, false), with("steel", false, false)}, all), IsEmpty());
}

TEST(MissingFigures, SayWhatAPullStillCountsForOnAHangingTape) {
  Instrument hanging;
  hanging.name = "long tape";
  hanging.weight_n_per_m = 0.2;
  hanging.standard_pull_n = 50.0;
  EXPECT_THAT(remarks({with("long tape", false, true)}, {hanging}),
              ElementsAre(HasSubstr("for the sag alone")));
}

TEST(MissingFigures, AreToldOfALaserThatIsNeitherPulledNorWarmed) {
  Reading reading = with("laser", true, true);
  reading.kind = Kind::laser;
  EXPECT_THAT(remarks({reading}, built_in_instruments()),
              ElementsAre(HasSubstr("a laser is not corrected for it"),
                          HasSubstr("a laser is not pulled")));
}

TEST(MissingFigures, AreNoneWhereNothingIsAskedFor) {
  EXPECT_THAT(remarks({with("fibreglass", false, false)}, built_in_instruments()), IsEmpty());
}

}  // namespace
}  // namespace stakewright::readings

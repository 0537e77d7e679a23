#include "stakewright/readings/observation.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "refusal.hpp"

namespace stakewright::readings {
namespace {

using testing::HasSubstr;

const std::vector<std::string> kPoints = {"A", "B", "C", "O", "P1"};

Reading reading(const std::string& from, const std::string& to, double value_m,
                const std::string& instrument = "", Kind kind = Kind::tape) {
  Reading result;
  result.kind = kind;
  result.from = from;
  result.to = to;
  result.value_m = value_m;
  result.instrument = instrument;
  return result;
}

std::vector<Observation> observed(const std::vector<Reading>& readings) {
  return observations(readings, built_in_instruments(), kPoints);
}

std::string refused(const Reading& bad) {
  return refusal([&] { observed({bad}); });
}

TEST(Observations, KnowTheirEndsAndInstrumentsByIndex) {
  const auto made =
      observed({reading("A", "C", 4.0), reading("P1", "O", 3.0, "laser", Kind::laser)});
  ASSERT_EQ(made.size(), 2U);
  EXPECT_EQ(made[0].from, 0U);
  EXPECT_EQ(made[0].to, 2U);
  EXPECT_EQ(made[0].instrument, 0U);  // steel, when none is named
  EXPECT_EQ(made[1].from, 4U);
  EXPECT_EQ(made[1].to, 3U);
  EXPECT_EQ(made[1].instrument, 2U);
}

TEST(Observations, KeepTheReadingBesideTheCorrectedLength) {
  Reading burned = reading("A", "B", 4.0);
  burned.burned_m = 0.5;
  const Observation made = observed({burned}).front();
  EXPECT_EQ(made.read, 4.0);
  EXPECT_EQ(made.corrected, 3.5);
  EXPECT_EQ(made.sd, standard_deviation_m(built_in_instruments().front(), 3.5));
}

TEST(Observations, TakeTheSamePairTwice) {
  EXPECT_EQ(
      observed({reading("A", "B", 4.0), reading("A", "B", 4.001), reading("B", "A", 4.0)}).size(),
      3U);
}

TEST(Observations, OfNothingAreNothing) { EXPECT_TRUE(observed({}).empty()); }

TEST(Observations, UseTheLastOfTwoInstrumentsOfOneName) {
  auto instruments = built_in_instruments();
  instruments.push_back(instruments.front());
  instruments.back().constant_m = 0.02;
  EXPECT_EQ(observations({reading("A", "B", 4.0)}, instruments, kPoints).front().instrument,
            instruments.size() - 1);
}

TEST(Observations, NameTheReadingTheyCannotUse) {
  EXPECT_EQ(refused(reading("A", "Q", 4.0)),
            "reading A to Q: read \"Q\"; accepted: A, B, C, O, P1");
  EXPECT_THAT(refused(reading("a", "B", 4.0)), HasSubstr("read \"a\""));
  EXPECT_THAT(refused(reading("A", "A", 4.0)), HasSubstr("two different points"));
  EXPECT_EQ(
      refused(reading("A", "B", 4.0, "red")),
      "reading A to B: read instrument \"red\"; accepted: steel, fibreglass, laser, level, "
      "rotating laser, circle, transit, total station, steel I, steel II, steel III, fibreglass I, "
      "fibreglass II, fibreglass III, laser in sun");
  EXPECT_EQ(
      refused(reading("A", "B", 4.0, "laser")),
      "reading A to B: read instrument \"laser\", a laser; accepted: an instrument of kind tape");
  Reading on_a_line = reading("A", "B", -1.0);
  on_a_line.line = 12;
  EXPECT_THAT(refused(on_a_line), HasSubstr("reading A to B (line 12): read -1 m"));
}

TEST(Observations, RefuseReadingsThatAreNoLength) {
  for (const double value_m :
       {0.0, -3.0, std::nan(""), std::numeric_limits<double>::infinity(), 1e300})
    EXPECT_THAT(refused(reading("A", "B", value_m)), HasSubstr("accepted: a length above 0"));
}

// A triangle to turn angles in: 3, 4 and 5 m.
const std::vector<std::string> kTriangle = {"A", "B", "O"};
const std::vector<base::Point> kTrianglePlaces = {{0.0, 3.0}, {4.0, 0.0}, {0.0, 0.0}};

Reading angle(const std::string& at, const std::string& from, const std::string& to,
              double angle_rad) {
  Reading result;
  result.kind = Kind::angle;
  result.from = from;
  result.to = to;
  result.at = at;
  result.angle_rad = angle_rad;
  return result;
}

std::vector<Observation> turned(const Reading& reading) {
  return observations({reading}, built_in_instruments(), kTriangle, kTrianglePlaces);
}

TEST(Observations, OfAnglesKnowWhereTheyWereTurned) {
  const Observation made = turned(angle("O", "A", "B", 1.57)).front();
  ASSERT_TRUE(made.is_angle());
  EXPECT_EQ(made.from, 0U);
  EXPECT_EQ(made.to, 1U);
  EXPECT_EQ(made.at, 2U);
  EXPECT_EQ(made.read, 1.57);
  EXPECT_EQ(made.corrected, 1.57);
  EXPECT_EQ(built_in_instruments()[made.instrument].name, "circle");
  EXPECT_EQ(made.sd,
            standard_deviation_rad(built_in_instruments()[made.instrument], {3.0, 4.0, 5.0}));
}

TEST(Observations, RefuseAnglesThatCannotBe) {
  const auto refused_angle = [](const Reading& bad) { return refusal([&] { turned(bad); }); };
  EXPECT_EQ(
      refused_angle(angle("A", "A", "B", 1.0)),
      "angle at A from A to B: read an angle turned at \"A\"; accepted: a point other than its "
      "two ends");
  EXPECT_THAT(refused_angle(angle("O", "A", "A", 1.0)), HasSubstr("two different points"));
  EXPECT_THAT(refused_angle(angle("", "A", "B", 1.0)), HasSubstr("read \"\"; accepted: A, B, O"));
  for (const double bad : {0.0, -1.0, 6.2831853072, std::nan("")})
    EXPECT_THAT(refused_angle(angle("O", "A", "B", bad)),
                HasSubstr("accepted: an angle above 0 and below a full turn"));
  EXPECT_THAT(refusal([] {
                observations({angle("O", "A", "B", 1.0)}, built_in_instruments(), kTriangle,
                             {{0.0, 0.0}, {4.0, 0.0}, {0.0, 0.0}});
              }),
              HasSubstr("a sight between two points planned at one place"));
}

TEST(Observations, RefuseAnInstrumentThatCannotErr) {
  std::vector<Instrument> perfect(1);
  perfect.front().name = "perfect";
  EXPECT_THAT(refusal([&] { observations({reading("A", "B", 4.0, "perfect")}, perfect, kPoints); }),
              HasSubstr("standard deviation is above 0"));
}

}  // namespace
}  // namespace stakewright::readings

#include "stakewright/levels/rods.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "crew.hpp"
#include "refusal.hpp"

namespace stakewright::levels {
namespace {

using testing::ElementsAre;

Rods rods_of(Crew& crew) {
  const Question& q = crew.question();
  return rods(q.plan, q.readings, q.instruments, q.wanted);
}

TEST(Rods, ListThePointsOfTheJobThenTurningPointsAndTheBenchMark) {
  Crew crew(3, 1);
  crew.question().plan.pins.push_back({"P1", {0.0, 0.0}});
  crew.question().wanted.bench_mark = "doorstep";
  crew.read("L1", "A").read("L1", "T1").read("L2", "T1").read("L2", "P1");
  const Rods result = rods_of(crew);
  EXPECT_THAT(result.points, ElementsAre("A", "B", "C", "O", "P1", "T1", "doorstep"));
  EXPECT_THAT(result.set_ups, ElementsAre("L1", "L2"));
  EXPECT_EQ(result.corner_count, 3U);
  EXPECT_EQ(result.bench_mark, 6U);
}

TEST(Rods, PassOverTapes) {
  Crew crew(3, 1);
  crew.read("L1", "A");
  crew.question().readings.front().kind = readings::Kind::tape;
  EXPECT_TRUE(rods_of(crew).readings.empty());
}

TEST(Rods, OfOneSetUpNameInTwoRoundsAreOfTwoSetUps) {
  Crew crew(3, 1);
  crew.read("L1", "A").read("L1", "B");
  crew.question().readings.back().round = "2";
  const Rods result = rods_of(crew);
  EXPECT_THAT(result.set_ups, ElementsAre("L1", "L1"));
  EXPECT_NE(result.readings[0].set_up, result.readings[1].set_up);
}

TEST(RodSd, GrowsWithTheSight) {
  readings::Instrument level;
  level.constant_m = 0.0006;
  level.per_length = 2e-5;
  EXPECT_NEAR(rod_sd_m(level, 40.0), 0.001, 1e-15);  // 3-4-5
  Crew crew(4, 1);
  crew.read("L1", "A").read("L1", "B");
  crew.question().readings.back().sight_m = 60.0;
  const Rods result = rods_of(crew);
  const auto* built_in = readings::instrument_named(crew.question().instruments, "level");
  EXPECT_NEAR(result.readings[0].sd_m, rod_sd_m(*built_in, 3.5), 1e-15);
  EXPECT_NEAR(result.readings[1].sd_m, rod_sd_m(*built_in, 60.0), 1e-15);
}

TEST(Rods, ThatAreNoneAreRefusedByTheirReading) {
  const auto refused = [](auto change) {
    Crew crew(3, 1);
    crew.read("L1", "A");
    change(crew.question().readings.front());
    return refusal([&] { rods_of(crew); });
  };
  EXPECT_THAT(refused([](auto& r) { r.value_m = 0.0; }),
              testing::HasSubstr("reading L1 to A (line 2): read a rod reading of 0 m"));
  EXPECT_THAT(refused([](auto& r) { r.value_m = std::numeric_limits<double>::quiet_NaN(); }),
              testing::HasSubstr("a rod reading of nan m"));
  EXPECT_THAT(refused([](auto& r) { r.sight_m = -1.0; }), testing::HasSubstr("a sight of -1 m"));
  EXPECT_THAT(refused([](auto& r) { r.instrument = "steel"; }),
              testing::HasSubstr("an instrument of kind level"));
}

TEST(Rods, AreRefusedPastTheirLimit) {
  Crew crew(3, 1);
  for (std::size_t i = 0; i <= kMostRodReadings; ++i) crew.read("L1", "A");
  EXPECT_THAT(refusal([&] { rods_of(crew); }), testing::HasSubstr("up to 600 rod readings"));
}

}  // namespace
}  // namespace stakewright::levels

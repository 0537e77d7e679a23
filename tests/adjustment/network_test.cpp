#include "stakewright/adjustment/network.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "refusal.hpp"
#include "stakewright/adjustment/adjust.hpp"

namespace stakewright::adjustment {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

layout::Plan hexagon() {
  layout::Plan plan;
  plan.polygon = {6, 2.5};
  plan.center = {1.0, 2.0};
  plan.pins = {{"P1", {-4.0, -3.0}}, {"P2", {5.0, -3.0}}};
  return plan;
}

TEST(Network, PutsCornersFirstThenTheCenterPinThenTheSitePins) {
  const Network built = network(hexagon(), {}, readings::built_in_instruments());
  ASSERT_EQ(built.points.size(), 9U);
  EXPECT_EQ(built.corner_count, 6U);
  EXPECT_EQ(built.points[0].label, "A");
  EXPECT_EQ(built.points[5].label, "F");
  EXPECT_EQ(built.points[6].label, "O");
  EXPECT_EQ(built.points[6].role, Role::center);
  EXPECT_EQ(built.points[6].planned, (base::Point{1.0, 2.0}));
  EXPECT_FALSE(built.points[6].known);
  EXPECT_EQ(built.points[8].label, "P2");
  EXPECT_TRUE(built.points[8].known);
  EXPECT_EQ(built.points[8].planned, (base::Point{5.0, -3.0}));
}

TEST(Network, TakesAllCornersAsTheDatumUnlessStakesAreHeld) {
  layout::Plan plan = hexagon();
  EXPECT_THAT(network(plan, {}, {}).datum, ElementsAre(0, 1, 2, 3, 4, 5));
  plan.hold = {"D", "B", "D"};
  EXPECT_THAT(network(plan, {}, {}).datum, ElementsAre(1, 3));
}

TEST(Network, RefusesToHoldAStakeThatIsNotThere) {
  layout::Plan plan = hexagon();
  plan.hold = {"A", "G"};
  EXPECT_THAT(refusal([&] { network(plan, {}, {}); }), HasSubstr("no stake G"));
}

TEST(Network, RefusesAPinThatBearsTheNameOfAStake) {
  layout::Plan plan = hexagon();
  plan.pins[1].name = "C";
  EXPECT_THAT(refusal([&] { network(plan, {}, {}); }), HasSubstr("pin C"));
  plan.pins[1].name = "O";
  EXPECT_THAT(refusal([&] { network(plan, {}, {}); }), HasSubstr("pin O"));
}

TEST(Network, FindsTheEndsOfEachReadingByTheirLabels) {
  readings::Reading reading;
  reading.from = "P1";
  reading.to = "C";
  reading.value_m = 5.0;
  reading.instrument = "steel";
  const Network built = network(hexagon(), {reading}, readings::built_in_instruments());
  ASSERT_EQ(built.observations.size(), 1U);
  EXPECT_EQ(built.observations[0].from, 7U);
  EXPECT_EQ(built.observations[0].to, 2U);
}

// Such a network is a bug of ours; in release too it must not read past the end.
TEST(Network, ThatPointsAtNothingIsRefusedInEveryBuild) {
  Network built = network(hexagon(), {}, readings::built_in_instruments());
  built.observations.push_back({0, 1, 0, 2.5, 2.5, 0.002});
  EXPECT_NO_THROW(demand_sound(built));
  for (const readings::Observation& wrong : {readings::Observation{0, 9, 0, 2.5, 2.5, 0.002},
                                             {0, 1, 99, 2.5, 2.5, 0.002},
                                             {0, 1, 0, 2.5, std::nan(""), 0.002},
                                             {0, 1, 0, 2.5, 2.5, -0.002},
                                             {0, 1, 0, 2.5, 2.5, 0.002, 9}}) {
    built.observations.back() = wrong;
    EXPECT_THROW(adjust(built), std::logic_error);
  }
  built.observations.pop_back();
  EXPECT_THROW(adjust(built, {0}), std::out_of_range);
}

}  // namespace
}  // namespace stakewright::adjustment

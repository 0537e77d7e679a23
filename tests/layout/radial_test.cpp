#include "stakewright/layout/radial.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "random_plans.hpp"
#include "refusal.hpp"

namespace stakewright::layout {
namespace {

constexpr double kDegree_rad = std::numbers::pi / 180.0;

Plan octagon() {
  Plan plan;
  plan.polygon = {8, 3.0};
  plan.center = {2.0, -1.0};
  plan.facing_rad = 0.3;
  return plan;
}

// A regular polygon's corners stand at equal angles round its center: Euclid IV.11, any text.
TEST(Radial, TurnsTheCentralAngleFromStakeToStake) {
  const Radial found = radial(octagon());
  EXPECT_EQ(found.at, "O");
  EXPECT_EQ(found.mark, "A");
  ASSERT_EQ(found.stakes.size(), 8U);
  for (std::size_t i = 0; i < 8; ++i) {
    EXPECT_NEAR(found.stakes[i].angle_rad, 45.0 * kDegree_rad * static_cast<double>(i), 1e-12);
    EXPECT_NEAR(found.stakes[i].length_m, 3.0, 1e-12);
  }
  EXPECT_EQ(found.stakes.front().angle_rad, 0.0);
}

TEST(Radial, CountsFromTheFirstHeldStake) {
  Plan plan = octagon();
  plan.hold = {"C", "D"};
  plan.pins = {{"P1", {40.0, 0.0}}};
  const Radial found = radial(plan);
  EXPECT_EQ(found.mark, "C");
  EXPECT_EQ(found.stakes[2].angle_rad, 0.0);
  EXPECT_NEAR(found.stakes[0].angle_rad, 270.0 * kDegree_rad, 1e-12);
}

TEST(Radial, CountsFromTheFarthestPinWhereNoStakeIsHeld) {
  Plan plan = octagon();
  plan.pins = {{"P1", {3.0, -1.0}}, {"P2", {2.0, 30.0}}};  // P2 straight ahead of the center
  const Radial found = radial(plan);
  EXPECT_EQ(found.mark, "P2");
  EXPECT_NEAR(found.mark_m, 31.0, 1e-12);
  // Bearing of A: the facing less half of 45 degrees.
  EXPECT_NEAR(found.stakes[0].angle_rad, 0.3 - 22.5 * kDegree_rad + 2.0 * std::numbers::pi, 1e-12);
}

TEST(Radial, DoesNotSightAPinThatStandsInTheCenter) {
  Plan plan = octagon();
  plan.pins = {{"P1", plan.center}};
  EXPECT_EQ(radial(plan).mark, "A");
}

TEST(Radial, SetsEveryStakeOfAnyPlanInItsPlace) {
  for (const auto& [words, plan] : random_plans(50, 31)) {
    const Radial found = radial(plan);
    base::Point mark;
    for (const Stake& stake : stakes(plan))
      if (stake.label == found.mark) mark = stake.at;
    // The mark's direction turned clockwise by a rotation matrix, not by bearings.
    const base::Point sight = (1.0 / base::distance_m(plan.center, mark)) * (mark - plan.center);
    const auto expected = stakes(plan);
    for (std::size_t i = 0; i < expected.size(); ++i) {
      const RadialStake& set = found.stakes[i];
      const double c = std::cos(set.angle_rad);
      const double s = std::sin(set.angle_rad);
      const base::Point way{c * sight.x_m + s * sight.y_m, c * sight.y_m - s * sight.x_m};
      const base::Point at = plan.center + set.length_m * way;
      EXPECT_LT(base::distance_m(at, expected[i].at), 1e-9) << words;
    }
  }
}

TEST(Radial, RefusesAHeldStakeThatIsNotThere) {
  Plan plan = octagon();
  plan.hold = {"Q"};
  EXPECT_THAT(refusal([&] { radial(plan); }), testing::HasSubstr("hold: read \"Q\""));
}

}  // namespace
}  // namespace stakewright::layout

// Which stake is set from what, and in which order.
#include "stakewright/layout/swings.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <set>

#include "layout/crew.hpp"
#include "layout/random_plans.hpp"
#include "stakewright/base/angle.hpp"
#include "stakewright/base/error.hpp"

namespace stakewright::layout {
namespace {

using base::InputError;
using base::kDegree_rad;
using base::Point;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::ThrowsMessage;

const TapeSpread kTape{0.001, 0.0001, 0.001};

Plan hexagon() {
  Plan plan;
  plan.polygon = {6, 3.0};
  return plan;
}

/// Random plans in turn without anything given, with two held stakes, with two or three pins.
std::vector<RandomPlan> random_sites(int how_many, unsigned seed) {
  std::mt19937 random(seed);
  auto plans = random_plans(how_many, seed + 1);
  for (std::size_t i = 0; i < plans.size(); ++i) {
    Plan& plan = plans[i].plan;
    const auto labels = corner_labels(plan.polygon.sides);
    if (i % 3 == 1) {
      std::uniform_int_distribution<std::size_t> pick(0, labels.size() - 1);
      plan.hold = {labels[pick(random)]};
      while (plan.hold.size() < 2)
        if (const auto& label = labels[pick(random)]; label != plan.hold[0])
          plan.hold.push_back(label);
    } else if (i % 3 == 2) {
      std::uniform_real_distribution<double> about(-2.0, 2.0);
      const double R = plan.polygon.corner_radius_m;
      for (std::size_t pin = 0; pin < 2 + i % 2; ++pin)
        plan.pins.push_back({fmt::format("P{}", pin + 1),
                             plan.center + Point{about(random) * R, about(random) * R}});
    }
  }
  return plans;
}

double angle_between(Point a, Point b, Point at) {
  const double cosine =
      base::dot(a - at, b - at) / (base::distance_m(a, at) * base::distance_m(b, at));
  return std::acos(std::min(1.0, std::abs(cosine)));
}

TEST(StakingOrder, SetsEveryStakeOnceAndOnlyFromPointsThatStand) {
  for (const auto& [words, plan] : random_sites(90, 31)) {
    SCOPED_TRACE(words);
    const auto order = staking_order(plan, kTape);
    std::set<std::string> standing(order.given.begin(), order.given.end());
    for (const Swing& swing : order.swings) {
      EXPECT_TRUE(standing.count(swing.from[0].label)) << swing.stake;
      EXPECT_TRUE(standing.count(swing.from[1].label)) << swing.stake;
      EXPECT_NE(swing.from[0].label, swing.from[1].label) << swing.stake;
      EXPECT_TRUE(standing.insert(swing.stake).second) << swing.stake;
    }
    for (const auto& [label, place] : planned_places(plan)) EXPECT_TRUE(standing.count(label));
  }
}

TEST(Swings, HaveLengthsThatMeetAtTheStakeOnTheHandTold) {
  for (const auto& [words, plan] : random_sites(90, 32)) {
    SCOPED_TRACE(words);
    const Places places = planned_places(plan);
    for (const Swing& swing : staking_order(plan, kTape).swings) {
      const Point first = places.at(swing.from[0].label);
      const Point second = places.at(swing.from[1].label);
      const Point stake = places.at(swing.stake);
      EXPECT_NEAR(swing.from[0].length_m, base::distance_m(first, stake), kRounding_m);
      EXPECT_NEAR(swing.from[1].length_m, base::distance_m(second, stake), kRounding_m);
      EXPECT_NEAR(swing.crossing_rad, angle_between(first, second, stake), 1e-6);
      const Point met =
          crossing_of(first, swing.from[0].length_m, second, swing.from[1].length_m, swing.hand);
      // A flat crossing magnifies rounding by the cosecant of its angle.
      EXPECT_LT(base::distance_m(met, stake), 1e-9 / std::sin(swing.crossing_rad)) << swing.stake;
    }
  }
}

/// The squarest crossing at a stake of all pairs that stand.
double squarest_rad(const Places& places, const std::vector<std::string>& standing,
                    const std::string& stake) {
  double squarest = 0.0;
  const Point at = places.at(stake);
  for (const auto& first : standing)
    for (const auto& second : standing) {
      const Point a = places.at(first);
      const Point b = places.at(second);
      if (base::distance_m(a, at) > 0.0 && base::distance_m(b, at) > 0.0)
        squarest = std::max(squarest, angle_between(a, b, at));
    }
  return squarest;
}

TEST(CrossingRule, HoldsAgainstEveryPairThatStands) {
  constexpr double kRule_rad = 30.0 * kDegree_rad - 1e-9;
  int flat = 0;
  for (const auto& [words, plan] : random_sites(90, 33)) {
    SCOPED_TRACE(words);
    const Places places = planned_places(plan);
    const auto order = staking_order(plan, kTape);
    std::vector<std::string> standing = order.given;
    for (std::size_t step = 0; step < order.swings.size(); ++step) {
      const Swing& swing = order.swings[step];
      // Then neither this stake nor any other still to be set has a pair that crosses less flat.
      for (std::size_t later = step; swing.crossing_rad < kRule_rad && later < order.swings.size();
           ++later) {
        ++flat;
        EXPECT_LT(squarest_rad(places, standing, order.swings[later].stake), kRule_rad)
            << swing.stake << " before " << order.swings[later].stake;
      }
      standing.push_back(swing.stake);
    }
  }
  EXPECT_GT(flat, 20);  // so the rule was put to the test
}

// Seen from B the center and A of a triangle are 30 degrees apart exactly; with A and O alone
// standing there is nothing else to set B from.
TEST(CrossingRule, LetsThirtyDegreesPassHoweverTheyRound) {
  Plan plan;
  plan.polygon = {3, 3.0};
  for (int facing_deg = 0; facing_deg < 360; ++facing_deg) {
    plan.facing_rad = facing_deg * kDegree_rad;
    const auto order = staking_order(plan, kTape);
    EXPECT_EQ(order.swings[0].stake, "B") << facing_deg;
    EXPECT_NEAR(order.swings[0].crossing_rad, 30.0 * kDegree_rad, 1e-12) << facing_deg;
    // One of the line of sight, none of a flat crossing.
    EXPECT_EQ(order.remarks.size(), 1U) << facing_deg;
  }
}

TEST(CrossingRule, GoesBeforeTheSmallerSpread) {
  Plan plan;
  plan.polygon = {4, 3.0};
  // Two pins at hand, seen from O 2 atan(0.7/4) = 20 degrees apart, and one 60 m off on the right.
  // With a tape that stretches by 1 % the near ones alone would give O nearer than the far one.
  plan.pins = {{"P1", {-0.7, -4.0}}, {"P2", {0.7, -4.0}}, {"P3", {60.0, 0.0}}};
  for (const Swing& swing : staking_order(plan, {0.001, 0.01, 0.0}).swings)
    EXPECT_GE(swing.crossing_rad, 30.0 * kDegree_rad) << swing.stake;
}

TEST(CrossingRule, SaysSoWhenItCannotBeKept) {
  Plan plan;
  plan.polygon = {24, 3.0};
  plan.hold = {"A", "B"};
  const auto order = staking_order(plan, kTape);
  EXPECT_LT(order.swings[0].crossing_rad, 30.0 * kDegree_rad);
  EXPECT_THAT(order.remarks, testing::Contains(HasSubstr(order.swings[0].stake +
                                                         " is set by tapes that cross flatter")));
}

TEST(Standing, IsTheCenterPinAndOneStakeBySightWhenNothingIsGiven) {
  Plan plan = hexagon();
  plan.facing_rad = 20.0 * kDegree_rad;
  const auto order = staking_order(plan, kTape);
  EXPECT_THAT(order.given, ElementsAre("O", "A"));
  ASSERT_TRUE(order.sighted);
  EXPECT_EQ(order.sighted->stake, "A");
  EXPECT_EQ(order.sighted->from, "O");
  EXPECT_NEAR(order.sighted->length_m, 3.0, kRounding_m);
  EXPECT_NEAR(order.sighted->bearing_rad, 350.0 * kDegree_rad, 1e-12);  // 20 - 180/6
  EXPECT_THAT(order.remarks, ElementsAre(HasSubstr("A is set from O by sight, on bearing 350.0°")));
}

TEST(Standing, IsTheHeldStakes) {
  Plan plan = hexagon();
  plan.hold = {"C", "A"};
  const auto order = staking_order(plan, kTape);
  EXPECT_THAT(order.given, ElementsAre("C", "A"));
  EXPECT_FALSE(order.sighted);
  EXPECT_EQ(order.swings.size(), 5U);  // four corners and the center pin
}

TEST(Standing, IsAHeldStakeAndTheCenterPinSightedFromIt) {
  Plan plan = hexagon();
  plan.hold = {"D"};
  const auto order = staking_order(plan, kTape);
  EXPECT_THAT(order.given, ElementsAre("D", "O"));
  ASSERT_TRUE(order.sighted);
  EXPECT_EQ(order.sighted->stake, "O");
  EXPECT_EQ(order.sighted->from, "D");
  // D stands at 150 degrees, so O is seen from it at 330.
  EXPECT_NEAR(order.sighted->bearing_rad, 330.0 * kDegree_rad, 1e-12);
}

TEST(Standing, IsAPinAndAHeldStakeTogether) {
  Plan plan = hexagon();
  plan.pins = {{"P1", {-5.0, -5.0}}};
  plan.hold = {"B"};
  EXPECT_THAT(staking_order(plan, kTape).given, ElementsAre("P1", "B"));
}

TEST(Standing, IsThePinsAndEveryHeldStake) {
  Plan plan = hexagon();
  plan.pins = {{"P1", {-5.0, -5.0}}, {"P2", {5.0, -5.0}}};
  plan.hold = {"B", "E"};
  const auto order = staking_order(plan, kTape);
  EXPECT_THAT(order.given, testing::UnorderedElementsAre("P1", "P2", "B", "E"));
  for (const Swing& swing : order.swings)
    EXPECT_THAT(plan.hold, testing::Not(testing::Contains(swing.stake)));
}

TEST(Standing, TakesInHeldStakesThatLieInLine) {
  Plan plan = hexagon();
  plan.pins = {{"P1", 5.0 * base::along(-30.0 * kDegree_rad)}};  // beyond A, in line with A and D
  plan.hold = {"A", "D"};
  const auto order = staking_order(plan, kTape);
  EXPECT_THAT(order.given, ElementsAre("P1", "A", "D"));
  EXPECT_EQ(order.swings.size(), 5U);
}

TEST(Standing, TakesAPinForTheStakeWhosePlaceItMarks) {
  Plan plan = hexagon();
  plan.center = {1.0, 2.0};
  plan.pins = {{"spike", {1.0, 2.0}}};
  const auto order = staking_order(plan, kTape);
  EXPECT_THAT(order.given, ElementsAre("spike", "O", "A"));
  EXPECT_THAT(order.remarks, testing::Contains("O stands already: pin spike marks its place."));
  EXPECT_EQ(order.swings.size(), 5U);
}

TEST(StakingOrder, IsTheSameWhereverTheSiteLiesAndHoweverItIsTurned) {
  for (const auto& [words, plan] : random_sites(60, 34)) {
    SCOPED_TRACE(words);
    constexpr double kTurn_rad = 0.77;
    const Point shift{3.0, -8.0};
    const auto moved = [&](Point p) {
      return Point{std::cos(kTurn_rad) * p.x_m + std::sin(kTurn_rad) * p.y_m,
                   -std::sin(kTurn_rad) * p.x_m + std::cos(kTurn_rad) * p.y_m} +
             shift;
    };
    Plan elsewhere = plan;
    elsewhere.center = moved(plan.center);
    elsewhere.facing_rad += kTurn_rad;
    for (Pin& pin : elsewhere.pins) pin.at = moved(pin.at);
    const auto here = staking_order(plan, kTape);
    const auto there = staking_order(elsewhere, kTape);
    ASSERT_EQ(here.swings.size(), there.swings.size());
    for (std::size_t i = 0; i < here.swings.size(); ++i) {
      const Swing& a = here.swings[i];
      const Swing& b = there.swings[i];
      EXPECT_EQ(a.stake, b.stake);
      EXPECT_EQ(a.hand, b.hand);
      EXPECT_NEAR(a.sd_m, b.sd_m, 1e-8 * a.sd_m);
      for (std::size_t k = 0; k < 2; ++k) {
        EXPECT_EQ(a.from[k].label, b.from[k].label);
        EXPECT_NEAR(a.from[k].length_m, b.from[k].length_m, kRounding_m);
      }
    }
  }
}

TEST(StakingOrder, RefusesHeldLabelsThatAreNoCornersOrComeTwice) {
  Plan plan = hexagon();
  plan.hold = {"A", "H"};
  EXPECT_THAT([&] { staking_order(plan, kTape); },
              ThrowsMessage<InputError>(AllOf(HasSubstr("\"H\""), HasSubstr("A to F"))));
  plan.hold = {"A", "B", "A"};
  EXPECT_THAT([&] { staking_order(plan, kTape); },
              ThrowsMessage<InputError>(HasSubstr("\"A\" comes twice")));
  plan.hold = {"O", "B"};
  EXPECT_THAT([&] { staking_order(plan, kTape); },
              ThrowsMessage<InputError>(HasSubstr("accepted are A to F")));
}

TEST(StakingOrder, RefusesPinsThatCannotServe) {
  Plan plan = hexagon();
  plan.pins = {{"P1", {5.0, 5.0}}, {"B", {-5.0, 5.0}}};
  EXPECT_THAT([&] { staking_order(plan, kTape); },
              ThrowsMessage<InputError>(HasSubstr("pin \"B\"")));
  plan.pins = {{"P1", {5.0, 5.0}}, {"P2", {5.0, 5.0}}};
  EXPECT_THAT([&] { staking_order(plan, kTape); },
              ThrowsMessage<InputError>(HasSubstr("\"P1\" and \"P2\" are at one place")));
  plan.polygon = {3, 0.003};  // a toy, seen from pins two miles off in one line
  plan.pins = {{"P1", {4000.0, 0.0}}, {"P2", {8000.0, 0.0}}};
  EXPECT_THAT([&] { staking_order(plan, kTape); },
              ThrowsMessage<InputError>(HasSubstr("in line with every stake")));
}

}  // namespace
}  // namespace stakewright::layout

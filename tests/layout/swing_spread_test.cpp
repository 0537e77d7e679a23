// The standard deviation told for each stake, against ways that do not share its sums.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

#include "layout/crew.hpp"
#include "stakewright/base/angle.hpp"
#include "stakewright/layout/swings.hpp"

namespace stakewright::layout {
namespace {

using base::kDegree_rad;
using base::Point;

struct Site {
  std::string words;
  Plan plan;
};

Plan plan_of(int sides, std::vector<std::string> hold, std::vector<Pin> pins) {
  Plan plan;
  plan.polygon = {sides, 3.5};
  plan.center = {1.0, -2.0};
  plan.facing_rad = 0.4;
  plan.hold = std::move(hold);
  plan.pins = std::move(pins);
  return plan;
}

std::vector<Site> sites() {
  return {{"5 sides, nothing given", plan_of(5, {}, {})},
          {"6 sides, A and B held", plan_of(6, {"A", "B"}, {})},
          {"7 sides, D held", plan_of(7, {"D"}, {})},
          {"8 sides, two pins", plan_of(8, {}, {{"P1", {-5.0, -6.0}}, {"P2", {6.0, -5.5}}})},
          {"4 sides, a pin and C held", plan_of(4, {"C"}, {{"P1", {-5.0, -6.0}}})}};
}

const TapeSpread kTape{0.001, 0.0002, 0.0015};

TEST(SwingSpread, IsWhatTryingEachErrorAloneGives) {
  for (const auto& [words, plan] : sites()) {
    const auto order = staking_order(plan, kTape);
    for (const Swing& swing : order.swings) {
      const double by_trial = sd_by_trial_m(plan, order, kTape, swing.stake);
      EXPECT_NEAR(swing.sd_m, by_trial, 1e-6 * by_trial) << words << ", stake " << swing.stake;
    }
  }
}

TEST(SwingSpread, IsWhatManyCrewsWouldShow) {
  constexpr int kCrews = 20000;
  // The relative standard error of a standard deviation from n values is 1/sqrt(2n), 0.5 % here;
  // the larger eigenvalue leans a little high, and 26 stakes are looked at: four of them and 0.5 %.
  constexpr double kAllowed = 0.025;
  for (const auto& [words, plan] : sites()) {
    constexpr unsigned kSeed = 41;
    std::mt19937 random(kSeed);
    std::normal_distribution<double> error(0.0, 1.0);
    const auto order = staking_order(plan, kTape);
    const Places planned = planned_places(plan);
    std::map<std::string, Scatter> scatters;
    std::vector<double> errors(error_count(order));
    for (int crew = 0; crew < kCrews; ++crew) {
      for (double& e : errors) e = error(random);
      const Places set = set_out(plan, order, kTape, errors);
      for (const auto& [label, place] : set) scatters[label].add(place - planned.at(label));
    }
    for (const Swing& swing : order.swings) {
      const double seen = scatters.at(swing.stake).worst_sd_m(kCrews);
      EXPECT_NEAR(swing.sd_m, seen, kAllowed * seen)
          << words << ", stake " << swing.stake << ", seed " << kSeed;
    }
  }
}

/// The order up to `step`, and then `stake` from a pair of one's own choosing.
StakingOrder with_own_choice(const StakingOrder& order, std::size_t step, const Places& planned,
                             const std::string& stake, const std::string& first,
                             const std::string& second) {
  StakingOrder own{order.given, {}, {}, {}};
  own.swings.assign(order.swings.begin(), order.swings.begin() + static_cast<std::ptrdiff_t>(step));
  const Point place = planned.at(stake);
  const Point line = planned.at(second) - planned.at(first);
  const bool right = base::dot(base::clockwise(line), place - planned.at(first)) > 0.0;
  own.swings.push_back({stake,
                        {Hold{first, base::distance_m(planned.at(first), place)},
                         Hold{second, base::distance_m(planned.at(second), place)}},
                        right ? Hand::right : Hand::left,
                        0.0,
                        0.0});
  return own;
}

double crossing_rad(Point a, Point b, Point at) {
  return std::acos(std::min(1.0, std::abs(base::dot(a - at, b - at)) /
                                     (base::distance_m(a, at) * base::distance_m(b, at))));
}

TEST(StakingOrder, TakesTheBestOfAllPairsForAllStakesAtEachStep) {
  for (const auto& [words, plan] : sites()) {
    const auto order = staking_order(plan, kTape);
    const Places planned = planned_places(plan);
    std::vector<std::string> standing = order.given;
    for (std::size_t step = 0; step < order.swings.size(); ++step) {
      const Swing& taken = order.swings[step];
      ASSERT_GE(taken.crossing_rad, 30.0 * kDegree_rad - 1e-9);  // so for these sites
      for (std::size_t later = step; later < order.swings.size(); ++later)
        for (std::size_t j = 1; j < standing.size(); ++j)
          for (std::size_t i = 0; i < j; ++i) {
            const std::string& stake = order.swings[later].stake;
            if (crossing_rad(planned.at(standing[i]), planned.at(standing[j]), planned.at(stake)) <
                30.0 * kDegree_rad)
              continue;
            const auto own = with_own_choice(order, step, planned, stake, standing[i], standing[j]);
            EXPECT_LE(taken.sd_m, sd_by_trial_m(plan, own, kTape, stake) * (1.0 + 1e-5))
                << words << ": " << taken.stake << " before " << stake << " from " << standing[i]
                << " and " << standing[j];
          }
      standing.push_back(taken.stake);
    }
  }
}

// Two equal tapes from two sure points that cross at an angle g leave an ellipse with half axes
// s / (sqrt 2 sin g/2) and s / (sqrt 2 cos g/2); root-mean-square distance sqrt 2 s / sin g, the
// rule for a fix by two ranges in navigation handbooks (from memory; not read again).
TEST(SwingSpread, FollowsTheHandbookRuleForTwoRanges) {
  constexpr double kTaped_m = 0.002;
  for (const double apart_deg : {35.0, 50.0, 75.0, 90.0, 110.0, 140.0}) {
    Plan plan;
    plan.polygon = {5, 1.0};
    plan.pins = {{"P1", 4.0 * base::along(apart_deg * kDegree_rad)}, {"P2", {0.0, 4.0}}};
    const Places planned = planned_places(plan);
    // The first swing is always from the two pins, and those have no error.
    const Swing first = staking_order(plan, {kTaped_m, 0.0, 0.0}).swings[0];
    const double crossing =
        crossing_rad(planned.at("P1"), planned.at("P2"), planned.at(first.stake));
    EXPECT_NEAR(first.sd_m, kTaped_m / (std::numbers::sqrt2 * std::sin(0.5 * crossing)), 1e-12);
  }
  // A square crossing gives the tape's own spread: O, seen from pins right and forward of it.
  Plan plan;
  plan.polygon = {4, 1.0};
  plan.pins = {{"P1", {3.0, 0.0}}, {"P2", {0.0, 3.0}}};
  const Swing first = staking_order(plan, {kTaped_m, 0.0, 0.0}).swings[0];
  EXPECT_EQ(first.stake, "O");
  EXPECT_NEAR(first.sd_m, kTaped_m, 1e-15);
}

TEST(SwingSpread, IsAsTheTapesErrorsAre) {
  const Plan plan = sites()[0].plan;
  const auto once = staking_order(plan, kTape);
  const auto thrice = staking_order(
      plan, {3.0 * kTape.constant_m, 3.0 * kTape.per_length, 3.0 * kTape.centering_m});
  const auto never = staking_order(plan, {0.0, 0.0, 0.0});
  for (std::size_t i = 0; i < once.swings.size(); ++i) {
    EXPECT_NEAR(thrice.swings[i].sd_m, 3.0 * once.swings[i].sd_m, 1e-12);
    EXPECT_EQ(never.swings[i].sd_m, 0.0);
  }
}

}  // namespace
}  // namespace stakewright::layout

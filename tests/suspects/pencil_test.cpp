// The pencil check against corners moved about within tolerance, by chance and to the extreme.
#include "stakewright/suspects/pencil.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <random>

#include "stakewright/readings/observation.hpp"

namespace stakewright::suspects {
namespace {

using base::Point;
using testing::IsEmpty;

constexpr double kRadius_m = 3.0;
constexpr unsigned kSeed = 71;

layout::Plan polygon(int sides) {
  layout::Plan plan;
  plan.polygon = {sides, kRadius_m};
  return plan;
}

readings::Instrument tape() {
  readings::Instrument result;
  result.constant_m = 0.001;
  return result;
}

using Places = std::map<std::string, Point>;

Places places_of(const layout::Plan& plan) {
  Places places;
  for (const layout::Stake& stake : layout::stakes(plan)) places[stake.label] = stake.at;
  return places;
}

double length_m(const Places& places, const layout::Tape& pull) {
  return base::distance_m(places.at(pull.from), places.at(pull.to));
}

/// Longest less shortest of the pulls of one skip.
double difference_m(const Places& places, const std::vector<layout::Tape>& pulls, int skip) {
  double longest = 0.0;
  double shortest = 1e9;
  for (const layout::Tape& pull : pulls) {
    if (pull.skip != skip) continue;
    longest = std::max(longest, length_m(places, pull));
    shortest = std::min(shortest, length_m(places, pull));
  }
  return longest - shortest;
}

TEST(PencilCheck, IsNeverExceededByCornersInTolerance) {
  std::mt19937 random(kSeed);
  std::uniform_real_distribution<double> turn(0.0, 2.0 * std::numbers::pi);
  for (int sides = 3; sides <= 12; ++sides) {
    const layout::Plan plan = polygon(sides);
    const base::Tolerance tolerance;
    const auto pulls = layout::check_tapes(plan);
    const auto checks = pencil_checks(plan, tolerance, tape(), pulls);
    for (int trial = 0; trial < 300; ++trial) {
      Places places = places_of(plan);
      for (auto& [label, at] : places) {  // on the rim: the worst places are there
        const double bearing = turn(random);
        at = at + tolerance.corner_m * Point{std::cos(bearing), std::sin(bearing)};
      }
      for (const PencilCheck& check : checks)
        EXPECT_LE(difference_m(places, pulls, check.skip), check.corners_m)
            << sides << " sides, skip " << check.skip << ", seed " << kSeed;
    }
  }
}

// One pull drawn out at both ends, another with no end in common pushed together.
TEST(PencilCheck, IsReachedByTwoPullsWithoutACommonCorner) {
  for (const int sides : {4, 5, 6, 8, 12}) {
    const layout::Plan plan = polygon(sides);
    const base::Tolerance tolerance;
    const auto pulls = layout::check_tapes(plan);
    for (const PencilCheck& check : pencil_checks(plan, tolerance, tape(), pulls)) {
      Places places = places_of(plan);
      const auto stretch = [&](const layout::Tape& pull, double by_m) {
        const Point along = (1.0 / check.planned_m) * (places.at(pull.to) - places.at(pull.from));
        places[pull.to] = places.at(pull.to) + by_m * along;
        places[pull.from] = places.at(pull.from) - by_m * along;
      };
      const layout::Tape first = check.example;
      const auto other = std::find_if(pulls.begin(), pulls.end(), [&](const layout::Tape& pull) {
        return pull.skip == check.skip && pull.from != first.from && pull.from != first.to &&
               pull.to != first.from && pull.to != first.to;
      });
      ASSERT_NE(other, pulls.end());
      stretch(first, tolerance.corner_m);
      stretch(*other, -tolerance.corner_m);
      EXPECT_NEAR(length_m(places, first) - length_m(places, *other), check.corners_m, 1e-12)
          << sides << " sides, skip " << check.skip;
      EXPECT_NEAR(check.corners_m, 4.0 * tolerance.corner_m, 1e-12);
    }
  }
}

/// Largest |PQ| − |PR| with each end within `tolerance_m`, by going round the rim of P: the far
/// ends are best drawn straight out and pushed straight in.
double largest_by_search_m(double length, double angle, double tolerance_m) {
  const Point q{-length * std::sin(angle / 2.0), -length * std::cos(angle / 2.0)};
  const Point r{-q.x_m, q.y_m};
  double most = 0.0;
  constexpr int kSteps = 3600;
  for (int i = 0; i < kSteps; ++i) {
    const double bearing = 2.0 * std::numbers::pi * i / kSteps;
    const Point p{tolerance_m * std::cos(bearing), tolerance_m * std::sin(bearing)};
    most = std::max(most, base::distance_m(p, q) - base::distance_m(p, r));
  }
  return 2.0 * tolerance_m + most;
}

TEST(PencilCheck, AtACommonCornerIsTheLargestThatASearchFinds) {
  for (const double length : {1.0, 3.0, 8.0})
    for (const double degrees : {20.0, 36.0, 60.0, 90.0, 120.0})
      for (const double tolerance_m : {0.003, 0.00635, 0.02}) {
        const double angle = degrees / 180.0 * std::numbers::pi;
        const double found = largest_by_search_m(length, angle, tolerance_m);
        const double bound = largest_difference_at_corner_m(length, angle, tolerance_m);
        EXPECT_GE(bound, found);
        EXPECT_LE(bound - found, 2.0 * tolerance_m * tolerance_m / length)
            << length << " m, " << degrees << " degrees, " << tolerance_m;
      }
}

// All sides of a triangle meet: 2 t (1 + sin 30°) = 3 t to the first order.
TEST(PencilCheck, OfATriangleIsThreeTolerances) {
  const layout::Plan plan = polygon(3);
  const auto checks = pencil_checks(plan, {}, tape(), layout::check_tapes(plan));
  ASSERT_EQ(checks.size(), 1U);
  EXPECT_NEAR(checks[0].corners_m, 3.0 * base::Tolerance{}.corner_m, 0.0001);
}

TEST(PencilCheck, HasALineForEachSkipThatTwoPullsShare) {
  const layout::Plan plan = polygon(8);
  auto pulls = layout::check_tapes(plan);
  std::vector<int> skips;
  for (const PencilCheck& check : pencil_checks(plan, {}, tape(), pulls)) {
    skips.push_back(check.skip);
    EXPECT_EQ(check.pulls, check.skip == 4 ? 4U : 8U);
    // Chord of a circle: 2 R sin(skip π / n).
    EXPECT_NEAR(check.planned_m, 2.0 * kRadius_m * std::sin(check.skip * std::numbers::pi / 8.0),
                1e-12);
  }
  EXPECT_THAT(skips, testing::ElementsAre(1, 2, 3, 4));
  std::erase_if(pulls, [](const layout::Tape& pull) { return pull.skip != 0 && pull.from != "A"; });
  std::erase_if(pulls, [](const layout::Tape& pull) { return pull.skip == 4 || pull.to == "B"; });
  for (const PencilCheck& check : pencil_checks(plan, {}, tape(), pulls))
    EXPECT_EQ(check.pulls, 2U) << check.skip;
  EXPECT_THAT(pencil_checks(plan, {}, tape(), {}), IsEmpty());
}

// A tape read twice between the same stakes differs by its readings only.
TEST(PencilCheck, OfOnePullMadeTwiceLeavesTheCornersOut) {
  const layout::Plan plan = polygon(6);
  const std::vector<layout::Tape> twice(2, layout::check_tapes(plan).front());
  const auto checks = pencil_checks(plan, {}, tape(), twice);
  ASSERT_EQ(checks.size(), 1U);
  EXPECT_EQ(checks[0].corners_m, 0.0);
  // 0.95 of the differences of two readings lie within 1.96 · √2 standard deviations.
  EXPECT_NEAR(checks[0].readings_m, 1.95996 * std::sqrt(2.0) * 0.001, 1e-8);
}

// Good readings of a true polygon pass all lines together with the job's confidence at least.
TEST(PencilCheck, IsPassedByGoodReadingsAsOftenAsTheConfidenceSays) {
  std::mt19937 random(kSeed);
  std::normal_distribution<double> error(0.0, 0.001);
  const layout::Plan plan = polygon(6);
  const auto pulls = layout::check_tapes(plan);
  const auto checks = pencil_checks(plan, {}, tape(), pulls);
  constexpr int kTrials = 4000;
  int passed = 0;
  for (int trial = 0; trial < kTrials; ++trial) {
    bool within = true;
    for (const PencilCheck& check : checks) {
      double longest = -1.0;
      double shortest = 1.0;
      for (std::size_t i = 0; i < check.pulls; ++i) {
        const double e = error(random);
        longest = std::max(longest, e);
        shortest = std::min(shortest, e);
      }
      within = within && longest - shortest <= check.readings_m;
    }
    passed += within ? 1 : 0;
  }
  // Shared by Bonferroni: at least 0.95, and for three independent lines no more than 0.9508;
  // a count of 4000 has a standard deviation of 0.0034.
  EXPECT_NEAR(static_cast<double>(passed) / kTrials, 0.95, 0.012) << "seed " << kSeed;
}

}  // namespace
}  // namespace stakewright::suspects

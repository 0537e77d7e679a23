#include "stakewright/layout/plan.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <numbers>
#include <set>

#include "layout/random_plans.hpp"
#include "stakewright/base/angle.hpp"
#include "stakewright/base/error.hpp"

namespace stakewright::layout {
namespace {

using base::Point;

TEST(Stakes, OfAHexagonFacingForwardStandWhereTheCrewExpectsThem) {
  Plan plan;
  plan.polygon = polygon_from(Size::corner_radius, 2.0, 6);
  plan.center = {10.0, 20.0};
  const auto all = stakes(plan);
  ASSERT_EQ(all.size(), 6U);
  // By hand: corners at 330, 30, 90 … degrees clockwise from forward; half of 2 m is 1 m.
  const double root3 = std::numbers::sqrt3;
  const std::vector<Point> by_hand{{9.0, 20.0 + root3},  {11.0, 20.0 + root3}, {12.0, 20.0},
                                   {11.0, 20.0 - root3}, {9.0, 20.0 - root3},  {8.0, 20.0}};
  for (std::size_t i = 0; i < 6; ++i)
    EXPECT_LT(base::distance_m(all[i].at, by_hand[i]), kRounding_m) << all[i].label;
}

TEST(Stakes, StartLeftOfTheFacingLineAndGoRoundClockwise) {
  for (const auto& [words, plan] : random_plans(100, 21)) {
    SCOPED_TRACE(words);
    const auto all = stakes(plan);
    const Point middle = 0.5 * (all[0].at + all[1].at);
    const Point by_sight = plan.center + flat_radius_m(plan.polygon) * base::along(plan.facing_rad);
    EXPECT_LT(base::distance_m(middle, by_sight), kRounding_m);
    for (std::size_t i = 0; i < all.size(); ++i) {
      const Point next = all[(i + 1) % all.size()].at;
      EXPECT_GT(base::dot(base::clockwise(all[i].at - plan.center), next - plan.center), 0.0);
    }
  }
}

TEST(CheckTapes, AreTheDistancesBetweenTheStakes) {
  for (const auto& [words, plan] : random_plans(40, 22)) {
    SCOPED_TRACE(words);
    std::map<std::string, Point> places{{kCenterLabel, plan.center}};
    for (const auto& stake : stakes(plan)) places[stake.label] = stake.at;
    for (const Tape& tape : check_tapes(plan))
      EXPECT_NEAR(tape.length_m, base::distance_m(places.at(tape.from), places.at(tape.to)),
                  kRounding_m);
  }
}

TEST(CheckTapes, JoinEachPairOfCornersOnceAndTheCenterToEach) {
  for (int n = kFewestSides; n <= kMostSides; ++n) {
    SCOPED_TRACE(n);
    Plan plan;
    plan.polygon = {n, 5.0};
    std::map<int, int> by_skip;
    std::set<std::set<std::string>> pairs;
    for (const Tape& tape : check_tapes(plan)) {
      ++by_skip[tape.skip];
      EXPECT_TRUE(pairs.insert({tape.from, tape.to}).second) << tape.from << tape.to;
    }
    EXPECT_EQ(by_skip[0], n);  // corner radii
    int between_corners = 0;
    for (const auto& [skip, count] : by_skip) between_corners += skip == 0 ? 0 : count;
    EXPECT_EQ(between_corners, n * (n - 1) / 2);
    // n(n-3)/2 diagonals: the count in any school book (read at probsee.com).
    EXPECT_EQ(between_corners - by_skip[1], n * (n - 3) / 2);
    EXPECT_EQ(by_skip.rbegin()->first, n / 2);
    EXPECT_EQ(by_skip[n / 2], n % 2 == 0 ? n / 2 : n);
  }
}

TEST(CheckTapes, ComeAsSidesThenDiagonalsThenCornerRadii) {
  Plan plan;
  plan.polygon = {6, 2.0};
  std::vector<int> skips;
  for (const Tape& tape : check_tapes(plan)) skips.push_back(tape.skip);
  EXPECT_THAT(skips,
              testing::ElementsAre(1, 1, 1, 1, 1, 1, 2, 2, 2, 2, 2, 2, 3, 3, 3, 0, 0, 0, 0, 0, 0));
}

TEST(CheckTapes, DoNotChangeWhenTheSiteIsTurnedAndShifted) {
  for (const auto& [words, plan] : random_plans(40, 23)) {
    SCOPED_TRACE(words);
    Plan elsewhere = plan;
    elsewhere.center = elsewhere.center + Point{17.0, -4.0};
    elsewhere.facing_rad += 1.234;
    const auto here = check_tapes(plan);
    const auto there = check_tapes(elsewhere);
    ASSERT_EQ(here.size(), there.size());
    for (std::size_t i = 0; i < here.size(); ++i) {
      EXPECT_EQ(here[i].from + here[i].to, there[i].from + there[i].to);
      EXPECT_EQ(here[i].length_m, there[i].length_m);
    }
  }
}

TEST(Lines, KeepTheOrderAndTheNamesOfTheJob) {
  Plan plan;
  plan.polygon = polygon_from(Size::flat_radius, 2.0, 8);
  plan.lines = {{"dig", 0.6}, {"plate", 0.1}, {"hearth", -1.5}};
  const auto figures = lines(plan);
  ASSERT_EQ(figures.size(), 3U);
  EXPECT_EQ(figures[0].name, "dig");
  EXPECT_EQ(figures[2].name, "hearth");
  // An octagon of flat radius 1 has the side 2 tan 22.5° = 0.8284271 (sqrt 8 - 2).
  EXPECT_NEAR(figures[0].side_m, 2.6 * (std::sqrt(8.0) - 2.0), 1e-12);
  EXPECT_NEAR(figures[2].side_m, 0.5 * (std::sqrt(8.0) - 2.0), 1e-12);
  EXPECT_NEAR(figures[1].area_m2, 8.0 * 2.1 * 2.1 * (std::numbers::sqrt2 - 1.0), 1e-12);
  EXPECT_EQ(figures[1].corners.size(), 8U);
  for (const auto& figure : figures)
    EXPECT_NEAR(base::norm_m(figure.corners[3]), figure.corner_radius_m, kRounding_m);
}

TEST(Lines, ThatVanishInwardsAreNamed) {
  Plan plan;
  plan.polygon = polygon_from(Size::flat_radius, 2.0, 5);
  plan.lines = {{"plate", 0.1}, {"hearth", -2.0}};
  EXPECT_THAT([&] { lines(plan); },
              testing::ThrowsMessage<base::InputError>(testing::AllOf(
                  testing::HasSubstr("line \"hearth\""), testing::HasSubstr("leaves nothing"))));
}

}  // namespace
}  // namespace stakewright::layout

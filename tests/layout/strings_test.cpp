#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "layout/random_plans.hpp"
#include "stakewright/layout/surroundings.hpp"

namespace stakewright::layout {
namespace {

using base::Point;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr double kFoot_m = 0.3048;

double cross(Point a, Point b) { return a.x_m * b.y_m - a.y_m * b.x_m; }

/// Where two straight strings cross.
Point crossing_of(const String& a, const String& b) {
  const Point along_a = a.nail_after - a.nail_before;
  const Point along_b = b.nail_after - b.nail_before;
  const double share = cross(b.nail_before - a.nail_before, along_b) / cross(along_a, along_b);
  return a.nail_before + share * along_a;
}

/// Distance of a place outside a closed figure from it.
double distance_from_figure_m(Point place, const std::vector<Point>& corners) {
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Point a = corners[i];
    const Point line = corners[(i + 1) % corners.size()] - a;
    const double share = std::clamp(base::dot(place - a, line) / base::dot(line, line), 0.0, 1.0);
    least = std::min(least, base::distance_m(place, a + share * line));
  }
  return least;
}

/// Least distance of all nails from a polygon laid like the plan's.
double nails_from_m(const std::vector<String>& strings, const std::vector<Point>& corners) {
  double least = std::numeric_limits<double>::infinity();
  for (const String& string : strings)
    for (const Point nail : {string.nail_before, string.nail_after})
      least = std::min(least, distance_from_figure_m(nail, corners));
  return least;
}

TEST(Strings, OfNeighboringSidesCrossOverTheCorner) {
  for (const auto& [words, plan] : random_plans(60, 51)) {
    SCOPED_TRACE(words);
    const auto corners = stakes(plan);
    const auto all = strings(plan);
    ASSERT_EQ(all.size(), corners.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
      const std::size_t next = (i + 1) % all.size();
      EXPECT_EQ(all[i].side, corners[i].label + "-" + corners[next].label);
      EXPECT_LT(base::distance_m(crossing_of(all[i], all[next]), corners[next].at), 1e-10);
    }
  }
}

TEST(Strings, RunPastBothCornersByTheSetback) {
  for (const auto& [words, random_plan] : random_plans(60, 52)) {
    SCOPED_TRACE(words);
    Plan plan = random_plan;
    plan.batter_setback_m = 1.25;
    const auto corners = stakes(plan);
    const auto all = strings(plan);
    for (std::size_t i = 0; i < all.size(); ++i) {
      const Point from = corners[i].at;
      const Point to = corners[(i + 1) % all.size()].at;
      EXPECT_EQ(all[i].setback_m, 1.25);
      EXPECT_NEAR(base::distance_m(all[i].nail_before, from), 1.25, kRounding_m);
      EXPECT_NEAR(base::distance_m(all[i].nail_after, to), 1.25, kRounding_m);
      EXPECT_NEAR(all[i].length_m, base::distance_m(all[i].nail_before, all[i].nail_after),
                  kRounding_m);
      EXPECT_NEAR(all[i].length_m, base::distance_m(from, to) + 2.5, kRounding_m);
    }
  }
}

TEST(BatterBoards, StandClearOfTheOutermostLineUnlessTold) {
  for (const auto& [words, random_plan] : random_plans(60, 53)) {
    SCOPED_TRACE(words);
    Plan plan = random_plan;
    plan.lines = {{"plate", 0.07}, {"dig", 1.0}, {"slab", 0.2}};
    const auto all = strings(plan);
    EXPECT_GE(nails_from_m(all, lines(plan)[1].corners), 2.0 * kFoot_m - 1e-9);
    EXPECT_GE(nails_from_m(all, corners_of(plan.polygon, plan)), 4.0 * kFoot_m - 1e-9);
    plan.lines.clear();
    EXPECT_GE(nails_from_m(strings(plan), corners_of(plan.polygon, plan)), 4.0 * kFoot_m - 1e-9);
  }
}

TEST(BatterBoards, StandNoFartherOutThanNeeded) {
  for (const auto& [words, random_plan] : random_plans(200, 54)) {
    SCOPED_TRACE(words);
    Plan plan = random_plan;
    plan.lines = {{"dig", 1.0}};
    plan.batter_setback_m = strings(plan)[0].setback_m - 0.001;
    // The rule measures from sides; a nail just past the end of one is nearest to a corner, and
    // stands a little clearer.
    constexpr double kRoundTheCorner_m = 0.01;
    EXPECT_LT(nails_from_m(strings(plan), lines(plan)[0].corners),
              2.0 * kFoot_m + kRoundTheCorner_m);
  }
}

TEST(BatterBoards, OfASquareStandAsFarOutAsTheirSetback) {
  Plan plan;
  plan.polygon = polygon_from(Size::side, 4.0, 4);
  EXPECT_NEAR(strings(plan)[0].setback_m, 4.0 * kFoot_m, 1e-12);
  plan.lines = {{"dig", 3.0}};
  EXPECT_NEAR(strings(plan)[0].setback_m, 3.0 + 2.0 * kFoot_m, 1e-12);
}

// The nails can come no nearer than the circle that the sides ahead close in on.
TEST(BatterBoards, OfManySidesDoNotRunAway) {
  Plan plan;
  plan.polygon = polygon_from(Size::flat_radius, 3.0, 48);
  plan.lines = {{"dig", 0.6}};
  const double clear = 4.0 * kFoot_m;  // more than 0.6 m and 2 ft
  const double tangent = std::sqrt(std::pow(3.0 + clear, 2.0) - 9.0);
  const double setback = strings(plan)[0].setback_m + 0.5 * side_m(plan.polygon);
  EXPECT_GE(setback, tangent - 1e-9);
  EXPECT_LE(setback, 1.01 * tangent);
  EXPECT_LT(setback, 0.5 * clear / std::sin(central_angle_rad(plan.polygon)));
}

TEST(StringRemarks, AreNoneForAnOrdinaryShelter) {
  for (const int sides : {3, 5, 6, 8, 12}) {
    Plan plan;
    plan.polygon = {sides, 3.0};
    plan.lines = {{"dig", 0.6}};
    EXPECT_THAT(string_remarks(plan), IsEmpty()) << sides;
  }
}

TEST(StringRemarks, WarnOfFlatCrossingsBoardsInTheDigAndLongStrings) {
  Plan plan;
  plan.polygon = {13, 3.0};
  EXPECT_THAT(string_remarks(plan),
              testing::ElementsAre(HasSubstr("13 sides neighboring strings cross flatter")));
  plan.polygon = {6, 3.0};
  plan.lines = {{"dig", 1.0}};
  plan.batter_setback_m = 1.1;  // 1.1 sin 60 = 0.95 m outside the next side
  EXPECT_THAT(string_remarks(plan), testing::ElementsAre(HasSubstr("inside the line \"dig\"")));
  plan.batter_setback_m = 1.2;
  EXPECT_THAT(string_remarks(plan), IsEmpty());
  plan.polygon = {4, 25.0};
  EXPECT_THAT(string_remarks(plan), testing::ElementsAre(HasSubstr("more than 30 m")));
}

}  // namespace
}  // namespace stakewright::layout

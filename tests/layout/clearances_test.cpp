// Lines of the job against outlines, with figures simple enough to work by hand.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "layout/random_plans.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/layout/surroundings.hpp"

namespace stakewright::layout {
namespace {

using base::InputError;
using base::Point;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::ThrowsMessage;

constexpr double kExact_m = 1e-9;

/// A square of side 4 about the origin, with sides along the site's axes.
Plan square_of_4() {
  Plan plan;
  plan.polygon = polygon_from(Size::side, 4.0, 4);
  return plan;
}

std::vector<Point> box(double left, double back, double right, double front) {
  return {{left, back}, {right, back}, {right, front}, {left, front}};
}

TEST(Clearances, TellTheLeastDistanceWhenAllIsWell) {
  Plan plan = square_of_4();
  plan.lines = {{"dig", 0.5}};
  plan.keep_clear = {{"boundary", true, box(-5.0, -6.0, 4.0, 6.0)},
                     {"oak", false, box(5.0, 5.0, 8.0, 8.0)}};
  const auto all = clearances(plan);
  ASSERT_EQ(all.size(), 4U);
  EXPECT_EQ(all[0].line, kPlanLineName);
  EXPECT_EQ(all[0].outline, "boundary");
  EXPECT_NEAR(all[0].distance_m, 2.0, kExact_m);
  EXPECT_EQ(all[1].line, "dig");
  EXPECT_NEAR(all[1].distance_m, 1.5, kExact_m);
  EXPECT_EQ(all[2].outline, "oak");
  EXPECT_NEAR(all[2].distance_m, std::hypot(3.0, 3.0), kExact_m);  // corner to corner
  EXPECT_NEAR(all[3].distance_m, std::hypot(2.5, 2.5), kExact_m);
  for (const auto& clearance : all) {
    EXPECT_FALSE(clearance.crosses);
    EXPECT_EQ(clearance.beyond_m, 0.0);
    EXPECT_THAT(clearance.crossings, IsEmpty());
  }
}

TEST(Clearances, TellHowFarALineIsOutOfItsBoundaryAndWhere) {
  Plan plan = square_of_4();
  plan.keep_clear = {{"boundary", true, box(-5.0, -5.0, 1.7, 5.0)}};
  const auto all = clearances(plan);
  ASSERT_EQ(all.size(), 1U);
  EXPECT_TRUE(all[0].crosses);
  EXPECT_EQ(all[0].distance_m, 0.0);
  EXPECT_NEAR(all[0].beyond_m, 0.3, 1e-5);
  ASSERT_EQ(all[0].crossings.size(), 2U);
  for (const Point place : all[0].crossings) {
    EXPECT_NEAR(place.x_m, 1.7, kExact_m);
    EXPECT_NEAR(std::abs(place.y_m), 2.0, kExact_m);
  }
}

TEST(Clearances, TellHowFarALineReachesIntoWhatItMustKeepOutsideOf) {
  Plan plan = square_of_4();
  plan.keep_clear = {{"tank", false, box(1.6, -1.0, 6.0, 1.0)}};  // pokes 0.4 m into the square
  const auto all = clearances(plan);
  EXPECT_TRUE(all[0].crosses);
  EXPECT_NEAR(all[0].beyond_m, 0.4, 1e-5);
  EXPECT_EQ(all[0].crossings.size(), 2U);
}

TEST(Clearances, CountTheWrongSideAsCrossing) {
  Plan plan = square_of_4();
  plan.keep_clear = {{"tank under the floor", false, box(-0.5, -0.5, 0.5, 0.5)},
                     {"pond around it", false, box(-9.0, -9.0, 9.0, 9.0)},
                     {"the other lot", true, box(10.0, -9.0, 20.0, 9.0)}};
  const auto all = clearances(plan);
  ASSERT_EQ(all.size(), 3U);
  EXPECT_NEAR(all[0].beyond_m, 1.5, 1e-5);   // the tank's sides within the square: 2 - 0.5
  EXPECT_NEAR(all[1].beyond_m, 7.0, 1e-5);   // 9 - 2
  EXPECT_NEAR(all[2].beyond_m, 12.0, 1e-5);  // from x = 10 back to x = -2
  for (const auto& clearance : all) {
    EXPECT_TRUE(clearance.crosses) << clearance.outline;
    EXPECT_EQ(clearance.distance_m, 0.0) << clearance.outline;
    EXPECT_THAT(clearance.crossings, IsEmpty()) << clearance.outline;
  }
}

// A lot with a notch whose point, at (0, -1), reaches into the square, its sides rising two to one.
// A place on the notch's right side is 1 + 2x from the square's back and 2 - x from its right: both
// are 5/3 at x = 1/3, in the middle of a side and at no corner.
TEST(Clearances, FindTheFarthestPointAlsoWhenItIsNoCorner) {
  Plan plan = square_of_4();
  plan.keep_clear = {{"lot", true, {{-6, -6}, {6, -6}, {6, 5}, {3, 5}, {0, -1}, {-3, 5}, {-6, 5}}}};
  const auto all = clearances(plan);
  EXPECT_TRUE(all[0].crosses);
  EXPECT_NEAR(all[0].beyond_m, 5.0 / 3.0, 1e-5);
  ASSERT_EQ(all[0].crossings.size(), 2U);
  for (const Point place : all[0].crossings) EXPECT_NEAR(std::abs(place.x_m), 1.5, kExact_m);
}

TEST(Clearances, LetALineTouch) {
  Plan plan = square_of_4();
  plan.keep_clear = {{"boundary", true, box(-2.0, -5.0, 5.0, 5.0)},  // along a whole side
                     {"step", false, box(2.0, 2.0, 3.0, 3.0)},       // corner to corner
                     {"post", false, {{2.0, 0.0}, {3.0, 1.0}, {3.0, -1.0}}}};
  for (const auto& clearance : clearances(plan)) {
    EXPECT_FALSE(clearance.crosses) << clearance.outline;
    EXPECT_NEAR(clearance.distance_m, 0.0, kExact_m) << clearance.outline;
    EXPECT_THAT(clearance.crossings, IsEmpty()) << clearance.outline;
  }
}

TEST(Clearances, DoNotMindWhichWayRoundAnOutlineIsGivenOrWhetherItIsClosed) {
  Plan plan = square_of_4();
  const auto corners = box(-5.0, -5.0, 1.7, 5.0);
  const std::vector<Point> back(corners.rbegin(), corners.rend());
  auto closed = corners;
  closed.push_back(corners.front());
  plan.keep_clear = {
      {"one way", true, corners}, {"other way", true, back}, {"closed", true, closed}};
  for (const auto& clearance : clearances(plan)) {
    EXPECT_TRUE(clearance.crosses) << clearance.outline;
    EXPECT_NEAR(clearance.beyond_m, 0.3, 1e-5) << clearance.outline;
    EXPECT_EQ(clearance.crossings.size(), 2U) << clearance.outline;
  }
}

TEST(Clearances, RefuseAnOutlineWithFewerThanThreeCorners) {
  Plan plan = square_of_4();
  plan.keep_clear = {{"fence", true, {{0, 0}, {5, 0}, {5, 0}, {0, 0}}}};
  EXPECT_THAT(
      [&] { clearances(plan); },
      ThrowsMessage<InputError>(AllOf(HasSubstr("keep_clear \"fence\" has 2 different corners"),
                                      HasSubstr("three or more"))));
  plan.keep_clear = {{"fence", true, {}}};
  EXPECT_THAT([&] { clearances(plan); },
              ThrowsMessage<InputError>(HasSubstr("has 0 different corners")));
}

TEST(Clearances, RefuseAnOutlineThatCrossesOrTouchesItself) {
  Plan plan = square_of_4();
  const std::vector<std::vector<Point>> bad{
      {{0, 0}, {4, 4}, {4, 0}, {0, 4}},                  // a bow tie
      {{0, 0}, {2, 0}, {4, 0}},                          // all in one line
      {{0, 0}, {4, 0}, {4, 4}, {8, 4}, {4, 4}, {0, 4}},  // a spike
      {{0, 0}, {2, 2}, {4, 0}, {4, 4}, {2, 2}, {0, 4}},  // pinched to a point
  };
  for (std::size_t i = 0; i < bad.size(); ++i) {
    plan.keep_clear = {{"hedge", true, bad[i]}};
    EXPECT_THAT(
        [&] { clearances(plan); },
        ThrowsMessage<InputError>(HasSubstr("keep_clear \"hedge\" crosses or touches itself")))
        << i;
  }
}

// A hedge sawn up and down forwards and straight behind: however many corners, it crosses nothing.
TEST(Clearances, TakeAnOutlineOfManyCorners) {
  Plan plan = square_of_4();
  for (const int corners : {50, 72, 100, 1000}) {
    std::vector<Point> hedge{{corners - 0.5, -20.0}, {0.5, -20.0}};
    for (int k = 0; k < corners; ++k) hedge.push_back({k + 0.5, 0.25 + k * k % 977});
    plan.keep_clear = {{"hedge", false, hedge}};
    EXPECT_NO_THROW(demand_outline(plan.keep_clear[0])) << corners;
  }
}

TEST(PinsWithin, AreThoseOnGroundThatALineEncloses) {
  Plan plan = square_of_4();
  plan.lines = {{"slab", 0.5}, {"dig", 1.5}};
  plan.pins = {{"in both", {0.0, 2.2}},
               {"in the dig", {3.0, 0.0}},
               {"on it", {3.5, 0.0}},
               {"outside", {3.0, 3.6}}};
  const auto within = pins_within(plan);
  ASSERT_EQ(within.size(), 3U);
  EXPECT_EQ(within[0].pin, "in both");
  EXPECT_EQ(within[0].line, "slab");
  EXPECT_NEAR(within[0].depth_m, 0.3, kExact_m);
  EXPECT_EQ(within[1].pin, "in both");
  EXPECT_EQ(within[1].line, "dig");
  EXPECT_NEAR(within[1].depth_m, 1.3, kExact_m);
  EXPECT_EQ(within[2].pin, "in the dig");
  EXPECT_EQ(within[2].line, "dig");
  EXPECT_NEAR(within[2].depth_m, 0.5, kExact_m);
}

}  // namespace
}  // namespace stakewright::layout

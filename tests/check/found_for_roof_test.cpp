#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "crew.hpp"
#include "stakewright/check/check.hpp"

namespace stakewright::check {
namespace {

TEST(FoundForRoof, GivesTheCornersAsTheyAreOffInThePlansOwnFrame) {
  Crew crew(6, 301);
  crew.set_stakes(0.0003).set_wrong("B", 0.03, -0.02);
  crew.pull_sides_and_diagonals().pull_corner_radii();
  const Findings findings = check(crew.input());
  const auto found = found_for_roof(findings);
  ASSERT_TRUE(found.has_value());
  const auto planned = layout::stakes(crew.input().plan);
  const base::Point center = crew.input().plan.center;
  for (std::size_t i = 0; i < 6; ++i) {
    const base::Point radius = planned[i].at - center;
    const base::Point outward = (1.0 / base::norm_m(radius)) * radius;
    const base::Point off = found->corners[i] - planned[i].at;
    const placement::CornerResult& corner = findings.placement->corners[i];
    EXPECT_NEAR(base::dot(off, outward), corner.outward_m, 1e-9);
    EXPECT_NEAR(base::dot(off, base::clockwise(outward)), corner.sideways_m, 1e-9);
  }
}

// The readings know no directions, so that the plan's facing can change nothing but the frame.
TEST(FoundForRoof, TurnsTheCovarianceWithThePlan) {
  Crew crew(5, 302);
  crew.set_stakes(0.0003).pull_sides_and_diagonals().pull_corner_radii();
  Input turned = crew.input();
  const double by = 1.1;
  turned.plan.facing_rad += by;
  const auto one = found_for_roof(check(crew.input()));
  const auto other = found_for_roof(check(turned));
  ASSERT_TRUE(one && other);
  ASSERT_EQ(one->covariance.rows, 12U);  // five corners and the pin
  ASSERT_EQ(other->covariance.rows, 12U);
  const double c = std::cos(by);
  const double s = std::sin(by);
  for (std::size_t i = 0; i < 12; i += 2) {
    for (std::size_t j = 0; j < 12; j += 2) {
      const base::Matrix& m = one->covariance;
      // R M Rᵀ with R clockwise: x' = c x + s y, y' = -s x + c y.
      const double xx =
          c * (c * m(i, j) + s * m(i, j + 1)) + s * (c * m(i + 1, j) + s * m(i + 1, j + 1));
      const double xy =
          c * (-s * m(i, j) + c * m(i, j + 1)) + s * (-s * m(i + 1, j) + c * m(i + 1, j + 1));
      EXPECT_NEAR(other->covariance(i, j), xx, 1e-13);
      EXPECT_NEAR(other->covariance(i, j + 1), xy, 1e-13);
    }
  }
}

TEST(FoundForRoof, HasTheFootingsWhenEveryOneIsLeveled) {
  Crew crew(6, 303);
  crew.set_stakes(0.0003).pull_sides_and_diagonals();
  EXPECT_FALSE(found_for_roof(check(crew.input()))->footings);
  crew.read_rods("L1", {0.0, 0.02});
  const Findings findings = check(crew.input());
  const auto found = found_for_roof(findings);
  ASSERT_TRUE(found && found->footings);
  ASSERT_EQ(found->footings->height_m.size(), 6U);
  EXPECT_NEAR(found->footings->height_m[1] - found->footings->height_m[0], 0.02, 0.004);
  EXPECT_GT(found->footings->covariance(1, 1), 0.0);
  crew.input().readings.pop_back();  // the rod on F
  EXPECT_FALSE(found_for_roof(check(crew.input()))->footings);
}

TEST(FoundForRoof, GivesThePinOnlyWhereItWasTaped) {
  Crew with(6, 303);
  with.set_stakes(0.0003).pull_sides_and_diagonals().pull_corner_radii();
  with.set_wrong("C", 0.05, 0.0);
  const auto found = found_for_roof(check(with.input()));
  ASSERT_TRUE(found.has_value());
  ASSERT_TRUE(found->pin.has_value());
  EXPECT_NEAR(base::distance_m(*found->pin, with.input().plan.center), 0.0, 0.004);
  EXPECT_GT(found->covariance(12, 12), 0.0);

  Crew without(6, 304);
  without.set_stakes(0.0003).pull_sides_and_diagonals();
  const auto bare = found_for_roof(check(without.input()));
  ASSERT_TRUE(bare.has_value());
  EXPECT_FALSE(bare->pin.has_value());
  EXPECT_EQ(bare->covariance.rows, 12U);  // six corners
}

// The pin's spread against simulation: the same site taped over and over.
TEST(FoundForRoof, KnowsThePinAsWellAsManySurveysShow) {
  const unsigned seed = 305;
  Crew crew(5, seed);
  auto& instruments = crew.input().instruments;
  for (auto& instrument : instruments) {  // only what the crew's tape really does: 1.5 mm
    instrument.constant_m = 0.0015;
    instrument.per_length = instrument.centering_m = 0.0;
    instrument.scale = instrument.zero_m = 0.0;
  }
  crew.set_wrong("C", 0.1, 0.0);  // the plan lies on the other four
  base::Matrix sum(2, 2);
  base::Matrix expected;
  constexpr int kSurveys = 600;
  for (int k = 0; k < kSurveys; ++k) {
    crew.input().readings.clear();
    crew.pull_sides_and_diagonals().pull_corner_radii();
    const auto found = found_for_roof(check(crew.input()));
    ASSERT_TRUE(found && found->pin);
    expected = found->covariance;
    const base::Point off = *found->pin - crew.input().plan.center;
    sum(0, 0) += off.x_m * off.x_m / kSurveys;
    sum(1, 1) += off.y_m * off.y_m / kSurveys;
  }
  // The plan lies on A, B, D and E: their mean deviation is nothing, whatever the pin does.
  double with_the_mean = 0.0;
  for (const std::size_t corner : {0U, 1U, 3U, 4U}) with_the_mean += expected(2 * corner, 10);
  EXPECT_NEAR(with_the_mean, 0.0, 1e-15);
  // Four standard errors of a sampled variance.
  const double share = 4.0 * std::sqrt(2.0 / kSurveys);
  EXPECT_NEAR(sum(0, 0) / expected(10, 10), 1.0, share) << "seed " << seed;
  EXPECT_NEAR(sum(1, 1) / expected(11, 11), 1.0, share) << "seed " << seed;
}

}  // namespace
}  // namespace stakewright::check

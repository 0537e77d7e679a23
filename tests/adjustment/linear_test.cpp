// Rod readings between set-ups and points, the commonest linear readings, held against the GNU
// Scientific Library and against what a crew put in.
#include "stakewright/adjustment/linear.hpp"

#include <gmock/gmock.h>
#include <gsl/gsl_matrix.h>
#include <gsl/gsl_multifit.h>
#include <gsl/gsl_vector.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

namespace stakewright::adjustment {
namespace {

using testing::ElementsAre;

constexpr unsigned kSeed = 20;

/// Every set-up reads a rod on every point; reading = set-up height − point height, and the first
/// point's height is 0.  Unknowns: the set-ups, then the other points.
LinearReadings rods(std::size_t set_ups, std::size_t points, double sd_m, std::mt19937& random) {
  std::normal_distribution<double> normal;
  LinearReadings readings;
  readings.design = base::Matrix(set_ups * points, set_ups + points - 1);
  for (std::size_t s = 0; s < set_ups; ++s) {
    for (std::size_t p = 0; p < points; ++p) {
      const std::size_t row = s * points + p;
      readings.design(row, s) = 1.0;
      if (p > 0) readings.design(row, set_ups + p - 1) = -1.0;
      readings.sd_m.push_back(sd_m * (1.0 + 0.3 * static_cast<double>(p % 3)));
      const double height_m = 0.01 * static_cast<double>(p);
      readings.values_m.push_back(1.5 + static_cast<double>(s) - height_m +
                                  readings.sd_m.back() * normal(random));
    }
  }
  return readings;
}

TEST(LinearReadings, AgreeWithGslInUnknownsAndCovariance) {
  std::mt19937 random(kSeed);
  for (const std::size_t set_ups : {1U, 2U, 3U, 5U}) {
    const LinearReadings readings = rods(set_ups, 7, 0.0007, random);
    const auto ours = adjust(readings);
    ASSERT_TRUE(ours);
    const std::size_t m = readings.values_m.size();
    const std::size_t n = readings.design.cols;
    gsl_matrix* X = gsl_matrix_alloc(m, n);
    gsl_vector* w = gsl_vector_alloc(m);
    gsl_vector* y = gsl_vector_alloc(m);
    for (std::size_t i = 0; i < m; ++i) {
      for (std::size_t j = 0; j < n; ++j) gsl_matrix_set(X, i, j, readings.design(i, j));
      gsl_vector_set(w, i, 1.0 / (readings.sd_m[i] * readings.sd_m[i]));
      gsl_vector_set(y, i, readings.values_m[i]);
    }
    gsl_vector* c = gsl_vector_alloc(n);
    gsl_matrix* covariance = gsl_matrix_alloc(n, n);
    double chi_square = 0.0;
    auto* workspace = gsl_multifit_linear_alloc(m, n);
    gsl_multifit_wlinear(X, w, y, c, covariance, &chi_square, workspace);
    EXPECT_NEAR(ours->chi_square, chi_square, 1e-6 * (1.0 + chi_square));
    for (std::size_t i = 0; i < n; ++i) {
      EXPECT_NEAR(ours->unknowns[i], gsl_vector_get(c, i), 1e-10);
      for (std::size_t j = 0; j < n; ++j)
        EXPECT_NEAR(ours->covariance(i, j), gsl_matrix_get(covariance, i, j),
                    1e-6 * 0.0007 * 0.0007);
    }
    gsl_multifit_linear_free(workspace);
    gsl_matrix_free(covariance);
    gsl_matrix_free(X);
    for (gsl_vector* v : {w, y, c}) gsl_vector_free(v);
  }
}

TEST(LinearReadings, ShareTheRedundancyAmongThem) {
  std::mt19937 random(kSeed);
  const auto adjusted = adjust(rods(3, 6, 0.0007, random));
  ASSERT_TRUE(adjusted);
  EXPECT_EQ(adjusted->redundancy, 18 - 8);
  double sum = 0.0;
  for (const AdjustedReading& reading : adjusted->readings_out) sum += reading.redundancy;
  EXPECT_NEAR(sum, adjusted->redundancy, 1e-9);
}

TEST(LinearReadings, WithoutASpareOneCatchNothing) {
  std::mt19937 random(kSeed);
  const LinearReadings readings = rods(1, 6, 0.0007, random);
  const auto adjusted = adjust(readings);
  ASSERT_TRUE(adjusted);
  EXPECT_EQ(adjusted->redundancy, 0);
  EXPECT_TRUE(adjusted->passed);
  for (const AdjustedReading& reading : adjusted->readings_out)
    EXPECT_EQ(reading.smallest_catch, std::numeric_limits<double>::infinity());
  EXPECT_EQ(weigh_slips(readings, 0.02).verdict, SlipVerdict::none);
}

TEST(LinearReadings, ThatLeaveAnUnknownFreeAreNotAdjusted) {
  std::mt19937 random(kSeed);
  LinearReadings readings = rods(1, 4, 0.0007, random);
  EXPECT_FALSE(adjust(readings, {1}));  // the rod on the second point
  for (std::size_t row = 0; row < 4; ++row) readings.design(row, 2) = 0.0;
  EXPECT_FALSE(adjust(readings));
}

// With readings of one quality, two of three rods on a point agree and the third does not.
TEST(LinearReadings, MisreadByAFootAreNamedWhereThreeSetUpsCheckOneAnother) {
  std::mt19937 random(kSeed);
  LinearReadings readings = rods(3, 6, 0.0007, random);
  readings.values_m[8] += 0.3048;
  const SlipTest test = weigh_slips(readings, 0.02);
  ASSERT_EQ(test.verdict, SlipVerdict::named);
  EXPECT_THAT(test.excluded, ElementsAre(8U));
  const auto again = adjust(readings, {8});
  ASSERT_TRUE(again);
  EXPECT_TRUE(again->readings_out[8].excluded);
  EXPECT_NEAR(again->readings_out[8].residual, -0.3048, 0.004);
  EXPECT_EQ(again->redundancy, 18 - 8 - 1);
}

// Of two readings of one rod neither is better: the residuals are opposite whichever slipped.
TEST(LinearReadings, OfTwoSetUpsNameThePairAndNotTheRod) {
  std::mt19937 random(kSeed);
  LinearReadings readings = rods(2, 6, 0.0007, random);
  readings.values_m[8] += 0.0254;
  const SlipTest test = weigh_slips(readings, 0.02);
  EXPECT_EQ(test.verdict, SlipVerdict::not_separable);
  ASSERT_GE(test.ranked.size(), 2U);
  std::vector<std::size_t> leading = {test.ranked[0].readings.at(0), test.ranked[1].readings.at(0)};
  EXPECT_THAT(leading, testing::UnorderedElementsAre(2U, 8U));
}

}  // namespace
}  // namespace stakewright::adjustment

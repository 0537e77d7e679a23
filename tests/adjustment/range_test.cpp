// The range of several normal readings, against a printed table and against GSL's quadrature.
#include "stakewright/adjustment/quantiles.hpp"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_integration.h>
#include <gsl/gsl_randist.h>
#include <gtest/gtest.h>

#include <cmath>
#include <memory>

namespace stakewright::adjustment {
namespace {

// Upper 5 % and 1 % points of the range of m standard normals (the studentized range with infinite
// degrees of freedom), E. S. Pearson and H. O. Hartley, Biometrika Tables for Statisticians,
// volume 1, table 29 (from memory).
TEST(Range, FollowsThePrintedTable) {
  struct Row {
    int count;
    double five_per_cent;
    double one_per_cent;
  };
  for (const Row& row :
       {Row{2, 2.77, 3.64}, Row{3, 3.31, 4.12}, Row{4, 3.63, 4.40}, Row{5, 3.86, 4.60},
        Row{6, 4.03, 4.76}, Row{8, 4.29, 4.99}, Row{10, 4.47, 5.16}, Row{20, 5.01, 5.65}}) {
    EXPECT_NEAR(range_limit(0.95, row.count), row.five_per_cent, 0.006) << row.count;
    EXPECT_NEAR(range_limit(0.99, row.count), row.one_per_cent, 0.006) << row.count;
  }
}

// The difference of two is normal with twice the variance.
TEST(Range, OfTwoIsTheirDifference) {
  for (const double confidence : {0.5, 0.9, 0.95, 0.999})
    EXPECT_NEAR(range_limit(confidence, 2), std::sqrt(2.0) * normal_limit(1.0 - confidence), 1e-8);
}

/// The density of the range itself, by its own double integral's inner part: another way than the
/// library's.  m(m−1) ∫ φ(x) φ(x + r) [Φ(x + r) − Φ(x)]^(m−2) dx, summed up to the width.
double density_at(double r, int count) {
  double sum = 0.0;
  constexpr double kStep = 0.01;
  for (double x = -9.0; x < 9.0; x += kStep)
    sum += kStep * gsl_ran_ugaussian_pdf(x) * gsl_ran_ugaussian_pdf(x + r) *
           std::pow(gsl_cdf_ugaussian_P(x + r) - gsl_cdf_ugaussian_P(x), count - 2);
  return count * (count - 1) * sum;
}

TEST(Range, AgreesWithTheDensityIntegratedByGsl) {
  const std::unique_ptr<gsl_integration_workspace, decltype(&gsl_integration_workspace_free)>
      workspace(gsl_integration_workspace_alloc(100), &gsl_integration_workspace_free);
  for (const int count : {3, 6, 12}) {
    int readings = count;
    gsl_function density{[](double r, void* p) { return density_at(r, *static_cast<int*>(p)); },
                         &readings};
    double chance = 0.0;
    double error = 0.0;
    gsl_integration_qag(&density, 0.0, 4.0, 1e-8, 1e-8, 100, GSL_INTEG_GAUSS21, workspace.get(),
                        &chance, &error);
    EXPECT_NEAR(range_chance(4.0, count), chance, 1e-7) << count;
  }
}

TEST(Range, GrowsWithTheNumberOfReadings) {
  for (int count = 2; count < 48; ++count)
    EXPECT_LT(range_limit(0.95, count), range_limit(0.95, count + 1)) << count;
}

}  // namespace
}  // namespace stakewright::adjustment

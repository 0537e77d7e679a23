// The closed-form evidence against brute-force integration by GSL.
#include "evidence.hpp"

#include <gsl/gsl_integration.h>
#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <numbers>

namespace stakewright::adjustment {
namespace {

/// Two readings of 2 mm and 3 mm whose residuals hang together.
ResidualEvidence two_readings() {
  ResidualEvidence evidence;
  evidence.cofactor = Eigen::MatrixXd(2, 2);
  evidence.cofactor << 0.6, -0.25, -0.25, 0.45;
  evidence.residuals = Eigen::VectorXd(2);
  evidence.residuals << 2.9, -1.1;
  evidence.sd = {0.002, 0.003};
  evidence.usual_slip = {kUsualSlip_m, kUsualSlip_m};
  evidence.chi_square = 25.0;
  evidence.redundancy = 5;
  return evidence;
}

double integral(const std::function<double(double)>& f, double from, double to) {
  gsl_function wrapped;
  wrapped.function = [](double x, void* data) {
    return (*static_cast<const std::function<double(double)>*>(data))(x);
  };
  wrapped.params = const_cast<void*>(static_cast<const void*>(&f));
  auto* workspace = gsl_integration_workspace_alloc(400);
  double value = 0.0;
  double error = 0.0;
  gsl_integration_qag(&wrapped, from, to, 0.0, 1e-9, 400, GSL_INTEG_GAUSS31, workspace, &value,
                      &error);
  gsl_integration_workspace_free(workspace);
  return value;
}

/// The prior of a slip set, as docs/methods/misread-readings.md states it: normals of 1, 4, 16 and
/// 64 in, in equal shares, all slips of a set at one of them.
double prior(std::initializer_list<double> slips_m) {
  double sum = 0.0;
  for (const double scale : {0.0254, 4 * 0.0254, 16 * 0.0254, 64 * 0.0254}) {
    double density = 0.25;
    for (const double slip : slips_m)
      density *= std::exp(-0.5 * slip * slip / scale / scale) /
                 (scale * std::sqrt(2.0 * std::numbers::pi));
    sum += density;
  }
  return sum;
}

// With residuals w and a slip of s standard deviations, the likelihood over that of no slip is
// exp(s·w − s²·m/2), for the flat prior of the places (completing the square by hand).
TEST(SlipEvidence, OfOneReadingEqualsTheIntegralOverItsSlip) {
  const ResidualEvidence evidence = two_readings();
  for (std::size_t r : {std::size_t{0}, std::size_t{1}}) {
    const Eigen::Index i = static_cast<Eigen::Index>(r);
    const double sd = evidence.sd[r];
    const auto integrand = [&](double slip) {
      const double s = slip / sd;
      return prior({slip}) *
             std::exp(s * evidence.residuals(i) - 0.5 * s * s * evidence.cofactor(i, i));
    };
    const auto weighed = weigh(evidence, {{r}, 1}, 0.0, -1e9);
    ASSERT_TRUE(weighed);
    EXPECT_NEAR(weighed->log_weight, std::log(integral(integrand, -0.1, 0.1)), 1e-7);
    EXPECT_NEAR(weighed->explained, std::pow(evidence.residuals(i), 2) / evidence.cofactor(i, i),
                1e-12);
    const auto mean = [&](double slip) { return slip * integrand(slip); };
    EXPECT_NEAR(slip_sizes(evidence, {{r}, 1})[0],
                integral(mean, -0.1, 0.1) / integral(integrand, -0.1, 0.1), 1e-9);
  }
}

TEST(SlipEvidence, OfTwoReadingsEqualsTheDoubleIntegral) {
  const ResidualEvidence evidence = two_readings();
  const auto integrand = [&](double first, double second) {
    const Eigen::Vector2d s(first / evidence.sd[0], second / evidence.sd[1]);
    return prior({first, second}) *
           std::exp(s.dot(evidence.residuals) - 0.5 * s.dot(evidence.cofactor * s));
  };
  const double both = integral(
      [&](double first) {
        return integral([&](double second) { return integrand(first, second); }, -0.08, 0.08);
      },
      -0.08, 0.08);
  const auto weighed = weigh(evidence, {{0, 1}, 2}, std::log(0.1), -1e9);
  ASSERT_TRUE(weighed);
  EXPECT_NEAR(weighed->log_weight, std::log(both) + 2.0 * std::log(0.1), 1e-6);
}

TEST(SlipEvidence, OfThreeReadingsThatDoNotTouchIsTheSumOfTheirGains) {
  // Uncorrelated residuals at one scale factor; the mixture joins the scales, so each is summed.
  ResidualEvidence evidence;
  evidence.cofactor = Eigen::Vector3d(0.5, 0.7, 0.9).asDiagonal();
  evidence.residuals = Eigen::Vector3d(3.0, -2.0, 4.0);
  evidence.sd = {0.002, 0.002, 0.004};
  evidence.usual_slip = {kUsualSlip_m, kUsualSlip_m, kUsualSlip_m};
  double expected = 0.0;
  for (const double scale : {0.0254, 0.1016, 0.4064, 1.6256}) {
    double product = 0.25;
    for (Eigen::Index i = 0; i < 3; ++i) {
      const double c = std::pow(scale / evidence.sd[static_cast<std::size_t>(i)], 2);
      const double m = evidence.cofactor(i, i);
      product *= std::exp(0.5 * std::pow(evidence.residuals(i), 2) / (1.0 / c + m)) /
                 std::sqrt(1.0 + c * m);
    }
    expected += product;
  }
  const auto weighed = weigh(evidence, {{0, 1, 2}, 3}, 0.0, -1e9);
  ASSERT_TRUE(weighed);
  EXPECT_NEAR(weighed->log_weight, std::log(expected), 1e-10);
  EXPECT_NEAR(weighed->explained, 9.0 / 0.5 + 4.0 / 0.7 + 16.0 / 0.9, 1e-10);
}

TEST(SlipEvidence, DoesNotWeighSlipsThatAnswerAlike) {
  ResidualEvidence evidence = two_readings();
  evidence.cofactor << 0.5, 0.5, 0.5, 0.5;
  EXPECT_TRUE(weigh(evidence, {{0}, 1}, 0.0, -1e9));
  EXPECT_FALSE(weigh(evidence, {{0, 1}, 2}, 0.0, -1e9));
}

TEST(SlipEvidence, PassesOverOnlySetsThatCannotReachTheFloor) {
  const ResidualEvidence evidence = two_readings();
  const auto weighed = weigh(evidence, {{0}, 1}, -4.0, -1e9);
  ASSERT_TRUE(weighed);
  EXPECT_LT(weighed->log_weight, -4.0 + 0.5 * weighed->explained);
  EXPECT_TRUE(weigh(evidence, {{0}, 1}, -4.0, weighed->log_weight));
  EXPECT_FALSE(weigh(evidence, {{0}, 1}, -4.0, -4.0 + 0.51 * weighed->explained));
}

}  // namespace
}  // namespace stakewright::adjustment

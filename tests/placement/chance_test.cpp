#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <boost/math/distributions/non_central_chi_squared.hpp>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "site.hpp"
#include "stakewright/placement/placement.hpp"

namespace stakewright::placement {
namespace {

// Rayleigh's closed form: with equal spread s every way and no mean, P = 1 - exp(-r²/2s²).
TEST(ChanceWithin, FollowsRayleighWhenTheSpreadIsRound) {
  for (const double sd : {0.01, 0.1, 0.3, 1.0, 3.0, 30.0, 3000.0}) {
    const double expected = -std::expm1(-1.0 / (2.0 * sd * sd));
    EXPECT_NEAR(chance_within(0.0, 0.0, sd * sd, 0.0, sd * sd, 1.0), expected, 1e-12) << sd;
  }
}

// The squared distance from an offset center over s² is non-central chi-squared, 2 degrees of
// freedom (Boost.Math).
TEST(ChanceWithin, FollowsNonCentralChiSquaredWhenTheRoundSpreadIsOffset) {
  const double radius_m = 0.00635;
  for (const double sd_in_radius : {0.002, 0.01, 0.05, 0.2, 0.5, 1.0, 4.0}) {
    const double sd_m = sd_in_radius * radius_m;
    for (const double off_in_radius : {0.1, 0.5, 0.9, 0.98, 0.999, 1.0, 1.002, 1.02, 1.2, 2.0}) {
      const double off_m = off_in_radius * radius_m;
      const double parameter = off_m * off_m / (sd_m * sd_m);
      const boost::math::non_central_chi_squared distribution(2.0, parameter);
      const double expected = boost::math::cdf(distribution, radius_m * radius_m / (sd_m * sd_m));
      for (const double direction : {0.0, 0.7, 2.0, 4.0}) {
        const double chance =
            chance_within(off_m * std::cos(direction), off_m * std::sin(direction), sd_m * sd_m,
                          0.0, sd_m * sd_m, radius_m);
        EXPECT_NEAR(chance, expected, 1e-10)
            << "sd " << sd_in_radius << " off " << off_in_radius << " toward " << direction;
      }
    }
  }
}

// Green's theorem turns the normal probability of an ellipse (the circle, each axis over its
// sd) into one round its edge: (1 - exp(-ρ²/2)) / (2πρ²) (u dv - v du), ρ² = u² + v².
// Smooth and periodic, so that equal steps converge faster than any power.
double round_the_edge(double a, double b, double sd_a, double sd_b, double radius) {
  constexpr int kSteps = 20000;
  double sum = 0.0;
  for (int k = 0; k < kSteps; ++k) {
    const double angle = 2.0 * std::numbers::pi * k / kSteps;
    const double u = (radius * std::cos(angle) - a) / sd_a;
    const double v = (radius * std::sin(angle) - b) / sd_b;
    const double du = -radius * std::sin(angle) / sd_a;
    const double dv = radius * std::cos(angle) / sd_b;
    const double square = u * u + v * v;
    const double weight = square > 0.0 ? -std::expm1(-square / 2.0) / square : 0.5;
    sum += weight * (u * dv - v * du);
  }
  return sum / kSteps;
}

TEST(ChanceWithin, AgreesWithTheIntegralRoundTheEdgeForAnySpread) {
  const unsigned seed = 4711;
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> unit(0.0, 1.0);
  for (int trial = 0; trial < 400; ++trial) {
    const double sd_a = std::pow(10.0, -1.5 + 2.0 * unit(random));
    const double sd_b = sd_a * std::pow(10.0, -1.0 * unit(random));
    const double off = 1.5 * unit(random);
    const double toward = 2.0 * std::numbers::pi * unit(random);
    const double turn = 2.0 * std::numbers::pi * unit(random);
    const double a = off * std::cos(toward);
    const double b = off * std::sin(toward);
    const double c = std::cos(turn);
    const double s = std::sin(turn);
    const double saa = c * c * sd_a * sd_a + s * s * sd_b * sd_b;
    const double sbb = s * s * sd_a * sd_a + c * c * sd_b * sd_b;
    const double sab = c * s * (sd_a * sd_a - sd_b * sd_b);
    EXPECT_NEAR(chance_within(c * a - s * b, s * a + c * b, saa, sab, sbb, 1.0),
                round_the_edge(a, b, sd_a, sd_b, 1.0), 1e-9)
        << "seed " << seed << " trial " << trial << ": sd " << sd_a << ", " << sd_b << " at " << a
        << ", " << b;
  }
}

TEST(ChanceWithin, AgreesWithThrowingDarts) {
  const unsigned seed = 17;
  std::mt19937 random(seed);
  std::normal_distribution<double> normal;
  // x = 3 + 4 u, y = -2 + 1.5 u + 2 v: variances 16 and 6.25, covariance 6.
  int within = 0;
  constexpr int kDarts = 200000;
  for (int k = 0; k < kDarts; ++k) {
    const double u = normal(random);
    const double v = normal(random);
    if (std::hypot(3.0 + 4.0 * u, -2.0 + 1.5 * u + 2.0 * v) <= 5.0) ++within;
  }
  const double share = static_cast<double>(within) / kDarts;
  const double four_sd = 4.0 * std::sqrt(share * (1.0 - share) / kDarts);
  EXPECT_NEAR(chance_within(3.0, -2.0, 16.0, 6.0, 6.25, 5.0), share, four_sd) << "seed " << seed;
}

// Along a line the circle is an interval of half-width sqrt(r² - across²).
TEST(ChanceWithin, TakesALineForASpreadWithoutWidth) {
  const boost::math::normal normal;
  const double across = 0.6;
  const double half = 0.8;  // 3-4-5
  for (const double along : {0.0, 0.3, 0.8, 1.5}) {
    for (const double sd : {0.05, 0.4, 2.0}) {
      const double expected = boost::math::cdf(normal, (half - along) / sd) -
                              boost::math::cdf(normal, (-half - along) / sd);
      EXPECT_NEAR(chance_within(along, across, sd * sd, 0.0, 0.0, 1.0), expected, 1e-12);
      EXPECT_NEAR(chance_within(across, -along, 0.0, 0.0, sd * sd, 1.0), expected, 1e-12);
      // The same line turned by 45 degrees.
      const double r = std::sqrt(0.5);
      EXPECT_NEAR(chance_within(r * (along - across), r * (along + across), sd * sd / 2.0,
                                sd * sd / 2.0, sd * sd / 2.0, 1.0),
                  expected, 1e-7);
    }
  }
}

TEST(ChanceWithin, PassesOverFromAThinSpreadToALine) {
  for (const double across : {0.0, 0.5, 0.95}) {
    const double line = chance_within(0.2, across, 0.25, 0.0, 0.0, 1.0);
    double last_gap = 1.0;
    for (const double thin : {1e-2, 1e-4, 1e-6, 1e-9, 1e-12, 1e-14}) {
      const double gap = std::abs(chance_within(0.2, across, 0.25, 0.0, thin * thin, 1.0) - line);
      EXPECT_LE(gap, last_gap + 1e-12) << thin;
      last_gap = gap;
    }
    EXPECT_LT(last_gap, 1e-12);
  }
}

TEST(ChanceWithin, IsCertainForAPlaceKnownExactly) {
  EXPECT_EQ(chance_within(0.003, 0.004, 0.0, 0.0, 0.0, 0.00501), 1.0);
  EXPECT_EQ(chance_within(0.003, 0.004, 0.0, 0.0, 0.0, 0.00499), 0.0);
}

TEST(ChanceWithin, FallsAsThePlaceMovesAway) {
  double last = 1.0;
  for (double off = 0.0; off < 4.0; off += 0.05) {
    const double chance = chance_within(off, 0.3 * off, 0.2, 0.1, 0.3, 1.0);
    EXPECT_LT(chance, last + 1e-12);
    EXPECT_GE(chance, 0.0);
    last = chance;
  }
}

TEST(ChanceWithin, TakesRoundingBelowZeroForNoSpread) {
  EXPECT_NEAR(chance_within(0.0, 0.0, 1.0, 1.0, 1.0 - 1e-16, 1.0),
              std::erf(1.0 / std::sqrt(2.0) / std::sqrt(2.0)), 1e-7);
}

}  // namespace
}  // namespace stakewright::placement

// Derivatives and spread: what is carried to lengths and angles is exact to first order.
//
// A covariance of v v' makes every uncertainty the derivative along v times the normal
// factor, so that derivatives are tested through what a user sees.

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <random>

#include "roof/roofs.hpp"

namespace stakewright::roof {
namespace {

/// Half-width at 95 %: the normal's 0.975 quantile, from statistical tables.
constexpr double kFactor = 1.959963984540054;

std::vector<Figure> figures_of(const Carry& roof) {
  std::vector<Figure> figures;
  for (const auto& one : roof.parts) figures.push_back(one.line);
  for (const auto& one : roof.cuts) figures.push_back(one.angle);
  for (const auto& one : roof.eaves) {
    figures.push_back(one.overhang);
    figures.push_back(one.drop);
  }
  for (const auto& one : roof.sheets)
    for (const Figure& figure : {one.base, one.height, one.left_edge, one.right_edge})
      figures.push_back(figure);
  return figures;
}

/// The site with every coordinate moved by `step` times a direction.
Site moved(const Site& site, const std::vector<double>& direction, double step) {
  Site result = site;
  const std::size_t n = site.found.corners.size();
  const auto shift = [&](std::size_t i) {
    return base::Point{step * direction[2 * i], step * direction[2 * i + 1]};
  };
  for (std::size_t i = 0; i < n; ++i) result.found.corners[i] = site.found.corners[i] + shift(i);
  result.found.pin = *site.found.pin + shift(n);
  return result;
}

TEST(Derivatives, AgreeWithCentralDifferences) {
  constexpr double kStep_m = 1e-4;  // curvature and rounding both stay under 1e-9
  std::mt19937 random(501);
  std::normal_distribution<double> normal;
  for (auto site : random_sites(90, 501)) {
    SCOPED_TRACE(site.words);
    const std::size_t size = 2 * site.found.corners.size() + 2;
    std::vector<double> direction(size);
    for (double& value : direction) value = normal(random) / std::sqrt(static_cast<double>(size));
    for (std::size_t i = 0; i < size; ++i)
      for (std::size_t j = 0; j < size; ++j)
        site.found.covariance(i, j) = direction[i] * direction[j];
    const auto exact = figures_of(carry(site));
    const auto at = [&](double step) { return figures_of(carry(moved(site, direction, step))); };
    const auto near_up = at(kStep_m);
    const auto near_down = at(-kStep_m);
    const auto far_up = at(2.0 * kStep_m);
    const auto far_down = at(-2.0 * kStep_m);
    for (std::size_t k = 0; k < exact.size(); ++k) {
      // Two steps, so that the error of the third derivative falls out.
      const double numerical = (8.0 * (*near_up[k].found - *near_down[k].found) -
                                (*far_up[k].found - *far_down[k].found)) /
                               (12.0 * kStep_m);
      EXPECT_NEAR(*exact[k].uncertainty / kFactor, std::abs(numerical), 1e-8) << "figure " << k;
    }
  }
}

/// Lower triangular root of a covariance, after Cholesky.
base::Matrix root_of(base::Matrix a) {
  for (std::size_t j = 0; j < a.rows; ++j) {
    for (std::size_t k = 0; k < j; ++k) a(j, j) -= a(j, k) * a(j, k);
    a(j, j) = std::sqrt(a(j, j));
    for (std::size_t i = j + 1; i < a.rows; ++i) {
      for (std::size_t k = 0; k < j; ++k) a(i, j) -= a(i, k) * a(j, k);
      a(i, j) /= a(j, j);
    }
  }
  return a;
}

/// Draws of independent normals, one a row, made to have mean nothing and covariance one exactly,
/// so that what the simulation shows is the curvature and not the luck of the draw.
base::Matrix matched_draws(std::size_t count, std::size_t size, unsigned seed) {
  std::mt19937 random(seed);
  std::normal_distribution<double> normal;
  base::Matrix draws(count, size);
  for (std::size_t i = 0; i < count; i += 2)
    for (std::size_t k = 0; k < size; ++k) draws(i + 1, k) = -(draws(i, k) = normal(random));
  base::Matrix covariance(size, size);
  for (std::size_t i = 0; i < count; ++i)
    for (std::size_t k = 0; k < size; ++k)
      for (std::size_t l = 0; l < size; ++l)
        covariance(k, l) += draws(i, k) * draws(i, l) / static_cast<double>(count);
  const base::Matrix root = root_of(covariance);
  for (std::size_t i = 0; i < count; ++i)
    for (std::size_t k = 0; k < size; ++k) {
      for (std::size_t l = 0; l < k; ++l) draws(i, k) -= root(k, l) * draws(i, l);
      draws(i, k) /= root(k, k);
    }
  return draws;
}

/// Standard deviations of all figures when the corners are drawn from the site's covariance.
std::vector<double> simulated(const Site& site, std::size_t count, unsigned seed) {
  const std::size_t size = site.found.covariance.rows;
  const base::Matrix root = root_of(site.found.covariance);
  const base::Matrix draws = matched_draws(count, size, seed);
  const auto exact = figures_of(carry(site));
  std::vector<double> sum(exact.size(), 0.0);
  std::vector<double> squares(exact.size(), 0.0);
  for (std::size_t d = 0; d < count; ++d) {
    std::vector<double> step(size, 0.0);
    for (std::size_t i = 0; i < size; ++i)
      for (std::size_t k = 0; k <= i; ++k) step[i] += root(i, k) * draws(d, k);
    const auto drawn = figures_of(carry(moved(site, step, 1.0)));
    for (std::size_t i = 0; i < exact.size(); ++i) {
      const double off = *drawn[i].found - *exact[i].found;
      sum[i] += off / static_cast<double>(count);
      squares[i] += off * off / static_cast<double>(count);
    }
  }
  for (std::size_t i = 0; i < sum.size(); ++i) squares[i] = std::sqrt(squares[i] - sum[i] * sum[i]);
  return squares;
}

TEST(Spread, ToFirstOrderIsThatOfASimulationWithinOnePercent) {
  constexpr unsigned kSeed = 502;
  for (auto site : random_sites(6, kSeed, 6)) {
    SCOPED_TRACE(site.words);
    site.spec.spacing_m = 1.2;  // a few jacks are enough
    const auto exact = figures_of(carry(site));
    const auto sd = simulated(site, 800, kSeed);
    for (std::size_t i = 0; i < exact.size(); ++i)
      EXPECT_NEAR(kFactor * sd[i], *exact[i].uncertainty, 0.01 * *exact[i].uncertainty + 1e-9) << i;
  }
}

TEST(Uncertainty, GrowsWithTheConfidenceAsTheNormalDoes) {
  Site site = random_sites(1, 503)[0];
  base::Tolerance two_sigma;
  two_sigma.confidence = 0.9544997361036416;  // two standard deviations, statistical tables
  const auto at_95 = figures_of(carry(site));
  const auto at_two =
      figures_of(carry(site.plan, site.plate_offset_m, site.spec, two_sigma, site.found));
  for (std::size_t i = 0; i < at_95.size(); ++i)
    EXPECT_NEAR(*at_two[i].uncertainty * kFactor, 2.0 * *at_95[i].uncertainty, 1e-10);
}

}  // namespace
}  // namespace stakewright::roof

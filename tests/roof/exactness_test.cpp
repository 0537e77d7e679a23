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
    const auto difference = [&](std::size_t k, double step) {
      return (*figures_of(carry(moved(site, direction, step)))[k].found -
              *figures_of(carry(moved(site, direction, -step)))[k].found) /
             (2.0 * step);
    };
    for (std::size_t k = 0; k < exact.size(); k += 1 + exact.size() / 40) {
      // Two steps, so that the error of the third derivative falls out.
      const double numerical = (4.0 * difference(k, kStep_m) - difference(k, 2.0 * kStep_m)) / 3.0;
      EXPECT_NEAR(*exact[k].uncertainty / kFactor, std::abs(numerical), 1e-8) << "figure " << k;
    }
  }
}

/// Draws corners and pin from a covariance by its Cholesky root.
class Draws {
 public:
  Draws(const base::Matrix& covariance, unsigned seed) : root_(covariance), random_(seed) {
    for (std::size_t j = 0; j < root_.rows; ++j) {
      for (std::size_t k = 0; k < j; ++k) root_(j, j) -= root_(j, k) * root_(j, k);
      root_(j, j) = std::sqrt(root_(j, j));
      for (std::size_t i = j + 1; i < root_.rows; ++i) {
        for (std::size_t k = 0; k < j; ++k) root_(i, j) -= root_(i, k) * root_(j, k);
        root_(i, j) /= root_(j, j);
      }
    }
  }

  std::vector<double> next() {
    std::vector<double> normal(root_.rows);
    for (double& value : normal) value = normal_(random_);
    std::vector<double> draw(root_.rows, 0.0);
    for (std::size_t i = 0; i < root_.rows; ++i)
      for (std::size_t k = 0; k <= i; ++k) draw[i] += root_(i, k) * normal[k];
    return draw;
  }

 private:
  base::Matrix root_;
  std::mt19937 random_;
  std::normal_distribution<double> normal_;
};

TEST(Spread, ToFirstOrderIsThatOfASimulationWithinOnePercent) {
  // 40 000 draws know a standard deviation to 0.35 %; three of those are 1 %.
  constexpr int kDraws = 40000;
  constexpr unsigned kSeed = 502;
  Site site = random_sites(3, kSeed, 6)[2];  // even hips: the apex depends on every corner
  SCOPED_TRACE(site.words);
  site.spec.spacing_m = 1.2;  // a few jacks are enough
  const auto exact = figures_of(carry(site));
  std::vector<double> sum(exact.size(), 0.0);
  std::vector<double> squares(exact.size(), 0.0);
  Draws draws(site.found.covariance, kSeed);
  for (int k = 0; k < kDraws; ++k) {
    const auto drawn = figures_of(carry(moved(site, draws.next(), 1.0)));
    for (std::size_t i = 0; i < exact.size(); ++i) {
      const double off = *drawn[i].found - *exact[i].found;
      sum[i] += off;
      squares[i] += off * off;
    }
  }
  for (std::size_t i = 0; i < exact.size(); ++i) {
    const double mean = sum[i] / kDraws;
    const double sd = std::sqrt(squares[i] / kDraws - mean * mean);
    EXPECT_NEAR(kFactor * sd, *exact[i].uncertainty, 0.011 * *exact[i].uncertainty + 1e-12) << i;
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

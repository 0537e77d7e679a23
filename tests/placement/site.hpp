// Sites made up for the tests of the placement: regular polygons, stakes put wrong,
// covariances.  Independent of the code under test.
#pragma once

#include <cmath>
#include <cstddef>
#include <numbers>
#include <random>
#include <string>
#include <vector>

#include "stakewright/placement/placement.hpp"

namespace stakewright::placement {

inline constexpr double kInch_m = 0.0254;

inline base::Point turned_clockwise(base::Point point, double angle_rad) {
  return {point.x_m * std::cos(angle_rad) + point.y_m * std::sin(angle_rad),
          -point.x_m * std::sin(angle_rad) + point.y_m * std::cos(angle_rad)};
}

/// Corners clockwise from above; every corner found where it was planned, known exactly.
inline Survey polygon_site(std::size_t sides, double radius_m, base::Point center = {0.0, 0.0}) {
  Survey survey;
  survey.center = center;
  for (std::size_t i = 0; i < sides; ++i) {
    const double bearing =
        2.0 * std::numbers::pi * static_cast<double>(i) / static_cast<double>(sides) - 0.3;
    survey.planned.push_back(
        {center.x_m + radius_m * std::sin(bearing), center.y_m + radius_m * std::cos(bearing)});
  }
  survey.found = survey.planned;
  survey.covariance = base::Matrix(2 * sides, 2 * sides);
  survey.measured.assign(sides, true);
  return survey;
}

inline void set_every_sd(Survey& survey, double sd_m) {
  survey.covariance = base::Matrix(2 * survey.planned.size(), 2 * survey.planned.size());
  for (std::size_t k = 0; k < survey.covariance.rows; ++k) survey.covariance(k, k) = sd_m * sd_m;
}

/// A covariance of full rank with correlations: A Aᵀ with random A.
inline void set_random_covariance(Survey& survey, double sd_m, std::mt19937& random) {
  const std::size_t size = 2 * survey.planned.size();
  std::normal_distribution<double> normal(0.0, sd_m / std::sqrt(static_cast<double>(size)));
  base::Matrix a(size, size);
  for (double& value : a.values) value = normal(random);
  survey.covariance = base::Matrix(size, size);
  for (std::size_t r = 0; r < size; ++r) {
    for (std::size_t c = 0; c < size; ++c) {
      for (std::size_t k = 0; k < size; ++k) survey.covariance(r, c) += a(r, k) * a(c, k);
    }
  }
}

inline void push(Survey& survey, std::size_t corner, base::Point by) {
  survey.found[corner] = survey.found[corner] + by;
}

inline void scatter(Survey& survey, double sd_m, std::mt19937& random) {
  std::normal_distribution<double> normal(0.0, sd_m);
  for (base::Point& point : survey.found) {
    const double x = normal(random);
    point = {point.x_m + x, point.y_m + normal(random)};
  }
}

/// Moves what was found by one rigid motion of the site.
inline void turn_and_shift(Survey& survey, double angle_rad, base::Point by) {
  for (base::Point& point : survey.found) point = turned_clockwise(point, angle_rad) + by;
  base::Matrix turned = survey.covariance;
  const double c = std::cos(angle_rad);
  const double s = std::sin(angle_rad);
  const std::size_t size = turned.rows;
  for (std::size_t col = 0; col < size; ++col) {
    for (std::size_t row = 0; row < size; row += 2) {
      const double x = turned(row, col);
      const double y = turned(row + 1, col);
      turned(row, col) = c * x + s * y;
      turned(row + 1, col) = -s * x + c * y;
    }
  }
  for (std::size_t row = 0; row < size; ++row) {
    for (std::size_t col = 0; col < size; col += 2) {
      const double x = turned(row, col);
      const double y = turned(row, col + 1);
      turned(row, col) = c * x + s * y;
      turned(row, col + 1) = -s * x + c * y;
    }
  }
  survey.covariance = turned;
}

inline std::vector<std::size_t> corners_with(const Placement& placement, Verdict verdict) {
  std::vector<std::size_t> result;
  for (std::size_t i = 0; i < placement.corners.size(); ++i) {
    if (placement.corners[i].verdict == verdict) result.push_back(i);
  }
  return result;
}

}  // namespace stakewright::placement

#include "deviations.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace stakewright::suspects {
namespace {

using Block = std::array<double, 3>;  // xx, xy, yy
using Cube = std::array<std::array<double, 3>, 3>;

double major_sd(const Block& b) {
  return std::sqrt(std::max(0.0, 0.5 * (b[0] + b[2]) + std::hypot(0.5 * (b[0] - b[2]), b[1])));
}

/// Rows of a rigid motion's design: shift right, shift forward, turn.
std::array<std::array<double, 3>, 2> rigid_rows(base::Point at) {
  return {{{1.0, 0.0, at.y_m}, {0.0, 1.0, -at.x_m}}};
}

base::Point mean_of(const std::vector<base::Point>& points) {
  base::Point mean;
  for (const base::Point& point : points)
    mean = mean + (1.0 / static_cast<double>(points.size())) * point;
  return mean;
}

/// M·b·M' for a symmetric M.
Block sandwiched(const Block& m, const Block& b) {
  const double r00 = m[0] * b[0] + m[1] * b[1];
  const double r01 = m[0] * b[1] + m[1] * b[2];
  const double r10 = m[1] * b[0] + m[2] * b[1];
  const double r11 = m[1] * b[1] + m[2] * b[2];
  return {r00 * m[0] + r01 * m[1], r00 * m[1] + r01 * m[2], r10 * m[1] + r11 * m[2]};
}

Block inverted(const Block& b) {
  const double determinant = b[0] * b[2] - b[1] * b[1];
  return {b[2] / determinant, -b[1] / determinant, b[0] / determinant};
}

/// The rigid motion of all corners, as a linear function of their places: T = (H'H)⁻¹H'.  About the
/// corners' mean H'H is diagonal.
struct RigidFit {
  std::vector<std::array<std::array<double, 3>, 2>> rows;  ///< H, two rows a corner
  std::array<double, 3> norm{};                            ///< H'H
};

RigidFit rigid_fit(const std::vector<base::Point>& corners) {
  const base::Point mean = mean_of(corners);
  const auto n = static_cast<double>(corners.size());
  RigidFit fit{{}, {n, n, 0.0}};
  for (const base::Point& corner : corners) {
    fit.rows.push_back(rigid_rows(corner - mean));
    fit.norm[2] += base::dot(corner - mean, corner - mean);
  }
  return fit;
}

/// T times the covariance.
base::Matrix motion_times(const RigidFit& fit, const base::Matrix& covariance) {
  const std::size_t n = fit.rows.size();
  base::Matrix result(3, 2 * n);
  for (std::size_t p = 0; p < n; ++p)
    for (std::size_t d = 0; d < 2; ++d)
      for (std::size_t t = 0; t < 3; ++t) {
        const double weight = fit.rows[p][d][t] / fit.norm[t];
        if (weight == 0.0) continue;
        for (std::size_t c = 0; c < 2 * n; ++c) result(t, c) += weight * covariance(2 * p + d, c);
      }
  return result;
}

/// Covariance of the motion: T times covariance times T'.
Cube motion_covariance(const RigidFit& fit, const base::Matrix& motion) {
  Cube result{};
  for (std::size_t p = 0; p < fit.rows.size(); ++p)
    for (std::size_t d = 0; d < 2; ++d)
      for (std::size_t t = 0; t < 3; ++t)
        for (std::size_t u = 0; u < 3; ++u)
          result[t][u] += motion(t, 2 * p + d) * fit.rows[p][d][u] / fit.norm[u];
  return result;
}

}  // namespace

/// With e = x - HTx over all corners, the deviation of corner k from the plan laid over the others
/// is (I - h)⁻¹e_k, h the corner's block of the hat matrix HT: the deleted residual.
std::vector<double> worst_sds(const std::vector<base::Point>& corners,
                              const base::Matrix& covariance) {
  const RigidFit fit = rigid_fit(corners);
  const base::Matrix motion = motion_times(fit, covariance);
  const Cube spread = motion_covariance(fit, motion);
  std::vector<double> result;
  for (std::size_t p = 0; p < corners.size(); ++p) {
    const auto& rows = fit.rows[p];
    const auto hat = [&](std::size_t a, std::size_t b) {
      double value = 0.0;
      for (std::size_t t = 0; t < 3; ++t) value += rows[a][t] * rows[b][t] / fit.norm[t];
      return value;
    };
    const auto residual = [&](std::size_t a, std::size_t b) {
      double value = covariance(2 * p + a, 2 * p + b);
      for (std::size_t t = 0; t < 3; ++t) {
        value -= rows[a][t] * motion(t, 2 * p + b) + rows[b][t] * motion(t, 2 * p + a);
        for (std::size_t u = 0; u < 3; ++u) value += rows[a][t] * spread[t][u] * rows[b][u];
      }
      return value;
    };
    const Block left{1.0 - hat(0, 0), -hat(0, 1), 1.0 - hat(1, 1)};
    result.push_back(
        major_sd(sandwiched(inverted(left), {residual(0, 0), residual(0, 1), residual(1, 1)})));
  }
  return result;
}

}  // namespace stakewright::suspects

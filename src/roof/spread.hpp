// The corners' uncertainty carried to lengths and angles, to first order.
#pragma once

#include "exact.hpp"
#include "plate.hpp"
#include "stakewright/base/matrix.hpp"

namespace stakewright::roof {

/// Covariance of the plate's coordinates and the apex, carried from the points given.
/// `covariance` is that of the corners, with or without the pin's two rows.
base::Matrix carried(const Plate& plate, const base::Matrix& covariance);

/// Half-width factor of a normal figure at a confidence: 1.96 at 0.95.
double half_width_factor(double confidence);

/// Variance of a figure whose coordinates are these rows of `covariance`.
double variance(const Linear& figure, const WindowRows& rows, const base::Matrix& covariance);

}  // namespace stakewright::roof

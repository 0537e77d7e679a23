// What explains heights that are not level: single footings, a leaning form, or the usual
// unevenness.
//
// Formulas and choices: docs/methods/levels.md.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "stakewright/base/matrix.hpp"
#include "stakewright/base/point.hpp"
#include "stakewright/base/tolerance.hpp"
#include "stakewright/levels/levels.hpp"

namespace stakewright::levels {

/// Footings of known height.
struct Tops {
  std::vector<base::Point> at;  ///< planned places
  std::vector<double> height_m;
  base::Matrix covariance;
};

struct Explained {
  Shape shape = Shape::not_known;
  double tilt_chance = 0.0;
  std::vector<std::size_t> wrong;  ///< indices of the tops
  std::vector<std::size_t> may_be_wrong;
};

/// Weighs: nothing wrong, up to three footings set wrong, each of these with or without a leaning
/// form, by their marginal likelihoods.
Explained explain(const Tops& tops, const base::Tolerance& tolerance, const base::Staking& staking);

/// The plane through the tops that are not in `left_out`, by least squares.  Nothing when they
/// stand in one row or are fewer than three.
std::optional<Plane> plane(const Tops& tops, const base::Tolerance& tolerance,
                           const std::vector<std::size_t>& left_out);

}  // namespace stakewright::levels

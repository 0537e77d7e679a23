// Least squares over readings that are linear in their unknowns, such as rod
// readings in heights; and which of them are misread.
//
// Units: meters.  Formulas and sources: docs/methods/adjustment.md,
// docs/methods/misread-readings.md.
#pragma once

#include <optional>
#include <vector>

#include "stakewright/adjustment/adjust.hpp"
#include "stakewright/adjustment/slips.hpp"
#include "stakewright/base/matrix.hpp"

namespace stakewright::adjustment {

/// Model: value = design · unknowns + e, e ~ N(0, sd²), each row by itself.
/// The rows determine every unknown: what they leave free has been taken out by the caller.
struct LinearReadings {
  base::Matrix design;           ///< readings x unknowns
  std::vector<double> values_m;  ///< corrected
  std::vector<double> sd_m;      ///< above 0
};

/// Figures as in `Adjustment`.
struct LinearAdjustment {
  std::vector<double> unknowns;
  base::Matrix covariance;  ///< of the unknowns, a priori (variance factor 1)
  int readings = 0;         ///< used
  int redundancy = 0;
  double variance_factor = 1.0;
  double chi_square = 0.0;
  double chi_square_limit = 0.0;  ///< at alpha 0.05, one-sided; 0 without redundancy
  bool passed = true;
  std::vector<AdjustedReading> readings_out;  ///< per row; an excluded one is predicted
};

/// Adjusts, leaving out the rows marked in `excluded` (empty: none).
/// Empty when the rows that are left do not determine every unknown.
std::optional<LinearAdjustment> adjust(const LinearReadings& readings,
                                       const std::vector<bool>& excluded = {});

/// Weighs the rows as `weigh_slips` does those of a network; indices are those of the rows.
SlipTest weigh_slips(const LinearReadings& readings, double misread);

}  // namespace stakewright::adjustment

// Least squares over readings that are linear in their unknowns, such as rod
// readings in heights; and which of them are misread.
//
// Units: meters.  Unknowns are right to 1e-10 m and variances to a millionth of themselves
// (`LinearReadings.AgreeWithGslInUnknownsAndCovariance`).  Formulas and sources:
// docs/methods/adjustment.md, docs/methods/misread-readings.md.
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

struct LinearAdjustment : Sums {
  std::vector<double> unknowns;
  base::Matrix covariance;  ///< of the unknowns, a priori (variance factor 1)
};

/// Adjusts, leaving out the rows in `excluded`, which are predicted.
/// Empty when the rows that are left do not determine every unknown.
std::optional<LinearAdjustment> adjust(const LinearReadings& readings,
                                       const std::vector<std::size_t>& excluded = {});

/// Weighs the rows as `weigh_slips` does those of a network; indices are those of the rows.
SlipTest weigh_slips(const LinearReadings& readings, double misread);

}  // namespace stakewright::adjustment

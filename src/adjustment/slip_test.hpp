// From an adjusted linear model to what is said of slips in its readings.
#pragma once

#include <cstddef>
#include <vector>

#include "algebra.hpp"
#include "evidence.hpp"
#include "stakewright/adjustment/slips.hpp"

namespace stakewright::adjustment {

/// The readings are the first rows of a model; other rows (priors) count but cannot be misread.
struct WeighedReadings {
  ResidualEvidence evidence;
  std::vector<std::size_t> weighable;  ///< per reading of the evidence: its row
};

/// The rows that show in their own residuals.  `sd`: of each reading, in the order of their rows.
WeighedReadings weighed_readings(const LinearModel& model, const Estimate& estimate,
                                 const std::vector<double>& sd, int redundancy);

/// All small sets weighed, and the conclusion.  Indices are those of rows.
SlipTest slip_test(const WeighedReadings& weighed, double misread);

}  // namespace stakewright::adjustment

// All small sets of slips weighed against one another, and what may be concluded.
//
// Formulas and sources: docs/methods/misread-readings.md.
#pragma once

#include <cstddef>
#include <vector>

#include "evidence.hpp"

namespace stakewright::adjustment {

struct WeighedSets {
  std::vector<WeighedSet>
      sets;  ///< the leading ones in front, likeliest first; the rest in no order
  std::vector<double> chances;  ///< of the same sets; they add to one
};

/// Every set of none, one and two slips, and sets of three grown from the leading pairs.
/// `lead`: how many are put in order.  `misread`: chance that any one reading is a slip.
WeighedSets weigh_all(const ResidualEvidence& evidence, double misread, std::size_t lead);

/// Readings whose residuals are fully correlated, each group of two or more.
std::vector<std::vector<std::size_t>> correlated_groups(const ResidualEvidence& evidence);

enum class Conclusion { nothing_wrong, named, not_separable };

/// The conclusion, and for `named` the readings, by their index in the evidence.
struct Concluded {
  Conclusion conclusion = Conclusion::nothing_wrong;
  std::vector<std::size_t> named;
};

Concluded conclude(const ResidualEvidence& evidence, const WeighedSets& weighed,
                   const std::vector<std::vector<std::size_t>>& groups);

}  // namespace stakewright::adjustment

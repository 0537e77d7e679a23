// Everything that is weighed as a cause: what it adds to the readings, in which
// sizes, and at what odds beforehand.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "model.hpp"
#include "slips.hpp"
#include "stakewright/suspects/suspects.hpp"

namespace stakewright::suspects {

/// A cause adds to y along `dimensions` columns of the model, by a size from the mixture `parts`.
struct Candidate {
  Cause::What what = Cause::What::reading;
  std::size_t index = 0;
  std::size_t other = 0;  ///< rows: the other row
  std::array<std::size_t, 2> column{};
  std::size_t dimensions = 1;
  double log_odds = 0.0;  ///< beforehand: log of chance over chance of its absence
  std::vector<Component> parts;
};

/// Readings with a slip, stakes set wrong, instruments off, pairs of rows changed over.
/// Rows are a few, those that the numbers come near to; stakes are those that a reading reaches.
std::vector<Candidate> catalogue(const adjustment::Network& network, const Model& model,
                                 const Setting& setting);

/// Two stakes with their labels changed over, at what odds, and how much better the numbers then
/// fit (log-likelihood ratio against nothing wrong, to first order).
struct ChangedLabels {
  std::size_t first = 0;
  std::size_t second = 0;
  double log_odds = 0.0;
  double log_ratio = 0.0;
};

/// The likeliest few pairs, best first.
std::vector<ChangedLabels> changed_labels(const adjustment::Network& network, const Model& model,
                                          const Setting& setting, std::size_t most);

/// The network with the two labels given back to their owners.
adjustment::Network relabeled(const adjustment::Network& network, std::size_t first,
                              std::size_t second);

}  // namespace stakewright::suspects

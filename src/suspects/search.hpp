// The sets of causes that are worth a look: all single causes, then pairs,
// triples and more grown from the leading ones.
#pragma once

#include <optional>
#include <vector>

#include "causes.hpp"
#include "evidence.hpp"
#include "model.hpp"
#include "stakewright/adjustment/network.hpp"
#include "stakewright/suspects/suspects.hpp"

namespace stakewright::suspects {

/// The network as written, or with two labels given back to their owners, and all that is weighed
/// on it.
struct Arrangement {
  adjustment::Network network;
  std::optional<ChangedLabels> labels;
  Model model;
  std::vector<Candidate> catalogue;

  [[nodiscard]] Ground ground() const { return {&network, &model, &catalogue}; }
};

Arrangement as_written(const adjustment::Network& network, const Setting& setting);
Arrangement with_labels_back(const adjustment::Network& network, const ChangedLabels& labels,
                             const Setting& setting);

/// What a search found.  Weights are logs, against nothing wrong in the same arrangement.
struct Found {
  std::vector<Hypothesis> hypotheses;  ///< refined ones, nothing wrong first, then in no order
  double log_others = 0.0;             ///< weight of all that was looked at and not refined, and an
                                       ///< estimate of what was not looked at
};

/// Sets of up to `most_causes` causes.
Found search(const Ground& ground, std::size_t most_causes);

}  // namespace stakewright::suspects

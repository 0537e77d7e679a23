// All arrangements and sets of causes of one round on one scale: all single causes, then pairs,
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

/// One set of causes of one arrangement; changed labels count as a cause.
struct Entry {
  std::size_t arrangement = 0;
  Hypothesis hypothesis;
  double log_chance = 0.0;
};

struct Weighing {
  std::vector<Arrangement> arrangements;  ///< as written first
  std::vector<Entry> entries;             ///< likeliest first
};

std::size_t causes_of(const Weighing& weighing, const Entry& entry);

Weighing weigh_all(const adjustment::Network& network, const Setting& setting);

/// The listed explanations again, in their order, for what is asked after the weighing.
Weighing recall(const adjustment::Network& network, const Setting& setting,
                const Suspects& suspects);

}  // namespace stakewright::suspects

// All arrangements and sets of causes of one round on one scale.
#pragma once

#include <vector>

#include "search.hpp"

namespace stakewright::suspects {

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

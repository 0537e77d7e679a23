// Rounds of readings: before the dig, before the pour, after it.  The stakes may have moved
// between two of them, so each is adjusted by itself.
#pragma once

#include <string>
#include <vector>

#include "stakewright/readings/reading.hpp"

namespace stakewright::readings {

/// Names of the rounds, each once, in the order in which they first come.
std::vector<std::string> rounds_of(const std::vector<Reading>& readings);

/// The readings of one round, in their order.
std::vector<Reading> of_round(const std::vector<Reading>& readings, const std::string& round);

/// The round of that name, or the latest when `asked` is empty; empty without readings.
/// Throws InputError, naming those there are, for a round that is not there.
std::string chosen_round(const std::vector<std::string>& rounds, const std::string& asked);

/// A round that comes before `later`.
/// Throws InputError, naming those that do, for one that is not there or does not.
std::string earlier_round(const std::vector<std::string>& rounds, const std::string& asked,
                          const std::string& later);

}  // namespace stakewright::readings

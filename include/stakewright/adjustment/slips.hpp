// Which readings are misread: single readings and sets of readings weighed
// jointly, never one worst reading after another (data snooping, for sets).
//
// Log weights are right to 1e-6 (`SlipEvidence.*`); how often the right set leads and good readings
// are blamed: `Slips.*`.
//
// Formulas and sources: docs/methods/misread-readings.md.
#pragma once

#include <cstddef>
#include <vector>

#include "stakewright/adjustment/adjust.hpp"

namespace stakewright::adjustment {

/// Some readings taken to be misread together.
struct SlipSet {
  std::vector<std::size_t> readings;  ///< empty: none is misread
  std::vector<double> slips;  ///< by how much each reads too long, or too wide: meters, radians
  double chance = 0.0;        ///< among the sets weighed
};

enum class SlipVerdict {
  none,          ///< no reading is misread, as far as this set can show
  named,         ///< one set stands out: `excluded`
  not_separable  ///< something is misread, but several sets explain it alike
};

struct SlipTest {
  SlipVerdict verdict = SlipVerdict::none;
  std::vector<SlipSet> ranked;                   ///< likeliest first, the leading ones
  std::vector<std::size_t> excluded;             ///< readings to leave out; only when named
  std::vector<std::vector<std::size_t>> groups;  ///< readings whose residuals are fully correlated:
                                                 ///< a slip in any of them looks the same
};

/// The leading sets until 99 % of the chance is told: what is then said of any of them holds.
std::vector<SlipSet> rivals(const SlipTest& test);

/// Weighs the readings of an adjusted network; `misread` is the chance that any one is a slip.
SlipTest weigh_slips(const Network& network, const Adjustment& adjustment, double misread);

}  // namespace stakewright::adjustment

// Corrections that are asked for and cannot be made.
#pragma once

#include <vector>

#include "stakewright/base/fact.hpp"
#include "stakewright/readings/reading.hpp"

namespace stakewright::readings {

/// One remark per instrument and figure: a temperature or a pull stands beside its readings, and
/// the instrument has no figures to correct by.  Readings of unknown instruments say nothing.
std::vector<base::Fact> missing_figures(const std::vector<Reading>& readings,
                                        const std::vector<Instrument>& instruments);

}  // namespace stakewright::readings

// What the straight-line model misses when a stake stands far off: lengths bend.
#pragma once

#include <vector>

#include "evidence.hpp"
#include "stakewright/base/point.hpp"

namespace stakewright::suspects {

/// Displacement of every point under the hypothesis; zero for those it says nothing of.
std::vector<base::Point> displacements(const Ground& ground, const Hypothesis& hypothesis);

/// Takes the bend c of the lengths under these displacements out of the readings: projection
/// K'W(y - c), and the log-likelihood ratio that c brings by itself, c'Wy - c'Wc/2.
void take_bend_out(const Ground& ground, Hypothesis& hypothesis,
                   const std::vector<base::Point>& moved);

}  // namespace stakewright::suspects

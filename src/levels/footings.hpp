// The level that footings are judged against, and each one's verdict.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "stakewright/base/tolerance.hpp"
#include "stakewright/levels/levels.hpp"

namespace stakewright::levels {

/// As many of the known corners as possible within the tolerance of one level; of several such
/// sets the one that lies closest together.
std::vector<std::size_t> on_one_level(const Heights& heights, std::size_t corners,
                                      double tolerance_m);

/// The level itself: weights of the heights that make it, one a corner, or a height wanted.
struct Level {
  double height_m = 0.0;
  std::vector<double> weight;  ///< all 0 for a height that is wanted
};

Level wanted_level(double height_m, std::size_t corners);

/// The mean of the corners in `kept`; where that pushes one of them past the tolerance though one
/// level holds them all, the middle between the highest and the lowest.
Level mean_level(const Heights& heights, const std::vector<std::size_t>& kept, std::size_t corners,
                 double tolerance_m);

/// Footings judged, and the packing worked out: to the highest, or to the height wanted.
std::vector<Footing> judged(const Heights& heights, const Rods& rods, const Level& level,
                            bool against_bench_mark, const base::Tolerance& tolerance);

}  // namespace stakewright::levels

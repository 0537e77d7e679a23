#include "footings.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "stakewright/algebra/algebra.hpp"
#include "stakewright/placement/chance.hpp"

namespace stakewright::levels {
namespace {

/// A top this much past the tolerance is on it: far above rounding, far below any rod.
constexpr double kOnLimit_m = 1e-9;

std::vector<std::size_t> known_by_height(const Heights& heights, std::size_t corners) {
  std::vector<std::size_t> known;
  for (std::size_t i = 0; i < corners; ++i)
    if (heights.known[i]) known.push_back(i);
  std::stable_sort(known.begin(), known.end(), [&](std::size_t a, std::size_t b) {
    return heights.height_m[a] < heights.height_m[b];
  });
  return known;
}

/// Variance of a height less the level.
double variance_off(const Heights& heights, const Level& level, std::size_t corner) {
  std::vector<double> part = level.weight;
  for (double& share : part) share = -share;
  part[corner] += 1.0;
  return std::max(algebra::variance(part, heights.covariance), 0.0);
}

/// Packing as the height of one footing, or of none (a level wanted), less each one's own.
void add_packing(const Heights& heights, std::optional<std::size_t> up_to, double level_m,
                 std::vector<Footing>& footings) {
  for (std::size_t i = 0; i < footings.size(); ++i) {
    Footing& footing = footings[i];
    if (!footing.known) continue;
    const base::Matrix& c = heights.covariance;
    footing.packing_m = (up_to ? heights.height_m[*up_to] : level_m) - footing.height_m;
    const double variance = up_to ? c(i, i) + c(*up_to, *up_to) - 2.0 * c(i, *up_to) : c(i, i);
    footing.packing_sd_m = std::sqrt(std::max(variance, 0.0));
  }
}

}  // namespace

std::vector<std::size_t> on_one_level(const Heights& heights, std::size_t corners,
                                      double tolerance_m) {
  const std::vector<std::size_t> sorted = known_by_height(heights, corners);
  std::size_t best_first = 0;
  std::size_t best_count = 0;
  double best_range_m = 0.0;
  for (std::size_t first = 0, last = 0; first < sorted.size(); ++first) {
    const double lowest_m = heights.height_m[sorted[first]];
    while (last < sorted.size() &&
           heights.height_m[sorted[last]] - lowest_m <= 2.0 * tolerance_m + kOnLimit_m)
      ++last;
    const std::size_t count = last - first;
    const double range_m = heights.height_m[sorted[last - 1]] - lowest_m;
    if (count < best_count || (count == best_count && range_m >= best_range_m)) continue;
    std::tie(best_first, best_count, best_range_m) = std::tuple(first, count, range_m);
  }
  const auto begin = sorted.begin() + static_cast<std::ptrdiff_t>(best_first);
  std::vector<std::size_t> kept(begin, begin + static_cast<std::ptrdiff_t>(best_count));
  std::sort(kept.begin(), kept.end());
  return kept;
}

Level wanted_level(double height_m, std::size_t corners) {
  return {height_m, std::vector<double>(corners, 0.0)};
}

Level mean_level(const Heights& heights, const std::vector<std::size_t>& kept, std::size_t corners,
                 double tolerance_m) {
  Level result{0.0, std::vector<double>(corners, 0.0)};
  for (const std::size_t i : kept) {
    result.weight[i] = 1.0 / static_cast<double>(kept.size());
    result.height_m += result.weight[i] * heights.height_m[i];
  }
  const auto [lowest, highest] = std::minmax_element(
      kept.begin(), kept.end(),
      [&](std::size_t a, std::size_t b) { return heights.height_m[a] < heights.height_m[b]; });
  if (lowest == kept.end()) return result;
  const double low_m = heights.height_m[*lowest];
  const double high_m = heights.height_m[*highest];
  const bool holds_all = high_m - low_m <= 2.0 * tolerance_m + kOnLimit_m;
  const bool past =
      std::max(high_m - result.height_m, result.height_m - low_m) > tolerance_m + kOnLimit_m;
  if (!holds_all || !past) return result;
  result.weight.assign(corners, 0.0);
  result.weight[*lowest] = result.weight[*highest] = 0.5;
  result.height_m = 0.5 * (low_m + high_m);
  return result;
}

std::vector<Footing> judged(const Heights& heights, const Rods& rods, const Level& level,
                            bool against_bench_mark, const base::Tolerance& tolerance) {
  std::vector<Footing> footings(rods.corner_count);
  std::optional<std::size_t> highest;
  for (std::size_t i = 0; i < footings.size(); ++i) {
    Footing& footing = footings[i];
    footing.known = heights.known[i];
    if (!footing.known) continue;
    footing.height_m = heights.height_m[i];
    footing.off_m = footing.height_m - level.height_m;
    footing.sd_m = std::sqrt(variance_off(heights, level, i));
    footing.chance_in = placement::chance_between(footing.off_m, footing.sd_m, tolerance.level_m);
    footing.verdict = placement::verdict_of(footing.chance_in, tolerance.confidence);
    if (!highest || footing.height_m > heights.height_m[*highest]) highest = i;
  }
  for (std::size_t r = 0; r < rods.readings.size(); ++r)
    if (rods.readings[r].point < footings.size() && heights.sums.readings_out[r].used)
      ++footings[rods.readings[r].point].rod_count;
  add_packing(heights, against_bench_mark ? std::nullopt : highest, level.height_m, footings);
  return footings;
}

}  // namespace stakewright::levels

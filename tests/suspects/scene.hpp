// Rounds of readings made up for tests: a regular polygon staked and taped with
// known errors, and what was done wrong on purpose.
#pragma once

#include <cmath>
#include <cstddef>
#include <numbers>
#include <random>
#include <utility>
#include <vector>

#include "stakewright/adjustment/network.hpp"
#include "stakewright/layout/polygon.hpp"
#include "stakewright/suspects/suspects.hpp"

namespace stakewright::scene {

using Pair = std::pair<std::size_t, std::size_t>;

/// The figures under the design's table.
inline constexpr double kSigma_m = 0.002;
inline constexpr double kSpread_m = 0.003;
inline constexpr double kRadius_m = 3.5;
inline constexpr double kInch_m = 0.0254;

inline std::vector<Pair> sides(std::size_t n) {
  std::vector<Pair> pairs;
  for (std::size_t i = 0; i < n; ++i) pairs.emplace_back(i, (i + 1) % n);
  return pairs;
}

inline std::vector<Pair> diagonals(std::size_t n) {
  std::vector<Pair> pairs;
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = i + 2; j < n; ++j)
      if (i != 0 || j != n - 1) pairs.emplace_back(i, j);
  return pairs;
}

inline std::vector<Pair> radii(std::size_t n) {
  std::vector<Pair> pairs;
  for (std::size_t i = 0; i < n; ++i) pairs.emplace_back(n, i);
  return pairs;
}

inline std::vector<Pair> both(std::vector<Pair> a, const std::vector<Pair>& b) {
  a.insert(a.end(), b.begin(), b.end());
  return a;
}

/// Corners clockwise from the corner right of forward, the center pin, one perfect tape of sd
/// `sigma_m`, no readings yet.
inline adjustment::Network polygon(std::size_t n, double radius_m = kRadius_m) {
  adjustment::Network network;
  const std::vector<std::string> labels = layout::corner_labels(static_cast<int>(n));
  for (std::size_t i = 0; i < n; ++i) {
    const double bearing =
        2.0 * std::numbers::pi * (static_cast<double>(i) - 0.5) / static_cast<double>(n);
    network.points.push_back(
        {labels[i], adjustment::Role::corner, radius_m * base::along(bearing), false});
    network.datum.push_back(i);
  }
  network.points.push_back({layout::kCenterLabel, adjustment::Role::center, {0.0, 0.0}, false});
  network.corner_count = n;
  readings::Instrument tape;
  tape.name = "steel";
  tape.constant_m = kSigma_m;
  network.instruments.push_back(tape);
  return network;
}

inline void read(adjustment::Network& network, Pair pair, double length_m) {
  network.observations.push_back(
      {pair.first, pair.second, 0, length_m, length_m, network.instruments[0].constant_m});
}

inline double planned_m(const adjustment::Network& network, Pair pair) {
  return base::distance_m(network.points[pair.first].planned, network.points[pair.second].planned);
}

/// Places of the stakes: the plan and a normal spread.
inline std::vector<base::Point> staked(const adjustment::Network& network, double spread_m,
                                       std::mt19937_64& random) {
  std::normal_distribution<double> normal;
  std::vector<base::Point> places;
  for (const adjustment::NetworkPoint& point : network.points)
    places.push_back(point.planned + spread_m * base::Point{normal(random), normal(random)});
  return places;
}

/// Reads every pair once, with normal errors.
inline void read_all(adjustment::Network& network, const std::vector<base::Point>& places,
                     const std::vector<Pair>& pairs, std::mt19937_64& random) {
  std::normal_distribution<double> normal;
  for (const Pair& pair : pairs)
    read(network, pair,
         base::distance_m(places[pair.first], places[pair.second]) +
             network.instruments[0].constant_m * normal(random));
}

inline void add_slip(adjustment::Network& network, std::size_t reading, double slip_m) {
  network.observations[reading].read += slip_m;
  network.observations[reading].corrected += slip_m;
}

/// Lengths as a crew with a tape in feet and inches writes them.
inline void write_in_feet_inches(adjustment::Network& network) {
  for (readings::Observation& reading : network.observations)
    reading.written = base::Units::feet_inches;
}

inline suspects::Setting setting() {
  suspects::Setting result;
  result.staking.spread_m = kSpread_m;
  return result;
}

}  // namespace stakewright::scene

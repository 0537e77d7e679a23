// Figures for the tests: polygons, stakes off their places, lengths between them.
#pragma once

#include <array>
#include <cstddef>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "stakewright/adjustment/network.hpp"

namespace stakewright::adjustment::figures {

using Pair = std::pair<std::size_t, std::size_t>;

/// A plan of `sides` corners and its center pin, with one tape of no scale or zero error.
Network polygon(int sides, double corner_radius_m, base::Point center = {},
                double facing_rad = 0.0);

/// Corner pairs that span `skip` sides.
std::vector<Pair> skips(std::size_t sides, std::size_t skip);
std::vector<Pair> all_pairs(std::size_t sides);
/// Corner and center pin.
std::vector<Pair> radii(std::size_t sides);
std::vector<Pair> joined(std::vector<Pair> a, const std::vector<Pair>& b);

/// Where the stakes really stand: planned places plus a normal deviation each way.
std::vector<base::Point> staked(const Network& network, double spread_m, std::mt19937& random);
std::vector<base::Point> planned_places(const Network& network);

/// Adds one reading for each pair: the distance between the true places plus a normal error.
void pull(Network& network, const std::vector<Pair>& pairs, const std::vector<base::Point>& truth,
          double sd_m, std::mt19937& random);
/// Adds readings free of error, with this standard deviation all the same.
void pull_exactly(Network& network, const std::vector<Pair>& pairs,
                  const std::vector<base::Point>& truth, double sd_m);

/// An angle: where it is turned, from, to.
using Turn = std::array<std::size_t, 3>;

/// At every corner, from the one behind round the inside to the one ahead.
std::vector<Turn> interior_angles(std::size_t sides);
/// At the center pin, from each corner to the next.
std::vector<Turn> angles_at_the_pin(std::size_t sides);

/// Adds one angle for each turn: that between the true places plus a normal error.
void turn(Network& network, const std::vector<Turn>& turns, const std::vector<base::Point>& truth,
          double sd_rad, std::mt19937& random);
/// Adds angles free of error, with this standard deviation all the same.
void turn_exactly(Network& network, const std::vector<Turn>& turns,
                  const std::vector<base::Point>& truth, double sd_rad);

/// The observation between two labels; fails the test when there is none.
std::size_t reading(const Network& network, const std::string& from, const std::string& to);
std::size_t point(const Network& network, const std::string& label);

/// A corner count from 3 to `most`, a radius from 1.5 to 6 m, a place and a facing: at random.
Network random_polygon(std::mt19937& random, int most = 12);

}  // namespace stakewright::adjustment::figures

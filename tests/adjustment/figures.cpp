#include "figures.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace stakewright::adjustment::figures {

Network polygon(int sides, double corner_radius_m, base::Point center, double facing_rad) {
  layout::Plan plan;
  plan.polygon = {sides, corner_radius_m};
  plan.center = center;
  plan.facing_rad = facing_rad;
  readings::Instrument tape;
  tape.name = "tape";
  tape.constant_m = 0.002;
  return network(plan, {}, {tape});
}

std::vector<Pair> skips(std::size_t sides, std::size_t skip) {
  std::vector<Pair> pairs;
  const std::size_t count = 2 * skip == sides ? skip : sides;
  for (std::size_t first = 0; first < count; ++first)
    pairs.emplace_back(first, (first + skip) % sides);
  return pairs;
}

std::vector<Pair> all_pairs(std::size_t sides) {
  std::vector<Pair> pairs;
  for (std::size_t first = 0; first < sides; ++first)
    for (std::size_t second = first + 1; second < sides; ++second)
      pairs.emplace_back(first, second);
  return pairs;
}

std::vector<Pair> radii(std::size_t sides) {
  std::vector<Pair> pairs;
  for (std::size_t corner = 0; corner < sides; ++corner) pairs.emplace_back(corner, sides);
  return pairs;
}

std::vector<Pair> joined(std::vector<Pair> a, const std::vector<Pair>& b) {
  a.insert(a.end(), b.begin(), b.end());
  return a;
}

std::vector<base::Point> planned_places(const Network& network) {
  std::vector<base::Point> places;
  for (const NetworkPoint& point : network.points) places.push_back(point.planned);
  return places;
}

std::vector<base::Point> staked(const Network& network, double spread_m, std::mt19937& random) {
  std::normal_distribution<double> off(0.0, spread_m);
  std::vector<base::Point> places = planned_places(network);
  for (std::size_t i = 0; i < places.size(); ++i)
    if (!network.points[i].known) places[i] = places[i] + base::Point{off(random), off(random)};
  return places;
}

void pull(Network& network, const std::vector<Pair>& pairs, const std::vector<base::Point>& truth,
          double sd_m, std::mt19937& random) {
  std::normal_distribution<double> error(0.0, sd_m);
  const std::size_t first = network.observations.size();
  pull_exactly(network, pairs, truth, sd_m);
  for (std::size_t r = first; r < network.observations.size(); ++r) {
    network.observations[r].corrected += error(random);
    network.observations[r].read = network.observations[r].corrected;
  }
}

void pull_exactly(Network& network, const std::vector<Pair>& pairs,
                  const std::vector<base::Point>& truth, double sd_m) {
  for (const auto& [from, to] : pairs) {
    const double length_m = base::distance_m(truth[from], truth[to]);
    network.observations.push_back({from, to, 0, length_m, length_m, sd_m, {}});
  }
}

std::vector<Turn> interior_angles(std::size_t sides) {
  std::vector<Turn> turns;
  for (std::size_t corner = 0; corner < sides; ++corner)
    turns.push_back({corner, (corner + 1) % sides, (corner + sides - 1) % sides});
  return turns;
}

std::vector<Turn> angles_at_the_pin(std::size_t sides) {
  std::vector<Turn> turns;
  for (std::size_t corner = 0; corner < sides; ++corner)
    turns.push_back({sides, corner, (corner + 1) % sides});
  return turns;
}

void turn_exactly(Network& network, const std::vector<Turn>& turns,
                  const std::vector<base::Point>& truth, double sd_rad) {
  for (const auto& [at, from, to] : turns) {
    const base::Point back = truth[from] - truth[at];
    const base::Point ahead = truth[to] - truth[at];
    double angle_rad = std::atan2(ahead.x_m * back.y_m - ahead.y_m * back.x_m,
                                  ahead.x_m * back.x_m + ahead.y_m * back.y_m);
    if (angle_rad < 0.0) angle_rad += 2.0 * std::numbers::pi;
    network.observations.push_back({from, to, 0, angle_rad, angle_rad, sd_rad, at});
  }
}

void turn(Network& network, const std::vector<Turn>& turns, const std::vector<base::Point>& truth,
          double sd_rad, std::mt19937& random) {
  std::normal_distribution<double> error(0.0, sd_rad);
  const std::size_t first = network.observations.size();
  turn_exactly(network, turns, truth, sd_rad);
  for (std::size_t r = first; r < network.observations.size(); ++r) {
    network.observations[r].corrected += error(random);
    network.observations[r].read = network.observations[r].corrected;
  }
}

std::size_t point(const Network& network, const std::string& label) {
  for (std::size_t i = 0; i < network.points.size(); ++i)
    if (network.points[i].label == label) return i;
  ADD_FAILURE() << "no point " << label;
  return 0;
}

std::size_t reading(const Network& network, const std::string& from, const std::string& to) {
  const std::size_t a = point(network, from);
  const std::size_t b = point(network, to);
  for (std::size_t r = 0; r < network.observations.size(); ++r) {
    const readings::Observation& observation = network.observations[r];
    if (std::minmax(observation.from, observation.to) == std::minmax(a, b)) return r;
  }
  ADD_FAILURE() << "no reading " << from << "-" << to;
  return 0;
}

Network random_polygon(std::mt19937& random, int most) {
  std::uniform_int_distribution<int> sides(3, most);
  std::uniform_real_distribution<double> radius(1.5, 6.0);
  std::uniform_real_distribution<double> place(-20.0, 20.0);
  std::uniform_real_distribution<double> facing(-std::numbers::pi, std::numbers::pi);
  const int n = sides(random);
  const double r = radius(random);
  const base::Point center{place(random), place(random)};
  return polygon(n, r, center, facing(random));
}

}  // namespace stakewright::adjustment::figures

// Random plans for properties that must hold for any of them.  Seeds are fixed.
#pragma once

#include <fmt/format.h>

#include <numbers>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "stakewright/layout/plan.hpp"

namespace stakewright::layout {

struct RandomPlan {
  std::string words;  ///< for failure messages
  Plan plan;
};

/// Plans of 3 to 48 sides and 0.5 to 30 m corner radius, anywhere, turned anyhow.
inline std::vector<RandomPlan> random_plans(int how_many, unsigned seed) {
  std::mt19937 random(seed);
  std::uniform_int_distribution<int> sides(kFewestSides, kMostSides);
  std::uniform_real_distribution<double> radius(0.5, 30.0);
  std::uniform_real_distribution<double> place(-100.0, 100.0);
  std::uniform_real_distribution<double> bearing(-std::numbers::pi, 2.0 * std::numbers::pi);
  std::vector<RandomPlan> result;
  for (int i = 0; i < how_many; ++i) {
    RandomPlan one;
    one.plan.polygon = {sides(random), radius(random)};
    one.plan.center = {place(random), place(random)};
    one.plan.facing_rad = bearing(random);
    one.words =
        fmt::format("seed {}, plan {}: {} sides, corner radius {} m, facing {} rad", seed, i,
                    one.plan.polygon.sides, one.plan.polygon.corner_radius_m, one.plan.facing_rad);
    result.push_back(std::move(one));
  }
  return result;
}

/// Rounding of sums over sites of this size.
inline constexpr double kRounding_m = 1e-11;

}  // namespace stakewright::layout

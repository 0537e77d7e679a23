// Roofs for tests: plans, found corners with errors from a fixed seed, and ways to
// pick one part or cut out of a carry.
#pragma once

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <optional>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "stakewright/layout/plan.hpp"
#include "stakewright/roof/roof.hpp"

namespace stakewright::roof {

inline constexpr double kInch_m = 0.0254;
inline constexpr double kFoot_m = 0.3048;
inline constexpr double kDegree_rad = std::numbers::pi / 180.0;

/// A plan whose plan line is the plate line.
inline layout::Plan plan_of(int sides, double flat_radius_m) {
  layout::Plan plan;
  plan.polygon = {sides, flat_radius_m / std::cos(std::numbers::pi / sides)};
  return plan;
}

inline Carry planned(int sides, double flat_radius_m, const Spec& spec) {
  return carry(plan_of(sides, flat_radius_m), 0.0, spec, {}, std::nullopt);
}

inline const Part& part(const Carry& carry, PartKind kind, const std::string& at) {
  for (const auto& one : carry.parts)
    if (one.kind == kind && text_from_place(one.at) == at) return one;
  throw std::logic_error("no " + std::string(name_of(kind)) + " at " + at);
}

inline const Cut& cut(const Carry& carry, PartKind kind, const std::string& at,
                      const std::string& name) {
  for (const auto& one : carry.cuts)
    if (one.part == kind && text_from_place(one.at) == at && name_of(one.name) == name) return one;
  throw std::logic_error("no " + name + " cut of a " + std::string(name_of(kind)) + " at " + at);
}

/// A polygon with errors: what the crew may have staked.
struct Site {
  layout::Plan plan;
  double plate_offset_m = 0.0;
  Spec spec;
  FoundCorners found;
  std::string words;  ///< seed and sizes, for a failing test
};

inline base::Matrix random_covariance(std::size_t size, double sd_m, std::mt19937& random) {
  std::normal_distribution<double> normal(0.0, sd_m / std::sqrt(static_cast<double>(size)));
  base::Matrix root(size, size);
  for (double& value : root.values) value = normal(random);
  base::Matrix result(size, size);
  for (std::size_t i = 0; i < size; ++i)
    for (std::size_t j = 0; j < size; ++j)
      for (std::size_t k = 0; k < size; ++k) result(i, j) += root(i, k) * root(j, k);
  return result;
}

/// Sites of every kind of eave, tail and apex, with corners up to centimeters out.
inline std::vector<Site> random_sites(int count, unsigned seed, int most_sides = 12) {
  std::mt19937 random(seed);
  std::vector<Site> sites;
  for (int k = 0; k < count; ++k) {
    const auto between = [&random](double low, double high) {
      return std::uniform_real_distribution<double>(low, high)(random);
    };
    Site site;
    const int sides = std::uniform_int_distribution<int>(3, most_sides)(random);
    site.plan = plan_of(sides, between(1.5, 6.0));
    site.plan.center = {between(-20.0, 20.0), between(-20.0, 20.0)};
    site.plan.facing_rad = between(-3.0, 3.0);
    site.plate_offset_m = between(-0.1, 0.2);
    site.spec.pitch = between(0.15, 1.5);
    site.spec.overhang_m = between(0.0, 0.6);
    site.spec.tail = k % 2 == 0 ? Tail::square : Tail::plumb;
    site.spec.eave = k % 4 < 2 ? Eave::level : Eave::even;
    site.spec.apex_over = static_cast<ApexOver>(k % 3);
    const double out = between(0.0005, 0.015);
    std::normal_distribution<double> error(0.0, out);
    for (const auto& corner : layout::corners_of(site.plan.polygon, site.plan))
      site.found.corners.push_back(corner + base::Point{error(random), error(random)});
    site.found.pin = site.plan.center + base::Point{error(random), error(random)};
    const std::size_t n = site.found.corners.size();
    site.found.covariance = random_covariance(2 * n + 2, 0.003, random);
    site.words = "seed " + std::to_string(seed) + ", site " + std::to_string(k) + ", " +
                 std::to_string(sides) + " sides, corners about " + std::to_string(out) + " m out";
    sites.push_back(std::move(site));
  }
  return sites;
}

inline Carry carry(const Site& site) {
  return carry(site.plan, site.plate_offset_m, site.spec, {}, site.found);
}

}  // namespace stakewright::roof

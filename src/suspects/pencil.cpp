#include "stakewright/suspects/pencil.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <map>
#include <numbers>

#include "stakewright/adjustment/quantiles.hpp"
#include "stakewright/readings/observation.hpp"

namespace stakewright::suspects {
namespace {

using Pulls = std::vector<layout::Tape>;

/// How many of the ends are the same stake.
int ends_in_common(const layout::Tape& a, const layout::Tape& b) {
  const auto is_end = [&](const std::string& label) { return label == b.from || label == b.to; };
  return (is_end(a.from) ? 1 : 0) + (is_end(a.to) ? 1 : 0);
}

/// Between the two diagonals of one skip that meet at a corner: their far ends have n − 2·skip
/// sides between them, and a side is seen from a corner at π/n (inscribed angle, Euclid III.20).
double angle_between_rad(int skip, int sides) {
  return std::numbers::pi * (1.0 - 2.0 * static_cast<double>(skip) / static_cast<double>(sides));
}

double corner_part_m(const Pulls& pulls, int skip, int sides, double length_m, double tolerance_m) {
  double most = 0.0;
  for (std::size_t i = 0; i < pulls.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      const int common = ends_in_common(pulls[i], pulls[j]);
      if (common == 0) return largest_difference_m(length_m, tolerance_m);
      if (common == 2) continue;  // the same pull again
      most = std::max(most, largest_difference_at_corner_m(length_m, angle_between_rad(skip, sides),
                                                           tolerance_m));
    }
  }
  return most;
}

}  // namespace

double largest_difference_m(double length_m, double tolerance_m) {
  // No length is shorter than nothing.
  return 2.0 * tolerance_m + std::min(2.0 * tolerance_m, length_m);
}

double largest_difference_at_corner_m(double length_m, double angle_rad, double tolerance_m) {
  const double half_base_m = length_m * std::sin(angle_rad / 2.0);
  const double height_m = length_m * std::cos(angle_rad / 2.0) - tolerance_m;
  // So near the far ends that they may lie on either hand: as if opposite.
  if (height_m <= 0.0) return largest_difference_m(length_m, tolerance_m);
  const double sine = half_base_m / std::hypot(half_base_m, height_m);
  return 2.0 * tolerance_m * (1.0 + sine);
}

std::vector<PencilCheck> pencil_checks(const layout::Plan& plan, const base::Tolerance& tolerance,
                                       const readings::Instrument& instrument,
                                       const std::vector<layout::Tape>& pulls) {
  std::map<int, Pulls> by_skip;
  for (const layout::Tape& pull : pulls)
    if (pull.skip >= 1) by_skip[pull.skip].push_back(pull);
  std::erase_if(by_skip, [](const auto& group) { return group.second.size() < 2; });

  std::vector<PencilCheck> checks;
  const double each = 1.0 - (1.0 - tolerance.confidence) / static_cast<double>(by_skip.size());
  for (const auto& [skip, group] : by_skip) {
    PencilCheck check;
    check.skip = skip;
    check.planned_m = layout::diagonal_m(plan.polygon, skip);
    check.example = group.front();
    check.pulls = group.size();
    check.corners_m =
        corner_part_m(group, skip, plan.polygon.sides, check.planned_m, tolerance.corner_m);
    check.readings_m = adjustment::range_limit(each, static_cast<int>(group.size())) *
                       readings::standard_deviation_m(instrument, check.planned_m);
    check.limit_m = check.corners_m + check.readings_m;
    checks.push_back(check);
  }
  return checks;
}

}  // namespace stakewright::suspects

#include "judge.hpp"

#include <algorithm>
#include <cmath>

namespace stakewright::check {
namespace {

/// Sets of misread readings are weighed until this much of the chance is told.
constexpr double kNearlyAll = 0.99;

std::vector<std::size_t> held_corners(const layout::Plan& plan,
                                      const adjustment::Network& network) {
  std::vector<std::size_t> held;
  for (std::size_t c = 0; c < network.corner_count; ++c)
    if (std::find(plan.hold.begin(), plan.hold.end(), network.points[c].label) != plan.hold.end())
      held.push_back(c);
  return held;
}

placement::Survey survey_of(const layout::Plan& plan, const adjustment::Network& network,
                            const adjustment::Adjustment& adjustment) {
  const std::size_t corners = network.corner_count;
  placement::Survey survey;
  survey.centre = plan.centre;
  survey.hold = held_corners(plan, network);
  survey.covariance = base::Matrix(2 * corners, 2 * corners);
  for (std::size_t c = 0; c < corners; ++c) {
    survey.planned.push_back(network.points[c].planned);
    survey.found.push_back(adjustment.found[c]);
    survey.measured.push_back(adjustment.place_known[c]);
  }
  for (std::size_t i = 0; i < 2 * corners; ++i)
    for (std::size_t j = 0; j < 2 * corners; ++j)
      survey.covariance(i, j) = adjustment.covariance(i, j);
  return survey;
}

/// A vector of the site turned back by the laying: clockwise turns undone.
base::Point turned_back(base::Point a, double turn_rad) {
  const double c = std::cos(turn_rad);
  const double s = std::sin(turn_rad);
  return {c * a.x_m - s * a.y_m, s * a.x_m + c * a.y_m};
}

/// Covariance of points turned back: each 2 x 2 block between two points is R·C·Rᵀ.
base::Matrix turned_back(const base::Matrix& covariance, double turn_rad) {
  const double c = std::cos(turn_rad);
  const double s = std::sin(turn_rad);
  base::Matrix half(covariance.rows, covariance.cols);
  for (std::size_t i = 0; i + 1 < covariance.rows; i += 2)
    for (std::size_t j = 0; j < covariance.cols; ++j) {
      half(i, j) = c * covariance(i, j) - s * covariance(i + 1, j);
      half(i + 1, j) = s * covariance(i, j) + c * covariance(i + 1, j);
    }
  base::Matrix turned(covariance.rows, covariance.cols);
  for (std::size_t i = 0; i < half.rows; ++i)
    for (std::size_t j = 0; j + 1 < half.cols; j += 2) {
      turned(i, j) = c * half(i, j) - s * half(i, j + 1);
      turned(i, j + 1) = s * half(i, j) + c * half(i, j + 1);
    }
  return turned;
}

}  // namespace

Judged judge(const layout::Plan& plan, const base::Tolerance& tolerance,
             const adjustment::Network& network, const std::vector<std::size_t>& left_out) {
  std::vector<bool> excluded(network.observations.size(), false);
  for (const std::size_t r : left_out) excluded[r] = true;
  Judged judged{adjustment::adjust(network, excluded), {}, {}};
  const bool usable = judged.adjustment.status == adjustment::Status::settled ||
                      judged.adjustment.status == adjustment::Status::shape_not_fixed;
  if (!usable) return judged;
  placement::Survey survey = survey_of(plan, network, judged.adjustment);
  if (std::count(survey.measured.begin(), survey.measured.end(), true) < 2) return judged;
  judged.placement = placement::fewest_moves(survey, tolerance);
  judged.survey = std::move(survey);
  return judged;
}

bool same_verdicts(const Judged& one, const Judged& other) {
  const auto& a = one.placement->corners;
  const auto& b = other.placement->corners;
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](const auto& x, const auto& y) { return x.verdict == y.verdict; });
}

std::vector<adjustment::SlipSet> leading_sets(const adjustment::SlipTest& slips) {
  std::vector<adjustment::SlipSet> leading;
  double told = 0.0;
  for (const adjustment::SlipSet& set : slips.ranked) {
    if (told >= kNearlyAll) break;
    told += set.chance;
    if (!set.readings.empty()) leading.push_back(set);
  }
  return leading;
}

Verdict verdict_of(const adjustment::Adjustment& adjustment,
                   const std::optional<placement::Placement>& placement) {
  if (!placement) return Verdict::undecided;
  const auto count = [&](placement::Verdict verdict) {
    return std::count_if(placement->corners.begin(), placement->corners.end(),
                         [&](const auto& corner) { return corner.verdict == verdict; });
  };
  if (count(placement::Verdict::out) > 0) return Verdict::out;
  const bool all_known = adjustment.status == adjustment::Status::settled;
  return all_known && count(placement::Verdict::undecided) == 0 ? Verdict::in : Verdict::undecided;
}

roof::FoundCorners in_the_plans_frame(const Findings& findings) {
  const placement::Placement& placement = *findings.placement;
  const placement::Survey& survey = *findings.survey;
  const double turn_rad = placement.rigid.turn_rad;
  const base::Point shift{placement.rigid.x_m, placement.rigid.y_m};
  roof::FoundCorners found;
  for (const base::Point& corner : survey.found)
    found.corners.push_back(turned_back(corner - shift, turn_rad));
  found.covariance = turned_back(placement.deviation_covariance, turn_rad);
  for (std::size_t p = 0; p < findings.network.points.size(); ++p)
    if (findings.network.points[p].role == adjustment::Role::centre && findings.used.place_known[p])
      found.pin = turned_back(findings.used.found[p] - shift, turn_rad);
  return found;
}

}  // namespace stakewright::check

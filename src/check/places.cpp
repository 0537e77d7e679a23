#include "places.hpp"

#include <algorithm>

namespace stakewright::check {
namespace {

using adjustment::Status;

// One corner by itself lies on any plan.
constexpr std::ptrdiff_t kFewestCorners = 2;

placement::Survey survey_of(const layout::Plan& plan, const adjustment::Network& network,
                            const adjustment::Adjustment& adjustment) {
  const std::size_t n = network.corner_count;
  placement::Survey survey;
  survey.center = plan.center;
  survey.covariance = base::Matrix(2 * n, 2 * n);
  for (std::size_t i = 0; i < n; ++i) {
    const adjustment::NetworkPoint& corner = network.points[i];
    survey.planned.push_back(corner.planned);
    survey.found.push_back(adjustment.found[i]);
    survey.measured.push_back(adjustment.place_known[i]);
    if (std::find(plan.hold.begin(), plan.hold.end(), corner.label) != plan.hold.end()) {
      survey.hold.push_back(i);
    }
    for (std::size_t j = 0; j < 2 * n; ++j) {
      survey.covariance(2 * i, j) = adjustment.covariance(2 * i, j);
      survey.covariance(2 * i + 1, j) = adjustment.covariance(2 * i + 1, j);
    }
  }
  return survey;
}

/// The plan laid over what an adjustment found.
Places laid_over(const Input& input, const adjustment::Network& network,
                 adjustment::Adjustment adjustment) {
  Places result;
  result.adjustment = std::move(adjustment);
  const Status status = result.adjustment.status;
  if (status != Status::settled && status != Status::shape_not_fixed) return result;
  placement::Survey survey = survey_of(input.plan, network, result.adjustment);
  const auto measured = std::count(survey.measured.begin(), survey.measured.end(), true);
  if (measured < kFewestCorners) return result;
  result.placement = placement::fewest_moves(survey, input.tolerance);
  result.survey = std::move(survey);
  return result;
}

}  // namespace

Places places(const Input& input, const Findings& findings,
              const std::vector<std::size_t>& left_out) {
  const adjustment::Network& network = findings.network;
  if (left_out.empty()) return laid_over(input, network, findings.all);
  return laid_over(input, network, adjustment::adjust(network, left_out));
}

}  // namespace stakewright::check

#include "settle.hpp"

#include <ceres/problem.h>
#include <ceres/solver.h>

#include <algorithm>
#include <cmath>

#include "reading_cost.hpp"

namespace stakewright::adjustment {
namespace {

/// The last step must be shorter: a millionth of a micrometer, so that the covariance belongs to
/// the places reported.  On a site whose coordinates are large, doubles resolve no less than
/// this share of a coordinate.
constexpr double kLastStep_m = 1e-12;

/// Ceres stops when a step improves the fit by less than this share.  The steps that follow finish
/// the work, so it need only come near; its own default, 1e-6, was 1.6e-5 mm away.
constexpr double kEnoughForCeres = 1e-10;

/// Each Gauss-Newton step takes off all but (residual / length) of the way: with a residual of a
/// tenth of the length, thirteen steps reach `kLastStep_m`.  More than this: it does not settle.
constexpr int kMostSteps = 40;

void add_places(const Network& network, const Unknowns& unknowns, State& state,
                ceres::Problem& problem) {
  for (std::size_t point = 0; point < network.points.size(); ++point) {
    problem.AddParameterBlock(state.at[point].data(), 2);
    if (unknowns.point[point] == kNotAsked)
      problem.SetParameterBlockConstant(state.at[point].data());
  }
}

void add_instruments(const Network& network, const Unknowns& unknowns, State& state,
                     ceres::Problem& problem) {
  const auto add = [&](double& value, Eigen::Index column, double sd) {
    problem.AddParameterBlock(&value, 1);
    if (column == kNotAsked)
      problem.SetParameterBlockConstant(&value);
    else
      problem.AddResidualBlock(new PriorCost(sd), nullptr, &value);
  };
  for (std::size_t i = 0; i < network.instruments.size(); ++i) {
    add(state.scale[i], unknowns.scale[i], network.instruments[i].scale);
    add(state.zero_m[i], unknowns.zero[i], network.instruments[i].zero_m);
  }
}

void add_reading(const readings::Observation& observation, State& state, ceres::Problem& problem) {
  double* from = state.at[observation.from].data();
  double* to = state.at[observation.to].data();
  if (observation.at)
    problem.AddResidualBlock(new AngleCost(observation.corrected, observation.sd), nullptr, from,
                             state.at[*observation.at].data(), to);
  else
    problem.AddResidualBlock(new LengthCost(observation.corrected, observation.sd), nullptr, from,
                             to, &state.scale[observation.instrument],
                             &state.zero_m[observation.instrument]);
}

bool solve_by_ceres(const Network& network, const Unknowns& unknowns,
                    const std::vector<std::size_t>& readings, State& state) {
  ceres::Problem problem;
  add_places(network, unknowns, state, problem);
  add_instruments(network, unknowns, state, problem);
  for (const std::size_t r : readings) add_reading(network.observations[r], state, problem);
  ceres::Solver::Options options;
  options.linear_solver_type = ceres::DENSE_QR;
  options.logging_type = ceres::SILENT;
  options.function_tolerance = kEnoughForCeres;
  ceres::Solver::Summary summary;
  ceres::Solve(options, &problem, &summary);
  return summary.IsSolutionUsable();
}

void move(const Unknowns& unknowns, const Eigen::VectorXd& step, State& state) {
  for (std::size_t point = 0; point < unknowns.point.size(); ++point) {
    const Eigen::Index column = unknowns.point[point];
    if (column == kNotAsked) continue;
    state.at[point][0] += step(column);
    state.at[point][1] += step(column + 1);
  }
  for (std::size_t i = 0; i < state.scale.size(); ++i) {
    if (unknowns.scale[i] != kNotAsked) state.scale[i] += step(unknowns.scale[i]);
    if (unknowns.zero[i] != kNotAsked) state.zero_m[i] += step(unknowns.zero[i]);
  }
}

/// How far the places are from the plan, as a movement of the unknowns.
Eigen::VectorXd movement(const Network& network, const Unknowns& unknowns, const State& state) {
  Eigen::VectorXd result = Eigen::VectorXd::Zero(unknowns.count);
  for (std::size_t point = 0; point < unknowns.point.size(); ++point) {
    const Eigen::Index column = unknowns.point[point];
    if (column == kNotAsked) continue;
    result(column) = state.at[point][0] - network.points[point].planned.x_m;
    result(column + 1) = state.at[point][1] - network.points[point].planned.y_m;
  }
  return result;
}

/// The part of the step that brings the figure to the datum, and its covariance with it.
Eigen::VectorXd refer_to_datum(const Network& network, const Unknowns& unknowns, Fit& fit,
                               const Eigen::VectorXd& correction) {
  if (fit.datum.motions.cols() == 0) return correction;
  const Eigen::MatrixXd S = s_transformation(fit.datum);
  fit.cofactor = S * fit.cofactor * S.transpose();
  const Eigen::VectorXd moved = movement(network, unknowns, fit.state);
  return S * (moved + correction) - moved;
}

/// Fills what belongs to `fit.state`; returns the step from it.  Empty: no direction, or singular.
std::optional<Eigen::VectorXd> step_from(const Network& network, const Unknowns& unknowns,
                                         const std::vector<std::size_t>& readings,
                                         Eigen::Index defect, Fit& fit) {
  std::optional<LinearModel> model = linear_model(network, unknowns, fit.state, readings);
  if (!model) return std::nullopt;
  fit.model = std::move(*model);
  std::optional<Estimate> estimate = least_squares(fit.model, defect);
  if (!estimate) return std::nullopt;
  fit.cofactor = std::move(estimate->cofactor);
  fit.datum = datum(network, unknowns, fit.state, fit.model, defect);
  return refer_to_datum(network, unknowns, fit, estimate->correction);
}

double largest_coordinate_m(const Network& network) {
  double largest = 1.0;
  for (const NetworkPoint& point : network.points)
    largest = std::max({largest, std::abs(point.planned.x_m), std::abs(point.planned.y_m)});
  return largest;
}

}  // namespace

std::optional<Fit> settle(const Network& network, const Unknowns& unknowns,
                          const std::vector<std::size_t>& readings, Eigen::Index defect) {
  Fit fit;
  fit.state = planned_state(network);
  if (!solve_by_ceres(network, unknowns, readings, fit.state)) return std::nullopt;
  const double last_step_m = kLastStep_m * largest_coordinate_m(network);
  for (int step = 0; step < kMostSteps; ++step) {
    const auto correction = step_from(network, unknowns, readings, defect, fit);
    if (!correction || !correction->allFinite()) return std::nullopt;
    if (correction->head(unknowns.places).lpNorm<Eigen::Infinity>() < last_step_m) return fit;
    move(unknowns, *correction, fit.state);
  }
  return std::nullopt;
}

}  // namespace stakewright::adjustment

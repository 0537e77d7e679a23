#include "settle.hpp"

#include <ceres/problem.h>
#include <ceres/solver.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "least_squares.hpp"
#include "reading_cost.hpp"
#include "stakewright/algebra/algebra.hpp"

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

/// Places as Ceres takes them.
using Blocks = std::vector<std::array<double, 2>>;

void add_places(const Unknowns& unknowns, Blocks& places, ceres::Problem& problem) {
  for (std::size_t point = 0; point < places.size(); ++point) {
    problem.AddParameterBlock(places[point].data(), 2);
    if (unknowns.point[point] == kNotAsked) problem.SetParameterBlockConstant(places[point].data());
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

void add_reading(const readings::Observation& observation, Blocks& places, State& state,
                 ceres::Problem& problem) {
  std::vector<double*> parameters;
  for (const std::size_t point : observation.points()) parameters.push_back(places[point].data());
  parameters.push_back(&state.scale[observation.instrument]);
  parameters.push_back(&state.zero_m[observation.instrument]);
  problem.AddResidualBlock(new ReadingCost(observation), nullptr, parameters);
}

bool solve_by_ceres(const Network& network, const Unknowns& unknowns,
                    const std::vector<std::size_t>& readings, State& state) {
  Blocks places;
  for (const base::Point at : state.at) places.push_back({at.x_m, at.y_m});
  ceres::Problem problem;
  add_places(unknowns, places, problem);
  add_instruments(network, unknowns, state, problem);
  for (const std::size_t r : readings) add_reading(network.observations[r], places, state, problem);
  ceres::Solver::Options options;
  options.linear_solver_type = ceres::DENSE_QR;
  options.logging_type = ceres::SILENT;
  options.function_tolerance = kEnoughForCeres;
  ceres::Solver::Summary summary;
  ceres::Solve(options, &problem, &summary);
  for (std::size_t point = 0; point < places.size(); ++point)
    state.at[point] = {places[point][0], places[point][1]};
  return summary.IsSolutionUsable();
}

void move(const Unknowns& unknowns, const Eigen::VectorXd& step, State& state) {
  for (std::size_t point = 0; point < unknowns.point.size(); ++point) {
    const Eigen::Index column = unknowns.point[point];
    if (column == kNotAsked) continue;
    state.at[point] = state.at[point] + base::Point{step(column), step(column + 1)};
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
    const base::Point off = state.at[point] - network.points[point].planned;
    result.segment(column, 2) << off.x_m, off.y_m;
  }
  return result;
}

/// The corners that carry the datum: those of the network that are asked, or every asked corner.
std::vector<std::size_t> carriers(const Network& network, const Unknowns& unknowns) {
  std::vector<std::size_t> result;
  for (const std::size_t corner : network.datum)
    if (unknowns.point[corner] != kNotAsked) result.push_back(corner);
  if (!result.empty()) return result;
  for (std::size_t corner = 0; corner < network.corner_count; ++corner)
    if (unknowns.point[corner] != kNotAsked) result.push_back(corner);
  return result;
}

/// The datum at a state whose readings leave `defect` motions of the whole free.
Datum datum(const Network& network, const Unknowns& unknowns, const State& state,
            const LinearModel& model, Eigen::Index defect) {
  std::vector<base::Point> asked;
  for (std::size_t point = 0; point < state.at.size(); ++point)
    if (unknowns.point[point] != kNotAsked) asked.push_back(state.at[point]);
  const std::vector<std::size_t> carried_by = carriers(network, unknowns);
  std::vector<base::Point> carrying;
  for (const std::size_t corner : carried_by) carrying.push_back(state.at[corner]);
  Eigen::MatrixXd rigid = Eigen::MatrixXd::Zero(unknowns.count, 3);
  rigid.topRows(unknowns.places) =
      eigen_of(algebra::rigid_motions(asked, base::middle_of(carrying)));
  Datum result;
  result.motions = defect == 3 ? rigid : rigid * least_changed(model.design * rigid, defect);
  Eigen::MatrixXd conditions = Eigen::MatrixXd::Zero(unknowns.count, defect);
  for (const std::size_t corner : carried_by)
    conditions.middleRows(unknowns.point[corner], 2) =
        result.motions.middleRows(unknowns.point[corner], 2);
  // One corner alone shows no turn: then the whole figure's turn about it is held.
  if (defect == 3 && carried_by.size() == 1) conditions.col(2) = result.motions.col(2);
  result.answer = eigen_of(algebra::answer_of(matrix_of(result.motions), matrix_of(conditions)));
  return result;
}

/// The part of the step that brings the figure to the datum, and its covariance with it.
Eigen::VectorXd refer_to_datum(const Network& network, const Unknowns& unknowns, Fit& fit,
                               const Eigen::VectorXd& correction) {
  const Datum& datum = fit.datum;
  fit.cofactor = eigen_of(algebra::referred(matrix_of(fit.cofactor), matrix_of(datum.motions),
                                            matrix_of(datum.answer)));
  const Eigen::VectorXd moved = movement(network, unknowns, fit.state) + correction;
  return correction - datum.motions * (datum.answer * moved);
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
  if (defect == 0) return estimate->correction;
  fit.datum = datum(network, unknowns, fit.state, fit.model, defect);
  return refer_to_datum(network, unknowns, fit, estimate->correction);
}

/// Corners that come out farther from their planned places than this share of the figure's size
/// (both as root mean squares) are not this polygon with stakes off: it is another one, or it has
/// turned over.  One stake a whole foot off in a triangle of 1 m corner radius makes 0.18.
constexpr double kAnotherPolygon = 0.25;

std::vector<base::Point> corners_of(const Network& network, const Determinacy& known,
                                    const State& state) {
  std::vector<base::Point> corners;
  for (std::size_t corner = 0; corner < network.corner_count; ++corner)
    if (known.asked[corner]) corners.push_back(state.at[corner]);
  return corners;
}

/// Twice the area within the corners, with the sign of the way they run.
double signed_area_m2(const std::vector<base::Point>& corners) {
  double sum = 0.0;
  for (std::size_t i = 0; i < corners.size(); ++i)
    sum += base::dot(base::clockwise(corners[i]), corners[(i + 1) % corners.size()]);
  return sum;
}

/// Root mean square distance of the planned points that take part from their middle.
double size_m(const Network& network, const Determinacy& known) {
  std::vector<bool> taking_part = known.asked;
  for (const std::size_t r : known.readings)
    for (const std::size_t point : network.observations[r].points()) taking_part[point] = true;
  base::Point sum;
  double squares = 0.0;
  double count = 0.0;
  for (std::size_t point = 0; point < taking_part.size(); ++point) {
    if (!taking_part[point]) continue;
    const base::Point place = network.points[point].planned - network.points[0].planned;
    sum = sum + place;
    squares += base::dot(place, place);
    count += 1.0;
  }
  return std::sqrt((squares - base::dot(sum, sum) / count) / count);
}

double largest_coordinate_m(const Network& network) {
  double largest = 1.0;
  for (const NetworkPoint& point : network.points)
    largest = std::max({largest, std::abs(point.planned.x_m), std::abs(point.planned.y_m)});
  return largest;
}

}  // namespace

ReadingCost::ReadingCost(readings::Observation observation) : observation_(std::move(observation)) {
  observation_.from = 0;
  observation_.to = 1;
  if (observation_.at) observation_.at = 2;
  set_num_residuals(1);
  mutable_parameter_block_sizes()->assign(observation_.points().size(), 2);
  mutable_parameter_block_sizes()->insert(mutable_parameter_block_sizes()->end(), {1, 1});
}

bool ReadingCost::Evaluate(const double* const* parameters, double* residuals,
                           double** jacobians) const {
  const std::size_t ends = parameter_block_sizes().size() - 2;
  std::array<base::Point, 3> places{};
  for (std::size_t e = 0; e < ends; ++e) places[e] = {parameters[e][0], parameters[e][1]};
  const readings::Expected model =
      readings::expected(observation_, places, parameters[ends][0], parameters[ends + 1][0]);
  if (!model.defined) return false;
  const double sd = observation_.sd;
  residuals[0] = observation_.difference(model.value, observation_.corrected) / sd;
  if (jacobians == nullptr) return true;
  for (std::size_t e = 0; e < ends; ++e) {
    if (jacobians[e] == nullptr) continue;
    jacobians[e][0] = model.answer[e].by.x_m / sd;
    jacobians[e][1] = model.answer[e].by.y_m / sd;
  }
  if (jacobians[ends] != nullptr) jacobians[ends][0] = model.by_scale / sd;
  if (jacobians[ends + 1] != nullptr) jacobians[ends + 1][0] = model.by_zero / sd;
  return true;
}

bool PriorCost::Evaluate(const double* const* parameters, double* residuals,
                         double** jacobians) const {
  residuals[0] = parameters[0][0] / sd_;
  if (jacobians != nullptr && jacobians[0] != nullptr) jacobians[0][0] = 1.0 / sd_;
  return true;
}

std::optional<Fit> settle(const Network& network, const Unknowns& unknowns,
                          const std::vector<std::size_t>& readings, Eigen::Index defect) {
  Fit fit;
  fit.state = planned_state(network);
  fit.datum.motions.resize(unknowns.count, 0);
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

bool draws_the_plan(const Network& network, const Determinacy& known, const State& state) {
  const std::vector<base::Point> planned = corners_of(network, known, planned_state(network));
  const std::vector<base::Point> found = corners_of(network, known, state);
  double squares = 0.0;
  for (std::size_t i = 0; i < found.size(); ++i) {
    const base::Point off = found[i] - planned[i];
    squares += base::dot(off, off);
  }
  const double off_m = std::sqrt(squares / static_cast<double>(found.size()));
  if (off_m > kAnotherPolygon * size_m(network, known)) return false;
  return found.size() < 3 || signed_area_m2(planned) * signed_area_m2(found) > 0.0;
}

}  // namespace stakewright::adjustment

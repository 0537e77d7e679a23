#include "datum.hpp"

#include <algorithm>
#include <numeric>

namespace stakewright::adjustment {
namespace {

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

base::Point center_of(const std::vector<std::size_t>& points, const State& state) {
  base::Point sum;
  for (const std::size_t point : points) sum = sum + state.place(point);
  return (1.0 / static_cast<double>(points.size())) * sum;
}

/// Two shifts and the turn about `center`, over all unknowns.
Eigen::MatrixXd rigid_motions(const Unknowns& unknowns, const State& state, base::Point center) {
  Eigen::MatrixXd motions = Eigen::MatrixXd::Zero(unknowns.count, 3);
  for (std::size_t point = 0; point < unknowns.point.size(); ++point) {
    const Eigen::Index column = unknowns.point[point];
    if (column == kNotAsked) continue;
    const base::Point arm = state.place(point) - center;
    motions(column, 0) = 1.0;
    motions(column + 1, 1) = 1.0;
    motions(column, 2) = base::clockwise(arm).x_m;
    motions(column + 1, 2) = base::clockwise(arm).y_m;
  }
  return motions;
}

}  // namespace

Datum datum(const Network& network, const Unknowns& unknowns, const State& state,
            const LinearModel& model, Eigen::Index defect) {
  const std::vector<std::size_t> carried_by = carriers(network, unknowns);
  const Eigen::MatrixXd rigid = rigid_motions(unknowns, state, center_of(carried_by, state));
  Datum result;
  result.motions = defect == 3 ? rigid : rigid * least_changed(model.design * rigid, defect);
  result.conditions = Eigen::MatrixXd::Zero(unknowns.count, defect);
  for (const std::size_t corner : carried_by)
    result.conditions.middleRows(unknowns.point[corner], 2) =
        result.motions.middleRows(unknowns.point[corner], 2);
  // One corner alone shows no turn: then the whole figure's turn about it is held.
  if (defect == 3 && carried_by.size() == 1) result.conditions.col(2) = result.motions.col(2);
  return result;
}

Eigen::MatrixXd s_transformation(const Datum& datum) {
  const Eigen::Index count = datum.motions.rows();
  return Eigen::MatrixXd::Identity(count, count) -
         datum.motions * solve_square(datum.conditions.transpose() * datum.motions,
                                      datum.conditions.transpose());
}

}  // namespace stakewright::adjustment

#include "rigid_body.hpp"

#include <algorithm>

#include "algebra.hpp"

namespace stakewright::adjustment {
namespace {

using Pair = std::pair<std::size_t, std::size_t>;

Eigen::MatrixXd motion_of(std::size_t point, const Unknowns& unknowns,
                          const Eigen::MatrixXd& motions) {
  const Eigen::Index column = unknowns.point[point];
  if (column == kNotAsked) return Eigen::MatrixXd::Zero(2, motions.cols());
  return motions.middleRows(column, 2);
}

bool keep_their_distance(Pair pair, const Network& network, const Unknowns& unknowns,
                         const FreeMotions& freedom) {
  const base::Point arm = network.points[pair.second].planned - network.points[pair.first].planned;
  const double length_m = base::norm_m(arm);
  if (length_m < kSamePlace_m) return false;
  const Eigen::RowVector2d direction(arm.x_m / length_m, arm.y_m / length_m);
  const Eigen::MatrixXd apart = motion_of(pair.second, unknowns, freedom.motions) -
                                motion_of(pair.first, unknowns, freedom.motions);
  return (direction * apart).norm() < freedom.still;
}

RigidBody body_on(Pair pair, const Network& network, const Unknowns& unknowns,
                  const FreeMotions& freedom, const std::vector<bool>& taking_part) {
  RigidBody body{pair.first, pair.second, std::vector<bool>(network.points.size(), false)};
  for (std::size_t point = 0; point < network.points.size(); ++point) {
    if (!taking_part[point]) continue;
    const bool still =
        movement_against(body, point, network, unknowns, freedom.motions).norm() < freedom.still;
    body.member[point] = still;
    if (!still) continue;
    ++body.size;
    if (point < network.corner_count) ++body.corners;
  }
  return body;
}

bool larger(const RigidBody& a, const RigidBody& b) {
  return a.corners != b.corners ? a.corners > b.corners : a.size > b.size;
}

}  // namespace

Eigen::MatrixXd movement_against(const RigidBody& body, std::size_t point, const Network& network,
                                 const Unknowns& unknowns, const Eigen::MatrixXd& motions) {
  const base::Point origin = network.points[body.first].planned;
  const base::Point base_arm = network.points[body.second].planned - origin;
  const base::Point arm = network.points[point].planned - origin;
  const Eigen::MatrixXd shift = motion_of(body.first, unknowns, motions);
  const Eigen::MatrixXd apart = motion_of(body.second, unknowns, motions) - shift;
  const base::Point across = base::clockwise(base_arm);
  const Eigen::RowVectorXd turn =
      Eigen::RowVector2d(across.x_m, across.y_m) * apart / base::dot(base_arm, base_arm);
  const base::Point swept = base::clockwise(arm);
  return motion_of(point, unknowns, motions) - shift - Eigen::Vector2d(swept.x_m, swept.y_m) * turn;
}

FreeMotions free_motions(const Eigen::MatrixXd& design) {
  NullSpace null = null_space(design, kWeakestMotion);
  return {std::move(null.motions), std::max(kStandingStill, kLeak * null.seen)};
}

RigidBody largest_rigid_body(const Network& network, const Unknowns& unknowns,
                             const FreeMotions& freedom, const std::vector<bool>& taking_part) {
  RigidBody largest;
  largest.member.assign(network.points.size(), false);
  const std::size_t count = network.points.size();
  for (std::size_t first = 0; first < count; ++first) {
    for (std::size_t second = first + 1; second < count; ++second) {
      if (!taking_part[first] || !taking_part[second]) continue;
      if (largest.member[first] && largest.member[second]) continue;
      if (!keep_their_distance({first, second}, network, unknowns, freedom)) continue;
      RigidBody body = body_on({first, second}, network, unknowns, freedom, taking_part);
      if (larger(body, largest)) largest = std::move(body);
    }
  }
  return largest;
}

}  // namespace stakewright::adjustment

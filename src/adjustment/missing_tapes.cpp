#include "missing_tapes.hpp"

#include <algorithm>
#include <set>

#include "algebra.hpp"

namespace stakewright::adjustment {
namespace {

using Pair = std::pair<std::size_t, std::size_t>;

/// Two tapes that stop the same share of a motion are taken in their order, short ones first;
/// rounding must not decide between them.
constexpr double kMuchBetter = 1.0 + 1e-6;

std::size_t skip(std::size_t first, std::size_t second, std::size_t corner_count) {
  const std::size_t apart = second - first;
  return std::min(apart, corner_count - apart);
}

/// Sides and diagonals that have no reading yet, sides first.
std::vector<Pair> candidates(const Network& network, const std::vector<std::size_t>& readings) {
  std::set<Pair> pulled;
  for (const std::size_t r : readings) {
    const readings::Observation& observation = network.observations[r];
    if (observation.is_angle()) continue;
    pulled.insert(std::minmax(observation.from, observation.to));
  }
  std::vector<Pair> result;
  for (std::size_t first = 0; first < network.corner_count; ++first)
    for (std::size_t second = first + 1; second < network.corner_count; ++second)
      if (!pulled.contains({first, second})) result.emplace_back(first, second);
  std::stable_sort(result.begin(), result.end(), [&](const Pair& a, const Pair& b) {
    return skip(a.first, a.second, network.corner_count) <
           skip(b.first, b.second, network.corner_count);
  });
  return result;
}

/// How fast each candidate changes its length in each free motion: one row a candidate.
Eigen::MatrixXd rates(const Network& network, const Unknowns& unknowns,
                      const Eigen::MatrixXd& free_motions, const std::vector<Pair>& tapes) {
  Eigen::MatrixXd result = Eigen::MatrixXd::Zero(as_index(tapes.size()), free_motions.cols());
  for (std::size_t t = 0; t < tapes.size(); ++t) {
    const auto [from, to] = tapes[t];
    const ModelLength model =
        model_length(network.points[from].planned, network.points[to].planned, 0.0, 0.0);
    const Eigen::RowVector2d direction(model.by_to.x_m, model.by_to.y_m);
    const auto add = [&](std::size_t point, double sign) {
      if (unknowns.point[point] != kNotAsked)
        result.row(as_index(t)) +=
            sign * direction * free_motions.middleRows(unknowns.point[point], 2);
    };
    add(from, -1.0);
    add(to, 1.0);
  }
  return result;
}

/// Rows of `rates` picked by pivoting: each the one largest after the earlier ones are taken out.
std::vector<Eigen::Index> pick(Eigen::MatrixXd rates, double still) {
  std::vector<Eigen::Index> picked;
  while (true) {
    Eigen::Index best = 0;
    double largest = still;
    for (Eigen::Index row = 0; row < rates.rows(); ++row) {
      const double size = rates.row(row).norm();
      if (size <= largest * kMuchBetter) continue;
      largest = size;
      best = row;
    }
    if (largest <= still) return picked;
    picked.push_back(best);
    const Eigen::RowVectorXd direction = rates.row(best) / largest;
    rates -= (rates * direction.transpose()) * direction;
  }
}

/// Motions each of which is stopped by one picked tape and by no other.
Eigen::MatrixXd motion_of_each_tape(const Eigen::MatrixXd& free_motions,
                                    const Eigen::MatrixXd& rates,
                                    const std::vector<Eigen::Index>& picked) {
  const Eigen::Index count = as_index(picked.size());
  Eigen::MatrixXd rows(count, rates.cols());
  for (Eigen::Index t = 0; t < count; ++t)
    rows.row(t) = rates.row(picked[static_cast<std::size_t>(t)]);
  return free_motions * rows.transpose() *
         solve_square(rows * rows.transpose(), Eigen::MatrixXd::Identity(count, count));
}

}  // namespace

MissingTapes missing_tapes(const Network& network, const Unknowns& unknowns,
                           const FreeMotions& freedom, const RigidBody& body,
                           const std::vector<std::size_t>& corners,
                           const std::vector<std::size_t>& readings) {
  const std::vector<Pair> tapes = candidates(network, readings);
  const Eigen::MatrixXd all_rates = rates(network, unknowns, freedom.motions, tapes);
  const std::vector<Eigen::Index> picked = pick(all_rates, freedom.still);
  const Eigen::MatrixXd motions = motion_of_each_tape(freedom.motions, all_rates, picked);
  MissingTapes result;
  for (const Eigen::Index t : picked) {
    const Pair& tape = tapes[static_cast<std::size_t>(t)];
    result.all.push_back({tape.first, tape.second});
  }
  if (body.size == 0) {  // nothing keeps its distance: no corner is at rest against any other
    for (const std::size_t corner : corners) result.loose.push_back({corner, result.all});
    return result;
  }
  for (const std::size_t corner : corners) {
    Loose loose{corner, {}};
    const Eigen::RowVectorXd moved =
        movement_against(body, corner, network, unknowns, motions).colwise().norm();
    // Where nothing holds together, the two points taken as at rest are as loose as the others.
    const bool taken_as_at_rest = corner == body.first || corner == body.second;
    for (std::size_t t = 0; t < picked.size(); ++t) {
      const double whole = motions.col(as_index(t)).norm();
      if (taken_as_at_rest || moved(as_index(t)) > freedom.still * whole)
        loose.would_fix.push_back(result.all[t]);
    }
    result.loose.push_back(std::move(loose));
  }
  return result;
}

}  // namespace stakewright::adjustment

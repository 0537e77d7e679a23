#include "congruence.hpp"

#include <Eigen/Cholesky>
#include <cassert>

#include "datum.hpp"

namespace stakewright::placement {
namespace {

using Indices = std::vector<std::size_t>;

Eigen::Index as_index(std::size_t i) { return static_cast<Eigen::Index>(i); }

// What the form is made of, for some stakes.
struct Parts {
  Eigen::VectorXd difference;
  Eigen::MatrixXd motions;  // shift right, shift forward, turn; no columns when tied
  Eigen::MatrixXd weights;  // inverse of Q + c G Gᵀ
};

Eigen::MatrixXd covariance_of(const TwoRounds& rounds, const Indices& of) {
  const Eigen::Index size = 2 * as_index(of.size());
  Eigen::MatrixXd result(size, size);
  for (Eigen::Index row = 0; row < size; ++row) {
    for (Eigen::Index col = 0; col < size; ++col) {
      const auto in_all = [&](Eigen::Index k) {
        return 2 * of[static_cast<std::size_t>(k / 2)] + static_cast<std::size_t>(k % 2);
      };
      result(row, col) = rounds.covariance(in_all(row), in_all(col));
    }
  }
  return result;
}

// Motions of unit mean length a stake, so that adding them to a covariance keeps its size.
Eigen::MatrixXd motions_of(const std::vector<base::Point>& places) {
  base::Point middle;
  for (const base::Point place : places) middle = middle + place;
  const auto count = static_cast<double>(places.size());
  middle = (1.0 / count) * middle;
  double square_m2 = 0.0;
  for (const base::Point place : places) square_m2 += base::dot(place - middle, place - middle);
  const double per_arm = square_m2 > 0.0 ? std::sqrt(count / square_m2) : 0.0;
  Eigen::MatrixXd motions = Eigen::MatrixXd::Zero(2 * as_index(places.size()), 3);
  for (std::size_t i = 0; i < places.size(); ++i) {
    const base::Point arm = per_arm * base::clockwise(places[i] - middle);
    motions.row(2 * as_index(i)) << 1.0, 0.0, arm.x_m;
    motions.row(2 * as_index(i) + 1) << 0.0, 1.0, arm.y_m;
  }
  return motions;
}

Parts parts_of(const TwoRounds& rounds, const Indices& of) {
  const Survey survey = laid_over(rounds);
  const Rigid rigid = rounds.tied ? Rigid{} : fit(survey, {of, of});
  Parts parts;
  parts.difference.resize(2 * as_index(of.size()));
  std::vector<base::Point> places;
  for (std::size_t i = 0; i < of.size(); ++i) {
    places.push_back(laid(rigid, rounds.before[of[i]]));
    const base::Point moved = rounds.after[of[i]] - places.back();
    parts.difference.segment(2 * as_index(i), 2) << moved.x_m, moved.y_m;
  }
  Eigen::MatrixXd covariance = covariance_of(rounds, of);
  parts.motions = rounds.tied ? Eigen::MatrixXd(covariance.rows(), 0) : motions_of(places);
  const double size = covariance.trace() / static_cast<double>(covariance.rows());
  covariance += size * parts.motions * parts.motions.transpose();
  parts.weights =
      covariance.llt().solve(Eigen::MatrixXd::Identity(covariance.rows(), covariance.cols()));
  return parts;
}

// W - W G (Gᵀ W G)⁻¹ Gᵀ W: the weights of the shape alone.
Eigen::MatrixXd weights_of_shape(const Parts& parts) {
  if (parts.motions.cols() == 0) return parts.weights;
  const Eigen::MatrixXd along = parts.weights * parts.motions;
  const Eigen::MatrixXd inner = parts.motions.transpose() * along;
  return parts.weights - along * inner.llt().solve(along.transpose());
}

}  // namespace

Survey laid_over(const TwoRounds& rounds) {
  Survey survey;
  survey.planned = rounds.before;
  survey.center = rounds.center;
  survey.found = rounds.after;
  survey.covariance = rounds.covariance;
  survey.measured = rounds.measured;
  return survey;
}

Congruence congruence(const TwoRounds& rounds, const Indices& of) {
  assert(of.size() >= (rounds.tied ? 1U : 2U));
  const Parts parts = parts_of(rounds, of);
  const Eigen::MatrixXd weights = weights_of_shape(parts);
  const double form = parts.difference.dot(weights * parts.difference);
  return {form, 2 * static_cast<int>(of.size()) - static_cast<int>(parts.motions.cols())};
}

std::vector<Symmetric> sensitivity(const TwoRounds& rounds, const Indices& of) {
  const Eigen::MatrixXd weights = weights_of_shape(parts_of(rounds, of));
  std::vector<Symmetric> result;
  for (Eigen::Index i = 0; i < weights.rows(); i += 2) {
    result.push_back({weights(i, i), weights(i, i + 1), weights(i + 1, i + 1)});
  }
  return result;
}

}  // namespace stakewright::placement

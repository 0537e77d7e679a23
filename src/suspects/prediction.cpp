#include "prediction.hpp"

#include <vector>

#include "bend.hpp"

namespace stakewright::suspects {
namespace {

/// Covariance of the new reading with each of those taken, nothing being wrong.
std::vector<double> covariances(const Arrangement& arrangement, const Row& row) {
  std::vector<double> result;
  for (const Row& taken : arrangement.model.rows)
    result.push_back(
        common_covariance(arrangement.network, arrangement.model.spread_m, row, taken));
  return result;
}

/// What one unit along each column of the hypothesis adds to the new reading.
std::vector<double> sensitivity(const Arrangement& arrangement, const Hypothesis& hypothesis,
                                const Row& row) {
  std::vector<double> result;
  for (const std::size_t index : hypothesis.causes) {
    const Candidate& cause = arrangement.catalogue[index];
    const bool same = cause.index == row.instrument;
    switch (cause.what) {
      case Cause::What::stake: {
        const double sign = cause.index == row.to ? 1.0 : cause.index == row.from ? -1.0 : 0.0;
        result.push_back(sign * row.along.x_m);
        result.push_back(sign * row.along.y_m);
        break;
      }
      case Cause::What::instrument_zero:
        result.push_back(same ? 1.0 : 0.0);
        break;
      case Cause::What::instrument_scale:
        result.push_back(same ? row.planned_m : 0.0);
        break;
      default:  // a slip is of its own reading
        result.insert(result.end(), cause.dimensions, 0.0);
    }
  }
  return result;
}

/// What the straight line misses of the new length.
double bend(const Arrangement& arrangement, const Hypothesis& hypothesis, const Row& row) {
  const std::vector<base::Point> moved = displacements(arrangement.ground(), hypothesis);
  const base::Point step = moved[row.to] - moved[row.from];
  const auto& points = arrangement.network.points;
  return base::norm_m(points[row.to].planned - points[row.from].planned + step) - row.planned_m -
         base::dot(row.along, step);
}

}  // namespace

Prediction predict(const Arrangement& arrangement, const Hypothesis& hypothesis, const Pull& pull) {
  const Model& model = arrangement.model;
  const base::Matrix& gram = model.gram;
  const double planned = base::distance_m(arrangement.network.points[pull.from].planned,
                                          arrangement.network.points[pull.to].planned);
  const Row row = row_of(arrangement.network,
                         {pull.from, pull.to, pull.instrument, planned, planned, pull.sd_m});
  const std::vector<double> q = covariances(arrangement, row);
  const std::vector<double>& projection = hypothesis.projection_of(model);
  std::vector<double> left = sensitivity(arrangement, hypothesis, row);
  Prediction result{bend(arrangement, hypothesis, row), row.sd_m * row.sd_m};
  result.variance += common_covariance(arrangement.network, model.spread_m, row, row);
  for (std::size_t i = 0; i < q.size(); ++i) {
    if (q[i] == 0.0) continue;
    result.mean_m += q[i] * projection[i];
    for (std::size_t j = 0; j < q.size(); ++j) result.variance -= q[i] * gram(i, j) * q[j];
    for (std::size_t k = 0; k < left.size(); ++k) left[k] -= q[i] * gram(i, hypothesis.columns[k]);
  }
  for (std::size_t k = 0; k < left.size(); ++k) {
    result.mean_m += left[k] * hypothesis.sizes.mean[k];
    for (std::size_t l = 0; l < left.size(); ++l)
      result.variance += left[k] * hypothesis.sizes.covariance[k][l] * left[l];
  }
  return result;
}

}  // namespace stakewright::suspects

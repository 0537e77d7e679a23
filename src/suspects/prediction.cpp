#include "prediction.hpp"

#include <vector>

#include "bend.hpp"

namespace stakewright::suspects {
namespace {

/// The new reading's covariance with those taken is K·w: w has the prior variances of its two ends
/// and of its instrument, times what each adds to it.
struct Common {
  std::vector<std::size_t> column;
  std::vector<double> weight;
  double variance = 0.0;  ///< of the new reading, its own noise not in it
};

Common common(const Arrangement& arrangement, const Row& row) {
  Common result;
  const Model& model = arrangement.model;
  const auto add = [&](std::size_t column, double variance, double sensitivity) {
    result.column.push_back(column);
    result.weight.push_back(variance * sensitivity);
    result.variance += variance * sensitivity * sensitivity;
  };
  for (std::size_t e = 0; e < row.end_count; ++e) {
    const End& end = row.ends[e];
    if (arrangement.network.points[end.point].known) continue;
    const double variance = model.spread_m * model.spread_m;
    add(model.point_column(end.point), variance, end.by.x_m);
    add(model.point_column(end.point) + 1, variance, end.by.y_m);
  }
  if (row.instrument < model.instruments) {
    const readings::Instrument& instrument = arrangement.network.instruments[row.instrument];
    add(model.zero_column(row.instrument), instrument.zero_m * instrument.zero_m, 1.0);
    add(model.scale_column(row.instrument), instrument.scale * instrument.scale, row.by_scale());
  }
  return result;
}

/// How the new reading answers to the place of a point.
base::Point answer_to(const Row& row, std::size_t point) {
  for (std::size_t e = 0; e < row.end_count; ++e)
    if (row.ends[e].point == point) return row.ends[e].by;
  return {};
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
        const base::Point by = answer_to(row, cause.index);
        result.push_back(by.x_m);
        result.push_back(by.y_m);
        break;
      }
      case Cause::What::instrument_zero:
        result.push_back(same ? 1.0 : 0.0);
        break;
      case Cause::What::instrument_scale:
        result.push_back(same ? row.by_scale() : 0.0);
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
  const double value = value_with(arrangement.network, row, moved);
  return difference(row, value, row.planned) - straight_change(row, moved);
}

}  // namespace

Prediction predict(const Arrangement& arrangement, const Hypothesis& hypothesis, const Pull& pull) {
  const Model& model = arrangement.model;
  const base::Matrix& gram = model.gram;
  const double planned = base::distance_m(arrangement.network.points[pull.from].planned,
                                          arrangement.network.points[pull.to].planned);
  const Row row = row_of(arrangement.network,
                         {pull.from, pull.to, pull.instrument, planned, planned, pull.sd_m, {}});
  const Common q = common(arrangement, row);
  const std::vector<double>& projection = hypothesis.projection_of(model);
  std::vector<double> left = sensitivity(arrangement, hypothesis, row);
  Prediction result{bend(arrangement, hypothesis, row), row.sd * row.sd + q.variance};
  for (std::size_t i = 0; i < q.column.size(); ++i) {
    result.mean_m += q.weight[i] * projection[q.column[i]];
    for (std::size_t j = 0; j < q.column.size(); ++j)
      result.variance -= q.weight[i] * gram(q.column[i], q.column[j]) * q.weight[j];
    for (std::size_t k = 0; k < left.size(); ++k)
      left[k] -= q.weight[i] * gram(q.column[i], hypothesis.columns[k]);
  }
  for (std::size_t k = 0; k < left.size(); ++k) {
    result.mean_m += left[k] * hypothesis.sizes.mean[k];
    for (std::size_t l = 0; l < left.size(); ++l)
      result.variance += left[k] * hypothesis.sizes.covariance[k][l] * left[l];
  }
  return result;
}

}  // namespace stakewright::suspects

#include "model.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "dense.hpp"

namespace stakewright::suspects {
namespace {

/// Below this no tape is read: a nominal figure of zero must not make a reading infallible.
constexpr double kLeastSd_m = 1e-4;

/// Two points planned nearer than this have no direction between them.
constexpr double kSamePlace_m = 1e-6;

/// One row of K, as its columns that are not zero.
struct SparseRow {
  std::array<std::size_t, 7> column{};
  std::array<double, 7> value{};
};

SparseRow sparse_row(const Model& model, std::size_t reading) {
  const Row& row = model.rows[reading];
  const std::size_t from = model.point_column(row.from);
  const std::size_t to = model.point_column(row.to);
  return {{reading, from, from + 1, to, to + 1, model.zero_column(row.instrument),
           model.scale_column(row.instrument)},
          {1.0, -row.along.x_m, -row.along.y_m, row.along.x_m, row.along.y_m, 1.0, row.planned_m}};
}

/// F, with C = FF' + diag(sd²): the common causes of every reading, each scaled by its standard
/// deviation.
base::Matrix common_factor(const adjustment::Network& network, const Model& model) {
  base::Matrix factor(model.rows.size(), 2 * (model.points + model.instruments));
  for (std::size_t i = 0; i < model.rows.size(); ++i) {
    const Row& row = model.rows[i];
    const auto place = [&](std::size_t point, double sign) {
      if (network.points[point].known) return;
      factor(i, 2 * point) = sign * model.spread_m * row.along.x_m;
      factor(i, 2 * point + 1) = sign * model.spread_m * row.along.y_m;
    };
    place(row.from, -1.0);
    place(row.to, 1.0);
    const readings::Instrument& instrument = network.instruments[row.instrument];
    const std::size_t column = 2 * (model.points + row.instrument);
    factor(i, column) = instrument.zero_m;
    factor(i, column + 1) = instrument.scale * row.planned_m;
  }
  return factor;
}

/// W = (D + FF')⁻¹ = D⁻¹ - D⁻¹F(I + F'D⁻¹F)⁻¹F'D⁻¹, with ln|C|: the sums grow with the number of
/// stakes, not of readings, cubed.
Inverse weight(const Model& model, const base::Matrix& factor) {
  const std::size_t m = factor.rows;
  const std::size_t q = factor.cols;
  base::Matrix scaled(m, q);
  base::Matrix transposed(q, m);
  for (std::size_t i = 0; i < m; ++i)
    for (std::size_t k = 0; k < q; ++k) {
      scaled(i, k) = factor(i, k) / (model.rows[i].sd_m * model.rows[i].sd_m);
      transposed(k, i) = scaled(i, k);
    }
  base::Matrix core = product(transposed, factor);
  for (std::size_t k = 0; k < q; ++k) core(k, k) += 1.0;
  const Inverse inner = inverse_of_positive(core);
  Inverse result{product(product(scaled, inner.matrix), transposed), inner.log_determinant};
  for (double& value : result.matrix.values) value = -value;
  for (std::size_t i = 0; i < m; ++i) {
    result.matrix(i, i) += 1.0 / (model.rows[i].sd_m * model.rows[i].sd_m);
    result.log_determinant += 2.0 * std::log(model.rows[i].sd_m);
  }
  return result;
}

void fill_gram(Model& model, const base::Matrix& w) {
  const std::size_t m = model.rows.size();
  const std::size_t n = model.columns();
  base::Matrix wk(m, n);
  model.gram = base::Matrix(n, n);
  model.projection.assign(n, 0.0);
  std::vector<SparseRow> k;
  for (std::size_t i = 0; i < m; ++i) k.push_back(sparse_row(model, i));
  for (std::size_t i = 0; i < m; ++i)
    for (std::size_t j = 0; j < m; ++j)
      for (std::size_t e = 0; e < k[j].column.size(); ++e)
        wk(i, k[j].column[e]) += w(i, j) * k[j].value[e];
  for (std::size_t i = 0; i < m; ++i) {
    for (std::size_t e = 0; e < k[i].column.size(); ++e)
      for (std::size_t c = 0; c < n; ++c) model.gram(k[i].column[e], c) += k[i].value[e] * wk(i, c);
    for (std::size_t c = 0; c < n; ++c) model.projection[c] += wk(i, c) * model.rows[i].off_m;
  }
}

}  // namespace

Row row_of(const adjustment::Network& network, const readings::Observation& observation) {
  Row row;
  row.from = observation.from;
  row.to = observation.to;
  row.instrument = observation.instrument;
  const base::Point step = network.points[row.to].planned - network.points[row.from].planned;
  row.planned_m = base::norm_m(step);
  if (row.planned_m > kSamePlace_m) row.along = (1.0 / row.planned_m) * step;
  row.off_m = observation.corrected - row.planned_m;
  row.sd_m = std::max(observation.sd, kLeastSd_m);
  return row;
}

Model model_of(const adjustment::Network& network, double spread_m) {
  Model model;
  model.points = network.points.size();
  model.instruments = network.instruments.size();
  model.spread_m = spread_m;
  model.reached.assign(model.points, false);
  for (const readings::Observation& observation : network.observations) {
    model.rows.push_back(row_of(network, observation));
    for (const std::size_t end : {observation.from, observation.to})
      model.reached[end] = !network.points[end].known;
  }
  const Inverse w = weight(model, common_factor(network, model));
  fill_gram(model, w.matrix);
  model.log_likelihood = -0.5 * w.log_determinant;
  for (std::size_t i = 0; i < model.rows.size(); ++i)
    model.log_likelihood -= 0.5 * model.projection[i] * model.rows[i].off_m;
  return model;
}

}  // namespace stakewright::suspects

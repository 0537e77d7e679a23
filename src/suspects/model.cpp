#include "model.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "stakewright/algebra/algebra.hpp"

namespace stakewright::suspects {
namespace {

/// Below this no tape and no circle is read: a nominal figure of zero must not make a reading
/// infallible.
constexpr double kLeastSd_m = 1e-4;
constexpr double kLeastSd_rad = 1e-5;

/// One row of K, as its columns that are not zero.
struct SparseRow {
  std::array<std::size_t, 9> column{};
  std::array<double, 9> value{};
  std::size_t count = 0;
};

SparseRow sparse_row(const Model& model, std::size_t reading) {
  const Row& row = model.rows[reading];
  SparseRow result;
  const auto add = [&](std::size_t column, double value) {
    result.column[result.count] = column;
    result.value[result.count++] = value;
  };
  add(reading, 1.0);
  for (const readings::Answer& end : row.planned.answers()) {
    add(model.point_column(end.point), end.by.x_m);
    add(model.point_column(end.point) + 1, end.by.y_m);
  }
  add(model.zero_column(row.seen.instrument), row.planned.by_zero);
  add(model.scale_column(row.seen.instrument), row.planned.by_scale);
  return result;
}

/// F, with C = FF' + diag(sd²): the common causes of every reading, each scaled by its standard
/// deviation.
base::Matrix common_factor(const adjustment::Network& network, const Model& model) {
  base::Matrix factor(model.rows.size(), 2 * (model.points + model.instruments));
  for (std::size_t i = 0; i < model.rows.size(); ++i) {
    const Row& row = model.rows[i];
    for (const readings::Answer& end : row.planned.answers()) {
      if (network.points[end.point].known) continue;
      factor(i, 2 * end.point) = model.spread_m * end.by.x_m;
      factor(i, 2 * end.point + 1) = model.spread_m * end.by.y_m;
    }
    const readings::Instrument& instrument = network.instruments[row.seen.instrument];
    const std::size_t column = 2 * (model.points + row.seen.instrument);
    factor(i, column) = instrument.zero_m * row.planned.by_zero;
    factor(i, column + 1) = instrument.scale * row.planned.by_scale;
  }
  return factor;
}

/// W = (D + FF')⁻¹ = D⁻¹ - D⁻¹F(I + F'D⁻¹F)⁻¹F'D⁻¹, with ln|C|: the sums grow with the number of
/// stakes, not of readings, cubed.
algebra::Inverse weight(const Model& model, const base::Matrix& factor) {
  base::Matrix scaled = factor;
  for (std::size_t i = 0; i < factor.rows; ++i)
    for (std::size_t k = 0; k < factor.cols; ++k)
      scaled(i, k) /= model.rows[i].sd * model.rows[i].sd;
  base::Matrix core = algebra::product(algebra::transposed(scaled), factor);
  for (std::size_t k = 0; k < core.rows; ++k) core(k, k) += 1.0;
  const algebra::Inverse inner = algebra::inverse_of_positive(core);
  algebra::Inverse result{algebra::propagated(scaled, inner.matrix), inner.log_determinant};
  for (double& value : result.matrix.values) value = -value;
  for (std::size_t i = 0; i < factor.rows; ++i) {
    result.matrix(i, i) += 1.0 / (model.rows[i].sd * model.rows[i].sd);
    result.log_determinant += 2.0 * std::log(model.rows[i].sd);
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
      for (std::size_t e = 0; e < k[j].count; ++e) wk(i, k[j].column[e]) += w(i, j) * k[j].value[e];
  for (std::size_t i = 0; i < m; ++i) {
    for (std::size_t e = 0; e < k[i].count; ++e)
      for (std::size_t c = 0; c < n; ++c) model.gram(k[i].column[e], c) += k[i].value[e] * wk(i, c);
    for (std::size_t c = 0; c < n; ++c) model.projection[c] += wk(i, c) * model.rows[i].off;
  }
}

}  // namespace

std::vector<base::Point> planned_places(const adjustment::Network& network) {
  std::vector<base::Point> places;
  for (const adjustment::NetworkPoint& point : network.points) places.push_back(point.planned);
  return places;
}

double bend_of(const adjustment::Network& network, const Row& row,
               const std::vector<base::Point>& moved) {
  std::vector<base::Point> places = planned_places(network);
  double straight = 0.0;
  for (const readings::Answer& end : row.planned.answers()) {
    places[end.point] = places[end.point] + moved[end.point];
    straight += base::dot(end.by, moved[end.point]);
  }
  return row.seen.difference(readings::expected(row.seen, places).value, row.planned.value) -
         straight;
}

Row row_of(const readings::Observation& observation, std::span<const base::Point> planned) {
  Row row{observation, readings::expected(observation, planned), 0.0, 0.0};
  row.off = observation.difference(observation.corrected, row.planned.value);
  row.sd = std::max(observation.sd, observation.is_angle() ? kLeastSd_rad : kLeastSd_m);
  return row;
}

Model model_of(const adjustment::Network& network, double spread_m) {
  adjustment::demand_sound(network);
  Model model;
  model.points = network.points.size();
  model.instruments = network.instruments.size();
  model.spread_m = spread_m;
  model.reached.assign(model.points, false);
  const std::vector<base::Point> planned = planned_places(network);
  for (const readings::Observation& observation : network.observations) {
    model.rows.push_back(row_of(observation, planned));
    for (const std::size_t point : observation.points())
      model.reached[point] = !network.points[point].known;
  }
  const algebra::Inverse w = weight(model, common_factor(network, model));
  fill_gram(model, w.matrix);
  model.log_likelihood = -0.5 * w.log_determinant;
  for (std::size_t i = 0; i < model.rows.size(); ++i)
    model.log_likelihood -= 0.5 * model.projection[i] * model.rows[i].off;
  return model;
}

}  // namespace stakewright::suspects

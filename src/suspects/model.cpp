#include "model.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "dense.hpp"
#include "stakewright/base/turning.hpp"

namespace stakewright::suspects {
namespace {

/// Below this no tape and no circle is read: a nominal figure of zero must not make a reading
/// infallible.
constexpr double kLeastSd_m = 1e-4;
constexpr double kLeastSd_rad = 1e-5;

/// Two points planned nearer than this have no direction between them.
constexpr double kSamePlace_m = 1e-6;

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
  for (std::size_t e = 0; e < row.end_count; ++e) {
    const std::size_t column = model.point_column(row.ends[e].point);
    add(column, row.ends[e].by.x_m);
    add(column + 1, row.ends[e].by.y_m);
  }
  if (row.is_angle()) return result;
  add(model.zero_column(row.instrument), row.by_zero());
  add(model.scale_column(row.instrument), row.by_scale());
  return result;
}

/// F, with C = FF' + diag(sd²): the common causes of every reading, each scaled by its standard
/// deviation.
base::Matrix common_factor(const adjustment::Network& network, const Model& model) {
  base::Matrix factor(model.rows.size(), 2 * (model.points + model.instruments));
  for (std::size_t i = 0; i < model.rows.size(); ++i) {
    const Row& row = model.rows[i];
    for (std::size_t e = 0; e < row.end_count; ++e) {
      const End& end = row.ends[e];
      if (network.points[end.point].known) continue;
      factor(i, 2 * end.point) = model.spread_m * end.by.x_m;
      factor(i, 2 * end.point + 1) = model.spread_m * end.by.y_m;
    }
    const readings::Instrument& instrument = network.instruments[row.instrument];
    const std::size_t column = 2 * (model.points + row.instrument);
    factor(i, column) = instrument.zero_m * row.by_zero();
    factor(i, column + 1) = instrument.scale * row.by_scale();
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
      scaled(i, k) = factor(i, k) / (model.rows[i].sd * model.rows[i].sd);
      transposed(k, i) = scaled(i, k);
    }
  base::Matrix core = product(transposed, factor);
  for (std::size_t k = 0; k < q; ++k) core(k, k) += 1.0;
  const Inverse inner = inverse_of_positive(core);
  Inverse result{product(product(scaled, inner.matrix), transposed), inner.log_determinant};
  for (double& value : result.matrix.values) value = -value;
  for (std::size_t i = 0; i < m; ++i) {
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

void fill_ends(const adjustment::Network& network, Row& row) {
  const auto sight = [&](std::size_t from, std::size_t to) {
    return network.points[to].planned - network.points[from].planned;
  };
  if (row.at) {
    const base::Point back = sight(*row.at, row.from);
    const base::Point ahead = sight(*row.at, row.to);
    const bool defined = base::norm_m(back) > kSamePlace_m && base::norm_m(ahead) > kSamePlace_m;
    const base::Point by_from = defined ? -1.0 * base::bearing_by_place(back) : base::Point{};
    const base::Point by_to = defined ? base::bearing_by_place(ahead) : base::Point{};
    row.ends = {End{row.from, by_from}, {row.to, by_to}, {*row.at, -1.0 * (by_from + by_to)}};
    row.end_count = 3;
    return;
  }
  const base::Point step = sight(row.from, row.to);
  const double length = base::norm_m(step);
  const base::Point along = length > kSamePlace_m ? (1.0 / length) * step : base::Point{};
  row.ends = {End{row.from, -1.0 * along}, {row.to, along}, {}};
}

}  // namespace

double value_with(const adjustment::Network& network, const Row& row,
                  const std::vector<base::Point>& moved) {
  const auto place = [&](std::size_t point) {
    const base::Point planned = network.points[point].planned;
    return moved.empty() ? planned : planned + moved[point];
  };
  if (row.at) return base::turned_rad(place(*row.at), place(row.from), place(row.to));
  return base::distance_m(place(row.from), place(row.to));
}

double difference(const Row& row, double value, double other) {
  return row.is_angle() ? base::wrapped_rad(value - other) : value - other;
}

double straight_change(const Row& row, const std::vector<base::Point>& moved) {
  double change = 0.0;
  for (std::size_t e = 0; e < row.end_count; ++e)
    change += base::dot(row.ends[e].by, moved[row.ends[e].point]);
  return change;
}

Row row_of(const adjustment::Network& network, const readings::Observation& observation) {
  Row row;
  row.from = observation.from;
  row.to = observation.to;
  row.at = observation.at;
  row.instrument = observation.instrument;
  fill_ends(network, row);
  row.planned = value_with(network, row, {});
  row.off = difference(row, observation.corrected, row.planned);
  row.sd = std::max(observation.sd, row.is_angle() ? kLeastSd_rad : kLeastSd_m);
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
    const Row& row = model.rows.back();
    for (std::size_t e = 0; e < row.end_count; ++e)
      model.reached[row.ends[e].point] = !network.points[row.ends[e].point].known;
  }
  const Inverse w = weight(model, common_factor(network, model));
  fill_gram(model, w.matrix);
  model.log_likelihood = -0.5 * w.log_determinant;
  for (std::size_t i = 0; i < model.rows.size(); ++i)
    model.log_likelihood -= 0.5 * model.projection[i] * model.rows[i].off;
  return model;
}

}  // namespace stakewright::suspects

#include "datum.hpp"

#include <cmath>

#include "covariance.hpp"

namespace stakewright::placement {
namespace {

using base::Matrix;
using base::Point;

Point mean(const std::vector<Point>& points, const std::vector<std::size_t>& of) {
  Point sum;
  for (const std::size_t corner : of) sum = sum + points[corner];
  return (1.0 / static_cast<double>(of.size())) * sum;
}

// Per corner how it goes with a turn of the laying, clockwise about the datum's mean.
std::vector<Point> arms(const Survey& survey, const Rigid& rigid, const Datum& datum) {
  const Point middle = laid(rigid, mean(survey.planned, datum.shift));
  std::vector<Point> result;
  for (const Point planned : survey.planned) {
    result.push_back(base::clockwise(laid(rigid, planned) - middle));
  }
  return result;
}

// D, 3 x 2n: shift and turn of the laying per unit of each found coordinate.
Matrix answer(const std::vector<Point>& arms, const Datum& datum) {
  Matrix response(3, 2 * arms.size());
  const double share = 1.0 / static_cast<double>(datum.shift.size());
  for (const std::size_t corner : datum.shift) {
    response(0, 2 * corner) += share;
    response(1, 2 * corner + 1) += share;
  }
  double square_m2 = 0.0;
  Point sum;
  for (const std::size_t corner : datum.turn) {
    square_m2 += base::dot(arms[corner], arms[corner]);
    sum = sum + arms[corner];
  }
  if (square_m2 == 0.0) return response;  // one corner alone: its turn is not asked
  for (const std::size_t corner : datum.turn) {
    response(2, 2 * corner) += arms[corner].x_m / square_m2;
    response(2, 2 * corner + 1) += arms[corner].y_m / square_m2;
  }
  for (const std::size_t corner : datum.shift) {
    response(2, 2 * corner) -= share * sum.x_m / square_m2;
    response(2, 2 * corner + 1) -= share * sum.y_m / square_m2;
  }
  return response;
}

// S = I - G D, zero rows for corners that are not measured.
Matrix transformation(const Survey& survey, const std::vector<Point>& arms, const Datum& datum) {
  const std::size_t n = arms.size();
  const Matrix response = answer(arms, datum);
  Matrix s(2 * n, 2 * n);
  for (std::size_t i = 0; i < n; ++i) {
    if (!survey.measured[i]) continue;
    for (std::size_t col = 0; col < 2 * n; ++col) {
      s(2 * i, col) = -response(0, col) - arms[i].x_m * response(2, col);
      s(2 * i + 1, col) = -response(1, col) - arms[i].y_m * response(2, col);
    }
    s(2 * i, 2 * i) += 1.0;
    s(2 * i + 1, 2 * i + 1) += 1.0;
  }
  return s;
}

}  // namespace

// The turn maximises the sum of q . Rp over the arms p planned and q found.
Rigid fit(const Survey& survey, const Datum& datum) {
  if (datum.shift.empty()) return {};
  const Point planned_mean = mean(survey.planned, datum.shift);
  const Point found_mean = mean(survey.found, datum.shift);
  double across = 0.0;
  double along = 0.0;
  for (const std::size_t corner : datum.turn) {
    const Point p = survey.planned[corner] - planned_mean;
    const Point q = survey.found[corner] - found_mean;
    across += base::dot(q, base::clockwise(p));
    along += base::dot(q, p);
  }
  const Rigid turn{0.0, 0.0, std::atan2(across, along)};
  const Point shift = found_mean - laid(turn, planned_mean);
  return {shift.x_m, shift.y_m, turn.turn_rad};
}

// S C Sᵀ, S = I - G D, G the three rigid motions and D the datum's answer to the found places.
Matrix deviation_covariance(const Survey& survey, const Rigid& rigid, const Datum& datum) {
  const std::size_t n = survey.planned.size();
  if (datum.shift.empty()) return {2 * n, 2 * n};
  const Matrix s = transformation(survey, arms(survey, rigid, datum), datum);
  return propagated(s, survey.covariance);
}

}  // namespace stakewright::placement

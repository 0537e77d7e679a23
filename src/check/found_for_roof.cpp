// The found corners as the roof needs them: turned and shifted back onto the plan.
#include <cmath>

#include "stakewright/check/check.hpp"

namespace stakewright::check {
namespace {

base::Point turned_back(base::Point point, double turn_rad) {
  return std::cos(turn_rad) * point - std::sin(turn_rad) * base::clockwise(point);
}

// R C Rᵀ, R turning every point back.
base::Matrix turned_back(const base::Matrix& covariance, double turn_rad) {
  base::Matrix half(covariance.rows, covariance.cols);
  for (std::size_t row = 0; row < covariance.rows; row += 2) {
    for (std::size_t col = 0; col < covariance.cols; ++col) {
      const base::Point turned =
          turned_back(base::Point{covariance(row, col), covariance(row + 1, col)}, turn_rad);
      half(row, col) = turned.x_m;
      half(row + 1, col) = turned.y_m;
    }
  }
  base::Matrix result(covariance.rows, covariance.cols);
  for (std::size_t row = 0; row < half.rows; ++row) {
    for (std::size_t col = 0; col < half.cols; col += 2) {
      const base::Point turned =
          turned_back(base::Point{half(row, col), half(row, col + 1)}, turn_rad);
      result(row, col) = turned.x_m;
      result(row, col + 1) = turned.y_m;
    }
  }
  return result;
}

// The survey with the center pin after the corners; its place is there and is known.
placement::Survey with_pin(const Findings& findings) {
  const std::size_t pin = findings.network.corner_count;
  placement::Survey survey = *findings.survey;
  survey.planned.push_back(findings.network.points[pin].planned);
  survey.found.push_back(findings.used.found[pin]);
  survey.measured.push_back(true);
  survey.covariance = base::Matrix(2 * pin + 2, 2 * pin + 2);
  for (std::size_t row = 0; row < survey.covariance.rows; ++row) {
    for (std::size_t col = 0; col < survey.covariance.cols; ++col) {
      survey.covariance(row, col) = findings.used.covariance(row, col);
    }
  }
  return survey;
}

// Tops of the footings, when every one of them is leveled.
std::optional<roof::Footings> footings_of(const Findings& findings) {
  if (!findings.levels) return std::nullopt;
  const std::size_t n = findings.network.corner_count;
  roof::Footings footings{{}, base::Matrix(n, n)};
  for (std::size_t i = 0; i < n; ++i) {
    if (!findings.levels->footings[i].known) return std::nullopt;
    footings.height_m.push_back(findings.levels->footings[i].height_m);
    for (std::size_t j = 0; j < n; ++j)
      footings.covariance(i, j) = findings.levels->heights.covariance(i, j);
  }
  return footings;
}

}  // namespace

std::optional<roof::FoundCorners> found_for_roof(const Findings& findings) {
  if (!findings.placement || findings.used.status != adjustment::Status::settled) return {};
  const placement::Placement& placement = *findings.placement;
  const double turn_rad = placement.rigid.turn_rad;
  const base::Point shift{placement.rigid.x_m, placement.rigid.y_m};
  roof::FoundCorners found;
  for (const base::Point corner : findings.survey->found) {
    found.corners.push_back(turned_back(corner - shift, turn_rad));
  }
  found.covariance = turned_back(placement.deviation_covariance, turn_rad);
  found.footings = footings_of(findings);
  const std::size_t pin = findings.network.corner_count;  // O follows the corners
  if (findings.used.place_known[pin]) {
    found.pin = turned_back(findings.used.found[pin] - shift, turn_rad);
    const base::Matrix covariance =
        placement::deviation_covariance(with_pin(findings), placement.rigid, placement.datum);
    found.covariance = turned_back(covariance, turn_rad);
  }
  return found;
}

}  // namespace stakewright::check

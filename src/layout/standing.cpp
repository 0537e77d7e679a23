#include "standing.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace stakewright::layout {
namespace {

/// Sine of the angle below which two tapes lie in line: their arcs then run along each other for
/// meters within a hair's breadth, and where they cross is rounding.
constexpr double kInLine = 1e-6;

double cross(base::Point a, base::Point b) { return a.x_m * b.y_m - a.y_m * b.x_m; }

struct Covariance {
  double xx = 0.0;
  double xy = 0.0;
  double yy = 0.0;
};

/// s is the covariance {00, 01, 11} of the two factors of a and b.
Covariance covariance_of_sum(base::Point a, base::Point b, const std::array<double, 3>& s) {
  return {a.x_m * a.x_m * s[0] + 2.0 * a.x_m * b.x_m * s[1] + b.x_m * b.x_m * s[2],
          a.x_m * a.y_m * s[0] + (a.x_m * b.y_m + a.y_m * b.x_m) * s[1] + b.x_m * b.y_m * s[2],
          a.y_m * a.y_m * s[0] + 2.0 * a.y_m * b.y_m * s[1] + b.y_m * b.y_m * s[2]};
}

double larger_eigenvalue(const Covariance& c) {
  return 0.5 * (c.xx + c.yy) + std::hypot(0.5 * (c.xx - c.yy), c.xy);
}

}  // namespace

double taped_variance_m2(const TapeSpread& spread, double length_m) {
  const double growing = spread.per_length * length_m;
  return spread.constant_m * spread.constant_m + growing * growing +
         2.0 * spread.centering_m * spread.centering_m;
}

Standing::Standing(const TapeSpread& spread, std::size_t most)
    : spread_(spread), covariance_(2 * most, 2 * most) {}

bool Standing::has(const std::string& label) const {
  return std::find(labels_.begin(), labels_.end(), label) != labels_.end();
}

std::size_t Standing::add(const std::string& label, base::Point place) {
  labels_.push_back(label);
  at_.push_back(place);
  assert(2 * size() <= covariance_.rows);
  return size() - 1;
}

void Standing::add_exact(const std::string& label, base::Point place) { add(label, place); }

void Standing::add_along(const std::string& label, base::Point place) {
  const base::Point line = place - at_[0];
  const double length = base::norm_m(line);
  const base::Point unit = (1.0 / length) * line;
  const double variance = taped_variance_m2(spread_, length);
  const std::size_t row = 2 * add(label, place);
  covariance_(row, row) = variance * unit.x_m * unit.x_m;
  covariance_(row, row + 1) = covariance_(row + 1, row) = variance * unit.x_m * unit.y_m;
  covariance_(row + 1, row + 1) = variance * unit.y_m * unit.y_m;
}

double Standing::along(std::size_t i, base::Point a, std::size_t j, base::Point b) const {
  const std::size_t row = 2 * i;
  const std::size_t col = 2 * j;
  return a.x_m * (covariance_(row, col) * b.x_m + covariance_(row, col + 1) * b.y_m) +
         a.y_m * (covariance_(row + 1, col) * b.x_m + covariance_(row + 1, col + 1) * b.y_m);
}

std::optional<Standing::Geometry> Standing::geometry(std::size_t first, std::size_t second,
                                                     base::Point place) const {
  Geometry g;
  g.hold = {first, second};
  for (std::size_t k = 0; k < 2; ++k) {
    const base::Point line = place - at_[g.hold[k]];
    g.length_m[k] = base::norm_m(line);
    if (g.length_m[k] < kSamePlace_m) return std::nullopt;
    g.tape[k] = (1.0 / g.length_m[k]) * line;
  }
  const double sine = cross(g.tape[0], g.tape[1]);
  if (std::abs(sine) < kInLine) return std::nullopt;
  // Columns of the inverse of the matrix whose rows are the two unit vectors.
  g.pull[0] = (1.0 / sine) * base::Point{g.tape[1].y_m, -g.tape[1].x_m};
  g.pull[1] = (1.0 / sine) * base::Point{-g.tape[0].y_m, g.tape[0].x_m};
  return g;
}

std::array<double, 3> Standing::stretch_covariance(const Geometry& g) const {
  return {
      along(g.hold[0], g.tape[0], g.hold[0], g.tape[0]) + taped_variance_m2(spread_, g.length_m[0]),
      along(g.hold[0], g.tape[0], g.hold[1], g.tape[1]),
      along(g.hold[1], g.tape[1], g.hold[1], g.tape[1]) +
          taped_variance_m2(spread_, g.length_m[1])};
}

std::optional<Crossing> Standing::crossing(std::size_t first, std::size_t second,
                                           base::Point place) const {
  const auto g = geometry(first, second, place);
  if (!g) return std::nullopt;
  const double angle = std::atan2(std::abs(cross(g->tape[0], g->tape[1])),
                                  std::abs(base::dot(g->tape[0], g->tape[1])));
  const auto covariance = covariance_of_sum(g->pull[0], g->pull[1], stretch_covariance(*g));
  return Crossing{first, second, angle, std::sqrt(larger_eigenvalue(covariance))};
}

void Standing::add_crossing(const std::string& label, base::Point place, const Crossing& crossing) {
  const auto g = geometry(crossing.first, crossing.second, place);
  assert(g);
  const auto covariance = covariance_of_sum(g->pull[0], g->pull[1], stretch_covariance(*g));
  const std::size_t row = 2 * add(label, place);
  for (std::size_t col = 0; col < row; ++col) {
    std::array<double, 2> stretch{};
    for (std::size_t k = 0; k < 2; ++k)
      stretch[k] = g->tape[k].x_m * covariance_(2 * g->hold[k], col) +
                   g->tape[k].y_m * covariance_(2 * g->hold[k] + 1, col);
    const base::Point shared = stretch[0] * g->pull[0] + stretch[1] * g->pull[1];
    covariance_(row, col) = covariance_(col, row) = shared.x_m;
    covariance_(row + 1, col) = covariance_(col, row + 1) = shared.y_m;
  }
  covariance_(row, row) = covariance.xx;
  covariance_(row, row + 1) = covariance_(row + 1, row) = covariance.xy;
  covariance_(row + 1, row + 1) = covariance.yy;
}

}  // namespace stakewright::layout

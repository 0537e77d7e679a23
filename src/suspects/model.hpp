// The numbers of one round as a Gaussian model about the plan.
//
// y = A·x + B·b + e, where y is what each reading is off the planned length or angle,
// x the stakes' places about the plan, b the instruments' scale and zero.  With
// nothing wrong y ~ N(0, C); W = C⁻¹.  Every cause adds to y along one or two of
// the columns K = [I A Z S]: a reading, a point's x and y, an instrument's zero
// and scale.  All evidence then needs only K'WK and K'Wy.
// docs/methods/suspects.md.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "stakewright/adjustment/network.hpp"
#include "stakewright/base/matrix.hpp"
#include "stakewright/base/point.hpp"

namespace stakewright::suspects {

/// How a reading answers to the place of one point.
struct End {
  std::size_t point = 0;
  base::Point by;  ///< zero when two of its points are planned at one place
};

/// One reading, seen from the plan: meters, or radians for an angle.
struct Row {
  std::size_t from = 0;
  std::size_t to = 0;
  std::optional<std::size_t> at;  ///< of an angle
  std::size_t instrument = 0;
  std::array<End, 3> ends{};
  std::size_t end_count = 2;
  double planned = 0.0;
  double off = 0.0;  ///< y: corrected less planned
  double sd = 0.0;

  [[nodiscard]] bool is_angle() const { return at.has_value(); }
  /// How it answers to its instrument's zero and scale; an angle does not.
  [[nodiscard]] double by_zero() const { return is_angle() ? 0.0 : 1.0; }
  [[nodiscard]] double by_scale() const { return is_angle() ? 0.0 : planned; }
};

struct Model {
  std::vector<Row> rows;
  std::size_t points = 0;
  std::size_t instruments = 0;
  std::vector<bool> reached;       ///< per point: some reading ends there, and its place is asked
  base::Matrix gram;               ///< K'WK
  std::vector<double> projection;  ///< K'Wy
  double spread_m = 0.0;
  double log_likelihood = 0.0;  ///< of y with nothing wrong: -(y'Wy + ln|C|)/2, less a constant

  [[nodiscard]] std::size_t columns() const { return rows.size() + 2 * points + 2 * instruments; }
  [[nodiscard]] std::size_t point_column(std::size_t point) const {
    return rows.size() + 2 * point;
  }
  [[nodiscard]] std::size_t zero_column(std::size_t instrument) const {
    return rows.size() + 2 * points + instrument;
  }
  [[nodiscard]] std::size_t scale_column(std::size_t instrument) const {
    return rows.size() + 2 * points + instruments + instrument;
  }
};

/// What a reading of the row's points would be with every point moved from its planned place; none
/// moves when `moved` is empty.
double value_with(const adjustment::Network& network, const Row& row,
                  const std::vector<base::Point>& moved);

/// The value less another one of the same row; of an angle in (−pi, pi].
double difference(const Row& row, double value, double other);

/// The same to first order, less the planned value.
double straight_change(const Row& row, const std::vector<base::Point>& moved);

/// A reading seen from the plan.
Row row_of(const adjustment::Network& network, const readings::Observation& observation);

/// `spread_m`: standard deviation of a well-set stake, each way.
Model model_of(const adjustment::Network& network, double spread_m);

}  // namespace stakewright::suspects

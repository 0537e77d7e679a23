// The numbers of one round as a Gaussian model about the plan.
//
// y = A·x + B·b + e, where y is what each reading is off the planned length or angle,
// x the stakes' places about the plan, b the instruments' scale and zero.  With
// nothing wrong y ~ N(0, C); W = C⁻¹.  Every cause adds to y along one or two of
// the columns K = [I A Z S]: a reading, a point's x and y, an instrument's zero
// and scale.  All evidence then needs only K'WK and K'Wy.
// docs/methods/suspects.md.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "stakewright/adjustment/network.hpp"
#include "stakewright/base/matrix.hpp"
#include "stakewright/base/point.hpp"

namespace stakewright::suspects {

/// One reading, seen from the plan: meters, or radians for an angle.
struct Row {
  readings::Observation seen;
  readings::Expected planned;
  double off = 0.0;  ///< y: corrected less planned
  double sd = 0.0;
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

/// Every point where it is planned.
std::vector<base::Point> planned_places(const adjustment::Network& network);

/// The row's value with every point moved from its planned place, less its change to first order
/// and the planned value: what the straight-line model misses.
double bend_of(const adjustment::Network& network, const Row& row,
               const std::vector<base::Point>& moved);

/// A reading seen from the plan.
Row row_of(const readings::Observation& observation, std::span<const base::Point> planned);

/// `spread_m`: standard deviation of a well-set stake, each way.
Model model_of(const adjustment::Network& network, double spread_m);

}  // namespace stakewright::suspects

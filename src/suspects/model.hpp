// The numbers of one round as a Gaussian model about the plan.
//
// y = A·x + B·b + e, where y is what each reading is off the planned length,
// x the stakes' places about the plan, b the instruments' scale and zero.  With
// nothing wrong y ~ N(0, C); W = C⁻¹.  Every cause adds to y along one or two of
// the columns K = [I A Z S]: a reading, a point's x and y, an instrument's zero
// and scale.  All evidence then needs only K'WK and K'Wy.
// docs/methods/suspects.md.
#pragma once

#include <cstddef>
#include <vector>

#include "stakewright/adjustment/network.hpp"
#include "stakewright/base/matrix.hpp"
#include "stakewright/base/point.hpp"

namespace stakewright::suspects {

/// One reading, seen from the plan.
struct Row {
  std::size_t from = 0;
  std::size_t to = 0;
  std::size_t instrument = 0;
  base::Point along;  ///< unit vector from `from` to `to`; zero when both are planned at one place
  double planned_m = 0.0;
  double off_m = 0.0;  ///< y: corrected length less planned length
  double sd_m = 0.0;
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

/// A reading seen from the plan; the observation's own ends may be replaced by others.
Row row_of(const adjustment::Network& network, const readings::Observation& observation);

/// `spread_m`: standard deviation of a well-set stake, each way.
Model model_of(const adjustment::Network& network, double spread_m);

}  // namespace stakewright::suspects

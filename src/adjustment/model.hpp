// The model of a reading and its linear form, shared by every step of the adjustment.
//
// length = (1 + scale)·|P − Q| + zero + e.  Angle at S, clockwise from P to Q:
// bearing of Q − bearing of P + e.  Meters and radians.
#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <optional>
#include <vector>

#include "stakewright/adjustment/linear.hpp"
#include "stakewright/adjustment/network.hpp"
#include "stakewright/base/point.hpp"

namespace stakewright::adjustment {

/// Places and instrument errors, taken as true for the moment.
struct State {
  std::vector<base::Point> at;  ///< per network point
  std::vector<double> scale;    ///< per instrument
  std::vector<double> zero_m;
};

/// Every point where the job wants it, every instrument right.
State planned_state(const Network& network);

readings::Expected expected(const State& state, const readings::Observation& observation);

inline constexpr Eigen::Index kNotAsked = -1;

/// Columns of the design matrix: places first, then scales and zeros.
struct Unknowns {
  std::vector<Eigen::Index> point;  ///< per network point: its first column, or kNotAsked
  std::vector<Eigen::Index> scale;  ///< per instrument
  std::vector<Eigen::Index> zero;
  Eigen::Index places = 0;  ///< columns of places
  Eigen::Index count = 0;   ///< all columns
};

/// Two columns for every point in `asked`.
Unknowns place_unknowns(const std::vector<bool>& asked);

/// The same, and the scale and zero (where they have a prior) of every instrument that made a
/// length among `readings`.
Unknowns all_unknowns(const Network& network, const std::vector<bool>& asked,
                      const std::vector<std::size_t>& readings);

/// One row of the design matrix, in meters or radians a unit of the unknown.  `row` must be zero.
readings::Expected fill_row(const Unknowns& unknowns, const State& state,
                            const readings::Observation& observation,
                            Eigen::Ref<Eigen::RowVectorXd> row);

/// The linear model at a state, each row divided by its standard deviation:
/// the readings in order, then one row for the prior of each scale and zero asked.
struct LinearModel {
  Eigen::MatrixXd design;
  Eigen::VectorXd misclosure;  ///< observed minus computed
};

/// Empty when two points of a reading are at one place.
std::optional<LinearModel> linear_model(const Network& network, const Unknowns& unknowns,
                                        const State& state,
                                        const std::vector<std::size_t>& readings);

/// Of the rows in `which`; no priors.
LinearModel linear_model(const LinearReadings& readings, const std::vector<std::size_t>& which);

/// The numbers below `count` that are not in `excluded`.
std::vector<std::size_t> all_but(const std::vector<std::size_t>& excluded, std::size_t count);

inline Eigen::Index as_index(std::size_t i) { return static_cast<Eigen::Index>(i); }

}  // namespace stakewright::adjustment

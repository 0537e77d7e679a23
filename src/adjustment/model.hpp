// The model of a taped length and its linear form, shared by every step of the adjustment.
//
// length = (1 + scale)·|P − Q| + zero + e.  Metres.
#pragma once

#include <Eigen/Core>
#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "stakewright/adjustment/network.hpp"
#include "stakewright/base/point.hpp"

namespace stakewright::adjustment {

/// Two ends nearer than this have no direction between them: a hundredth of the
/// finest mark on any tape, and far above what rounding does to a coordinate.
inline constexpr double kSamePlace_m = 1e-5;

/// Places and instrument errors, taken as true for the moment.
struct State {
  std::vector<std::array<double, 2>> at;  ///< per network point
  std::vector<double> scale;              ///< per instrument
  std::vector<double> zero_m;

  [[nodiscard]] base::Point place(std::size_t point) const { return {at[point][0], at[point][1]}; }
};

/// Every point where the job wants it, every instrument right.
State planned_state(const Network& network);

/// The length a perfect pull would read, and how it answers to its ends.
struct ModelLength {
  bool defined = false;     ///< false: the ends are at one place
  double length_m = 0.0;    ///< (1 + scale)·distance + zero
  double distance_m = 0.0;  ///< its derivative by the scale; by the zero it is 1
  base::Point by_to;  ///< its derivative by the place of the far end; by the near end: the opposite
};

ModelLength model_length(base::Point from, base::Point to, double scale, double zero_m);

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

/// The same, and the scale and zero (where they have a prior) of every instrument that made one
/// of `readings`.
Unknowns all_unknowns(const Network& network, const std::vector<bool>& asked,
                      const std::vector<std::size_t>& readings);

/// One row of the design matrix, in metres a unit of the unknown.  `row` must be zero.
ModelLength fill_row(const Unknowns& unknowns, const State& state,
                     const readings::Observation& observation, Eigen::Ref<Eigen::RowVectorXd> row);

/// The linear model at a state, each row divided by its standard deviation:
/// the readings in order, then one row for the prior of each scale and zero asked.
struct LinearModel {
  Eigen::MatrixXd design;
  Eigen::VectorXd misclosure;  ///< observed minus computed
};

/// Empty when a reading's two ends are at one place.
std::optional<LinearModel> linear_model(const Network& network, const Unknowns& unknowns,
                                        const State& state,
                                        const std::vector<std::size_t>& readings);

inline Eigen::Index as_index(std::size_t i) { return static_cast<Eigen::Index>(i); }

}  // namespace stakewright::adjustment

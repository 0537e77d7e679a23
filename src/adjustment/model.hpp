// The model of a reading and its linear form, shared by every step of the adjustment.
//
// length = (1 + scale)·|P − Q| + zero + e.  Angle at S, clockwise from P to Q:
// bearing of Q − bearing of P + e.  Meters and radians.
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

/// The angle a perfect circle would read, and how it answers to the places, in radians a meter.
struct ModelAngle {
  bool defined = false;    ///< false: a sight has no length
  double angle_rad = 0.0;  ///< in [0, 2 pi)
  base::Point by_from;
  base::Point by_to;
  base::Point by_at;
};

ModelAngle model_angle(base::Point from, base::Point at, base::Point to);

/// How a reading answers to the place of one point.
struct Answer {
  std::size_t point = 0;
  base::Point by;
};

/// What a perfect reading would be at a state: meters, or radians for an angle.
struct ModelReading {
  bool defined = false;  ///< false: two of its points are at one place
  double value = 0.0;
  double by_scale = 0.0;  ///< derivative by the instrument's scale; 0 for an angle
  double by_zero = 0.0;
  std::array<Answer, 3> answers{};
  std::size_t answer_count = 0;
};

ModelReading model_reading(const State& state, const readings::Observation& observation);

/// Observed minus computed; of an angle in (−pi, pi].
double misfit(const readings::Observation& observation, double computed);

/// The points a reading bears on: its two ends, and where an angle was turned.
std::vector<std::size_t> points_of(const readings::Observation& observation);

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
ModelReading fill_row(const Unknowns& unknowns, const State& state,
                      const readings::Observation& observation, Eigen::Ref<Eigen::RowVectorXd> row);

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

inline Eigen::Index as_index(std::size_t i) { return static_cast<Eigen::Index>(i); }

}  // namespace stakewright::adjustment

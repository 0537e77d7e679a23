// What a set of pulls would catch, worked before any is made.
//
// Least squares at the planned places.  Q is the covariance of the places and of
// the tape's scale and zero; it is kept up to date as pulls come and go.
// docs/methods/tape-plan.md.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "stakewright/base/matrix.hpp"
#include "stakewright/base/point.hpp"
#include "stakewright/readings/reading.hpp"

namespace stakewright::suspects {

/// A pull between two points: corners first, the center pin last.
struct PairPull {
  std::size_t from = 0;
  std::size_t to = 0;
  double length_m = 0.0;
  double sd_m = 0.0;
  base::Point along;
};

/// What must be caught.
struct Targets {
  double slip_m = 0.0;
  double shift_m = 0.0;
  double tolerance_m = 0.0;
  double confidence = 0.95;
};

class Catches {
 public:
  Catches(std::vector<base::Point> corners, base::Point center,
          const readings::Instrument& instrument);

  [[nodiscard]] PairPull pull(std::size_t from, std::size_t to) const;

  void add(const PairPull& pull);
  void remove(std::size_t position);
  [[nodiscard]] const std::vector<PairPull>& pulls() const { return pulls_; }
  [[nodiscard]] std::size_t corner_count() const { return corners_.size(); }

  /// Share of an error in a pull of the set that shows in its residual, 0 to 1.
  [[nodiscard]] double redundancy(std::size_t position) const;

  /// Variance of the length between two points as the set gives it.
  [[nodiscard]] double variance(const PairPull& pull) const;

  /// Smallest slip in a pull that is caught; infinity without redundancy.
  [[nodiscard]] double smallest_catch_m(std::size_t position) const;

  /// Chance that a slip of this size in a pull is caught and not blamed on another.
  [[nodiscard]] double chance_named(std::size_t position, double slip_m) const;

  /// Smallest slip with `chance_named` 0.80; infinity where no slip has.
  [[nodiscard]] double smallest_named_m(std::size_t position) const;

  /// Standard deviation of each corner's place in its worst direction, the plan laid over the
  /// other corners by least squares.
  [[nodiscard]] std::vector<double> worst_sds() const;

  /// How far the set is from the targets; 0 when it reaches them all.
  [[nodiscard]] double shortfall(const Targets& targets) const;

 private:
  struct Sparse;
  [[nodiscard]] Sparse sparse(const PairPull& pull) const;
  [[nodiscard]] double between(const PairPull& a, const PairPull& b) const;
  void update(const PairPull& pull, double sign);
  [[nodiscard]] std::vector<double> residual_correlations(std::size_t position) const;
  [[nodiscard]] base::Matrix covariances() const;
  [[nodiscard]] std::vector<double> chances_blamed(const std::vector<double>& strength) const;

  std::vector<base::Point> points_;  ///< corners, then the center pin
  std::vector<base::Point> corners_;
  readings::Instrument instrument_;
  std::vector<PairPull> pulls_;
  base::Matrix q_;
};

/// Smallest shift of a corner that is called out: tolerance + (z(confidence) + z(0.80))·sd.
double smallest_shift_m(const Targets& targets, double worst_sd_m);

}  // namespace stakewright::suspects

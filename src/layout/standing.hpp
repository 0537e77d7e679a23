// The points that stand on site at one moment, and how well their places are known
// together: the joint covariance that the next swing inherits.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "stakewright/base/matrix.hpp"
#include "stakewright/base/point.hpp"
#include "stakewright/layout/swings.hpp"

namespace stakewright::layout {

/// Points nearer together than this are one place to any crew.
inline constexpr double kSamePlace_m = 0.001;

/// Two tapes from the standing points `first` and `second`, crossing at a place.
struct Crossing {
  std::size_t first = 0;
  std::size_t second = 0;
  double angle_rad = 0.0;  ///< from 0 to pi/2
  double sd_m = 0.0;       ///< square root of the larger eigenvalue of the place's covariance
};

/// Variance of a taped length.
double taped_variance_m2(const TapeSpread& spread, double length_m);

class Standing {
 public:
  /// `most`: how many points will ever stand.
  Standing(const TapeSpread& spread, std::size_t most);

  [[nodiscard]] std::size_t size() const { return labels_.size(); }
  [[nodiscard]] const std::vector<std::string>& labels() const { return labels_; }
  [[nodiscard]] const base::Point& at(std::size_t i) const { return at_[i]; }
  [[nodiscard]] bool has(const std::string& label) const;

  /// A point without error: it says where the others belong.
  void add_exact(const std::string& label, base::Point place);

  /// A point taped from the exact point 0 along a line whose direction has no error.
  void add_along(const std::string& label, base::Point place);

  /// A point set where two tapes cross.
  void add_crossing(const std::string& label, base::Point place, const Crossing& crossing);

  /// The crossing at `place` of tapes from two points; none when they stand at one place, at
  /// `place`, or in line with it.
  [[nodiscard]] std::optional<Crossing> crossing(std::size_t first, std::size_t second,
                                                 base::Point place) const;

 private:
  /// Deviation of the crossing = pull[0] * stretch[0] + pull[1] * stretch[1], where stretch[i] is
  /// by how much too long tape i and its hold make the length.
  struct Geometry {
    std::array<std::size_t, 2> hold{};
    std::array<base::Point, 2> tape{};  ///< unit vectors, hold to place
    std::array<base::Point, 2> pull{};
    std::array<double, 2> length_m{};
  };

  [[nodiscard]] std::optional<Geometry> geometry(std::size_t first, std::size_t second,
                                                 base::Point place) const;
  /// Covariance of the two stretches: hold errors along the tapes, and the tapes' own.
  [[nodiscard]] std::array<double, 3> stretch_covariance(const Geometry& geometry) const;
  /// a' C b, where C is the covariance between points i and j.
  [[nodiscard]] double along(std::size_t i, base::Point a, std::size_t j, base::Point b) const;
  std::size_t add(const std::string& label, base::Point place);

  TapeSpread spread_;
  std::vector<std::string> labels_;
  std::vector<base::Point> at_;
  base::Matrix covariance_;  ///< x and y of point i in rows 2i and 2i + 1
};

}  // namespace stakewright::layout

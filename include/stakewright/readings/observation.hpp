// From a reading to the number the adjustment uses: corrections made, standard
// deviation known, ends and instrument as indices.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "stakewright/base/point.hpp"
#include "stakewright/readings/corrections.hpp"
#include "stakewright/readings/reading.hpp"

namespace stakewright::readings {

/// What the adjustment sees: a length, in meters, or an angle turned at a point, in radians.
///
/// Length: corrected = (1 + scale)·|from − to| + zero + e.  Angle: corrected = bearing of `to` less
/// bearing of `from`, both seen from `at`, plus e.  e ~ N(0, sd²).
struct Observation {
  std::size_t from = 0;  ///< index of a point
  std::size_t to = 0;
  std::size_t instrument = 0;  ///< index of an instrument
  double read = 0.0;           ///< as read
  double corrected = 0.0;
  double sd = 0.0;
  /// Where the angle was turned, clockwise; none: a length.
  std::optional<std::size_t> at = std::nullopt;
  base::Units written = base::Units::millimeters;  ///< a length: what it was written in

  [[nodiscard]] bool is_angle() const { return at.has_value(); }
};

/// Standard deviation of a length with an instrument:
/// sqrt(constant² + (per_length·d)² + 2·centering²).
double standard_deviation_m(const Instrument& instrument, double length_m);

/// The triangle of an angle: both sights from the instrument, and the two points sighted apart.
struct Sights {
  double from_m = 0.0;
  double to_m = 0.0;
  double apart_m = 0.0;
};

/// Standard deviation of an angle turned once with a circle:
/// sqrt(angle² + centering²·(1/from² + 1/to² + (apart/(from·to))²)), the last term the
/// instrument's own centering.  Source: C. D. Ghilani, Adjustment Computations, target and
/// instrument miscentering (from memory).
double standard_deviation_rad(const Instrument& circle, const Sights& sights);

/// Readings as observations.  `points` are the labels in the order of their indices, `places`
/// where they are planned: the sights of angles, not needed without angles.
/// Throws InputError, naming the reading, for a label or an instrument that is not there,
/// an instrument of another kind, two of its points the same or planned at one place where an
/// angle needs a sight, a length that is not above 0, an angle not above 0 and below a full turn.
std::vector<Observation> observations(const std::vector<Reading>& readings,
                                      const std::vector<Instrument>& instruments,
                                      const std::vector<std::string>& points,
                                      const std::vector<base::Point>& places = {});

}  // namespace stakewright::readings

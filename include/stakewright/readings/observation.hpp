// From a reading to the number the adjustment uses: corrections made, standard
// deviation known, ends and instrument as indices.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "stakewright/readings/corrections.hpp"
#include "stakewright/readings/reading.hpp"

namespace stakewright::readings {

/// What the adjustment sees: a length, in metres, or an angle turned at a point, in radians.
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
  std::optional<std::size_t> at;  ///< where the angle was turned, clockwise; none: a length

  [[nodiscard]] bool is_angle() const { return at.has_value(); }
};

/// Standard deviation of a length with an instrument:
/// sqrt(constant² + (per_length·d)² + 2·centring²).
double standard_deviation_m(const Instrument& instrument, double length_m);

/// Readings as observations.  `points` are the labels in the order of their indices.
/// Throws InputError, naming the reading, for a label or an instrument that is not there,
/// an instrument of another kind, from = to, or a length that is not above 0.
std::vector<Observation> observations(const std::vector<Reading>& readings,
                                      const std::vector<Instrument>& instruments,
                                      const std::vector<std::string>& points);

}  // namespace stakewright::readings

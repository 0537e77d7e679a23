// From a reading to the number the adjustment uses: corrections made, standard
// deviation known, ends and instrument as indices.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "stakewright/base/fact.hpp"
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
  std::size_t row = 0;                             ///< of the readings that it comes from
  std::vector<Correction> corrections{};           ///< made to `read`; none to an angle

  [[nodiscard]] bool is_angle() const { return at.has_value(); }

  /// The points it bears on: `from`, `to`, and where an angle was turned.
  [[nodiscard]] std::vector<std::size_t> points() const;

  /// `value` less `other`; of an angle the shorter way round, in (−pi, pi].
  [[nodiscard]] double difference(double value, double other) const;

  /// A figure of this kind, and by how much a reading is off (above 0 too long, too large), to be
  /// told.
  [[nodiscard]] base::Value figure(double value,
                                   base::AngleStyle style = base::AngleStyle::dms) const;
  [[nodiscard]] base::Fact off_by(double size) const;
};

/// Two points nearer than this have no direction between them: a hundredth of the
/// finest mark on any tape, and far above what rounding does to a coordinate.
inline constexpr double kSamePlace_m = 1e-5;

/// How a reading answers to the place of one point, in meters or radians a meter.
struct Answer {
  std::size_t point = 0;
  base::Point by;
};

/// What a reading free of error would be, and its derivatives.
struct Expected {
  bool defined = false;   ///< false: two of its points are at one place; it answers to nothing
  double value = 0.0;     ///< meters; of an angle radians, in [0, 2 pi)
  double by_scale = 0.0;  ///< by the instrument's scale; 0 for an angle
  double by_zero = 0.0;
  std::array<Answer, 3> answer{};
  std::size_t answer_count = 0;

  /// One for each of the observation's points, in their order.
  [[nodiscard]] std::span<const Answer> answers() const { return {answer.data(), answer_count}; }
};

/// Of the observation with its points at `places`, read off an instrument of this scale and zero
/// error.  Rounding apart exact; the derivatives are held against numerical ones by
/// `AgainstCeres.*`.
Expected expected(const Observation& observation, std::span<const base::Point> places,
                  double scale = 0.0, double zero_m = 0.0);

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

/// Lengths and angles as observations; rod readings are passed over.  `points` are the labels in
/// the order of their indices, `places` where they are planned: the sights of angles, not needed
/// without angles. Throws InputError, naming the reading, for a label or an instrument that is not
/// there, an instrument of another kind, two of its points the same or planned at one place where
/// an angle needs a sight, a length that is not above 0, an angle not above 0 and below a full
/// turn.
std::vector<Observation> observations(const std::vector<Reading>& readings,
                                      const std::vector<Instrument>& instruments,
                                      const std::vector<std::string>& points,
                                      const std::vector<base::Point>& places = {});

}  // namespace stakewright::readings

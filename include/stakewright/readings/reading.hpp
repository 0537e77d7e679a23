// One number somebody read off a tape, a laser, a rod or an angle circle, and the instrument it
// came from.
//
// Units: meters, radians, degrees Celsius, newtons, pascals.  A *limit* is a
// greatest permitted error; a *standard deviation* is one sigma.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "stakewright/base/length.hpp"

namespace stakewright::readings {

enum class Kind { tape, laser, level, angle };

/// The kind of reading as files name it: "tape", "laser", "level", "angle".
const char* word_of(Kind kind);

/// The kind of instrument that such readings come from: "tape", "laser", "level", "circle".
const char* instrument_word_of(Kind kind);

/// Figures of an instrument.  Standard deviations unless said otherwise.
struct Instrument {
  std::string name;
  Kind kind = Kind::tape;
  double constant_m = 0.0;   ///< part of a reading's standard deviation that does not grow
  double per_length = 0.0;   ///< part that grows with length (m/m)
  double centering_m = 0.0;  ///< holding over a stake, each end
  double scale = 0.0;        ///< of an unknown scale error
  double zero_m = 0.0;       ///< of an unknown zero error (worn hook)
  double angle_rad = 0.0;    ///< circle: of one turned angle, besides centering

  /// Known corrections; each is made only when its figures are there.
  std::optional<double> nominal_m;  ///< marked length ...
  std::optional<double> actual_m;   ///< ... and what it measures
  std::optional<double> expansion_per_c;
  double standard_temperature_c = 20.0;
  std::optional<double> standard_pull_n;
  std::optional<double> section_m2;
  std::optional<double> modulus_pa;
  std::optional<double> weight_n_per_m;  ///< sag: held at the ends only; needs standard_pull_n
};

/// The instruments every job knows: "steel", "fibreglass", "laser", "level", "rotating laser",
/// "circle", with the figures of published classes where there are any.  Sources:
/// docs/methods/readings.md.
std::vector<Instrument> built_in_instruments();

/// Name of the built-in instrument used when a reading names none.
std::string default_instrument(Kind kind);

/// The instrument of that name; none when there is none.  Of several the last one counts, as a
/// job's own stands in for a built-in one.
const Instrument* instrument_named(const std::vector<Instrument>& instruments,
                                   std::string_view name);

/// One row of the readings file, in SI.
struct Reading {
  Kind kind = Kind::tape;
  std::string from;      ///< level: the set-up
  std::string to;        ///< level: where the rod stands, a point of the job or a turning point
  std::string at;        ///< angle: where it is turned, clockwise from `from` to `to`
  double value_m = 0.0;  ///< as read, above 0; level: on the rod
  /// What the length was written in: says which marks a slip may be off by.
  base::Units written = base::Units::millimeters;
  double angle_rad = 0.0;  ///< angle: as read, above 0 and below a full turn
  std::string instrument;
  std::string round = "1";
  std::optional<double> burned_m;
  std::optional<double> temperature_c;
  std::optional<double> pull_n;
  std::optional<double> slope_m;   ///< level difference between the ends
  bool slope_from_levels = false;  ///< `slope_m` was not written down: rod readings gave it
  std::optional<double> sight_m;   ///< level: from the set-up to the rod
  int spans = 1;  ///< equal ones, from end to end; 0: the tape lies on the ground all along
  std::string note;
  int line = 0;  ///< of the file, for messages; 0 when made in code
};

}  // namespace stakewright::readings

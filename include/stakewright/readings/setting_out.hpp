// What to read on a tape so that a stake comes to stand at a true distance: the corrections of
// measuring, their signs turned about.
//
// Units: meters, degrees Celsius, newtons.
#pragma once

#include <optional>

#include "stakewright/readings/corrections.hpp"
#include "stakewright/readings/reading.hpp"

namespace stakewright::readings {

/// Colder or warmer than this no crew tapes, and no tape's figures hold: a slip of the pen.
inline constexpr double kColdestTape_c = -40.0;
inline constexpr double kWarmestTape_c = 60.0;

/// A tape is pulled by hand: more than any hand pulls is a slip of the pen, and so is nothing.
inline constexpr double kHardestPull_n = 2000.0;

/// How a tape is held while setting out.
struct Held {
  std::optional<double> temperature_c;
  std::optional<double> pull_n;  ///< without it: the tape's standard pull
  int spans = 1;                 ///< as in `Reading`
};

/// The reading whose corrected length is `true_m`, to 1e-12 m, not to the first order only.
/// Throws InputError when no reading gives it: a tape that hangs too deep for its pull.
double reading_for_m(double true_m, const Instrument& tape, const Held& held);

/// The corrections of that reading.
std::vector<Correction> corrections_at(double reading_m, const Instrument& tape, const Held& held);

}  // namespace stakewright::readings

// The known errors of a tape, each as the amount to add to a reading.
//
// Units: meters, degrees Celsius, newtons, square meters, pascals, newtons per meter.
// Setting out turns every sign about: subtract what measuring adds.
// Sources and published examples: docs/methods/readings.md.
#pragma once

#include <vector>

#include "stakewright/base/fact.hpp"
#include "stakewright/readings/reading.hpp"

namespace stakewright::readings {

/// A tape marked `nominal_m` that measures `actual_m`: length · (actual − nominal) / nominal.
double standardization_correction_m(double length_m, double nominal_m, double actual_m);

/// expansion · (T − T standard) · length: a warm tape is long and reads short.
double temperature_correction_m(double length_m, double expansion_per_c, double temperature_c,
                                double standard_temperature_c);

/// (P − P standard) · length / (A · E): a tape pulled harder is longer.
double pull_correction_m(double length_m, double pull_n, double standard_pull_n, double section_m2,
                         double modulus_pa);

/// − w² l³ / (24 P²) for one span held at its ends only.  The first term of the series: right to
/// a hundredth of itself while the tape weighs less than a third of the pull.
double sag_correction_m(double span_m, double weight_n_per_m, double pull_n);

/// sqrt(s² − v²) − s for a length whose ends differ in level by `rise_m`; exact.
/// Not a number when the rise is longer than the length.
double slope_correction_m(double length_m, double rise_m);

/// What a reading is corrected for.
enum class Cause { burned, standardization, temperature, pull, sag, slope };

/// One correction, added to the reading.
struct Correction {
  Cause cause = Cause::burned;
  double amount_m = 0.0;
};

/// The corrections of one reading, in the order they are made, each from the length the ones
/// before it leave.  A correction is made when the reading and its instrument have the figures:
///
/// burned           reading's `burned`
/// standardization  instrument's `nominal` and `actual`
/// temperature      reading's `temperature`, instrument's `expansion`
/// pull             reading's `pull`, instrument's `standard_pull`, `section`, `modulus`
/// sag              instrument's `weight`; pulled as the reading says, else at `standard_pull`;
/// over
///                  the reading's `spans`
/// slope            reading's `slope`
///
/// Throws InputError, naming the reading, when a figure leaves no length.
std::vector<Correction> corrections(const Reading& reading, const Instrument& instrument);

/// A reading as the place of what is wrong with it: `reading A to C` or `reading A to C (line 7)`.
base::Fact place_of(const Reading& reading);

}  // namespace stakewright::readings

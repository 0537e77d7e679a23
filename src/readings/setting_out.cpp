#include "stakewright/readings/setting_out.hpp"

#include <cmath>

#include "stakewright/base/error.hpp"

namespace stakewright::readings {
namespace {

// A step of this share of the length is rounding.
constexpr double kAtRest = 1e-14;

// Each step leaves the corrections' slope of the error before it: a thousandth for a good tape, a
// tenth for one that weighs as much as it is pulled.  More steps than this: the slope is near one,
// and the tape hangs like a chain.
constexpr int kMostSteps = 60;

Reading held_at(double reading_m, const Held& held) {
  Reading reading;
  reading.value_m = reading_m;
  reading.temperature_c = held.temperature_c;
  reading.pull_n = held.pull_n;
  reading.spans = held.spans;
  return reading;
}

[[noreturn]] void refuse(double true_m, const Instrument& tape) {
  throw base::InputError(
      base::Fact{"errors.hangs_too_deep",
                 {{"tape", base::Name{tape.name}}, {"length", base::Number{true_m, 3}}}});
}

}  // namespace

std::vector<Correction> corrections_at(double reading_m, const Instrument& tape, const Held& held) {
  return corrections(held_at(reading_m, held), tape);
}

double reading_for_m(double true_m, const Instrument& tape, const Held& held) {
  double reading_m = true_m;
  for (int step = 0; step < kMostSteps; ++step) {
    double length_m = reading_m;
    try {
      for (const Correction& correction : corrections_at(reading_m, tape, held))
        length_m += correction.amount_m;
    } catch (const base::InputError&) {
      refuse(true_m, tape);
    }
    const double missing_m = true_m - length_m;
    reading_m += missing_m;
    if (std::abs(missing_m) <= kAtRest * true_m) return reading_m;
  }
  refuse(true_m, tape);
}

}  // namespace stakewright::readings

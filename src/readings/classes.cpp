#include "stakewright/readings/classes.hpp"

#include <algorithm>
#include <cmath>

#include "stakewright/base/error.hpp"

namespace stakewright::readings {
namespace {

// Directive 2014/32/EU, Annex X (MI-008), chapter I, tables 1 and 2.
struct ClassFigures {
  double a_m;  ///< does not grow
  double b;    ///< for each whole meter
  double c_m;  ///< from the tape's own end
};

ClassFigures figures(TapeClass tape) {
  switch (tape) {
    case TapeClass::I:
      return {0.1e-3, 0.1e-3, 0.1e-3};
    case TapeClass::II:
      return {0.3e-3, 0.2e-3, 0.2e-3};
    case TapeClass::III:
      break;
  }
  return {0.6e-3, 0.4e-3, 0.3e-3};
}

void demand_length(double length_m) {
  if (std::isfinite(length_m) && length_m > 0.0) return;
  throw base::InputError(base::Fact{
      "errors.read",
      {{"read", base::Fact{"errors.length_of", {{"length", base::Number{length_m, -1}}}}},
       {"accepted", base::Fact{"errors.length_above_0"}}}});
}

}  // namespace

double tape_limit_m(TapeClass tape, double length_m, TapeStart start) {
  demand_length(length_m);
  const ClassFigures given = figures(tape);
  const double whole_meters = std::max(1.0, std::ceil(length_m - kWholeMeterSlack_m));
  const double from_end_m = start == TapeStart::end ? given.c_m : 0.0;
  return given.a_m + given.b * whole_meters + from_end_m;
}

double laser_limit_m(double length_m) {
  demand_length(length_m);
  constexpr double flat_to_m = 10.0;
  return 1e-3 + 0.025e-3 * std::max(0.0, length_m - flat_to_m);
}

double sd_from_limit(double limit) { return limit / std::sqrt(3.0); }

double sd_from_step(double step) { return step / std::sqrt(12.0); }

}  // namespace stakewright::readings

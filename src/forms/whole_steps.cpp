#include "whole_steps.hpp"

#include <cmath>

namespace stakewright::forms {
namespace {

/// Rounding errors of the sums before it, in steps: nobody reads a millionth of a step.
constexpr double kSlack_steps = 1e-6;

double step_m(base::Units units) {
  constexpr double kSixteenth_m = 0.0254 / 16.0;
  constexpr double kMillimeter_m = 0.001;
  return units == base::Units::feet_inches ? kSixteenth_m : kMillimeter_m;
}

}  // namespace

std::string rounded_up(double length_m, base::Units units) {
  const double step = step_m(units);
  return base::text_from_length(std::ceil(length_m / step - kSlack_steps) * step, units);
}

std::string rounded_down(double length_m, base::Units units) {
  const double step = step_m(units);
  return base::text_from_length(std::floor(length_m / step + kSlack_steps) * step, units);
}

}  // namespace stakewright::forms

#include "stakewright/placement/chance.hpp"

#include <algorithm>
#include <boost/math/quadrature/tanh_sinh.hpp>
#include <cassert>
#include <cmath>
#include <numbers>

#include "stakewright/algebra/algebra.hpp"

namespace stakewright::placement {

Verdict verdict_of(double chance_in, double confidence) {
  if (chance_in >= confidence) return Verdict::in;
  return chance_in <= 1.0 - confidence ? Verdict::out : Verdict::undecided;
}

double chance_between(double mean, double sd, double half) {
  if (sd == 0.0) return std::abs(mean) <= half ? 1.0 : 0.0;
  const double scale = std::numbers::sqrt2 * sd;
  const double near = (std::abs(mean) - half) / scale;
  const double far = (std::abs(mean) + half) / scale;
  return 0.5 * (std::erfc(near) - std::erfc(far));
}

namespace {

// Beyond this many standard deviations less than 1e-18 is left.
constexpr double kFarthest_sd = 9.0;
// An axis this much shorter than the circle is a point: what it changes is rounding.
constexpr double kPoint = 1e-13;
// Asked of the quadrature; verdicts need three digits, the tests hold nine.
constexpr double kQuadrature = 1e-12;

double density(double z) { return std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::numbers::pi); }

// Integral over the minor axis (standardized: z) of the chance along the major one.
double over_minor(double along, double major_sd, double across, double minor_sd, double radius) {
  const double low = std::max(-kFarthest_sd, (-radius - across) / minor_sd);
  const double high = std::min(kFarthest_sd, (radius - across) / minor_sd);
  if (!(low < high)) return 0.0;
  const double middle = 0.5 * (low + high);
  const double reach = 0.5 * (high - low);
  // Over -1 to 1: given the limits themselves, Boost asserts that no node rounds onto one, and
  // where the interval is short for its distance from zero one does.
  const auto slice = [&](double part) {
    const double z = middle + reach * part;
    const double x = across + minor_sd * z;
    const double half = std::sqrt(std::max(0.0, (radius - x) * (radius + x)));
    return density(z) * chance_between(along, major_sd, half);
  };
  static thread_local boost::math::quadrature::tanh_sinh<double> quadrature;  // its table of nodes
  return std::clamp(reach * quadrature.integrate(slice, kQuadrature), 0.0, 1.0);
}

}  // namespace

double chance_within(double a_m, double b_m, double saa, double sab, double sbb, double radius_m) {
  assert(radius_m > 0.0);
  const algebra::Axes axes = algebra::axes_of({saa, sab, sbb});
  const double cosine = std::cos(axes.angle_rad);
  const double sine = std::sin(axes.angle_rad);
  const double along = (a_m * cosine + b_m * sine) / radius_m;
  const double across = (b_m * cosine - a_m * sine) / radius_m;
  const double major_sd = axes.major / radius_m;
  const double minor_sd = axes.minor / radius_m;
  if (minor_sd > kPoint) return over_minor(along, major_sd, across, minor_sd, 1.0);
  if (std::abs(across) > 1.0) return 0.0;
  const double half = std::sqrt((1.0 - across) * (1.0 + across));
  return chance_between(along, major_sd > kPoint ? major_sd : 0.0, half);
}

}  // namespace stakewright::placement

#include <fmt/format.h>

#include <cassert>
#include <cmath>
#include <cstdlib>
#include <numeric>

#include "stakewright/base/length.hpp"

namespace stakewright::base {
namespace {

// Past this a count of 64ths of an inch no longer fits, and no length of a job comes near it.
constexpr double kLongestText_m = 1e12;
constexpr const char* kNoFigure = "-";

bool has_text(double length_m) {
  return std::isfinite(length_m) && std::abs(length_m) <= kLongestText_m;
}

// The one rounding: a count of the finest step, halves away from zero.
long long steps(double value) { return std::llround(value); }

std::string feet_inches_text(double length_m, int per_inch) {
  assert(per_inch >= 1 && per_inch <= 64 && (per_inch & (per_inch - 1)) == 0);
  const long long total = steps(length_m * 10000.0 / 254.0 * per_inch);
  const long long size = std::llabs(total);
  const long long feet = size / (12LL * per_inch);
  const long long inches = size / per_inch % 12;
  const long long parts = size % per_inch;
  const long long common = std::gcd(parts, static_cast<long long>(per_inch));
  std::string text = total < 0 ? "-" : "";
  if (feet > 0) text += fmt::format("{}' ", feet);
  if (feet > 0 || inches > 0 || parts == 0) text += fmt::format("{}", inches);
  if ((feet > 0 || inches > 0) && parts > 0) text += "-";
  if (parts > 0) text += fmt::format("{}/{}", parts / common, per_inch / common);
  return text + "\"";
}

// A count of tenths, hundredths ... as a decimal, by whole numbers: no second rounding, no "-0".
std::string decimal_text(long long count, int decimals) {
  long long scale = 1;
  for (int k = 0; k < decimals; ++k) scale *= 10;
  const long long size = std::llabs(count);
  return fmt::format("{}{}.{:0{}}", count < 0 ? "-" : "", size / scale, size % scale, decimals);
}

}  // namespace

std::string text_from_length(double length_m, Units units, int per_inch) {
  if (!has_text(length_m)) return kNoFigure;
  switch (units) {
    case Units::feet_inches:
      return feet_inches_text(length_m, per_inch);
    case Units::millimeters:
      return fmt::format("{} mm", steps(length_m * 1000.0));
    case Units::meters:
      break;
  }
  return decimal_text(steps(length_m * 1000.0), 3) + " m";
}

std::string text_from_small_length(double length_m, Units units) {
  constexpr int per_inch = 32;
  if (!has_text(length_m)) return kNoFigure;
  if (units == Units::feet_inches) return feet_inches_text(length_m, per_inch);
  return decimal_text(steps(length_m * 10000.0), 1) + " mm";
}

std::string text_from_area(double area_m2, Units units) {
  if (!has_text(area_m2)) return kNoFigure;
  if (units == Units::feet_inches)
    return decimal_text(steps(area_m2 / 0.09290304 * 10.0), 1) + " sq ft";
  return decimal_text(steps(area_m2 * 100.0), 2) + " m\u00b2";
}

}  // namespace stakewright::base

#include <array>
#include <cmath>

#include "stakewright/levels/levels.hpp"

namespace stakewright::levels {
namespace {

/// A unit somebody loses or gains as a whole, once or twice.
struct Unit {
  double size_m;
  const char* once;
  const char* twice;
};

constexpr std::array<Unit, 2> kFeetUnits = {
    {{0.3048, "a whole foot", "two whole feet"}, {0.0254, "a whole inch", "two whole inches"}}};
constexpr std::array<Unit, 3> kMetricUnits = {
    {{1.0, "a whole meter", "two whole meters"},
     {0.1, "a whole decimeter", "two whole decimeters"},
     {0.01, "a whole centimeter", "two whole centimeters"}}};

/// Nearer than this many standard deviations a slip fits a unit.
constexpr double kFits = 3.0;

template <std::size_t n>
std::string fitting(const std::array<Unit, n>& units, double slip_m, double sd_m) {
  std::string result;
  for (const Unit& unit : units) {
    for (const double times : {1.0, 2.0}) {
      const double size_m = times * unit.size_m;
      if (std::abs(slip_m - size_m) > kFits * sd_m) continue;
      if (!result.empty() || size_m < kFits * sd_m) return {};
      result = times > 1.0 ? unit.twice : unit.once;
    }
  }
  return result;
}

}  // namespace

std::string rod_name(const Rods& rods, std::size_t reading) {
  const RodReading& rod = rods.readings[reading];
  return rods.points[rod.point] + " from " + rods.set_ups[rod.set_up];
}

std::string whole_unit(double slip_m, double sd_m, base::Units units) {
  return units == base::Units::feet_inches ? fitting(kFeetUnits, std::abs(slip_m), sd_m)
                                           : fitting(kMetricUnits, std::abs(slip_m), sd_m);
}

RodSlip slip_of(const Levels& levels, std::size_t reading, base::Units units) {
  const adjustment::AdjustedReading& out = levels.heights.sums.readings_out[reading];
  RodSlip result;
  result.slip_m = -out.residual;
  if (out.standardized != 0.0) result.sd_m = out.residual / out.standardized;
  result.looks_like = whole_unit(result.slip_m, result.sd_m, units);
  return result;
}

}  // namespace stakewright::levels

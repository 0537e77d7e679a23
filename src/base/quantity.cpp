#include "stakewright/base/quantity.hpp"

#include <fmt/format.h>

#include <cmath>
#include <vector>

#include "scan.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::base {
namespace {

constexpr double kFahrenheit_c = 5.0 / 9.0;
// 1 lbf = 0.45359237 kg · 9.80665 m/s², exact; the foot and the inch are exact too.
constexpr double kStandardGravity = 9.80665;
constexpr double kPoundForce_n = 0.45359237 * kStandardGravity;
constexpr double kFoot_m = 0.3048;
constexpr double kCubicFoot_m3 = kFoot_m * kFoot_m * kFoot_m;
constexpr double kCubicYard_m3 = 27.0 * kCubicFoot_m3;
constexpr double kSquareInch_m2 = 0.0254 * 0.0254;

// SI figure = (read - offset) · factor.
struct Unit {
  std::string_view mark;  ///< lower case; the empty one is the bare number and comes last
  double factor = 1.0;
  double offset = 0.0;
};

struct Written {
  std::vector<Unit> units;  ///< a longer mark before one it begins with
  const char* accepted;
};

Written written(Quantity quantity) {
  switch (quantity) {
    case Quantity::temperature:
      return {
          {{"\u00b0f", kFahrenheit_c, 32.0}, {"f", kFahrenheit_c, 32.0}, {"\u00b0c"}, {"c"}, {""}},
          "a temperature such as 35, 35C, 95F"};
    case Quantity::pull:
      return {{{"lbf", kPoundForce_n}, {"kgf", kStandardGravity}, {"n"}, {""}},
              "a pull such as 50, 50N, 12lbf"};
    case Quantity::section:
      return {{{"in2", kSquareInch_m2},
               {"in\u00b2", kSquareInch_m2},
               {"mm2", 1e-6},
               {"mm\u00b2", 1e-6},
               {"", 1e-6}},
              "a cross-section such as 2.6, 2.6mm2, 0.0075in2"};
    case Quantity::modulus:
      return {{{"psi", kPoundForce_n / kSquareInch_m2}, {"mpa", 1e6}, {"gpa", 1e9}, {"", 1e9}},
              "a modulus such as 200, 200GPa, 29e6psi"};
    case Quantity::weight:
      return {{{"lbf/ft", kPoundForce_n / kFoot_m}, {"kgf/m", kStandardGravity}, {"n/m"}, {""}},
              "a weight such as 0.17, 0.17N/m, 0.028lbf/ft"};
    case Quantity::volume:
      return {{{"cuft", kCubicFoot_m3},
               {"cu ft", kCubicFoot_m3},
               {"ft3", kCubicFoot_m3},
               {"ft\u00b3", kCubicFoot_m3},
               {"l", 1e-3},
               {"m3"},
               {"m\u00b3"}},
              "a volume such as 0.6 cu ft, 17L, 0.017m3"};
    case Quantity::expansion:
      break;
  }
  return {{{"/f", 1.0 / kFahrenheit_c}, {"/c"}, {""}},
          "an expansion such as 11.5e-6, 11.5e-6/C, 6.45e-6/F"};
}

}  // namespace

double quantity_from_text(std::string_view text, Quantity quantity) {
  const Written known = written(quantity);
  Scan scan(text);
  const bool minus = take_minus(scan);
  const auto number = scan.number_with_power();
  scan.spaces();
  for (const Unit& unit : known.units) {
    if (!number || !scan.take({unit.mark})) continue;
    scan.spaces();
    if (!scan.at_end()) break;
    return ((minus ? -number->value : number->value) - unit.offset) * unit.factor;
  }
  throw InputError(fmt::format("read {}; accepted: {}", in_quotes(text), known.accepted));
}

std::string text_from_volume(double volume_m3, Units units) {
  if (!std::isfinite(volume_m3)) return "-";
  if (units == Units::feet_inches) return fmt::format("{:.2f} cu yd", volume_m3 / kCubicYard_m3);
  return fmt::format("{:.2f} m\u00b3", volume_m3);
}

}  // namespace stakewright::base

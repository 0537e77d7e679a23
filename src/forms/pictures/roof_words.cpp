#include "roof_words.hpp"

#include <fmt/format.h>

namespace stakewright::forms {

std::string kind_words(roof::PartKind kind, const Wording& wording) {
  return wording.text(fmt::format("pictures.{}", roof::name_of(kind)));
}

SquareHold square_hold(double figure, base::Units units) {
  constexpr double kTwelveInches_m = 0.3048;
  constexpr double kMetricArm_m = 0.25;
  const bool inches = units == base::Units::feet_inches;
  const double arm_m = inches ? kTwelveInches_m : kMetricArm_m;
  const auto text = [&](double length_m) {
    const std::string words =
        base::text_from_length(length_m, inches ? units : base::Units::millimeters);
    return words == "1' 0\"" ? std::string("12\"") : words;  // as a square is read
  };
  if (figure > 1.0) return {text(arm_m), text(arm_m / figure)};
  return {text(arm_m * figure), text(arm_m)};
}

}  // namespace stakewright::forms

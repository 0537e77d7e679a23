#include "jobs.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <numbers>

namespace stakewright::tests {
namespace {

/// Corner radius of a hexagon 16 ft across flats: half the flats over cos 30°.
const double kCornerRadius_m = 8.0 * 0.3048 / std::cos(std::numbers::pi / 6.0);
constexpr std::string_view kLabels = "ABCDEFO";

std::array<double, 2> place_of(char label, char moved, double outward_m) {
  if (label == 'O') return {0.0, 0.0};
  const double radius_m = kCornerRadius_m + (label == moved ? outward_m : 0.0);
  const double turn_rad = (static_cast<double>(label - 'A') - 0.5) * std::numbers::pi / 3.0;
  return {radius_m * std::sin(turn_rad), radius_m * std::cos(turn_rad)};
}

}  // namespace

std::string hexagon_job_with_plan(const std::string& plan) {
  return "title = \"Test hexagon\"\nunits = \"feet-inches\"\n\n[plan]\n" + plan +
         "\n[lines]\nplate = \"2-3/4in\"\n\n"
         "[tolerance]\ncorner = \"1/4in\"\npart = \"1/16in\"\n\n"
         "[roof]\npitch = \"8/12\"\noverhang = \"18in\"\n";
}

std::string hexagon_job() { return hexagon_job_with_plan("sides = 6\nacross_flats = \"16ft\"\n"); }

std::string hexagon_readings(char moved, double outward_m) {
  std::string text = "from,to,reading\n";
  for (std::size_t i = 0; i < kLabels.size(); ++i) {
    for (std::size_t j = i + 1; j < kLabels.size(); ++j) {
      const auto p = place_of(kLabels[i], moved, outward_m);
      const auto q = place_of(kLabels[j], moved, outward_m);
      text += fmt::format("{},{},{:.0f}mm\n", kLabels[i], kLabels[j],
                          1000.0 * std::hypot(p[0] - q[0], p[1] - q[1]));
    }
  }
  return text;
}

}  // namespace stakewright::tests

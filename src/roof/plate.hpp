// The plate line and the apex over corners as found, and how both change with them.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "exact.hpp"
#include "faces.hpp"
#include "stakewright/base/fact.hpp"
#include "stakewright/base/matrix.hpp"
#include "stakewright/base/point.hpp"
#include "stakewright/layout/plan.hpp"
#include "stakewright/roof/found_corners.hpp"

namespace stakewright::roof {

/// Plate corners and apex of one roof.
struct Plate {
  std::vector<Vec<double>> corners;
  Vec<double> apex;
  /// Derivatives, (2n + 2) x (2n + 2): rows are x and y of the plate's corners, then of the
  /// apex; columns those of the corners given, then of the pin.
  base::Matrix by;

  [[nodiscard]] Window<double> window(std::size_t corner) const;
};

/// Rows of `Plate::by` that the window of a corner takes its coordinates from.
using WindowRows = std::array<std::size_t, kWindowCoordinates>;
WindowRows window_rows(std::size_t corner, std::size_t corners);

/// The plate over `corners`, each side `offset_m` outside, its apex `height_m` up.
/// The corners must go round once, clockwise and convex.
Plate plate_over(const std::vector<base::Point>& corners, double offset_m, double height_m);

/// Sets the apex over a fixed place.
void set_apex(Plate& plate, base::Point at);
/// Sets it where the spread of the hip runs (sum of squares about their mean) is
/// smallest: the center of the circle that fits the plate's corners best.  False, and
/// the apex is left alone, when the search found no such place.
bool set_apex_for_even_hips(Plate& plate);

/// Plate and apex, and the covariance carried to the plate's coordinates.
struct Found {
  Plate plate;
  base::Matrix covariance;
};

/// Empty, with the reason among the remarks, when the corners bear no such roof.
std::optional<Found> found_roof(const layout::Plan& plan, double plate_offset_m, const Roof& roof,
                                const FoundCorners& found, std::vector<base::Fact>& remarks);

}  // namespace stakewright::roof

// The roof over the corners as found: where its plate and apex stand, and how surely.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "exact.hpp"
#include "plate.hpp"
#include "stakewright/layout/plan.hpp"
#include "stakewright/roof/roof.hpp"

namespace stakewright::roof {

/// Plate and apex, and the covariance carried to the plate's coordinates.
struct Found {
  Plate plate;
  base::Matrix covariance;
};

/// Empty, with the reason among the remarks, when the corners bear no such roof.
std::optional<Found> found_roof(const layout::Plan& plan, double plate_offset_m, const Roof& roof,
                                const FoundCorners& found, std::vector<std::string>& remarks);

}  // namespace stakewright::roof

// The laying that rests on its datum.
#pragma once

#include "stakewright/placement/placement.hpp"

namespace stakewright::placement {

/// The laying that follows from the found places of its datum.
Rigid fit(const Survey& survey, const Datum& datum);

}  // namespace stakewright::placement

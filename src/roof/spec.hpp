// What the job's `[roof]` must keep to, and what it fixes for every bay.
#pragma once

#include "exact.hpp"
#include "stakewright/layout/polygon.hpp"

namespace stakewright::roof {

/// The roof over a regular plate line.  Throws InputError for a spec that makes none,
/// saying what was read and what is accepted.
Roof roof_over(const layout::Polygon& plate, const Spec& spec);

}  // namespace stakewright::roof

// What one corner's error does to each part and cut of the roof, and how true a corner must
// stand so that every piece comes off the pattern.
//
// At the plan, to first order: the Jacobian of the figures by the corners, and the worst-case
// stack-up of a tolerance analysis.  Units: meters and radians.  docs/methods/roof.md.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "stakewright/layout/plan.hpp"
#include "stakewright/roof/roof.hpp"

namespace stakewright::roof {

/// How one figure answers to a shift of one corner.
struct Answer {
  PartKind part = PartKind::hip;
  Place at;
  std::optional<CutName> cut;  ///< empty for the line length
  double outward = 0.0;        ///< meters or radians for each meter that the corner moves outward
  double sideways = 0.0;       ///< and sideways, clockwise
  double lever_m = 1.0;        ///< what opens at the joint: the answer times this; 1 for lengths
};

/// Every figure that answers to the corner at all, in the order of the carry's parts and cuts.
/// Right to 1e-4 mm for each meter of the shift (`Sensitivity`); a shift of half an inch on a roof
/// of 16 ft is told to 0.006 in or degrees (`HalfAnInchOutward`).  On a regular plan one corner
/// tells for all.  Throws InputError as `carry`.
std::vector<Answer> sensitivity(const layout::Plan& plan, double plate_offset_m, const Spec& spec,
                                std::size_t corner);

/// How far corners may be from their true places, each in its worst direction, so that every
/// piece still comes off the pattern.  Blocking does not count: it is cut to fit on the spot.
struct CornerNeed {
  double alone_m = 0.0;           ///< one corner off, the others true
  double together_m = 0.0;        ///< all corners off by as much at once
  PartKind part = PartKind::hip;  ///< what fails first when all are off
  Place at;
  std::optional<CutName> cut;  ///< empty: its length
};

/// The need for a part tolerance.  Throws InputError as `carry`.
CornerNeed corner_need(const layout::Plan& plan, double plate_offset_m, const Spec& spec,
                       double part_tolerance_m);

}  // namespace stakewright::roof

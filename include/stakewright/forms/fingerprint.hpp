// A short mark printed on every sheet, so that a sheet can be told from one of
// another job, or of an earlier state of the same one.
#pragma once

#include <string>

#include "stakewright/layout/plan.hpp"

namespace stakewright::forms {

/// Two groups of four hexadecimal digits: `7C21-09AE`.
///
/// It covers what decides where a stake goes and what it is called: sides, size,
/// place, facing, held stakes, pins, lines, outlines and batter boards, each to the
/// nearest micrometer or microradian.  Titles, tolerances, units and the roof do not
/// change it.  FNV-1a, 64 bits, folded to 32: two different jobs share a mark once
/// in about four thousand million.
std::string fingerprint(const layout::Plan& plan);

}  // namespace stakewright::forms

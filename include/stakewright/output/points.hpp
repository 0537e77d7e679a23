// Points as CSV (RFC 4180): label,right,forward,height,note.
//
// Plain decimal numbers in feet, mm or m; each note ends with which.
#pragma once

#include <string>

#include "stakewright/base/length.hpp"

namespace stakewright::check {
struct Findings;
}
namespace stakewright::job {
struct Job;
}
namespace stakewright::results {
struct LayoutResult;
}

namespace stakewright::output {

/// Corners, center pin, known points, corners of the lines, nails of the strings.  The height is
/// empty where it is not known.
std::string points_csv(const job::Job& job, const results::LayoutResult& result, base::Units units);

/// The same of a check: each corner and the center pin as planned and, where its place is known,
/// as found (`A found`), laid on the plan as the verdicts are.
std::string found_points_csv(const job::Job& job, const check::Findings& findings,
                             base::Units units);

}  // namespace stakewright::output

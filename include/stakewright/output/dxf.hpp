// Drawings for other programs (DXF of the year 2000), in inches for feet-inches, else in mm or m.
// The same job gives the same bytes.
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

/// The plan: stakes and pins as points with their names, the plan line, each line, the strings and
/// the outlines, each on a layer of its name.
std::string layout_dxf(const job::Job& job, const results::LayoutResult& result, base::Units units);

/// The same of a check: stakes, pins and plan line as planned, and the places found.
std::string found_dxf(const job::Job& job, const check::Findings& findings, base::Units units);

}  // namespace stakewright::output

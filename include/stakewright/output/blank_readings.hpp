// Readings files (CSV) with the pulls set out and nothing read yet.  They have no planned lengths:
// who knows them reads them.
#pragma once

#include <string>

namespace stakewright::check {
struct Findings;
}
namespace stakewright::suspects {
struct TapePlan;
}

namespace stakewright::output {

/// The pulls of a tape plan in walking order.
std::string blank_readings_csv(const suspects::TapePlan& plan);

/// The pulls that a check asks for next: first those that would fix a loose corner.
std::string blank_readings_csv(const check::Findings& findings);

}  // namespace stakewright::output

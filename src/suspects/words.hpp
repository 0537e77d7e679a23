// What is said of a cause, in plain words.
#pragma once

#include <string>
#include <vector>

#include "stakewright/adjustment/network.hpp"
#include "stakewright/suspects/suspects.hpp"

namespace stakewright::suspects {

/// "B–D", or "B–O–D" for an angle turned at O; with "(2nd reading)" when it was read more than
/// once.
std::string pair_name(const adjustment::Network& network, std::size_t reading);

/// A length rounded to a step that its standard deviation is worth, unsigned: `1"`, `25 mm`.
std::string about(double length_m, double sd_m, base::Units units);

/// The same for an angle: `1 degree`, `10 minutes`.
std::string about_angle(double angle_rad, double sd_rad);

/// One sentence for a set of causes.
std::string sentence(const adjustment::Network& network, const std::vector<Cause>& causes,
                     base::Units units);

/// The same as something that can be told from something else: "a misread B–D", "stake D standing
/// 1" outward", "nothing wrong".
std::string noun(const adjustment::Network& network, const std::vector<Cause>& causes,
                 base::Units units);

}  // namespace stakewright::suspects

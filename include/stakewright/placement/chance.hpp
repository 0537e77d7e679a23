// The chance that one figure with a normal error lies within limits.
#pragma once

namespace stakewright::placement {

/// Chance that mean + sd Z, Z standard normal, lies between -half and half: the difference of two
/// normal distribution functions, both tails taken from the near side so that a small chance keeps
/// its digits.  `sd` 0: 1 or 0.
double chance_between(double mean, double sd, double half);

}  // namespace stakewright::placement

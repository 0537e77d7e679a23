// Verdicts, and the chance that a figure with a normal error lies within limits.
#pragma once

#include <vector>

namespace stakewright::placement {

enum class Verdict { in, out, undecided };

/// In from the confidence up, out where the chance of being out reaches it.
Verdict verdict_of(double chance_in, double confidence);

/// Of all that are judged together: out where one is out, in where all are in.
template <class Judged>
Verdict verdict_of(const std::vector<Judged>& judged) {
  bool all_in = true;
  for (const Judged& one : judged) {
    if (one.verdict == Verdict::out) return Verdict::out;
    all_in = all_in && one.verdict == Verdict::in;
  }
  return all_in ? Verdict::in : Verdict::undecided;
}

/// Chance that mean + sd Z, Z standard normal, lies between -half and half: the difference of two
/// normal distribution functions, both tails taken from the near side so that a small chance keeps
/// its digits.  `sd` 0: 1 or 0.
double chance_between(double mean, double sd, double half);

/// Chance that a deviation with mean (a, b) and covariance (saa, sab, sbb) lies
/// within `radius_m`, above 0, of nothing.  Any covariance, down to a point or a line.  Right to
/// 1e-9 (`ChanceWithin.AgreesWithTheIntegralRoundTheEdgeForAnySpread`).
double chance_within(double a_m, double b_m, double saa, double sab, double sbb, double radius_m);

}  // namespace stakewright::placement

#include "compared.hpp"

#include <algorithm>

#include "stakewright/adjustment/quantiles.hpp"

namespace stakewright::check {
namespace {

using placement::TwoRounds;

// Both covariances, each with its own instrument errors: a tape warmed, or changed for another,
// between two rounds must not look like movement.
base::Matrix added(const base::Matrix& a, const base::Matrix& b, std::size_t points) {
  base::Matrix sum(2 * points, 2 * points);
  for (std::size_t row = 0; row < sum.rows; ++row) {
    for (std::size_t col = 0; col < sum.cols; ++col) sum(row, col) = a(row, col) + b(row, col);
  }
  return sum;
}

// Readings that scatter more than their instruments should lend their scatter to the tests.
void allow_for_scatter(const Findings& before, const Findings& after, TwoRounds& rounds) {
  const int redundancy = before.used.redundancy + after.used.redundancy;
  const double squares = before.used.chi_square + after.used.chi_square;
  const double limit = adjustment::chi_square_limit(adjustment::kSetAlpha, redundancy);
  if (redundancy == 0 || squares <= limit) return;
  rounds.redundancy = redundancy;
  rounds.variance_factor = squares / redundancy;
}

// The corners, and the center pin where both rounds place it.
TwoRounds two_rounds(const Findings& before, const Findings& after) {
  const std::size_t points = after.network.corner_count + 1;
  TwoRounds rounds;
  rounds.center = after.survey->center;
  rounds.hold = after.survey->hold;
  rounds.tied = before.used.free_motions == 0 && after.used.free_motions == 0;
  for (std::size_t i = 0; i < points; ++i) {
    rounds.planned.push_back(after.network.points[i].planned);
    rounds.before.push_back(before.used.found[i]);
    rounds.after.push_back(after.used.found[i]);
    rounds.measured.push_back(before.used.place_known[i] && after.used.place_known[i]);
  }
  rounds.covariance = added(before.used.covariance, after.used.covariance, points);
  allow_for_scatter(before, after, rounds);
  return rounds;
}

std::optional<base::Fact> why_not_placed(const Findings& findings) {
  if (findings.verdict == Verdict::contradiction)
    return base::Fact{"movement.round_contradicts", {{"round", base::Name{findings.round}}}};
  if (!findings.survey)
    return base::Fact{"movement.round_fixes_few", {{"round", base::Name{findings.round}}}};
  return std::nullopt;
}

}  // namespace

RoundsCompared compared(const Findings& before, const Findings& after, const Input& input) {
  RoundsCompared result;
  result.since = before.round;
  for (const Findings* round : {&before, &after}) {
    if (!result.why_not) result.why_not = why_not_placed(*round);
  }
  if (result.why_not) return result;
  const TwoRounds rounds = two_rounds(before, after);
  result.tied = rounds.tied;
  result.scattered = rounds.redundancy > 0;
  for (std::size_t i = 0; i < rounds.planned.size(); ++i)
    result.labels.push_back(after.network.points[i].label);
  const auto both = std::count(rounds.measured.begin(), rounds.measured.end(), true);
  if (static_cast<std::size_t>(both) < (rounds.tied ? 1 : placement::kFewestCompared)) {
    result.why_not =
        base::Fact{"movement.few_in_both", {{"fewest", base::Count{placement::kFewestCompared}}}};
    return result;
  }
  result.movement = placement::movement(rounds, {input.tolerance.confidence, adjustment::kPower});
  return result;
}

}  // namespace stakewright::check

#include "rivals.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace stakewright::check {
namespace {

using placement::CornerResult;

struct Rival {
  double chance = 0.0;
  Places places;
};

std::vector<Rival> rivals_of(const Input& input, const Findings& findings) {
  std::vector<Rival> rivals;
  for (const adjustment::SlipSet& set : adjustment::rivals(findings.slips))
    rivals.push_back({set.chance, places(input, findings, set.readings)});
  return rivals;
}

bool places_corner(const Rival& rival, std::size_t corner) {
  return rival.places.placement && rival.places.survey->measured[corner];
}

double off_between_m(const CornerResult& a, const CornerResult& b) {
  return std::hypot(a.outward_m - b.outward_m, a.sideways_m - b.sideways_m);
}

// Chance over all rivals that the corner is in; none where they do not tell enough.
std::optional<double> chance_in(const std::vector<Rival>& rivals, std::size_t corner,
                                double confidence) {
  double told = 0.0;
  double in = 0.0;
  for (const Rival& rival : rivals) {
    if (!places_corner(rival, corner)) return {};
    told += rival.chance;
    in += rival.chance * rival.places.placement->corners[corner].chance_in;
  }
  if (told < confidence) return {};
  return in / told;
}

bool all_alike(const std::vector<Rival>& rivals, std::size_t corner, double tolerance_m) {
  return std::all_of(rivals.begin(), rivals.end(), [&](const Rival& rival) {
    return places_corner(rival, corner) &&
           off_between_m(rival.places.placement->corners[corner],
                         rivals.front().places.placement->corners[corner]) <= tolerance_m;
  });
}

}  // namespace

Rivals weighed_rivals(const Input& input, const Findings& findings) {
  assert(!findings.slips.ranked.empty());
  std::vector<Rival> rivals = rivals_of(input, findings);
  const double confidence = input.tolerance.confidence;
  Rivals result;
  result.leading = rivals.front().places;
  if (!result.leading.placement) return result;
  result.decided = true;
  for (std::size_t i = 0; i < findings.network.corner_count; ++i) {
    CornerResult& corner = result.leading.placement->corners[i];
    const auto chance = chance_in(rivals, i, confidence);
    corner.chance_in = chance.value_or(0.0);
    corner.verdict =
        chance ? placement::verdict_of(*chance, confidence) : placement::Verdict::undecided;
    result.decided = result.decided && corner.verdict != placement::Verdict::undecided;
    result.alike.push_back(all_alike(rivals, i, input.tolerance.corner_m));
  }
  return result;
}

}  // namespace stakewright::check

#include "found_points.hpp"

#include <cmath>

namespace stakewright::output {
namespace {

/// The inverse of `placement::laid`.
base::Point on_plan(const placement::Rigid& rigid, base::Point found) {
  const base::Point shifted = found - base::Point{rigid.x_m, rigid.y_m};
  return std::cos(rigid.turn_rad) * shifted - std::sin(rigid.turn_rad) * base::clockwise(shifted);
}

const char* word_of(placement::Verdict verdict) {
  switch (verdict) {
    case placement::Verdict::in:
      return "in";
    case placement::Verdict::out:
      return "OUT";
    case placement::Verdict::undecided:
      break;
  }
  return "undecided";
}

}  // namespace

std::vector<FoundPoint> found_points(const job::Job& job, const check::Findings& findings) {
  std::vector<FoundPoint> result;
  for (const layout::Stake& stake : layout::stakes(job.plan))
    result.push_back({stake.label, stake.at, {}, "undecided"});
  result.push_back({layout::kCenterLabel, job.plan.center, {}, ""});
  if (!findings.placement || !findings.survey) return result;
  const auto& placement = *findings.placement;
  for (std::size_t i = 0; i < placement.corners.size(); ++i) {
    if (!findings.survey->measured[i]) continue;
    result[i].found = on_plan(placement.rigid, placement.corners[i].found);
    result[i].verdict = word_of(placement.corners[i].verdict);
    if (findings.levels && findings.levels->footings[i].known)
      result[i].height_m = findings.levels->footings[i].height_m;
  }
  const std::size_t center = findings.network.corner_count;  // O follows the corners
  if (findings.used.place_known[center])
    result[center].found = on_plan(placement.rigid, findings.used.found[center]);
  return result;
}

}  // namespace stakewright::output

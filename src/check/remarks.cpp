#include "remarks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "judge.hpp"

namespace stakewright::check {
namespace {

std::string pair_name(const adjustment::Network& network, std::size_t reading) {
  const readings::Observation& observation = network.observations[reading];
  return network.points[observation.from].label + "–" + network.points[observation.to].label;
}

std::string reading_name(const adjustment::Network& network, std::size_t reading) {
  const readings::Observation& observation = network.observations[reading];
  const bool laser = network.instruments[observation.instrument].kind == readings::Kind::laser;
  return fmt::format("{} {}", laser ? "laser" : "tape", pair_name(network, reading));
}

/// Corners whose verdict differs between two ways of judging, by label.
std::string differing_corners(const Findings& findings, const Judged& other) {
  std::string labels;
  for (std::size_t c = 0; c < findings.placement->corners.size(); ++c) {
    if (findings.placement->corners[c].verdict == other.placement->corners[c].verdict) continue;
    labels += (labels.empty() ? "" : ", ") + findings.network.points[c].label;
  }
  return labels;
}

/// What keeping one excluded reading, the other exclusions standing, would do.
std::string if_kept(const Input& input, const Findings& findings, std::size_t kept) {
  std::vector<std::size_t> left_out = findings.slips.excluded;
  left_out.erase(std::remove(left_out.begin(), left_out.end(), kept), left_out.end());
  const Judged judged = judge(input.plan, input.tolerance, findings.network, left_out);
  if (!judged.placement || !findings.placement) return "Kept, the sums find no rest.";
  const std::string changed = differing_corners(findings, judged);
  const char* fits = judged.adjustment.passed ? "" : " and the readings no longer fit together";
  if (changed.empty()) return fmt::format("Kept, no corner's verdict changes{}.", fits);
  return fmt::format("Kept, the verdict of {} changes{}.", changed, fits);
}

void add_exclusions(const Input& input, Findings& findings) {
  for (const std::size_t r : findings.slips.excluded) {
    const adjustment::AdjustedReading& reading = findings.used.readings_out[r];
    const std::string size =
        base::text_from_small_length(std::abs(reading.residual_m), input.units);
    const char* sense = reading.residual_m > 0.0 ? "short" : "long";
    findings.remarks.push_back(
        fmt::format("The {} was left out: by all the others together it reads {} too {}. {}",
                    reading_name(findings.network, r), size, sense, if_kept(input, findings, r)));
  }
}

void add_groups(Findings& findings) {
  for (const auto& group : findings.slips.groups) {
    std::string names;
    for (const std::size_t r : group)
      names += (names.empty() ? "" : ", ") + pair_name(findings.network, r);
    findings.remarks.push_back(fmt::format(
        "A slip in any one of {} would look the same: these readings cannot be told apart.",
        names));
  }
}

void add_held(const Input& input, Findings& findings) {
  if (!findings.placement) return;
  for (const std::size_t c : findings.survey->hold) {
    const placement::CornerResult& corner = findings.placement->corners[c];
    if (corner.verdict != placement::Verdict::out) continue;
    findings.remarks.push_back(fmt::format(
        "Stake {} is held and does not move, but is {} off its place itself.",
        findings.network.points[c].label, base::text_from_small_length(corner.off_m, input.units)));
  }
}

void add_alternatives(Findings& findings) {
  if (!findings.placement || findings.placement->alternatives.empty()) return;
  if (findings.verdict != Verdict::out) return;
  std::string others;
  for (const auto& kept : findings.placement->alternatives) {
    std::string moved;
    for (std::size_t c = 0; c < findings.network.corner_count; ++c)
      if (std::find(kept.begin(), kept.end(), c) == kept.end())
        moved += (moved.empty() ? "" : " and ") + findings.network.points[c].label;
    others += (others.empty() ? "" : "; or ") + moved;
  }
  findings.remarks.push_back(
      fmt::format("Just as few stakes would move if these moved instead: {}.", others));
}

}  // namespace

std::string rivals_agree_remark() {
  return "Readings contradict each other and several slips would explain it, but each gives every "
         "corner the same verdict.";
}

void add_remarks(const Input& input, Findings& findings) {
  add_exclusions(input, findings);
  add_groups(findings);
  add_held(input, findings);
  add_alternatives(findings);
  findings.remarks.insert(findings.remarks.end(), findings.used.remarks.begin(),
                          findings.used.remarks.end());
}

}  // namespace stakewright::check

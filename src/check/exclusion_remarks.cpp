// Why a reading was left out, and what keeping it would do.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "remarks.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::check {
namespace {

// "A and C out and B undecided": corners whose verdict would be another one.
std::string changes(const Findings& findings, const placement::Placement& kept) {
  using placement::Verdict;
  std::vector<std::string> parts;
  for (const auto& [verdict, word] :
       {std::pair{Verdict::out, "out"}, std::pair{Verdict::undecided, "undecided"},
        std::pair{Verdict::in, "in"}}) {
    std::vector<std::string> labels;
    for (std::size_t i = 0; i < kept.corners.size(); ++i) {
      const bool changed = kept.corners[i].verdict != findings.placement->corners[i].verdict;
      if (changed && kept.corners[i].verdict == verdict) {
        labels.push_back(findings.network.points[i].label);
      }
    }
    if (!labels.empty()) parts.push_back(base::joined(labels) + " " + word);
  }
  return fmt::format("{}", fmt::join(parts, "; "));
}

// The end of the sentence on one reading: what if it were kept, the others still left out.
std::string if_kept(const Input& input, const Findings& findings, std::size_t reading) {
  std::vector<std::size_t> left_out = findings.slips.excluded;
  left_out.erase(std::remove(left_out.begin(), left_out.end(), reading), left_out.end());
  const Places kept = places(input, findings, left_out);
  if (!kept.placement || !findings.placement) return "kept, it would leave no figure at all";
  const std::string changed = changes(findings, *kept.placement);
  if (changed.empty()) return "kept, it would change no corner's verdict";
  return fmt::format("kept, it would make {}", changed);
}

}  // namespace

std::vector<std::string> exclusion_remarks(const Input& input, const Findings& findings) {
  std::vector<std::string> remarks;
  for (const std::size_t reading : findings.slips.excluded) {
    const readings::Observation& observation = findings.network.observations[reading];
    const double too_short = findings.used.readings_out[reading].residual;
    const char* way = observation.is_angle() ? (too_short > 0.0 ? "small" : "large")
                                             : (too_short > 0.0 ? "short" : "long");
    remarks.push_back(fmt::format(
        "{} was left out, because by all the others it reads {} too {}; {}.",
        reading_name(findings.network, reading), size_words(observation, too_short, input.units),
        way, if_kept(input, findings, reading)));
    remarks.back().front() = 'T';
  }
  return remarks;
}

}  // namespace stakewright::check

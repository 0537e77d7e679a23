// The findings of a check as JSON: names of what the network numbers, and the
// suspects, whose causes take a source of their own.
#pragma once

#include <string>
#include <vector>

#include "json.hpp"
#include "stakewright/check/check.hpp"
#include "stakewright/job/job.hpp"

namespace stakewright::output {

inline const std::string& label(const check::Findings& findings, std::size_t point_index) {
  return findings.network.points[point_index].label;
}

inline std::vector<std::string> labels(const check::Findings& findings,
                                       const std::vector<std::size_t>& list) {
  std::vector<std::string> result;
  for (const std::size_t index : list) result.push_back(label(findings, index));
  return result;
}

inline Json tape_json(const check::Findings& findings, std::size_t from, std::size_t to) {
  return {{"from", label(findings, from)}, {"to", label(findings, to)}};
}

inline Json observed_pair(const check::Findings& findings, std::size_t observation) {
  const auto& seen = findings.network.observations[observation];
  Json pair = tape_json(findings, seen.from, seen.to);
  if (seen.at) pair["at"] = label(findings, *seen.at);
  return pair;
}

/// Explanations, likeliest first, and last what is left for all others.
Json suspects_json(const check::Findings& findings, const wording::Voice& voice);

/// "in", "out" or "undecided".
const char* verdict_word(placement::Verdict verdict);

/// What an adjustment says of one reading, after what was read.
void add_adjusted(const adjustment::AdjustedReading& reading, Json& json);

/// The levels; null when no rod was read.
Json levels_json(const job::Job& job, const check::Findings& findings);

/// The rods, as the other readings are listed.
void add_level_readings(const check::Findings& findings, Json& readings);

/// The pulls worth making next, best first.
Json tape_next_json(const check::Findings& findings, const wording::Voice& voice);

/// Which stakes moved since an earlier round; null when none was asked for.
Json movement_json(const check::Findings& findings, const wording::Voice& voice);

}  // namespace stakewright::output

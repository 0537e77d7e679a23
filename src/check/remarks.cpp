#include "remarks.hpp"
#include "stakewright/base/angle.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/base/turning.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace stakewright::check {
namespace {

using adjustment::SlipVerdict;
using Sentences = std::vector<std::string>;

// Repeats of one pull that differ by more than this many standard deviations of the difference
// contradict each other: Baarda's non-centrality for 0.001 and 0.80, docs/methods/adjustment.md.
constexpr double kRepeatsDisagree = 4.13;

const std::string& label(const Findings& findings, std::size_t point) {
  return findings.network.points[point].label;
}

bool same_pull(const readings::Observation& a, const readings::Observation& b) {
  if (a.at != b.at) return false;
  const bool same = a.from == b.from && a.to == b.to;
  return same || (!a.is_angle() && a.from == b.to && a.to == b.from);
}

// "A-C", or "A-O-C" for an angle turned at O.
std::string points_name(const adjustment::Network& network, const readings::Observation& reading) {
  const auto name = [&](std::size_t point) { return network.points[point].label; };
  const std::string at = reading.at ? name(*reading.at) + '-' : "";
  return name(reading.from) + '-' + at + name(reading.to);
}

double apart(const readings::Observation& a, const readings::Observation& b) {
  const double off = a.corrected - b.corrected;
  return std::abs(a.is_angle() ? base::wrapped_rad(off) : off);
}

bool left_out(const Findings& findings, std::size_t reading) {
  const auto& excluded = findings.slips.excluded;
  return std::find(excluded.begin(), excluded.end(), reading) != excluded.end();
}

void add_repeats(const Input& input, const Findings& findings, Sentences& remarks) {
  const auto& readings = findings.network.observations;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    for (std::size_t j = i + 1; j < readings.size(); ++j) {
      if (!same_pull(readings[i], readings[j])) continue;
      if (left_out(findings, i) || left_out(findings, j)) continue;
      const double off = apart(readings[i], readings[j]);
      if (off <= kRepeatsDisagree * std::hypot(readings[i].sd, readings[j].sd)) continue;
      remarks.push_back(fmt::format(
          "{} was read twice, {} apart: {} it again.", points_name(findings.network, readings[i]),
          size_words(readings[i], off, input.units), readings[i].is_angle() ? "turn" : "pull"));
    }
  }
}

// "A-C at 13' 10-1/4"": told by its figure, since one pull may be there twice.
std::string with_figure(const Input& input, const Findings& findings, std::size_t reading) {
  const readings::Observation& observation = findings.network.observations[reading];
  return fmt::format("{} at {}", points_name(findings.network, observation),
                     observation.is_angle()
                         ? base::dms_from_angle(observation.read)
                         : base::text_from_length(observation.read, input.units));
}

void add_groups(const Input& input, const Findings& findings, Sentences& remarks) {
  if (findings.slips.verdict != SlipVerdict::not_separable) return;
  for (const auto& group : findings.slips.groups) {
    Sentences names;
    for (const std::size_t reading : group) {
      names.push_back(with_figure(input, findings, reading));
    }
    remarks.push_back(fmt::format("A slip in any one of these readings looks the same: {}.",
                                  base::joined(names)));
  }
}

void add_scatter(const Findings& findings, Sentences& remarks) {
  if (findings.used.passed || findings.slips.verdict == SlipVerdict::not_separable) return;
  if (findings.used.status == adjustment::Status::did_not_settle) return;
  remarks.emplace_back(
      "The readings scatter more than their instruments should, and no single one stands out: "
      "the verdicts may be too sure.");
}

void add_held(const Input& input, const Findings& findings, Sentences& remarks) {
  for (const std::size_t corner : findings.survey->hold) {
    const placement::CornerResult& result = findings.placement->corners[corner];
    if (!findings.survey->measured[corner]) {
      remarks.push_back(
          fmt::format("Stake {} is held, but its place is not known from these "
                      "readings.",
                      label(findings, corner)));
    } else if (result.verdict == placement::Verdict::out) {
      remarks.push_back(fmt::format("Stake {} is held and stays, but is off by {} itself.",
                                    label(findings, corner),
                                    base::text_from_length(result.off_m, input.units)));
    }
  }
}

// Corners that these readings could not call in wherever they stood.
void add_coarse(const Input& input, const Findings& findings, Sentences& remarks) {
  Sentences coarse;
  for (std::size_t i = 0; i < findings.network.corner_count; ++i) {
    if (!findings.survey->measured[i]) continue;
    const base::Matrix& c = findings.placement->deviation_covariance;
    const double best = placement::chance_within(0.0, 0.0, c(2 * i, 2 * i), c(2 * i, 2 * i + 1),
                                                 c(2 * i + 1, 2 * i + 1), input.tolerance.corner_m);
    if (best < input.tolerance.confidence) coarse.push_back(label(findings, i));
  }
  if (coarse.empty()) return;
  remarks.push_back(fmt::format(
      "These readings are too few or too coarse to call {} in, even standing exactly right.",
      base::joined(coarse)));
}

void add_fewest(const Findings& findings, Sentences& remarks) {
  if (findings.verdict != Verdict::out) return;
  const placement::Placement& placement = *findings.placement;
  if (placement.kept.size() == 1 && findings.survey->hold.empty()) {
    remarks.emplace_back(
        "No two stakes stand right to each other: setting the polygon out afresh is quicker than "
        "moving stakes.");
  }
  if (!placement.proven) {
    remarks.emplace_back(
        "With so many corners off, the fewest moves were searched for and not proven: fewer may "
        "do.");
  }
}

}  // namespace

std::string reading_name(const adjustment::Network& network, std::size_t reading) {
  const readings::Observation& observation = network.observations[reading];
  const bool laser = network.instruments[observation.instrument].kind == readings::Kind::laser;
  const char* kind = observation.is_angle() ? "angle" : laser ? "laser reading" : "tape";
  return fmt::format("the {} {}", kind, points_name(network, observation));
}

std::string size_words(const readings::Observation& reading, double size, base::Units units) {
  return reading.is_angle() ? base::words_from_angle(size)
                            : base::text_from_length(std::abs(size), units);
}

std::vector<std::string> site_remarks(const Input& input, const Findings& findings) {
  Sentences remarks;
  if (!findings.suspects.remark.empty() && !only_levels(findings))
    remarks.push_back(findings.suspects.remark);
  add_repeats(input, findings, remarks);
  add_groups(input, findings, remarks);
  add_scatter(findings, remarks);
  if (findings.placement) {
    add_held(input, findings, remarks);
    if (findings.slips.verdict != SlipVerdict::not_separable) {
      add_coarse(input, findings, remarks);
    }
    add_fewest(findings, remarks);
  }
  remarks.insert(remarks.end(), findings.used.remarks.begin(), findings.used.remarks.end());
  return remarks;
}

}  // namespace stakewright::check

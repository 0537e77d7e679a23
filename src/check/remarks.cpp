#include "remarks.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace stakewright::check {
namespace {

using adjustment::SlipVerdict;
using base::Fact;
using Facts = std::vector<Fact>;

// Repeats of one pull that differ by more than this many standard deviations of the difference
// contradict each other: Baarda's non-centrality for 0.001 and 0.80, docs/methods/adjustment.md.
constexpr double kRepeatsDisagree = 4.13;

base::Name label(const Findings& findings, std::size_t point) {
  return {findings.network.points[point].label};
}

bool left_out(const Findings& findings, std::size_t reading) {
  const auto& excluded = findings.slips.excluded;
  return std::find(excluded.begin(), excluded.end(), reading) != excluded.end();
}

void add_repeats(const Findings& findings, Facts& remarks) {
  const auto& readings = findings.network.observations;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    for (std::size_t j = i + 1; j < readings.size(); ++j) {
      if (!adjustment::same_points(readings[i], readings[j])) continue;
      if (left_out(findings, i) || left_out(findings, j)) continue;
      const double off =
          std::abs(readings[i].difference(readings[i].corrected, readings[j].corrected));
      if (off <= kRepeatsDisagree * std::hypot(readings[i].sd, readings[j].sd)) continue;
      remarks.push_back(
          {adjustment::by_kind(findings.network, i,
                               {"check.pulled_twice", "check.pulled_twice", "check.turned_twice"}),
           {{"reading", adjustment::points_of(findings.network, i)},
            {"apart", readings[i].figure(off, base::AngleStyle::words)}}});
    }
  }
}

// With its figure, by which a crew finds it in its list.
Fact with_figure(const Findings& findings, std::size_t reading) {
  const readings::Observation& seen = findings.network.observations[reading];
  return {"check.reading_at",
          {{"reading", adjustment::points_of(findings.network, reading)},
           {"figure", seen.figure(seen.read)}}};
}

void add_groups(const Findings& findings, Facts& remarks) {
  if (findings.slips.verdict != SlipVerdict::not_separable) return;
  for (const auto& group : findings.slips.groups) {
    base::List names;
    for (const std::size_t reading : group)
      names.items.emplace_back(with_figure(findings, reading));
    remarks.push_back({"check.slips_look_the_same", {{"readings", names}}});
  }
}

void add_scatter(const Findings& findings, Facts& remarks) {
  if (findings.used.passed || findings.slips.verdict == SlipVerdict::not_separable) return;
  if (findings.used.status == adjustment::Status::did_not_settle) return;
  remarks.push_back({"check.scatter"});
}

void add_held(const Findings& findings, Facts& remarks) {
  for (const std::size_t corner : findings.survey->hold) {
    const placement::CornerResult& result = findings.placement->corners[corner];
    if (!findings.survey->measured[corner]) {
      remarks.push_back({"check.held_not_known", {{"stake", label(findings, corner)}}});
    } else if (result.verdict == placement::Verdict::out) {
      remarks.push_back(
          {"check.held_and_off",
           {{"stake", label(findings, corner)}, {"off", base::Length{result.off_m}}}});
    }
  }
}

// Corners that these readings could not call in wherever they stood.
void add_coarse(const Input& input, const Findings& findings, Facts& remarks) {
  std::vector<std::string> coarse;
  for (std::size_t i = 0; i < findings.network.corner_count; ++i) {
    if (!findings.survey->measured[i]) continue;
    const base::Matrix& c = findings.placement->deviation_covariance;
    const double best = placement::chance_within(0.0, 0.0, c(2 * i, 2 * i), c(2 * i, 2 * i + 1),
                                                 c(2 * i + 1, 2 * i + 1), input.tolerance.corner_m);
    if (best < input.tolerance.confidence) coarse.push_back(findings.network.points[i].label);
  }
  if (!coarse.empty()) remarks.push_back({"check.too_coarse", {{"corners", base::names(coarse)}}});
}

void add_fewest(const Findings& findings, Facts& remarks) {
  if (findings.verdict != Verdict::out) return;
  const placement::Placement& placement = *findings.placement;
  if (placement.kept.size() == 1 && findings.survey->hold.empty())
    remarks.push_back({"check.set_out_afresh"});
  if (!placement.proven) remarks.push_back({"check.moves_not_proven"});
}

// Corners whose verdict would be another one, by the verdict they would have.
base::List changes(const Findings& findings, const placement::Placement& kept) {
  using placement::Verdict;
  base::List result;
  for (const auto& [verdict, id] : {std::pair{Verdict::out, base::Id("check.made_out")},
                                    std::pair{Verdict::undecided, base::Id("check.made_undecided")},
                                    std::pair{Verdict::in, base::Id("check.made_in")}}) {
    std::vector<std::string> labels;
    for (std::size_t i = 0; i < kept.corners.size(); ++i) {
      const bool changed = kept.corners[i].verdict != findings.placement->corners[i].verdict;
      if (changed && kept.corners[i].verdict == verdict)
        labels.push_back(findings.network.points[i].label);
    }
    if (!labels.empty()) result.items.emplace_back(Fact{id, {{"corners", base::names(labels)}}});
  }
  return result;
}

// What if one reading were kept, the others still left out.
Fact if_kept(const Input& input, const Findings& findings, std::size_t reading) {
  std::vector<std::size_t> left_out = findings.slips.excluded;
  left_out.erase(std::remove(left_out.begin(), left_out.end(), reading), left_out.end());
  const Places kept = places(input, findings, left_out);
  if (!kept.placement || !findings.placement) return {"check.kept_no_figure"};
  const base::List changed = changes(findings, *kept.placement);
  if (changed.items.empty()) return {"check.kept_no_change"};
  return {"check.kept_would_make", {{"changes", changed}}};
}

}  // namespace

std::vector<Fact> exclusion_remarks(const Input& input, const Findings& findings) {
  Facts remarks;
  for (const std::size_t reading : findings.slips.excluded) {
    const double residual = findings.used.readings_out[reading].residual;
    remarks.push_back(
        {adjustment::by_kind(findings.network, reading,
                             {"check.tape_left_out_because", "check.laser_left_out_because",
                              "check.angle_left_out_because"}),
         {{"reading", adjustment::name_of(findings.network, reading)},
          {"off", findings.network.observations[reading].off_by(-residual)},
          {"kept", if_kept(input, findings, reading)}}});
  }
  return remarks;
}

std::vector<Fact> site_remarks(const Input& input, const Findings& findings) {
  Facts remarks;
  if (findings.suspects.remark && !only_levels(findings))
    remarks.push_back(*findings.suspects.remark);
  add_repeats(findings, remarks);
  add_groups(findings, remarks);
  add_scatter(findings, remarks);
  if (findings.placement) {
    add_held(findings, remarks);
    if (findings.slips.verdict != SlipVerdict::not_separable) {
      add_coarse(input, findings, remarks);
    }
    add_fewest(findings, remarks);
  }
  remarks.insert(remarks.end(), findings.used.remarks.begin(), findings.used.remarks.end());
  return remarks;
}

}  // namespace stakewright::check

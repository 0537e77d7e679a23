// Findings to draw, made up: the drawing is tested, not the check.
#pragma once

#include <cmath>
#include <numbers>
#include <random>
#include <string>

#include "sample_jobs.hpp"
#include "stakewright/check/check.hpp"
#include "stakewright/readings/reading.hpp"

namespace stakewright::forms {

/// Corners strewn about their places by `spread_m`, with ellipses of about a quarter of that.
inline check::Findings strewn_findings(const job::Job& job, double spread_m, unsigned seed) {
  std::mt19937 random(seed);
  std::normal_distribution<double> normal;
  std::uniform_real_distribution<double> share(0.1, 0.3);
  check::Findings findings;
  placement::Survey survey;
  placement::Placement placement;
  survey.center = job.plan.center;
  const auto stakes = layout::stakes(job.plan);
  findings.network.corner_count = stakes.size();
  findings.network.instruments = {readings::built_in_instruments().front()};
  for (std::size_t i = 0; i < stakes.size(); ++i) {
    findings.network.points.push_back(
        {stakes[i].label, adjustment::Role::corner, stakes[i].at, false});
    survey.planned.push_back(stakes[i].at);
    survey.measured.push_back(true);
    placement::CornerResult corner;
    corner.outward_m = spread_m * normal(random);
    corner.sideways_m = spread_m * normal(random);
    corner.off_m = std::hypot(corner.outward_m, corner.sideways_m);
    corner.ellipse = {spread_m * share(random), 0.1 * spread_m,
                      std::numbers::pi * share(random) * 3.0};
    corner.verdict = corner.off_m < 0.8 * job.tolerance.corner_m   ? placement::Verdict::in
                     : corner.off_m > 1.2 * job.tolerance.corner_m ? placement::Verdict::out
                                                                   : placement::Verdict::undecided;
    if (corner.verdict == placement::Verdict::out) {
      placement::Move move;
      move.corner = i;
      findings.moves.push_back(move);
    }
    placement.corners.push_back(corner);
  }
  findings.network.points.push_back(
      {layout::kCenterLabel, adjustment::Role::center, job.plan.center, false});
  findings.survey = survey;
  findings.placement = placement;
  return findings;
}

/// Readings all round and two explanations: a tape and a stake together, and labels changed over.
inline void add_suspects(check::Findings& findings) {
  const std::size_t n = findings.network.corner_count;
  findings.network.instruments = readings::built_in_instruments();
  const auto add = [&findings](std::size_t from, std::size_t to) {
    readings::Observation observation;
    observation.from = from;
    observation.to = to;
    findings.network.observations.push_back(observation);
    findings.slips.excluded.push_back(findings.slips.excluded.size());
  };
  add(0, n / 2);
  add(1, n - 1);
  suspects::Explanation both;
  both.chance = 0.7;
  suspects::Cause tape;
  tape.what = suspects::Cause::What::reading;
  tape.size = -0.3048;
  suspects::Cause stake;
  stake.what = suspects::Cause::What::stake;
  stake.index = n / 3;
  stake.outward_m = 0.05;
  both.causes = {tape, stake};
  suspects::Explanation labels;
  labels.chance = 0.2;
  suspects::Cause changed;
  changed.what = suspects::Cause::What::labels;
  changed.index = 0;
  changed.other = 1;
  labels.causes = {changed};
  findings.suspects.ranked = {both, labels, {0.05, {}, {}}};
  findings.suspects.rest = 0.05;
}

}  // namespace stakewright::forms

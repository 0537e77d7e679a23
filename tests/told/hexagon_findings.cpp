#include "hexagon_findings.hpp"

namespace stakewright::tests {
namespace {

constexpr double kCornerRadius_m = 3.0;

placement::CornerResult corner_in() {
  placement::CornerResult corner;
  corner.chance_in = 0.998;
  corner.verdict = placement::Verdict::in;
  corner.ellipse = {0.0625 * kInch_m, 0.03125 * kInch_m, 0.0};
  return corner;
}

readings::Instrument steel() {
  readings::Instrument instrument;
  instrument.name = "steel";
  return instrument;
}

readings::Observation tape(std::size_t from, std::size_t to, double length_m) {
  return {from, to, 0, length_m, length_m, 0.001};
}

}  // namespace

job::Job hexagon_job() {
  job::Job job;
  job.title = "Larch Hollow";
  job.units = base::Units::feet_inches;
  job.plan.polygon = {6, kCornerRadius_m};
  return job;
}

check::Findings hexagon_all_in() {
  const layout::Plan plan = hexagon_job().plan;
  check::Findings findings;
  findings.verdict = findings.places = check::Verdict::in;
  for (const auto& stake : layout::stakes(plan)) {
    findings.network.points.push_back({stake.label, adjustment::Role::corner, stake.at, false});
  }
  findings.network.points.push_back({"O", adjustment::Role::center, plan.center, false});
  findings.network.corner_count = 6;
  findings.network.instruments = {steel()};
  findings.network.observations = {tape(0, 2, 5.2), tape(1, 3, 5.2), tape(3, 5, 5.2)};
  findings.used.status = adjustment::Status::settled;
  findings.used.readings = 3;
  findings.used.readings_out.resize(3);
  for (auto& out : findings.used.readings_out) {
    out.adjusted = 5.2;
    out.redundancy = 0.5;
    out.smallest_catch = 0.5 * kInch_m;
    out.used = true;
  }
  placement::Placement laid;
  laid.corners.assign(6, corner_in());
  laid.kept = {0, 1, 2, 3, 4, 5};
  findings.placement = laid;
  findings.least_squares = laid;
  findings.survey.emplace();
  findings.survey->measured.assign(6, true);
  findings.suspects.ranked = {{0.9, {}, {}}};
  findings.suspects.rest = 0.1;
  return findings;
}

check::Findings hexagon_d_out() {
  check::Findings findings = hexagon_all_in();
  findings.verdict = findings.places = check::Verdict::out;
  auto& d = findings.placement->corners[3];
  d.outward_m = 0.875 * kInch_m;
  d.sideways_m = 0.125 * kInch_m;
  d.off_m = 0.884 * kInch_m;
  d.chance_in = 0.0001;
  d.verdict = placement::Verdict::out;
  findings.placement->kept = {0, 1, 2, 4, 5};
  placement::Move move;
  move.corner = 3;
  move.outward_m = -d.outward_m;
  move.sideways_m = -d.sideways_m;
  move.distance_m = d.off_m;
  move.tapes = {{1, 13 * kFoot_m + 10.25 * kInch_m}, {5, 16 * kFoot_m}};
  move.crossing_rad = 1.0;
  move.predicted_chance_in = 0.995;
  findings.moves = {move};
  findings.slips.verdict = adjustment::SlipVerdict::named;
  findings.slips.excluded = {0};
  findings.used.readings = 2;
  findings.used.readings_out[0].excluded = true;
  findings.used.readings_out[0].used = false;
  findings.used.readings_out[0].residual = -kFoot_m;
  suspects::Cause misread;
  misread.index = 0;
  misread.size = kFoot_m;
  misread.slip = suspects::SlipLook{suspects::SlipKind::foot};
  findings.suspects.ranked = {{0.96, {misread}, {}}, {0.01, {}, {}}};
  findings.suspects.rest = 0.03;
  return findings;
}

}  // namespace stakewright::tests

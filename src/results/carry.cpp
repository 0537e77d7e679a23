#include "stakewright/results/carry.hpp"
#include "stakewright/job/job.hpp"

#include <algorithm>

#include "stakewright/base/error.hpp"

namespace stakewright::results {
namespace {

using roof::Way;

roof::Carry worked(const job::Job& job, const std::optional<roof::FoundCorners>& found) {
  return roof::carry(job.plan, job.plate_offset_m, job.roof, job.tolerance, found);
}

void add_case(CarryResult& result, const job::Job& job, Way way, roof::FoundCorners corners) {
  roof::Carry carry = worked(job, corners);
  const roof::Outcome outcome = roof::outcome(carry);
  result.cases.push_back({way, std::move(corners), std::move(carry), outcome});
}

/// Every way that can be taken, least work first.
void add_cases(CarryResult& result, const job::Job& job, const check::Findings& findings,
               const roof::FoundCorners& found) {
  add_case(result, job, Way::leave, found);
  if (job.roof.base_play_m > 0.0) {
    auto play = roof::with_base_play(job.plan, found, job.roof.base_play_m);
    result.off = std::move(play.off);
    add_case(result, job, Way::with_play, std::move(play.corners));
  }
  if (!findings.moves.empty()) {
    result.moves = findings.moves;
    add_case(result, job, Way::after_moves,
             roof::after_moves(job.plan, found, findings.moves, findings.set_sd_m));
  }
  std::vector<roof::Outcome> outcomes;
  for (const auto& one : result.cases) outcomes.push_back(one.outcome);
  result.enough = roof::least_work_that_serves(outcomes, job.tolerance.part_m);
}

void choose_shown(CarryResult& result, Way way) {
  const auto chosen = std::find_if(result.cases.begin(), result.cases.end(),
                                   [way](const RoofCase& one) { return one.way == way; });
  if (chosen != result.cases.end())
    result.shown = static_cast<std::size_t>(chosen - result.cases.begin());
  else
    result.remarks.push_back({"carry.no_moves"});
}

/// What follows from the roof shown, with its remarks in front.
void finish(CarryResult& result, const job::Job& job, const CarryRequest& request) {
  const auto& remarks = result.carry().remarks;
  result.remarks.insert(result.remarks.begin(), remarks.begin(), remarks.end());
  if (!request.cut_sheet) return;
  result.cut_sheet =
      CutSheet{roof::cut_sheet(result.carry(), job.stock), roof::sheathing_area_m2(result.carry())};
}

CarryResult planned_of(const job::Job& job, const CarryRequest& request) {
  CarryResult result;
  result.planned = worked(job, {});
  result.need = roof::corner_need(job.plan, job.plate_offset_m, job.roof, job.tolerance.part_m);
  if (!request.shift_m) return result;
  // On a regular plan one corner tells for all.
  constexpr std::size_t first = 0;
  result.shift = Shift{layout::stakes(job.plan)[first].label, *request.shift_m,
                       roof::sensitivity(job.plan, job.plate_offset_m, job.roof, first)};
  return result;
}

void require_play(const job::Job& job, Way way) {
  if (way != Way::with_play || job.roof.base_play_m > 0.0) return;
  throw base::InputError(
      "the job's [roof] gives no base_play; accepted: base_play above 0, or another way");
}

}  // namespace

CarryResult carry_of(const job::Job& job, const CarryRequest& request) {
  CarryResult result = planned_of(job, request);
  finish(result, job, request);
  return result;
}

CarryResult carry_of(const job::Job& job, const check::Findings& findings,
                     const CarryRequest& request) {
  require_play(job, request.way);
  CarryResult result = planned_of(job, request);
  if (const auto found = check::found_for_roof(findings)) {
    add_cases(result, job, findings, *found);
    choose_shown(result, request.way);
  } else {
    result.remarks.push_back({"carry.not_every_corner"});
  }
  result.contradiction = findings.verdict == check::Verdict::contradiction;
  if (result.contradiction) result.remarks.push_back({"carry.contradiction"});
  finish(result, job, request);
  return result;
}

}  // namespace stakewright::results

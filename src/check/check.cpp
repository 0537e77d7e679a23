#include "stakewright/check/check.hpp"

#include <algorithm>

#include "judge.hpp"
#include "remarks.hpp"

namespace stakewright::check {
namespace {

/// The bare tape a crew puts a stake right with: the first tape of the job, at this pull.
/// Common practice, no source: a swing on a shelter's footing is some 4 m long.
constexpr double kSwingPull_m = 4.0;

double set_sd_m(const std::vector<readings::Instrument>& instruments) {
  for (const readings::Instrument& instrument : instruments)
    if (instrument.kind == readings::Kind::tape)
      return readings::standard_deviation_m(instrument, kSwingPull_m);
  return 0.0;
}

bool places_are_there(const Judged& judged) { return judged.placement.has_value(); }

/// Whether every leading explanation of the contradiction gives every corner the same verdict.
bool rivals_agree(const Input& input, const Findings& findings, std::vector<Judged>& rivals) {
  for (const adjustment::SlipSet& set : leading_sets(findings.slips)) {
    rivals.push_back(judge(input.plan, input.tolerance, findings.network, set.readings));
    const Judged& rival = rivals.back();
    if (!places_are_there(rival) || rival.adjustment.status != adjustment::Status::settled)
      return false;
    if (!same_verdicts(rivals.front(), rival)) return false;
  }
  return !rivals.empty();
}

/// Adjusts without what is left out, and lays the plan over what is then found.
void find_places(const Input& input, Findings& findings) {
  Judged judged = judge(input.plan, input.tolerance, findings.network, findings.slips.excluded);
  bool contradiction = findings.slips.verdict == adjustment::SlipVerdict::not_separable;
  if (contradiction) {
    std::vector<Judged> rivals;
    if (rivals_agree(input, findings, rivals)) {
      judged = std::move(rivals.front());
      contradiction = false;
      findings.remarks.push_back(rivals_agree_remark());
    }
  }
  findings.used = std::move(judged.adjustment);
  findings.survey = std::move(judged.survey);
  findings.placement = std::move(judged.placement);
  if (findings.survey)
    findings.least_squares = placement::least_squares(*findings.survey, input.tolerance);
  contradiction = contradiction || findings.used.status == adjustment::Status::did_not_settle;
  findings.verdict =
      contradiction ? Verdict::contradiction : verdict_of(findings.used, findings.placement);
}

}  // namespace

Findings check(const Input& input) {
  Findings findings;
  findings.network = adjustment::network(input.plan, input.readings, input.instruments);
  findings.all = adjustment::adjust(findings.network);
  findings.slips = adjustment::weigh_slips(findings.network, findings.all, input.staking.misread);
  find_places(input, findings);
  const suspects::Setting setting{input.staking, input.tolerance, input.units};
  findings.suspects = suspects::weigh(findings.network, setting);
  if (findings.placement && findings.verdict != Verdict::contradiction)
    findings.moves = placement::moves(*findings.survey, *findings.placement, input.tolerance,
                                      set_sd_m(input.instruments));
  if (findings.verdict == Verdict::undecided || findings.verdict == Verdict::contradiction)
    findings.tape_next = suspects::next_tapes(findings.network, findings.suspects, setting);
  add_remarks(input, findings);
  return findings;
}

std::optional<roof::FoundCorners> found_for_roof(const Findings& findings) {
  if (!findings.placement || findings.used.status != adjustment::Status::settled) return {};
  return in_the_plans_frame(findings);
}

int exit_status(Verdict verdict) {
  switch (verdict) {
    case Verdict::in:
      return 0;
    case Verdict::out:
      return 1;
    case Verdict::undecided:
    case Verdict::contradiction:
      return 3;
  }
  return 3;
}

}  // namespace stakewright::check

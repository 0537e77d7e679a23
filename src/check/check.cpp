#include "stakewright/check/check.hpp"

#include <algorithm>

#include "compared.hpp"
#include "places.hpp"
#include "remarks.hpp"
#include "rivals.hpp"
#include "same_pairs.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/readings/missing_figures.hpp"
#include "stakewright/readings/rounds.hpp"

namespace stakewright::check {
namespace {

using adjustment::SlipVerdict;
using adjustment::Status;

void take(Findings& findings, Places places) {
  findings.used = std::move(places.adjustment);
  findings.survey = std::move(places.survey);
  findings.placement = std::move(places.placement);
}

Verdict verdict_from(placement::Verdict verdict) {
  switch (verdict) {
    case placement::Verdict::in:
      return Verdict::in;
    case placement::Verdict::out:
      return Verdict::out;
    case placement::Verdict::undecided:
      break;
  }
  return Verdict::undecided;
}

Verdict verdict_of(const Findings& findings) {
  if (findings.used.status == Status::did_not_settle) return Verdict::contradiction;
  if (!findings.placement) return Verdict::undecided;
  return verdict_from(placement::verdict_of(findings.placement->corners));
}

// What the figures are worth while it is open which reading is wrong.
void add_rivals_remarks(Findings& findings, bool decided) {
  base::List without;
  for (const adjustment::AdjustedReading& reading : findings.used.readings_out) {
    if (reading.excluded)
      without.items.emplace_back(adjustment::name_of(findings.network, reading.observation));
  }
  findings.remarks.push_back(
      {decided ? base::Id("check.misread_but_decided") : base::Id("check.misread_and_open")});
  findings.remarks.push_back(
      without.items.empty()
          ? base::Fact{"check.figures_of_all"}
          : base::Fact{"check.figures_without_the_likeliest", {{"readings", without}}});
}

// Several readings may be the misread one: judged over all of them, the figures being those
// without the likeliest.  Gives per corner whether its deviation is the same whichever it is.
std::vector<bool> find_among_rivals(const Input& input, Findings& findings) {
  Rivals rivals = weighed_rivals(input, findings);
  take(findings, std::move(rivals.leading));
  findings.verdict = rivals.decided ? verdict_of(findings) : Verdict::contradiction;
  if (findings.placement) add_rivals_remarks(findings, rivals.decided);
  return rivals.alike;
}

// A slip can be weighed only in a reading that the others check, and several at once only when
// the others check them all: so leaving out what is named frees no corner.
std::vector<bool> find_places(const Input& input, Findings& findings) {
  if (findings.slips.verdict == SlipVerdict::not_separable) {
    return find_among_rivals(input, findings);
  }
  take(findings, places(input, findings, findings.slips.excluded));
  findings.verdict = verdict_of(findings);
  return std::vector<bool>(findings.network.corner_count, true);
}

// Standard deviation of a stake set with the job's own steel tape at a middling length of the
// plan, each way: two tapes that cross square.
double set_sd_m(const Input& input) {
  const auto* tape = readings::instrument_named(input.instruments,
                                                readings::default_instrument(readings::Kind::tape));
  if (tape == nullptr) return input.staking.spread_m;  // without that tape: as stakes usually stand
  double longest_m = 0.0;
  for (const layout::Tape& pull : layout::check_tapes(input.plan)) {
    longest_m = std::max(longest_m, pull.length_m);
  }
  return readings::standard_deviation_m(*tape, longest_m / 2.0);
}

// Moves of the corners whose deviation is known, whichever reading is wrong.
void add_moves(const Input& input, const std::vector<bool>& certain, Findings& findings) {
  if (!findings.placement || findings.verdict == Verdict::contradiction) return;
  findings.set_sd_m = set_sd_m(input);
  findings.moves =
      placement::moves(*findings.survey, *findings.placement, input.tolerance, findings.set_sd_m);
  std::vector<std::string> unknown;
  const auto uncertain = [&](const placement::Move& move) {
    if (certain[move.corner]) return false;
    unknown.push_back(findings.network.points[move.corner].label);
    return true;
  };
  findings.moves.erase(std::remove_if(findings.moves.begin(), findings.moves.end(), uncertain),
                       findings.moves.end());
  if (!unknown.empty()) {
    findings.remarks.push_back({"check.out_by_how_much", {{"corners", base::names(unknown)}}});
  }
}

// The verdict with that on level: what is out by either is out, what is in by both is in.
Verdict with_levels(const Findings& findings) {
  const Verdict level = verdict_from(findings.levels->verdict);
  if (only_levels(findings)) return level;
  if (findings.verdict == Verdict::contradiction) return findings.verdict;
  if (findings.verdict == Verdict::out || level == Verdict::out) return Verdict::out;
  return findings.verdict == Verdict::in ? level : findings.verdict;
}

levels::Question level_question(const Input& input) {
  return {input.plan,   input.tolerance,   input.staking,
          input.levels, input.instruments, input.readings};
}

// A round's places and verdict; gives per corner whether its deviation is certain.
std::vector<bool> find(const Input& input, Findings& findings) {
  findings.levels = levels::judge(level_question(input));
  findings.network = adjustment::network(
      input.plan,
      findings.levels ? levels::with_slopes(input.readings, *findings.levels) : input.readings,
      input.instruments);
  findings.all = adjustment::adjust(findings.network);
  findings.slips = adjustment::weigh_slips(findings.network, findings.all, input.staking.misread);
  return find_places(input, findings);
}

// Everything about one round.
void check_round(const Input& input, Findings& findings) {
  const std::vector<bool> certain = find(input, findings);
  suspects::Setting setting;
  setting.staking = input.staking;
  setting.tolerance = input.tolerance;
  findings.suspects = suspects::weigh(findings.network, setting);
  if (findings.suspects.of_another_job) findings.verdict = Verdict::contradiction;
  if (findings.placement) {
    findings.least_squares = placement::least_squares(*findings.survey, input.tolerance);
  }
  add_moves(input, certain, findings);
  if (findings.verdict != Verdict::in && !findings.suspects.of_another_job &&
      !only_levels(findings)) {
    findings.tape_next = suspects::next_tapes(findings.network, findings.suspects, setting);
  }
  findings.same_pairs = same_pairs(findings, input.tolerance.confidence);
  for (const auto& more : {exclusion_remarks(input, findings), site_remarks(input, findings),
                           instrument_remarks(input, findings),
                           readings::missing_figures(input.readings, input.instruments)})
    findings.remarks.insert(findings.remarks.end(), more.begin(), more.end());
  findings.places = findings.verdict;
  if (findings.levels) {
    findings.verdict = with_levels(findings);
    const auto& more = findings.levels->remarks;
    findings.remarks.insert(findings.remarks.end(), more.begin(), more.end());
  }
}

Input of_round(const Input& input, const std::string& round) {
  Input result = input;
  result.readings = readings::of_round(input.readings, round);
  return result;
}

}  // namespace

Findings check(const Input& input) {
  Findings findings;
  findings.rounds = readings::rounds_of(input.readings);
  findings.round = base::read_at(
      "--round", [&] { return readings::chosen_round(findings.rounds, input.round); });
  Findings before;
  if (!input.since.empty()) {
    before.round = base::read_at("--since", [&] {
      return readings::earlier_round(findings.rounds, input.since, findings.round);
    });
  }
  check_round(of_round(input, findings.round), findings);
  if (input.since.empty()) return findings;
  find(of_round(input, before.round), before);
  findings.since = compared(before, findings, input);
  return findings;
}

bool only_levels(const Findings& findings) {
  return findings.levels && findings.network.observations.empty();
}

int exit_status(Verdict verdict) {
  switch (verdict) {
    case Verdict::in:
      return 0;
    case Verdict::out:
      return 1;
    case Verdict::undecided:
    case Verdict::contradiction:
      break;
  }
  return 3;
}

}  // namespace stakewright::check

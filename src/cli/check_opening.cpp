#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "reports.hpp"
#include "stakewright/base/angle.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/told/levels.hpp"
#include "words.hpp"

namespace stakewright::cli {
namespace {

using base::text_from_length;
using check::Findings;

/// More moves than this are left to the table.
constexpr std::size_t kMostMovesTold = 3;

struct Telling {
  const Findings& findings;
  const base::Tolerance& tolerance;
  base::Units units;
  std::vector<std::string> sentences;

  void say(std::string sentence) { sentences.push_back(std::move(sentence)); }
  [[nodiscard]] const std::string& label(std::size_t point) const {
    return findings.network.points[point].label;
  }
  [[nodiscard]] std::string tape(std::size_t observation) const {
    return reading_name(findings.network, observation);
  }
};

const char* instrument_word(const Telling& t, std::size_t observation) {
  const auto& seen = t.findings.network.observations[observation];
  if (seen.is_angle()) return "angle";
  const bool tape = t.findings.network.instruments[seen.instrument].kind == readings::Kind::tape;
  return tape ? "tape" : "laser reading";
}

/// Labels of the corners so judged; a corner whose place is not known is told of with its tapes.
std::vector<std::string> corners_with(const Telling& t, placement::Verdict verdict) {
  std::vector<std::string> labels;
  for (std::size_t i = 0; i < t.findings.placement->corners.size(); ++i) {
    const bool judged = t.findings.survey->measured[i];
    if (judged && t.findings.placement->corners[i].verdict == verdict) labels.push_back(t.label(i));
  }
  return labels;
}

std::string is_are(const std::vector<std::string>& names) {
  return names.size() == 1 ? "is" : "are";
}

std::string tapes_words(const Telling& t, const placement::Move& move) {
  if (move.tapes.size() < 2) return "fewer than two stakes stay to tape it from";
  return fmt::format("hold at {} and pull {}, hold at {} and pull {}; it stands where the two meet",
                     t.label(move.tapes[0].from), text_from_length(move.tapes[0].length_m, t.units),
                     t.label(move.tapes[1].from),
                     text_from_length(move.tapes[1].length_m, t.units));
}

void say_moves(Telling& t) {
  const auto& moves = t.findings.moves;
  for (std::size_t i = 0; i < std::min(moves.size(), kMostMovesTold); ++i) {
    const auto& move = moves[i];
    const auto& corner = t.findings.placement->corners[move.corner];
    t.say(fmt::format("Stake {} is {} of its place.", t.label(move.corner),
                      off_words(corner.outward_m, corner.sideways_m, t.units)));
    t.say(fmt::format("Move it {}: {}.", off_words(move.outward_m, move.sideways_m, t.units),
                      tapes_words(t, move)));
  }
  if (moves.size() > kMostMovesTold) {
    t.say(fmt::format("{} to move: see the moves below.",
                      counted(moves.size() - kMostMovesTold, "more stake", "more stakes")));
  }
}

/// Corners that are out and have no move: held stakes.
void say_out_and_held(Telling& t) {
  for (std::size_t i = 0; i < t.findings.placement->corners.size(); ++i) {
    const auto& corner = t.findings.placement->corners[i];
    const bool moved = std::any_of(t.findings.moves.begin(), t.findings.moves.end(),
                                   [&](const auto& move) { return move.corner == i; });
    if (corner.verdict != placement::Verdict::out || moved) continue;
    t.say(fmt::format("Stake {} is {} of its place and has no move.", t.label(i),
                      off_words(corner.outward_m, corner.sideways_m, t.units)));
  }
}

void say_others(Telling& t) {
  const auto in = corners_with(t, placement::Verdict::in);
  const auto open = corners_with(t, placement::Verdict::undecided);
  const std::string within =
      fmt::format("within {}", text_from_length(t.tolerance.corner_m, t.units));
  if (in.size() == t.findings.placement->corners.size()) {
    t.say(fmt::format("All {} corners are in, each {} of its place. Nothing moves.", in.size(),
                      within));
    return;
  }
  if (!in.empty()) {
    t.say(fmt::format("{} {} in, {} of {}.", base::joined(in), is_are(in), within,
                      in.size() == 1 ? "its place" : "their places"));
  }
  if (!open.empty()) {
    t.say(fmt::format("{} cannot be called in or out yet.", base::joined(open)));
  }
}

void say_corners(Telling& t) {
  if (!t.findings.placement || !t.findings.survey) return;
  if (t.findings.places == check::Verdict::undecided) {
    const auto out = corners_with(t, placement::Verdict::out);
    if (out.empty()) t.say("No corner is shown to be out.");
  }
  say_moves(t);
  say_out_and_held(t);
  say_others(t);
}

/// What kind of slip a left-out reading looks like, where the suspects can tell.
std::string slip_words(const Telling& t, std::size_t observation) {
  for (const auto& explanation : t.findings.suspects.ranked) {
    for (const auto& cause : explanation.causes) {
      if (cause.what != suspects::Cause::What::reading || cause.index != observation) continue;
      return cause.slip.empty() ? "" : "; it looks like " + cause.slip;
    }
  }
  return "";
}

void say_left_out(Telling& t) {
  const auto& slips = t.findings.slips;
  for (const std::size_t observation : slips.excluded) {
    const auto& out = t.findings.used.readings_out[observation];
    const double too_long = -out.residual;
    const bool angle = t.findings.network.observations[observation].is_angle();
    const char* way = too_long > 0 ? (angle ? "large" : "long") : (angle ? "small" : "short");
    t.say(fmt::format(
        "The {} {} reads {} too {} and was left out{}.", instrument_word(t, observation),
        t.tape(observation),
        angle ? base::words_from_angle(too_long) : text_from_length(std::abs(too_long), t.units),
        way, slip_words(t, observation)));
  }
}

void say_not_separable(Telling& t) {
  if (t.findings.slips.verdict != adjustment::SlipVerdict::not_separable) return;
  std::vector<std::string> sets;
  for (const auto& set : t.findings.slips.ranked) {
    if (set.readings.empty() || sets.size() == kMostMovesTold) continue;
    std::vector<std::string> tapes;
    for (const std::size_t observation : set.readings) tapes.push_back(t.tape(observation));
    sets.push_back(fmt::format("{}", fmt::join(tapes, " with ")));
  }
  if (sets.empty()) return;
  t.say(fmt::format("Something is misread, and these readings cannot tell which: {}.",
                    fmt::join(sets, ", or ")));
}

/// `A–C and C–E`: the tapes that would fix a corner; empty without any.
std::string fixing_tapes(const Telling& t, const adjustment::Loose& loose) {
  std::vector<std::string> tapes;
  for (const auto& tape : loose.would_fix)
    tapes.push_back(tape_name(t.label(tape.from), t.label(tape.to)));
  return tapes.empty() ? "" : base::joined(tapes);
}

/// Where no corner is fixed, one sentence for all of them.
bool none_is_fixed(Telling& t) {
  const auto& loose = t.findings.used.loose;
  if (loose.size() < t.findings.network.corner_count || loose.empty()) return false;
  const auto most = std::max_element(loose.begin(), loose.end(), [](const auto& a, const auto& b) {
    return a.would_fix.size() < b.would_fix.size();
  });
  const std::string tapes = fixing_tapes(t, *most);
  t.say("These readings fix no corner's place");
  if (!tapes.empty()) t.say(fmt::format("Pull {} to fix the shape", tapes));
  return true;
}

void say_loose(Telling& t) {
  if (none_is_fixed(t)) return;
  for (const auto& loose : t.findings.used.loose) {
    if (loose.point >= t.findings.network.corner_count) continue;
    const std::string tapes = fixing_tapes(t, loose);
    const std::string cure = tapes.empty() ? "" : fmt::format(" Pull {} to fix it.", tapes);
    t.say(fmt::format("Corner {} is not fixed by these readings.{}", t.label(loose.point), cure));
  }
}

void say_suspect(Telling& t) {
  const auto& ranked = t.findings.suspects.ranked;
  if (ranked.empty() || ranked.front().causes.empty() || !t.findings.slips.excluded.empty()) return;
  t.say(fmt::format("Likeliest cause ({}): {}", percent(ranked.front().chance),
                    ranked.front().words));
}

void say_next(Telling& t) {
  if (t.findings.tape_next.empty()) return;
  const auto& next = t.findings.tape_next.front();
  t.say(fmt::format("Pull {}{} next: {}", tape_name(t.label(next.from), t.label(next.to)),
                    next.repeat ? " again" : "", next.why));
}

std::string unsettled_words(adjustment::Status status) {
  switch (status) {
    case adjustment::Status::no_readings:
      return "There are no readings to judge by.";
    case adjustment::Status::did_not_settle:
      return "The readings do not meet in any figure near the plan: they may be of another job, or "
             "two stakes' labels may be changed over.";
    case adjustment::Status::settled:
    case adjustment::Status::shape_not_fixed:
      return "";
  }
  return "";
}

void say_verdict(Telling& t) {
  if (check::only_levels(t.findings)) {
    t.say("Only rods were read: the corners' places are not judged");
    return;
  }
  if (t.findings.suspects.of_another_job) {
    t.say(
        "These readings are not of this job: they fit no polygon near the one planned. Check the "
        "job file's size and sides, and the units of the readings. Nothing is judged");
    return;
  }
  const std::string unsettled = unsettled_words(t.findings.used.status);
  if (!unsettled.empty()) t.say(unsettled);
  if (t.findings.verdict == check::Verdict::contradiction) {
    t.say(
        "The readings contradict each other, and by themselves they do not settle which is wrong. "
        "Nothing is judged and nothing moves yet.");
    return;
  }
  say_corners(t);
}

}  // namespace

std::string check_opening(const Findings& findings, const base::Tolerance& tolerance,
                          base::Units units) {
  Telling t{findings, tolerance, units, {}};
  say_verdict(t);
  say_left_out(t);
  say_not_separable(t);
  if (!check::only_levels(findings)) say_loose(t);
  const wording::Voice english(wording::built_in(wording::kUsualLanguage), units);
  for (const base::Fact& sentence : told::levels_opening(findings, tolerance))
    t.say(english.text(sentence));
  if (findings.places != check::Verdict::in && !findings.suspects.of_another_job) {
    say_suspect(t);
    say_next(t);
  }
  std::string text;
  for (std::string& sentence : t.sentences) {
    if (!sentence.ends_with('.')) sentence += '.';
    text += (text.empty() ? "" : " ") + sentence;
  }
  return text;
}

}  // namespace stakewright::cli

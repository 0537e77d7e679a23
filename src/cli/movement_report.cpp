// Which round is checked, and what moved since an earlier one.
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

#include "reports.hpp"
#include "stakewright/base/text.hpp"
#include "words.hpp"

namespace stakewright::cli {
namespace {

using base::text_from_length;
using base::text_from_small_length;
using check::RoundsCompared;
using placement::Moved;
using placement::StakeMovement;

/// More stakes than this are left to the table.
constexpr std::size_t kMostTold = 3;

/// `2`, or `"before the pour"`: a name of several words is set off.
std::string round_name(const std::string& name) {
  const bool one_word = std::all_of(name.begin(), name.end(),
                                    [](unsigned char letter) { return std::isalnum(letter) != 0; });
  return one_word ? name : '"' + name + '"';
}

std::vector<std::string> labels_of(const RoundsCompared& since,
                                   const std::vector<std::size_t>& stakes) {
  std::vector<std::string> labels;
  for (const std::size_t stake : stakes) labels.push_back(since.labels[stake]);
  return labels;
}

std::vector<std::size_t> stakes_that(const RoundsCompared& since, Moved moved) {
  std::vector<std::size_t> stakes;
  const auto& all = since.movement->stakes;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const bool compared = all[i].smallest_shown_m > 0.0;
    if (compared && all[i].moved == moved) stakes.push_back(i);
  }
  return stakes;
}

/// The center pin has no outward; it is told by how far alone.
std::string movement_words(const StakeMovement& stake, base::Units units) {
  if (stake.outward_m == 0.0 && stake.sideways_m == 0.0)
    return text_from_length(stake.distance_m, units);
  return off_words(stake.outward_m, stake.sideways_m, units);
}

std::string against_words(const RoundsCompared& since) {
  const auto& movement = *since.movement;
  if (since.tied) return "Seen against the known points.";
  const auto ground = labels_of(since, movement.datum.shift);
  const bool held = movement.datum.shift != movement.stable;
  return fmt::format("Seen against {}{}.", held ? "the held " : "", base::joined(ground));
}

void say_moved(const RoundsCompared& since, base::Units units, std::vector<std::string>& said) {
  const auto moved = stakes_that(since, Moved::yes);
  if (moved.size() > kMostTold) {
    said.push_back(fmt::format("Since round {} stakes {} have moved.", round_name(since.since),
                               base::joined(labels_of(since, moved))));
    return;
  }
  for (const std::size_t i : moved) {
    const auto& stake = since.movement->stakes[i];
    said.push_back(fmt::format("Since round {} stake {} has moved {}, give or take {}.",
                               round_name(since.since), since.labels[i],
                               movement_words(stake, units),
                               text_from_small_length(stake.ellipse.major_m, units)));
  }
}

void say_open(const RoundsCompared& since, std::vector<std::string>& said) {
  const auto open = stakes_that(since, Moved::undecided);
  if (since.movement->stable.empty()) {
    said.push_back(fmt::format(
        "Since round {} the stakes have moved against each other, and no {} of them kept their "
        "distances: which moved cannot be told.",
        round_name(since.since), placement::kFewestCompared));
  } else if (!open.empty()) {
    said.push_back(fmt::format(
        "{} since round {}, but these readings cannot tell which of {}.",
        stakes_that(since, Moved::yes).empty() ? "Something has moved" : "More may have moved",
        round_name(since.since), base::joined(labels_of(since, open))));
  }
}

/// What the two rounds could not have missed.
std::string shown_words(const RoundsCompared& since, base::Units units) {
  double largest_m = 0.0;
  for (const auto& stake : since.movement->stakes)
    largest_m = std::max(largest_m, stake.smallest_shown_m);
  return fmt::format(
      "A stake that had moved {} or more, whichever way, would have come to light "
      "four times in five.",
      text_from_length(largest_m, units));
}

std::vector<std::string> sentences_of(const RoundsCompared& since, base::Units units) {
  const auto& movement = *since.movement;
  std::vector<std::string> said;
  if (movement.hold_moved)
    said.emplace_back("The held stakes have moved against each other, so they hold nothing here.");
  if (!movement.shown) {
    said.push_back(
        fmt::format("Since round {} no stake is shown to have moved.", round_name(since.since)));
    said.push_back(shown_words(since, units));
  } else {
    say_moved(since, units, said);
    say_open(since, said);
    if (!movement.stable.empty()) said.push_back(against_words(since));
    said.push_back(
        fmt::format("By noise alone so much shows {} of the time.", percent(movement.by_noise)));
  }
  if (since.scattered)
    said.emplace_back(
        "The readings scatter more than their instruments should; this is allowed for.");
  return said;
}

Row movement_row(const std::string& label, const StakeMovement& stake, const Shown& shown) {
  const char* verdict = stake.moved == Moved::yes  ? "MOVED"
                        : stake.moved == Moved::no ? "not shown"
                                                   : "cannot tell";
  if (stake.smallest_shown_m == 0.0) return {label, "not in both", "", "", "", "", "", verdict};
  const bool corner = stake.outward_m != 0.0 || stake.sideways_m != 0.0;
  return {label,
          corner ? directed(stake.outward_m, kOutward, shown.units, Step::tape) : "-",
          corner ? directed(stake.sideways_m, kSideways, shown.units, Step::tape) : "-",
          text_from_length(stake.distance_m, shown.units),
          text_from_small_length(stake.ellipse.major_m, shown.units),
          percent(stake.by_noise),
          text_from_length(stake.smallest_shown_m, shown.units),
          verdict};
}

}  // namespace

std::string round_line(const check::Findings& findings) {
  if (findings.rounds.size() < 2) return "";
  std::vector<std::string> names;
  for (const std::string& name : findings.rounds) names.push_back(round_name(name));
  return paragraph(
      fmt::format("Round {} of {}: {}. The readings of the other rounds are left aside.",
                  round_name(findings.round), fmt::join(names, ", "),
                  counted(findings.network.observations.size(), "reading", "readings")));
}

std::string movement_opening(const check::Findings& findings, base::Units units) {
  if (!findings.since) return "";
  const RoundsCompared& since = *findings.since;
  if (!since.movement)
    return paragraph(
        fmt::format("Not compared with round {}. {}", round_name(since.since), since.why_not));
  return paragraph(fmt::format("{}", fmt::join(sentences_of(since, units), " ")));
}

std::string movement_section(const check::Findings& findings, const Shown& shown) {
  if (!findings.since || !findings.since->movement) return "";
  const RoundsCompared& since = *findings.since;
  std::vector<Row> rows;
  const auto& stakes = since.movement->stakes;
  for (std::size_t i = 0; i < stakes.size(); ++i) {
    const bool pin_unseen = i + 1 == stakes.size() && stakes[i].smallest_shown_m == 0.0;
    if (!pin_unseen) rows.push_back(movement_row(since.labels[i], stakes[i], shown));
  }
  const std::string title = fmt::format("Moved since round {}", round_name(since.since));
  return '\n' + heading(title, shown.emphasis) +
         table({{"stake"},
                {"outward or inward", Align::right},
                {"sideways", Align::right},
                {"moved", Align::right},
                {"give or take", Align::right},
                {"by noise", Align::right},
                {"would show", Align::right},
                {"verdict"}},
               rows, shown.emphasis);
}

}  // namespace stakewright::cli

#include "stakewright/told/movement.hpp"

#include <algorithm>
#include <cctype>

#include "words.hpp"

namespace stakewright::told {
namespace {

using base::Chance;
using base::Count;
using base::Directed;
using base::Fact;
using base::Length;
using base::List;
using base::Name;
using base::Nothing;
using base::Quoted;
using base::Step;
using base::Value;
using base::Way;
using check::RoundsCompared;
using placement::Moved;
using placement::StakeMovement;

/// More stakes than this are left to the table.
constexpr std::size_t kMostTold = 3;

/// `2`, or `"before the pour"`: a name of several words is set off.
Value round_name(const std::string& name) {
  const bool one_word = std::all_of(name.begin(), name.end(),
                                    [](unsigned char letter) { return std::isalnum(letter) != 0; });
  return one_word ? Value(Name{name}) : Value(Quoted{name});
}

List labels_of(const RoundsCompared& since, const std::vector<std::size_t>& stakes) {
  std::vector<std::string> labels;
  for (const std::size_t stake : stakes) labels.push_back(since.labels[stake]);
  return base::names(labels);
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
bool has_ways(const StakeMovement& stake) {
  return stake.outward_m != 0.0 || stake.sideways_m != 0.0;
}

void say_moved(const RoundsCompared& since, Paragraph& said) {
  const Value round = round_name(since.since);
  const auto moved = stakes_that(since, Moved::yes);
  if (moved.size() > kMostTold) {
    said.push_back(
        {"movement.have_moved", {{"round", round}, {"stakes", labels_of(since, moved)}}});
    return;
  }
  for (const std::size_t i : moved) {
    const StakeMovement& stake = since.movement->stakes[i];
    said.push_back(
        {"movement.has_moved",
         {{"round", round},
          {"stake", Name{since.labels[i]}},
          {"moved", has_ways(stake) ? Value(base::Offset{stake.outward_m, stake.sideways_m})
                                    : Value(Length{stake.distance_m})},
          {"give_or_take", Length{stake.ellipse.major_m, Step::fine}}}});
  }
}

void say_open(const RoundsCompared& since, Paragraph& said) {
  const Value round = round_name(since.since);
  const auto open = stakes_that(since, Moved::undecided);
  if (since.movement->stable.empty()) {
    said.push_back(
        {"movement.no_ground", {{"round", round}, {"fewest", Count{placement::kFewestCompared}}}});
  } else if (!open.empty()) {
    said.push_back({stakes_that(since, Moved::yes).empty() ? base::Id("movement.something_moved")
                                                           : base::Id("movement.more_may_have"),
                    {{"round", round}, {"stakes", labels_of(since, open)}}});
  }
}

Fact against(const RoundsCompared& since) {
  const placement::Movement& movement = *since.movement;
  if (since.tied) return {"movement.against_known"};
  const bool held = movement.datum.shift != movement.stable;
  return {held ? base::Id("movement.against_held") : base::Id("movement.against"),
          {{"stakes", labels_of(since, movement.datum.shift)}}};
}

/// What the two rounds could not have missed.
Fact would_show(const placement::Movement& movement) {
  double largest_m = 0.0;
  for (const StakeMovement& stake : movement.stakes)
    largest_m = std::max(largest_m, stake.smallest_shown_m);
  return {"movement.would_have_shown", {{"size", Length{largest_m}}}};
}

Row movement_row(const std::string& label, const StakeMovement& stake) {
  const Fact verdict{stake.moved == Moved::yes  ? base::Id("movement.moved")
                     : stake.moved == Moved::no ? base::Id("movement.not_shown")
                                                : base::Id("verdicts.undecided")};
  const Nothing none{};
  if (stake.smallest_shown_m == 0.0)
    return {Name{label}, Fact{"movement.not_in_both"}, none, none, none, none, none, verdict};
  const auto moved = [&](Way way, double length_m) {
    return has_ways(stake) ? Value(Directed{way, Length{length_m}}) : dash();
  };
  return {Name{label},
          moved(Way::outward, stake.outward_m),
          moved(Way::sideways, stake.sideways_m),
          Length{stake.distance_m},
          Length{stake.ellipse.major_m, Step::fine},
          Chance{stake.by_noise},
          Length{stake.smallest_shown_m},
          verdict};
}

}  // namespace

Paragraph round_line(const check::Findings& findings) {
  if (findings.rounds.size() < 2) return {};
  List rounds{{}, List::Joint::listed};
  for (const std::string& name : findings.rounds) rounds.items.push_back(round_name(name));
  return {{"movement.round",
           {{"round", round_name(findings.round)},
            {"rounds", std::move(rounds)},
            {"count", Count{findings.network.observations.size()}}}},
          {"movement.others_aside"}};
}

Paragraph movement_opening(const check::Findings& findings) {
  if (!findings.since) return {};
  const RoundsCompared& since = *findings.since;
  Paragraph said;
  if (!since.movement) {
    said.push_back({"movement.not_compared", {{"round", round_name(since.since)}}});
    if (since.why_not) said.push_back(*since.why_not);
    return said;
  }
  const placement::Movement& movement = *since.movement;
  if (movement.hold_moved) said.push_back({"movement.held_moved"});
  if (!movement.shown) {
    said.push_back({"movement.none_shown", {{"round", round_name(since.since)}}});
    said.push_back(would_show(movement));
  } else {
    say_moved(since, said);
    say_open(since, said);
    if (!movement.stable.empty()) said.push_back(against(since));
    said.push_back({"movement.by_noise_alone", {{"chance", Chance{movement.by_noise}}}});
  }
  if (since.scattered) said.push_back({"movement.scattered"});
  return said;
}

std::vector<Section> movement_sections(const check::Findings& findings) {
  if (!findings.since || !findings.since->movement) return {};
  const RoundsCompared& since = *findings.since;
  Table table{{Fact{"columns.stake"}, Fact{"columns.outward_or_inward"}, Fact{"columns.sideways"},
               Fact{"movement.distance"}, Fact{"columns.give_or_take"}, Fact{"movement.by_noise"},
               Fact{"movement.would_show"}, Fact{"columns.verdict"}},
              {}};
  const auto& stakes = since.movement->stakes;
  for (std::size_t i = 0; i < stakes.size(); ++i) {
    const bool pin_unseen = i + 1 == stakes.size() && stakes[i].smallest_shown_m == 0.0;
    if (!pin_unseen) table.rows.push_back(movement_row(since.labels[i], stakes[i]));
  }
  return {{Fact{"movement.heading", {{"round", round_name(since.since)}}}, {std::move(table)}}};
}

}  // namespace stakewright::told

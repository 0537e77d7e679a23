#include "stakewright/told/check.hpp"

#include <algorithm>
#include <cmath>

#include "stakewright/told/corrections.hpp"
#include "stakewright/told/levels.hpp"
#include "stakewright/told/movement.hpp"
#include "stakewright/told/suspects.hpp"
#include "words.hpp"

namespace stakewright::told {
namespace {

using base::Angle;
using base::AngleStyle;
using base::Chance;
using base::Count;
using base::Directed;
using base::Fact;
using base::Id;
using base::Length;
using base::List;
using base::Name;
using base::Nothing;
using base::Number;
using base::Step;
using base::Value;
using base::Way;
using check::Findings;
using placement::Verdict;

/// More moves than this are left to the table, and so are more sets of readings.
constexpr std::size_t kMostTold = 3;

Name label(const Findings& findings, std::size_t point) {
  return {findings.network.points[point].label};
}

List labels(const Findings& findings, const std::vector<std::size_t>& points) {
  List list;
  for (const std::size_t point : points) list.items.emplace_back(label(findings, point));
  return list;
}

/// Corners so judged; one whose place is not known is told of with its tapes.
std::vector<std::size_t> corners_with(const Findings& findings, Verdict verdict) {
  std::vector<std::size_t> corners;
  for (std::size_t i = 0; i < findings.placement->corners.size(); ++i)
    if (findings.survey->measured[i] && findings.placement->corners[i].verdict == verdict)
      corners.push_back(i);
  return corners;
}

base::Offset off(const placement::CornerResult& corner) {
  return {corner.outward_m, corner.sideways_m};
}

Fact move_it(const Findings& findings, const placement::Move& move) {
  const base::Offset way{move.outward_m, move.sideways_m};
  if (move.tapes.size() < 2) return {"check.move_it_untaped", {{"move", way}}};
  return {"check.move_it",
          {{"move", way},
           {"first", label(findings, move.tapes[0].from)},
           {"first_pull", Length{move.tapes[0].length_m}},
           {"second", label(findings, move.tapes[1].from)},
           {"second_pull", Length{move.tapes[1].length_m}}}};
}

void say_moves(const Findings& findings, Paragraph& said) {
  const auto& moves = findings.moves;
  for (std::size_t i = 0; i < std::min(moves.size(), kMostTold); ++i) {
    const placement::Move& move = moves[i];
    said.push_back({"check.stake_off",
                    {{"stake", label(findings, move.corner)},
                     {"off", off(findings.placement->corners[move.corner])}}});
    said.push_back(move_it(findings, move));
  }
  if (moves.size() > kMostTold)
    said.push_back({"check.more_to_move", {{"count", Count{moves.size() - kMostTold}}}});
}

/// Corners that are out and have no move: held stakes.
void say_out_and_held(const Findings& findings, Paragraph& said) {
  for (std::size_t i = 0; i < findings.placement->corners.size(); ++i) {
    const placement::CornerResult& corner = findings.placement->corners[i];
    const bool moved = std::any_of(findings.moves.begin(), findings.moves.end(),
                                   [&](const auto& move) { return move.corner == i; });
    if (corner.verdict != Verdict::out || moved) continue;
    said.push_back(
        {"check.off_without_move", {{"stake", label(findings, i)}, {"off", off(corner)}}});
  }
}

void say_others(const Findings& findings, const base::Tolerance& tolerance, Paragraph& said) {
  const auto in = corners_with(findings, Verdict::in);
  const auto open = corners_with(findings, Verdict::undecided);
  const Length within{tolerance.corner_m};
  if (in.size() == findings.placement->corners.size()) {
    said.push_back({"check.all_in", {{"count", Count{in.size()}}, {"tolerance", within}}});
    return;
  }
  if (!in.empty())
    said.push_back({"check.in", {{"corners", labels(findings, in)}, {"tolerance", within}}});
  if (!open.empty()) said.push_back({"check.open", {{"corners", labels(findings, open)}}});
}

void say_corners(const Findings& findings, const base::Tolerance& tolerance, Paragraph& said) {
  if (!findings.placement || !findings.survey) return;
  if (findings.places == check::Verdict::undecided && corners_with(findings, Verdict::out).empty())
    said.push_back({"check.none_shown_out"});
  say_moves(findings, said);
  say_out_and_held(findings, said);
  say_others(findings, tolerance, said);
}

/// The cause that explains a left-out reading, where it looks like one kind of slip.
const suspects::Cause* slip_cause(const Findings& findings, std::size_t observation) {
  for (const auto& explanation : findings.suspects.ranked)
    for (const auto& cause : explanation.causes)
      if (cause.what == suspects::Cause::What::reading && cause.index == observation)
        return cause.slip ? &cause : nullptr;
  return nullptr;
}

Fact left_out_sentence(const Findings& findings, std::size_t observation) {
  const auto& network = findings.network;
  Fact said{
      adjustment::by_kind(network, observation,
                          {"check.tape_left_out", "check.laser_left_out", "check.angle_left_out"}),
      {{"reading", adjustment::name_of(network, observation)},
       {"off", network.observations[observation].off_by(
                   -findings.used.readings_out[observation].residual)}}};
  const suspects::Cause* cause = slip_cause(findings, observation);
  if (cause == nullptr) return said;
  said.id = adjustment::by_kind(
      network, observation,
      {"check.tape_left_out_like", "check.laser_left_out_like", "check.angle_left_out_like"});
  said.holes.push_back({"slip", slip(network, *cause)});
  return said;
}

/// The likeliest sets of readings that may be misread.
List sets_in_question(const Findings& findings) {
  List sets{{}, List::Joint::either};
  for (const auto& set : findings.slips.ranked) {
    if (set.readings.empty() || sets.items.size() == kMostTold) continue;
    List readings{{}, List::Joint::with};
    for (const std::size_t observation : set.readings)
      readings.items.emplace_back(adjustment::name_of(findings.network, observation));
    sets.items.emplace_back(std::move(readings));
  }
  return sets;
}

/// The tapes that would fix a corner.
List fixing_tapes(const Findings& findings, const adjustment::Loose& loose) {
  List tapes;
  for (const auto& tape : loose.would_fix)
    tapes.items.emplace_back(
        pull(findings.network.points[tape.from].label, findings.network.points[tape.to].label));
  return tapes;
}

Row corner_row(const Findings& findings, std::size_t i) {
  const placement::CornerResult& corner = findings.placement->corners[i];
  const Nothing none{};
  if (!findings.survey->measured[i])
    return {label(findings, i),     Fact{"check.not_fixed_cell"}, none, none, none, none,
            verdict(corner.verdict)};
  return {label(findings, i),
          Directed{Way::outward, Length{corner.outward_m}},
          Directed{Way::sideways, Length{corner.sideways_m}},
          Length{corner.off_m},
          Length{corner.ellipse.major_m, Step::fine},
          Chance{corner.chance_in},
          verdict(corner.verdict)};
}

Section corners_section(const job::Job& job, const Findings& findings) {
  Table table{{Fact{"columns.corner"}, Fact{"columns.outward_or_inward"}, Fact{"columns.sideways"},
               Fact{"columns.off"}, Fact{"columns.give_or_take"}, Fact{"columns.chance_in"},
               Fact{"columns.verdict"}},
              {}};
  for (std::size_t i = 0; i < findings.placement->corners.size(); ++i)
    table.rows.push_back(corner_row(findings, i));
  Paragraph laid{{"check.laid_on", {{"corners", labels(findings, findings.placement->kept)}}}};
  for (const auto& other : findings.placement->alternatives)
    laid.push_back({"check.as_many_stay", {{"corners", labels(findings, other)}}});
  return {Fact{"check.corners",
               {{"tolerance", Length{job.tolerance.corner_m}},
                {"chance", Chance{job.tolerance.confidence}}}},
          {std::move(table), std::move(laid)}};
}

Row reading_row(const Findings& findings, std::size_t i) {
  const readings::Observation& seen = findings.network.observations[i];
  const adjustment::AdjustedReading& out = findings.used.readings_out[i];
  return {adjustment::points_of(findings.network, i),
          Name{findings.network.instruments[seen.instrument].name},
          seen.figure(seen.read),
          seen.figure(out.adjusted),
          seen.is_angle() ? Directed{Way::large, Angle{-out.residual, AngleStyle::dms}}
                          : Directed{Way::reads, Length{-out.residual, Step::fine}},
          Number{std::abs(out.standardized), 1},
          std::isfinite(out.smallest_catch) ? seen.figure(out.smallest_catch)
                                            : Value(Fact{"columns.none"}),
          out.excluded ? Value(Fact{"columns.left_out"}) : Value(Nothing{})};
}

/// How an angle is named, by the first one there is.
Paragraph angle_note(const Findings& findings) {
  const auto& all = findings.network.observations;
  const auto angle =
      std::find_if(all.begin(), all.end(), [](const auto& reading) { return reading.is_angle(); });
  if (angle == all.end()) return {};
  const auto index = static_cast<std::size_t>(angle - all.begin());
  return {{"check.is_an_angle",
           {{"reading", adjustment::points_of(findings.network, index)},
            {"at", label(findings, *angle->at)},
            {"from", label(findings, angle->from)},
            {"to", label(findings, angle->to)}}}};
}

Section readings_section(const Findings& findings) {
  Table table{{Fact{"columns.pull"}, Fact{"columns.with"}, Fact{"columns.read"},
               Fact{"columns.adjusted"}, Fact{"columns.reads"}, Fact{"columns.in_own_spreads"},
               Fact{"columns.smallest_slip"}, Nothing{}},
              {}};
  for (std::size_t i = 0; i < findings.used.readings_out.size(); ++i)
    table.rows.push_back(reading_row(findings, i));
  return {Fact{"check.readings"}, {std::move(table), angle_note(findings)}};
}

Section comparison_section(const Findings& findings) {
  Table table{
      {Fact{"columns.corner"}, Fact{"check.off_fewest_moves"}, Fact{"check.off_least_squares"},
       Fact{"columns.outward_or_inward"}, Fact{"columns.sideways"}},
      {}};
  for (std::size_t i = 0; i < findings.least_squares->corners.size(); ++i) {
    if (!findings.survey->measured[i]) continue;
    const placement::CornerResult& corner = findings.least_squares->corners[i];
    table.rows.push_back({label(findings, i), Length{findings.placement->corners[i].off_m},
                          Length{corner.off_m}, Directed{Way::outward, Length{corner.outward_m}},
                          Directed{Way::sideways, Length{corner.sideways_m}}});
  }
  return {Fact{"check.for_comparison"}, {std::move(table)}};
}

Section adjustment_section(const Findings& findings) {
  const adjustment::Adjustment& used = findings.used;
  const auto count = [](int number) { return Count{static_cast<std::size_t>(number)}; };
  Table table{{Nothing{}, Nothing{}},
              {{Fact{"adjustment.readings_used"},
                Fact{"adjustment.used_of_all",
                     {{"used", count(used.readings)},
                      {"all", Count{findings.network.observations.size()}}}}},
               {Fact{"adjustment.unknowns"}, count(used.unknowns)},
               {Fact{"adjustment.redundancy"}, count(used.redundancy)}}};
  Paragraph tested;
  if (used.redundancy > 0) {
    table.rows.push_back({Fact{"adjustment.variance_factor"}, Number{used.variance_factor, 2}});
    tested.push_back({used.passed ? Id("adjustment.agree") : Id("adjustment.disagree"),
                      {{"chi_square", Number{used.chi_square, 2}},
                       {"limit", Number{used.chi_square_limit, 2}}}});
  }
  return {Fact{"adjustment.heading"}, {std::move(table), std::move(tested)}};
}

}  // namespace

Paragraph verdict_sentences(const Findings& findings, const base::Tolerance& tolerance) {
  if (check::only_levels(findings)) return {{"check.only_rods"}};
  if (findings.suspects.of_another_job) return {{"check.another_job"}};
  Paragraph said;
  if (findings.used.status == adjustment::Status::no_readings)
    said.push_back({"check.no_readings"});
  if (findings.used.status == adjustment::Status::did_not_settle)
    said.push_back({"check.did_not_settle"});
  if (findings.verdict == check::Verdict::contradiction)
    said.push_back({"check.contradiction"});
  else
    say_corners(findings, tolerance, said);
  return said;
}

Paragraph left_out(const Findings& findings) {
  Paragraph said;
  for (const std::size_t observation : findings.slips.excluded)
    said.push_back(left_out_sentence(findings, observation));
  if (findings.slips.verdict != adjustment::SlipVerdict::not_separable) return said;
  List sets = sets_in_question(findings);
  if (!sets.items.empty()) said.push_back({"check.cannot_tell_which", {{"sets", std::move(sets)}}});
  return said;
}

Paragraph likeliest_cause(const Findings& findings) {
  const auto& ranked = findings.suspects.ranked;
  if (ranked.empty() || ranked.front().causes.empty() || !findings.slips.excluded.empty())
    return {};
  return {{"check.likeliest_cause",
           {{"chance", Chance{ranked.front().chance}},
            {"explanation", explanation(findings.network, ranked.front().causes)}}}};
}

Paragraph loose_corners(const Findings& findings) {
  const auto& loose = findings.used.loose;
  Paragraph said;
  // Where no corner is fixed, the same for all of them.
  if (!loose.empty() && loose.size() >= findings.network.corner_count) {
    const auto most = std::max_element(
        loose.begin(), loose.end(),
        [](const auto& a, const auto& b) { return a.would_fix.size() < b.would_fix.size(); });
    const List tapes = fixing_tapes(findings, *most);
    said.push_back({"check.none_fixed"});
    if (!tapes.items.empty()) said.push_back({"check.fix_the_shape", {{"pulls", tapes}}});
    return said;
  }
  for (const adjustment::Loose& one : loose) {
    if (one.point >= findings.network.corner_count) continue;
    const List tapes = fixing_tapes(findings, one);
    said.push_back({"check.not_fixed", {{"corner", label(findings, one.point)}}});
    if (!tapes.items.empty()) said.push_back({"check.fix_it", {{"pulls", tapes}}});
  }
  return said;
}

Paragraph check_opening(const Findings& findings, const base::Tolerance& tolerance) {
  Paragraph said = verdict_sentences(findings, tolerance);
  add(left_out(findings), said);
  if (!check::only_levels(findings)) add(loose_corners(findings), said);
  add(levels_opening(findings, tolerance), said);
  if (findings.places != check::Verdict::in && !findings.suspects.of_another_job) {
    add(likeliest_cause(findings), said);
    add(next_pull(findings), said);
  }
  return said;
}

Table moves_table(const Findings& findings) {
  Table table{{Fact{"columns.stake"}, Fact{"check.move"}, Fact{"check.and"}, Fact{"tapes.hold_at"},
               Fact{"columns.pull"}, Fact{"tapes.hold_at"}, Fact{"columns.pull"},
               Fact{"check.crossing"}, Fact{"check.then_in"}},
              {}};
  for (const placement::Move& move : findings.moves) {
    const bool taped = move.tapes.size() == 2;
    Row row{label(findings, move.corner), Directed{Way::outward, Length{move.outward_m}},
            Directed{Way::sideways, Length{move.sideways_m}}};
    for (std::size_t i = 0; i < 2; ++i) {
      row.push_back(taped ? Value(label(findings, move.tapes[i].from)) : dash());
      row.push_back(taped ? Value(Length{move.tapes[i].length_m}) : dash());
    }
    row.push_back(taped ? Value(Angle{move.crossing_rad}) : dash());
    row.push_back(Chance{move.predicted_chance_in});
    table.rows.push_back(std::move(row));
  }
  return table;
}

Report check_report(const job::Job& job, const Findings& findings, bool corrections) {
  Report report{job.title,
                {{{},
                  {round_line(findings), check_opening(findings, job.tolerance),
                   movement_opening(findings)}}}};
  auto& sections = report.sections;
  const bool placed = findings.placement && findings.survey;
  if (placed) sections.push_back(corners_section(job, findings));
  add(levels_sections(job, findings), sections);
  if (!check::only_levels(findings)) {
    if (!findings.moves.empty()) sections.push_back({Fact{"check.moves"}, {moves_table(findings)}});
    add(movement_sections(findings), sections);
    if (!findings.used.readings_out.empty()) sections.push_back(readings_section(findings));
    if (corrections) sections.push_back(corrections_section(findings));
    sections.push_back(suspects_section(findings));
    if (!findings.tape_next.empty()) sections.push_back(next_pulls_section(findings));
    if (placed && findings.least_squares) sections.push_back(comparison_section(findings));
    sections.push_back(adjustment_section(findings));
  }
  sections.push_back({{}, {Paragraph{{"check.caution"}}}});
  return report;
}

}  // namespace stakewright::told

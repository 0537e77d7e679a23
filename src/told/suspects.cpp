#include "stakewright/told/suspects.hpp"

#include <algorithm>
#include <cmath>

#include "stakewright/base/significant.hpp"
#include "words.hpp"

namespace stakewright::told {
namespace {

using adjustment::Network;
using base::Count;
using base::Directed;
using base::Fact;
using base::Id;
using base::List;
using base::Name;
using base::Nothing;
using base::RoughLength;
using base::Value;
using base::Way;
using suspects::Cause;
using suspects::SlipKind;

Name label(const Network& network, std::size_t point) { return {network.points[point].label}; }

bool is_center(const Network& network, std::size_t point) {
  return network.points[point].role == adjustment::Role::center;
}

/// Which way a stake stands off and how far, as well as its readings show.
Value displacement(const Network& network, const Cause& cause) {
  const bool center = is_center(network, cause.index);
  const double whole_m = std::hypot(cause.outward_m, cause.sideways_m);
  List ways;
  const auto add = [&](Way way, double amount_m, double sd_m) {
    // A part that is small beside the whole and beside its own doubt is left out.
    if (std::abs(amount_m) < 0.35 * whole_m || std::abs(amount_m) < 0.5 * sd_m) return;
    ways.items.emplace_back(Directed{way, RoughLength{amount_m, sd_m}});
  };
  add(center ? Way::forward : Way::outward, cause.outward_m, cause.outward_sd_m);
  add(center ? Way::right : Way::sideways, cause.sideways_m, cause.sideways_sd_m);
  if (!ways.items.empty()) return ways;
  return Fact{"causes.some_way", {{"size", RoughLength{whole_m, cause.outward_sd_m}}}};
}

/// By how much, roughly, something reads wrong.
Fact off_by(const Cause& cause, bool angle) {
  const bool more = cause.size > 0.0;
  if (angle)
    return {more ? Id("sizes.too_large") : Id("sizes.too_small"),
            {{"size", base::RoughAngle{cause.size, cause.size_sd}}}};
  return {more ? Id("sizes.too_long") : Id("sizes.too_short"),
          {{"size", RoughLength{cause.size, cause.size_sd}}}};
}

Fact with_slip(const Network& network, const Cause& cause, Fact said) {
  if (!cause.slip) return said;
  return {"causes.with_slip", {{"cause", std::move(said)}, {"slip", slip(network, cause)}}};
}

Fact misread(const Network& network, const Cause& cause) {
  const bool angle = network.observations[cause.index].is_angle();
  return {
      adjustment::by_kind(network, cause.index, {"causes.tape", "causes.laser", "causes.angle"}),
      {{"reading", adjustment::name_of(network, cause.index)}, {"off", off_by(cause, angle)}}};
}

Fact stake(const Network& network, const Cause& cause) {
  const Id stake = cause.one_way_only ? Id("causes.stake_one_way") : Id("causes.stake");
  const Id center = cause.one_way_only ? Id("causes.center_one_way") : Id("causes.center");
  return {is_center(network, cause.index) ? center : stake,
          {{"stake", label(network, cause.index)}, {"off", displacement(network, cause)}}};
}

/// One end of a reading was another stake than the one written down.
Fact wrong_stake(const Network& network, const Cause& cause) {
  const readings::Observation& written = network.observations[cause.index];
  const auto reading = adjustment::name_of(network, cause.index);
  const Name other = label(network, *cause.other);
  if (written.is_angle())
    return {"causes.wrong_sight",
            {{"reading", reading},
             {"other", other},
             {"meant", label(network, *cause.held == written.from ? written.to : written.from)}}};
  return {"causes.wrong_pull",
          {{"reading", reading}, {"held", label(network, *cause.held)}, {"other", other}}};
}

Fact clause(const Network& network, const Cause& cause) {
  const auto instrument = [&] { return Name{network.instruments[cause.index].name}; };
  switch (cause.what) {
    case Cause::What::reading:
      return with_slip(network, cause, misread(network, cause));
    case Cause::What::stake:
      return stake(network, cause);
    case Cause::What::instrument_zero:
      return with_slip(
          network, cause,
          {"causes.zero", {{"instrument", instrument()}, {"off", off_by(cause, false)}}});
    case Cause::What::instrument_scale:
      return {cause.size > 0.0 ? Id("causes.scale_long") : Id("causes.scale_short"),
              {{"instrument", instrument()},
               {"percent", base::significant(100.0 * std::abs(cause.size), 2)}}};
    case Cause::What::labels:
      return {"causes.labels",
              {{"first", label(network, cause.index)}, {"second", label(network, *cause.other)}}};
    case Cause::What::rows:
      return {"causes.rows",
              {{"first", adjustment::name_of(network, cause.index)},
               {"second", adjustment::name_of(network, *cause.other)}}};
    case Cause::What::wrong_stake:
      break;
  }
  return wrong_stake(network, cause);
}

/// A cause as something that can be told from something else.
Fact noun(const Network& network, const Cause& cause) {
  switch (cause.what) {
    case Cause::What::reading:
      return {"told_apart.misread", {{"reading", adjustment::name_of(network, cause.index)}}};
    case Cause::What::stake:
      return {is_center(network, cause.index) ? Id("told_apart.center") : Id("told_apart.stake"),
              {{"stake", label(network, cause.index)}, {"off", displacement(network, cause)}}};
    case Cause::What::instrument_zero:
      return {"told_apart.zero", {{"instrument", Name{network.instruments[cause.index].name}}}};
    case Cause::What::instrument_scale:
      return {"told_apart.scale", {{"instrument", Name{network.instruments[cause.index].name}}}};
    case Cause::What::labels:
      return {"told_apart.labels",
              {{"first", label(network, cause.index)}, {"second", label(network, *cause.other)}}};
    case Cause::What::rows:
      return {"told_apart.rows",
              {{"first", adjustment::name_of(network, cause.index)},
               {"second", adjustment::name_of(network, *cause.other)}}};
    case Cause::What::wrong_stake:
      break;
  }
  return {network.observations[cause.index].is_angle() ? Id("told_apart.turned")
                                                       : Id("told_apart.pulled"),
          {{"reading", adjustment::name_of(network, cause.index)},
           {"other", label(network, *cause.other)}}};
}

Value nouns(const Network& network, const std::vector<Cause>& causes) {
  if (causes.empty()) return Fact{"told_apart.nothing"};
  List all{{}, List::Joint::with};
  for (const Cause& cause : causes) all.items.emplace_back(noun(network, cause));
  return all;
}

base::ReadingName name_of(const Network& network, const suspects::Between& points) {
  base::ReadingName name{{network.points[points.from].label}};
  if (points.at) name.points.push_back(network.points[*points.at].label);
  name.points.push_back(network.points[points.to].label);
  return name;
}

Fact wrong_stake_slip(const Network& network, const Cause& cause) {
  const bool angle = network.observations[cause.index].is_angle();
  List instead{{}, List::Joint::any};
  for (const suspects::Between& points : cause.slip->instead_of)
    instead.items.emplace_back(name_of(network, points));
  if (instead.items.empty()) return {angle ? Id("slips.wrong_sight") : Id("slips.wrong_pull")};
  return {angle ? Id("slips.wrong_sight_of") : Id("slips.wrong_pull_of"),
          {{"instead", std::move(instead)}}};
}

base::ReadingName pull_of(const check::Findings& findings, std::size_t from, std::size_t to) {
  return pull(findings.network.points[from].label, findings.network.points[to].label);
}

Fact how_pulled(const suspects::NextTape& next) {
  if (next.another_tape) return {"next.with_another_tape"};
  return {next.repeat ? Id("next.again") : Id("next.new")};
}

Table pulls_table(const check::Findings& findings) {
  Table table{{Fact{"columns.pull"}, Nothing{}, Fact{"next.why"}}, {}};
  for (const suspects::NextTape& next : findings.tape_next)
    table.rows.push_back(
        {pull_of(findings, next.from, next.to), how_pulled(next), why(findings, next)});
  return table;
}

/// Why no pull is listed.  Nothing where what is loose says enough.
Paragraph nothing_to_pull(const check::Findings& findings) {
  if (findings.suspects.of_another_job) return {*findings.suspects.remark};
  if (!findings.used.loose.empty()) return {};
  if (findings.verdict == check::Verdict::contradiction) return {{"next.contradiction"}};
  if (findings.verdict == check::Verdict::undecided) return {{"next.none_stands_out"}};
  return {{"next.none_needed"}};
}

}  // namespace

Fact slip(const Network& network, const Cause& cause) {
  const suspects::SlipLook& look = *cause.slip;
  const bool too_much = cause.size > 0.0;
  const auto marks = [&](Id id) { return Fact{id, {{"count", Count{look.times}}}}; };
  switch (look.kind) {
    case SlipKind::foot:
      return marks("slips.whole_feet");
    case SlipKind::inch:
      return marks("slips.whole_inches");
    case SlipKind::meter:
      return marks("slips.whole_meters");
    case SlipKind::decimeter:
      return marks("slips.whole_decimeters");
    case SlipKind::centimeter:
      return marks("slips.whole_centimeters");
    case SlipKind::degree:
      return marks("slips.whole_degrees");
    case SlipKind::ten_minutes:
      return marks("slips.tens_of_minutes");
    case SlipKind::burned:
      return {too_much ? Id("slips.mark_not_subtracted") : Id("slips.mark_subtracted")};
    case SlipKind::eighth:
      return {too_much ? Id("slips.sixteenth_for_eighth") : Id("slips.eighth_for_sixteenth")};
    case SlipKind::tenths:
      return {too_much ? Id("slips.inches_for_tenths") : Id("slips.tenths_for_inches")};
    case SlipKind::digits:
      return {"slips.digits"};
    case SlipKind::ten_degrees:
      return {"slips.ten_degrees"};
    case SlipKind::half_degree:
      return {"slips.half_degree"};
    case SlipKind::turned_back:
      return {"slips.turned_back"};
    case SlipKind::half_turn:
      return {"slips.half_turn"};
    case SlipKind::wrong_stake:
    case SlipKind::any:
      break;
  }
  return wrong_stake_slip(network, cause);
}

Fact explanation(const Network& network, const std::vector<Cause>& causes) {
  if (causes.empty()) return {"causes.none"};
  Fact said{causes.size() == 1   ? Id("causes.alone")
            : causes.size() == 2 ? Id("causes.two")
                                 : Id("causes.three"),
            {{"first", clause(network, causes[0])}}};
  if (causes.size() > 1) said.holes.push_back({"second", clause(network, causes[1])});
  if (causes.size() > 2) said.holes.push_back({"third", clause(network, causes[2])});
  return said;
}

Fact why(const check::Findings& findings, const suspects::NextTape& next) {
  const auto& ranked = findings.suspects.ranked;
  return {"next.tells",
          {{"one", nouns(findings.network, ranked[next.tells].causes)},
           {"other", nouns(findings.network, ranked[next.tells_from].causes)}}};
}

Section suspects_section(const check::Findings& findings) {
  Table table{{Nothing{}, Fact{"suspects.chance"}, Fact{"suspects.cause"}}, {}};
  for (const suspects::Explanation& one : findings.suspects.ranked) {
    Fact said = explanation(findings.network, one.causes);
    if (!one.alike.empty()) {
      List others;
      for (const std::size_t other : one.alike) others.items.emplace_back(Count{other + 1});
      said = {"suspects.alike", {{"explanation", said}, {"others", others}}};
    }
    table.rows.push_back({Count{table.rows.size() + 1}, base::Chance{one.chance}, said});
  }
  table.rows.push_back(
      {Nothing{}, base::Chance{findings.suspects.rest}, Fact{"suspects.something_else"}});
  return {Fact{"suspects.heading"}, {std::move(table)}};
}

Paragraph next_pull(const check::Findings& findings) {
  if (findings.tape_next.empty()) return {};
  const suspects::NextTape& next = findings.tape_next.front();
  return {{next.another_tape ? Id("next.pull_with_another_tape")
           : next.repeat     ? Id("next.pull_again")
                             : Id("next.pull"),
           {{"pull", pull_of(findings, next.from, next.to)}, {"why", why(findings, next)}}}};
}

Section next_pulls_section(const check::Findings& findings) {
  return {Fact{"next.heading"}, {pulls_table(findings)}};
}

Report next_tapes_report(const job::Job& job, const check::Findings& findings) {
  Report report{job.title, {}};
  Section opening;
  for (const adjustment::Loose& loose : findings.used.loose) {
    List pulls;
    for (const adjustment::MissingTape& tape : loose.would_fix)
      pulls.items.emplace_back(pull_of(findings, tape.from, tape.to));
    const Name corner = label(findings.network, loose.point);
    opening.blocks.emplace_back(Paragraph{
        pulls.items.empty() ? Fact{"check.not_fixed", {{"corner", corner}}}
                            : Fact{"next.not_fixed", {{"corner", corner}, {"pulls", pulls}}}});
  }
  if (findings.tape_next.empty()) opening.blocks.emplace_back(nothing_to_pull(findings));
  if (!opening.blocks.empty()) report.sections.push_back(std::move(opening));
  if (findings.tape_next.empty()) return report;
  report.sections.push_back(next_pulls_section(findings));
  const double pulls = findings.tape_next.front().pulls_until_clear;
  if (pulls > 0.0)
    report.sections.back().blocks.emplace_back(Paragraph{
        {"next.until_clear", {{"count", Count{static_cast<std::size_t>(std::ceil(pulls))}}}}});
  return report;
}

}  // namespace stakewright::told

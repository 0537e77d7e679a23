#include "stakewright/told/levels.hpp"

#include <algorithm>
#include <cmath>

#include "stakewright/adjustment/quantiles.hpp"
#include "words.hpp"

namespace stakewright::told {
namespace {

using base::Count;
using base::Directed;
using base::Fact;
using base::Length;
using base::List;
using base::Name;
using base::Nothing;
using base::Number;
using base::Step;
using base::Value;
using base::Way;
using levels::Footing;
using levels::Levels;
using levels::Shape;
using placement::Verdict;

/// More footings than this are left to the table, and so are sets of rods.
constexpr std::size_t kMostTold = 3;

Length size(double length_m) { return {std::abs(length_m)}; }

List names_of(const Levels& levels, const std::vector<std::size_t>& points) {
  std::vector<std::string> names;
  for (const std::size_t point : points) names.push_back(levels.rods.points[point]);
  return base::names(names);
}

std::vector<std::size_t> corners_with(const Levels& levels, Verdict verdict) {
  std::vector<std::size_t> corners;
  for (std::size_t i = 0; i < levels.footings.size(); ++i)
    if (levels.footings[i].known && levels.footings[i].verdict == verdict) corners.push_back(i);
  return corners;
}

Fact rod(const Levels& levels, std::size_t reading) {
  const levels::RodReading& rod = levels.rods.readings[reading];
  return {"levels.rod",
          {{"point", Name{levels.rods.points[rod.point]}},
           {"set_up", Name{levels.rods.set_ups[rod.set_up]}}}};
}

Fact looks_like(const levels::WholeUnits& whole) {
  const auto told = [&](base::Id id) {
    return Fact{id, {{"count", Count{static_cast<std::size_t>(whole.times)}}}};
  };
  switch (whole.unit) {
    case levels::Unit::foot:
      return told("slips.whole_feet");
    case levels::Unit::inch:
      return told("slips.whole_inches");
    case levels::Unit::meter:
      return told("slips.whole_meters");
    case levels::Unit::decimeter:
      return told("slips.whole_decimeters");
    case levels::Unit::centimeter:
      break;
  }
  return told("slips.whole_centimeters");
}

Fact left_out(const Levels& levels, std::size_t reading) {
  const levels::RodSlip slip = levels::slip_of(levels, reading);
  const bool is_long = slip.slip_m > 0.0;
  Fact said{is_long ? base::Id("levels.left_out_long") : base::Id("levels.left_out_short"),
            {{"rod", rod(levels, reading)}, {"size", size(slip.slip_m)}}};
  if (!slip.looks_like) return said;
  said.id =
      is_long ? base::Id("levels.left_out_long_like") : base::Id("levels.left_out_short_like");
  said.holes.push_back({"slip", looks_like(*slip.looks_like)});
  return said;
}

void say_misread(const Levels& levels, Paragraph& said) {
  for (const std::size_t reading : levels.slips.excluded) said.push_back(left_out(levels, reading));
  if (levels.slips.verdict != adjustment::SlipVerdict::not_separable) return;
  List sets{{}, List::Joint::either};
  for (const auto& set : levels.slips.ranked) {
    if (set.readings.empty() || sets.items.size() == kMostTold) continue;
    List rods{{}, List::Joint::with};
    for (const std::size_t reading : set.readings) rods.items.emplace_back(rod(levels, reading));
    sets.items.emplace_back(std::move(rods));
  }
  said.push_back({"levels.one_is_misread", {{"rods", std::move(sets)}}});
}

/// Where the form falls to, to the nearest half side.
Fact tilted(const check::Findings& findings, const levels::Plane& plane) {
  const auto& points = findings.network.points;
  const std::size_t n = findings.network.corner_count;
  const base::Point downhill = base::along(plane.downhill_bearing_rad);
  const base::Point center = points[n].planned;
  const auto toward = [&](base::Point at) {
    return base::dot(downhill, at - center) / base::distance_m(at, center);
  };
  double best = -1.0;
  Fact result{"levels.tilts_to_corner"};
  const auto consider = [&](base::Point at, const Fact& said) {
    if (toward(at) <= best) return;
    best = toward(at);
    result = said;
  };
  for (std::size_t i = 0; i < n; ++i) {
    const auto& next = points[(i + 1) % n];
    const Length drop = size(plane.drop_m);
    consider(points[i].planned,
             {"levels.tilts_to_corner", {{"drop", drop}, {"corner", Name{points[i].label}}}});
    consider(
        0.5 * (points[i].planned + next.planned),
        {"levels.tilts_to_side", {{"drop", drop}, {"side", pull(points[i].label, next.label)}}});
  }
  return result;
}

/// Level with one another, but not at the height wanted.
std::optional<Fact> shifted(const Levels& levels) {
  if (!levels.against_bench_mark || levels.shape != Shape::level) return std::nullopt;
  double sum_m = 0.0;
  for (const Footing& footing : levels.footings) {
    if (!footing.known || footing.verdict != Verdict::out) return std::nullopt;
    if (footing.off_m * levels.footings.front().off_m < 0.0) return std::nullopt;
    sum_m += footing.off_m;
  }
  const double mean_m = sum_m / static_cast<double>(levels.footings.size());
  return Fact{
      mean_m > 0.0 ? base::Id("levels.all_above") : base::Id("levels.all_below"),
      {{"off", size(mean_m)}, {"bench_mark", Name{levels.rods.points[*levels.rods.bench_mark]}}}};
}

void say_out(const Levels& levels, const std::vector<std::size_t>& out, Paragraph& said) {
  if (out.empty()) return;
  List footings;
  for (const std::size_t i : out) {
    if (footings.items.size() == kMostTold) break;
    footings.items.emplace_back(
        Fact{"levels.stands",
             {{"footing", Name{levels.rods.points[i]}},
              {"off", Directed{Way::high, Length{levels.footings[i].off_m}}}}});
  }
  said.push_back({"levels.out", {{"footings", std::move(footings)}}});
  if (out.size() > kMostTold)
    said.push_back({"levels.more_out", {{"count", Count{out.size() - kMostTold}}}});
}

void say_others(const Levels& levels, const base::Tolerance& tolerance, Paragraph& said) {
  const auto in = corners_with(levels, Verdict::in);
  const auto open = corners_with(levels, Verdict::undecided);
  const auto out = corners_with(levels, Verdict::out);
  const bool wanted = levels.against_bench_mark;
  const bool every = open.empty() && in.size() + out.size() == levels.footings.size();
  if (!in.empty() && !out.empty() && every)
    said.push_back({wanted ? base::Id("levels.others_at_height") : base::Id("levels.others_level"),
                    {{"count", Count{in.size()}}}});
  else if (!in.empty())
    said.push_back({wanted ? base::Id("levels.at_height") : base::Id("levels.level"),
                    {{"footings", names_of(levels, in)}, {"tolerance", size(tolerance.level_m)}}});
  if (!open.empty()) said.push_back({"levels.open", {{"footings", names_of(levels, open)}}});
}

void say_heights(const check::Findings& findings, const base::Tolerance& tolerance,
                 Paragraph& said) {
  const Levels& levels = *findings.levels;
  const bool wanted = levels.against_bench_mark;
  if (std::none_of(levels.footings.begin(), levels.footings.end(),
                   [](const Footing& footing) { return footing.known; })) {
    said.push_back({"levels.no_footing"});
    return;
  }
  if (levels.verdict == Verdict::in) {
    said.push_back(
        {wanted ? base::Id("levels.all_at_height") : base::Id("levels.all_level"),
         {{"count", Count{levels.footings.size()}}, {"tolerance", size(tolerance.level_m)}}});
    return;
  }
  if (levels.shape == Shape::tilted) {
    said.push_back(tilted(findings, *levels.plane));
    if (levels.wrong.empty()) said.push_back({"levels.none_out_of_plane"});
    if (!levels.wrong.empty())
      said.push_back({"levels.out_of_plane", {{"footings", names_of(levels, levels.wrong)}}});
  } else if (auto all = shifted(levels)) {
    said.push_back(std::move(*all));
  } else {
    say_out(levels, corners_with(levels, Verdict::out), said);
    say_others(levels, tolerance, said);
    if (levels.shape == Shape::unclear && levels.may_be_wrong.empty())
      said.push_back({"levels.tilts_or_some"});
    else if (levels.shape == Shape::unclear)
      said.push_back({"levels.tilts_or", {{"footings", names_of(levels, levels.may_be_wrong)}}});
  }
  if (levels.verdict == Verdict::out)
    said.push_back({wanted ? base::Id("levels.pack_or_cut") : base::Id("levels.pack")});
}

Row footing_row(const job::Job& job, const Levels& levels, std::size_t i) {
  const Footing& footing = levels.footings[i];
  const Name label{levels.rods.points[i]};
  const Nothing none{};
  if (!footing.known)
    return {label, none, Fact{"levels.no_rod"}, none, none, verdict(footing.verdict), none};
  const double give_or_take_m =
      adjustment::normal_limit(1.0 - job.tolerance.confidence) * footing.sd_m;
  return {label,
          levels.heights.on_bench_mark ? Value(Length{footing.height_m}) : Value(none),
          Directed{Way::high, Length{footing.off_m}},
          Length{give_or_take_m, Step::fine},
          base::Chance{footing.chance_in},
          verdict(footing.verdict),
          Directed{Way::pack, Length{footing.packing_m}}};
}

Section footings_section(const job::Job& job, const Levels& levels) {
  const Length tolerance{job.tolerance.level_m};
  const Fact heading =
      levels.against_bench_mark
          ? Fact{"levels.heading_wanted",
                 {{"tolerance", tolerance},
                  {"level", Length{levels.level_m}},
                  {"bench_mark", Name{levels.rods.points[*levels.rods.bench_mark]}}}}
          : Fact{"levels.heading_mean",
                 {{"tolerance", tolerance}, {"kept", names_of(levels, levels.kept)}}};
  Table table{{Fact{"levels.footing"},
               levels.heights.on_bench_mark ? Value(Fact{"levels.height"}) : Value(Nothing{}),
               Fact{"columns.off"}, Fact{"columns.give_or_take"}, Fact{"columns.chance_in"},
               Fact{"columns.verdict"},
               levels.against_bench_mark ? Fact{"levels.under_post"}
                                         : Fact{"levels.under_post_to_highest"}},
              {}};
  for (std::size_t i = 0; i < levels.footings.size(); ++i)
    table.rows.push_back(footing_row(job, levels, i));
  Section section{heading, {std::move(table)}};
  if (levels.plane)
    section.blocks.emplace_back(
        Paragraph{{levels.plane->significant ? base::Id("levels.plane_falls")
                                             : base::Id("levels.plane_falls_as_usual"),
                   {{"drop", Length{levels.plane->drop_m}}}}});
  return section;
}

Row rod_row(const Levels& levels, std::size_t r) {
  const auto& rod = levels.rods.readings[r];
  const auto& out = levels.heights.sums.readings_out[r];
  return {Name{levels.rods.set_ups[rod.set_up]},
          Name{levels.rods.points[rod.point]},
          Name{rod.instrument},
          Length{rod.read_m},
          Length{out.adjusted},
          Directed{Way::reads, Length{-out.residual, Step::fine}},
          Number{std::abs(out.standardized), 1},
          std::isfinite(out.smallest_catch) ? Value(Length{out.smallest_catch})
                                            : Value(Fact{"columns.none"}),
          out.excluded ? Value(Fact{"columns.left_out"}) : Value(Nothing{})};
}

Fact sums_line(const Levels& levels) {
  const adjustment::LinearAdjustment& sums = levels.heights.sums;
  Fact line{"levels.sums",
            {{"used", Count{static_cast<std::size_t>(sums.readings)}},
             {"all", Count{levels.rods.readings.size()}},
             {"redundancy", Count{static_cast<std::size_t>(sums.redundancy)}}}};
  if (sums.redundancy == 0) return line;
  line.id = sums.passed ? base::Id("levels.sums_agree") : base::Id("levels.sums_disagree");
  line.holes.push_back({"chi_square", Number{sums.chi_square, 2}});
  line.holes.push_back({"limit", Number{sums.chi_square_limit, 2}});
  return line;
}

Section rods_section(const Levels& levels) {
  Table table{{Fact{"columns.from"}, Fact{"levels.rod_on"}, Fact{"columns.with"},
               Fact{"columns.read"}, Fact{"columns.adjusted"}, Fact{"columns.reads"},
               Fact{"columns.in_own_spreads"}, Fact{"columns.smallest_slip"}, Nothing{}},
              {}};
  for (std::size_t r = 0; r < levels.rods.readings.size(); ++r)
    table.rows.push_back(rod_row(levels, r));
  return {Fact{"levels.rods"}, {std::move(table), Paragraph{sums_line(levels)}}};
}

}  // namespace

Paragraph levels_opening(const check::Findings& findings, const base::Tolerance& tolerance) {
  Paragraph said;
  if (!findings.levels) return said;
  say_heights(findings, tolerance, said);
  say_misread(*findings.levels, said);
  return said;
}

std::vector<Section> levels_sections(const job::Job& job, const check::Findings& findings) {
  if (!findings.levels) return {};
  return {footings_section(job, *findings.levels), rods_section(*findings.levels)};
}

}  // namespace stakewright::told

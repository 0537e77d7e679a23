// What to buy and what to saw out of it.
#include <iterator>

#include "carry_sections.hpp"
#include "stakewright/told/carry.hpp"

namespace stakewright::told {
namespace {

using base::Angle;
using base::Count;
using base::Fact;
using base::Id;
using base::Length;
using base::List;
using base::Nothing;

// In the order of the enum: as a row, and over its own list.
constexpr Id kLumber[] = {"lumber.hips",  "lumber.rafters", "lumber.blocking", "lumber.fascia",
                          "lumber.beams", "lumber.posts",   "lumber.hub"};
constexpr Id kHeadings[] = {"cut_sheet.hips",   "cut_sheet.rafters", "cut_sheet.blocking",
                            "cut_sheet.fascia", "cut_sheet.beams",   "cut_sheet.posts",
                            "cut_sheet.hub"};
static_assert(static_cast<std::size_t>(roof::Lumber::hub) + 1 == std::size(kLumber));
static_assert(std::size(kLumber) == std::size(kHeadings));

/// Thickness and depth, where the job knows them.
Fact section_of(roof::Lumber what, const roof::Spec& spec, const wording::Voice& voice) {
  const auto size = [&voice](double length_m) { return lumber_size(length_m, voice); };
  const auto both = [&](double thickness_m) {
    return Fact{"cut_sheet.by",
                {{"thickness", size(thickness_m)}, {"depth", size(spec.rafter_depth_m)}}};
  };
  switch (what) {
    case roof::Lumber::rafters:
    case roof::Lumber::blocking:
      return both(spec.rafter_m);
    case roof::Lumber::fascia:
      return {"cut_sheet.thick", {{"size", size(spec.fascia_m)}}};
    case roof::Lumber::beams:
      return {"cut_sheet.thick", {{"size", size(spec.beam_m)}}};
    case roof::Lumber::posts:
      return {"cut_sheet.square", {{"size", size(spec.post_m)}}};
    case roof::Lumber::hub:
      return {"cut_sheet.across_flats", {{"size", size(spec.hub_m)}}};
    case roof::Lumber::hips:
      break;
  }
  return both(spec.hip_m);
}

Table pieces_table(const std::vector<roof::Piece>& pieces, const wording::Voice& voice) {
  std::vector<PlacedRow> placed;
  for (const roof::Piece& piece : pieces)
    for (const roof::Place& at : piece.at)
      placed.push_back({name(piece.kind), at, {Length{piece.length_m}}});
  return {{Fact{"roof_tables.part"}, Fact{"roof_tables.at"}, Fact{"roof_tables.pieces"},
           Fact{"cut_sheet.stick"}},
          gathered_and_counted(placed, voice)};
}

Fact so_many(std::size_t count, double length_m) {
  return {"cut_sheet.so_many", {{"count", Count{count}}, {"length", Length{length_m}}}};
}

/// `3 of 4' 4", 1 of 2' 0"`.
List sawn(const std::vector<double>& pieces_m, const wording::Voice& voice) {
  List list{{}, List::Joint::listed};
  for (auto piece = pieces_m.begin(); piece != pieces_m.end();) {
    const auto first = piece;
    while (piece != pieces_m.end() && told_alike(Length{*piece}, Length{*first}, voice)) ++piece;
    list.items.emplace_back(so_many(static_cast<std::size_t>(piece - first), *first));
  }
  return list;
}

Table sticks_table(const roof::CutList& list, const wording::Voice& voice) {
  Table table{{Fact{"cut_sheet.buy"}, Fact{"cut_sheet.length"}, Fact{"cut_sheet.left_over"},
               Fact{"cut_sheet.saw_from_each"}},
              {}};
  for (const roof::Stick& stick : list.sticks)
    table.rows.push_back({Count{static_cast<std::size_t>(stick.count)}, Length{stick.stock_m},
                          Length{stick.left_m}, sawn(stick.pieces_m, voice)});
  return table;
}

Section list_section(const roof::CutList& list, const roof::Spec& spec,
                     const wording::Voice& voice) {
  Section section{Fact{kHeadings[static_cast<std::size_t>(list.what)],
                       {{"size", section_of(list.what, spec, voice)}}},
                  {}};
  if (!list.pieces.empty()) {
    section.blocks.emplace_back(pieces_table(list.pieces, voice));
    section.blocks.emplace_back(sticks_table(list, voice));
  }
  if (!list.least) section.blocks.emplace_back(Paragraph{{"cut_sheet.not_least"}});
  if (!list.too_long.empty()) {
    section.blocks.emplace_back(Paragraph{{"cut_sheet.too_long"}});
    section.blocks.emplace_back(pieces_table(list.too_long, voice));
  }
  return section;
}

Section totals_section(const results::CutSheet& sheet) {
  Table table{{Fact{"cut_sheet.what"}, Fact{"roof_tables.pieces"}, Fact{"cut_sheet.boards"},
               Fact{"cut_sheet.sticks"}},
              {}};
  double bought_m = 0.0;
  double used_m = 0.0;
  for (const roof::CutList& list : sheet.lists) {
    List sticks{{}, List::Joint::listed};
    for (const roof::Order& order : roof::sticks_to_order(list))
      sticks.items.emplace_back(so_many(static_cast<std::size_t>(order.count), order.stock_m));
    table.rows.push_back({Fact{kLumber[static_cast<std::size_t>(list.what)]}, Length{list.used_m},
                          Length{list.bought_m}, std::move(sticks)});
    bought_m += list.bought_m;
    used_m += list.used_m;
  }
  table.rows.push_back({Fact{"cut_sheet.all"}, Length{used_m}, Length{bought_m}, Nothing{}});
  return {Fact{"cut_sheet.to_order"}, {std::move(table)}};
}

/// The faces cut alike, once.
Table faces_table(const roof::Carry& carry, const wording::Voice& voice) {
  std::vector<PlacedRow> placed;
  for (const roof::Sheet& sheet : carry.sheets) {
    const auto figure = [&sheet](const roof::Figure& one) {
      return sheet.fit == roof::Fit::own ? one.found.value_or(one.planned) : one.planned;
    };
    placed.push_back(
        {Fact{"cut_sheet.face"},
         sheet.at,
         {Length{figure(sheet.base)}, Length{figure(sheet.height)}, Angle{figure(sheet.left_edge)},
          Angle{figure(sheet.right_edge)}, base::Area{sheet.area_m2}}});
  }
  return {{Nothing{}, Fact{"roof_tables.at"}, Fact{"cut_sheet.eave_line"},
           Fact{"cut_sheet.up_the_slope"}, Fact{"cut_sheet.left_edge"},
           Fact{"cut_sheet.right_edge"}, Fact{"cut_sheet.area"}},
          gathered(placed, voice)};
}

Table courses_table(const roof::Sheet& sheet) {
  Table table{{Fact{"cut_sheet.course"}, Fact{"cut_sheet.starts"}, Fact{"cut_sheet.lower_edge"},
               Fact{"cut_sheet.upper_edge"}},
              {}};
  for (const roof::Course& course : sheet.courses)
    table.rows.push_back({Count{table.rows.size() + 1}, Length{course.up_m}, Length{course.lower_m},
                          Length{course.upper_m}});
  return table;
}

Fact opening(const results::CarryResult& result) {
  if (result.cases.empty()) return {"cut_sheet.as_planned"};
  switch (result.cases[result.shown].way) {
    case roof::Way::with_play:
      return {"cut_sheet.with_play"};
    case roof::Way::after_moves:
      return {"cut_sheet.after_moves"};
    case roof::Way::leave:
      break;
  }
  return {"cut_sheet.as_found"};
}

}  // namespace

Report cut_sheet_report(const job::Job& job, const results::CarryResult& result,
                        const wording::Voice& voice) {
  Report report{job.title, {{{}, {Paragraph{opening(result)}}}}};
  for (const roof::CutList& list : result.cut_sheet->lists)
    report.sections.push_back(list_section(list, job.roof, voice));
  report.sections.push_back(totals_section(*result.cut_sheet));
  const roof::Sheet& pattern = result.planned.sheets.front();
  report.sections.push_back(
      {Fact{"cut_sheet.sheathing", {{"area", base::Area{result.cut_sheet->sheathing_m2}}}},
       {faces_table(result.carry(), voice)}});
  report.sections.push_back(
      {Fact{"cut_sheet.courses"},
       {courses_table(pattern),
        Paragraph{{"cut_sheet.edges"},
                  {"cut_sheet.unborne", {{"strip", Length{pattern.unborne_m}}}}}}});
  report.sections.push_back({{}, {Paragraph{{"cut_sheet.caution"}}}});
  return report;
}

}  // namespace stakewright::told

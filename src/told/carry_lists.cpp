// Everything found, piece by piece and cut by cut.
#include "carry_sections.hpp"

namespace stakewright::told {
namespace {

using base::Angle;
using base::Directed;
using base::Fact;
using base::Length;
using base::Nothing;
using base::Way;

Fact told_fit(roof::Fit fit) {
  switch (fit) {
    case roof::Fit::try_pattern:
      return {"fits.try_pattern"};
    case roof::Fit::own:
      return {"fits.own"};
    case roof::Fit::pattern:
      break;
  }
  return {"fits.pattern"};
}

/// Headings of a table that holds what was found against what was planned.
Row comparison_headings(Fact of_what) {
  return {std::move(of_what),        Fact{"roof_tables.at"},         Fact{"roof_tables.planned"},
          Fact{"roof_tables.found"}, Fact{"roof_tables.difference"}, Fact{"columns.give_or_take"},
          Fact{"roof_tables.cut"}};
}

Section lines_list(const roof::Carry& carry, const base::Tolerance& tolerance,
                   const wording::Voice& voice) {
  std::vector<PlacedRow> placed;
  for (const roof::Part& part : by_kind(carry)) {
    if (!part.line.found || part.kind == roof::PartKind::blocking) continue;
    placed.push_back({name(part.kind),
                      part.at,
                      {Length{part.line.planned}, Length{*part.line.found},
                       Directed{Way::longer, fine(*part.line.difference)},
                       fine(*part.line.uncertainty), told_fit(part.fit)}});
  }
  return {Fact{"carry.line_lengths", {{"size", fine(tolerance.part_m)}}},
          {Table{comparison_headings({"roof_tables.part"}), gathered(placed, voice)}}};
}

Section cuts_list(const roof::Carry& carry, const wording::Voice& voice) {
  std::vector<PlacedRow> placed;
  for (const roof::Cut& cut : carry.cuts) {
    if (!cut.angle.found) continue;
    placed.push_back({name(cut.part, cut.name),
                      cut.at,
                      {Angle{cut.angle.planned}, Angle{*cut.angle.found},
                       Directed{Way::more, Angle{*cut.angle.difference}},
                       Angle{*cut.angle.uncertainty}, told_fit(cut.fit)}});
  }
  return {Fact{"carry.cut_angles"},
          {Table{comparison_headings({"roof_tables.cut"}), gathered(placed, voice)}}};
}

Section joints_list(const roof::Carry& carry, const wording::Voice& voice) {
  std::vector<PlacedRow> placed;
  for (const roof::Joint& joint : carry.joints)
    placed.push_back({name(joint.what),
                      joint.at,
                      {Directed{Way::open, fine(joint.gap_m)}, fine(joint.uncertainty_m),
                       joint.closes ? Fact{"fits.closes"} : Fact{"fits.open"}}});
  return {Fact{"carry.joints_to_pattern"},
          {Table{{Fact{"roof_tables.joint"}, Fact{"roof_tables.at"}, Fact{"roof_tables.gap"},
                  Fact{"roof_tables.plus_minus"}, Fact{"roof_tables.closes"}},
                 gathered(placed, voice)}}};
}

Section eaves_list(const roof::Carry& carry, const wording::Voice& voice) {
  std::vector<PlacedRow> placed;
  for (const roof::EaveSide& eave : carry.eaves)
    placed.push_back(
        {Fact{"carry.eave"},
         eave.at,
         {Length{eave.overhang.found.value_or(0.0)}, Length{eave.drop.found.value_or(0.0)}}});
  return {Fact{"carry.eaves"},
          {Table{{Nothing{}, Fact{"roof_tables.at"}, Fact{"roof_tables.overhang"},
                  Fact{"roof_tables.drop"}},
                 gathered(placed, voice)}}};
}

Section marks_list(const roof::Carry& carry, const wording::Voice& voice) {
  std::vector<PlacedRow> placed;
  for (const roof::Part& part : by_kind(carry)) {
    if (part.kind == roof::PartKind::blocking) continue;  // cut to fit on the spot
    placed.push_back({name(part.kind),
                      part.at,
                      {length_or_dash(roof::line_to_cut_m(part)), length_or_dash(part.shortening_m),
                       length_or_dash(part.tail_m), length_or_dash(part.overall_m),
                       length_or_dash(part.from_corner_m)}});
  }
  return {Fact{"carry.marks"},
          {Table{{Fact{"roof_tables.part"}, Fact{"roof_tables.at"}, Fact{"roof_tables.line"},
                  Fact{"roof_tables.short_by"}, Fact{"roof_tables.tail"},
                  Fact{"roof_tables.overall"}, Fact{"roof_tables.stands_at"}},
                 gathered(placed, voice)}}};
}

}  // namespace

std::vector<Section> full_lists(const roof::Carry& carry, const base::Tolerance& tolerance,
                                const wording::Voice& voice) {
  if (carry.joints.empty()) return {marks_list(carry, voice)};
  return {lines_list(carry, tolerance, voice),
          cuts_list(carry, voice),
          joints_list(carry, voice),
          eaves_list(carry, voice),
          marks_list(carry, voice),
          {Fact{"carry.every_cut"}, {settings_table(carry.cuts, Rows::every, voice)}}};
}

}  // namespace stakewright::told

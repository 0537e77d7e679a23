// Everything found, piece by piece and cut by cut.
#include <fmt/format.h>

#include "carry_sections.hpp"
#include "stakewright/base/angle.hpp"
#include "words.hpp"

namespace stakewright::cli {
namespace {

using base::text_from_angle;
using base::text_from_length;
using base::text_from_small_length;

const char* word_of(roof::Fit fit) {
  if (fit == roof::Fit::try_pattern) return "try pattern";
  return fit == roof::Fit::pattern ? "pattern" : "OWN CUT";
}

/// Columns of a table that holds what was found against what was planned.
std::vector<Column> comparison_columns(const std::string& of_what) {
  return {{of_what},
          {"at"},
          {"planned", Align::right},
          {"found", Align::right},
          {"difference", Align::right},
          {"give or take", Align::right},
          {"cut"}};
}

std::string lines_list(const roof::Carry& carry, const base::Tolerance& tolerance,
                       const Shown& shown) {
  std::vector<PlacedRow> placed;
  for (const auto& part : by_kind(carry)) {
    if (!part.line.found || part.kind == roof::PartKind::blocking) continue;
    placed.push_back(
        {std::string(roof::name_of(part.kind)),
         part.at,
         {text_from_length(part.line.planned, shown.units),
          text_from_length(*part.line.found, shown.units),
          directed(*part.line.difference, kLonger, shown.units, Step::fine),
          text_from_small_length(*part.line.uncertainty, shown.units), word_of(part.fit)}});
  }
  const std::string title =
      fmt::format("Line lengths over the corners as found; a pattern piece may be {} out",
                  text_from_small_length(tolerance.part_m, shown.units));
  return heading(title, shown.emphasis) +
         table(comparison_columns("part"), gathered(placed), shown.emphasis);
}

std::string cuts_list(const roof::Carry& carry, const Shown& shown) {
  std::vector<PlacedRow> placed;
  for (const auto& cut : carry.cuts) {
    if (!cut.angle.found) continue;
    placed.push_back({name_of_cut(cut),
                      cut.at,
                      {text_from_angle(cut.angle.planned), text_from_angle(*cut.angle.found),
                       angle_difference(*cut.angle.difference),
                       text_from_angle(*cut.angle.uncertainty), word_of(cut.fit)}});
  }
  return heading("Cut angles over the corners as found", shown.emphasis) +
         table(comparison_columns("cut"), gathered(placed), shown.emphasis);
}

std::string joints_list(const roof::Carry& carry, const Shown& shown) {
  std::vector<PlacedRow> placed;
  for (const auto& joint : carry.joints)
    placed.push_back(
        {std::string(roof::name_of(joint.what)),
         joint.at,
         {directed(joint.gap_m, {"open", "too long"}, shown.units, Step::fine),
          text_from_small_length(joint.uncertainty_m, shown.units), joint.closes ? "yes" : "no"}});
  return heading("Joints when all is cut to the pattern, and whether each surely closes",
                 shown.emphasis) +
         table({{"joint"}, {"at"}, {"gap", Align::right}, {"±", Align::right}, {"closes"}},
               gathered(placed), shown.emphasis);
}

std::string eaves_list(const roof::Carry& carry, const Shown& shown) {
  std::vector<PlacedRow> placed;
  for (const auto& eave : carry.eaves)
    placed.push_back({"eave",
                      eave.at,
                      {text_from_length(eave.overhang.found.value_or(0.0), shown.units),
                       text_from_length(eave.drop.found.value_or(0.0), shown.units)}});
  return heading("Eaves: overhang, level, and drop below the plate line", shown.emphasis) +
         table({{""}, {"at"}, {"overhang", Align::right}, {"drop", Align::right}}, gathered(placed),
               shown.emphasis);
}

std::string marks_list(const roof::Carry& carry, const Shown& shown) {
  std::vector<PlacedRow> placed;
  const auto figure = [&shown](double length_m) {
    return length_m == 0.0 ? std::string("-") : text_from_length(length_m, shown.units);
  };
  for (const auto& part : by_kind(carry)) {
    if (part.kind == roof::PartKind::blocking) continue;  // cut to fit on the spot
    placed.push_back({std::string(roof::name_of(part.kind)),
                      part.at,
                      {figure(roof::line_to_cut_m(part)), figure(part.shortening_m),
                       figure(part.tail_m), figure(part.overall_m), figure(part.from_corner_m)}});
  }
  return heading(
             "Every piece as it is to be marked; commons and jacks stand so far from the left "
             "corner",
             shown.emphasis) +
         table({{"part"},
                {"at"},
                {"line", Align::right},
                {"short by", Align::right},
                {"tail", Align::right},
                {"overall", Align::right},
                {"stands at", Align::right}},
               gathered(placed), shown.emphasis);
}

}  // namespace

std::string full_lists(const roof::Carry& carry, const base::Tolerance& tolerance,
                       const Shown& shown) {
  std::string text;
  if (!carry.joints.empty())
    text += '\n' + lines_list(carry, tolerance, shown) + '\n' + cuts_list(carry, shown) + '\n' +
            joints_list(carry, shown) + '\n' + eaves_list(carry, shown);
  text += '\n' + marks_list(carry, shown);
  if (!carry.joints.empty())
    text += '\n' + heading("Every cut as it is to be set", shown.emphasis) +
            settings_table(carry.cuts, Rows::every, shown);
  return text;
}

}  // namespace stakewright::cli

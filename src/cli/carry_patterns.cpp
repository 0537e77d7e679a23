// The pattern pieces and their cuts, each once.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "carry_sections.hpp"
#include "stakewright/base/angle.hpp"

namespace stakewright::cli {
namespace {

using base::text_from_angle;
using base::text_from_length;
using roof::PartKind;

constexpr double kLastDigits_m = 1e-7;

const roof::Part* first_of(const roof::Carry& carry, PartKind kind) {
  const auto found = std::find_if(carry.parts.begin(), carry.parts.end(),
                                  [kind](const auto& part) { return part.kind == kind; });
  return found == carry.parts.end() ? nullptr : &*found;
}

bool past_tilt(const roof::Cut& cut) { return cut.setting.past_tilt; }

}  // namespace

std::vector<roof::Part> by_kind(const roof::Carry& carry) {
  std::vector<roof::Part> parts;
  for (const PartKind kind : roof::kPartKinds) {
    std::copy_if(carry.parts.begin(), carry.parts.end(), std::back_inserter(parts),
                 [kind](const auto& part) { return part.kind == kind; });
  }
  return parts;
}

std::string name_of_cut(const roof::Cut& cut) {
  return fmt::format("{} {}", roof::name_of(cut.part), roof::name_of(cut.name));
}

double angle_to_cut_rad(const roof::Cut& cut) {
  return cut.fit == roof::Fit::own ? cut.angle.found.value_or(cut.angle.planned)
                                   : cut.angle.planned;
}

std::string square_words(double figure, base::Units units) {
  constexpr double kTwelveInches_m = 0.3048;
  constexpr double kMetricArm_m = 0.25;
  const bool inches = units == base::Units::feet_inches;
  const double arm_m = inches ? kTwelveInches_m : kMetricArm_m;
  const auto text = [&](double length_m) {
    const auto shown_units = inches ? units : base::Units::millimeters;
    std::string words = text_from_length(length_m, shown_units);
    return words == "1' 0\"" ? std::string("12\"") : words;  // as a square is read
  };
  if (figure > 1.0) return fmt::format("{} on {}", text(arm_m), text(arm_m / figure));
  return fmt::format("{} on {}", text(arm_m * figure), text(arm_m));
}

std::string angle_difference(double difference_rad) {
  const std::string text = text_from_angle(std::abs(difference_rad));
  if (text == text_from_angle(0.0)) return text;
  return text + (difference_rad > 0 ? " more" : " less");
}

std::string give_or_take(const std::string& length, double uncertainty_m, base::Units units) {
  return fmt::format("{}, give or take {}", length,
                     base::text_from_small_length(uncertainty_m, units));
}

std::string patterns_section(const roof::Carry& planned, const Shown& shown) {
  std::vector<PlacedRow> placed;
  // Pieces alike but for the last digits of a sum must not fall on two sides of a half.
  const auto figure = [&shown](double length_m) {
    const double settled_m = std::round(length_m / kLastDigits_m) * kLastDigits_m;
    return settled_m == 0.0 ? std::string("-") : text_from_length(settled_m, shown.units);
  };
  for (const auto& part : by_kind(planned)) {
    placed.push_back({std::string(roof::name_of(part.kind)),
                      part.at,
                      {figure(part.line.planned), figure(part.shortening_m), figure(part.tail_m),
                       figure(part.overall_m)}});
  }
  return heading("Pattern pieces: line, less the shortening at the top, and the tail",
                 shown.emphasis) +
         table({{"part"},
                {"at"},
                {"line", Align::right},
                {"shortening", Align::right},
                {"tail", Align::right},
                {"overall", Align::right}},
               gathered(placed), shown.emphasis);
}

std::string seat_words(const roof::Carry& planned, base::Units units) {
  const roof::Part* common = first_of(planned, PartKind::common);
  const roof::Part* hip = first_of(planned, PartKind::hip);
  if (common == nullptr || hip == nullptr) return "";
  const auto text = [units](double length_m) { return text_from_length(length_m, units); };
  return fmt::format(
      "All rafters stand {} over the plate, plumb from their top edge. The seat is notched {} deep "
      "in commons{} and {} in hips, square to the edge. A hip that is not backed is let down {}.",
      text(common->heel_m), text(common->notch_m),
      first_of(planned, PartKind::jack) == nullptr ? "" : " and jacks", text(hip->notch_m),
      text(hip->drop_m));
}

std::string settings_table(const std::vector<roof::Cut>& cuts, Rows which, const Shown& shown) {
  std::vector<PlacedRow> placed;
  for (const auto& cut : cuts) {
    placed.push_back(
        {name_of_cut(cut),
         cut.at,
         {text_from_angle(angle_to_cut_rad(cut)), square_words(cut.setting.square, shown.units),
          text_from_angle(cut.setting.miter_rad), text_from_angle(cut.setting.bevel_rad),
          past_tilt(cut) ? text_from_length(cut.setting.set_back_m, shown.units) : ""}});
  }
  std::string text =
      table({{"cut"},
             {"at"},
             {"angle", Align::right},
             {"square", Align::right},
             {"miter", Align::right},
             {"bevel", Align::right},
             {std::any_of(cuts.begin(), cuts.end(), past_tilt) ? "set back" : "", Align::right}},
            gathered(placed, which), shown.emphasis);
  return text;
}

std::string settings_section(const roof::Carry& planned, const Shown& shown) {
  std::string text =
      heading("Cuts to set: on a framing square, and on a saw from square", shown.emphasis) +
      settings_table(planned.cuts, Rows::every, shown);
  if (std::any_of(planned.cuts.begin(), planned.cuts.end(), past_tilt))
    text += paragraph(
        "No common saw tilts past 45°. Where a figure stands under \"set back\", draw the line of "
        "the miter on one side of the stick. Draw it again, set back by that much square to the "
        "first: on the other side or, where two such cuts meet in a point, on the middle of the "
        "edge. Join them over the edges and saw by hand to the lines.");
  return text;
}

}  // namespace stakewright::cli

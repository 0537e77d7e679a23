#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "gathering.hpp"
#include "reports.hpp"
#include "stakewright/base/angle.hpp"
#include "words.hpp"

namespace stakewright::cli {
namespace {

using base::text_from_length;
using base::text_from_small_length;
using roof::PartKind;

constexpr PartKind kKinds[] = {PartKind::hip,  PartKind::common,  PartKind::fascia,
                               PartKind::beam, PartKind::post,    PartKind::hub,
                               PartKind::jack, PartKind::blocking};

const char* word_of(roof::Fit fit) { return fit == roof::Fit::pattern ? "pattern" : "OWN CUT"; }

/// Every part, kind after kind, and within a kind as the roof has them.
std::vector<roof::Part> by_kind(const roof::Carry& carry) {
  std::vector<roof::Part> parts;
  for (const PartKind kind : kKinds) {
    std::copy_if(carry.parts.begin(), carry.parts.end(), std::back_inserter(parts),
                 [kind](const auto& part) { return part.kind == kind; });
  }
  return parts;
}

bool is_found(const roof::Part& part) { return part.line.found.has_value(); }

/// Jacks and blocking are many: their differences are told by kind, and piece by piece in JSON.
bool told_by_kind(PartKind kind) { return kind == PartKind::jack || kind == PartKind::blocking; }

std::string difference_words(const roof::Figure& line, const Shown& shown) {
  return directed(line.difference.value_or(0.0), kLonger, shown.units, Step::fine);
}

/// A framing square's two arms: so much on one for 12 in, or 250 mm, on the other.
/// Above one to one the arms change over, so that both figures stay on the square.
std::string square_words(double figure, base::Units units) {
  constexpr double kTwelveInches_m = 0.3048;
  constexpr double kMetricArm_m = 0.25;
  const bool inches = units == base::Units::feet_inches;
  const double arm_m = inches ? kTwelveInches_m : kMetricArm_m;
  const auto text = [&](double length_m) {
    const auto shown_units = inches ? units : base::Units::millimetres;
    std::string words = text_from_length(length_m, shown_units);
    return words == "1' 0\"" ? std::string("12\"") : words;  // as a square is read
  };
  if (figure > 1.0) return fmt::format("{} on {}", text(arm_m), text(arm_m / figure));
  return fmt::format("{} on {}", text(arm_m * figure), text(arm_m));
}

/// `0.12° more`; nothing but the figure where it rounds to none.
std::string angle_difference(double difference_rad) {
  const std::string text = base::text_from_angle(std::abs(difference_rad));
  if (text == base::text_from_angle(0.0)) return text;
  return text + (difference_rad > 0 ? " more" : " less");
}

std::string verdict_words(const std::vector<roof::Part>& parts) {
  const auto own = std::count_if(parts.begin(), parts.end(),
                                 [](const auto& part) { return part.fit == roof::Fit::own; });
  if (own == 0) return fmt::format("All {} pieces come off the pattern.", parts.size());
  return fmt::format(
      "Of {} pieces {} come off the pattern; {} need their own cut, because they are off, or may "
      "be "
      "off, by more than a joint forgives.",
      parts.size(), static_cast<std::ptrdiff_t>(parts.size()) - own, own);
}

/// One kind of part at a glance: how many fit, and the one that is off most.
Row kind_row(PartKind kind, const std::vector<roof::Part>& parts, const Shown& shown) {
  std::vector<const roof::Part*> of_kind;
  for (const auto& part : parts) {
    if (part.kind == kind && is_found(part)) of_kind.push_back(&part);
  }
  if (of_kind.empty()) return {};
  const auto own = std::count_if(of_kind.begin(), of_kind.end(),
                                 [](const auto* part) { return part->fit == roof::Fit::own; });
  const auto* worst = *std::max_element(of_kind.begin(), of_kind.end(),
                                        [](const roof::Part* a, const roof::Part* b) {
                                          return std::abs(a->line.difference.value_or(0.0)) <
                                                 std::abs(b->line.difference.value_or(0.0));
                                        });
  return {std::string(roof::name_of(kind)),
          std::to_string(of_kind.size()),
          std::to_string(own),
          difference_words(worst->line, shown),
          worst->at,
          text_from_small_length(worst->line.uncertainty.value_or(0.0), shown.units)};
}

std::string kinds_section(const std::vector<roof::Part>& parts, const Shown& shown) {
  std::vector<Row> rows;
  for (const PartKind kind : kKinds) {
    Row row = kind_row(kind, parts, shown);
    if (!row.empty()) rows.push_back(std::move(row));
  }
  return heading("By kind", shown.emphasis) + table({{"part"},
                                                     {"pieces", Align::right},
                                                     {"own cut", Align::right},
                                                     {"farthest off", Align::right},
                                                     {"at"},
                                                     {"give or take", Align::right}},
                                                    rows, shown.emphasis);
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

std::string parts_section(const std::vector<roof::Part>& parts, const base::Tolerance& tolerance,
                          const Shown& shown) {
  std::vector<PlacedRow> placed;
  for (const auto& part : parts) {
    if (!is_found(part) || told_by_kind(part.kind)) continue;
    placed.push_back(
        {std::string(roof::name_of(part.kind)),
         part.at,
         {text_from_length(part.line.planned, shown.units),
          text_from_length(*part.line.found, shown.units), difference_words(part.line, shown),
          text_from_small_length(part.line.uncertainty.value_or(0.0), shown.units),
          word_of(part.fit)}});
  }
  const std::string title =
      fmt::format("Line lengths over the corners as found; a pattern piece may be {} out",
                  text_from_small_length(tolerance.part_m, shown.units));
  return heading(title, shown.emphasis) +
         table(comparison_columns("part"), gathered(placed), shown.emphasis);
}

std::string pieces_section(const std::vector<roof::Part>& parts, const Shown& shown) {
  std::vector<PlacedRow> placed;
  for (const auto& part : parts) {
    const auto figure = [&](double length_m) {
      return length_m == 0.0 ? std::string("-") : text_from_length(length_m, shown.units);
    };
    placed.push_back({std::string(roof::name_of(part.kind)),
                      part.at,
                      {figure(roof::line_to_cut_m(part)), figure(part.shortening_m),
                       figure(part.tail_m), figure(part.overall_m)}});
  }
  return heading("Lengths to mark: line, less the shortening at the top, and the tail",
                 shown.emphasis) +
         table({{"part"},
                {"at"},
                {"line", Align::right},
                {"shortening", Align::right},
                {"tail", Align::right},
                {"overall", Align::right}},
               gathered(placed), shown.emphasis);
}

std::string name_of_cut(const roof::Cut& cut) {
  return fmt::format("{} {}", roof::name_of(cut.part), cut.name);
}

std::string settings_section(const roof::Carry& carry, const Shown& shown) {
  std::vector<PlacedRow> placed;
  for (const auto& cut : carry.cuts) {
    const bool own = cut.fit == roof::Fit::own;
    const double angle_rad = own ? cut.angle.found.value_or(cut.angle.planned) : cut.angle.planned;
    placed.push_back(
        {name_of_cut(cut),
         cut.at,
         {base::text_from_angle(angle_rad), square_words(cut.setting.square, shown.units),
          base::text_from_angle(cut.setting.mitre_rad),
          base::text_from_angle(cut.setting.bevel_rad),
          cut.setting.past_tilt ? "more than a saw tilts" : ""}});
  }
  return heading("Cuts to set: on a framing square, and on a saw from square", shown.emphasis) +
         table({{"cut"},
                {"at"},
                {"angle", Align::right},
                {"square", Align::right},
                {"saw mitre", Align::right},
                {"saw bevel", Align::right},
                {""}},
               gathered(placed), shown.emphasis);
}

std::string cuts_section(const roof::Carry& carry, const Shown& shown) {
  std::vector<PlacedRow> placed;
  for (const auto& cut : carry.cuts) {
    if (!cut.angle.found || told_by_kind(cut.part)) continue;
    placed.push_back(
        {name_of_cut(cut),
         cut.at,
         {base::text_from_angle(cut.angle.planned), base::text_from_angle(*cut.angle.found),
          angle_difference(cut.angle.difference.value_or(0.0)),
          base::text_from_angle(cut.angle.uncertainty.value_or(0.0)), word_of(cut.fit)}});
  }
  return heading("Cut angles over the corners as found", shown.emphasis) +
         table(comparison_columns("cut"), gathered(placed), shown.emphasis);
}

/// Joints that open or bind when every piece is cut to the pattern all the same.
std::string joints_section(const roof::Carry& carry, const Shown& shown) {
  std::vector<PlacedRow> placed;
  for (const auto& joint : carry.joints) {
    if (joint.closes) continue;
    placed.push_back({joint.what,
                      joint.at,
                      {directed(joint.gap_m, {"open", "too long"}, shown.units, Step::fine),
                       text_from_small_length(joint.uncertainty_m, shown.units)}});
  }
  if (placed.empty()) return "";
  const std::string title =
      fmt::format("If all is cut to the pattern: {} of {} joints may not close", placed.size(),
                  carry.joints.size());
  return '\n' + heading(title, shown.emphasis) +
         table({{"joint"}, {"at"}, {"gap", Align::right}, {"give or take", Align::right}},
               gathered(placed), shown.emphasis);
}

}  // namespace

std::string carry_report(const job::Job& job, const roof::Carry& carry, const Shown& shown) {
  const std::vector<roof::Part> parts = by_kind(carry);
  const bool found = std::any_of(parts.begin(), parts.end(), is_found);
  std::string text = heading(job.title, shown.emphasis);
  const std::string peak = fmt::format("The peak stands {} above the plate.",
                                       text_from_length(carry.apex.height_m, shown.units));
  text += '\n' + paragraph(found ? peak + ' ' + verdict_words(parts) : peak);
  if (found) {
    text += '\n' + kinds_section(parts, shown);
    text += '\n' + parts_section(parts, job.tolerance, shown);
    text += '\n' + cuts_section(carry, shown);
    text += joints_section(carry, shown);
  }
  text += '\n' + pieces_section(parts, shown);
  text += '\n' + settings_section(carry, shown);
  text += '\n' + paragraph(
                     "Sizes, spans, bracing and fixings follow the local code and a licensed "
                     "designer. A roof frame needs bracing, and the crew fall protection.");
  return text;
}

}  // namespace stakewright::cli

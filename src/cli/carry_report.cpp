#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "reports.hpp"
#include "stakewright/base/angle.hpp"
#include "words.hpp"

namespace stakewright::cli {
namespace {

using base::text_from_length;

const char* word_of(roof::Fit fit) { return fit == roof::Fit::pattern ? "pattern" : "OWN CUT"; }

/// A framing square's two arms: so much on one for 12 in, or 250 mm, on the other.
/// Above one to one the arms change over, so that both figures stay on the square.
std::string square_words(double figure, base::Units units) {
  constexpr double kTwelveInches_m = 0.3048;
  constexpr double kMetricArm_m = 0.25;
  const bool inches = units == base::Units::feet_inches;
  const double arm_m = inches ? kTwelveInches_m : kMetricArm_m;
  const auto shown_units = inches ? units : base::Units::millimetres;
  const std::string arm = text_from_length(arm_m, shown_units);
  if (figure > 1.0)
    return fmt::format("{} on {}", arm, text_from_length(arm_m / figure, shown_units));
  return fmt::format("{} on {}", text_from_length(arm_m * figure, shown_units), arm);
}

/// `0.12° more`; nothing but the figure where it rounds to none.
std::string angle_difference(double difference_rad) {
  const std::string text = base::text_from_angle(std::abs(difference_rad));
  if (text == base::text_from_angle(0.0)) return text;
  return text + (difference_rad > 0 ? " more" : " less");
}

/// A row of a table of parts, whose place is told apart from the rest of it so
/// that rows equal in all else can be told once.
struct PlacedRow {
  std::string kind;  ///< rows of one kind can be "all" of it
  std::string at;
  Row rest;
};

/// Equal rows once, with their places in a row, or "all 6" when they are all there are.
std::vector<Row> gathered(const std::vector<PlacedRow>& placed) {
  std::vector<PlacedRow> unlike;
  std::vector<std::vector<std::string>> places;
  for (const PlacedRow& row : placed) {
    const auto alike = std::find_if(unlike.begin(), unlike.end(), [&](const PlacedRow& other) {
      return other.kind == row.kind && other.rest == row.rest;
    });
    if (alike == unlike.end()) {
      unlike.push_back(row);
      places.push_back({row.at});
    } else {
      places[static_cast<std::size_t>(alike - unlike.begin())].push_back(row.at);
    }
  }
  std::vector<Row> rows;
  for (std::size_t i = 0; i < unlike.size(); ++i) {
    const auto of_kind = std::count_if(placed.begin(), placed.end(), [&](const PlacedRow& other) {
      return other.kind == unlike[i].kind;
    });
    const bool all = of_kind > 1 && static_cast<std::size_t>(of_kind) == places[i].size();
    Row row{unlike[i].kind,
            all ? fmt::format("all {}", of_kind) : fmt::format("{}", fmt::join(places[i], ", "))};
    row.insert(row.end(), unlike[i].rest.begin(), unlike[i].rest.end());
    rows.push_back(std::move(row));
  }
  return rows;
}

std::string pieces_section(const roof::Carry& carry, const Shown& shown) {
  std::vector<PlacedRow> placed;
  for (const auto& part : carry.parts) {
    placed.push_back({std::string(roof::name_of(part.kind)),
                      part.at,
                      {text_from_length(part.line.found.value_or(part.line.planned), shown.units),
                       text_from_length(part.shortening_m, shown.units),
                       text_from_length(part.tail_m, shown.units),
                       text_from_length(part.overall_m, shown.units)}});
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

std::string parts_section(const roof::Carry& carry, const base::Tolerance& tolerance,
                          const Shown& shown) {
  std::vector<PlacedRow> placed;
  for (const auto& part : carry.parts) {
    const auto& line = part.line;
    if (!line.found) continue;
    placed.push_back(
        {std::string(roof::name_of(part.kind)),
         part.at,
         {text_from_length(line.planned, shown.units), text_from_length(*line.found, shown.units),
          directed(line.difference.value_or(0.0), kLonger, shown.units, Step::fine),
          base::text_from_small_length(line.uncertainty.value_or(0.0), shown.units),
          word_of(part.fit)}});
  }
  const std::string title =
      fmt::format("Line lengths over the corners as found; a pattern piece may be {} out",
                  base::text_from_small_length(tolerance.part_m, shown.units));
  return heading(title, shown.emphasis) + table({{"part"},
                                                 {"at"},
                                                 {"planned", Align::right},
                                                 {"found", Align::right},
                                                 {"difference", Align::right},
                                                 {"give or take", Align::right},
                                                 {"cut"}},
                                                gathered(placed), shown.emphasis);
}

PlacedRow setting_row(const roof::Cut& cut, const Shown& shown) {
  const bool own = cut.fit == roof::Fit::own;
  const double angle_rad = own ? cut.angle.found.value_or(cut.angle.planned) : cut.angle.planned;
  return {
      fmt::format("{} {}", roof::name_of(cut.part), cut.name),
      cut.at,
      {base::text_from_angle(angle_rad), square_words(cut.setting.square, shown.units),
       base::text_from_angle(cut.setting.mitre_rad), base::text_from_angle(cut.setting.bevel_rad),
       cut.setting.past_tilt ? "past what common saws tilt" : ""}};
}

std::string settings_section(const roof::Carry& carry, const Shown& shown) {
  std::vector<PlacedRow> placed;
  for (const auto& cut : carry.cuts) placed.push_back(setting_row(cut, shown));
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
    const auto& angle = cut.angle;
    if (!angle.found) continue;
    placed.push_back({fmt::format("{} {}", roof::name_of(cut.part), cut.name),
                      cut.at,
                      {base::text_from_angle(angle.planned), base::text_from_angle(*angle.found),
                       angle_difference(angle.difference.value_or(0.0)),
                       base::text_from_angle(angle.uncertainty.value_or(0.0)), word_of(cut.fit)}});
  }
  return heading("Cut angles over the corners as found", shown.emphasis) +
         table({{"cut"},
                {"at"},
                {"planned", Align::right},
                {"found", Align::right},
                {"difference", Align::right},
                {"give or take", Align::right},
                {"cut"}},
               gathered(placed), shown.emphasis);
}

}  // namespace

std::string carry_report(const job::Job& job, const roof::Carry& carry, const Shown& shown) {
  const bool found =
      std::any_of(carry.parts.begin(), carry.parts.end(),
                  [](const roof::Part& part) { return part.line.found.has_value(); });
  std::string text = heading(job.title, shown.emphasis);
  text += '\n' + paragraph(fmt::format("The peak stands {} above the plate.",
                                       text_from_length(carry.apex.height_m, shown.units)));
  if (found) text += '\n' + parts_section(carry, job.tolerance, shown);
  if (found) text += '\n' + cuts_section(carry, shown);
  text += '\n' + pieces_section(carry, shown);
  text += '\n' + settings_section(carry, shown);
  text += '\n' + paragraph(
                     "Sizes, spans, bracing and fixings follow the local code and a licensed "
                     "designer. A roof frame needs bracing, and the crew fall protection.");
  return text;
}

}  // namespace stakewright::cli

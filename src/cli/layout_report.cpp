#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "pour_section.hpp"
#include "reports.hpp"
#include "stakewright/base/angle.hpp"
#include "stakewright/base/text.hpp"
#include "words.hpp"

namespace stakewright::cli {
namespace {

using base::text_from_length;

/// Above this many sides a group of equal lengths is named by its first and last pull.
constexpr std::size_t kMostPullsNamed = 12;

std::string plan_section(const layout::Plan& plan, const Shown& shown) {
  const auto& polygon = plan.polygon;
  const auto length = [&](double m) { return text_from_length(m, shown.units); };
  const double flat = layout::flat_radius_m(polygon);
  const double corner = polygon.corner_radius_m;
  std::vector<Row> rows{{"side", length(layout::side_m(polygon))},
                        {"corner radius", length(corner)},
                        {"flat radius", length(flat)}};
  if (polygon.sides % 2 == 0) {
    rows.push_back({"across flats", length(2 * flat)});
    rows.push_back({"across corners", length(2 * corner)});
  } else {
    rows.push_back({"flat to corner", length(flat + corner)});
  }
  rows.push_back({"perimeter", length(layout::perimeter_m(polygon))});
  rows.push_back({"floor area", base::text_from_area(layout::area_m2(polygon), shown.units)});
  rows.push_back(
      {"angle between sides", base::text_from_angle(layout::interior_angle_rad(polygon))});
  return heading(fmt::format("Plan line, {} sides, to {}", polygon.sides, plan.measured_to),
                 shown.emphasis) +
         table({{""}, {"", Align::right}}, rows, shown.emphasis);
}

std::string right_left(base::Point at, base::Units units) {
  return directed(at.x_m, {"right", "left"}, units, Step::tape);
}

std::string forward_back(base::Point at, base::Units units) {
  return directed(at.y_m, {"forward", "back"}, units, Step::tape);
}

std::string stakes_section(const layout::Plan& plan, const std::vector<layout::Stake>& stakes,
                           const Shown& shown) {
  std::vector<Row> rows;
  for (const auto& stake : stakes) {
    const base::Point from_center = stake.at - plan.center;
    const bool center = stake.label == layout::kCenterLabel;
    rows.push_back({stake.label, right_left(stake.at, shown.units),
                    forward_back(stake.at, shown.units),
                    center ? "" : text_from_length(base::norm_m(from_center), shown.units),
                    center ? "" : base::text_from_bearing(base::bearing_rad(from_center)),
                    center ? "center pin" : ""});
  }
  return heading("Stakes, from the site's zero and from the center pin O", shown.emphasis) +
         table({{"stake"},
                {"right or left", Align::right},
                {"forward or back", Align::right},
                {"from O", Align::right},
                {"bearing", Align::right},
                {""}},
               rows, shown.emphasis);
}

std::string swings_section(const layout::StakingOrder& order, const Shown& shown) {
  std::vector<Row> rows;
  for (std::size_t i = 0; i < order.swings.size(); ++i) {
    const auto& swing = order.swings[i];
    rows.push_back({std::to_string(i + 1), swing.stake, swing.from[0].label,
                    text_from_length(swing.from[0].length_m, shown.units), swing.from[1].label,
                    text_from_length(swing.from[1].length_m, shown.units),
                    base::text_from_angle(swing.crossing_rad),
                    base::text_from_small_length(swing.sd_m, shown.units)});
  }
  return heading(
             "Swings, in working order; standing before the first: " + base::joined(order.given),
             shown.emphasis) +
         table({{"", Align::right},
                {"set"},
                {"hold at"},
                {"pull", Align::right},
                {"hold at"},
                {"pull", Align::right},
                {"tapes cross at", Align::right},
                {"likely off by", Align::right}},
               rows, shown.emphasis);
}

/// Angles and lengths from the center pin, for a crew with a circle.
std::string radial_section(const layout::Radial& radial, const Shown& shown) {
  std::vector<Row> rows;
  for (const auto& stake : radial.stakes) {
    rows.push_back({stake.stake, base::dms_from_angle(stake.angle_rad),
                    text_from_length(stake.length_m, shown.units)});
  }
  const double minute_m = radial.stakes.front().length_m * base::kDegree_rad / 60.0;
  return heading(fmt::format("With an angle circle: set up over {}, sight {}, set nought on it",
                             radial.at, radial.mark),
                 shown.emphasis) +
         table({{"stake"}, {"turn clockwise", Align::right}, {"pull", Align::right}}, rows,
               shown.emphasis) +
         paragraph(fmt::format("Angles are degrees-minutes-seconds. A minute of error sets a stake "
                               "{} off, sideways. Turn back to {} at the end: the circle must read "
                               "nought again.",
                               base::text_from_small_length(minute_m, shown.units), radial.mark));
}

std::string skip_words(int skip, int sides) {
  if (skip == 0) return "corner radius";
  if (skip == 1) return "side";
  if (2 * skip == sides) return fmt::format("diagonal across, over {} sides", skip);
  return fmt::format("diagonal over {} sides", skip);
}

std::string pulls_words(const std::vector<std::string>& pulls) {
  if (pulls.size() <= kMostPullsNamed) return fmt::format("{}", fmt::join(pulls, ", "));
  return fmt::format("{}, {} … {} ({} pulls)", pulls[0], pulls[1], pulls.back(), pulls.size());
}

std::string tapes_section(const layout::Plan& plan, const std::vector<layout::Tape>& tapes,
                          const Shown& shown) {
  std::vector<int> order;
  std::map<int, std::vector<std::string>> pulls;
  std::map<int, double> length_m;
  for (const auto& tape : tapes) {
    if (pulls[tape.skip].empty()) order.push_back(tape.skip);
    pulls[tape.skip].push_back(tape_name(tape.from, tape.to));
    length_m[tape.skip] = tape.length_m;
  }
  std::vector<Row> rows;
  for (const int skip : order) {
    rows.push_back({skip_words(skip, plan.polygon.sides),
                    text_from_length(length_m[skip], shown.units), pulls_words(pulls[skip])});
  }
  return heading("Check lengths, tight and level, center to center", shown.emphasis) +
         table({{"what"}, {"length", Align::right}, {"pulls"}}, rows, shown.emphasis);
}

std::string lines_section(const std::vector<layout::LineFigures>& lines, const Shown& shown) {
  std::vector<Row> rows;
  for (const auto& line : lines) {
    rows.push_back({line.name, directed(line.offset_m, {"out", "in"}, shown.units, Step::tape),
                    text_from_length(line.side_m, shown.units),
                    text_from_length(line.corner_radius_m, shown.units),
                    base::text_from_area(line.area_m2, shown.units)});
  }
  return heading("Lines, from the plan line", shown.emphasis) +
         table({{"line"},
                {"offset", Align::right},
                {"side", Align::right},
                {"corner radius", Align::right},
                {"area inside", Align::right}},
               rows, shown.emphasis);
}

/// Every side of a regular polygon has the same string.
std::string strings_section(const std::vector<layout::String>& strings, const Shown& shown) {
  std::vector<Row> rows;
  for (const auto& string : strings) {
    rows.push_back({string.side, right_left(string.nail_before, shown.units),
                    forward_back(string.nail_before, shown.units),
                    right_left(string.nail_after, shown.units),
                    forward_back(string.nail_after, shown.units)});
  }
  const std::string title = fmt::format(
      "Strings over the sides: nails on batter boards {} past each corner, {} nail to nail",
      text_from_length(strings.front().setback_m, shown.units),
      text_from_length(strings.front().length_m, shown.units));
  return heading(title, shown.emphasis) + table({{"side"},
                                                 {"first nail", Align::right},
                                                 {"", Align::right},
                                                 {"second nail", Align::right},
                                                 {"", Align::right}},
                                                rows, shown.emphasis);
}

std::string clearance_words(const layout::Clearance& clearance, base::Units units) {
  if (!clearance.crosses) return "clear";
  if (clearance.crossings.empty())
    return "wholly on the wrong side, by " + text_from_length(clearance.beyond_m, units);
  std::string words = "past it by " + text_from_length(clearance.beyond_m, units);
  for (std::size_t i = 0; i < clearance.crossings.size(); ++i) {
    words += (i == 0 ? "; meets it at " : "; at ") + right_left(clearance.crossings[i], units) +
             ", " + forward_back(clearance.crossings[i], units);
  }
  return words;
}

std::string clearances_section(const std::vector<layout::Clearance>& clearances,
                               const Shown& shown) {
  std::vector<Row> rows;
  for (const auto& clearance : clearances) {
    rows.push_back({clearance.line, clearance.outline,
                    text_from_length(clearance.distance_m, shown.units),
                    clearance_words(clearance, shown.units)});
  }
  return heading("Clearance to the outlines of the site", shown.emphasis) +
         table({{"line"}, {"outline"}, {"clearance", Align::right}, {""}}, rows, shown.emphasis);
}

}  // namespace

std::string layout_report(const job::Job& job, const results::LayoutResult& result,
                          const Shown& shown) {
  std::string text = heading(job.title, shown.emphasis);
  text += '\n' + plan_section(job.plan, shown);
  text += '\n' + stakes_section(job.plan, result.stakes, shown);
  text += '\n' + swings_section(result.order, shown);
  if (!result.radial.stakes.empty()) text += '\n' + radial_section(result.radial, shown);
  text += '\n' + tapes_section(job.plan, result.tapes, shown);
  text += on_tape_section(result, shown);
  if (!result.lines.empty()) text += '\n' + lines_section(result.lines, shown);
  if (!result.strings.empty()) text += '\n' + strings_section(result.strings, shown);
  if (!result.clearances.empty()) text += '\n' + clearances_section(result.clearances, shown);
  if (result.pour) text += '\n' + pour_section(*job.pour, *result.pour, shown);
  text += '\n' + paragraph(
                     "Have buried services located before a stake is driven. Keep steel tapes "
                     "far from power lines.");
  return text;
}

}  // namespace stakewright::cli

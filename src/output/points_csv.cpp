// The points of a layout, and of a check, as CSV.
#include <fmt/format.h>

#include "found_points.hpp"
#include "point_rows.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/output/points.hpp"
#include "stakewright/results/layout.hpp"

namespace stakewright::output {
namespace {

std::string note_of(const job::Job& job, const std::string& label) {
  return label == layout::kCenterLabel ? "center pin" : "corner, " + job.plan.measured_to;
}

void add_line(const layout::LineFigures& line, int sides, PointRows& rows) {
  const auto labels = layout::corner_labels(sides);
  for (std::size_t i = 0; i < line.corners.size(); ++i)
    rows.add(line.name + " " + labels[i], line.corners[i], "corner of the line " + line.name);
}

void add_string(const layout::String& string, const std::string& from, const std::string& to,
                PointRows& rows) {
  const std::string note = "nail of the string along " + string.side;
  rows.add(string.side + " at " + from, string.nail_before, note);
  rows.add(string.side + " at " + to, string.nail_after, note);
}

}  // namespace

std::string points_csv(const job::Job& job, const results::LayoutResult& result,
                       base::Units units) {
  PointRows rows(units);
  for (const layout::Stake& stake : result.stakes)
    rows.add(stake.label, stake.at, note_of(job, stake.label));
  for (const layout::Pin& pin : job.plan.pins) rows.add(pin.name, pin.at, "known point");
  for (const layout::LineFigures& line : result.lines) add_line(line, job.plan.polygon.sides, rows);
  const auto labels = layout::corner_labels(job.plan.polygon.sides);
  for (std::size_t i = 0; i < result.strings.size(); ++i)
    add_string(result.strings[i], labels[i], labels[(i + 1) % labels.size()], rows);
  return rows.text();
}

std::string found_points_csv(const job::Job& job, const check::Findings& findings,
                             base::Units units) {
  PointRows rows(units);
  for (const FoundPoint& point : found_points(job, findings)) {
    rows.add(point.label, point.planned, note_of(job, point.label) + ", as planned");
    if (point.found)
      rows.add(point.label + " found", *point.found,
               point.verdict.empty() ? "as found" : "as found: " + point.verdict, point.height_m);
  }
  for (const layout::Pin& pin : job.plan.pins) rows.add(pin.name, pin.at, "known point");
  return rows.text();
}

}  // namespace stakewright::output

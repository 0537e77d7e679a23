#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "stakewright/base/text.hpp"
#include "stakewright/results/layout.hpp"
#include "stakewright/results/tapes.hpp"

namespace stakewright::results {

namespace {

/// The plan with the line the roof ends at.  Batter boards need not stand clear of that one.
layout::Plan with_roof_edge(const job::Job& job) {
  layout::Plan plan = job.plan;
  if (job.has_roof)
    plan.lines.push_back(
        {job::kRoofEdgeName, job.plate_offset_m + job.roof.overhang_m + job.roof.fascia_m});
  return plan;
}

/// Names by the name they belong to, both in the order of their coming.
using Grouped = std::vector<std::pair<std::string, std::vector<std::string>>>;

void add(Grouped& groups, const std::string& group, const std::string& name) {
  const auto known = std::find_if(groups.begin(), groups.end(),
                                  [&](const auto& entry) { return entry.first == group; });
  if (known == groups.end())
    groups.push_back({group, {name}});
  else
    known->second.push_back(name);
}

/// The plate is in the air, and a pin under it is in nobody's way.
std::vector<std::string> pin_remarks(const std::vector<layout::PinWithin>& pins) {
  Grouped lines_of;
  for (const layout::PinWithin& pin : pins)
    if (pin.line != "plate") add(lines_of, pin.pin, pin.line);
  std::vector<std::string> remarks;
  for (const auto& [pin, lines] : lines_of)
    remarks.push_back(fmt::format(
        "Pin {} stands inside {}: it is lost when the ground is opened. Set it further out, or "
        "tape it to two marks that stay.",
        pin, base::joined(lines)));
  return remarks;
}

std::vector<std::string> crossing_remarks(const std::vector<layout::Clearance>& clearances) {
  Grouped lines_across;
  for (const layout::Clearance& clearance : clearances)
    if (clearance.crosses) add(lines_across, clearance.outline, clearance.line);
  std::vector<std::string> remarks;
  for (const auto& [outline, lines] : lines_across)
    remarks.push_back(
        fmt::format("{} past the outline {}. Move or turn the plan, or make it smaller.",
                    lines.size() == 1 ? fmt::format("Line {} goes", lines[0])
                                      : fmt::format("Lines {} go", base::joined(lines)),
                    base::in_quotes(outline)));
  return remarks;
}

}  // namespace

LayoutResult layout_of(const job::Job& job) {
  const readings::Instrument tape = default_tape(job);
  LayoutResult result;
  result.stakes = layout::stakes(job.plan);
  result.stakes.push_back({layout::kCenterLabel, job.plan.center});
  result.tapes = layout::check_tapes(job.plan);
  result.order =
      layout::staking_order(job.plan, {tape.constant_m, tape.per_length, tape.centering_m});
  result.radial = layout::radial(job.plan);
  const layout::Plan with_roof = with_roof_edge(job);
  result.lines = layout::lines(with_roof);
  result.strings = layout::strings(job.plan);
  result.clearances = layout::clearances(with_roof);
  result.pins_within = layout::pins_within(job.plan);
  if (job.pour) result.pour = layout::pour_volumes(job.plan, *job.pour);
  // One list of remarks goes out with the layout.
  for (const auto& remarks : {layout::string_remarks(job.plan), pin_remarks(result.pins_within),
                              crossing_remarks(result.clearances)})
    result.order.remarks.insert(result.order.remarks.end(), remarks.begin(), remarks.end());
  return result;
}

}  // namespace stakewright::results

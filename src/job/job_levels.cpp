// What heights the job wants: `[levels]`.
#include <fmt/format.h>

#include <algorithm>

#include "columns.hpp"
#include "job_parts.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::job {
namespace {

std::string bench_mark_from(const Value& value, const layout::Plan& plan) {
  std::string name = name_from(value);
  std::vector<std::string> points = layout::corner_labels(plan.polygon.sides);
  points.emplace_back(layout::kCenterLabel);
  for (const layout::Pin& pin : plan.pins) points.push_back(pin.name);
  const std::string point = Names(std::move(points)).but_for_capitals(name);
  if (!point.empty() && point != name)
    throw base::InputError(
        fmt::format("read {}; accepted: {}, or a name that differs from it by more than capitals",
                    base::in_quotes(name), base::in_quotes(point)));
  return name;
}

}  // namespace

levels::Wanted read_levels(const Section& section, base::Units units, const layout::Plan& plan) {
  const auto length = [units](const Value& v) { return length_in(v, units, kAnyLength); };
  levels::Wanted wanted;
  section.read("bench_mark", wanted.bench_mark,
               [&](const Value& v) { return bench_mark_from(v, plan); });
  section.read("height", wanted.bench_mark_height_m, length);
  section.read("footings", wanted.footings_m, length);
  for (const char* key : {"height", "footings"})
    if (wanted.bench_mark.empty() && section.find(key) != nullptr)
      section.refuse(*section.find(key),
                     fmt::format("read {} without bench_mark; accepted: both", key));
  return wanted;
}

}  // namespace stakewright::job

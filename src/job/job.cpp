#include "stakewright/job/job.hpp"

#include <fmt/format.h>

#include <array>

#include "job_parts.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/job/file.hpp"
#include "stakewright/layout/surroundings.hpp"

namespace stakewright::job {
namespace {

constexpr double kSquareMeters_most = base::kLongestLength_m * base::kLongestLength_m;
constexpr Range kAreaAboveZero = {0.0, kSquareMeters_most, false, true, "an area above 0"};
constexpr Range kConfidence = {0.5, 0.9999, true, true, "a number from 0.5 to 0.9999"};
constexpr Range kChance = {0.0, 1.0, false, false, "a number above 0 and below 1"};
constexpr std::size_t kLongestLineText = 80;

struct SizeKey {
  std::string_view key;
  layout::Size size;
};

constexpr std::array<SizeKey, 8> kSizeKeys = {{{"side", layout::Size::side},
                                               {"corner_radius", layout::Size::corner_radius},
                                               {"flat_radius", layout::Size::flat_radius},
                                               {"across_flats", layout::Size::across_flats},
                                               {"across_corners", layout::Size::across_corners},
                                               {"flat_to_corner", layout::Size::flat_to_corner},
                                               {"perimeter", layout::Size::perimeter},
                                               {"floor_area", layout::Size::floor_area}}};
constexpr const char* kOneSizeKey =
    "exactly one of side, corner_radius, flat_radius, across_flats, across_corners, "
    "flat_to_corner, perimeter, floor_area";

Keys plan_keys() {
  Keys keys = {"sides", "line"};
  for (const SizeKey& known : kSizeKeys) keys.push_back(known.key);
  return keys;
}

layout::Polygon read_polygon(const Section& plan, base::Units units) {
  const auto whole = [](const Value& value) {
    return whole_number(value, layout::kFewestSides, layout::kMostSides);
  };
  const int sides =
      plan.read(plan.demand("sides", fmt::format("a whole number from {} to {}",
                                                 layout::kFewestSides, layout::kMostSides)),
                whole);
  const Entry* stated = nullptr;
  layout::Size size{};
  for (const SizeKey& known : kSizeKeys) {
    const Entry* entry = plan.find(known.key);
    if (entry == nullptr) continue;
    if (stated != nullptr)
      plan.refuse(*entry, fmt::format("read a second size beside {}; accepted: {}", stated->key,
                                      kOneSizeKey));
    stated = entry;
    size = known.size;
  }
  if (stated == nullptr)
    throw base::InputError(
        fmt::format("{}: read no size; accepted: {}", plan.place(), kOneSizeKey));
  return plan.read(*stated, [&](const Value& value) {
    const double measure = size == layout::Size::floor_area
                               ? area_in(value, units, kAreaAboveZero)
                               : length_in(value, units, kLengthAboveZero);
    return layout::polygon_from(size, measure, sides);
  });
}

/// The one size of a table that has been read.
std::string stated_size(const Section& plan) {
  for (const SizeKey& known : kSizeKeys)
    if (const Entry* entry = plan.find(known.key))
      return fmt::format("{} {}", known.key, text_or_number(entry->value, kOneSizeKey));
  return "";
}

void read_plan(const Section& plan, base::Units units, layout::Plan& into) {
  into.polygon = read_polygon(plan, units);
  plan.read("line", into.measured_to,
            [](const Value& value) { return line_of_text(value, kLongestLineText); });
}

void demand_line_name(const std::string& name) {
  demand_name(name);
  if (name == layout::kPlanLineName)
    throw base::InputError(
        fmt::format("read {}, which [plan] gives; accepted: another name", base::in_quotes(name)));
  if (name == kRoofEdgeName)
    throw base::InputError(
        fmt::format("read {}, which [roof] gives; accepted: another name", base::in_quotes(name)));
}

std::vector<layout::Line> read_lines(const Section& lines, base::Units units,
                                     const layout::Polygon& polygon) {
  std::vector<layout::Line> result;
  for (const Entry& entry : lines.entries()) {
    const double offset_m = lines.read(entry, [&](const Value& value) {
      demand_line_name(entry.key);
      const double read_m = length_in(value, units, kAnyLength);
      static_cast<void>(layout::parallel(polygon, read_m));  // refuses what leaves nothing
      return read_m;
    });
    result.push_back({entry.key, offset_m});
  }
  return result;
}

// What a crew works to in each system: common practice, no source.
base::Tolerance usual_tolerance(base::Units units) {
  if (units == base::Units::feet_inches)
    return {0.0254 / 4.0, 0.0254 / 8.0, 0.0254 / 16.0, 0.95};  // 1/4, 1/8, 1/16 in
  return {0.006, 0.003, 0.0015, 0.95};
}

base::Tolerance read_tolerance(const Section& section, base::Units units) {
  base::Tolerance result = usual_tolerance(units);
  const auto length = [units](const Value& v) { return length_in(v, units, kLengthAboveZero); };
  section.read("corner", result.corner_m, length);
  section.read("level", result.level_m, length);
  section.read("part", result.part_m, length);
  section.read("confidence", result.confidence,
               [](const Value& v) { return number_in(v, kConfidence); });
  return result;
}

base::Staking usual_staking(base::Units units) {
  base::Staking result;
  result.spread_m = units == base::Units::feet_inches ? 0.0254 / 8.0 : 0.003;
  return result;
}

base::Staking read_staking(const Section& section, base::Units units) {
  base::Staking result = usual_staking(units);
  const auto chance = [](const Value& v) { return number_in(v, kChance); };
  section.read("spread", result.spread_m,
               [units](const Value& v) { return length_in(v, units, kLengthAboveZero); });
  section.read("misread", result.misread, chance);
  section.read("misplaced", result.misplaced, chance);
  return result;
}

base::Units read_units(const Section& top) {
  using base::Units;
  return top.read(top.demand("units", "\"feet-inches\", \"mm\" or \"m\""), [](const Value& value) {
    return word_from<Units>(
        value,
        {{"feet-inches", Units::feet_inches}, {"mm", Units::millimeters}, {"m", Units::meters}});
  });
}

double plate_offset_m(const std::vector<layout::Line>& lines) {
  for (const layout::Line& line : lines)
    if (line.name == "plate") return line.offset_m;
  return 0.0;
}

Job job_from(const Section& top) {
  Job job;
  job.title = "Untitled job";
  top.read("title", job.title, [](const Value& v) { return line_of_text(v, kLongestTitle); });
  job.units = read_units(top);
  job.tolerance = usual_tolerance(job.units);
  job.staking = usual_staking(job.units);
  const Section plan =
      top.table(top.demand("plan", "a table [plan] with sides and a size"), plan_keys());
  read_plan(plan, job.units, job.plan);
  job.stated_size = stated_size(plan);
  if (const Entry* lines = top.find("lines"))
    job.plan.lines = read_lines(top.table_of_names(*lines), job.units, job.plan.polygon);
  job.plate_offset_m = plate_offset_m(job.plan.lines);
  if (const Entry* site = top.find("site"))
    read_site(top.table(*site, kSiteKeys), job.units, job.plan);
  if (const Entry* tolerance = top.find("tolerance"))
    job.tolerance =
        read_tolerance(top.table(*tolerance, {"corner", "level", "part", "confidence"}), job.units);
  if (const Entry* staking = top.find("staking"))
    job.staking = read_staking(top.table(*staking, {"spread", "misread", "misplaced"}), job.units);
  if (const Entry* levels = top.find("levels"))
    job.levels = read_levels(top.table(*levels, kLevelKeys), job.units, job.plan);
  job.instruments = read_instruments(top, job.units);
  const Entry* roof = top.find("roof");
  job.has_roof = roof != nullptr;
  if (roof != nullptr)
    job.roof = read_roof(top.table(*roof, kRoofKeys), job.units,
                         layout::parallel(job.plan.polygon, job.plate_offset_m));
  job.stock = usual_stock(job.units);
  if (const Entry* stock = top.find("stock"))
    job.stock = read_stock(top.table(*stock, kStockKeys), job.units);
  if (const Entry* pour = top.find("pour"))
    job.pour = read_pour(top.table(*pour, kPourKeys), job.units, job.plan);
  return job;
}

}  // namespace

Job job_from_text(std::string_view text, const std::string& name) {
  const std::string file = base::is_printable(name) ? name : base::in_quotes(name);
  const Table document = document_from_text(text, file);
  return job_from(Section(document, file, "", 1,
                          {"title", "units", "plan", "site", "lines", "tolerance", "staking",
                           "levels", "instrument", "roof", "stock", "pour"}));
}

Job read_job(const std::string& path) { return job_from_text(text_of_file(path), path); }

}  // namespace stakewright::job

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "job_parts.hpp"
#include "stakewright/base/angle.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/layout/surroundings.hpp"

namespace stakewright::job {
namespace {

constexpr Range kFacing = {-360.0, 360.0, true, true, "degrees, a number from -360 to 360"};
constexpr std::size_t kFewestOutlinePoints = 3;

std::vector<std::string> read_hold(const Value& value, const std::vector<std::string>& corners) {
  std::vector<std::string> held;
  for (const Value& item : list_from(value, "a list of corners, as in [\"A\", \"B\"]")) {
    const std::string name = name_from(item);
    if (std::find(corners.begin(), corners.end(), name) == corners.end())
      throw base::InputError(
          fmt::format("read {}; accepted: {}", base::in_quotes(name), fmt::join(corners, ", ")));
    if (std::find(held.begin(), held.end(), name) != held.end())
      throw base::InputError(
          fmt::format("read {} twice; accepted: each corner once", base::in_quotes(name)));
    held.push_back(name);
  }
  return held;
}

// A readings file tells points apart by name alone, and a crew says no capitals.
void demand_new_name(const std::string& name, const std::vector<std::string>& taken) {
  for (const std::string& other : taken)
    if (base::lower_case(name) == base::lower_case(other))
      throw base::InputError(
          fmt::format("read {}, which {} has already; accepted: a name that differs from every "
                      "stake's and pin's by more than capitals",
                      base::in_quotes(name), base::in_quotes(other)));
}

std::vector<layout::Pin> read_pins(const Section& site, base::Units units,
                                   std::vector<std::string> taken) {
  std::vector<layout::Pin> pins;
  for (const Section& table : site.tables("pin", {"name", "at"})) {
    layout::Pin pin;
    pin.name = table.read(table.demand("name", "a name in quotes"), [&](const Value& value) {
      std::string name = name_from(value);
      demand_new_name(name, taken);
      return name;
    });
    pin.at = table.read(table.demand("at", "two lengths, right and forward"),
                        [units](const Value& value) { return point_from(value, units); });
    taken.push_back(pin.name);
    pins.push_back(pin);
  }
  return pins;
}

std::vector<base::Point> read_outline(const Value& value, base::Units units) {
  constexpr const char* accepted = "a list of three points or more, each two lengths";
  const List& list = list_from(value, accepted);
  if (list.size() < kFewestOutlinePoints)
    throw base::InputError(fmt::format("read {} points; accepted: {}", list.size(), accepted));
  std::vector<base::Point> outline;
  for (const Value& item : list) {
    try {
      outline.push_back(point_from(item, units));
    } catch (const base::InputError& error) {
      throw error.at(fmt::format("point {}", outline.size() + 1));
    }
  }
  return outline;
}

std::vector<layout::KeepClear> read_keep_clear(const Section& site, base::Units units) {
  std::vector<layout::KeepClear> result;
  for (const Section& table : site.tables("keep_clear", {"name", "keep", "of"})) {
    layout::KeepClear outline;
    outline.name = table.read(table.demand("name", "a name in quotes"), name_from);
    table.read("keep", outline.keep_inside, [](const Value& value) {
      return word_from<bool>(value, {{"inside", true}, {"outside", false}});
    });
    table.read(table.demand("of", "a list of points, each two lengths"), [&](const Value& value) {
      outline.outline = read_outline(value, units);
      layout::demand_outline(outline);
      return true;
    });
    result.push_back(std::move(outline));
  }
  return result;
}

}  // namespace

void read_site(const Section& site, base::Units units, layout::Plan& plan) {
  std::vector<std::string> stakes = layout::corner_labels(plan.polygon.sides);
  site.read("center", plan.center, [units](const Value& v) { return point_from(v, units); });
  site.read("facing", plan.facing_rad,
            [](const Value& v) { return number_in(v, kFacing) * base::kDegree_rad; });
  site.read("hold", plan.hold, [&](const Value& v) { return read_hold(v, stakes); });
  site.read("batter_setback", plan.batter_setback_m,
            [units](const Value& v) { return length_in(v, units, kLengthFromZero); });
  stakes.emplace_back(layout::kCenterLabel);
  plan.pins = read_pins(site, units, std::move(stakes));
  plan.keep_clear = read_keep_clear(site, units);
}

}  // namespace stakewright::job

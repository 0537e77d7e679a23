#include "rod_rows.hpp"

#include <fmt/format.h>

#include <map>

#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/levels/rods.hpp"

namespace stakewright::job {

using readings::Kind;
using readings::Reading;

void demand_few_rods(const std::vector<Reading>& all, const std::string& file) {
  std::size_t rods = 0;
  for (const Reading& reading : all)
    if (reading.kind == Kind::level && ++rods > levels::kMostRodReadings)
      throw base::InputError(
          fmt::format("{}, line {}: read one rod reading more; accepted: up to {}", file,
                      reading.line, levels::kMostRodReadings));
}

void demand_set_ups_apart(const std::vector<Reading>& all, const std::string& file) {
  std::map<std::string, int> rods;  // by name: the first line
  for (const Reading& reading : all)
    if (reading.kind == Kind::level) rods.emplace(reading.to, reading.line);
  for (const Reading& reading : all) {
    const auto rod = rods.find(reading.from);
    if (reading.kind != Kind::level || rod == rods.end()) continue;
    throw base::InputError(fmt::format(
        "{}, line {}, column from: read {}, where a rod stands in line {}; accepted: one name for "
        "a set-up, another for a point",
        file, reading.line, base::in_quotes(reading.from), rod->second));
  }
}

}  // namespace stakewright::job

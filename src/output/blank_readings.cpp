#include "stakewright/output/blank_readings.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "point_rows.hpp"
#include "stakewright/check/check.hpp"
#include "stakewright/suspects/tapes.hpp"

namespace stakewright::output {
namespace {

constexpr const char* kHeader = "kind,from,to,reading,instrument,round,note\n";

std::string row(const std::string& from, const std::string& to, const std::string& instrument,
                const std::string& round, const std::string& note) {
  return fmt::format("tape,{},{},,{},{},{}\n", csv_field(from), csv_field(to),
                     csv_field(instrument), round, csv_field(note));
}

}  // namespace

std::string blank_readings_csv(const suspects::TapePlan& plan) {
  std::string text = kHeader;
  for (const suspects::PlannedPull& pull : plan.pulls)
    text += row(pull.from, pull.to, readings::default_instrument(readings::Kind::tape), "1", "");
  return text;
}

std::string blank_readings_csv(const check::Findings& findings) {
  const auto& points = findings.network.points;
  const std::string steel = readings::default_instrument(readings::Kind::tape);
  std::vector<std::string> rows;
  const auto add = [&](std::size_t from, std::size_t to, bool another_tape) {
    const std::string instrument = another_tape ? "" : steel;
    std::string text = row(points[from].label, points[to].label, instrument, "",
                           another_tape ? "with another tape: name it" : "");
    if (std::find(rows.begin(), rows.end(), text) == rows.end()) rows.push_back(std::move(text));
  };
  for (const auto& loose : findings.used.loose)
    for (const auto& tape : loose.would_fix) add(tape.from, tape.to, false);
  for (const suspects::NextTape& next : findings.tape_next)
    add(next.from, next.to, next.another_tape);
  return fmt::format("{}{}", kHeader, fmt::join(rows, ""));
}

}  // namespace stakewright::output

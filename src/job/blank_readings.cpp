// Readings files with the pulls set out and nothing read yet, and what is still blank in one.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "point_rows.hpp"
#include "stakewright/job/readings_file.hpp"
#include "stakewright/job/results.hpp"

namespace stakewright::job {
namespace {

constexpr std::size_t kMostNamed = 6;

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

std::vector<std::string> not_read_remarks(const ReadingRows& rows) {
  const std::size_t count = rows.not_read.size();
  if (count == 0) return {};
  std::vector<std::string> named;
  for (const readings::Reading& reading : rows.not_read)
    if (named.size() < kMostNamed) named.push_back(reading.from + "–" + reading.to);
  return {fmt::format("{} no reading yet: {}{}.",
                      count == 1 ? "1 row has" : fmt::format("{} rows have", count),
                      fmt::join(named, ", "),
                      count > kMostNamed ? fmt::format(" and {} more", count - kMostNamed) : "")};
}

}  // namespace stakewright::job

#include "remarks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "stakewright/base/text.hpp"

namespace stakewright::levels {
namespace {

using adjustment::SlipVerdict;
using Sentences = std::vector<std::string>;

std::size_t rods_on(const Rods& rods, std::size_t point) {
  return static_cast<std::size_t>(
      std::count_if(rods.readings.begin(), rods.readings.end(),
                    [&](const RodReading& rod) { return rod.point == point; }));
}

void add_unleveled(const Levels& levels, Sentences& remarks) {
  Sentences names;
  for (std::size_t i = 0; i < levels.rods.corner_count; ++i)
    if (rods_on(levels.rods, i) == 0) names.push_back(levels.rods.points[i]);
  if (names.empty()) return;
  remarks.push_back(fmt::format("No rod was read on {}: {} height is not known.",
                                base::joined(names), names.size() == 1 ? "its" : "their"));
}

void add_apart(const Levels& levels, Sentences& remarks) {
  for (const auto& group : levels.heights.apart) {
    Sentences names;
    for (const std::size_t point : group) names.push_back(levels.rods.points[point]);
    remarks.push_back(fmt::format(
        "Nothing ties the rod readings on {} to the others: read one point from both set-ups.",
        base::joined(names)));
  }
}

// A set-up from which one rod was read gives its own height and nothing else.
void add_single_rods(const Levels& levels, Sentences& remarks) {
  Sentences names;
  for (std::size_t s = 0; s < levels.rods.set_ups.size(); ++s)
    if (levels.heights.set_ups[s].rod_count == 1) names.push_back(levels.rods.set_ups[s]);
  if (names.empty()) return;
  remarks.push_back(
      fmt::format("One rod was read from {}, which tells nothing by itself.", base::joined(names)));
}

// Marks that a single rod was read on tie nothing: perhaps a name was misspelt.
void add_single_marks(const Question& question, const Levels& levels, Sentences& remarks) {
  const std::size_t own =
      levels.rods.corner_count + 1 + question.plan.pins.size();  // corners, O, pins
  for (std::size_t p = own; p < levels.rods.points.size(); ++p) {
    if (levels.rods.bench_mark == p || rods_on(levels.rods, p) != 1) continue;
    remarks.push_back(fmt::format(
        "A rod was read on {} once and from one set-up, so it ties nothing: a point of the job "
        "misspelt?",
        levels.rods.points[p]));
  }
}

void add_bench_mark(const Question& question, const Levels& levels, Sentences& remarks) {
  if (!levels.rods.bench_mark) return;
  const std::string& name = question.wanted.bench_mark;
  if (rods_on(levels.rods, *levels.rods.bench_mark) == 0)
    remarks.push_back(fmt::format(
        "No rod was read on the bench mark {}: the footings are judged against their own mean.",
        name));
  else if (!levels.heights.on_bench_mark)
    remarks.push_back(
        fmt::format("The bench mark {} is not tied to the footings, which are judged against "
                    "their own mean.",
                    name));
}

void add_unchecked(const Levels& levels, Sentences& remarks) {
  if (levels.heights.sums.redundancy > 0 || levels.rods.readings.empty()) return;
  remarks.emplace_back(
      "Nothing checks the rod readings: a misread rod would pass for a footing off level. Read "
      "every footing again from a second set-up.");
}

void add_scatter(const Levels& levels, Sentences& remarks) {
  if (levels.heights.sums.passed || levels.slips.verdict == SlipVerdict::not_separable) return;
  remarks.emplace_back(
      "The rod readings scatter more than the level should, and no single one stands out: the "
      "verdicts on level may be too sure.");
}

void add_leaning_instrument(const Levels& levels, Sentences& remarks) {
  if (levels.shape != Shape::tilted || levels.rods.set_ups.size() > 1) return;
  remarks.emplace_back(
      "An instrument out of level shows a leaning form that is none: turn it half round, read "
      "again, and only then pack.");
}

}  // namespace

std::vector<std::string> remarks(const Question& question, const Levels& levels) {
  Sentences result;
  add_bench_mark(question, levels, result);
  add_unleveled(levels, result);
  add_apart(levels, result);
  add_single_rods(levels, result);
  add_single_marks(question, levels, result);
  add_unchecked(levels, result);
  add_scatter(levels, result);
  add_leaning_instrument(levels, result);
  return result;
}

}  // namespace stakewright::levels

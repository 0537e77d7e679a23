#include "stakewright/levels/levels.hpp"

#include <algorithm>
#include <cmath>

#include "footings.hpp"
#include "remarks.hpp"
#include "shape.hpp"

namespace stakewright::levels {
namespace {

using adjustment::SlipVerdict;

Tops tops_of(const Question& question, const Heights& heights,
             const std::vector<std::size_t>& corners) {
  const std::vector<layout::Stake> stakes = layout::stakes(question.plan);
  Tops tops;
  tops.covariance = base::Matrix(corners.size(), corners.size());
  for (std::size_t i = 0; i < corners.size(); ++i) {
    tops.at.push_back(stakes[corners[i]].at);
    tops.height_m.push_back(heights.height_m[corners[i]]);
    for (std::size_t j = 0; j < corners.size(); ++j)
      tops.covariance(i, j) = heights.covariance(corners[i], corners[j]);
  }
  return tops;
}

std::vector<std::size_t> as_corners(const std::vector<std::size_t>& tops,
                                    const std::vector<std::size_t>& corners) {
  std::vector<std::size_t> result;
  for (const std::size_t i : tops) result.push_back(corners[i]);
  return result;
}

/// The shape, and the plane through what is not wrong.  A form is called leaning only where its
/// slope is significant by itself.
void find_shape(const Question& question, Levels& levels) {
  std::vector<std::size_t> known;
  for (std::size_t i = 0; i < levels.rods.corner_count; ++i)
    if (levels.heights.known[i]) known.push_back(i);
  const Tops tops = tops_of(question, levels.heights, known);
  const Explained explained = explain(tops, question.tolerance, question.staking);
  levels.shape = explained.shape;
  levels.tilt_chance = explained.tilt_chance;
  levels.wrong = as_corners(explained.wrong, known);
  levels.may_be_wrong = as_corners(explained.may_be_wrong, known);
  levels.plane = plane(tops, question.tolerance, explained.wrong);
  if (levels.shape == Shape::tilted && (!levels.plane || !levels.plane->significant))
    levels.shape = Shape::unclear;
}

/// The corners whose mean is the level: those on one level, or of a leaning form all that lie in
/// its plane.
std::vector<std::size_t> corners_of_level(const Question& question, const Levels& levels) {
  if (levels.shape != Shape::tilted)
    return on_one_level(levels.heights, levels.rods.corner_count, question.tolerance.level_m);
  std::vector<std::size_t> kept;
  for (std::size_t i = 0; i < levels.rods.corner_count; ++i)
    if (levels.heights.known[i] &&
        std::find(levels.wrong.begin(), levels.wrong.end(), i) == levels.wrong.end())
      kept.push_back(i);
  return kept;
}

/// Everything that follows from the heights.
void judge_heights(const Question& question, Levels& levels) {
  const std::size_t corners = levels.rods.corner_count;
  find_shape(question, levels);
  levels.against_bench_mark =
      levels.heights.on_bench_mark && question.wanted.footings_m.has_value();
  if (!levels.against_bench_mark) levels.kept = corners_of_level(question, levels);
  const Level level = levels.against_bench_mark ? wanted_level(*question.wanted.footings_m, corners)
                                                : mean_level(levels.heights, levels.kept, corners,
                                                             question.tolerance.level_m);
  levels.level_m = level.height_m;
  levels.footings =
      judged(levels.heights, levels.rods, level, levels.against_bench_mark, question.tolerance);
  levels.verdict = placement::verdict_of(levels.footings);
}

/// Each footing over every set of readings that may be misread, by their chances (law of total
/// probability); the figures stay those without the likeliest.
void judge_among_rivals(const Question& question, Levels& levels) {
  std::vector<double> chance_in(levels.rods.corner_count, 0.0);
  double told = 0.0;
  Levels leading = levels;
  for (const adjustment::SlipSet& rival : adjustment::rivals(levels.slips)) {
    Levels one = levels;
    one.heights = heights(one.rods, question.wanted, rival.readings);
    judge_heights(question, one);
    if (told == 0.0) leading = one;
    told += rival.chance;
    for (std::size_t i = 0; i < chance_in.size(); ++i)
      chance_in[i] += rival.chance * one.footings[i].chance_in;
  }
  levels = std::move(leading);
  for (std::size_t i = 0; i < chance_in.size(); ++i) {
    Footing& footing = levels.footings[i];
    if (!footing.known) continue;
    footing.chance_in = chance_in[i] / told;
    footing.verdict = told < question.tolerance.confidence
                          ? placement::Verdict::undecided
                          : placement::verdict_of(footing.chance_in, question.tolerance.confidence);
  }
  levels.verdict = placement::verdict_of(levels.footings);
}

}  // namespace

std::optional<Levels> judge(const Question& question) {
  Levels levels;
  levels.rods = rods(question.plan, question.readings, question.instruments, question.wanted);
  if (levels.rods.readings.empty()) return std::nullopt;
  levels.slips = adjustment::weigh_slips(linear_readings(levels.rods), question.staking.misread);
  if (levels.slips.verdict == SlipVerdict::not_separable) {
    judge_among_rivals(question, levels);
  } else {
    levels.heights = heights(levels.rods, question.wanted, levels.slips.excluded);
    judge_heights(question, levels);
  }
  levels.remarks = remarks(question, levels);
  return levels;
}

std::vector<readings::Reading> with_slopes(std::vector<readings::Reading> readings,
                                           const Levels& levels) {
  const auto point = [&](const std::string& label) -> std::optional<std::size_t> {
    const auto& points = levels.rods.points;
    const auto found = std::find(points.begin(), points.end(), label);
    if (found == points.end()) return std::nullopt;
    const auto index = static_cast<std::size_t>(found - points.begin());
    return levels.heights.known[index] ? std::optional(index) : std::nullopt;
  };
  for (readings::Reading& reading : readings) {
    const bool length =
        reading.kind == readings::Kind::tape || reading.kind == readings::Kind::laser;
    if (!length || reading.slope_m) continue;
    const auto from = point(reading.from);
    const auto to = point(reading.to);
    if (!from || !to) continue;
    const double rise_m = levels.heights.height_m[*to] - levels.heights.height_m[*from];
    if (std::abs(rise_m) >= reading.value_m) continue;
    reading.slope_m = rise_m;
    reading.slope_from_levels = true;
  }
  return readings;
}

}  // namespace stakewright::levels

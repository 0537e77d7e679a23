#include "stakewright/levels/levels.hpp"

#include <algorithm>
#include <cmath>

#include "footings.hpp"
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

std::size_t rods_on(const Rods& rods, std::size_t point) {
  return static_cast<std::size_t>(
      std::count_if(rods.readings.begin(), rods.readings.end(),
                    [&](const RodReading& rod) { return rod.point == point; }));
}

base::List names_of(const Rods& rods, const std::vector<std::size_t>& points) {
  std::vector<std::string> names;
  for (const std::size_t point : points) names.push_back(rods.points[point]);
  return base::names(names);
}

void add_unleveled(Levels& levels) {
  std::vector<std::size_t> corners;
  for (std::size_t i = 0; i < levels.rods.corner_count; ++i)
    if (rods_on(levels.rods, i) == 0) corners.push_back(i);
  if (!corners.empty())
    levels.remarks.push_back({"levels.no_rod_on", {{"footings", names_of(levels.rods, corners)}}});
}

void add_apart(Levels& levels) {
  for (const auto& group : levels.heights.apart)
    levels.remarks.push_back({"levels.apart", {{"points", names_of(levels.rods, group)}}});
}

// A set-up from which one rod was read gives its own height and nothing else.
void add_single_rods(Levels& levels) {
  std::vector<std::string> names;
  for (std::size_t s = 0; s < levels.rods.set_ups.size(); ++s)
    if (levels.heights.set_ups[s].rod_count == 1) names.push_back(levels.rods.set_ups[s]);
  if (!names.empty())
    levels.remarks.push_back({"levels.one_rod_from", {{"set_ups", base::names(names)}}});
}

// Marks that a single rod was read on tie nothing: perhaps a name was misspelt.
void add_single_marks(const Question& question, Levels& levels) {
  const std::size_t own =
      levels.rods.corner_count + 1 + question.plan.pins.size();  // corners, O, pins
  for (std::size_t p = own; p < levels.rods.points.size(); ++p) {
    if (levels.rods.bench_mark == p || rods_on(levels.rods, p) != 1) continue;
    levels.remarks.push_back(
        {"levels.ties_nothing", {{"point", base::Name{levels.rods.points[p]}}}});
  }
}

void add_bench_mark(Levels& levels) {
  if (!levels.rods.bench_mark) return;
  const base::Name name{levels.rods.points[*levels.rods.bench_mark]};
  if (rods_on(levels.rods, *levels.rods.bench_mark) == 0)
    levels.remarks.push_back({"levels.bench_mark_not_read", {{"bench_mark", name}}});
  else if (!levels.heights.on_bench_mark)
    levels.remarks.push_back({"levels.bench_mark_not_tied", {{"bench_mark", name}}});
}

/// What the rod readings leave open.
void add_remarks(const Question& question, Levels& levels) {
  add_bench_mark(levels);
  add_unleveled(levels);
  add_apart(levels);
  add_single_rods(levels);
  add_single_marks(question, levels);
  const adjustment::LinearAdjustment& sums = levels.heights.sums;
  if (sums.redundancy == 0) levels.remarks.push_back({"levels.unchecked"});
  if (!sums.passed && levels.slips.verdict != SlipVerdict::not_separable)
    levels.remarks.push_back({"levels.scatter"});
  if (levels.shape == Shape::tilted && levels.rods.set_ups.size() == 1)
    levels.remarks.push_back({"levels.instrument_leans"});
}

struct Marks {
  Unit unit;
  double size_m;
};

/// Marks of rods in feet and inches, and of metric ones.
std::vector<Marks> marks_of(base::Units written) {
  if (written == base::Units::feet_inches) return {{Unit::foot, 0.3048}, {Unit::inch, 0.0254}};
  return {{Unit::meter, 1.0}, {Unit::decimeter, 0.1}, {Unit::centimeter, 0.01}};
}

/// Nearer than this many standard deviations a slip fits a unit.
constexpr double kFits = 3.0;

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
  add_remarks(question, levels);
  return levels;
}

std::optional<WholeUnits> whole_units(double slip_m, double sd_m, base::Units written) {
  std::optional<WholeUnits> result;
  for (const Marks& marks : marks_of(written)) {
    for (const int times : {1, 2}) {
      const double size_m = times * marks.size_m;
      if (std::abs(std::abs(slip_m) - size_m) > kFits * sd_m) continue;
      if (result || size_m < kFits * sd_m) return std::nullopt;
      result = {marks.unit, times};
    }
  }
  return result;
}

RodSlip slip_of(const Levels& levels, std::size_t reading) {
  const adjustment::AdjustedReading& out = levels.heights.sums.readings_out[reading];
  RodSlip result;
  result.slip_m = -out.residual;
  if (out.standardized != 0.0) result.sd_m = out.residual / out.standardized;
  result.looks_like =
      whole_units(result.slip_m, result.sd_m, levels.rods.readings[reading].written);
  return result;
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

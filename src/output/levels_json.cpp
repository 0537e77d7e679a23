// The levels of a check as JSON.  Keys, units and meaning: docs/results.md.
#include <algorithm>
#include <cmath>

#include "findings_json.hpp"
#include "stakewright/adjustment/quantiles.hpp"

namespace stakewright::output {
namespace {

using levels::Levels;

const char* word_of(levels::Shape shape) {
  switch (shape) {
    case levels::Shape::not_known:
      return "not known";
    case levels::Shape::level:
      return "level";
    case levels::Shape::footings:
      return "footings";
    case levels::Shape::tilted:
      return "tilted";
    case levels::Shape::unclear:
      return "unclear";
  }
  return "";
}

const char* word_of(adjustment::SlipVerdict verdict) {
  switch (verdict) {
    case adjustment::SlipVerdict::none:
      return "none";
    case adjustment::SlipVerdict::named:
      return "named";
    case adjustment::SlipVerdict::not_separable:
      return "not separable";
  }
  return "";
}

Json names(const Levels& levels, const std::vector<std::size_t>& points) {
  Json list = Json::array();
  for (const std::size_t point : points) list.push_back(levels.rods.points[point]);
  return list;
}

Json plane_json(const Levels& levels) {
  if (!levels.plane) return nullptr;
  const levels::Plane& plane = *levels.plane;
  return {
      {"slope_right", number(plane.slope.x_m)},         {"slope_forward", number(plane.slope.y_m)},
      {"downhill", number(plane.downhill_bearing_rad)}, {"drop", number(plane.drop_m)},
      {"chi_square", number(plane.chi_square)},         {"significant", plane.significant}};
}

/// Half-width at a confidence of a figure with this standard deviation.
Json uncertainty(double sd, double confidence) {
  return number(adjustment::normal_limit(1.0 - confidence) * sd);
}

Json footing_json(const std::string& label, const levels::Footing& footing, double confidence) {
  if (!footing.known)
    return {{"label", label},
            {"height", nullptr},
            {"off", nullptr},
            {"uncertainty", nullptr},
            {"chance_in", nullptr},
            {"verdict", "undecided"},
            {"packing", nullptr},
            {"packing_uncertainty", nullptr},
            {"rods", 0}};
  return {{"label", label},
          {"height", number(footing.height_m)},
          {"off", number(footing.off_m)},
          {"uncertainty", uncertainty(footing.sd_m, confidence)},
          {"chance_in", number(footing.chance_in)},
          {"verdict", verdict_word(footing.verdict)},
          {"packing", number(footing.packing_m)},
          {"packing_uncertainty", uncertainty(footing.packing_sd_m, confidence)},
          {"rods", footing.rod_count}};
}

Json footings_json(const Levels& levels, double confidence) {
  Json list = Json::array();
  for (std::size_t i = 0; i < levels.footings.size(); ++i)
    list.push_back(footing_json(levels.rods.points[i], levels.footings[i], confidence));
  return list;
}

/// Every point a rod stood on whose height is known, in the order of the job.
Json points_json(const Levels& levels, double confidence) {
  Json list = Json::array();
  for (std::size_t p = 0; p < levels.rods.points.size(); ++p) {
    if (!levels.heights.known[p]) continue;
    const double variance = levels.heights.covariance(p, p);
    list.push_back({{"name", levels.rods.points[p]},
                    {"height", number(levels.heights.height_m[p])},
                    {"uncertainty", uncertainty(std::sqrt(std::max(variance, 0.0)), confidence)}});
  }
  return list;
}

Json set_ups_json(const Levels& levels) {
  Json list = Json::array();
  for (std::size_t s = 0; s < levels.rods.set_ups.size(); ++s) {
    const levels::SetUp& set_up = levels.heights.set_ups[s];
    list.push_back({{"name", levels.rods.set_ups[s]},
                    {"height", set_up.tied ? number(set_up.height_m) : Json(nullptr)},
                    {"rods", set_up.rod_count}});
  }
  return list;
}

Json sums_json(const Levels& levels) {
  const adjustment::LinearAdjustment& sums = levels.heights.sums;
  return {{"unknowns", levels.heights.unknowns},
          {"readings", sums.readings},
          {"redundancy", sums.redundancy},
          {"variance_factor", number(sums.variance_factor)},
          {"chi_square", number(sums.chi_square)},
          {"chi_square_limit", number(sums.chi_square_limit)},
          {"passed", sums.passed}};
}

/// Sets of rods that may be misread, likeliest first; none means that no rod is.
Json misread_json(const Levels& levels) {
  Json sets = Json::array();
  for (const adjustment::SlipSet& set : levels.slips.ranked) {
    Json rods = Json::array();
    for (std::size_t i = 0; i < set.readings.size(); ++i) {
      const levels::RodReading& rod = levels.rods.readings[set.readings[i]];
      rods.push_back({{"from", levels.rods.set_ups[rod.set_up]},
                      {"to", levels.rods.points[rod.point]},
                      {"size", number(set.slips[i])}});
    }
    sets.push_back({{"chance", number(set.chance)}, {"rods", rods}});
  }
  return {{"verdict", word_of(levels.slips.verdict)}, {"sets", sets}};
}

}  // namespace

Json levels_json(const job::Job& job, const check::Findings& findings) {
  if (!findings.levels) return nullptr;
  const Levels& levels = *findings.levels;
  const double confidence = job.tolerance.confidence;
  Json bench_mark = nullptr;
  if (levels.rods.bench_mark) bench_mark = levels.rods.points[*levels.rods.bench_mark];
  return {{"verdict", verdict_word(levels.verdict)},
          {"against", levels.against_bench_mark ? "bench mark" : "mean"},
          {"bench_mark", bench_mark},
          {"on_bench_mark", levels.heights.on_bench_mark},
          {"level", number(levels.level_m)},
          {"kept", names(levels, levels.kept)},
          {"shape", word_of(levels.shape)},
          {"tilt_chance", number(levels.tilt_chance)},
          {"wrong", names(levels, levels.wrong)},
          {"plane", plane_json(levels)},
          {"footings", footings_json(levels, confidence)},
          {"points", points_json(levels, confidence)},
          {"set_ups", set_ups_json(levels)},
          {"adjustment", sums_json(levels)},
          {"misread", misread_json(levels)}};
}

void add_level_readings(const check::Findings& findings, Json& readings) {
  if (!findings.levels) return;
  const Levels& levels = *findings.levels;
  for (std::size_t r = 0; r < levels.rods.readings.size(); ++r) {
    const levels::RodReading& rod = levels.rods.readings[r];
    const adjustment::AdjustedReading& out = levels.heights.sums.readings_out[r];
    readings.push_back({{"kind", "level"},
                        {"from", levels.rods.set_ups[rod.set_up]},
                        {"to", levels.rods.points[rod.point]},
                        {"at", nullptr},
                        {"instrument", rod.instrument},
                        {"corrections", Json::array()},
                        {"reading", number(rod.read_m)},
                        {"corrected", number(rod.read_m)},
                        {"sd", number(rod.sd_m)}});
    add_adjusted(out, readings.back());
  }
}

}  // namespace stakewright::output

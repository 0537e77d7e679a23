// The tables of the rod readings and the heights.
#include <fmt/format.h>

#include <cmath>

#include "reports.hpp"
#include "stakewright/adjustment/quantiles.hpp"
#include "stakewright/base/text.hpp"
#include "words.hpp"

namespace stakewright::cli {
namespace {

using base::text_from_length;
using base::text_from_small_length;
using levels::Footing;
using levels::Levels;

constexpr Directions kHigh{"high", "low"};
constexpr Directions kPack{"pack", "cut"};

std::string packing_words(double packing_m, base::Units units) {
  const std::string text = text_from_length(std::abs(packing_m), units);
  if (text == text_from_length(0.0, units)) return "none";
  return (packing_m > 0.0 ? kPack.positive : kPack.negative) + (' ' + text);
}

Row footing_row(const job::Job& job, const Levels& levels, std::size_t i, const Shown& shown) {
  const Footing& footing = levels.footings[i];
  const std::string& label = levels.rods.points[i];
  if (!footing.known) return {label, "", "no rod", "", "", verdict_word(footing.verdict), ""};
  const double give_or_take_m =
      adjustment::normal_limit(1.0 - job.tolerance.confidence) * footing.sd_m;
  return {label,
          levels.heights.on_bench_mark ? text_from_length(footing.height_m, shown.units) : "",
          directed(footing.off_m, kHigh, shown.units, Step::tape),
          text_from_small_length(give_or_take_m, shown.units),
          percent(footing.chance_in),
          verdict_word(footing.verdict),
          packing_words(footing.packing_m, shown.units)};
}

std::string judged_against(const Levels& levels, base::Units units) {
  if (levels.against_bench_mark)
    return fmt::format("{}, wanted by {}", text_from_length(levels.level_m, units),
                       levels.rods.points[*levels.rods.bench_mark]);
  std::vector<std::string> kept;
  for (const std::size_t i : levels.kept) kept.push_back(levels.rods.points[i]);
  return "the mean of " + base::joined(kept);
}

std::string footings_table(const job::Job& job, const Levels& levels, const Shown& shown) {
  std::vector<Row> rows;
  for (std::size_t i = 0; i < levels.footings.size(); ++i)
    rows.push_back(footing_row(job, levels, i, shown));
  const std::string title = fmt::format("Levels: tolerance {}, against {}",
                                        text_from_length(job.tolerance.level_m, shown.units),
                                        judged_against(levels, shown.units));
  return heading(title, shown.emphasis) +
         table({{"footing"},
                {levels.heights.on_bench_mark ? "height" : "", Align::right},
                {"off", Align::right},
                {"give or take", Align::right},
                {"chance in", Align::right},
                {"verdict"},
                {levels.against_bench_mark ? "under the post" : "under the post, to the highest",
                 Align::right}},
               rows, shown.emphasis);
}

Row rod_row(const Levels& levels, std::size_t r, const Shown& shown) {
  const auto& rod = levels.rods.readings[r];
  const auto& out = levels.heights.sums.readings_out[r];
  return {levels.rods.set_ups[rod.set_up],
          levels.rods.points[rod.point],
          rod.instrument,
          text_from_length(rod.read_m, shown.units),
          text_from_length(out.adjusted, shown.units),
          directed(-out.residual, {"long", "short"}, shown.units, Step::fine),
          fmt::format("{:.1f}", std::abs(out.standardized)),
          std::isfinite(out.smallest_catch) ? text_from_length(out.smallest_catch, shown.units)
                                            : "none",
          out.excluded ? "left out" : ""};
}

std::string rods_table(const Levels& levels, const Shown& shown) {
  std::vector<Row> rows;
  for (std::size_t r = 0; r < levels.rods.readings.size(); ++r)
    rows.push_back(rod_row(levels, r, shown));
  return heading("Rod readings", shown.emphasis) + table({{"from"},
                                                          {"rod on"},
                                                          {"with"},
                                                          {"read", Align::right},
                                                          {"adjusted", Align::right},
                                                          {"reads", Align::right},
                                                          {"in own spreads", Align::right},
                                                          {"smallest slip seen", Align::right},
                                                          {""}},
                                                         rows, shown.emphasis);
}

std::string sums_line(const Levels& levels) {
  const auto& sums = levels.heights.sums;
  std::string text = fmt::format("{} of {} rod readings used, redundancy {}", sums.readings,
                                 levels.rods.readings.size(), sums.redundancy);
  if (sums.redundancy > 0)
    text += fmt::format("; chi-square {:.2f}, limit {:.2f}: the readings {}", sums.chi_square,
                        sums.chi_square_limit, sums.passed ? "agree" : "disagree");
  return paragraph(text + ".");
}

std::string plane_line(const Levels& levels, const Shown& shown) {
  if (!levels.plane) return "";
  return paragraph(
      fmt::format("The plane nearest to the footings falls {} over their whole width, {}.",
                  text_from_length(levels.plane->drop_m, shown.units),
                  levels.plane->significant ? "more than the usual unevenness makes"
                                            : "no more than the usual unevenness makes"));
}

}  // namespace

std::string levels_section(const job::Job& job, const Levels& levels, const Shown& shown) {
  return footings_table(job, levels, shown) + plane_line(levels, shown) + '\n' +
         rods_table(levels, shown) + sums_line(levels);
}

}  // namespace stakewright::cli

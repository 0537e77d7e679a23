// What to read on a tape while setting out.
#include <fmt/format.h>

#include <cmath>
#include <set>

#include "reports.hpp"
#include "stakewright/readings/setting_out.hpp"
#include "stakewright/told/corrections.hpp"
#include "words.hpp"

namespace stakewright::cli {
namespace {

using base::text_from_length;
using base::text_from_small_length;

/// `1/8" less`, or `as it is`.
std::string against_true(double reading_m, double true_m, base::Units units) {
  const std::string text = text_from_small_length(std::abs(reading_m - true_m), units);
  if (text == text_from_small_length(0.0, units)) return "as it is";
  return fmt::format("{} {}", text, reading_m > true_m ? "more" : "less");
}

std::string swings_on_tape(const results::LayoutResult& result, const Shown& shown) {
  std::vector<Row> rows;
  for (const auto& swing : result.order.swings) {
    Row row{swing.stake};
    for (const auto& hold : swing.from) {
      row.push_back(hold.label);
      row.push_back(text_from_length(
          readings::reading_for_m(hold.length_m, result.with->tape, result.with->held),
          shown.units));
    }
    rows.push_back(std::move(row));
  }
  return table({{"set"}, {"hold at"}, {"read", Align::right}, {"hold at"}, {"read", Align::right}},
               rows, shown.emphasis);
}

std::string lengths_on_tape(const results::LayoutResult& result, const Shown& shown) {
  const wording::Voice english(wording::built_in(wording::kUsualLanguage), shown.units);
  std::vector<Row> rows;
  std::set<int> told;
  for (const auto& tape : result.tapes) {
    if (!told.insert(tape.skip).second) continue;
    const double reading_m =
        readings::reading_for_m(tape.length_m, result.with->tape, result.with->held);
    rows.push_back({tape_name(tape.from, tape.to), text_from_length(tape.length_m, shown.units),
                    text_from_length(reading_m, shown.units),
                    against_true(reading_m, tape.length_m, shown.units),
                    english.text(told::corrections_made(readings::corrections_at(
                        reading_m, result.with->tape, result.with->held)))});
  }
  return table({{"and all like"},
                {"true length", Align::right},
                {"read", Align::right},
                {"on the tape"},
                {"because measuring would say"}},
               rows, shown.emphasis);
}

}  // namespace

std::string on_tape_section(const results::LayoutResult& result, const Shown& shown) {
  if (!result.with) return "";
  return '\n' + heading("What to read on " + result.with->words, shown.emphasis) +
         lengths_on_tape(result, shown) + '\n' + swings_on_tape(result, shown) +
         paragraph(
             "Read so, the stake stands at the true distance: setting out turns the signs of "
             "measuring about.");
}

}  // namespace stakewright::cli

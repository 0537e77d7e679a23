// Corrections of readings in words, and what to read on a tape while setting out.
#include <fmt/format.h>

#include <cmath>
#include <map>
#include <set>

#include "reports.hpp"
#include "stakewright/readings/setting_out.hpp"
#include "words.hpp"

namespace stakewright::cli {
namespace {

using base::text_from_length;
using base::text_from_small_length;
using readings::Correction;

/// Why a correction is made, by its sign.
struct Reasons {
  const char* added;
  const char* taken;
};

Reasons reasons_of(const std::string& name) {
  static const std::map<std::string, Reasons, std::less<>> all{
      {"burned", {"burned mark", "burned mark"}},
      {"standardization", {"tape is long", "tape is short"}},
      {"temperature", {"tape warm", "tape cold"}},
      {"pull", {"pulled hard", "pulled slack"}},
      {"sag", {"tape hangs", "tape hangs"}},
      {"slope", {"on a slope", "on a slope"}}};
  return all.at(name);
}

/// `tape warm: 1/8" added`.
std::string correction_words(const Correction& correction, base::Units units) {
  const bool added = correction.amount_m > 0.0;
  const Reasons reasons = reasons_of(correction.name);
  const std::string text = text_from_small_length(std::abs(correction.amount_m), units);
  const std::string reason = added ? reasons.added : reasons.taken;
  if (text == text_from_small_length(0.0, units)) return reason + ": next to nothing";
  return fmt::format("{}: {} {}", reason, text, added ? "added" : "taken off");
}

std::string words_of(const std::vector<Correction>& corrections, base::Units units) {
  std::vector<std::string> words;
  for (const Correction& correction : corrections)
    words.push_back(correction_words(correction, units));
  return fmt::format("{}", fmt::join(words, "; "));
}

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
  std::vector<Row> rows;
  std::set<int> told;
  for (const auto& tape : result.tapes) {
    if (!told.insert(tape.skip).second) continue;
    const double reading_m =
        readings::reading_for_m(tape.length_m, result.with->tape, result.with->held);
    rows.push_back(
        {tape_name(tape.from, tape.to), text_from_length(tape.length_m, shown.units),
         text_from_length(reading_m, shown.units),
         against_true(reading_m, tape.length_m, shown.units),
         words_of(readings::corrections_at(reading_m, result.with->tape, result.with->held),
                  shown.units)});
  }
  return table({{"and all like"},
                {"true length", Align::right},
                {"read", Align::right},
                {"on the tape"},
                {"because measuring would say"}},
               rows, shown.emphasis);
}

}  // namespace

std::string corrections_section(const check::Findings& findings, const Shown& shown) {
  std::vector<Row> rows;
  const auto& points = findings.network.points;
  for (std::size_t i = 0; i < findings.network.observations.size(); ++i) {
    const auto& seen = findings.network.observations[i];
    if (seen.is_angle()) continue;
    const std::string words = words_of(seen.corrections, shown.units);
    rows.push_back({tape_name(points[seen.from].label, points[seen.to].label),
                    findings.network.instruments[seen.instrument].name,
                    text_from_length(seen.read, shown.units),
                    text_from_length(seen.corrected, shown.units), words.empty() ? "none" : words});
  }
  return '\n' + heading("Corrections, each added to the reading or taken off it", shown.emphasis) +
         table({{"pull"},
                {"with"},
                {"read", Align::right},
                {"corrected", Align::right},
                {"corrections"}},
               rows, shown.emphasis);
}

std::string on_tape_section(const results::LayoutResult& result, const Shown& shown) {
  if (!result.with) return "";
  return '\n' + heading("What to read on " + result.with->words, shown.emphasis) +
         lengths_on_tape(result, shown) + '\n' + swings_on_tape(result, shown) +
         paragraph(
             "Read so, the stake stands at the true distance: setting out turns the signs of "
             "measuring about.");
}

}  // namespace stakewright::cli

#include <fmt/format.h>

#include "carry_sections.hpp"

namespace stakewright::cli {
namespace {

/// Whose corners the rest of the report is worked over.
std::string over_words(const results::CarryResult& result) {
  switch (result.cases[result.shown].way) {
    case roof::Way::leave:
      return "Over the corners as they were found:";
    case roof::Way::with_play:
      return "With the posts set off their footings' centers:";
    case roof::Way::after_moves:
      return "Once the moves are made:";
  }
  return {};
}

bool has_found(const roof::Carry& carry) { return !carry.joints.empty(); }

std::string opening(const job::Job& job, const results::CarryResult& result, const Shown& shown) {
  std::string text = fmt::format("The peak stands {} above the plate.",
                                 base::text_from_length(result.carry().apex.height_m, shown.units));
  const std::string decide = conclusion(job, result, shown.units);
  if (!decide.empty()) text += ' ' + decide;
  return paragraph(text);
}

/// What was found against the pattern.
std::string found_sections(const job::Job& job, const results::CarryResult& result,
                           const Shown& shown) {
  const roof::Carry& carry = result.carry();
  std::string text = '\n' + ways_section(result, shown);
  text += play_section(job, result, shown);
  std::string words = over_words(result) + ' ' + pieces_words(carry, job.tolerance, shown.units);
  const std::string eave = eave_words(job.roof, carry, shown.units);
  if (!eave.empty()) words += ' ' + eave;
  text += '\n' + paragraph(words);
  text += own_pieces_section(carry, shown);
  text += own_cuts_section(carry, shown);
  text += joints_section(carry, shown);
  return text;
}

}  // namespace

std::string carry_report(const job::Job& job, const results::CarryResult& result, Detail detail,
                         const Shown& shown) {
  const roof::Carry& carry = result.carry();
  std::string text = heading(job.title, shown.emphasis) + '\n' + opening(job, result, shown);
  if (has_found(carry)) text += found_sections(job, result, shown);
  text += '\n' + patterns_section(result.planned, shown);
  text += paragraph(seat_words(result.planned, shown.units));
  text += '\n' + settings_section(result.planned, shown);
  if (detail == Detail::all) text += full_lists(carry, job.tolerance, shown);
  text += '\n' + paragraph(need_words(result.need, shown.units));
  text += '\n' + paragraph(
                     "Sizes, spans, bracing and fixings follow the local code and a licensed "
                     "designer. A roof frame needs bracing, and the crew fall protection.");
  return text;
}

}  // namespace stakewright::cli

// What a shift of one corner does to the pieces near it, and how true the corners must stand.
#include <fmt/format.h>

#include <cmath>

#include "carry_sections.hpp"
#include "stakewright/base/angle.hpp"
#include "words.hpp"

namespace stakewright::cli {
namespace {

using base::text_from_small_length;

std::string longer(double length_m, base::Units units) {
  return directed(length_m, kLonger, units, Step::fine);
}

std::string lines_table(const results::Shift& shift, const Shown& shown) {
  const std::string nothing = text_from_small_length(0.0, shown.units);
  std::vector<PlacedRow> placed;
  for (const auto& answer : shift.answers) {
    if (answer.cut) continue;
    const std::string outward = longer(answer.outward * shift.shift_m, shown.units);
    const std::string sideways = longer(answer.sideways * shift.shift_m, shown.units);
    if (outward == nothing && sideways == nothing) continue;
    placed.push_back({std::string(roof::name_of(answer.part)), answer.at, {outward, sideways}});
  }
  return table({{"part"}, {"at"}, {"outward", Align::right}, {"clockwise", Align::right}},
               gathered(placed), shown.emphasis);
}

std::string cuts_table(const results::Shift& shift, const Shown& shown) {
  const std::string nothing = base::text_from_angle(0.0);
  std::vector<PlacedRow> placed;
  for (const auto& answer : shift.answers) {
    if (!answer.cut) continue;
    const double outward = answer.outward * shift.shift_m;
    const double sideways = answer.sideways * shift.shift_m;
    const auto opens = [&](double angle_rad) {
      return text_from_small_length(std::abs(angle_rad) * answer.lever_m, shown.units);
    };
    if (angle_difference(outward) == nothing && angle_difference(sideways) == nothing) continue;
    placed.push_back(
        {fmt::format("{} {}", roof::name_of(answer.part), roof::name_of(*answer.cut)),
         answer.at,
         {angle_difference(outward), opens(outward), angle_difference(sideways), opens(sideways)}});
  }
  return table({{"cut"},
                {"at"},
                {"outward", Align::right},
                {"off at the joint", Align::right},
                {"clockwise", Align::right},
                {"off at the joint", Align::right}},
               gathered(placed), shown.emphasis);
}

}  // namespace

std::string need_words(const roof::CornerNeed& need, base::Units units) {
  // Finer than a tape is read, for it says that no tape is fine enough.
  constexpr int kPerInch = 64;
  const auto text = [units](double length_m) {
    return units == base::Units::feet_inches ? base::text_from_length(length_m, units, kPerInch)
                                             : text_from_small_length(length_m, units);
  };
  return fmt::format(
      "For every piece to come off the pattern, all corners must stand within {} of their true "
      "places; with all others true, one within {}. What fails first is the {} of a {}.",
      text(need.together_m), text(need.alone_m), need.cut ? roof::name_of(*need.cut) : "length",
      roof::name_of(need.part));
}

std::string sensitivity_report(const job::Job& job, const results::CarryResult& result,
                               const Shown& shown) {
  const results::Shift& shift = *result.shift;
  const std::string amount = text_from_small_length(shift.shift_m, shown.units);
  std::string text = heading(job.title, shown.emphasis) + '\n';
  text += paragraph(fmt::format(
      "Corner {} stands {} outward, or {} clockwise, of its place and all others stand "
      "true: so much longer or shorter than the pattern is each piece near it. Inward "
      "and counterclockwise do the opposite. The plan is regular, so any other corner does "
      "the same to the pieces near it.",
      shift.corner, amount, amount));
  text += '\n' + heading("Lengths", shown.emphasis) + lines_table(shift, shown);
  text += '\n' + heading("Cuts, and what that leaves off at the joint", shown.emphasis) +
          cuts_table(shift, shown);
  text += '\n' + paragraph(need_words(result.need, shown.units));
  return text;
}

}  // namespace stakewright::cli

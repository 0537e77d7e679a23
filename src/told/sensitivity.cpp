// What a shift of one corner does to the pieces near it, and how true the corners must stand.
#include <cmath>

#include "carry_sections.hpp"
#include "stakewright/told/carry.hpp"

namespace stakewright::told {
namespace {

using base::Angle;
using base::Directed;
using base::Fact;
using base::Name;
using base::Way;

Table lines_table(const results::Shift& shift, const wording::Voice& voice) {
  const auto longer = [](double length_m) { return Directed{Way::longer, fine(length_m)}; };
  std::vector<PlacedRow> placed;
  for (const roof::Answer& answer : shift.answers) {
    if (answer.cut) continue;
    const Directed outward = longer(answer.outward * shift.shift_m);
    const Directed sideways = longer(answer.sideways * shift.shift_m);
    if (told_alike(outward, longer(0.0), voice) && told_alike(sideways, longer(0.0), voice))
      continue;
    placed.push_back({name(answer.part), answer.at, {outward, sideways}});
  }
  return {{Fact{"roof_tables.part"}, Fact{"roof_tables.at"}, Fact{"sensitivity.outward"},
           Fact{"sensitivity.clockwise"}},
          gathered(placed, voice)};
}

Table cuts_table(const results::Shift& shift, const wording::Voice& voice) {
  const auto more = [](double angle_rad) { return Directed{Way::more, Angle{angle_rad}}; };
  std::vector<PlacedRow> placed;
  for (const roof::Answer& answer : shift.answers) {
    if (!answer.cut) continue;
    const double outward = answer.outward * shift.shift_m;
    const double sideways = answer.sideways * shift.shift_m;
    const auto opens = [&](double angle_rad) { return fine(std::abs(angle_rad) * answer.lever_m); };
    if (told_alike(more(outward), more(0.0), voice) && told_alike(more(sideways), more(0.0), voice))
      continue;
    placed.push_back({name(answer.part, *answer.cut),
                      answer.at,
                      {more(outward), opens(outward), more(sideways), opens(sideways)}});
  }
  return {{Fact{"roof_tables.cut"}, Fact{"roof_tables.at"}, Fact{"sensitivity.outward"},
           Fact{"sensitivity.off_at_joint"}, Fact{"sensitivity.clockwise"},
           Fact{"sensitivity.off_at_joint"}},
          gathered(placed, voice)};
}

}  // namespace

Paragraph need(const roof::CornerNeed& need, base::Units units) {
  // Finer than a tape is read, for it says that no tape is fine enough.
  constexpr int kPerInch = 64;
  const auto within = [units](double length_m) -> base::Value {
    if (units != base::Units::feet_inches) return fine(length_m);
    return Name{base::text_from_length(length_m, units, kPerInch)};
  };
  return {{"carry.corners_within",
           {{"together", within(need.together_m)}, {"alone", within(need.alone_m)}}},
          need.cut ? Fact{"carry.cut_fails", {{"cut", name(*need.cut)}, {"part", name(need.part)}}}
                   : Fact{"carry.length_fails", {{"part", name(need.part)}}}};
}

Report sensitivity_report(const job::Job& job, const results::CarryResult& result,
                          const wording::Voice& voice) {
  const results::Shift& shift = *result.shift;
  return {job.title,
          {{{},
            {Paragraph{{"sensitivity.opening",
                        {{"corner", Name{shift.corner}}, {"size", fine(shift.shift_m)}}}}}},
           {Fact{"sensitivity.lengths"}, {lines_table(shift, voice)}},
           {Fact{"sensitivity.cuts"}, {cuts_table(shift, voice)}},
           {{}, {need(result.need, voice.units())}}}};
}

}  // namespace stakewright::told

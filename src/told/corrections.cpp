#include "stakewright/told/corrections.hpp"

#include "words.hpp"

namespace stakewright::told {
namespace {

using base::Fact;
using base::Id;
using base::Length;
using base::Name;

/// Why a correction is made, by its sign.
Fact reason(const readings::Correction& correction) {
  const bool added = correction.amount_m > 0.0;
  switch (correction.cause) {
    case readings::Cause::burned:
      return {"corrections.burned_mark"};
    case readings::Cause::standardization:
      return {added ? Id("corrections.tape_long") : Id("corrections.tape_short")};
    case readings::Cause::temperature:
      return {added ? Id("corrections.tape_warm") : Id("corrections.tape_cold")};
    case readings::Cause::pull:
      return {added ? Id("corrections.pulled_hard") : Id("corrections.pulled_slack")};
    case readings::Cause::sag:
      return {"corrections.tape_hangs"};
    case readings::Cause::slope:
      break;
  }
  return {"corrections.on_slope"};
}

}  // namespace

base::Value corrections_made(const std::vector<readings::Correction>& corrections) {
  base::Value all = base::Nothing{};
  for (const readings::Correction& correction : corrections) {
    Fact made{"corrections.made",
              {{"reason", reason(correction)},
               {"amount",
                base::Directed{base::Way::added, Length{correction.amount_m, base::Step::fine}}}}};
    const bool first = std::holds_alternative<base::Nothing>(all);
    all = first ? made : Fact{"lists.clauses", {{"before", all}, {"next", std::move(made)}}};
  }
  return all;
}

Section corrections_section(const check::Findings& findings) {
  Table table{{Fact{"columns.pull"}, Fact{"columns.with"}, Fact{"columns.read"},
               Fact{"corrections.corrected"}, Fact{"corrections.corrections"}},
              {}};
  const auto& points = findings.network.points;
  for (std::size_t i = 0; i < findings.network.observations.size(); ++i) {
    const readings::Observation& seen = findings.network.observations[i];
    if (seen.is_angle()) continue;
    const auto& made = seen.corrections;
    table.rows.push_back(
        {pull(points[seen.from].label, points[seen.to].label),
         Name{findings.network.instruments[seen.instrument].name}, Length{seen.read},
         Length{seen.corrected},
         made.empty() ? base::Value(Fact{"corrections.none"}) : corrections_made(made)});
  }
  return {Fact{"corrections.heading"}, {std::move(table)}};
}

}  // namespace stakewright::told

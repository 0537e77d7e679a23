#include "stakewright/told/tapes.hpp"

#include "words.hpp"

namespace stakewright::told {
namespace {

using base::Fact;
using base::Length;
using base::Name;
using base::Step;
using base::Value;

/// A slip that must be larger than this to show shows nothing that a glance would not.
constexpr double kPlainToSee_m = 1.0;

Value caught(double size_m) {
  if (size_m <= kPlainToSee_m) return Length{size_m, Step::fine};
  return Fact{"tapes.nothing"};
}

Paragraph opening(const suspects::TapePlan& plan) {
  const base::Count count{plan.pulls.size()};
  if (plan.reached)
    return {{"tapes.enough", {{"count", count}, {"walk", Length{plan.walk_m, Step::whole}}}}};
  Paragraph said{{"tapes.not_reached", {{"count", count}}}};
  add(plan.misses, said);
  return said;
}

Table pulls_table(const suspects::TapePlan& plan) {
  Table table{{Fact{"tapes.hold_at"}, Fact{"tapes.read_at"}, Fact{"tapes.planned"},
               Fact{"tapes.caught_from"}, Fact{"tapes.named_from"}},
              {}};
  std::string hold;
  for (const suspects::PlannedPull& pull : plan.pulls) {
    table.rows.push_back({Name{pull.from == hold ? "" : pull.from}, Name{pull.to},
                          Length{pull.length_m}, caught(pull.smallest_catch_m),
                          caught(pull.smallest_named_m)});
    hold = pull.from;
  }
  return table;
}

Table corners_table(const suspects::TapePlan& plan) {
  Table table{{Fact{"tapes.corner"}, Fact{"tapes.called_out"}}, {}};
  for (const suspects::PlannedCorner& corner : plan.corners)
    table.rows.push_back({Name{corner.label}, caught(corner.smallest_shift_m)});
  return table;
}

}  // namespace

Report tape_plan_report(const job::Job& job, const suspects::TapePlan& plan) {
  return {job.title,
          {{{}, {opening(plan)}},
           {Fact{"tapes.pulls"}, {pulls_table(plan)}},
           {Fact{"tapes.corners"}, {corners_table(plan)}},
           {{}, {Paragraph{{"tapes.caution"}}}}}};
}

}  // namespace stakewright::told

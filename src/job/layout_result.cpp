#include "stakewright/job/results.hpp"

namespace stakewright::job {
namespace {

/// The tape that readings use when they name none: the job's own of that name before the built-in.
readings::Instrument default_tape(const Job& job) {
  const std::string name = readings::default_instrument(readings::Kind::tape);
  if (const auto* own = readings::instrument_named(job.instruments, name)) return *own;
  return *readings::instrument_named(readings::built_in_instruments(), name);
}

}  // namespace

LayoutResult layout_of(const Job& job) {
  const readings::Instrument tape = default_tape(job);
  LayoutResult result;
  result.stakes = layout::stakes(job.plan);
  result.stakes.push_back({layout::kCentreLabel, job.plan.centre});
  result.tapes = layout::check_tapes(job.plan);
  result.order =
      layout::staking_order(job.plan, {tape.constant_m, tape.per_length, tape.centring_m});
  result.radial = layout::radial(job.plan);
  result.lines = layout::lines(job.plan);
  result.strings = layout::strings(job.plan);
  result.clearances = layout::clearances(job.plan);
  // One list of remarks goes out with the layout.
  for (const std::string& remark : layout::string_remarks(job.plan))
    result.order.remarks.push_back(remark);
  return result;
}

}  // namespace stakewright::job

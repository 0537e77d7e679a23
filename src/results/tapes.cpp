#include "stakewright/results/tapes.hpp"

namespace stakewright::results {

readings::Instrument default_tape(const job::Job& job) {
  const std::string name = readings::default_instrument(readings::Kind::tape);
  if (const auto* own = readings::instrument_named(job.instruments, name)) return *own;
  return *readings::instrument_named(readings::built_in_instruments(), name);
}

suspects::TapePlanRequest usual_request(const job::Job& job) {
  constexpr double kInch_m = 0.0254;
  constexpr double kMetricSlip_m = 0.025;
  suspects::TapePlanRequest request;
  request.instrument = default_tape(job);
  request.tolerance = job.tolerance;
  request.slip_m = job.units == base::Units::feet_inches ? kInch_m : kMetricSlip_m;
  return request;
}

}  // namespace stakewright::results

#include "findings.hpp"

#include "stakewright/job/readings_file.hpp"

namespace stakewright::cli {

check::Findings findings_of(const job::Job& job, const Options& options, base::Units units) {
  check::Input input;
  input.plan = job.plan;
  input.tolerance = job.tolerance;
  input.staking = job.staking;
  input.units = units;
  input.instruments = job.instruments;
  input.readings = job::read_readings(options.readings, job);
  input.round = options.round;
  input.since = options.since;
  return check::check(input);
}

}  // namespace stakewright::cli

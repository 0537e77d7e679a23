#include "findings.hpp"

#include "stakewright/job/readings_file.hpp"

namespace stakewright::draw {

check::Findings findings_of(const Options& options, const job::Job& job, base::Units units) {
  check::Input input;
  input.plan = job.plan;
  input.tolerance = job.tolerance;
  input.staking = job.staking;
  input.units = units;
  input.instruments = job.instruments;
  input.readings = job::read_reading_rows(options.readings, job).readings;
  input.round = options.round;
  return check::check(input);
}

}  // namespace stakewright::draw

#include "findings.hpp"

#include "stakewright/job/readings_file.hpp"

namespace stakewright::cli {

check::Findings findings_of(const job::Job& job, const std::string& readings_path,
                            base::Units units) {
  check::Input input;
  input.plan = job.plan;
  input.tolerance = job.tolerance;
  input.staking = job.staking;
  input.units = units;
  input.instruments = job.instruments;
  input.readings = job::read_readings(readings_path, job);
  return check::check(input);
}

}  // namespace stakewright::cli

#include "stakewright/results/check_input.hpp"
#include "stakewright/job/job.hpp"

#include <utility>

namespace stakewright::results {

check::Input check_input(const job::Job& job, std::vector<readings::Reading> readings) {
  check::Input input;
  input.plan = job.plan;
  input.tolerance = job.tolerance;
  input.staking = job.staking;
  input.levels = job.levels;
  input.instruments = job.instruments;
  input.readings = std::move(readings);
  return input;
}

}  // namespace stakewright::results

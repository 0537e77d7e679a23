// The tape that a layout is set out with, as the options name it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "options.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/results/layout.hpp"

namespace stakewright::cli {

/// Nothing without `--with`.  Throws InputError, naming the option, for an instrument that is not
/// there or no tape, and for a temperature or a pull that is none.
std::optional<results::WithTape> with_tape(const Options& options, const job::Job& job);

}  // namespace stakewright::cli

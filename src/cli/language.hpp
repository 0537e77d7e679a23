// The language of the report: one for the whole run, as a terminal has one.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "options.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/readings/reading.hpp"

namespace stakewright::cli {

/// From here on the report speaks the language of the options.  Names of the job stay as they are.
/// Throws InputError for a language that there is not, or a phrase file that cannot be read.
void speak(const Options& options, const job::Job& job);

/// Names of rounds, set-ups and turning points, and notes, stay as they are too.
void keep_names(const std::vector<readings::Reading>& readings);

/// The text in the language spoken; English until `speak`.
std::string in_language(std::string_view english);

/// What to say of phrases that stayed English; empty when none did.
std::string untranslated_remark();

}  // namespace stakewright::cli

// The language of the report: one for the whole run, as a terminal has one.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "options.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/readings/reading.hpp"
#include "stakewright/wording/voice.hpp"

namespace stakewright::cli {

/// Reads the job; from here on the report speaks the language of the options, and names of the job
/// stay as they are.
/// Throws InputError as `job::read_job`, for a language that there is not, and for a phrase file
/// that cannot be read.
job::Job job_of(const Options& options);

/// In the language and the units of the options; without those in English and the job's units.
/// Throws InputError as `wording::chosen`.
wording::Voice voice_of(const Options& options, const job::Job& job);

/// The voice of JSON, which is the same in every language: English, in the job's own units.
wording::Voice json_voice_of(const job::Job& job);

/// Names of rounds, set-ups and turning points, and notes, stay as they are too.
void keep_names(const std::vector<readings::Reading>& readings);

/// The text in the language spoken; English until `speak`.
std::string in_language(std::string_view english);
std::vector<std::string> in_language(const std::vector<std::string>& english);

/// What to say of phrases that stayed English; empty when none did.
std::string untranslated_remark();

}  // namespace stakewright::cli

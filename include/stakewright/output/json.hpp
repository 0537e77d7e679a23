// Results as one JSON object each (meters and radians; keys in docs/results.md).
#pragma once

#include <string>

namespace stakewright::check {
struct Findings;
}
namespace stakewright::job {
struct Job;
}
namespace stakewright::results {
struct CarryResult;
struct LayoutResult;
}  // namespace stakewright::results
namespace stakewright::suspects {
struct TapePlan;
}
namespace stakewright::wording {
class Voice;
}

namespace stakewright::output {

/// `voice` tells the sentences: in the units of the job, for units shown change no value.
std::string layout_json(const job::Job& job, const results::LayoutResult& result);
std::string check_json(const job::Job& job, const check::Findings& findings,
                       const wording::Voice& voice);
/// The tape plan of a job.
std::string tapes_json(const job::Job& job, const suspects::TapePlan& plan,
                       const wording::Voice& voice);
/// The next tapes after some readings.
std::string next_tapes_json(const job::Job& job, const check::Findings& findings,
                            const wording::Voice& voice);
std::string carry_json(const job::Job& job, const results::CarryResult& result,
                       const wording::Voice& voice);

/// For a command that wrote `file` and has no figures of its own to tell.
std::string written_json(const std::string& command, const std::string& title,
                         const std::string& file);

}  // namespace stakewright::output

// What the numbers may mean, told; and which pulls would tell.
#pragma once

#include <vector>

#include "stakewright/check/check.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/told/report.hpp"

namespace stakewright::told {

/// A set of causes as one sentence: "The tape B–D is misread: it reads about 1" too long (a whole
/// inch); and stake E stands about 2" outward of its place."  Of none: that nothing is wrong.
base::Fact explanation(const adjustment::Network& network,
                       const std::vector<suspects::Cause>& causes);

/// What a cause's slip looks like: "a whole foot", "the tape was pulled to a wrong stake: A–D or
/// C–F".  The cause has one.
base::Fact slip(const adjustment::Network& network, const suspects::Cause& cause);

/// What a pull tells from what: "tells a misread B–D from stake D standing 1" outward".
base::Fact why(const check::Findings& findings, const suspects::NextTape& next);

/// All explanations, likeliest first, and last what is left for all others.
Section suspects_section(const check::Findings& findings);

/// Which pull is worth making next.  Nothing when none is.
Paragraph next_pull(const check::Findings& findings);

/// The pulls worth making, best first, each with its why.
Section next_pulls_section(const check::Findings& findings);

/// What is asked for by `tapes` after some readings: pulls that fix what is loose, then those that
/// tell explanations apart, or why there is none.
Report next_tapes_report(const job::Job& job, const check::Findings& findings);

}  // namespace stakewright::told

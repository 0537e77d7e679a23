// Sections of the carry's reports.  Each comes with its heading, or is empty where it has nothing
// to tell.
#pragma once

#include <string>
#include <vector>

#include "gathering.hpp"
#include "reports.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/results/carry.hpp"

namespace stakewright::cli {

/// Every part, kind after kind, and within a kind as the roof has them.
std::vector<roof::Part> by_kind(const roof::Carry& carry);

/// "hip tail bevel".
std::string name_of_cut(const roof::Cut& cut);

/// The angle of the piece to be cut.
double angle_to_cut_rad(const roof::Cut& cut);

/// A framing square's two arms: so much on one for 12 in, or 250 mm, on the other.
/// Above one to one the arms change over, so that both figures stay on the square.
std::string square_words(double figure, base::Units units);

/// `0.12° more`; nothing but the figure where it rounds to none.
std::string angle_difference(double difference_rad);

/// Two small lengths: `1-1/16" longer, give or take 1/8"`.
std::string give_or_take(const std::string& length, double uncertainty_m, base::Units units);

/// "left as found", "posts in their play", "after the moves".
std::string name_of_way(roof::Way way);

// What the pattern is: carry_patterns.cpp.

/// One row for pieces cut alike: line, shortening, tail, overall.
std::string patterns_section(const roof::Carry& planned, const Shown& shown);
/// Heel, notch and drop.
std::string seat_words(const roof::Carry& planned, base::Units units);
/// Framing square and saw for every cut of the pattern.
std::string settings_section(const roof::Carry& planned, const Shown& shown);
/// One row for cuts made alike, as `settings_section` has them.
std::string settings_table(const std::vector<roof::Cut>& cuts, Rows which, const Shown& shown);

// Which way to go on: what_if_report.cpp.

/// The sentence that a foreman decides by; empty without cases.
std::string conclusion(const job::Job& job, const results::CarryResult& result, base::Units units);
/// The ways side by side.
std::string ways_section(const results::CarryResult& result, const Shown& shown);
/// How the posts stand off, where their play is used.
std::string play_section(const job::Job& job, const results::CarryResult& result,
                         const Shown& shown);

// What differs from the pattern: own_pieces_report.cpp.

/// How many pieces come off the pattern, are off, or may be off.
std::string pieces_words(const roof::Carry& carry, const base::Tolerance& tolerance,
                         base::Units units);
/// Pieces and cuts that are off by more than the part tolerance.
std::string own_pieces_section(const roof::Carry& carry, const Shown& shown);
std::string own_cuts_section(const roof::Carry& carry, const Shown& shown);
/// The worst joint of each kind that may not close when every piece is cut to the pattern.
std::string joints_section(const roof::Carry& carry, const Shown& shown);
/// The eave's changed overhang, or its steps.
std::string eave_words(const roof::Spec& spec, const roof::Carry& carry, base::Units units);

// Everything, piece by piece: carry_lists.cpp.
std::string full_lists(const roof::Carry& carry, const base::Tolerance& tolerance,
                       const Shown& shown);

// What one corner does: sensitivity_report.cpp.

/// How true the corners must stand.
std::string need_words(const roof::CornerNeed& need, base::Units units);

}  // namespace stakewright::cli

// Sections of the carry's reports.
#pragma once

#include <vector>

#include "gathered.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/results/carry.hpp"
#include "stakewright/told/report.hpp"
#include "words.hpp"

namespace stakewright::told {

// What things are called: roof_words.cpp.

base::Fact name(roof::PartKind kind);
base::Fact name(roof::CutName cut);
base::Fact name(roof::JointName joint);
/// "left as found", "posts in their play", "after the moves".
base::Fact name(roof::Way way);
/// "hip tail bevel".
base::Fact name(roof::PartKind part, roof::CutName cut);

/// An error or what is left open: a step finer than a tape is read.
inline base::Length fine(double length_m) { return {length_m, base::Step::fine}; }

/// A dash where there is no such length.
inline base::Value length_or_dash(double length_m) {
  return length_m == 0.0 ? dash() : base::Length{length_m};
}

/// A size of lumber: to 1/32 in, or as the tape shows it.
inline base::Length lumber_size(double length_m, const wording::Voice& voice) {
  const bool inches = voice.units() == base::Units::feet_inches;
  return {length_m, inches ? base::Step::fine : base::Step::tape};
}

/// Whether two figures come out as the same, once they are rounded.
template <typename Size>
bool told_alike(Size one, Size other, const wording::Voice& voice) {
  return voice.text(one) == voice.text(other);
}

/// 3 of 48.
template <typename Number>
base::Fact so_many_of(Number some, Number all) {
  const auto count = [](Number n) { return base::Count{static_cast<std::size_t>(n)}; };
  return {"carry.so_many_of", {{"some", count(some)}, {"all", count(all)}}};
}

// What the pattern is: carry.cpp.

/// Every part, kind after kind, and within a kind as the roof has them.
std::vector<roof::Part> by_kind(const roof::Carry& carry);
/// Framing square and saw: one row for cuts made alike.
Table settings_table(const std::vector<roof::Cut>& cuts, Rows which, const wording::Voice& voice);

// Which way to go on: ways.cpp.

/// What a foreman decides by; empty without cases.
Paragraph conclusion(const job::Job& job, const results::CarryResult& result);
/// The ways side by side, and how the posts stand off, where their play is used.
std::vector<Section> ways_sections(const job::Job& job, const results::CarryResult& result);

// What differs from the pattern: own_pieces.cpp.

/// What was found against the pattern: `over` says whose corners it is worked over.
std::vector<Section> found_sections(const job::Job& job, const roof::Carry& carry, base::Fact over,
                                    const wording::Voice& voice);

// Everything, piece by piece: carry_lists.cpp.
std::vector<Section> full_lists(const roof::Carry& carry, const base::Tolerance& tolerance,
                                const wording::Voice& voice);

// What one corner does: sensitivity.cpp.

/// How true the corners must stand.
Paragraph need(const roof::CornerNeed& need, base::Units units);

}  // namespace stakewright::told

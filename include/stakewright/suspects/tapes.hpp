// Which tapes to pull: the next one when it is unclear what is wrong, and a plan
// beforehand.
//
// Units: metres.  Formulas and sources: docs/methods/suspects.md, docs/methods/tape-plan.md.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "stakewright/adjustment/network.hpp"
#include "stakewright/suspects/suspects.hpp"

namespace stakewright::suspects {

/// A pull that is worth making, and why, in words.
struct NextTape {
  std::size_t from = 0;
  std::size_t to = 0;
  bool repeat = false;             ///< the pair has been read before
  bool another_tape = false;       ///< to be pulled with another tape than the suspected one
  double settles = 0.0;            ///< expected drop of uncertainty about the cause, in bits
  double pulls_until_clear = 0.0;  ///< pulls like these expected until one explanation has the
                                   ///< setting's confidence; the same for all that are listed
  std::string why;                 ///< "tells a misread B–D from stake D standing 1" outward"
};

/// The pulls that are expected to settle most, best first, at most `most`.
///
/// Explanations that are a listed one with more added count as that one.  Empty when one
/// explanation has the setting's confidence among those listed, when none is listed, and when no
/// pull would tell them apart.
std::vector<NextTape> next_tapes(const adjustment::Network& network, const Suspects& suspects,
                                 const Setting& setting, std::size_t most = 3);

}  // namespace stakewright::suspects

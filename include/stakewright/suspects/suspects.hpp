// Rival explanations of the same numbers, each with its chance: nothing wrong,
// a misread tape, a stake set wrong, an instrument off, labels changed over.
//
// It reasons from the plan, so it works when the tapes do not fix the shape.
// It says where to look; it never turns a verdict.  docs/methods/suspects.md.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "stakewright/adjustment/network.hpp"
#include "stakewright/base/fact.hpp"
#include "stakewright/base/tolerance.hpp"

namespace stakewright::suspects {

/// What kind of slip a size is.  What the two signs of it mean stands beside it, too long first.
enum class SlipKind {
  any,  ///< no kind of its own
  foot,
  inch,
  meter,
  decimeter,
  centimeter,
  burned,       ///< the mark held was not subtracted, or was subtracted though zero was held
  digits,       ///< two of them changed round
  eighth,       ///< a sixteenth taken for an eighth, or an eighth for a sixteenth
  tenths,       ///< inches taken for tenths of a foot, or tenths for inches
  wrong_stake,  ///< a tape pulled to another stake, or a circle pointed at one
  degree,
  ten_degrees,
  half_degree,  ///< the half degree of a circle cut to half degrees was left out, or counted twice
  ten_minutes,
  turned_back,  ///< from and to changed over, or the circle read the wrong way round
  half_turn     ///< read half a turn off, at the opposite vernier
};

/// Points by their index: a pull, or an angle turned at `at`.
struct Between {
  std::size_t from = 0;
  std::size_t to = 0;
  std::optional<std::size_t> at{};
};

/// What a slip looks like; the sign is that of the cause's size.
struct SlipLook {
  SlipKind kind = SlipKind::any;
  std::size_t times = 1;              ///< so many whole marks: 1 or 2
  std::vector<Between> instead_of{};  ///< wrong stake: what was read instead, where a few fit
};

struct Cause {
  enum class What { reading, stake, instrument_zero, instrument_scale, labels, rows, wrong_stake };
  What what = What::reading;
  std::size_t index = 0;  ///< of the observation, point or instrument; labels: the first point
  std::optional<std::size_t>
      other;  ///< labels, rows: the other of the two; wrong_stake: the stake pulled to or sighted
  std::optional<std::size_t> held;  ///< wrong_stake: the end of the reading that was right
  double size = 0.0;  ///< reading: slip (too long or too large positive), in meters, or radians for
                      ///< an angle; zero: meters; scale: m/m
  double size_sd = 0.0;
  double outward_m = 0.0;   ///< stake: how it stands off; for the center pin: forward ...
  double sideways_m = 0.0;  ///< ... and to the right
  double outward_sd_m = 0.0;
  double sideways_sd_m = 0.0;
  bool one_way_only = false;     ///< stake: its readings show its place in one direction only
  std::optional<SlipLook> slip;  ///< empty when no kind fits, or several
};

struct Explanation {
  double chance = 0.0;
  std::vector<Cause> causes;  ///< empty: nothing wrong; three at the most
  std::vector<std::size_t>
      alike;  ///< other entries of `ranked` that the numbers cannot tell from this one
};

struct Suspects {
  std::vector<Explanation> ranked;  ///< likeliest first; "nothing wrong" is always among them
  double rest = 1.0;                ///< chance of all that was not weighed or is not listed
  /// The lengths are not those of this plan, by far more than the causes explain; `ranked` then
  /// holds nothing.
  bool of_another_job = false;
  std::optional<base::Fact> remark;  ///< on the whole set
};

struct Setting {
  base::Staking staking;
  base::Tolerance tolerance;
  std::size_t most_listed = 8;  ///< entries besides "nothing wrong"
};

/// More readings are not weighed: every pair of a 48-sided job twice over is fewer, and the sums
/// grow with their square.
inline constexpr std::size_t kMostReadings = 2500;

/// Weighs the explanations of a network's observations.  Which slips are natural follows from what
/// each was written in; for an instrument's zero, from what most of its readings were.
///
/// The chances follow from the priors of docs/methods/suspects.md; in simulations drawn from them
/// a chance said above 90 % is right nine times in ten or more.  Stakes that no reading reaches are
/// not weighed.  Without readings, and with more than `kMostReadings`, `ranked` is empty and `rest`
/// is 1.
Suspects weigh(const adjustment::Network& network, const Setting& setting);

}  // namespace stakewright::suspects

// What sizes a slip in one reading comes in, and how often.
//
// The table of kinds and shares stands in docs/methods/suspects.md.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "stakewright/adjustment/network.hpp"
#include "stakewright/suspects/suspects.hpp"

namespace stakewright::suspects {

/// Sizes are meters, or radians for an angle.  One part of a mixture: a cause's size is N(mean,
/// sd²) with this share. A stake's two components share one sd; a pair of rows changed over has sd
/// 0 and two means.
struct Component {
  std::array<double, 2> mean{};
  double sd = 0.0;
  double log_share = 0.0;
  SlipKind kind = SlipKind::any;
};

/// The mixture of a reading's slip; shares add to one.
std::vector<Component> slip_sizes(const adjustment::Network& network, std::size_t reading,
                                  const Setting& setting);

/// A mixture of zero-mean normals and of exact marks either way, for an instrument's zero.
std::vector<Component> zero_sizes(bool in_feet_inches);
std::vector<Component> scale_sizes();

/// How far a stake set wrong stands off, each way.
std::vector<Component> stake_sizes();

/// A pull from `held` to `pulled_to` instead of the pair written down; of an angle, `held` is the
/// sight that was right and `pulled_to` the stake that the other was taken on.
struct OtherPull {
  std::size_t held = 0;
  std::size_t pulled_to = 0;
  double slip = 0.0;  ///< by how much the reading is then too long, or too large
};

/// Every pull with one end of the reading right, or every angle with one sight right, and the other
/// at another corner or the center pin, that is not the reading's own.
std::vector<OtherPull> other_pulls(const adjustment::Network& network, std::size_t reading);

}  // namespace stakewright::suspects

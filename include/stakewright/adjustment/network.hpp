// The points and observations that are adjusted together.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "stakewright/base/fact.hpp"
#include "stakewright/base/point.hpp"
#include "stakewright/layout/plan.hpp"
#include "stakewright/readings/observation.hpp"

namespace stakewright::adjustment {

enum class Role { corner, center, pin };

struct NetworkPoint {
  std::string label;
  Role role = Role::corner;
  base::Point planned;  ///< where the job wants it
  bool known = false;   ///< a site pin: its place is not asked
};

/// Points: the corners in label order, then the center pin O, then the site pins.
/// A point that no observation reaches stays in the list and is reported as not measured
/// (for a corner) or left out of the sums (the center pin, a site pin).
struct Network {
  std::vector<NetworkPoint> points;
  std::size_t corner_count = 0;
  std::vector<readings::Observation> observations;
  std::vector<readings::Instrument> instruments;
  /// Corners whose mean place and turn give the datum when too few pins are tied in:
  /// the held stakes, or all corners when none are held.  Never distorts the shape.
  std::vector<std::size_t> datum;
};

/// Throws std::logic_error where an index points at nothing, or an observation's figures are no
/// numbers: the sums would read past the end, or never end.
void demand_sound(const Network& network);

/// The network of a plan and its readings.  Throws InputError as readings::observations.
Network network(const layout::Plan& plan, const std::vector<readings::Reading>& readings,
                const std::vector<readings::Instrument>& instruments);

/// Readings of the same points: a pair either way about, an angle between the same two.
bool same_points(const readings::Observation& a, const readings::Observation& b);

/// A message about a reading, by what it was read with.
struct ByKind {
  base::Id tape;
  base::Id laser;
  base::Id angle;
};

base::Id by_kind(const Network& network, std::size_t reading, ByKind ids);

/// The points that a reading joins, whichever of several readings of them it is.
base::ReadingName points_of(const Network& network, std::size_t reading);

/// The same, and which of several it is.
base::ReadingName name_of(const Network& network, std::size_t reading);

}  // namespace stakewright::adjustment

// Which set-ups and points hang together by rod readings.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "stakewright/levels/rods.hpp"

namespace stakewright::levels {

/// Set-ups and points that readings tie together.
struct Group {
  std::vector<std::size_t> set_ups;
  std::vector<std::size_t> points;
  std::size_t corners = 0;
  std::size_t readings = 0;
};

/// Every group with a reading, in the order of their first one.
std::vector<Group> groups(const Rods& rods);

/// The group whose heights are told: see `heights`.  Nothing when no corner was leveled.
std::optional<std::size_t> leading_group(const Rods& rods, const std::vector<Group>& groups);

}  // namespace stakewright::levels

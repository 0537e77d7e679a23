#include "walking.hpp"

#include <algorithm>

namespace stakewright::suspects {
namespace {

using Pull = std::pair<std::size_t, std::size_t>;

struct Group {
  std::size_t hold = 0;
  std::vector<std::size_t> ends;  ///< by bearing from the hold
};

/// Holds taken greedily: always the point with the most pulls left.
std::vector<Group> groups_of(const std::vector<base::Point>& points, std::vector<Pull> left) {
  std::vector<Group> groups;
  while (!left.empty()) {
    std::vector<std::size_t> count(points.size(), 0);
    for (const Pull& pull : left) {
      ++count[pull.first];
      ++count[pull.second];
    }
    Group group;
    group.hold =
        static_cast<std::size_t>(std::max_element(count.begin(), count.end()) - count.begin());
    const auto here = std::stable_partition(left.begin(), left.end(), [&](const Pull& pull) {
      return pull.first != group.hold && pull.second != group.hold;
    });
    for (auto pull = here; pull != left.end(); ++pull)
      group.ends.push_back(pull->first == group.hold ? pull->second : pull->first);
    left.erase(here, left.end());
    std::stable_sort(group.ends.begin(), group.ends.end());
    groups.push_back(std::move(group));
  }
  return groups;
}

/// The pulls of the groups in this order.  The far end starts each group at whichever of its two
/// outer ends is nearer.
Walk walked(const std::vector<base::Point>& points, const std::vector<Group>& groups) {
  Walk walk;
  for (const Group& group : groups) {
    std::vector<std::size_t> ends = group.ends;
    if (!walk.pulls.empty()) {
      const base::Point at = points[walk.pulls.back().second];
      if (base::distance_m(at, points[ends.back()]) < base::distance_m(at, points[ends.front()]))
        std::reverse(ends.begin(), ends.end());
      walk.walk_m += base::distance_m(points[walk.pulls.back().first], points[group.hold]);
    }
    for (const std::size_t end : ends) {
      if (!walk.pulls.empty())
        walk.walk_m += base::distance_m(points[walk.pulls.back().second], points[end]);
      walk.pulls.emplace_back(group.hold, end);
    }
  }
  return walk;
}

}  // namespace

Walk walking_order(const std::vector<base::Point>& points, const std::vector<Pull>& pulls) {
  std::vector<Group> groups = groups_of(points, pulls);
  Walk best = walked(points, groups);
  bool better = true;
  while (better) {
    better = false;
    // Turning a run of groups about, as long as it shortens the walk.
    for (std::size_t a = 0; a < groups.size(); ++a)
      for (std::size_t b = a + 2; b <= groups.size(); ++b) {
        const auto from = groups.begin() + static_cast<std::ptrdiff_t>(a);
        const auto to = groups.begin() + static_cast<std::ptrdiff_t>(b);
        std::reverse(from, to);
        Walk walk = walked(points, groups);
        constexpr double kWorthwhile_m = 1e-6;  // beyond rounding, or the search never ends
        if (walk.walk_m < best.walk_m - kWorthwhile_m) {
          best = std::move(walk);
          better = true;
        } else {
          std::reverse(from, to);
        }
      }
  }
  return best;
}

}  // namespace stakewright::suspects

#include "ties.hpp"

#include <algorithm>
#include <numeric>
#include <tuple>

namespace stakewright::levels {
namespace {

/// Merged sets of numbers.
class Merged {
 public:
  explicit Merged(std::size_t count) : parent_(count) {
    std::iota(parent_.begin(), parent_.end(), std::size_t{0});
  }

  std::size_t find(std::size_t i) {
    while (parent_[i] != i) i = parent_[i] = parent_[parent_[i]];
    return i;
  }

  void merge(std::size_t i, std::size_t j) { parent_[find(i)] = find(j); }

 private:
  std::vector<std::size_t> parent_;
};

void add_once(std::vector<std::size_t>& list, std::size_t item) {
  if (std::find(list.begin(), list.end(), item) == list.end()) list.push_back(item);
}

}  // namespace

std::vector<Group> groups(const Rods& rods) {
  const std::size_t points = rods.points.size();
  Merged merged(points + rods.set_ups.size());
  for (const RodReading& rod : rods.readings) merged.merge(rod.point, points + rod.set_up);
  std::vector<Group> result;
  std::vector<std::size_t> roots;
  for (const RodReading& rod : rods.readings) {
    const std::size_t root = merged.find(rod.point);
    const auto at =
        static_cast<std::size_t>(std::find(roots.begin(), roots.end(), root) - roots.begin());
    if (at == roots.size()) {
      roots.push_back(root);
      result.emplace_back();
    }
    add_once(result[at].set_ups, rod.set_up);
    add_once(result[at].points, rod.point);
    ++result[at].readings;
  }
  for (Group& group : result)
    group.corners = static_cast<std::size_t>(
        std::count_if(group.points.begin(), group.points.end(),
                      [&](std::size_t point) { return point < rods.corner_count; }));
  return result;
}

std::optional<std::size_t> leading_group(const Rods& rods, const std::vector<Group>& groups) {
  std::optional<std::size_t> leading;
  const auto worth = [&](const Group& group) {
    const bool marked = rods.bench_mark && std::find(group.points.begin(), group.points.end(),
                                                     *rods.bench_mark) != group.points.end();
    return std::tuple(marked, group.corners, group.readings);
  };
  for (std::size_t g = 0; g < groups.size(); ++g) {
    if (groups[g].corners == 0) continue;
    if (!leading || worth(groups[g]) > worth(groups[*leading])) leading = g;
  }
  return leading;
}

}  // namespace stakewright::levels

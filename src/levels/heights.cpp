#include "stakewright/levels/heights.hpp"

#include <algorithm>
#include <numeric>
#include <optional>
#include <tuple>

#include "stakewright/algebra/algebra.hpp"

namespace stakewright::levels {
namespace {

// Which set-ups and points hang together by rod readings.

/// Set-ups and points that readings tie together.
struct Group {
  std::vector<std::size_t> set_ups;
  std::vector<std::size_t> points;
  std::size_t corners = 0;
  std::size_t readings = 0;
};

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

/// Every group with a reading, in the order of their first one.
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

/// The group whose heights are told: see `heights`.  Nothing when no corner was leveled.
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

// The sums.

constexpr std::size_t kNoColumn = static_cast<std::size_t>(-1);

/// Columns of the unknowns: every set-up, then every point but one of each group, which stands
/// at 0 for the sums.
struct Columns {
  std::vector<std::size_t> set_up;
  std::vector<std::size_t> point;
  std::size_t count = 0;
};

Columns columns(const Rods& rods, const std::vector<Group>& groups) {
  Columns result;
  result.set_up.assign(rods.set_ups.size(), kNoColumn);
  result.point.assign(rods.points.size(), kNoColumn);
  for (const Group& group : groups) {
    for (const std::size_t set_up : group.set_ups) result.set_up[set_up] = result.count++;
    for (std::size_t i = 1; i < group.points.size(); ++i)
      result.point[group.points[i]] = result.count++;
  }
  return result;
}

adjustment::LinearReadings model(const Rods& rods, const Columns& columns) {
  adjustment::LinearReadings result;
  result.design = base::Matrix(rods.readings.size(), columns.count);
  for (std::size_t r = 0; r < rods.readings.size(); ++r) {
    const RodReading& rod = rods.readings[r];
    result.design(r, columns.set_up[rod.set_up]) = 1.0;
    if (columns.point[rod.point] != kNoColumn) result.design(r, columns.point[rod.point]) = -1.0;
    result.values_m.push_back(rod.read_m);
    result.sd_m.push_back(rod.sd_m);
  }
  return result;
}

/// What stands still: weights, one a point, whose weighed mean height is given.
struct Datum {
  std::vector<double> weight;
  double height_m = 0.0;
};

Datum datum(const Rods& rods, const Group& group, const Wanted& wanted, bool on_bench_mark) {
  Datum result;
  result.weight.assign(rods.points.size(), 0.0);
  if (on_bench_mark) {
    result.weight[*rods.bench_mark] = 1.0;
    result.height_m = wanted.bench_mark_height_m;
    return result;
  }
  for (const std::size_t point : group.points)
    if (point < rods.corner_count) result.weight[point] = 1.0 / static_cast<double>(group.corners);
  return result;
}

/// Heights and covariance as the sums gave them, for the points of one group.
struct Raw {
  const Columns& columns;
  const adjustment::LinearAdjustment& sums;

  [[nodiscard]] double height_m(std::size_t point) const {
    return columns.point[point] == kNoColumn ? 0.0 : sums.unknowns[columns.point[point]];
  }
  [[nodiscard]] double covariance(std::size_t p, std::size_t q) const {
    const std::size_t i = columns.point[p];
    const std::size_t j = columns.point[q];
    return i == kNoColumn || j == kNoColumn ? 0.0 : sums.covariance(i, j);
  }
};

/// Heights less the datum's weighed mean, and their covariance (S-transformation of a datum that is
/// one shift).
void refer_to_datum(const Raw& raw, const Group& group, const Datum& datum, Heights& result) {
  const std::vector<std::size_t>& points = group.points;
  const std::size_t count = points.size();
  base::Matrix covariance(count, count);
  base::Matrix shift(count, 1);
  base::Matrix weights(1, count);
  double mean_m = 0.0;
  for (std::size_t i = 0; i < count; ++i) {
    shift(i, 0) = 1.0;
    weights(0, i) = datum.weight[points[i]];
    mean_m += weights(0, i) * raw.height_m(points[i]);
    for (std::size_t j = 0; j < count; ++j) covariance(i, j) = raw.covariance(points[i], points[j]);
  }
  covariance = algebra::referred(covariance, shift, weights);
  const double shift_m = datum.height_m - mean_m;
  for (std::size_t i = 0; i < count; ++i) {
    result.known[points[i]] = true;
    result.height_m[points[i]] = raw.height_m(points[i]) + shift_m;
    for (std::size_t j = 0; j < count; ++j)
      result.covariance(points[i], points[j]) = covariance(i, j);
  }
  for (const std::size_t s : group.set_ups) {
    result.set_ups[s].tied = true;
    result.set_ups[s].height_m = raw.sums.unknowns[raw.columns.set_up[s]] + shift_m;
  }
}

Heights nothing_known(const Rods& rods) {
  Heights result;
  result.known.assign(rods.points.size(), false);
  result.height_m.assign(rods.points.size(), 0.0);
  result.covariance = base::Matrix(rods.points.size(), rods.points.size());
  result.set_ups.resize(rods.set_ups.size());
  result.sums.readings_out.resize(rods.readings.size());
  for (const RodReading& rod : rods.readings) ++result.set_ups[rod.set_up].rod_count;
  return result;
}

}  // namespace

adjustment::LinearReadings linear_readings(const Rods& rods) {
  return model(rods, columns(rods, groups(rods)));
}

Heights heights(const Rods& rods, const Wanted& wanted, const std::vector<std::size_t>& excluded) {
  Heights result = nothing_known(rods);
  if (rods.readings.empty()) return result;
  const std::vector<Group> all = groups(rods);
  const Columns unknowns = columns(rods, all);
  auto sums = adjustment::adjust(model(rods, unknowns), excluded);
  if (!sums) return result;
  result.unknowns = static_cast<int>(unknowns.count);
  result.sums = std::move(*sums);
  const auto leading = leading_group(rods, all);
  for (std::size_t g = 0; g < all.size(); ++g)
    if (g != leading) result.apart.push_back(all[g].points);
  if (!leading) return result;
  const Group& group = all[*leading];
  result.on_bench_mark = rods.bench_mark && std::find(group.points.begin(), group.points.end(),
                                                      *rods.bench_mark) != group.points.end();
  refer_to_datum({unknowns, result.sums}, group, datum(rods, group, wanted, result.on_bench_mark),
                 result);
  return result;
}

}  // namespace stakewright::levels

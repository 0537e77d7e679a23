#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "catches.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/suspects/tapes.hpp"

namespace stakewright::suspects {
namespace {

// In which order to make the pulls, so that the two ends of the tape are carried little.

using Ends = std::pair<std::size_t, std::size_t>;  // hold, far end

struct Walk {
  std::vector<Ends> pulls;
  double walk_m = 0.0;  ///< both ends' paths from the first pull to the last, in straight lines
};

struct Group {
  std::size_t hold = 0;
  std::vector<std::size_t> ends;  ///< by bearing from the hold
};

/// Holds taken greedily: always the point with the most pulls left.
std::vector<Group> groups_of(const std::vector<base::Point>& points, std::vector<Ends> left) {
  std::vector<Group> groups;
  while (!left.empty()) {
    std::vector<std::size_t> count(points.size(), 0);
    for (const Ends& pull : left) {
      ++count[pull.first];
      ++count[pull.second];
    }
    Group group;
    group.hold =
        static_cast<std::size_t>(std::max_element(count.begin(), count.end()) - count.begin());
    const auto here = std::stable_partition(left.begin(), left.end(), [&](const Ends& pull) {
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

/// Groups the pulls by holds (few holds, each pull held at one of its two ends) and orders groups
/// and far ends.
Walk walking_order(const std::vector<base::Point>& points, const std::vector<Ends>& pulls) {
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

/// Shortfalls under this are rounding.
constexpr double kReached = 1e-9;

/// A corner less well known than this is not fixed by the pulls at all.
constexpr double kLoose_m = 0.1;

/// A pair is pulled no more often than this.
constexpr std::size_t kMostTimes = 2;

/// Turns of leaving out one pull and taking another in, for each number of pulls.
constexpr int kMostSwaps = 12;

/// How much more is asked of nothing: where the request cannot be reached, the plan is made for
/// the smallest of these multiples of slip and shift that can.
constexpr double kEasier[] = {1.0, 1.25, 1.5, 2.0, 3.0, 4.0, 6.0, 10.0};

std::vector<PairPull> all_pairs(const Catches& catches) {
  std::vector<PairPull> pairs;
  const std::size_t n = catches.corner_count();
  for (std::size_t from = 0; from < n; ++from)
    for (std::size_t to = from + 1; to <= n; ++to) pairs.push_back(catches.pull(from, to));
  return pairs;
}

std::size_t times(const Catches& catches, const PairPull& pair) {
  return static_cast<std::size_t>(std::count_if(
      catches.pulls().begin(), catches.pulls().end(),
      [&](const PairPull& pull) { return pull.from == pair.from && pull.to == pair.to; }));
}

bool reaches(const Catches& catches, const Targets& targets) {
  return catches.shortfall(targets) < kReached;
}

/// The pull whose leaving does least harm: shortfall first, then the least that it tells.
struct Leaving {
  std::size_t position = 0;
  double shortfall = 0.0;
};

Leaving best_to_leave(const Catches& catches, const Targets& targets) {
  Leaving best{0, std::numeric_limits<double>::infinity()};
  double best_share = -1.0;
  for (std::size_t i = 0; i < catches.pulls().size(); ++i) {
    Catches without = catches;
    without.remove(i);
    const double shortfall = without.shortfall(targets);
    const double share = catches.redundancy(i);
    const bool better = shortfall < best.shortfall - kReached ||
                        (shortfall < best.shortfall + kReached && share > best_share);
    if (!better) continue;
    best = {i, shortfall};
    best_share = share;
  }
  return best;
}

void leave_out_least(Catches& catches, std::size_t count) {
  for (std::size_t k = 0; k < count; ++k) {
    std::size_t most = 0;
    for (std::size_t i = 1; i < catches.pulls().size(); ++i)
      if (catches.redundancy(i) > catches.redundancy(most)) most = i;
    catches.remove(most);
  }
}

/// Leaves out the pulls that tell least, many at a time and then fewer, while the targets stay
/// reached.
void thin_out(Catches& catches, const Targets& targets, std::size_t at_least) {
  std::size_t step = catches.pulls().size() / 2;
  while (step > 0) {
    Catches without = catches;
    step = std::min(step, catches.pulls().size() - std::min(at_least, catches.pulls().size()));
    leave_out_least(without, step);
    if (step > 0 && reaches(without, targets))
      catches = std::move(without);
    else
      step /= 2;
  }
}

/// Adds the pair that leaves the least shortfall.
double add_best(Catches& catches, const std::vector<PairPull>& pairs, const Targets& targets) {
  const PairPull* best = nullptr;
  double least = std::numeric_limits<double>::infinity();
  for (const PairPull& pair : pairs) {
    if (times(catches, pair) >= kMostTimes) continue;
    Catches with = catches;
    with.add(pair);
    const double shortfall = with.shortfall(targets);
    if (shortfall < least) {
      least = shortfall;
      best = &pair;
    }
  }
  if (best != nullptr) catches.add(*best);
  return least;
}

/// Swaps pulls as long as that brings the set nearer to the targets.
void swap_pulls(Catches& catches, const std::vector<PairPull>& pairs, const Targets& targets) {
  double now = catches.shortfall(targets);
  for (int turn = 0; turn < kMostSwaps && now >= kReached; ++turn) {
    Catches next = catches;
    next.remove(best_to_leave(next, targets).position);
    const double shortfall = add_best(next, pairs, targets);
    if (shortfall > now - kReached) return;
    catches = std::move(next);
    now = shortfall;
  }
}

/// The shortest set the search finds that reaches the targets.
Catches shortest(Catches catches, const std::vector<PairPull>& pairs, const Targets& targets) {
  thin_out(catches, targets, 1);
  while (catches.pulls().size() > 1) {
    Catches fewer = catches;
    fewer.remove(best_to_leave(fewer, targets).position);
    swap_pulls(fewer, pairs, targets);
    if (!reaches(fewer, targets)) return catches;
    catches = std::move(fewer);
  }
  return catches;
}

Catches best_of_size(Catches catches, const std::vector<PairPull>& pairs, const Targets& targets,
                     std::size_t size) {
  thin_out(catches, targets, size);
  while (catches.pulls().size() > size) catches.remove(best_to_leave(catches, targets).position);
  while (catches.pulls().size() < size && times(catches, pairs.front()) < kMostTimes)
    add_best(catches, pairs, targets);
  swap_pulls(catches, pairs, targets);
  return catches;
}

Targets checked(const TapePlanRequest& request) {
  Targets targets{request.slip_m, request.shift_m, request.tolerance.corner_m,
                  request.tolerance.confidence};
  if (targets.shift_m == 0.0) targets.shift_m = 2.0 * targets.tolerance_m;
  if (!(targets.slip_m > 0.0))
    throw base::InputError(
        base::Fact{"errors.slip_to_catch", {{"slip", base::Length{targets.slip_m}}}});
  if (!(targets.shift_m > targets.tolerance_m))
    throw base::InputError(base::Fact{"errors.shift_to_call_out",
                                      {{"shift", base::Length{targets.shift_m}},
                                       {"tolerance", base::Length{targets.tolerance_m}}}});
  return targets;
}

Catches nothing_pulled(const layout::Plan& plan, const TapePlanRequest& request) {
  return {layout::corners_of(plan.polygon, plan), plan.center, request.instrument};
}

std::vector<std::string> labels_of(const layout::Plan& plan) {
  std::vector<std::string> labels = layout::corner_labels(plan.polygon.sides);
  labels.emplace_back(layout::kCenterLabel);
  return labels;
}

std::vector<base::Fact> misses_of(const TapePlan& plan, const Targets& targets) {
  base::Count uncaught;
  base::Count unnamed;
  for (const PlannedPull& pull : plan.pulls) {
    if (pull.smallest_catch_m > targets.slip_m)
      ++uncaught.value;
    else if (pull.smallest_named_m > targets.slip_m)
      ++unnamed.value;
  }
  std::vector<std::string> corners;
  for (const PlannedCorner& corner : plan.corners)
    if (corner.smallest_shift_m > targets.shift_m) corners.push_back(corner.label);
  std::vector<base::Fact> misses;
  if (uncaught.value > 0) misses.push_back({"tapes.slip_may_pass", {{"pulls", uncaught}}});
  if (unnamed.value > 0) misses.push_back({"tapes.slip_may_be_blamed", {{"pulls", unnamed}}});
  if (!corners.empty())
    misses.push_back(
        {"tapes.shift_may_pass", {{"corners", base::names(corners, base::List::Joint::listed)}}});
  return misses;
}

/// Figures of the set in its own order.
TapePlan figures(const Catches& catches, const layout::Plan& plan, const Targets& targets) {
  TapePlan result;
  const std::vector<std::string> labels = labels_of(plan);
  for (std::size_t i = 0; i < catches.pulls().size(); ++i) {
    const PairPull& pull = catches.pulls()[i];
    result.pulls.push_back({labels[pull.from], labels[pull.to], pull.length_m,
                            catches.smallest_catch_m(i), catches.smallest_named_m(i)});
  }
  const std::vector<double> sds = catches.worst_sds();
  for (std::size_t c = 0; c < sds.size(); ++c)
    result.corners.push_back({labels[c], sds[c] > kLoose_m ? std::numeric_limits<double>::infinity()
                                                           : smallest_shift_m(targets, sds[c])});
  result.reached = !result.pulls.empty() && reaches(catches, targets);
  result.misses = misses_of(result, targets);
  return result;
}

Catches reordered(const Catches& catches, const layout::Plan& plan, const TapePlanRequest& request,
                  double& walk_m) {
  std::vector<base::Point> points = layout::corners_of(plan.polygon, plan);
  points.push_back(plan.center);
  std::vector<Ends> pairs;
  for (const PairPull& pull : catches.pulls()) pairs.emplace_back(pull.from, pull.to);
  const Walk walk = walking_order(points, pairs);
  walk_m = walk.walk_m;
  Catches result = nothing_pulled(plan, request);
  for (const auto& [hold, end] : walk.pulls) result.add(result.pull(hold, end));
  return result;
}

}  // namespace

TapePlan tape_plan(const layout::Plan& plan, const TapePlanRequest& request) {
  const Targets asked = checked(request);
  const Catches nothing = nothing_pulled(plan, request);
  const std::vector<PairPull> pairs = all_pairs(nothing);
  Catches once = nothing;
  for (const PairPull& pair : pairs) once.add(pair);
  Catches twice = once;
  for (const PairPull& pair : pairs) twice.add(pair);
  Targets targets = asked;
  const Catches* start = nullptr;
  for (const double easier : kEasier) {
    targets.slip_m = easier * asked.slip_m;
    targets.shift_m = easier * asked.shift_m;
    start = reaches(once, targets) ? &once : &twice;
    if (reaches(*start, targets)) break;
  }
  Catches chosen = shortest(*start, pairs, targets);
  if (request.at_most > 0 && chosen.pulls().size() > request.at_most)
    chosen = best_of_size(std::move(chosen), pairs, asked, request.at_most);
  double walk_m = 0.0;
  TapePlan result = figures(reordered(chosen, plan, request, walk_m), plan, asked);
  result.walk_m = walk_m;
  return result;
}

TapePlan judged_pulls(const layout::Plan& plan, const TapePlanRequest& request,
                      const std::vector<layout::Tape>& pulls) {
  const Targets targets = checked(request);
  const std::vector<std::string> labels = labels_of(plan);
  const auto point = [&](const std::string& label) {
    const auto place = std::find(labels.begin(), labels.end(), label);
    if (place == labels.end())
      throw base::InputError(base::Fact{"errors.no_such_stake",
                                        {{"stake", base::Quoted{label}},
                                         {"first", base::Name{labels.front()}},
                                         {"last", base::Name{labels[labels.size() - 2]}},
                                         {"center", base::Name{labels.back()}}}});
    return static_cast<std::size_t>(place - labels.begin());
  };
  Catches catches = nothing_pulled(plan, request);
  for (const layout::Tape& tape : pulls) {
    if (tape.from == tape.to)
      throw base::InputError(
          base::Fact{"errors.pull_to_itself", {{"stake", base::Name{tape.from}}}});
    catches.add(catches.pull(point(tape.from), point(tape.to)));
  }
  return figures(catches, plan, targets);
}

}  // namespace stakewright::suspects

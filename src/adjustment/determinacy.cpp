#include "determinacy.hpp"

#include <algorithm>
#include <set>

#include "least_squares.hpp"
#include "stakewright/algebra/algebra.hpp"

namespace stakewright::adjustment {
namespace {

// Which points hold together, and which move against them, when the readings leave motions free.

/// A motion is called free when the readings see it less than this share as well as the motion
/// they see best.  A reading's error then comes out a thousand times larger as an error of place:
/// two tapes crossing flatter than about a twentieth of a degree, or 2 mm grown to 2 m.  Sound
/// figures of 48 corners stand well above it; an exactly free motion comes out near 1e-16.
constexpr double kWeakestMotion = 1e-3;

/// Below this share of the whole motion a point counts as standing still: far above the rounding of
/// an exactly free motion, far below any real one.  A nearly free motion leaks this many times the
/// share in which the readings see it into points that are firm.
constexpr double kStandingStill = 1e-6;
constexpr double kLeak = 5.0;

/// The free motions of a figure, and below which share of one a point counts as standing still.
struct FreeMotions {
  Eigen::MatrixXd motions;  ///< one a column, over the columns of places
  double still = kStandingStill;
};

FreeMotions free_motions(const Eigen::MatrixXd& design) {
  NullSpace null = null_space(design, kWeakestMotion);
  return {std::move(null.motions), std::max(kStandingStill, kLeak * null.seen)};
}

/// Points that keep their distances in every free motion.
struct RigidBody {
  std::size_t first = 0;  ///< two of its points, taken as at rest
  std::size_t second = 0;
  std::vector<bool> member;  ///< per network point
  std::size_t corners = 0;   ///< among the members
  std::size_t size = 0;      ///< members
};

using Pair = std::pair<std::size_t, std::size_t>;

Eigen::MatrixXd motion_of(std::size_t point, const Unknowns& unknowns,
                          const Eigen::MatrixXd& motions) {
  const Eigen::Index column = unknowns.point[point];
  if (column == kNotAsked) return Eigen::MatrixXd::Zero(2, motions.cols());
  return motions.middleRows(column, 2);
}

bool keep_their_distance(Pair pair, const Network& network, const Unknowns& unknowns,
                         const FreeMotions& freedom) {
  const base::Point arm = network.points[pair.second].planned - network.points[pair.first].planned;
  const double length_m = base::norm_m(arm);
  if (length_m < readings::kSamePlace_m) return false;
  const Eigen::RowVector2d direction(arm.x_m / length_m, arm.y_m / length_m);
  const Eigen::MatrixXd apart = motion_of(pair.second, unknowns, freedom.motions) -
                                motion_of(pair.first, unknowns, freedom.motions);
  return (direction * apart).norm() < freedom.still;
}

/// How far a point moves in each of `motions` when `body` is at rest: two rows, one column a
/// motion.
Eigen::MatrixXd movement_against(const RigidBody& body, std::size_t point, const Network& network,
                                 const Unknowns& unknowns, const Eigen::MatrixXd& motions) {
  const base::Point origin = network.points[body.first].planned;
  const base::Point base_arm = network.points[body.second].planned - origin;
  const base::Point arm = network.points[point].planned - origin;
  const Eigen::MatrixXd shift = motion_of(body.first, unknowns, motions);
  const Eigen::MatrixXd apart = motion_of(body.second, unknowns, motions) - shift;
  const base::Point across = base::clockwise(base_arm);
  const Eigen::RowVectorXd turn =
      Eigen::RowVector2d(across.x_m, across.y_m) * apart / base::dot(base_arm, base_arm);
  const base::Point swept = base::clockwise(arm);
  return motion_of(point, unknowns, motions) - shift - Eigen::Vector2d(swept.x_m, swept.y_m) * turn;
}

RigidBody body_on(Pair pair, const Network& network, const Unknowns& unknowns,
                  const FreeMotions& freedom, const std::vector<bool>& taking_part) {
  RigidBody body{pair.first, pair.second, std::vector<bool>(network.points.size(), false)};
  for (std::size_t point = 0; point < network.points.size(); ++point) {
    if (!taking_part[point]) continue;
    const bool still =
        movement_against(body, point, network, unknowns, freedom.motions).norm() < freedom.still;
    body.member[point] = still;
    if (!still) continue;
    ++body.size;
    if (point < network.corner_count) ++body.corners;
  }
  return body;
}

bool larger(const RigidBody& a, const RigidBody& b) {
  return a.corners != b.corners ? a.corners > b.corners : a.size > b.size;
}

/// The body with most corners, then with most points; without members when no two points keep their
/// distance.  `taking_part`: the points that are asked, or known and reached by a reading.
RigidBody largest_rigid_body(const Network& network, const Unknowns& unknowns,
                             const FreeMotions& freedom, const std::vector<bool>& taking_part) {
  RigidBody largest;
  largest.member.assign(network.points.size(), false);
  const std::size_t count = network.points.size();
  for (std::size_t first = 0; first < count; ++first) {
    for (std::size_t second = first + 1; second < count; ++second) {
      if (!taking_part[first] || !taking_part[second]) continue;
      if (largest.member[first] && largest.member[second]) continue;
      if (!keep_their_distance({first, second}, network, unknowns, freedom)) continue;
      RigidBody body = body_on({first, second}, network, unknowns, freedom, taking_part);
      if (larger(body, largest)) largest = std::move(body);
    }
  }
  return largest;
}

// The tapes, not yet pulled, that would fix corners which the readings leave loose.

struct MissingTapes {
  std::vector<MissingTape> all;  ///< with these the whole figure is fixed
  std::vector<Loose> loose;  ///< for each corner asked for, those of them that fix it to the body
};

/// Two tapes that stop the same share of a motion are taken in their order, short ones first;
/// rounding must not decide between them.
constexpr double kMuchBetter = 1.0 + 1e-6;

std::size_t skip(std::size_t first, std::size_t second, std::size_t corner_count) {
  const std::size_t apart = second - first;
  return std::min(apart, corner_count - apart);
}

/// Sides and diagonals that have no reading yet, sides first.
std::vector<Pair> candidates(const Network& network, const std::vector<std::size_t>& readings) {
  std::set<Pair> pulled;
  for (const std::size_t r : readings) {
    const readings::Observation& observation = network.observations[r];
    if (observation.is_angle()) continue;
    pulled.insert(std::minmax(observation.from, observation.to));
  }
  std::vector<Pair> result;
  for (std::size_t first = 0; first < network.corner_count; ++first)
    for (std::size_t second = first + 1; second < network.corner_count; ++second)
      if (!pulled.contains({first, second})) result.emplace_back(first, second);
  std::stable_sort(result.begin(), result.end(), [&](const Pair& a, const Pair& b) {
    return skip(a.first, a.second, network.corner_count) <
           skip(b.first, b.second, network.corner_count);
  });
  return result;
}

/// How fast each candidate changes its length in each free motion: one row a candidate.
Eigen::MatrixXd rates(const Network& network, const Unknowns& unknowns,
                      const Eigen::MatrixXd& free_motions, const std::vector<Pair>& tapes) {
  const State planned = planned_state(network);
  Eigen::MatrixXd result = Eigen::MatrixXd::Zero(as_index(tapes.size()), free_motions.cols());
  for (std::size_t t = 0; t < tapes.size(); ++t) {
    const auto tape = readings::expected({tapes[t].first, tapes[t].second}, planned.at);
    for (const readings::Answer& end : tape.answers())
      if (unknowns.point[end.point] != kNotAsked)
        result.row(as_index(t)) += Eigen::RowVector2d(end.by.x_m, end.by.y_m) *
                                   free_motions.middleRows(unknowns.point[end.point], 2);
  }
  return result;
}

/// Rows of `rates` picked by pivoting: each the one largest after the earlier ones are taken out.
std::vector<Eigen::Index> pick(Eigen::MatrixXd rates, double still) {
  std::vector<Eigen::Index> picked;
  while (true) {
    Eigen::Index best = 0;
    double largest = still;
    for (Eigen::Index row = 0; row < rates.rows(); ++row) {
      const double size = rates.row(row).norm();
      if (size <= largest * kMuchBetter) continue;
      largest = size;
      best = row;
    }
    if (largest <= still) return picked;
    picked.push_back(best);
    const Eigen::RowVectorXd direction = rates.row(best) / largest;
    rates -= (rates * direction.transpose()) * direction;
  }
}

/// Motions each of which is stopped by one picked tape and by no other.
Eigen::MatrixXd motion_of_each_tape(const Eigen::MatrixXd& free_motions,
                                    const Eigen::MatrixXd& rates,
                                    const std::vector<Eigen::Index>& picked) {
  const Eigen::Index count = as_index(picked.size());
  Eigen::MatrixXd rows(count, rates.cols());
  for (Eigen::Index t = 0; t < count; ++t)
    rows.row(t) = rates.row(picked[static_cast<std::size_t>(t)]);
  return free_motions * rows.transpose() *
         eigen_of(algebra::inverse_of_positive(matrix_of(rows * rows.transpose())).matrix);
}

/// The tapes that would fix `corners` to `body`, or to one another where there is no body.
///
/// The tapes are sides and diagonals without a length in `readings`, taken one after another: each
/// time the one that stops most of the motions still free.  Each stops one motion, so there are no
/// more of them than there are free motions.
MissingTapes missing_tapes(const Network& network, const Unknowns& unknowns,
                           const FreeMotions& freedom, const RigidBody& body,
                           const std::vector<std::size_t>& corners,
                           const std::vector<std::size_t>& readings) {
  const std::vector<Pair> tapes = candidates(network, readings);
  const Eigen::MatrixXd all_rates = rates(network, unknowns, freedom.motions, tapes);
  const std::vector<Eigen::Index> picked = pick(all_rates, freedom.still);
  const Eigen::MatrixXd motions = motion_of_each_tape(freedom.motions, all_rates, picked);
  MissingTapes result;
  for (const Eigen::Index t : picked) {
    const Pair& tape = tapes[static_cast<std::size_t>(t)];
    result.all.push_back({tape.first, tape.second});
  }
  if (body.size == 0) {  // nothing keeps its distance: no corner is at rest against any other
    for (const std::size_t corner : corners) result.loose.push_back({corner, result.all});
    return result;
  }
  for (const std::size_t corner : corners) {
    Loose loose{corner, {}};
    const Eigen::RowVectorXd moved =
        movement_against(body, corner, network, unknowns, motions).colwise().norm();
    // Where nothing holds together, the two points taken as at rest are as loose as the others.
    const bool taken_as_at_rest = corner == body.first || corner == body.second;
    for (std::size_t t = 0; t < picked.size(); ++t) {
      const double whole = motions.col(as_index(t)).norm();
      if (taken_as_at_rest || moved(as_index(t)) > freedom.still * whole)
        loose.would_fix.push_back(result.all[t]);
    }
    result.loose.push_back(std::move(loose));
  }
  return result;
}

// What the readings determine.

/// Fewer points than this hold no shape.
constexpr std::size_t kFewestPointsOfABody = 3;

/// Those whose points are planned apart.
std::vector<std::size_t> with_direction(const Network& network, std::vector<std::size_t> readings) {
  const State planned = planned_state(network);
  std::erase_if(readings,
                [&](std::size_t r) { return !expected(planned, network.observations[r]).defined; });
  return readings;
}

std::vector<bool> reached(const Network& network, const std::vector<std::size_t>& readings) {
  std::vector<bool> result(network.points.size(), false);
  for (const std::size_t r : readings)
    for (const std::size_t point : network.observations[r].points()) result[point] = true;
  return result;
}

/// Every corner, and every other point that is not known and that a reading reaches.
std::vector<bool> first_asked(const Network& network, const std::vector<std::size_t>& readings) {
  std::vector<bool> asked = reached(network, readings);
  for (std::size_t point = 0; point < network.points.size(); ++point) {
    if (network.points[point].role == Role::corner) asked[point] = true;
    if (network.points[point].known) asked[point] = false;
  }
  return asked;
}

/// Readings whose points are each asked or known, and not all known.
std::vector<std::size_t> bearing_on(const Network& network, const std::vector<bool>& asked,
                                    const std::vector<std::size_t>& readings) {
  std::vector<std::size_t> result;
  for (const std::size_t r : readings) {
    const std::vector<std::size_t> points = network.observations[r].points();
    const bool all_stand = std::all_of(points.begin(), points.end(), [&](std::size_t point) {
      return asked[point] || network.points[point].known;
    });
    const bool all_known = std::all_of(points.begin(), points.end(), [&](std::size_t point) {
      return network.points[point].known;
    });
    if (all_stand && !all_known) result.push_back(r);
  }
  return result;
}

/// What the readings leave free, seen once.
struct Look {
  Unknowns unknowns;
  FreeMotions freedom;
  RigidBody body;
};

Look look(const Network& network, const Determinacy& found) {
  Look result;
  result.unknowns = place_unknowns(found.asked);
  auto model = linear_model(network, result.unknowns, planned_state(network), found.readings);
  // Rows of unit length: a length in meters and an angle in radians, a rough tape and a fine circle
  // then stand side by side, and only the figure's geometry decides.
  model->design.rowwise().normalize();
  result.freedom = free_motions(model->design);
  std::vector<bool> taking_part = reached(network, found.readings);
  for (std::size_t point = 0; point < taking_part.size(); ++point)
    taking_part[point] = taking_part[point] || found.asked[point];
  result.body = largest_rigid_body(network, result.unknowns, result.freedom, taking_part);
  return result;
}

/// Asked corners that do not belong to the body, or all of them when there is no body.
std::vector<std::size_t> loose_corners(const Network& network, const Determinacy& found,
                                       const RigidBody& body) {
  std::vector<std::size_t> result;
  for (std::size_t corner = 0; corner < network.corner_count; ++corner)
    if (found.asked[corner] && (!body.member[corner] || body.size < kFewestPointsOfABody))
      result.push_back(corner);
  return result;
}

/// Lists the corners that this look shows to be loose.  The first look that shows any names the
/// tapes; what a later one shows was braced by corners already loose, and all those tapes fix it.
void note_loose(const Network& network, const Look& seen, std::vector<MissingTape>& tapes_for_all,
                Determinacy& found) {
  const std::vector<std::size_t> corners = loose_corners(network, found, seen.body);
  if (corners.empty()) return;
  if (found.loose.empty()) {
    MissingTapes tapes =
        missing_tapes(network, seen.unknowns, seen.freedom, seen.body, corners, found.readings);
    tapes_for_all = std::move(tapes.all);
    found.loose = std::move(tapes.loose);
    return;
  }
  for (const std::size_t corner : corners) found.loose.push_back({corner, tapes_for_all});
}

void keep_only(const RigidBody& body, const Network& network, Determinacy& found) {
  const bool holds = body.size >= kFewestPointsOfABody && body.corners > 0;
  for (std::size_t point = 0; point < network.points.size(); ++point)
    found.asked[point] = found.asked[point] && holds && body.member[point];
  found.readings = bearing_on(network, found.asked, found.readings);
}

bool any(const std::vector<bool>& flags) {
  return std::find(flags.begin(), flags.end(), true) != flags.end();
}

bool center_was_dropped(const Network& network, const std::vector<bool>& before,
                        const std::vector<bool>& after) {
  for (std::size_t point = 0; point < network.points.size(); ++point)
    if (network.points[point].role == Role::center && before[point] && !after[point]) return true;
  return false;
}

}  // namespace

Determinacy determinacy(const Network& network, const std::vector<std::size_t>& readings) {
  Determinacy found;
  found.readings = with_direction(network, readings);
  found.asked = first_asked(network, found.readings);
  found.readings = bearing_on(network, found.asked, found.readings);
  const std::vector<bool> asked_at_first = found.asked;
  std::vector<MissingTape> tapes_for_all;
  // Each pass sets aside what the body of the pass leaves loose; what is left is looked at again,
  // because a point set aside may have braced it.
  while (any(found.asked)) {
    const Look seen = look(network, found);
    const std::vector<bool> before = found.asked;
    note_loose(network, seen, tapes_for_all, found);
    keep_only(seen.body, network, found);
    if (found.asked == before) {
      found.defect = seen.freedom.motions.cols();
      break;
    }
  }
  std::sort(found.loose.begin(), found.loose.end(),
            [](const Loose& a, const Loose& b) { return a.point < b.point; });
  found.center_set_aside =
      any(found.asked) && center_was_dropped(network, asked_at_first, found.asked);
  return found;
}

}  // namespace stakewright::adjustment

#include "determinacy.hpp"

#include <algorithm>

#include "algebra.hpp"
#include "missing_tapes.hpp"
#include "rigid_body.hpp"

namespace stakewright::adjustment {
namespace {

/// Fewer points than this hold no shape.
constexpr std::size_t kFewestPointsOfABody = 3;

bool has_direction(const State& planned, const readings::Observation& observation) {
  return model_reading(planned, observation).defined;
}

std::vector<std::size_t> included(const Network& network, const std::vector<bool>& excluded) {
  const State planned = planned_state(network);
  std::vector<std::size_t> result;
  for (std::size_t r = 0; r < network.observations.size(); ++r) {
    const bool is_excluded = !excluded.empty() && excluded[r];
    if (!is_excluded && has_direction(planned, network.observations[r])) result.push_back(r);
  }
  return result;
}

std::vector<bool> reached(const Network& network, const std::vector<std::size_t>& readings) {
  std::vector<bool> result(network.points.size(), false);
  for (const std::size_t r : readings)
    for (const std::size_t point : points_of(network.observations[r])) result[point] = true;
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
    const std::vector<std::size_t> points = points_of(network.observations[r]);
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

Determinacy determinacy(const Network& network, const std::vector<bool>& excluded) {
  Determinacy found;
  found.readings = included(network, excluded);
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

#include "plausible.hpp"

#include <cmath>

namespace stakewright::adjustment {
namespace {

/// Corners that come out farther from their planned places than this share of the figure's size
/// (both as root mean squares) are not this polygon with stakes off: it is another one, or it has
/// turned over.  One stake a whole foot off in a triangle of 1 m corner radius makes 0.18.
constexpr double kAnotherPolygon = 0.25;

std::vector<base::Point> corners_of(const Network& network, const Determinacy& known,
                                    const State& state) {
  std::vector<base::Point> corners;
  for (std::size_t corner = 0; corner < network.corner_count; ++corner)
    if (known.asked[corner]) corners.push_back(state.place(corner));
  return corners;
}

/// Twice the area within the corners, with the sign of the way they run.
double signed_area_m2(const std::vector<base::Point>& corners) {
  double sum = 0.0;
  for (std::size_t i = 0; i < corners.size(); ++i)
    sum += base::dot(base::clockwise(corners[i]), corners[(i + 1) % corners.size()]);
  return sum;
}

/// Root mean square distance of the planned points that take part from their middle.
double size_m(const Network& network, const Determinacy& known) {
  std::vector<bool> taking_part = known.asked;
  for (const std::size_t r : known.readings)
    for (const std::size_t point : points_of(network.observations[r])) taking_part[point] = true;
  base::Point sum;
  double squares = 0.0;
  double count = 0.0;
  for (std::size_t point = 0; point < taking_part.size(); ++point) {
    if (!taking_part[point]) continue;
    const base::Point place = network.points[point].planned - network.points[0].planned;
    sum = sum + place;
    squares += base::dot(place, place);
    count += 1.0;
  }
  return std::sqrt((squares - base::dot(sum, sum) / count) / count);
}

}  // namespace

bool draws_the_plan(const Network& network, const Determinacy& known, const State& state) {
  const std::vector<base::Point> planned = corners_of(network, known, planned_state(network));
  const std::vector<base::Point> found = corners_of(network, known, state);
  double squares = 0.0;
  for (std::size_t i = 0; i < found.size(); ++i) {
    const base::Point off = found[i] - planned[i];
    squares += base::dot(off, off);
  }
  const double off_m = std::sqrt(squares / static_cast<double>(found.size()));
  if (off_m > kAnotherPolygon * size_m(network, known)) return false;
  return found.size() < 3 || signed_area_m2(planned) * signed_area_m2(found) > 0.0;
}

}  // namespace stakewright::adjustment

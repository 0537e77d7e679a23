#include "enclosing_circle.hpp"

#include <algorithm>
#include <cassert>

namespace stakewright::placement {
namespace {

using base::Point;

// Points this close outside count as on the circle: rounding of differences of a few meters.
constexpr double kOnRim_m = 1e-14;

bool outside(const Circle& circle, Point point) {
  return base::distance_m(circle.center, point) > circle.radius_m + kOnRim_m;
}

Circle across(std::span<const Point> points, std::size_t i, std::size_t j) {
  const Point center = 0.5 * (points[i] + points[j]);
  return {center, 0.5 * base::distance_m(points[i], points[j]), {i, j}, 2};
}

// Circle through three points.  Where they are all but in line (rounding), the widest
// circle across two of them.
Circle through(std::span<const Point> points, std::size_t i, std::size_t j, std::size_t k) {
  const Point b = points[j] - points[i];
  const Point c = points[k] - points[i];
  const double twice_area = 2.0 * base::dot(base::clockwise(c), b);
  const Point to_center = (1.0 / twice_area) * (base::dot(b, b) * base::clockwise(c) -
                                                base::dot(c, c) * base::clockwise(b));
  const double radius_m = base::norm_m(to_center);
  const double span_m = base::norm_m(b) + base::norm_m(c);
  constexpr double kFlattest = 1e8;
  if (twice_area == 0.0 || !(radius_m < kFlattest * span_m)) {
    return std::max({across(points, i, j), across(points, i, k), across(points, j, k)},
                    [](const Circle& a, const Circle& d) { return a.radius_m < d.radius_m; });
  }
  return {points[i] + to_center, radius_m, {i, j, k}, 3};
}

// Smallest circle around the first `count` points of `order` with `i` and `j` on its rim.
Circle with_two(std::span<const Point> points, const std::vector<std::size_t>& order,
                std::size_t count, std::size_t i, std::size_t j) {
  Circle circle = across(points, i, j);
  for (std::size_t c = 0; c < count; ++c) {
    if (outside(circle, points[order[c]])) circle = through(points, i, j, order[c]);
  }
  return circle;
}

Circle with_one(std::span<const Point> points, const std::vector<std::size_t>& order,
                std::size_t count, std::size_t i) {
  Circle circle{points[i], 0.0, {i}, 1};
  for (std::size_t b = 0; b < count; ++b) {
    if (outside(circle, points[order[b]])) circle = with_two(points, order, b, i, order[b]);
  }
  return circle;
}

}  // namespace

Circle smallest_circle(std::span<const Point> points, std::vector<std::size_t>& order) {
  assert(!points.empty() && order.size() == points.size());
  Circle circle{points[order[0]], 0.0, {order[0]}, 1};
  for (std::size_t a = 1; a < order.size(); ++a) {
    if (outside(circle, points[order[a]])) circle = with_one(points, order, a, order[a]);
  }
  for (std::size_t r = 0; r < circle.rim_count; ++r) {
    const auto place = std::find(order.begin(), order.end(), circle.rim[r]);
    std::rotate(order.begin(), place, place + 1);
  }
  return circle;
}

}  // namespace stakewright::placement

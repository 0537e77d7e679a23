// The one source that names Boost.Geometry.
#include <fmt/format.h>

#include <algorithm>
#include <boost/geometry/algorithms/correct.hpp>
#include <boost/geometry/algorithms/covered_by.hpp>
#include <boost/geometry/algorithms/distance.hpp>
#include <boost/geometry/algorithms/intersection.hpp>
#include <boost/geometry/algorithms/is_valid.hpp>
#include <boost/geometry/algorithms/within.hpp>
#include <boost/geometry/geometries/polygon.hpp>
#include <boost/geometry/geometries/register/point.hpp>
#include <boost/geometry/geometries/segment.hpp>
#include <boost/geometry/strategies/strategies.hpp>
#include <limits>
#include <utility>

#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/layout/surroundings.hpp"

BOOST_GEOMETRY_REGISTER_POINT_2D(stakewright::base::Point, double, cs::cartesian, x_m, y_m)

namespace stakewright::layout {
namespace {

namespace bg = boost::geometry;
using base::Point;
using Edge = bg::model::segment<Point>;
using Region = bg::model::polygon<Point>;

/// Nearer than this two lines touch.  No crew sees a hundredth of a millimeter, and the search for
/// the farthest point stops at it.
constexpr double kTouching_m = 1e-5;

/// A closed figure, as its edges and as the ground within.
struct Figure {
  std::string name;
  std::vector<Edge> edges;
  Region region;
};

Figure figure(const std::string& name, const std::vector<Point>& corners) {
  Figure result{name, {}, {}};
  for (std::size_t i = 0; i < corners.size(); ++i)
    result.edges.emplace_back(corners[i], corners[(i + 1) % corners.size()]);
  result.region.outer().assign(corners.begin(), corners.end());
  bg::correct(result.region);
  return result;
}

/// Corners without those that repeat the one before them (a closing corner included).
std::vector<Point> distinct_corners(const std::vector<Point>& outline) {
  std::vector<Point> corners;
  for (const Point& corner : outline)
    if (corners.empty() || base::distance_m(corners.back(), corner) > kTouching_m)
      corners.push_back(corner);
  while (corners.size() > 1 && base::distance_m(corners.back(), corners.front()) <= kTouching_m)
    corners.pop_back();
  return corners;
}

/// The corners of an outline that is one.
std::vector<Point> demanded_corners(const KeepClear& keep_clear) {
  auto corners = distinct_corners(keep_clear.outline);
  if (corners.size() < 3)
    throw base::InputError(
        fmt::format("keep_clear {} has {} different corners; an outline needs three or more",
                    base::in_quotes(keep_clear.name), corners.size()));
  if (!bg::is_valid(figure(keep_clear.name, corners).region))
    throw base::InputError(
        fmt::format("keep_clear {} crosses or touches itself; give its corners in order around it",
                    base::in_quotes(keep_clear.name)));
  return corners;
}

std::vector<Figure> line_figures(const Plan& plan) {
  std::vector<Figure> result{figure(kPlanLineName, corners_of(plan.polygon, plan))};
  for (const LineFigures& line : lines(plan)) result.push_back(figure(line.name, line.corners));
  return result;
}

double distance_to(const Point& place, const std::vector<Edge>& edges) {
  double least = std::numeric_limits<double>::infinity();
  for (const Edge& edge : edges) least = std::min(least, bg::distance(place, edge));
  return least;
}

/// Least distance between two figures whose edges do not cross: always at a corner of one.
double distance_between(const Figure& a, const Figure& b) {
  double least = std::numeric_limits<double>::infinity();
  for (const Edge& edge : a.edges) least = std::min(least, distance_to(edge.first, b.edges));
  for (const Edge& edge : b.edges) least = std::min(least, distance_to(edge.first, a.edges));
  return least;
}

/// Places where an edge meets the edges of a figure, in order along the edge.
std::vector<Point> meets(const Edge& edge, const Figure& other) {
  std::vector<Point> places;
  for (const Edge& one : other.edges) bg::intersection(edge, one, places);
  std::sort(places.begin(), places.end(), [&](const Point& a, const Point& b) {
    return base::distance_m(edge.first, a) < base::distance_m(edge.first, b);
  });
  return places;
}

/// No point of the stretch a-b is farther from `edges` than this: the distance from one edge is
/// convex along the stretch, so it is greatest at an end.
double bound_along(const Point& a, const Point& b, const std::vector<Edge>& edges) {
  double bound = std::numeric_limits<double>::infinity();
  for (const Edge& edge : edges)
    bound = std::min(bound, std::max(bg::distance(a, edge), bg::distance(b, edge)));
  return bound;
}

/// Greatest distance from the figure's edges along the stretch a-b, by halving it where the bound
/// leaves room for more.
double farthest_along(const Point& a, const Point& b, const std::vector<Edge>& edges) {
  double farthest = std::max(distance_to(a, edges), distance_to(b, edges));
  std::vector<std::pair<Point, Point>> open{{a, b}};
  while (!open.empty()) {
    const auto [from, to] = open.back();
    open.pop_back();
    if (bound_along(from, to, edges) <= farthest + kTouching_m) continue;
    const Point middle = 0.5 * (from + to);
    farthest = std::max(farthest, distance_to(middle, edges));
    open.emplace_back(from, middle);
    open.emplace_back(middle, to);
  }
  return farthest;
}

/// How far the edges of `a` reach past those of `b`, on b's inside or on its outside.
double reach(const Figure& a, const Figure& b, bool inside) {
  double farthest = 0.0;
  for (const Edge& edge : a.edges) {
    std::vector<Point> places = meets(edge, b);
    places.insert(places.begin(), edge.first);
    places.push_back(edge.second);
    for (std::size_t i = 1; i < places.size(); ++i) {
      const Point middle = 0.5 * (places[i - 1] + places[i]);
      if (bg::covered_by(middle, b.region) == inside)
        farthest = std::max(farthest, farthest_along(places[i - 1], places[i], b.edges));
    }
  }
  return farthest;
}

std::vector<Point> crossings(const Figure& line, const Figure& outline) {
  std::vector<Point> result;
  for (const Edge& edge : line.edges)
    for (const Point& place : meets(edge, outline))
      if (std::none_of(result.begin(), result.end(), [&](const Point& other) {
            return base::distance_m(place, other) <= kTouching_m;
          }))
        result.push_back(place);
  return result;
}

Clearance clearance(const Figure& line, const Figure& outline, bool keep_inside) {
  Clearance result;
  result.line = line.name;
  result.outline = outline.name;
  // A corner of the outline within the line's polygon is as wrong as the line past the outline.
  const double beyond = std::max(reach(line, outline, !keep_inside), reach(outline, line, true));
  result.crosses = beyond > kTouching_m;
  if (result.crosses) {
    result.beyond_m = beyond;
    result.crossings = crossings(line, outline);
  } else {
    result.distance_m = distance_between(line, outline);
  }
  return result;
}

}  // namespace

void demand_outline(const KeepClear& keep_clear) {
  static_cast<void>(demanded_corners(keep_clear));
}

std::vector<Clearance> clearances(const Plan& plan) {
  std::vector<Clearance> result;
  if (plan.keep_clear.empty()) return result;
  const auto all_lines = line_figures(plan);
  for (const KeepClear& keep_clear : plan.keep_clear) {
    const Figure outline = figure(keep_clear.name, demanded_corners(keep_clear));
    for (const Figure& line : all_lines)
      result.push_back(clearance(line, outline, keep_clear.keep_inside));
  }
  return result;
}

std::vector<PinWithin> pins_within(const Plan& plan) {
  std::vector<Figure> rings;
  for (const LineFigures& line : lines(plan)) rings.push_back(figure(line.name, line.corners));
  std::vector<PinWithin> result;
  for (const Pin& pin : plan.pins)
    for (const Figure& ring : rings)
      if (bg::within(pin.at, ring.region))
        result.push_back({pin.name, ring.name, distance_to(pin.at, ring.edges)});
  return result;
}

}  // namespace stakewright::layout

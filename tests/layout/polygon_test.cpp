#include "stakewright/layout/polygon.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>
#include <set>

#include "layout/random_plans.hpp"
#include "stakewright/base/error.hpp"

namespace stakewright::layout {
namespace {

using base::InputError;
using base::Point;
using testing::HasSubstr;
using testing::ThrowsMessage;

/// Distance of a place from the straight line through two others.
double from_line_m(Point place, Point a, Point b) {
  const Point line = b - a;
  return std::abs(base::dot(base::clockwise(line), place - a)) / base::norm_m(line);
}

/// Measures taken from the corners as a surveyor would, not from the formulas.
struct Measured {
  std::vector<Point> corners;
  [[nodiscard]] std::size_t n() const { return corners.size(); }
  [[nodiscard]] double side() const { return base::distance_m(corners[0], corners[1]); }
  [[nodiscard]] double across(std::size_t corner, std::size_t side) const {
    return from_line_m(corners[corner], corners[side], corners[(side + 1) % n()]);
  }
  [[nodiscard]] double area() const {
    double twice = 0.0;
    for (std::size_t i = 0; i < n(); ++i) {
      const Point a = corners[i];
      const Point b = corners[(i + 1) % n()];
      twice += b.x_m * a.y_m - a.x_m * b.y_m;  // clockwise
    }
    return 0.5 * twice;
  }
};

TEST(PolygonSize, IsTheSameByEveryMeasure) {
  for (const auto& [words, plan] : random_plans(200, 11)) {
    SCOPED_TRACE(words);
    const int n = plan.polygon.sides;
    const double R = plan.polygon.corner_radius_m;
    const double tolerance = 1e-12 * R * n;
    Plan at_home = plan;
    at_home.center = {};
    const Measured measured{corners_of(plan.polygon, at_home)};
    const auto radius = [&](Size size, double value) {
      return polygon_from(size, value, n).corner_radius_m;
    };
    EXPECT_NEAR(radius(Size::side, measured.side()), R, tolerance);
    EXPECT_NEAR(radius(Size::corner_radius, base::norm_m(measured.corners[0])), R, tolerance);
    EXPECT_NEAR(
        radius(Size::flat_radius, from_line_m({}, measured.corners[0], measured.corners[1])), R,
        tolerance);
    EXPECT_NEAR(radius(Size::perimeter, n * measured.side()), R, tolerance);
    EXPECT_NEAR(radius(Size::floor_area, measured.area()), R, tolerance);
    const auto half = static_cast<std::size_t>(n) / 2;
    if (n % 2 == 0) {
      EXPECT_NEAR(radius(Size::across_flats, measured.across(0, half)), R, tolerance);
      EXPECT_NEAR(radius(Size::across_corners,
                         base::distance_m(measured.corners[0], measured.corners[half])),
                  R, tolerance);
    } else {
      EXPECT_NEAR(radius(Size::flat_to_corner, measured.across(0, half)), R, tolerance);
    }
  }
}

TEST(PolygonFigures, AgreeWithTheCornersAsMeasured) {
  for (const auto& [words, plan] : random_plans(100, 12)) {
    SCOPED_TRACE(words);
    const Polygon& polygon = plan.polygon;
    const double tolerance = 1e-11 * polygon.corner_radius_m;
    const Measured measured{corners_of(polygon, plan)};
    for (std::size_t skip = 1; skip < measured.n(); ++skip)
      EXPECT_NEAR(diagonal_m(polygon, static_cast<int>(skip)),
                  base::distance_m(measured.corners[0], measured.corners[skip]), tolerance);
    EXPECT_NEAR(side_m(polygon), measured.side(), tolerance);
    EXPECT_NEAR(flat_radius_m(polygon),
                from_line_m(plan.center, measured.corners[0], measured.corners[1]), tolerance);
    EXPECT_NEAR(perimeter_m(polygon), polygon.sides * measured.side(), polygon.sides * tolerance);
    // Half of the perimeter times the flat radius, the old rule of mensuration.
    EXPECT_NEAR(area_m2(polygon), 0.5 * perimeter_m(polygon) * flat_radius_m(polygon),
                1e-12 * area_m2(polygon));
  }
}

TEST(PolygonAngles, AddUpAsEuclidHasThem) {
  for (int n = kFewestSides; n <= kMostSides; ++n) {
    const Polygon polygon{n, 1.0};
    // Euclid I.32 and its corollary: the interior angles make 2n - 4 right angles.
    EXPECT_NEAR(n * interior_angle_rad(polygon), (2 * n - 4) * std::numbers::pi / 2.0, 1e-12);
    EXPECT_NEAR(n * central_angle_rad(polygon), 2.0 * std::numbers::pi, 1e-12);
  }
}

TEST(PolygonSize, IsRefusedWhereTheMeasureDoesNotExist) {
  EXPECT_THAT([] { polygon_from(Size::across_flats, 3.0, 5); },
              ThrowsMessage<InputError>(
                  AllOf(HasSubstr("across_flats with 5 sides"), HasSubstr("flat_to_corner"))));
  EXPECT_THAT([] { polygon_from(Size::across_corners, 3.0, 7); },
              ThrowsMessage<InputError>(
                  AllOf(HasSubstr("across_corners with 7 sides"), HasSubstr("flat_to_corner"))));
  EXPECT_THAT([] { polygon_from(Size::flat_to_corner, 3.0, 6); },
              ThrowsMessage<InputError>(
                  AllOf(HasSubstr("flat_to_corner with 6 sides"), HasSubstr("across_flats"))));
}

TEST(PolygonSize, IsRefusedForTooFewOrTooManySides) {
  for (const int sides : {-1, 0, 2, 49})
    EXPECT_THAT([&] { polygon_from(Size::side, 3.0, sides); },
                ThrowsMessage<InputError>(
                    AllOf(HasSubstr(fmt::format("{} sides", sides)), HasSubstr("3 to 48"))));
  EXPECT_NO_THROW(polygon_from(Size::side, 3.0, 3));
  EXPECT_NO_THROW(polygon_from(Size::side, 3.0, 48));
}

TEST(PolygonSize, IsRefusedUnlessItIsAUsableLength) {
  constexpr double kInfinite = std::numeric_limits<double>::infinity();
  constexpr double kNotANumber = std::numeric_limits<double>::quiet_NaN();
  for (const Size size : {Size::side, Size::floor_area, Size::perimeter})
    for (const double value : {0.0, -0.0, -3.0, kInfinite, -kInfinite, kNotANumber})
      EXPECT_THAT([&] { polygon_from(size, value, 6); },
                  ThrowsMessage<InputError>(HasSubstr("above 0")));
  EXPECT_THAT([] { polygon_from(Size::corner_radius, 1e300, 6); },
              ThrowsMessage<InputError>(HasSubstr("accepted is up to 10000 m")));
  EXPECT_THAT([] { polygon_from(Size::side, std::numeric_limits<double>::max(), 48); },
              ThrowsMessage<InputError>(HasSubstr("accepted is up to 10000 m")));
  EXPECT_THAT([] { polygon_from(Size::side, 1e-300, 6); },
              ThrowsMessage<InputError>(HasSubstr("accepted are sides from 0.001 m")));
  EXPECT_THAT([] { polygon_from(Size::floor_area, 1e-12, 6); },
              ThrowsMessage<InputError>(HasSubstr("accepted are sides from 0.001 m")));
}

TEST(CornerLabels, LeaveOutTheLettersThatReadAsFigures) {
  EXPECT_THAT(corner_labels(9), testing::ElementsAre("A", "B", "C", "D", "E", "F", "G", "H", "J"));
  const auto labels = corner_labels(kMostSides);
  EXPECT_EQ(labels[12], "N");
  EXPECT_EQ(labels[13], "P");
  EXPECT_EQ(labels[23], "Z");
  EXPECT_EQ(labels[24], "AA");
  EXPECT_EQ(labels[47], "AZ");
  EXPECT_EQ(std::set<std::string>(labels.begin(), labels.end()).size(), 48U);
  for (const auto& label : labels) EXPECT_EQ(label.find_first_of("IO"), std::string::npos) << label;
}

TEST(ParallelPolygon, HasEverySideMovedByTheOffset) {
  std::mt19937 random(13);
  std::uniform_real_distribution<double> share(-0.9, 2.0);
  for (const auto& [words, plan] : random_plans(100, 14)) {
    SCOPED_TRACE(words);
    const double offset = share(random) * flat_radius_m(plan.polygon);
    const Measured inner{corners_of(plan.polygon, plan)};
    const Measured outer{corners_of(parallel(plan.polygon, offset), plan)};
    for (std::size_t i = 0; i < inner.n(); ++i) {
      const Point a = inner.corners[i];
      const Point b = inner.corners[(i + 1) % inner.n()];
      const Point out = base::clockwise(b - a);
      const double sign = base::dot(out, plan.center - a) > 0.0 ? -1.0 : 1.0;
      for (const Point corner : {outer.corners[i], outer.corners[(i + 1) % inner.n()]})
        EXPECT_NEAR(sign * base::dot(out, corner - a) / base::norm_m(out), offset, kRounding_m);
    }
  }
}

TEST(ParallelPolygon, IsRefusedWhenNothingIsLeftOfIt) {
  const Polygon hexagon = polygon_from(Size::flat_radius, 2.0, 6);
  EXPECT_NO_THROW(parallel(hexagon, -1.99));
  for (const double offset : {-2.0, -2.5, -1e6})
    EXPECT_THAT([&] { parallel(hexagon, offset); },
                ThrowsMessage<InputError>(
                    AllOf(HasSubstr("leaves nothing"), HasSubstr("flat radius is 2 m"))));
}

}  // namespace
}  // namespace stakewright::layout

// Regular polygons against printed tables, old books and the framing square.
#include "stakewright/layout/polygon.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <vector>

namespace stakewright::layout {
namespace {

constexpr double kInch_m = 0.0254;
constexpr double kSums = 1e-12;  // rounding of a few operations on numbers near 1

Polygon with_side(int sides, double side = 1.0) { return polygon_from(Size::side, side, sides); }
Polygon with_radius(int sides, double radius = 1.0) {
  return polygon_from(Size::corner_radius, radius, sides);
}

// engineeringtoolbox.com, d_1872: area of regular polygons with side 1, n = 3 … 12.  Four decimals,
// the last entry cut off (exact 11.19615) instead of rounded.
TEST(PublishedPolygon, HasTheTabulatedAreaForSideOne) {
  const std::vector<double> printed{0.4330, 1.0000, 1.7205, 2.5981, 3.6339,
                                    4.8284, 6.1818, 7.6942, 9.3656, 11.1961};
  for (std::size_t i = 0; i < printed.size(); ++i)
    EXPECT_NEAR(area_m2(with_side(static_cast<int>(i) + 3)), printed[i], 0.6e-4) << i + 3;
}

// An old book of mensuration (books.google.com hyYAAAAAYAAJ), side 1, n = 8 … 12: six decimals,
// cut off instead of rounded.
TEST(PublishedPolygon, HasTheAreaOfTheOldMensurationTables) {
  const std::vector<double> printed{4.828427, 6.181824, 7.694208, 9.365639, 11.196152};
  for (std::size_t i = 0; i < printed.size(); ++i) {
    const double beyond_print = area_m2(with_side(static_cast<int>(i) + 8)) - printed[i];
    EXPECT_GE(beyond_print, 0.0) << i + 8;
    EXPECT_LT(beyond_print, 1e-6) << i + 8;
  }
}

// Square roots of polygon figures with corner radius 1: D. Rusin, 1998; 1.17557 also at
// ronreynolds.com.
TEST(PublishedPolygon, HasTheSquareRootsForCornerRadiusOne) {
  EXPECT_NEAR(flat_radius_m(with_radius(5)), std::sqrt(6.0 + 2.0 * std::sqrt(5.0)) / 4.0, kSums);
  EXPECT_NEAR(flat_radius_m(with_radius(6)), std::numbers::sqrt3 / 2.0, kSums);
  EXPECT_NEAR(flat_radius_m(with_radius(8)), std::sqrt(2.0 + std::numbers::sqrt2) / 2.0, kSums);
  EXPECT_NEAR(side_m(with_radius(5)), std::sqrt(10.0 - 2.0 * std::sqrt(5.0)) / 2.0, kSums);
  EXPECT_NEAR(side_m(with_radius(5)), 1.17557, 0.5e-5);
  EXPECT_NEAR(side_m(with_radius(8)), std::sqrt(2.0 - std::numbers::sqrt2), kSums);
  EXPECT_NEAR(area_m2(with_radius(6)), 2.5980762, 0.5e-7);
  EXPECT_NEAR(flat_radius_m(with_radius(6)), 0.8660254, 0.5e-7);
}

// Formulas for side 1: forumotion.com t44.
TEST(PublishedPolygon, HasTheSquareRootsForSideOne) {
  const double root5 = std::sqrt(5.0);
  const double root2 = std::numbers::sqrt2;
  EXPECT_NEAR(with_side(5).corner_radius_m, std::sqrt(50.0 + 10.0 * root5) / 10.0, kSums);
  EXPECT_NEAR(flat_radius_m(with_side(5)), std::sqrt(25.0 + 10.0 * root5) / 10.0, kSums);
  EXPECT_NEAR(with_side(8).corner_radius_m, std::sqrt(4.0 + 2.0 * root2) / 2.0, kSums);
  EXPECT_NEAR(flat_radius_m(with_side(8)), (1.0 + root2) / 2.0, kSums);
  EXPECT_NEAR(area_m2(with_side(8)), 2.0 * (1.0 + root2), kSums);
  EXPECT_NEAR(with_side(10).corner_radius_m, (1.0 + root5) / 2.0, kSums);
  EXPECT_NEAR(area_m2(with_side(10)), 2.5 * std::sqrt(5.0 + 2.0 * root5), 10.0 * kSums);
}

// Ptolemy's theorem on four corners of a regular polygon with side 1 and diagonals p < q < s
// (Almagest I.10).
TEST(PublishedPolygon, ObeysPtolemysTheorem) {
  const auto d = [](int sides, int skip) { return diagonal_m(with_side(sides), skip); };
  EXPECT_NEAR(d(5, 2) * d(5, 2), d(5, 2) + 1.0, kSums);
  EXPECT_NEAR(d(6, 2) * d(6, 2), d(6, 3) + 1.0, kSums);
  EXPECT_NEAR(d(7, 2) * d(7, 2), d(7, 3) + 1.0, kSums);
  EXPECT_NEAR(d(7, 3) * d(7, 3), 1.0 + d(7, 2) * d(7, 3), kSums);
  EXPECT_NEAR(d(8, 2) * d(8, 2), d(8, 3) + 1.0, kSums);
  EXPECT_NEAR(d(8, 3) * d(8, 3), 1.0 + d(8, 2) * d(8, 4), kSums);
}

// Heptagon, side 1, by Ptolemy: diagonals 1.80194 and 2.24698 (solve.club).
TEST(PublishedPolygon, HasTheHeptagonsDiagonals) {
  EXPECT_NEAR(diagonal_m(with_side(7), 2), 1.80194, 0.5e-5);
  EXPECT_NEAR(diagonal_m(with_side(7), 3), 2.24698, 0.5e-5);
}

// Euclid, Elements: XIII.8, the diagonal of a regular pentagon is to its side as the whole to the
// greater part in extreme and mean ratio, (1 + sqrt 5)/2.  IV.15 corollary: the side of the hexagon
// is the radius.  XIII.10: on one circle, pentagon² = hexagon² + decagon².  XIII.12: the triangle's
// side squared is three times the radius squared.
TEST(PublishedPolygon, ObeysEuclid) {
  EXPECT_NEAR(diagonal_m(with_side(5), 2), std::numbers::phi, kSums);
  EXPECT_NEAR(side_m(with_radius(6)), 1.0, kSums);
  const auto square = [](int sides) { return std::pow(side_m(with_radius(sides)), 2.0); };
  EXPECT_NEAR(square(5), square(6) + square(10), kSums);
  EXPECT_NEAR(square(3), 3.0, kSums);
}

/// Half a side for 12 of flat radius: what the framing square takes for a polygon's miter.
double square_figure(int sides) {
  const Polygon polygon = with_radius(sides);
  return 12.0 * 0.5 * side_m(polygon) / flat_radius_m(polygon);
}

// F. T. Hodgson, ABC of the Steel Square, p. 16: hexagon 6-15/16, octagon 4-31/32.  Griffith,
// Carpentry (1916), secs 38 and 42: plate tangent of the octagon 4.97, "practically 5".
TEST(PublishedPolygon, GivesTheFramingSquaresFigures) {
  constexpr double kHalfOf32nd = 1.0 / 64.0;
  EXPECT_NEAR(square_figure(6), 6.0 + 15.0 / 16.0, kHalfOf32nd);
  EXPECT_NEAR(square_figure(8), 4.0 + 31.0 / 32.0, kHalfOf32nd);
  EXPECT_NEAR(square_figure(8), 4.97, 0.005);
  EXPECT_NEAR(square_figure(4), 12.0, 1e-9);  // a square miters at 45 degrees: common practice
  // From memory: squares are often stamped 20-7/8 for the triangle; right is 20-25/32.
  EXPECT_NEAR(square_figure(3), 20.0 + 25.0 / 32.0, kHalfOf32nd);
}

// Radford's Cyclopedia of Construction, vol. 8: an octagon of 16 ft side is 38.627 ft across flats,
// 16 and twice 16 over root 2 (11.3137).
TEST(PublishedPolygon, GivesRadfordsOctagonAcrossFlats) {
  EXPECT_NEAR(2.0 * flat_radius_m(with_side(8, 16.0)), 38.627, 0.0005);
  EXPECT_NEAR(side_m(polygon_from(Size::across_flats, 38.627, 8)), 16.0, 0.0005);
}

// I. S. Griffith, Carpentry (1916), sec. 32: run of the hip is the corner radius, run of the common
// the flat radius; secs 38 and 42: 13 (exactly 12.98871) for 12 on an octagon.  The figures for
// four, five, six and eight sides are common practice, no source.
TEST(PublishedPolygon, GivesTheHipRunForTwelveOfCommonRun) {
  const auto hip_run = [](int sides) {
    return polygon_from(Size::flat_radius, 12.0, sides).corner_radius_m;
  };
  EXPECT_NEAR(hip_run(8), 12.98871, 0.5e-5);
  EXPECT_NEAR(hip_run(4), 16.97, 0.005);
  EXPECT_NEAR(std::round(hip_run(4)), 17.0, 0.0);
  EXPECT_NEAR(hip_run(5), 14.83, 0.005);
  EXPECT_NEAR(hip_run(6), 13.86, 0.005);
  EXPECT_NEAR(hip_run(8), 12.99, 0.005);
}

// Common practice, no source.
TEST(TradePolygon, HasFiveSidesOfSeventyTwoDegrees) {
  EXPECT_NEAR(central_angle_rad(with_side(5)), 72.0 * std::numbers::pi / 180.0, kSums);
}

// Common practice, no source: 5 ft 0 in to the corners is 4 ft 0-9/16 in to the flats; to 1/32 in.
TEST(TradePolygon, OfFiveSidesAndFiveFeetIsFourFeetAndNineSixteenthsToTheFlat) {
  const double flat_radius_in = flat_radius_m(with_radius(5, 60.0 * kInch_m)) / kInch_m;
  EXPECT_NEAR(flat_radius_in, 48.0 + 9.0 / 16.0, 1.0 / 32.0);
}

}  // namespace
}  // namespace stakewright::layout

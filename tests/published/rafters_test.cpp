// Rafters, fascia and their cuts against the tables and rules of the trade.
// Every expected value is printed somewhere, or worked by hand beside the test.

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include "roof/roofs.hpp"

namespace stakewright::roof {
namespace {

/// Half a last digit of a table of two decimals, and the rounding of doubles.
constexpr double kTwoDecimals = 0.005 + 1e-9;

/// A roof of thin stock, so that tables on a run of 12 inches have room for it.
Spec thin(double pitch) {
  Spec spec;
  spec.pitch = pitch;
  spec.rafter_m = 0.001;
  spec.hip_m = 0.001;
  return spec;
}

double hip_in(int sides, double run_in, double pitch) {
  return part(planned(sides, run_in * kInch_m, thin(pitch)), PartKind::hip, "A").line.planned /
         kInch_m;
}

double common_in(int sides, double run_in, double pitch) {
  return part(planned(sides, run_in * kInch_m, thin(pitch)), PartKind::common, "A-B").line.planned /
         kInch_m;
}

// Length of common rafters per foot of run, stamped on framing squares, rises 2 to 18.
// Column printed in instructables.com, "How to make a common rafter", step 4.
TEST(FramingSquare, CommonRaftersPerFootOfRun) {
  const std::array<double, 17> table = {12.17, 12.37, 12.65, 13.00, 13.42, 13.89,
                                        14.42, 15.00, 15.62, 16.28, 16.97, 17.69,
                                        18.44, 19.21, 20.00, 20.81, 21.63};
  for (std::size_t i = 0; i < table.size(); ++i) {
    const double rise = 2.0 + static_cast<double>(i);
    EXPECT_NEAR(common_in(4, 12.0, rise / 12.0), table[i], kTwoDecimals) << rise << " in 12";
  }
}

// Length of hip rafters per foot of common run, same table.  In print: 6 -> 18.00 (old
// encyclopedia article "Steel square"), 8 -> 18.76 (NAVEDTRA 14044, Builder 3 & 2, vol 2),
// 9 -> 19.21 and 10 -> 19.70 (Hodgson, ABC of the Steel Square, p. 31).  The other cells are
// from memory; each is the root of 288 and the square of the rise.
TEST(FramingSquare, HipRaftersPerFootOfCommonRun) {
  const std::array<double, 17> table = {17.09, 17.23, 17.44, 17.69, 18.00, 18.36,
                                        18.76, 19.21, 19.70, 20.22, 20.78, 21.38,
                                        22.00, 22.65, 23.32, 24.02, 24.74};
  for (std::size_t i = 0; i < table.size(); ++i) {
    const double rise = 2.0 + static_cast<double>(i);
    EXPECT_NEAR(hip_in(4, 12.0, rise / 12.0), table[i], kTwoDecimals) << rise << " in 12";
  }
}

TEST(WorkedLengths, CommonRafterOfSixteenFeetSpanAtSeven) {
  // NAVEDTRA 14044, p. 64: 13.89 x 8 = 111.12 in, 9 ft 3 1/8 in; the square's figure is
  // rounded, so that 8 ft of it are right to 8 x 0.005.
  EXPECT_NEAR(common_in(4, 96.0, 7.0 / 12.0), 111.12, 8 * 0.005);
}

TEST(WorkedLengths, HipRafterOfFifteenFeetRun) {
  // NAVEDTRA 14044, p. 73: 15 ft of run, 10 ft of rise; hip 23.45 ft.
  EXPECT_NEAR(hip_in(4, 180.0, 8.0 / 12.0) / 12.0, 23.45, kTwoDecimals);
}

TEST(WorkedLengths, CommonRafterOfTwentyFeetEightAtThirteen) {
  // US Army EN0069, fig. 2-17: 17.69 x 10 1/3 = 182.79 in, 15 ft 3 in; rounded figure as above.
  EXPECT_NEAR(common_in(4, 124.0, 13.0 / 12.0), 182.79, 10.34 * 0.005);
}

TEST(WorkedLengths, CommonRafterOfTwentyFiveFeetSpanAtSix) {
  // NAVEDTRA 14044, p. 64 gives the inputs; 12.5 ft times the root of 1.25 by hand: 167.705 in.
  EXPECT_NEAR(common_in(4, 150.0, 0.5), 167.705, 0.0005);
}

TEST(WorkedLengths, SquareRoofsOfNineAndTenRise) {
  // Hodgson, ABC of the Steel Square, p. 31: common 15, hip 19 1/4; common 15 5/8, hip 19 3/4;
  // read off a square to the nearest eighth.
  EXPECT_NEAR(common_in(4, 12.0, 9.0 / 12.0), 15.0, 1.0 / 16.0);
  EXPECT_NEAR(hip_in(4, 12.0, 9.0 / 12.0), 19.25, 1.0 / 16.0);
  EXPECT_NEAR(common_in(4, 12.0, 10.0 / 12.0), 15.625, 1.0 / 16.0);
  EXPECT_NEAR(hip_in(4, 12.0, 10.0 / 12.0), 19.75, 1.0 / 16.0);
}

TEST(WorkedLengths, BracesOfEqualRunAndRise) {
  // Cyclopedia of Carpentry (chestofbooks.com), brace rule: 36/36 -> 50.91, 42/42 -> 59.40.
  EXPECT_NEAR(common_in(4, 36.0, 1.0), 50.91, kTwoDecimals);
  EXPECT_NEAR(common_in(4, 42.0, 1.0), 59.40, kTwoDecimals);
}

TEST(HipFigure, IsSeventeenForSquareCornersOnly) {
  // Common practice, no source: 17 per 12 of common run for four sides, 14.83 for five,
  // 13.86 for six, 12.99 for eight.  Griffith, Carpentry (1916), sec. 38: 13 on an octagon.
  // The hip run is seen through a rise so small that it adds nothing to two decimals.
  const double flat = 1e-4;
  EXPECT_NEAR(hip_in(4, 12.0, flat), 16.97, kTwoDecimals);
  EXPECT_NEAR(hip_in(5, 12.0, flat), 14.83, kTwoDecimals);
  EXPECT_NEAR(hip_in(6, 12.0, flat), 13.86, kTwoDecimals);
  EXPECT_NEAR(hip_in(8, 12.0, flat), 12.99, kTwoDecimals);
  EXPECT_NEAR(hip_in(8, 12.0, flat), 13.0, 0.012);  // "13" is short by a thousandth part
}

TEST(Octagon, HipPerFootOfCommonRun) {
  // Worked apart from the code, to 40 digits: root of 12.98871 squared and the rise squared.
  const std::vector<std::pair<double, double>> table = {
      {4, 13.591}, {6, 14.308}, {8, 15.255}, {9, 15.802}, {12, 17.684}};
  for (const auto& [rise, hip] : table)
    EXPECT_NEAR(hip_in(8, 12.0, rise / 12.0), hip, 0.0005) << rise << " in 12";
}

// Common practice, no source; checked by hand with sines to a tenth of a sixteenth.
TEST(FiveSides, AShelterOfFiveFeetCornerRadiusOnFiveInTwelve) {
  layout::Plan plan;
  plan.polygon = {5, 5.0 * kFoot_m};
  const Carry roof = carry(plan, 0.0, thin(5.0 / 12.0), {}, std::nullopt);
  const double sixteenth = 1.0 / 16.0;
  const double flat_radius_in = layout::flat_radius_m(plan.polygon) / kInch_m;
  EXPECT_NEAR(flat_radius_in, 48.0 + 9.0 / 16.0, sixteenth);
  EXPECT_NEAR(roof.apex.height_m / kInch_m, 20.25, sixteenth);
  const double common = part(roof, PartKind::common, "A-B").line.planned / kInch_m;
  EXPECT_NEAR(common, 52.0 + 9.0 / 16.0, sixteenth);
  EXPECT_GT(common, 52.0 + 9.0 / 16.0);  // "and a little over"
}

// "Compound angle settings" of a saw owner's manual (manualsdump.com craftsman-315.21212,
// p. 24; the same chart esmanual.top Ryobi-Tss121, p. 32): miter and bevel of n boards whose
// faces lie at a pitch A from level.
struct Compound {
  double pitch_deg;
  std::array<double, 4> miter_deg;  ///< 4, 5, 6, 8 sides
  std::array<double, 4> bevel_deg;
};

const std::array<int, 4> kChartSides = {4, 5, 6, 8};

const std::vector<Compound>& chart() {
  static const std::vector<Compound> rows = {
      {5, {44.89, 35.90, 29.91, 22.42}, {3.53, 2.94, 2.50, 1.91}},
      {10, {44.56, 35.58, 29.62, 22.19}, {7.05, 5.86, 4.98, 3.81}},
      {15, {44.01, 35.06, 29.15, 21.81}, {10.55, 8.75, 7.44, 5.68}},
      {20, {43.22, 34.32, 28.48, 21.27}, {14.00, 11.60, 9.85, 7.52}},
      {25, {42.19, 33.36, 27.62, 20.58}, {17.39, 14.38, 12.20, 9.31}},
      {30, {40.89, 32.18, 26.57, 19.73}, {20.70, 17.09, 14.48, 11.03}},
      {35, {39.32, 30.76, 25.31, 18.74}, {23.93, 19.70, 16.67, 12.68}},
      {40, {37.45, 29.10, 23.86, 17.60}, {27.03, 22.20, 18.75, 14.24}},
      {45, {35.26, 27.19, 22.21, 16.32}, {30.00, 24.56, 20.70, 15.70}},
      {50, {32.73, 25.03, 20.36, 14.91}, {32.80, 26.76, 22.52, 17.05}}};
  return rows;
}

/// A fascia board on square tails lies square to the rafters: at 90 degrees less the slope.
Carry with_fascia_at(double board_pitch_deg, int sides) {
  Spec spec = thin(std::tan((90.0 - board_pitch_deg) * kDegree_rad));
  spec.overhang_m = 0.3;
  return planned(sides, 3.0, spec);
}

double degrees(const Carry& roof, PartKind kind, const char* at, const char* name) {
  return cut(roof, kind, at, name).angle.planned / kDegree_rad;
}

TEST(CompoundChart, IsTheMiterAndBevelOfFasciaOnSquareTails) {
  for (const auto& row : chart())
    for (std::size_t k = 0; k < kChartSides.size(); ++k) {
      SCOPED_TRACE(testing::Message() << kChartSides[k] << " sides at " << row.pitch_deg);
      const Carry roof = with_fascia_at(row.pitch_deg, kChartSides[k]);
      for (const char* end : {"A-B left", "A-B right"}) {
        EXPECT_NEAR(degrees(roof, PartKind::fascia, end, "miter"), row.miter_deg[k], kTwoDecimals);
        EXPECT_NEAR(degrees(roof, PartKind::fascia, end, "bevel"), row.bevel_deg[k], kTwoDecimals);
      }
    }
}

TEST(CompoundChart, GoesOnToSteepBoards) {
  struct Steep {
    int sides;
    double pitch_deg, miter_deg, bevel_deg;
  };
  const std::vector<Steep> rows = {
      {4, 55, 29.84, 35.40}, {4, 60, 26.57, 37.76}, {4, 65, 22.91, 39.86}, {4, 70, 18.88, 41.64},
      {4, 75, 14.51, 43.08}, {5, 60, 19.96, 30.60}, {6, 60, 16.10, 25.66}};
  for (const auto& row : rows) {
    const Carry roof = with_fascia_at(row.pitch_deg, row.sides);
    EXPECT_NEAR(degrees(roof, PartKind::fascia, "A-B left", "miter"), row.miter_deg, kTwoDecimals);
    EXPECT_NEAR(degrees(roof, PartKind::fascia, "A-B left", "bevel"), row.bevel_deg, kTwoDecimals);
  }
}

// The same chart's bevel is the backing of a hip on n sides whose faces have that pitch.
TEST(CompoundChart, ItsBevelIsTheBackingOfTheHip) {
  for (const auto& row : chart())
    for (std::size_t k = 0; k < kChartSides.size(); ++k) {
      const Carry roof = planned(kChartSides[k], 3.0, thin(std::tan(row.pitch_deg * kDegree_rad)));
      for (const char* side : {"B left", "B right"})
        EXPECT_NEAR(degrees(roof, PartKind::hip, side, "backing"), row.bevel_deg[k], kTwoDecimals)
            << kChartSides[k] << " sides at " << row.pitch_deg;
    }
}

TEST(PlumbTails, HaveTheFlatMiterOfThePolygonAsBevelOnly) {
  // Saw manual DW713, p. 13: 4 to 10 sides, one decimal.
  const std::vector<std::pair<int, double>> table = {{4, 45.0}, {5, 36.0}, {6, 30.0}, {7, 25.7},
                                                     {8, 22.5}, {9, 20.0}, {10, 18.0}};
  Spec spec = thin(8.0 / 12.0);
  spec.tail = Tail::plumb;
  spec.overhang_m = 0.3;
  for (const auto& [sides, miter_deg] : table) {
    const Carry roof = planned(sides, 3.0, spec);
    EXPECT_NEAR(degrees(roof, PartKind::fascia, "A-B right", "bevel"), miter_deg, 0.05);
    EXPECT_NEAR(degrees(roof, PartKind::fascia, "A-B right", "miter"), 0.0, 1e-9);
  }
}

// Griffith, Carpentry (1916), secs. 26 and 39: mark the backing from the top edge back along
// the seat line by half the hip's thickness on a square plan, by 5/12 of that on an octagon;
// a hip that is not backed is let down by the plumb height of that mark.
TEST(Backing, IsMarkedByHalfTheThicknessOnASquareAndFiveTwelfthsOfItOnAnOctagon) {
  const auto mark_per_half_thickness = [](int sides) {
    Spec spec;
    spec.pitch = 9.0 / 12.0;
    const Carry roof = planned(sides, 3.0, spec);
    const double hip_slope = cut(roof, PartKind::hip, "A", "plumb").angle.planned;
    return part(roof, PartKind::hip, "A").drop_m / std::tan(hip_slope) / (0.5 * spec.hip_m);
  };
  EXPECT_NEAR(mark_per_half_thickness(4), 1.0, 1e-12);
  EXPECT_NEAR(mark_per_half_thickness(8), 5.0 / 12.0, 0.006 * 5.0 / 12.0);  // 0.6 % large
  EXPECT_NEAR(mark_per_half_thickness(8), 0.41421, 0.000005);               // tan 22.5 degrees
}

// Craft rule: two members 38 mm thick at 45 degrees shorten each other by the root of
// 19 squared twice, 27 mm (basiccarpentrytechniques.com, Framing Hip Roofs 4; NAVEDTRA 14044,
// p. 74: half the 45-degree thickness, measured square to the plumb cut).
TEST(Shortening, OfAMemberBetweenHipsAtFortyFiveDegreesIsHalfTheirDiagonalThickness) {
  Spec spec;
  spec.pitch = 8.0 / 12.0;
  spec.hip_m = 0.038;
  const Part common = part(planned(4, 3.0, spec), PartKind::common, "A-B");
  const double level_mm = 1000.0 * common.shortening_m * std::cos(std::atan(spec.pitch));
  EXPECT_NEAR(level_mm, 26.87, kTwoDecimals);
}

// Griffith, Carpentry (1916), sec. 37: with a king post hips are reduced by half its width.
TEST(Shortening, OfAHipAtAKingPostIsHalfThePost) {
  Spec spec;
  spec.pitch = 8.0 / 12.0;
  spec.hub_m = 6.0 * kInch_m;
  const Carry roof = planned(8, 3.0, spec);
  const double hip_slope = cut(roof, PartKind::hip, "A", "plumb").angle.planned;
  EXPECT_NEAR(part(roof, PartKind::hip, "A").shortening_m * std::cos(hip_slope) / kInch_m, 3.0,
              1e-12);
}

/// Difference of neighboring jacks, in inches, at a spacing.
double jack_difference_in(int sides, double spacing_in, double pitch) {
  Spec spec = thin(pitch);
  spec.spacing_m = spacing_in * kInch_m;
  const Carry roof = planned(sides, 20.0 * kFoot_m, spec);
  return (part(roof, PartKind::jack, "A-B left 1").line.planned -
          part(roof, PartKind::jack, "A-B left 2").line.planned) /
         kInch_m;
}

// Jack rafter differences, same table of the framing square, square plan.  In print: 16 in at
// 10 -> 20.83 and 20 in at 10 -> 26 (Audel, Carpenters and Builders Guide, vol 3, 1923, p. 975);
// 24 in at 8 -> 28 7/8 and 12 in at 8 -> 14 3/8 (hand-tool booklet, manymanuals.es RAS-1, p. 25).
// The other cells are from memory; each is the spacing times the common's length per run.
TEST(FramingSquare, DifferenceOfJacksAtSixteenAndTwentyFourInches) {
  const std::array<double, 17> at_16 = {16.22, 16.49, 16.87, 17.33, 17.89, 18.52,
                                        19.23, 20.00, 20.83, 21.70, 22.63, 23.59,
                                        24.59, 25.61, 26.67, 27.74, 28.84};
  const std::array<double, 17> at_24 = {24.33, 24.74, 25.30, 26.00, 26.83, 27.78,
                                        28.84, 30.00, 31.24, 32.56, 33.94, 35.38,
                                        36.88, 38.42, 40.00, 41.62, 43.27};
  for (std::size_t i = 0; i < at_16.size(); ++i) {
    const double pitch = (2.0 + static_cast<double>(i)) / 12.0;
    // The cell for 11, 21.70, was cut off rather than rounded: 16 / 12 of 16.2788 is 21.7051.
    EXPECT_NEAR(jack_difference_in(4, 16.0, pitch), at_16[i], kTwoDecimals + 0.0001) << pitch;
    EXPECT_NEAR(jack_difference_in(4, 24.0, pitch), at_24[i], kTwoDecimals) << pitch;
  }
  EXPECT_NEAR(jack_difference_in(4, 20.0, 10.0 / 12.0), 26.0, 1.0 / 16.0);
  EXPECT_NEAR(jack_difference_in(4, 24.0, 8.0 / 12.0), 28.875, 1.0 / 16.0);
  EXPECT_NEAR(jack_difference_in(4, 12.0, 8.0 / 12.0), 14.375, 1.0 / 16.0 + 0.001);
}

// Griffith, Carpentry (1916), secs. 38, 42: the plate tangent of an octagon, half a side for 12 of
// common run, is 4.97, "practically 5".
TEST(Octagon, PlateTangentPerFootOfCommonRun) {
  const double half_side_in =
      0.5 * part(planned(8, 12.0 * kInch_m, thin(0.5)), PartKind::beam, "A-B").line.planned /
      kInch_m;
  EXPECT_NEAR(half_side_in, 4.97, kTwoDecimals);
  EXPECT_NEAR(half_side_in, 5.0, 0.03);
}

// Griffith, Carpentry (1916), sec. 42: jacks of an octagon are 12/5 of those of a square plan
// at the same distance from the corner; exactly 2.41421, 12/5 being 0.6 % short.
TEST(Octagon, JacksAreTwelveFifthsOfThoseOfASquareAtTheSameDistanceFromTheCorner) {
  const double octagon = jack_difference_in(8, 24.0, 8.0 / 12.0);
  const double square = jack_difference_in(4, 24.0, 8.0 / 12.0);
  EXPECT_NEAR(octagon / square, 12.0 / 5.0, 0.006 * 12.0 / 5.0);
  EXPECT_NEAR(octagon / square, 2.41421, 0.000005);
}

// Griffith, sec. 42, second method: the common length over the number of spacings.
TEST(Octagon, DifferenceOfJacksIsTheCommonOverTheNumberOfSpacings) {
  Spec spec = thin(8.0 / 12.0);
  const double flat_radius_m = 10.0 * kFoot_m;
  spec.spacing_m = flat_radius_m * 4.97056 / 12.0 / 4.0;  // four spacings in half a side
  const Carry roof = planned(8, flat_radius_m, spec);
  const double common = part(roof, PartKind::common, "A-B").line.planned;
  EXPECT_NEAR(part(roof, PartKind::jack, "A-B right 3").line.planned, common / 4.0, 1e-5);
  EXPECT_NEAR(part(roof, PartKind::jack, "A-B right 1").line.planned, common * 0.75, 1e-5);
}

// Side cuts, same table: 12 on the arm along the stick, this figure on the other.  In print:
// 8 -> 10 for the jack (NAVEDTRA 14044, vol 2, to the inch); the other cells are from memory,
// each 144 over the common's and 203.65 over the hip's length.  The hips of a square roof that
// meet at the peak have the hip's side cut.
TEST(FramingSquare, SideCutsOfJacksAndHips) {
  const std::array<double, 17> jack = {11.84, 11.64, 11.38, 11.08, 10.73, 10.37, 9.98, 9.60, 9.22,
                                       8.85,  8.49,  8.14,  7.81,  7.50,  7.20,  6.92, 6.66};
  const std::array<double, 17> hip = {11.92, 11.82, 11.68, 11.51, 11.31, 11.09, 10.85, 10.60, 10.34,
                                      10.07, 9.80,  9.53,  9.26,  8.99,  8.73,  8.48,  8.23};
  for (std::size_t i = 0; i < jack.size(); ++i) {
    const Carry roof = planned(4, 3.0, thin((2.0 + static_cast<double>(i)) / 12.0));
    const auto figure_in = [&roof](PartKind kind, const char* at) {
      return 12.0 * cut(roof, kind, at, "cheek").setting.square;
    };
    EXPECT_NEAR(figure_in(PartKind::jack, "A-B left"), jack[i], kTwoDecimals) << i;
    EXPECT_NEAR(figure_in(PartKind::hip, "A left"), hip[i], kTwoDecimals) << i;
  }
}

// Griffith, sec. 41: plate tangent on one arm, the common's length per foot on the other, cut on
// the length; Hodgson, ABC of the Steel Square, pp. 24, 31: 5 & 14 1/2 at 8, 5 & 15 at 9.  The
// tangent 5 stands for 4.97 and the length is read to a half.
TEST(Octagon, JackSideCutIsThePlateTangentOnTheCommonsLength) {
  for (const auto& [rise, length_in] : {std::pair{8.0, 14.5}, std::pair{9.0, 15.0}}) {
    const Carry roof = planned(8, 3.0, thin(rise / 12.0));
    const double square = cut(roof, PartKind::jack, "A-B right", "cheek").setting.square;
    EXPECT_NEAR(square * length_in, 4.97, 0.03) << rise;
    EXPECT_NEAR(square * length_in, 5.0, 0.06) << rise;
  }
}

// Common practice, no source: five equal sides give 72 degrees at the center and 36 degrees
// each side of a rafter at the peak.
TEST(FiveSides, HaveThirtySixDegreesEachSideOfARafterAtThePeak) {
  const Carry roof = planned(5, 3.0, thin(5.0 / 12.0));
  EXPECT_NEAR(degrees(roof, PartKind::hip, "A left", "cheek"), 36.0, 1e-9);
  EXPECT_NEAR(degrees(roof, PartKind::hip, "A right", "cheek"), 36.0, 1e-9);
  const Cut& cheek = cut(roof, PartKind::hip, "A right", "cheek");
  EXPECT_NEAR(cheek.setting.bevel_rad / kDegree_rad, 54.0, 1e-9);
  EXPECT_TRUE(cheek.setting.past_tilt);
}

// Framing-square figures of polygon miters on 12 in, printed for six and eight sides in
// Hodgson, ABC of the Steel Square, p. 16 (to 1/16 and 1/32 in).
TEST(BeamMiter, OfSixAndEightSidesIsTheFigureOfTheFramingSquare) {
  const auto figure_in = [](int sides) {
    return 12.0 *
           cut(planned(sides, 3.0, thin(0.5)), PartKind::beam, "B-C left", "miter").setting.square;
  };
  EXPECT_NEAR(figure_in(6), 6.0 + 15.0 / 16.0, 1.0 / 32.0);
  EXPECT_NEAR(figure_in(8), 4.0 + 31.0 / 32.0, 1.0 / 64.0);
}

// NAVEDTRA 14044, p. 85: a jack is shortened by half the 45-degree thickness of the hip.
TEST(Shortening, OfAJackIsHalfTheDiagonalThicknessOfTheHip) {
  Spec spec;
  spec.pitch = 8.0 / 12.0;
  spec.hip_m = 0.038;
  const Part jack = part(planned(4, 3.0, spec), PartKind::jack, "A-B left 1");
  EXPECT_NEAR(1000.0 * jack.shortening_m * std::cos(std::atan(spec.pitch)), 26.87, kTwoDecimals);
}

}  // namespace
}  // namespace stakewright::roof

// Volumes of concrete against tables and rules of handbooks.
#include "stakewright/layout/pour.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <utility>
#include <vector>

#include "refusal.hpp"
#include "stakewright/base/error.hpp"

namespace stakewright::layout {
namespace {

constexpr double kInch_m = 0.0254;
constexpr double kFoot_m = 0.3048;
constexpr double kCubicYard_m3 = 0.764554857984;  // 0.9144³, exact
constexpr double kNearly = 1e-9;

/// A square with an area of so many square feet, and a slab over it.
Plan square_of(double square_feet) {
  Plan plan;
  plan.polygon = polygon_from(Size::floor_area, square_feet * kFoot_m * kFoot_m, 4);
  return plan;
}

Pour slab(double inches) {
  Pour pour;
  pour.slab_line = "plan line";
  pour.slab_thickness_m = inches * kInch_m;
  pour.waste = 0.0;
  return pour;
}

// What a cubic yard covers, as handbooks of concrete work table it: 324 over the thickness in
// inches gives the square feet; 4 in 81, 5 in 65, 6 in 54, 8 in 40-1/2 (from memory).
TEST(Pour, OfASlabIsACubicYardOverTheTabledSquareFeet) {
  const std::vector<std::pair<double, double>> table = {
      {4.0, 81.0}, {5.0, 65.0}, {6.0, 54.0}, {8.0, 40.5}};
  for (const auto& [inches, square_feet] : table) {
    const auto volumes = pour_volumes(square_of(square_feet), slab(inches));
    EXPECT_NEAR(volumes.slab_m3 / kCubicYard_m3, 1.0, 0.5 / square_feet) << inches;
    EXPECT_NEAR(volumes.net_m3, volumes.slab_m3, kNearly);
  }
}

// Cubic yards in a foot of a round column, as handbooks table them by inches of diameter (from
// memory).
TEST(Pour, OfPiersIsTheTabledVolumeOfRoundColumns) {
  const std::vector<std::pair<double, double>> table = {{8.0, 0.013},  {10.0, 0.020}, {12.0, 0.029},
                                                        {14.0, 0.040}, {16.0, 0.052}, {18.0, 0.065},
                                                        {24.0, 0.116}};
  for (const auto& [inches, cubic_yards] : table) {
    Pour pour;
    pour.piers = 6;
    pour.pier_diameter_m = inches * kInch_m;
    pour.pier_depth_m = 4.0 * kFoot_m;
    const double volume_m3 = pour_volumes(square_of(100.0), pour).piers_m3;
    EXPECT_NEAR(volume_m3 / (6.0 * 4.0) / kCubicYard_m3, cubic_yards, 0.0005) << inches;
  }
}

// Area of a hexagon is 0.8660, of an octagon 0.8284 of the square of its width across flats
// (Machinery's Handbook, properties of regular polygons, from memory).
TEST(Pour, OfASlabThatEndsAtALineTakesItsGroundFromThatLine) {
  const std::vector<std::pair<int, double>> shares = {{6, 0.8660}, {8, 0.8284}};
  for (const auto& [sides, share] : shares) {
    Plan plan;
    plan.polygon = polygon_from(Size::across_flats, 5.0, sides);
    plan.lines = {{"dig", 0.6}, {"slab_edge", 0.25}};  // 5.5 m across flats
    Pour pour;
    pour.slab_thickness_m = 0.1;
    const auto volumes = pour_volumes(plan, pour);
    EXPECT_NEAR(volumes.slab_area_m2, share * 5.5 * 5.5, 0.00005 * 5.5 * 5.5) << sides;
    EXPECT_NEAR(volumes.slab_m3, 0.1 * volumes.slab_area_m2, kNearly) << sides;
  }
}

// A square slab of 4 m with an edge 0.5 m wide: four strips of 0.5 by 3.5 m.
TEST(Pour, OfAThickenedEdgeIsTheStripBelowTheSlab) {
  Plan plan;
  plan.polygon = polygon_from(Size::side, 4.0, 4);
  Pour pour = slab(4.0);
  pour.edge_width_m = 0.5;
  pour.edge_depth_m = 0.2;
  EXPECT_NEAR(pour_volumes(plan, pour).edge_m3, 4 * 0.5 * 3.5 * 0.2, kNearly);
}

TEST(Pour, AddsUpWhatTheFormsHoldAndTheWasteOnTop) {
  Plan plan;
  plan.polygon = polygon_from(Size::side, 3.0, 4);
  Pour pour = slab(4.0);
  pour.piers = 4;
  pour.pier_diameter_m = 0.3;
  pour.pier_depth_m = 1.2;
  pour.pad_width_m = 0.6;
  pour.pad_thickness_m = 0.25;
  pour.waste = 0.1;
  const auto volumes = pour_volumes(plan, pour);
  EXPECT_NEAR(volumes.pads_m3, 4 * 0.6 * 0.6 * 0.25, kNearly);
  EXPECT_NEAR(volumes.net_m3, volumes.piers_m3 + volumes.pads_m3 + volumes.slab_m3, kNearly);
  EXPECT_NEAR(volumes.order_m3, 1.1 * volumes.net_m3, kNearly);
  EXPECT_NEAR(volumes.waste_m3, 0.1 * volumes.net_m3, kNearly);
  EXPECT_FALSE(volumes.bags.has_value());
}

// 45 bags of 0.6 cubic feet make a cubic yard, 27 cubic feet; a little more takes one bag more.
TEST(Pour, CountsWholeBags) {
  Pour pour = slab(4.0);
  pour.bag_yield_m3 = 0.6 * kFoot_m * kFoot_m * kFoot_m;
  EXPECT_EQ(pour_volumes(square_of(81.0), pour).bags, 45);
  EXPECT_EQ(pour_volumes(square_of(81.01), pour).bags, 46);
  EXPECT_EQ(pour_volumes(square_of(0.1), pour).bags, 1);
}

TEST(Pour, RefusesASlabWithoutALineAndAnEdgeWiderThanTheSlab) {
  Plan plan = square_of(100.0);
  Pour pour = slab(4.0);
  pour.slab_line = "slab_edge";
  EXPECT_THAT(refusal([&] { pour_volumes(plan, pour); }),
              testing::HasSubstr("no line \"slab_edge\" for the slab; accepted: plan line"));
  pour.slab_line = "plan line";
  pour.edge_width_m = 5.0 * kFoot_m;  // half of the 10 ft across
  pour.edge_depth_m = 0.2;
  EXPECT_THROW(pour_volumes(plan, pour), base::InputError);
}

}  // namespace
}  // namespace stakewright::layout

// Areas, offsets and clearances against GEOS, a geometry library that shares nothing with ours.
#include <geos_c.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <random>

#include "layout/random_plans.hpp"
#include "stakewright/layout/pour.hpp"
#include "stakewright/layout/surroundings.hpp"

namespace stakewright::layout {
namespace {

using base::Point;

class Geos {
 public:
  struct Free {
    GEOSContextHandle_t context;
    void operator()(GEOSGeometry* geometry) const { GEOSGeom_destroy_r(context, geometry); }
  };
  using Shape = std::unique_ptr<GEOSGeometry, Free>;

  Geos() : context_(GEOS_init_r()) {}
  ~Geos() { GEOS_finish_r(context_); }
  Geos(const Geos&) = delete;
  Geos& operator=(const Geos&) = delete;

  [[nodiscard]] Shape polygon(const std::vector<Point>& corners) const {
    return own(GEOSGeom_createPolygon_r(
        context_, GEOSGeom_createLinearRing_r(context_, closed(corners)), nullptr, 0));
  }
  [[nodiscard]] Shape edge(const std::vector<Point>& corners) const {
    return own(GEOSGeom_createLineString_r(context_, closed(corners)));
  }
  [[nodiscard]] Shape point(Point place) const {
    return own(GEOSGeom_createPointFromXY_r(context_, place.x_m, place.y_m));
  }
  [[nodiscard]] double area(const Shape& shape) const {
    double result = std::nan("");
    GEOSArea_r(context_, shape.get(), &result);
    return result;
  }
  [[nodiscard]] double distance(const Shape& a, const Shape& b) const {
    double result = std::nan("");
    GEOSDistance_r(context_, a.get(), b.get(), &result);
    return result;
  }
  /// Farthest that any point of one lies from the other.
  [[nodiscard]] double hausdorff(const Shape& a, const Shape& b) const {
    double result = std::nan("");
    GEOSHausdorffDistance_r(context_, a.get(), b.get(), &result);
    return result;
  }
  [[nodiscard]] Shape miterd(const Shape& shape, double offset) const {
    constexpr double kMiterLimit = 10.0;  // a triangle's corners go out by twice the offset
    return own(GEOSBufferWithStyle_r(context_, shape.get(), offset, 8, GEOSBUF_CAP_FLAT,
                                     GEOSBUF_JOIN_MITRE, kMiterLimit));
  }
  [[nodiscard]] bool within(const Shape& a, const Shape& b) const {
    return GEOSCoveredBy_r(context_, a.get(), b.get()) == 1;
  }
  [[nodiscard]] bool overlap(const Shape& a, const Shape& b) const {
    return GEOSIntersects_r(context_, a.get(), b.get()) == 1;
  }
  [[nodiscard]] int meeting_points(const Shape& a, const Shape& b) const {
    const Shape meeting = own(GEOSIntersection_r(context_, a.get(), b.get()));
    return GEOSisEmpty_r(context_, meeting.get()) == 1
               ? 0
               : GEOSGetNumGeometries_r(context_, meeting.get());
  }
  [[nodiscard]] bool simple(const Shape& shape) const {
    return GEOSisSimple_r(context_, shape.get()) == 1;
  }

 private:
  [[nodiscard]] Shape own(GEOSGeometry* geometry) const { return Shape(geometry, Free{context_}); }
  [[nodiscard]] GEOSCoordSequence* closed(const std::vector<Point>& corners) const {
    auto* sequence = GEOSCoordSeq_create_r(context_, static_cast<unsigned>(corners.size()) + 1, 2);
    for (unsigned i = 0; i <= corners.size(); ++i) {
      const Point corner = corners[i % corners.size()];
      GEOSCoordSeq_setXY_r(context_, sequence, i, corner.x_m, corner.y_m);
    }
    return sequence;
  }

  GEOSContextHandle_t context_;
};

TEST(AgainstGeos, AreasAreTheSame) {
  const Geos geos;
  for (const auto& [words, plan] : random_plans(200, 61)) {
    SCOPED_TRACE(words);
    const auto theirs = geos.area(geos.polygon(corners_of(plan.polygon, plan)));
    // GEOS sums over corners as far as 130 m from the origin.
    EXPECT_NEAR(area_m2(plan.polygon), theirs, 1e-9);
  }
}

TEST(AgainstGeos, ParallelLinesAreTheirMiterdOffsets) {
  const Geos geos;
  std::mt19937 random(62);
  std::uniform_real_distribution<double> share(-0.8, 1.5);
  for (const auto& [words, random_plan] : random_plans(100, 63)) {
    SCOPED_TRACE(words);
    Plan plan = random_plan;
    plan.lines = {{"line", share(random) * flat_radius_m(plan.polygon)}};
    const LineFigures ours = lines(plan)[0];
    const auto theirs =
        geos.miterd(geos.polygon(corners_of(plan.polygon, plan)), plan.lines[0].offset_m);
    EXPECT_NEAR(ours.area_m2, geos.area(theirs), 1e-9 * ours.area_m2 + 1e-8);
    EXPECT_LT(geos.hausdorff(geos.polygon(ours.corners), theirs), 1e-9);
  }
}

TEST(AgainstGeos, ThickenedEdgesAreTheStripBetweenTwoMiterdOffsets) {
  const Geos geos;
  for (const auto& [words, random_plan] : random_plans(50, 65)) {
    SCOPED_TRACE(words);
    Plan plan = random_plan;
    const double flat = flat_radius_m(plan.polygon);
    plan.lines = {{"slab_edge", 0.1 * flat}};
    Pour pour;
    pour.slab_thickness_m = 0.1;
    pour.edge_width_m = 0.3 * flat;
    pour.edge_depth_m = 0.2;
    const PourVolumes ours = pour_volumes(plan, pour);
    const auto plan_line = geos.polygon(corners_of(plan.polygon, plan));
    const double slab_m2 = geos.area(geos.miterd(plan_line, 0.1 * flat));
    const double within_m2 = geos.area(geos.miterd(plan_line, -0.2 * flat));
    EXPECT_NEAR(ours.slab_area_m2, slab_m2, 1e-9 * slab_m2 + 1e-8);
    EXPECT_NEAR(ours.edge_m3, 0.2 * (slab_m2 - within_m2), 1e-9 * slab_m2 + 1e-8);
  }
}

/// A star-shaped outline with corners at random bearings: never crosses itself, seldom convex.
std::vector<Point> random_outline(std::mt19937& random) {
  std::uniform_int_distribution<int> count(3, 9);
  std::uniform_real_distribution<double> radius(1.0, 9.0);
  std::uniform_real_distribution<double> place(-6.0, 6.0);
  std::uniform_real_distribution<double> part(-0.45, 0.45);
  const int corners = count(random);
  const Point center{place(random), place(random)};
  std::vector<Point> outline;
  for (int i = 0; i < corners; ++i)
    outline.push_back(center + radius(random) * base::along(2.0 * std::numbers::pi *
                                                            (i + part(random)) / corners));
  return outline;
}

constexpr double kSampled_m = 0.02;

/// Farthest that the sampled edges of a figure lie past an outline: on its inside or outside.
double sampled_reach(const Geos& geos, const std::vector<Point>& figure,
                     const std::vector<Point>& outline, bool inside) {
  const auto region = geos.polygon(outline);
  const auto edge = geos.edge(outline);
  double farthest = 0.0;
  for (std::size_t i = 0; i < figure.size(); ++i) {
    const Point a = figure[i];
    const Point b = figure[(i + 1) % figure.size()];
    const int steps = static_cast<int>(std::ceil(base::distance_m(a, b) / kSampled_m));
    for (int k = 0; k < steps; ++k) {
      const auto place = geos.point(a + (static_cast<double>(k) / steps) * (b - a));
      if (geos.within(place, region) == inside)
        farthest = std::max(farthest, geos.distance(place, edge));
    }
  }
  return farthest;
}

TEST(AgainstGeos, ClearancesOfRandomOutlinesAreTheSame) {
  const Geos geos;
  constexpr unsigned kSeed = 64;
  std::mt19937 random(kSeed);
  std::uniform_int_distribution<int> sides(3, 9);
  int crossing = 0;
  for (int trial = 0; trial < 120; ++trial) {
    SCOPED_TRACE(fmt::format("seed {}, outline {}", kSeed, trial));
    Plan plan;
    plan.polygon = {sides(random), 2.5};
    plan.keep_clear = {{"outline", trial % 2 == 0, random_outline(random)}};
    const KeepClear& keep = plan.keep_clear[0];
    ASSERT_TRUE(geos.simple(geos.edge(keep.outline)));
    const auto line = corners_of(plan.polygon, plan);
    const Clearance ours = clearances(plan)[0];
    const auto line_region = geos.polygon(line);
    const auto outline_region = geos.polygon(keep.outline);
    EXPECT_EQ(ours.crosses, keep.keep_inside ? !geos.within(line_region, outline_region)
                                             : geos.overlap(line_region, outline_region));
    const auto line_edge = geos.edge(line);
    const auto outline_edge = geos.edge(keep.outline);
    if (!ours.crosses) {
      EXPECT_NEAR(ours.distance_m, geos.distance(line_edge, outline_edge), 1e-9);
      EXPECT_EQ(ours.beyond_m, 0.0);
      continue;
    }
    ++crossing;
    EXPECT_EQ(static_cast<int>(ours.crossings.size()),
              geos.meeting_points(line_edge, outline_edge));
    for (const Point place : ours.crossings) {
      EXPECT_LT(geos.distance(geos.point(place), line_edge), 1e-9);
      EXPECT_LT(geos.distance(geos.point(place), outline_edge), 1e-9);
    }
    const double sampled = std::max(sampled_reach(geos, line, keep.outline, !keep.keep_inside),
                                    sampled_reach(geos, keep.outline, line, true));
    // The distance changes by no more than one walks: half a sample to the next.
    EXPECT_GE(ours.beyond_m, sampled - 1e-5);
    EXPECT_LE(ours.beyond_m, sampled + 0.5 * kSampled_m);
  }
  EXPECT_GT(crossing, 40);
  EXPECT_LT(crossing, 115);
}

}  // namespace
}  // namespace stakewright::layout

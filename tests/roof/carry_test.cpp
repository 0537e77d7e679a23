// The roof as planned: what is listed, and how its figures hang together.

#include <gmock/gmock.h>

#include <map>
#include <set>

#include "refusal.hpp"
#include "roof/roofs.hpp"
#include "roof/trade.hpp"

namespace stakewright::roof {
namespace {

/// Figures of meters from sums of a few steps: rounding of doubles, with room.
constexpr double kRounding = 1e-11;

TEST(PlannedRoof, HasOneHipACornerAndOneCommonAndFasciaASide) {
  for (int sides = 3; sides <= 48; ++sides) {
    Spec spec;
    spec.overhang_m = 0.4;
    const Carry roof = planned(sides, 4.0, spec);
    std::map<PartKind, std::set<Place>> places;
    for (const auto& one : roof.parts)
      EXPECT_TRUE(places[one.kind].insert(one.at).second) << text_from_part(one.name()) << " twice";
    const auto n = static_cast<std::size_t>(sides);
    EXPECT_EQ(places[PartKind::hip].size(), n);
    EXPECT_EQ(places[PartKind::common].size(), n);
    EXPECT_EQ(places[PartKind::fascia].size(), n);
    EXPECT_EQ(places[PartKind::beam].size(), n);
    EXPECT_EQ(roof.eaves.size(), n);
    EXPECT_TRUE(roof.remarks.empty());
  }
}

TEST(PlannedRoof, HasEveryPartOfAKindAlikeAndNothingFound) {
  for (const auto& site : random_sites(40, 301)) {
    SCOPED_TRACE(site.words);
    const Carry roof = carry(site.plan, site.plate_offset_m, site.spec, {}, std::nullopt);
    std::map<PartKind, Part> first;
    for (const auto& one : roof.parts) {
      EXPECT_FALSE(one.line.found || one.line.difference || one.line.uncertainty);
      EXPECT_EQ(one.fit, Fit::pattern);
      const Part& alike = first.emplace(one.kind, one).first->second;
      if (one.kind == PartKind::jack || one.kind == PartKind::blocking) continue;
      EXPECT_NEAR(one.line.planned, alike.line.planned, kRounding);
      EXPECT_NEAR(one.overall_m, alike.overall_m, kRounding);
    }
    std::map<std::pair<PartKind, CutName>, double> angles;
    for (const auto& one : roof.cuts) {
      const double alike =
          angles.emplace(std::pair{one.part, one.name}, one.angle.planned).first->second;
      EXPECT_NEAR(one.angle.planned, alike, kRounding)
          << name_of(one.name) << " at " << text_from_place(one.at);
    }
  }
}

TEST(PlannedRoof, StandsPitchTimesThePlatesFlatRadiusOverTheCenter) {
  for (const auto& site : random_sites(40, 302)) {
    const Carry roof = carry(site.plan, site.plate_offset_m, site.spec, {}, std::nullopt);
    const double flat_radius = layout::flat_radius_m(site.plan.polygon) + site.plate_offset_m;
    EXPECT_NEAR(roof.apex.height_m, site.spec.pitch * flat_radius, kRounding) << site.words;
    EXPECT_EQ(roof.apex.at, site.plan.center);
    // Run, rise and length of the common and of the hip make right triangles.
    EXPECT_NEAR(part(roof, PartKind::common, "A-B").line.planned,
                std::hypot(flat_radius, roof.apex.height_m), kRounding);
    EXPECT_NEAR(part(roof, PartKind::hip, "A").line.planned,
                std::hypot(flat_radius / std::cos(std::numbers::pi / site.plan.polygon.sides),
                           roof.apex.height_m),
                kRounding);
  }
}

TEST(PlannedRoof, PutsThePlannedOverhangAndDropUnderEveryEave) {
  for (const auto& site : random_sites(40, 303)) {
    const Carry roof = carry(site.plan, site.plate_offset_m, site.spec, {}, std::nullopt);
    for (const auto& eave : roof.eaves) {
      EXPECT_NEAR(eave.overhang.planned, site.spec.overhang_m, kRounding) << site.words;
      EXPECT_NEAR(eave.drop.planned, site.spec.overhang_m * site.spec.pitch, kRounding);
    }
    // The eave line is a side of the polygon with the overhang added to the flat radius.
    const double out =
        layout::flat_radius_m(site.plan.polygon) + site.plate_offset_m + site.spec.overhang_m;
    EXPECT_NEAR(part(roof, PartKind::fascia, "A-B").line.planned,
                2.0 * out * std::tan(std::numbers::pi / site.plan.polygon.sides), kRounding);
  }
}

TEST(Rafter, IsItsLineLessTheShorteningPlusTheTail) {
  for (const auto& site : random_sites(40, 304)) {
    const Carry roof = carry(site);
    for (const auto& one : roof.parts) {
      if (one.kind == PartKind::fascia || one.kind == PartKind::beam) continue;
      const double line = one.fit == Fit::own ? *one.line.found : one.line.planned;
      EXPECT_NEAR(one.overall_m, line - one.shortening_m + one.tail_m, kRounding) << site.words;
    }
  }
}

TEST(Rafter, TailIsTheOverhangAlongTheSlope) {
  Spec spec;
  spec.pitch = 0.75;  // 3-4-5: 0.4 m out is 0.5 m along a common
  spec.overhang_m = 0.4;
  const Carry roof = planned(4, 3.0, spec);
  EXPECT_NEAR(part(roof, PartKind::common, "C-D").tail_m, 0.5, kRounding);
  // A hip of a square roof goes out root two as far and drops as much.
  EXPECT_NEAR(part(roof, PartKind::hip, "C").tail_m, std::sqrt(2 * 0.16 + 0.09), kRounding);
}

TEST(Jacks, StandAtTheSpacingFromTheCommonUntilTheyAreTooShort) {
  // A side of 6 m: half of it, 3 m, takes six spacings of 0.45 m before the corner.
  Spec spec;
  spec.pitch = 0.75;
  spec.spacing_m = 0.45;
  spec.hip_m = 0.06;
  spec.shortest_jack_m = 0.0;
  const double flat_radius = 3.0 * std::numbers::sqrt3;
  const auto jacks = [&spec, flat_radius] {
    std::vector<std::string> places;
    for (const auto& one : planned(6, flat_radius, spec).parts)
      if (one.kind == PartKind::jack && one.at.corner == 0 && one.at.hand == Hand::left)
        places.push_back(text_from_place(one.at));
    return places;
  };
  EXPECT_THAT(jacks(), testing::ElementsAre("A-B left 1", "A-B left 2", "A-B left 3", "A-B left 4",
                                            "A-B left 5", "A-B left 6"));
  // The sixth stands 0.3 m from the corner: line 0.3 tan 60 * 1.25 = 0.6495 m, less the hip's
  // half thickness over sin 30, 0.06 * 1.25 = 0.075 m: 0.5745 m.
  const Part sixth = part(planned(6, flat_radius, spec), PartKind::jack, "A-B right 6");
  EXPECT_NEAR(sixth.line.planned - sixth.shortening_m, 0.5745, 0.0001);
  EXPECT_NEAR(sixth.from_corner_m, 5.7, kRounding);
  spec.shortest_jack_m = 0.58;
  EXPECT_EQ(jacks().size(), 5U);
  spec.spacing_m = 3.1;  // past half a side: none, and that is fine
  EXPECT_TRUE(jacks().empty());
}

TEST(Hub, KeepsTheHipsApartAndTakesTheCommonsAtItsCorners) {
  Spec spec;
  spec.pitch = 0.75;
  spec.hub_m = 0.20;
  const Carry roof = planned(6, 3.0, spec);
  // The corner of a six-sided hub 0.2 m across flats is 0.1 / cos 30 from its center.
  EXPECT_NEAR(part(roof, PartKind::common, "A-B").shortening_m,
              0.1 / std::cos(30.0 * kDegree_rad) * 1.25, kRounding);
  for (const auto& one : roof.cuts)
    EXPECT_FALSE(one.name == CutName::cheek && one.part != PartKind::jack)
        << text_from_place(one.at);
}

TEST(Hub, NarrowerThanTheHipsLetsThemMeetBesideIt) {
  Spec spec;
  spec.hub_m = 0.05;  // faces of 29 mm for hips of 63.5 mm
  const Carry roof = planned(6, 3.0, spec);
  EXPECT_NEAR(cut(roof, PartKind::hip, "A left", "cheek").angle.planned, 30.0 * kDegree_rad,
              kRounding);
  // Commons end where the hips' sides meet: half a hip over sin 30.
  EXPECT_NEAR(part(roof, PartKind::common, "A-B").shortening_m,
              spec.hip_m * std::hypot(1.0, spec.pitch), kRounding);
}

TEST(Hub, IsAsLongAsThePlumbCutsThatItTakesAndHasACornerASide) {
  Spec spec;
  spec.pitch = 0.75;
  spec.hub_m = 0.20;
  const Carry roof = planned(6, 3.0, spec);
  // Commons meet its corners 0.1 / cos 30 out: their tops lie 0.75 of that below the peak, and
  // each plumb cut is as long as the depth over the cosine of the slope, 0.8.
  EXPECT_NEAR(part(roof, PartKind::hub, "peak").overall_m,
              0.75 * 0.1 / std::cos(30.0 * kDegree_rad) + spec.rafter_depth_m / 0.8, kRounding);
  for (const char* side : {"A-B", "B-C", "C-D", "D-E", "E-F", "F-A"})
    EXPECT_NEAR(cut(roof, PartKind::hub, side, "rip").angle.planned, 30.0 * kDegree_rad, kRounding);
  spec.hub_m = 0.0;
  for (const auto& one : planned(6, 3.0, spec).parts) EXPECT_NE(one.kind, PartKind::hub);
}

TEST(TailCut, OfPlumbTailsIsPlumbAndTheHipsIsBevelledByHalfTheTurn) {
  Spec spec;
  spec.tail = Tail::plumb;
  const Carry roof = planned(6, 3.0, spec);
  const auto angle = [&roof](PartKind kind, const char* at, const char* name) {
    return cut(roof, kind, at, name).angle.planned;
  };
  EXPECT_NEAR(angle(PartKind::common, "A-B", "tail"), std::atan(0.5), kRounding);
  EXPECT_NEAR(angle(PartKind::hip, "A left", "tail"), angle(PartKind::hip, "A", "plumb"),
              kRounding);
  EXPECT_NEAR(angle(PartKind::hip, "A right", "tail bevel"), 30.0 * kDegree_rad, kRounding);
}

TEST(TailCut, OfSquareTailsIsSquareAndTheHipsFollowsTheLeaningFascia) {
  for (const double pitch : {0.25, 0.5, 1.0, 1.5}) {
    Spec spec;
    spec.pitch = pitch;
    const Carry roof = planned(6, 3.0, spec);
    EXPECT_EQ(cut(roof, PartKind::common, "A-B", "tail").angle.planned, 0.0);
    // The two boards meet in a line square to both slopes' falls.  In the upright plane of the
    // hip that line leans from plumb by the angle whose tangent is tan(slope) / cos 30; a cut
    // square to the hip leans by the hip's own slope, tan(slope) cos 30.
    const double line = std::atan(pitch / std::cos(30.0 * kDegree_rad));
    const double square = std::atan(pitch * std::cos(30.0 * kDegree_rad));
    EXPECT_NEAR(cut(roof, PartKind::hip, "A left", "tail").angle.planned, line - square, kRounding);
    // Across the hip: sine of the bevel is that of the half turn times the cosine of the slope.
    EXPECT_NEAR(std::sin(cut(roof, PartKind::hip, "A left", "tail bevel").angle.planned),
                0.5 * std::cos(std::atan(pitch)), kRounding);
  }
}

TEST(Seat, TakesAThirdOfTheDepthAtMostWhenNothingIsSaid) {
  Spec spec;
  for (const double pitch : {0.1, 0.3, 0.5, 2.0 / 3.0, 1.0, 2.0}) {
    spec.pitch = pitch;
    const Part common = part(planned(6, 3.0, spec), PartKind::common, "A-B");
    EXPECT_LE(common.notch_m, spec.rafter_depth_m / 3.0 + kRounding);
    const double slope = std::atan(pitch);
    const double seat_m = common.notch_m / std::sin(slope);
    EXPECT_LE(seat_m, 3.5 * kInch_m + kRounding);
    // By hand: plumb depth of the rafter less the plumb depth of the notch.
    EXPECT_NEAR(common.heel_m, spec.rafter_depth_m / std::cos(slope) - seat_m * pitch, kRounding);
  }
}

TEST(Seat, OfTheHipLeavesItsTopInTheFaces) {
  Spec spec;
  spec.seat_m = 0.06;
  const Carry roof = planned(6, 3.0, spec);
  const Part& hip = part(roof, PartKind::hip, "A");
  const Part& common = part(roof, PartKind::common, "A-B");
  EXPECT_EQ(hip.heel_m, common.heel_m);
  EXPECT_NEAR(common.notch_m, 0.06 * std::sin(std::atan(0.5)), kRounding);
  const double hip_slope = cut(roof, PartKind::hip, "A", "plumb").angle.planned;
  // What is left over the seat, plumb, is the heel.
  EXPECT_NEAR((spec.rafter_depth_m - hip.notch_m) / std::cos(hip_slope), common.heel_m, kRounding);
}

TEST(Settings, OfPlumbAndSeatCutsShowRiseOnRun) {
  Spec spec;
  spec.pitch = 8.0 / 12.0;
  const Carry roof = planned(6, 3.0, spec);
  for (const char* name : {"plumb", "seat"})
    EXPECT_NEAR(12.0 * cut(roof, PartKind::common, "A-B", name).setting.square, 8.0, kRounding);
  const Cut& plumb = cut(roof, PartKind::common, "A-B", "plumb");
  const Cut& seat = cut(roof, PartKind::common, "A-B", "seat");
  EXPECT_NEAR(plumb.setting.miter_rad + seat.setting.miter_rad, std::numbers::pi / 2, kRounding);
  EXPECT_FALSE(plumb.setting.past_tilt);
}

TEST(Settings, FlagABevelPastWhatCommonSawsTilt) {
  Spec spec;
  spec.tail = Tail::plumb;
  spec.overhang_m = 0.3;
  // Three sides meet at 60 degrees each board, four at 45, which the saw still does.
  EXPECT_TRUE(cut(planned(3, 3.0, spec), PartKind::fascia, "A-B left", "bevel").setting.past_tilt);
  EXPECT_FALSE(cut(planned(5, 3.0, spec), PartKind::fascia, "A-B left", "bevel").setting.past_tilt);
}

TEST(Settings, SetBackTheSecondLineOfACutThatNoSawTilts) {
  // Hips of six sides meet in cheeks 30 degrees to their middle, 60 degrees from square: the line
  // on the middle stands back by half the thickness times tan 60, square to the plumb line.
  const Carry six = planned(6, 3.0, {});
  EXPECT_NEAR(cut(six, PartKind::hip, "A left", "cheek").setting.set_back_m,
              0.5 * Spec{}.hip_m * std::tan(60.0 * kDegree_rad), kRounding);
  // A jack has one cheek, through its whole thickness.
  EXPECT_NEAR(cut(six, PartKind::jack, "A-B left", "cheek").setting.set_back_m,
              Spec{}.rafter_m * std::tan(60.0 * kDegree_rad), kRounding);
  // 45 degrees on four sides is a cut that saws still do.
  const Setting square = cut(planned(4, 3.0, {}), PartKind::hip, "A left", "cheek").setting;
  EXPECT_FALSE(square.past_tilt);
  EXPECT_EQ(square.set_back_m, 0.0);
}

TEST(SquareFigure, IsRiseOnTheTonguesArm) {
  EXPECT_NEAR(square_figure_m(std::atan(8.0 / 12.0), 12.0 * kInch_m), 8.0 * kInch_m, kRounding);
  EXPECT_NEAR(square_figure_m(std::atan(8.0 / 12.0), 0.250), 0.250 * 2.0 / 3.0, kRounding);
}

TEST(Fascia, IsLongestOnItsOuterTopEdge) {
  Spec spec;
  spec.overhang_m = 0.45;
  spec.tail = Tail::plumb;
  const Part upright = part(planned(6, 3.0, spec), PartKind::fascia, "A-B");
  // A board 19.05 mm thick, miterd 30 degrees at both ends, is longer outside by 2 t tan 30.
  EXPECT_NEAR(upright.overall_m - upright.line.planned,
              2.0 * spec.fascia_m * std::tan(30.0 * kDegree_rad), kRounding);
  spec.tail = Tail::square;
  spec.pitch = 0.75;
  const Part leaning = part(planned(6, 3.0, spec), PartKind::fascia, "A-B");
  // It leans back: its outer top edge is only t cos(slope) = 0.8 t further out.
  EXPECT_NEAR(leaning.overall_m - leaning.line.planned,
              2.0 * 0.8 * spec.fascia_m * std::tan(30.0 * kDegree_rad), kRounding);
}

TEST(Blocking, FillsThePlateBetweenRaftersUpToTheHip) {
  // Half a side of 3 m: jacks at 0.45, 0.90 … 2.70 m from the common, rafters 38.1 mm.
  Spec spec;
  spec.spacing_m = 0.45;
  spec.hip_m = 0.06;
  spec.shortest_jack_m = 0.0;
  const Carry roof = planned(6, 3.0 * std::numbers::sqrt3, spec);
  for (int k = 1; k <= 6; ++k)
    EXPECT_NEAR(part(roof, PartKind::blocking, "B-C right " + std::to_string(k)).line.planned,
                0.45 - 0.0381, kRounding);
  // The last one ends at the hip's side, which stands 60 degrees to the plate: half of 60 mm
  // over sin 60 from the corner.  3 - 2.7 - 0.01905 - 0.03464 = 0.24631 m.
  EXPECT_NEAR(part(roof, PartKind::blocking, "B-C left 7").line.planned, 0.24631, 0.00001);
  EXPECT_NEAR(cut(roof, PartKind::blocking, "B-C left", "miter").angle.planned, 30.0 * kDegree_rad,
              kRounding);
}

TEST(Sheathing, CoversTheFaceInCoursesUpToThePeak) {
  Spec spec;
  spec.pitch = 0.75;
  spec.overhang_m = 0.4;
  spec.course_m = 1.0;
  const Carry roof = planned(6, 3.2, spec);
  ASSERT_EQ(roof.sheets.size(), 6U);
  for (const auto& sheet : roof.sheets) {
    // Flat radius 3.6 m with the overhang: 4.5 m up the slope, on a base of 7.2 tan 30.
    const double base = 7.2 * std::tan(30.0 * kDegree_rad);
    EXPECT_NEAR(sheet.height.planned, 4.5, kRounding);
    EXPECT_NEAR(sheet.base.planned, base, kRounding);
    EXPECT_NEAR(sheet.area_m2, 0.5 * 4.5 * base, kRounding);
    EXPECT_NEAR(std::tan(sheet.left_edge.planned), 4.5 / (0.5 * base), kRounding);
    EXPECT_NEAR(sheet.right_edge.planned, sheet.left_edge.planned, kRounding);
    ASSERT_EQ(sheet.courses.size(), 5U);
    double area = 0.0;
    for (const auto& course : sheet.courses)
      area += 0.5 * (course.lower_m + course.upper_m) * std::min(1.0, 4.5 - course.up_m);
    EXPECT_NEAR(area, sheet.area_m2, kRounding);
    EXPECT_EQ(sheet.courses.back().upper_m, 0.0);
    // Half the hip, over the cosine of its backing: sine of the backing is sin 30 sin(slope).
    EXPECT_NEAR(sheet.unborne_m, 0.5 * spec.hip_m / std::cos(std::asin(0.5 * 0.6)), kRounding);
  }
}

TEST(Posts, AreLongerByWhatTheirFootingsAreLowerThanTheHighest) {
  Site site;
  site.plan = plan_of(4, 2.0);
  site.found.corners = layout::corners_of(site.plan.polygon, site.plan);
  site.found.covariance = base::Matrix(8, 8);
  site.spec.post_height_m = 2.4;
  Footings footings{{0.010, 0.025, 0.000, 0.024}, base::Matrix(4, 4)};
  for (std::size_t i = 0; i < 4; ++i) footings.covariance(i, i) = 1e-6;
  site.found.footings = footings;
  const Carry roof = carry(site);
  EXPECT_NEAR(*part(roof, PartKind::post, "A").line.found, 2.415, kRounding);
  EXPECT_NEAR(*part(roof, PartKind::post, "B").line.found, 2.400, kRounding);
  EXPECT_NEAR(*part(roof, PartKind::post, "C").line.found, 2.425, kRounding);
  // Two levels of 1 mm each: 1.96 times root two.
  EXPECT_NEAR(*part(roof, PartKind::post, "C").line.uncertainty, 0.0027718, 1e-7);
  EXPECT_EQ(*part(roof, PartKind::post, "B").line.uncertainty, 0.0);
  EXPECT_EQ(part(roof, PartKind::post, "B").fit, Fit::pattern);
  EXPECT_EQ(part(roof, PartKind::post, "D").fit, Fit::try_pattern);  // 1 mm and 2.8 mm of doubt
  EXPECT_NEAR(part(roof, PartKind::post, "C").overall_m, 2.425, kRounding);
  site.found.footings.reset();
  EXPECT_FALSE(part(carry(site), PartKind::post, "C").line.found);
  site.spec.post_height_m = 0.0;
  for (const auto& one : carry(site).parts) EXPECT_NE(one.kind, PartKind::post);
}

TEST(Remarks, AskTheDesignerAboutANotchPastAThirdOfTheDepth) {
  Spec spec;
  spec.pitch = 1.0;
  spec.seat_m = 0.0889;  // notch 62.9 mm of 139.7 mm
  EXPECT_THAT(told_in_english(planned(6, 3.0, spec).remarks),
              testing::ElementsAre(testing::HasSubstr("ask the designer")));
}

TEST(Remarks, LeaveTheUsualSeatAloneOverCornersALittleOff) {
  // The usual seat takes just a third of the depth.  A corner 10 mm in makes a common a shade
  // steeper, and its notch a shade deeper: nothing to ask anybody about.
  Site site;
  site.plan = plan_of(6, 3.0);
  site.spec.pitch = 8.0 / 12.0;
  site.found.corners = layout::corners_of(site.plan.polygon, site.plan);
  site.found.corners[2] =
      (1.0 - 0.010 / base::norm_m(site.found.corners[2])) * site.found.corners[2];
  site.found.covariance = base::Matrix(12, 12);
  const Carry roof = carry(site);
  EXPECT_GT(part(roof, PartKind::common, "C-D").notch_m, site.spec.rafter_depth_m / 3.0);
  EXPECT_THAT(roof.remarks, testing::IsEmpty());
}

TEST(Remarks, LeaveOutAJackThatTheCornersAsFoundHaveNoRoomFor) {
  // Half a side of 2 m; the fourth jack stands 0.2 m from the corner.  With C 0.3 m in along side
  // B-C it would start past the hip.
  Site site;
  site.plan = plan_of(4, 2.0);
  site.spec.spacing_m = 0.45;
  site.spec.shortest_jack_m = 0.0;
  site.found.corners = layout::corners_of(site.plan.polygon, site.plan);
  site.found.corners[2] = site.found.corners[2] + base::Point{0.0, 0.3};
  site.found.covariance = base::Matrix(8, 8);
  const Carry roof = carry(site);
  EXPECT_LT(part(roof, PartKind::jack, "B-C right 4").line.found.value(), 0.0);
  EXPECT_THAT(told_in_english(roof.remarks),
              testing::ElementsAre(testing::HasSubstr("B-C right 4 has no length left")));
}

TEST(Remarks, SayWhenHipsOfTheRaftersDepthDoNotReachThePlate) {
  Spec spec;
  spec.pitch = 4.0;  // a steeple on three sides: its hips lie at half the pitch
  EXPECT_THAT(told_in_english(planned(3, 3.0, spec).remarks),
              testing::ElementsAre(testing::HasSubstr("deeper stock")));
}

}  // namespace
}  // namespace stakewright::roof

// Roofs that cannot be: a spec that makes none is refused, corners found that bear none
// are remarked on.

#include <gmock/gmock.h>

#include <functional>
#include <limits>

#include "refusal.hpp"
#include "roof/roofs.hpp"
#include "stakewright/base/error.hpp"

namespace stakewright::roof {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::ThrowsMessage;

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
constexpr double kInfinite = std::numeric_limits<double>::infinity();

void expect_refused(const std::function<void(Spec&)>& spoil, const std::string& key) {
  Spec spec;
  spoil(spec);
  EXPECT_THAT([&] { planned(6, 2.0, spec); }, ThrowsMessage<base::InputError>(testing::AllOf(
                                                  HasSubstr(key), HasSubstr("accepted"))));
}

TEST(Spec, RefusesAPitchThatIsNoRoof) {
  for (const double pitch : {0.0, -0.5, kNan, kInfinite, std::tan(89.5 * kDegree_rad)})
    expect_refused([pitch](Spec& spec) { spec.pitch = pitch; }, "pitch");
}

TEST(Spec, RefusesStockThatIsNone) {
  for (const double none : {0.0, -0.1, kNan, kInfinite}) {
    expect_refused([none](Spec& spec) { spec.rafter_m = none; }, "rafter");
    expect_refused([none](Spec& spec) { spec.rafter_depth_m = none; }, "rafter_depth");
    expect_refused([none](Spec& spec) { spec.hip_m = none; }, "hip");
    expect_refused([none](Spec& spec) { spec.spacing_m = none; }, "spacing");
  }
}

TEST(Spec, RefusesLengthsBelowNothing) {
  for (const double bad : {-0.001, kNan, kInfinite}) {
    expect_refused([bad](Spec& spec) { spec.overhang_m = bad; }, "overhang");
    expect_refused([bad](Spec& spec) { spec.hub_m = bad; }, "hub");
    expect_refused([bad](Spec& spec) { spec.fascia_m = bad; }, "fascia");
    expect_refused([bad](Spec& spec) { spec.seat_m = bad; }, "seat");
  }
}

TEST(Spec, RefusesAnOverhangThatMeetsTheCenter) {
  expect_refused([](Spec& spec) { spec.overhang_m = -2.0; }, "overhang");
}

TEST(Spec, RefusesAHubWiderThanTheBuilding) {
  expect_refused([](Spec& spec) { spec.hub_m = 4.0; }, "hub");
}

TEST(Spec, RefusesAHubWhoseCornersReachThePlate) {
  // Six faces 3.5 m across: corners at 1.75 / cos 30 = 2.02 m, past plates 2 m from the center.
  expect_refused([](Spec& spec) { spec.hub_m = 3.5; }, "hub");
  Spec spec;
  spec.hub_m = 3.4;
  EXPECT_GT(part(planned(6, 2.0, spec), PartKind::common, "A-B").overall_m, 0.0);
}

TEST(Spec, RefusesMoreCoursesThanAnybodyNails) {
  for (const double course : {0.0, 1e-9, kNan, kInfinite})
    expect_refused([course](Spec& spec) { spec.course_m = course; }, "course");
}

TEST(Spec, SaysWhatIsAcceptedInTheUnitsOfTheJob) {
  Spec spec;
  spec.hub_m = 4.0;
  const layout::Polygon plate = plan_of(6, 2.0).polygon;
  EXPECT_EQ(fault_of({}, plate, base::Units::millimeters), std::nullopt);
  const auto metric = fault_of(spec, plate, base::Units::millimeters);
  EXPECT_EQ(metric->key, "hub");
  EXPECT_EQ(metric->read, "4000.0 mm");
  EXPECT_THAT(metric->accepted, HasSubstr("less than 3464.1 mm"));  // 4 m times cos 30
  EXPECT_THAT(fault_of(spec, plate, base::Units::feet_inches)->accepted,
              HasSubstr("less than 11' 4-3/8\""));
}

TEST(Spec, RefusesRaftersThickerThanTheirSpacing) {
  expect_refused([](Spec& spec) { spec.spacing_m = spec.rafter_m; }, "spacing");
}

TEST(Spec, RefusesMoreJacksThanAnybodyCuts) {
  expect_refused(
      [](Spec& spec) {
        spec.rafter_m = 0.001;
        spec.spacing_m = 0.002;
      },
      "jacks");
}

TEST(Spec, RefusesHipsThatFillTheRoof) {
  expect_refused([](Spec& spec) { spec.hip_m = 2.1; }, "hip");
}

TEST(Spec, RefusesASeatThatCutsTheRafterThrough) {
  expect_refused([](Spec& spec) { spec.seat_m = 0.5; }, "seat");
}

Carry with_corners(const std::vector<base::Point>& corners) {
  Site site;
  site.plan = plan_of(static_cast<int>(corners.size()), 2.0);
  site.found.corners = corners;
  site.found.covariance = base::Matrix(2 * corners.size(), 2 * corners.size());
  return carry(site);
}

std::vector<base::Point> planned_corners(int sides) {
  const layout::Plan plan = plan_of(sides, 2.0);
  return layout::corners_of(plan.polygon, plan);
}

void expect_planned_only(const Carry& roof, const std::string& reason) {
  EXPECT_THAT(told_in_english(roof.remarks),
              ElementsAre(testing::AllOf(HasSubstr(reason), HasSubstr("planned"))));
  for (const auto& one : roof.parts) EXPECT_FALSE(one.line.found);
  for (const auto& one : roof.cuts) EXPECT_FALSE(one.angle.found);
  EXPECT_FALSE(roof.parts.empty());
}

TEST(FoundCorners, ThatRunTheWrongWayRoundAreRemarkedOn) {
  auto corners = planned_corners(6);
  std::reverse(corners.begin(), corners.end());
  expect_planned_only(with_corners(corners), "wrong way round");
}

TEST(FoundCorners, WithADentAreRemarkedOnByTheCornersName) {
  auto corners = planned_corners(6);
  corners[2] = 0.3 * corners[2];
  expect_planned_only(with_corners(corners), "C");
}

TEST(FoundCorners, InOneStraightLineAreRemarkedOn) {
  auto corners = planned_corners(6);
  corners[2] = 0.5 * (corners[1] + corners[3]);
  expect_planned_only(with_corners(corners), "C");
}

TEST(FoundCorners, ChangedOverAreRemarkedOn) {
  auto corners = planned_corners(5);
  std::swap(corners[1], corners[2]);
  expect_planned_only(with_corners(corners), "do not bulge");
}

TEST(FoundCorners, ThatGoRoundTwiceAreRemarkedOn) {
  const auto once = planned_corners(5);
  expect_planned_only(with_corners({once[0], once[2], once[4], once[1], once[3]}),
                      "more than once");
}

TEST(FoundCorners, AtOnePlaceAreRemarkedOn) {
  auto corners = planned_corners(6);
  corners[3] = corners[2];
  expect_planned_only(with_corners(corners), "C and D");
}

TEST(FoundCorners, WithoutRoomForThePlateInsideThemAreRemarkedOn) {
  Site site;
  site.plan = plan_of(4, 2.0);
  site.plate_offset_m = -1.5;
  site.found.corners = {{-0.2, 2.0}, {0.2, 2.0}, {0.2, -2.0}, {-0.2, -2.0}};
  site.found.covariance = base::Matrix(8, 8);
  expect_planned_only(carry(site), "plate");
}

TEST(FoundCorners, WithThePinOutsideThemAreRemarkedOn) {
  Site site;
  site.plan = plan_of(4, 2.0);
  site.spec.apex_over = ApexOver::pin;
  site.found.corners = planned_corners(4);
  site.found.pin = base::Point{2.5, 0.0};
  site.found.covariance = base::Matrix(10, 10);
  expect_planned_only(carry(site), "not inside");
}

}  // namespace
}  // namespace stakewright::roof

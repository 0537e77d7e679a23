// The joints that open when everything is cut to the pattern.

#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "roof/roofs.hpp"
#include "roof/trade.hpp"

namespace stakewright::roof {
namespace {

constexpr double kRounding = 1e-10;

const Joint& joint(const Carry& roof, const std::string& at, const std::string& what) {
  for (const auto& one : roof.joints)
    if (text_from_place(one.at) == at && name_of(one.what) == what) return one;
  throw std::logic_error("no " + what + " at " + at);
}

/// A square shelter of 4 m sides, apex 1.5 m up, with corner A moved outward.
Site square_with_a_moved(double outward_m) {
  Site site;
  site.plan = plan_of(4, 2.0);
  site.spec.pitch = 0.75;
  site.spec.overhang_m = 0.4;
  site.found.corners = layout::corners_of(site.plan.polygon, site.plan);
  auto& a = site.found.corners[0];
  a = a + (outward_m / base::norm_m(a)) * a;
  site.found.covariance = base::Matrix(8, 8);
  return site;
}

TEST(Joints, AreOnlyThereWithFoundFiguresAndEachOnce) {
  Site site = random_sites(1, 601)[0];
  EXPECT_TRUE(carry(site.plan, 0.0, site.spec, {}, std::nullopt).joints.empty());
  std::set<std::pair<Place, JointName>> names;
  for (const auto& one : carry(site).joints)
    EXPECT_TRUE(names.insert({one.at, one.what}).second)
        << text_from_place(one.at) << ' ' << name_of(one.what);
  EXPECT_GT(names.size(), 10U);
}

TEST(Joints, AllCloseWhereTheCornersStandAsPlanned) {
  for (auto site : random_sites(20, 602)) {
    site.found.corners = layout::corners_of(site.plan.polygon, site.plan);
    site.found.pin = site.plan.center;
    site.found.covariance = base::Matrix(site.found.covariance.rows, site.found.covariance.cols);
    for (const auto& one : carry(site).joints) {
      EXPECT_NEAR(one.gap_m, 0.0, 1e-9) << site.words << ' ' << name_of(one.what);
      EXPECT_TRUE(one.closes);
    }
  }
}

TEST(Joints, OpenAtThePeakByWhatTheHipIsShortOf) {
  const Carry roof = carry(square_with_a_moved(0.020));
  // By hand: the hip's run grows from 2 root two by 20 mm.
  const double run = 2.0 * std::numbers::sqrt2;
  const double gap = std::hypot(run + 0.020, 1.5) - std::hypot(run, 1.5);
  EXPECT_NEAR(joint(roof, "A", "hip at the peak").gap_m, gap, kRounding);
  EXPECT_FALSE(joint(roof, "A", "hip at the peak").closes);
  EXPECT_TRUE(joint(roof, "C", "hip at the peak").closes);
  const double inward = joint(carry(square_with_a_moved(-0.020)), "A", "hip at the peak").gap_m;
  EXPECT_LT(inward, 0.0);  // too long: it has to be trimmed
}

TEST(Joints, OpenAtACornerByHalfOfWhatBothBoardsAreShortOf) {
  const Site site = square_with_a_moved(0.020);
  const Carry roof = carry(site);
  const auto& corners = site.found.corners;
  const double longer = base::distance_m(corners[0], corners[1]) - 4.0;
  EXPECT_NEAR(joint(roof, "A", "beam corner, along the beams").gap_m, longer, kRounding);
  EXPECT_NEAR(joint(roof, "B", "beam corner, along the beams").gap_m, 0.5 * longer, kRounding);
  EXPECT_NEAR(joint(roof, "C", "beam corner, along the beams").gap_m, 0.0, kRounding);
  // A level eave is the plate scaled from the apex by 2.4 to 2.0.
  EXPECT_NEAR(joint(roof, "A", "fascia corner, along the boards").gap_m, 1.2 * longer, kRounding);
}

TEST(Joints, StepByTheDifferenceOfTheirDropsWhereTheOverhangIsKeptEven) {
  Site site = square_with_a_moved(0.020);
  const auto steps = [](const Carry& roof) {
    return std::count_if(roof.joints.begin(), roof.joints.end(),
                         [](const Joint& one) { return one.what == JointName::fascia_step; });
  };
  EXPECT_EQ(steps(carry(site)), 0);  // a level eave has none
  site.spec.eave = Eave::even;
  // B moves along side A-B, away from A: B-C alone comes further from the apex, and is flatter.
  site.found.corners = layout::corners_of(site.plan.polygon, site.plan);
  const base::Point along = site.found.corners[1] - site.found.corners[0];
  site.found.corners[1] = site.found.corners[1] + (0.020 / base::norm_m(along)) * along;
  const Carry roof = carry(site);
  EXPECT_EQ(steps(roof), 4);
  const double run = trade::run_m(site.found.corners[1], site.found.corners[2], {0.0, 0.0});
  const double drop = 0.4 * 1.5 / run;  // overhang times the face's own pitch
  EXPECT_NEAR(joint(roof, "B", "fascia corner, step").gap_m, drop - 0.4 * 0.75, kRounding);
  EXPECT_NEAR(joint(roof, "C", "fascia corner, step").gap_m, 0.4 * 0.75 - drop, kRounding);
}

TEST(Joints, OpenAcrossAMiterByWhatBothCutsAreOff) {
  const Site site = square_with_a_moved(0.020);
  const Carry roof = carry(site);
  const double turn =
      trade::turn_rad(site.found.corners[3], site.found.corners[0], site.found.corners[1]);
  // The face of a 45-degree miter across a beam is root two of its thickness.
  EXPECT_NEAR(joint(roof, "A", "beam corner, across the thickness").gap_m,
              (turn - std::numbers::pi / 2) * site.spec.beam_m * std::numbers::sqrt2, 1e-9);
  // Both fascia bevels at A are off alike; the roof is the same left and right of it.
  const double off = *cut(roof, PartKind::fascia, "A-B left", "bevel").angle.difference;
  EXPECT_NEAR(joint(roof, "A", "fascia corner, across the thickness").gap_m,
              2.0 * off * site.spec.fascia_m, kRounding);
}

TEST(Joints, LetASheetRunOffTheHipTowardsThePeak) {
  const Site site = square_with_a_moved(0.020);
  const Carry roof = carry(site);
  // The sheet's edge angle by the law of cosines in the triangle of corner, corner and apex.
  const double a = base::distance_m(site.found.corners[0], site.found.corners[1]);
  const double b = std::hypot(base::norm_m(site.found.corners[0]), 1.5);
  const double c = std::hypot(base::norm_m(site.found.corners[1]), 1.5);
  const double found = std::acos((a * a + b * b - c * c) / (2.0 * a * b));
  const double hip = std::hypot(2.0 * std::numbers::sqrt2, 1.5);
  const double planned = std::acos(2.0 / hip);
  EXPECT_NEAR(joint(roof, "A right", "sheathing edge at the peak").gap_m,
              (found - planned) * 1.2 * hip, 1e-9);
  EXPECT_NEAR(joint(roof, "A left", "sheathing edge at the peak").gap_m,
              joint(roof, "A right", "sheathing edge at the peak").gap_m, kRounding);
}

TEST(Joints, CloseOnlyWhenGapAndDoubtStayWithinThePartTolerance) {
  for (const auto& site : random_sites(20, 603))
    for (const auto& one : carry(site).joints)
      EXPECT_EQ(one.closes, std::abs(one.gap_m) + one.uncertainty_m <= base::Tolerance{}.part_m)
          << site.words << ' ' << name_of(one.what);
}

TEST(Joints, DoubtOfACornerCountsBothBoardsTogether) {
  // Corner B alone is in doubt, along side A-B.  Both beams change with it, so that the doubt of
  // the joint at B is that of half the sum of the two, not of the two apart.
  Site site;
  site.plan = plan_of(4, 2.0);
  site.found.corners = {{-2.0, 2.0}, {2.0, 2.0}, {2.0, -2.0}, {-2.0, -2.0}};
  site.found.covariance = base::Matrix(8, 8);
  site.found.covariance(2, 2) = 4e-6;  // 2 mm along A-B, square to B-C
  const Carry roof = carry(site);
  // A-B grows as B moves, B-C does not to first order: half of 1.96 times 2 mm.
  EXPECT_NEAR(joint(roof, "B", "beam corner, along the beams").uncertainty_m, 1.959964 * 0.001,
              1e-8);
  site.found.covariance(3, 3) = 4e-6;
  site.found.covariance(2, 3) = site.found.covariance(3, 2) = -4e-6;
  // B moving right lengthens A-B, moving forward lengthens B-C: with opposite signs they cancel.
  EXPECT_NEAR(joint(carry(site), "B", "beam corner, along the beams").uncertainty_m, 0.0, 1e-9);
}

}  // namespace
}  // namespace stakewright::roof

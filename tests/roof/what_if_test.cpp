// What if: sensitivity to one corner, moves made, play of the post bases used.

#include "stakewright/roof/what_if.hpp"

#include <gmock/gmock.h>

#include "roof/roofs.hpp"
#include "roof/trade.hpp"
#include "stakewright/roof/sensitivity.hpp"

namespace stakewright::roof {
namespace {

const Answer* answer_of(const std::vector<Answer>& answers, PartKind kind, const std::string& at,
                        const std::string& name) {
  for (const auto& one : answers)
    if (one.part == kind && text_from_place(one.at) == at &&
        (one.cut ? name_of(*one.cut) : "") == name)
      return &one;
  return nullptr;
}

TEST(Sensitivity, IsTheCentralDifferenceOfTheCarry) {
  constexpr double kStep_m = 1e-4;
  for (auto site : random_sites(12, 801, 8)) {
    SCOPED_TRACE(site.words);
    site.found.pin = site.plan.center;
    const auto planned_corners = layout::corners_of(site.plan.polygon, site.plan);
    const std::size_t corner = planned_corners.size() - 1;
    const auto answers = sensitivity(site.plan, site.plate_offset_m, site.spec, corner);
    const base::Point radius = planned_corners[corner] - site.plan.center;
    const base::Point outward = (1.0 / base::norm_m(radius)) * radius;
    const auto shifted = [&](base::Point shift) {
      Site moved = site;
      moved.found.corners = planned_corners;
      moved.found.corners[corner] = planned_corners[corner] + shift;
      return carry(moved);
    };
    for (const bool sideways : {false, true}) {
      const base::Point way = sideways ? base::clockwise(outward) : outward;
      const Carry up = shifted(kStep_m * way);
      const Carry down = shifted(-kStep_m * way);
      const auto expect = [&](PartKind kind, const Place& place, const std::string& name,
                              double one, double other) {
        const std::string at = text_from_place(place);
        const Answer* answer = answer_of(answers, kind, at, name);
        const double told =
            answer == nullptr ? 0.0 : (sideways ? answer->sideways : answer->outward);
        EXPECT_NEAR(told, (one - other) / (2.0 * kStep_m), 1e-7) << at << ' ' << name;
      };
      for (std::size_t i = 0; i < up.parts.size(); ++i)
        expect(up.parts[i].kind, up.parts[i].at, "", *up.parts[i].line.found,
               *down.parts[i].line.found);
      for (std::size_t i = 0; i < up.cuts.size(); ++i)
        expect(up.cuts[i].part, up.cuts[i].at, std::string(name_of(up.cuts[i].name)),
               *up.cuts[i].angle.found, *down.cuts[i].angle.found);
    }
  }
}

TEST(Sensitivity, TellsOnlyOfWhatIsNearTheCorner) {
  const auto answers = sensitivity(plan_of(8, 3.0), 0.0, {}, 0);
  EXPECT_NE(answer_of(answers, PartKind::hip, "A", ""), nullptr);
  EXPECT_NE(answer_of(answers, PartKind::common, "A-B", ""), nullptr);
  EXPECT_NE(answer_of(answers, PartKind::common, "H-A", ""), nullptr);
  EXPECT_EQ(answer_of(answers, PartKind::common, "C-D", ""), nullptr);
  EXPECT_EQ(answer_of(answers, PartKind::hip, "E", ""), nullptr);
  // The hip grows by its run over its length, sideways does nothing to it.
  const Answer& hip = *answer_of(answers, PartKind::hip, "A", "");
  const double run = 3.0 / std::cos(22.5 * kDegree_rad);
  EXPECT_NEAR(hip.outward, run / std::hypot(run, 1.5), 1e-12);
  EXPECT_NEAR(hip.sideways, 0.0, 1e-12);
}

TEST(CornerNeed, IsWhereTheFirstPieceStopsFitting) {
  for (const int sides : {4, 5, 6, 8}) {
    const layout::Plan plan = plan_of(sides, 3.0);
    Spec spec;
    spec.pitch = 8.0 / 12.0;
    spec.overhang_m = 0.45;
    const base::Tolerance tolerance;
    const CornerNeed need = corner_need(plan, 0.0, spec, tolerance.part_m);
    EXPECT_LT(need.together_m, need.alone_m);
    // One corner off by nearly that much, in every direction: all from the pattern; by a little
    // more, in some direction: not all.
    const auto own_pieces = [&](double off_m, int way) {
      Site site;
      site.plan = plan;
      site.spec = spec;
      site.found.corners = layout::corners_of(plan.polygon, plan);
      site.found.corners[0] = site.found.corners[0] + off_m * base::along(way * 5.0 * kDegree_rad);
      const auto n = site.found.corners.size();
      site.found.covariance = base::Matrix(2 * n, 2 * n);
      const Outcome told = outcome(carry(site));
      return told.own_parts + told.own_cuts;
    };
    int worst = 0;
    for (int way = 0; way < 72; ++way) {
      EXPECT_EQ(own_pieces(0.98 * need.alone_m, way), 0) << sides << " sides, way " << way;
      worst = std::max(worst, own_pieces(1.02 * need.alone_m, way));
    }
    EXPECT_GT(worst, 0) << sides;
  }
}

TEST(Outcome, CountsAndNamesTheWorst) {
  const Outcome nothing = outcome(planned(6, 3.0, {}));
  EXPECT_FALSE(nothing.worst_part || nothing.worst_joint);
  EXPECT_EQ(nothing.own_parts, 0);
  Site site;
  site.plan = plan_of(6, 3.0);
  site.found.corners = layout::corners_of(site.plan.polygon, site.plan);
  site.found.covariance = base::Matrix(12, 12);
  site.spec.spacing_m = 10.0;  // no jacks
  site.found.corners[2] = 1.01 * site.found.corners[2];
  const Outcome told = outcome(carry(site));
  EXPECT_EQ(told.worst_part->kind, PartKind::hip);
  EXPECT_EQ(told.worst_part->at, Place::at_corner(2));
  EXPECT_GT(told.open_joints, 0);
  EXPECT_GT(told.own_parts, 1);
  EXPECT_LT(told.own_parts, told.parts);
}

TEST(AfterMoves, StandsMovedCornersInTheirPlacesAndKeepsTheOthers) {
  const Site site = random_sites(1, 802)[0];
  placement::Move move;
  move.corner = 1;
  const FoundCorners after = after_moves(site.plan, site.found, {move}, 0.002);
  const auto planned_corners = layout::corners_of(site.plan.polygon, site.plan);
  EXPECT_EQ(after.corners[1], planned_corners[1]);
  EXPECT_EQ(after.corners[0], site.found.corners[0]);
  EXPECT_EQ(after.corners[2], site.found.corners[2]);
  EXPECT_NEAR(after.covariance(2, 2), 4e-6, 1e-18);
  EXPECT_NEAR(after.covariance(3, 3), 4e-6, 1e-18);
  EXPECT_EQ(after.covariance(2, 3), 0.0);
  EXPECT_EQ(after.covariance(0, 2), 0.0);
  EXPECT_EQ(after.covariance(5, 3), 0.0);
  EXPECT_EQ(after.covariance(0, 0), site.found.covariance(0, 0));
}

TEST(AfterMoves, BringsTheRoofBackToThePattern) {
  Site site;
  site.plan = plan_of(6, 3.0);
  site.found.corners = layout::corners_of(site.plan.polygon, site.plan);
  site.found.covariance = base::Matrix(12, 12);
  site.found.corners[4] = 1.008 * site.found.corners[4];
  const Outcome left = outcome(carry(site));
  placement::Move move;
  move.corner = 4;
  site.found = after_moves(site.plan, site.found, {move}, 0.0);
  const Outcome moved = outcome(carry(site));
  EXPECT_GT(left.open_joints, 0);
  EXPECT_EQ(moved.open_joints, 0);
  EXPECT_EQ(moved.own_parts + moved.own_cuts, 0);
}

double off_plan(const layout::Plan& plan, const std::vector<base::Point>& corners) {
  const auto planned_corners = layout::corners_of(plan.polygon, plan);
  double sum = 0.0;
  for (std::size_t i = 0; i < corners.size(); ++i)
    sum += std::pow(base::distance_m(corners[i], planned_corners[i]), 2);
  return sum;
}

TEST(BasePlay, MakesThePlateRegularWhereItReaches) {
  for (const auto& site : random_sites(30, 803)) {
    SCOPED_TRACE(site.words);
    const BasePlay play = with_base_play(site.plan, site.found, 0.2);
    for (const auto& off : play.off) EXPECT_LE(off.distance_m, 0.2);
    EXPECT_LT(off_plan(site.plan, play.corners.corners), 1e-16);
  }
}

TEST(BasePlay, NeverStandsAPostFurtherOffThanThePlayAndUsesItWhereItHelps) {
  constexpr double kPlay_m = 0.006;
  for (const auto& site : random_sites(30, 804)) {
    SCOPED_TRACE(site.words);
    const BasePlay none = with_base_play(site.plan, site.found, 0.0);
    const BasePlay play = with_base_play(site.plan, site.found, kPlay_m);
    for (const auto& off : none.off) EXPECT_EQ(off.distance_m, 0.0);
    for (const auto& off : play.off) EXPECT_LE(off.distance_m, kPlay_m + 1e-12);
    EXPECT_LE(off_plan(site.plan, play.corners.corners),
              off_plan(site.plan, none.corners.corners) + 1e-15);
  }
}

TEST(BasePlay, SaysWhichWayEachPostStandsOff) {
  // One corner 8 mm outward, the others true: its post stands in by about as much, and never
  // sideways; its neighbors, alike by symmetry, stand off in a mirror.
  Site site;
  site.plan = plan_of(6, 3.0);
  site.found.corners = layout::corners_of(site.plan.polygon, site.plan);
  site.found.covariance = base::Matrix(12, 12);
  site.found.corners[1] =
      (1.0 + 0.008 / base::norm_m(site.found.corners[1])) * site.found.corners[1];
  const BasePlay play = with_base_play(site.plan, site.found, 0.010);
  EXPECT_LT(play.off[1].outward_m, -0.004);
  EXPECT_NEAR(play.off[1].sideways_m, 0.0, 1e-9);
  EXPECT_NEAR(play.off[0].sideways_m, -play.off[2].sideways_m, 1e-9);
  EXPECT_NEAR(play.off[0].outward_m, play.off[2].outward_m, 1e-9);
  for (const auto& off : play.off)
    EXPECT_NEAR(std::hypot(off.outward_m, off.sideways_m), off.distance_m, 1e-12);
}

Outcome with_worst(double difference_m, double gap_m) {
  Outcome outcome;
  outcome.worst_part = Part{};
  outcome.worst_part->line.difference = difference_m;
  outcome.worst_part->line.uncertainty = 0.001;
  outcome.worst_joint = Joint{};
  outcome.worst_joint->gap_m = gap_m;
  outcome.worst_joint->uncertainty_m = 0.001;
  return outcome;
}

TEST(LeastWork, IsTheFirstWayThatIsAsGoodAsTheBestWithinThePartTolerance) {
  constexpr double kPart_m = 0.0015;
  const auto serves = [](const std::vector<Outcome>& ways) {
    return least_work_that_serves(ways, kPart_m);
  };
  EXPECT_EQ(serves({with_worst(0.002, 0.003), with_worst(0.001, 0.002)}), 0U);
  EXPECT_EQ(serves({with_worst(0.002, 0.020), with_worst(0.001, 0.002)}), 1U);
  EXPECT_EQ(serves({with_worst(-0.020, 0.0), with_worst(0.003, 0.003), with_worst(0.002, 0.002)}),
            1U);
  EXPECT_EQ(serves({with_worst(0.020, 0.0), with_worst(0.010, 0.003), with_worst(0.002, 0.002)}),
            2U);
  EXPECT_EQ(serves({with_worst(0.002, 0.002), with_worst(0.020, 0.0)}), 0U);
  EXPECT_EQ(serves({Outcome{}, with_worst(0.020, 0.0)}), 1U);
  EXPECT_EQ(serves({Outcome{}}), 0U);
}

TEST(BasePlay, LaysThePlanWithoutChangingTheShapeOfWhatWasFound) {
  for (const auto& site : random_sites(30, 805)) {
    SCOPED_TRACE(site.words);
    const BasePlay none = with_base_play(site.plan, site.found, 0.0);
    const std::size_t n = site.found.corners.size();
    for (std::size_t i = 0; i < n; ++i)
      EXPECT_NEAR(base::distance_m(none.corners.corners[i], none.corners.corners[(i + 1) % n]),
                  base::distance_m(site.found.corners[i], site.found.corners[(i + 1) % n]), 1e-12);
    EXPECT_LE(off_plan(site.plan, none.corners.corners),
              off_plan(site.plan, site.found.corners) + 1e-15);
    // The roof over it is the same roof: the plan's laying is a matter of words, when the apex
    // stands over the pin.
    Site laid = site;
    laid.spec.apex_over = ApexOver::pin;
    const Carry before = carry(laid);
    laid.found = none.corners;
    const Carry after = carry(laid);
    for (std::size_t i = 0; i < before.parts.size(); ++i) {
      EXPECT_NEAR(*before.parts[i].line.found, *after.parts[i].line.found, 1e-10);
      EXPECT_NEAR(*before.parts[i].line.uncertainty, *after.parts[i].line.uncertainty, 1e-10);
    }
  }
}

}  // namespace
}  // namespace stakewright::roof

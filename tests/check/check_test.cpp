// The whole way, by stories of a crew with a few steel tapes.
#include "stakewright/check/check.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "crew.hpp"
#include "refusal.hpp"
#include "stakewright/base/error.hpp"

namespace stakewright::check {
namespace {

using placement::Verdict;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::SizeIs;

using Overall = check::Verdict;

class CheckOfSides : public testing::TestWithParam<int> {};
INSTANTIATE_TEST_SUITE_P(Shelters, CheckOfSides, testing::Values(5, 6, 8));

TEST_P(CheckOfSides, FindsNothingWrongWhereNothingIs) {
  Crew crew(GetParam(), 101);
  crew.set_stakes(0.0005).pull_sides_and_diagonals().pull_corner_radii();
  const Findings findings = check(crew.input());
  EXPECT_EQ(findings.verdict, Overall::in);
  EXPECT_EQ(exit_status(findings.verdict), 0);
  EXPECT_THAT(corners_with(findings, Verdict::in), SizeIs(GetParam()));
  EXPECT_THAT(findings.moves, IsEmpty());
  EXPECT_THAT(findings.tape_next, IsEmpty());
  EXPECT_THAT(findings.slips.excluded, IsEmpty());
}

TEST_P(CheckOfSides, SendsTheOneStakeThatIsAnInchOffAndNoOther) {
  Crew crew(GetParam(), 102);
  crew.set_stakes(0.0005).set_wrong("C", 0.6 * kInch_m, -0.8 * kInch_m);
  crew.pull_sides_and_diagonals().pull_corner_radii();
  const Findings findings = check(crew.input());
  EXPECT_EQ(findings.verdict, Overall::out);
  EXPECT_EQ(exit_status(findings.verdict), 1);
  EXPECT_THAT(corners_with(findings, Verdict::out), ElementsAre("C"));
  EXPECT_THAT(findings.slips.excluded, IsEmpty());
  ASSERT_THAT(findings.moves, SizeIs(1));
  const placement::Move& move = findings.moves[0];
  EXPECT_EQ(findings.network.points[move.corner].label, "C");
  EXPECT_NEAR(move.outward_m, -0.6 * kInch_m, 0.004);
  EXPECT_NEAR(move.sideways_m, 0.8 * kInch_m, 0.004);
  ASSERT_THAT(move.tapes, SizeIs(2));
  EXPECT_GT(move.predicted_chance_in, 0.9);
}

// Made as told, with the two tapes alone: the stake then stands in.
TEST_P(CheckOfSides, GivesTapesThatBringTheStakeInWhenPulled) {
  Crew crew(GetParam(), 103);
  crew.set_stakes(0.0005).set_wrong("D", -0.5 * kInch_m, kInch_m);
  crew.pull_sides_and_diagonals().pull_corner_radii();
  const Findings before = check(crew.input());
  ASSERT_THAT(before.moves, SizeIs(1));
  const auto& tapes = before.moves[0].tapes;
  ASSERT_THAT(tapes, SizeIs(2));
  // Newton's steps to where both tapes read as told, from true place to true place.
  base::Point& d = crew.place("D");
  const base::Point a = crew.place(before.network.points[tapes[0].from].label);
  const base::Point b = crew.place(before.network.points[tapes[1].from].label);
  for (int step = 0; step < 10; ++step) {
    const base::Point u = (1.0 / base::distance_m(a, d)) * (d - a);
    const base::Point v = (1.0 / base::distance_m(b, d)) * (d - b);
    const double miss_a = tapes[0].length_m - base::distance_m(a, d);
    const double miss_b = tapes[1].length_m - base::distance_m(b, d);
    const double area = u.x_m * v.y_m - u.y_m * v.x_m;
    d = d + base::Point{(miss_a * v.y_m - miss_b * u.y_m) / area,
                        (miss_b * u.x_m - miss_a * v.x_m) / area};
  }
  crew.input().readings.clear();
  crew.pull_sides_and_diagonals().pull_corner_radii();
  EXPECT_EQ(check(crew.input()).verdict, Overall::in);
}

TEST_P(CheckOfSides, LeavesOutATapeThatIsMisreadByAFootAndSaysSo) {
  Crew crew(GetParam(), 104);
  crew.set_stakes(0.0005).pull_sides_and_diagonals().pull_corner_radii();
  crew.misread("B", "D", kFoot_m);
  const Findings findings = check(crew.input());
  EXPECT_EQ(findings.verdict, Overall::in);
  EXPECT_EQ(exit_status(findings.verdict), 0);
  EXPECT_THAT(findings.slips.excluded, ElementsAre(crew.index_of("B", "D")));
  EXPECT_TRUE(findings.used.readings_out[crew.index_of("B", "D")].excluded);
  EXPECT_THAT(findings.moves, IsEmpty());
  EXPECT_THAT(told_in_english(findings.remarks),
              Contains(testing::AllOf(HasSubstr("The tape B–D was left out"), HasSubstr("long"),
                                      HasSubstr("kept, it would make"))));
}

TEST_P(CheckOfSides, TellsAMisreadTapeFromAMisplacedStakeWhereBothAreThere) {
  Crew crew(GetParam(), 105);
  crew.set_stakes(0.0005).set_wrong("E", kInch_m, 0.5 * kInch_m);
  crew.pull_sides_and_diagonals().pull_corner_radii();
  crew.misread("A", "B", -4.0 * kInch_m);
  const Findings findings = check(crew.input());
  EXPECT_EQ(findings.verdict, Overall::out);
  EXPECT_THAT(findings.slips.excluded, ElementsAre(crew.index_of("A", "B")));
  EXPECT_THAT(corners_with(findings, Verdict::out), ElementsAre("E"));
  ASSERT_THAT(findings.moves, SizeIs(1));
  EXPECT_NEAR(findings.moves[0].outward_m, -kInch_m, 0.004);
  EXPECT_THAT(told_in_english(findings.remarks),
              Contains(testing::AllOf(HasSubstr("The tape A–B was left out"), HasSubstr("short"))));
  // Beside it for comparison, and never the basis of a move.
  ASSERT_TRUE(findings.least_squares.has_value());
  EXPECT_THAT(findings.least_squares->kept, SizeIs(GetParam()));
}

TEST_P(CheckOfSides, CannotTellFromTheSidesAlone) {
  Crew crew(GetParam(), 106);
  crew.set_stakes(0.0005).pull_sides();
  const Findings findings = check(crew.input());
  EXPECT_EQ(findings.verdict, Overall::undecided);
  EXPECT_EQ(exit_status(findings.verdict), 3);
  EXPECT_EQ(findings.used.status, adjustment::Status::shape_not_fixed);
  EXPECT_THAT(findings.used.loose, Not(IsEmpty()));
  EXPECT_THAT(corners_with(findings, Verdict::out), IsEmpty());
  EXPECT_THAT(findings.moves, IsEmpty());
  EXPECT_FALSE(found_for_roof(findings).has_value());
}

TEST(Check, CannotTellWithoutReadings) {
  Crew crew(6, 107);
  const Findings findings = check(crew.input());
  EXPECT_EQ(findings.verdict, Overall::undecided);
  EXPECT_EQ(findings.used.status, adjustment::Status::no_readings);
  EXPECT_FALSE(findings.placement.has_value());
  EXPECT_THAT(findings.moves, IsEmpty());
  EXPECT_THAT(findings.tape_next, IsEmpty());
}

TEST(Check, CannotTellFromASingleReading) {
  Crew crew(6, 108);
  crew.pull("A", "C");
  const Findings findings = check(crew.input());
  EXPECT_EQ(findings.verdict, Overall::undecided);
  EXPECT_THAT(corners_with(findings, Verdict::out), IsEmpty());
  EXPECT_THAT(told_in_english(findings.remarks), Contains(HasSubstr("One reading alone")));
}

TEST(Check, LeavesOpenTheOneStakeThatNobodyTaped) {
  Crew crew(6, 109);
  crew.set_stakes(0.0005).pull_sides_and_diagonals();
  auto& readings = crew.input().readings;
  readings.erase(std::remove_if(readings.begin(), readings.end(),
                                [](const auto& r) { return r.from == "D" || r.to == "D"; }),
                 readings.end());
  const Findings findings = check(crew.input());
  EXPECT_EQ(findings.verdict, Overall::undecided);
  EXPECT_THAT(corners_with(findings, Verdict::undecided), Contains("D"));
  EXPECT_THAT(corners_with(findings, Verdict::out), IsEmpty());
  ASSERT_THAT(findings.used.loose, SizeIs(1));
  EXPECT_THAT(findings.used.loose[0].would_fix, SizeIs(testing::Ge(2)));
}

TEST(Check, LeavesHeldStakesAndRemarksOnThemWhenTheyAreOff) {
  Crew crew(6, 110);
  crew.set_stakes(0.0003).set_wrong("A", 1.5 * kInch_m, 0.0);
  crew.set_wrong("D", 1.5 * kInch_m, 0.0);
  crew.input().plan.hold = {"A", "D"};
  crew.pull_sides_and_diagonals().pull_corner_radii();
  const Findings findings = check(crew.input());
  EXPECT_EQ(findings.verdict, Overall::out);
  EXPECT_THAT(findings.placement->kept, ElementsAre(0, 3));
  for (const placement::Move& move : findings.moves) {
    EXPECT_NE(move.corner, 0U);
    EXPECT_NE(move.corner, 3U);
  }
  EXPECT_THAT(told_in_english(findings.remarks), Contains(HasSubstr("Stake A is held and stays")));
  EXPECT_THAT(told_in_english(findings.remarks), Contains(HasSubstr("Stake D is held and stays")));
}

TEST(Check, SaysWhereNoReadingsCouldCallACornerIn) {
  Crew crew(6, 111);
  crew.input().tolerance.corner_m = 0.0005;
  crew.pull_sides_and_diagonals();
  const Findings findings = check(crew.input());
  EXPECT_NE(findings.verdict, Overall::in);
  EXPECT_THAT(told_in_english(findings.remarks),
              Contains(HasSubstr("even standing exactly right")));
}

TEST(Check, SaysWhatTheVerdictBecomesWhenALeftOutReadingIsKept) {
  Crew crew(8, 112);
  crew.set_stakes(0.0003).pull_sides_and_diagonals().pull_corner_radii();
  crew.misread("C", "F", 3.0 * kInch_m);
  const Findings findings = check(crew.input());
  ASSERT_THAT(findings.slips.excluded, ElementsAre(crew.index_of("C", "F")));
  // What the remark tells, found again by leaving the exclusion out by hand.
  const adjustment::Adjustment kept = adjustment::adjust(findings.network);
  placement::Survey survey = *findings.survey;
  for (std::size_t i = 0; i < 8; ++i) survey.found[i] = kept.found[i];
  for (std::size_t r = 0; r < 16; ++r) {
    for (std::size_t c = 0; c < 16; ++c) survey.covariance(r, c) = kept.covariance(r, c);
  }
  const auto corners = placement::fewest_moves(survey, crew.input().tolerance).corners;
  std::string out;
  std::string undecided;
  for (std::size_t i = 0; i < 8; ++i) {
    const std::string& label = findings.network.points[i].label;
    if (corners[i].verdict == Verdict::out) out += label;
    if (corners[i].verdict == Verdict::undecided) undecided += label;
  }
  ASSERT_EQ(out, "CF");
  ASSERT_EQ(undecided, "");
  EXPECT_THAT(told_in_english(findings.remarks),
              Contains(HasSubstr("kept, it would make C and F out.")));
}

TEST(Check, RefusesAReadingOfAPointThatIsNotThere) {
  Crew crew(6, 113);
  crew.pull("A", "B");
  crew.input().readings[0].to = "Q";
  EXPECT_THROW(check(crew.input()), base::InputError);
}

TEST(ExitStatus, IsThatOfTheDesign) {
  EXPECT_EQ(exit_status(Overall::in), 0);
  EXPECT_EQ(exit_status(Overall::out), 1);
  EXPECT_EQ(exit_status(Overall::undecided), 3);
  EXPECT_EQ(exit_status(Overall::contradiction), 3);
}

}  // namespace
}  // namespace stakewright::check

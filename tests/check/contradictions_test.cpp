// Readings that contradict each other, and readings that are of something else.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "crew.hpp"
#include "refusal.hpp"
#include "stakewright/check/check.hpp"

namespace stakewright::check {
namespace {

using placement::Verdict;
using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::SizeIs;

using Overall = check::Verdict;

// A square with sides and both diagonals has one reading more than it needs: any of the six may
// be the wrong one.
TEST(Contradiction, IsSaidWhereNoSingleReadingStandsOut) {
  Crew crew(4, 201);
  crew.set_stakes(0.0003).pull_sides_and_diagonals();
  crew.misread("A", "C", 4.0 * kInch_m);
  const Findings findings = check(crew.input());
  EXPECT_EQ(findings.verdict, Overall::contradiction);
  EXPECT_EQ(exit_status(findings.verdict), 3);
  EXPECT_THAT(findings.slips.excluded, IsEmpty());
  EXPECT_THAT(findings.moves, IsEmpty());
  EXPECT_THAT(corners_with(findings, Verdict::undecided), Not(IsEmpty()));
  EXPECT_THAT(told_in_english(findings.remarks), Contains(HasSubstr("looks the same")));
}

// The readings of one pair, 8 in apart, in a net that holds without either: the wrong one is
// named by all the others.
TEST(Contradiction, OfRepeatsIsSettledByTheOtherTapes) {
  Crew crew(6, 202);
  crew.set_stakes(0.0003).pull_sides_and_diagonals().pull_corner_radii();
  crew.pull("B", "E");
  crew.input().readings.back().value_m += 8.0 * kInch_m;
  const Findings findings = check(crew.input());
  EXPECT_EQ(findings.verdict, Overall::in);
  EXPECT_THAT(findings.slips.excluded, testing::ElementsAre(crew.input().readings.size() - 1));
}

// The same repeats with nothing else to settle them.
TEST(Contradiction, OfRepeatsAloneIsRemarkedOn) {
  Crew crew(6, 203);
  crew.pull("B", "E").pull("E", "B");
  crew.input().readings.back().value_m += 8.0 * kInch_m;
  const Findings findings = check(crew.input());
  EXPECT_EQ(exit_status(findings.verdict), 3);
  EXPECT_THAT(told_in_english(findings.remarks), Contains(HasSubstr("B–E was read twice")));
}

// Whichever of two readings from the pin to A is the wrong one, no corner hangs on it.
TEST(Contradiction, IsNoneWhereEveryVerdictIsTheSameWhicheverReadingIsWrong) {
  Crew crew(8, 204);
  crew.set_stakes(0.0003).pull_sides_and_diagonals();
  // The pin is tied in by A and E alone, twice each: its place has one check in each direction.
  crew.pull("O", "A").pull("O", "A").pull("O", "C").pull("O", "C");
  crew.misread("O", "A", 5.0 * kInch_m);
  const Findings findings = check(crew.input());
  EXPECT_EQ(findings.slips.verdict, adjustment::SlipVerdict::not_separable);
  EXPECT_EQ(findings.verdict, Overall::in);
  EXPECT_EQ(exit_status(findings.verdict), 0);
  EXPECT_THAT(corners_with(findings, Verdict::in), SizeIs(8));
  EXPECT_THAT(told_in_english(findings.remarks),
              Contains(HasSubstr("every corner's verdict is the same")));
}

// The same pin, and a stake that is off for certain: it goes out and is moved.
TEST(Contradiction, DoesNotHideAStakeThatIsOutWhicheverReadingIsWrong) {
  Crew crew(8, 205);
  crew.set_stakes(0.0003).set_wrong("F", 0.0, 1.2 * kInch_m).pull_sides_and_diagonals();
  crew.pull("O", "A").pull("O", "A").pull("O", "C").pull("O", "C");
  crew.misread("O", "A", 5.0 * kInch_m);
  const Findings findings = check(crew.input());
  EXPECT_EQ(findings.verdict, Overall::out);
  EXPECT_THAT(corners_with(findings, Verdict::out), testing::ElementsAre("F"));
  EXPECT_THAT(findings.moves, SizeIs(1));
}

// G stands far out by any two of its three tapes, but where it stands hangs on which of them is
// the wrong one.
TEST(Contradiction, GivesNoMoveWhereItHangsOnWhichReadingIsWrong) {
  Crew crew(8, 208);
  crew.set_stakes(0.0003).set_wrong("G", 10.0 * kInch_m, 0.0).pull_sides_and_diagonals();
  auto& readings = crew.input().readings;
  readings.erase(std::remove_if(readings.begin(), readings.end(),
                                [](const auto& r) { return r.from == "G" || r.to == "G"; }),
                 readings.end());
  crew.pull("A", "G").pull("C", "G").pull("E", "G").misread("C", "G", 4.0 * kInch_m);
  const Findings findings = check(crew.input());
  EXPECT_EQ(findings.slips.verdict, adjustment::SlipVerdict::not_separable);
  EXPECT_EQ(findings.verdict, Overall::out);
  EXPECT_THAT(corners_with(findings, Verdict::out), testing::ElementsAre("G"));
  EXPECT_THAT(findings.moves, IsEmpty());
  EXPECT_THAT(told_in_english(findings.remarks),
              Contains(HasSubstr("G is out, but by how much hangs on")));
}

// A wheel of eight spokes has one reading more than it needs, and sixteen that may be wrong: more
// rivals than are listed.  The tolerance is so wide that each of those calls every corner in.
TEST(Contradiction, IsSaidWhereTooManyReadingsMayBeTheWrongOne) {
  Crew crew(8, 209);
  crew.input().tolerance.corner_m = 0.5;
  crew.set_stakes(0.0003).pull_sides().pull_corner_radii().misread("O", "A", 4.0 * kInch_m);
  const Findings findings = check(crew.input());
  ASSERT_EQ(findings.slips.verdict, adjustment::SlipVerdict::not_separable);
  EXPECT_EQ(findings.verdict, Overall::contradiction);
  EXPECT_THAT(corners_with(findings, Verdict::undecided), SizeIs(8));
}

TEST(Contradiction, MovesNothingEvenWhereACornerIsSurelyOut) {
  Crew crew(8, 210);
  crew.set_stakes(0.0003).set_wrong("G", 10.0 * kInch_m, 0.0).pull_sides_and_diagonals();
  auto& readings = crew.input().readings;
  readings.erase(std::remove_if(readings.begin(), readings.end(),
                                [](const auto& r) { return r.from == "B" || r.to == "B"; }),
                 readings.end());
  // B hangs on three tapes of which one is wrong.
  crew.pull("B", "A").pull("B", "C").pull("B", "E").misread("B", "E", 4.0 * kInch_m);
  const Findings findings = check(crew.input());
  EXPECT_EQ(findings.verdict, Overall::contradiction);
  EXPECT_THAT(corners_with(findings, Verdict::out), testing::ElementsAre("G"));
  EXPECT_THAT(corners_with(findings, Verdict::undecided), testing::ElementsAre("B"));
  EXPECT_THAT(findings.moves, IsEmpty());
}

TEST(Contradiction, IsSaidOfReadingsOfAnotherJob) {
  for (const double times : {0.7, 1.06, 1.3}) {
    Crew crew(6, 206);
    crew.pull_sides_and_diagonals().pull_corner_radii();
    for (readings::Reading& reading : crew.input().readings) reading.value_m *= times;
    const Findings findings = check(crew.input());
    EXPECT_EQ(findings.verdict, Overall::contradiction) << times;
    EXPECT_THAT(findings.moves, IsEmpty());
    EXPECT_THAT(told_in_english(findings.remarks), Contains(HasSubstr("not of this job"))) << times;
  }
}

TEST(Contradiction, OfStakesAtOnePointHelpsAndDoesNotCrash) {
  Crew crew(6, 207);
  crew.place("B") = crew.place("A") + base::Point{0.003, 0.0};
  crew.pull_sides_and_diagonals();
  const Findings findings = check(crew.input());
  EXPECT_NE(findings.verdict, Overall::in);
}

TEST(Contradiction, OfNumbersDrawnFromAHatIsNeverCalledIn) {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    Crew crew(5 + static_cast<int>(seed % 4), seed);
    crew.pull_sides_and_diagonals().pull_corner_radii();
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> length(0.3, 9.0);
    for (readings::Reading& reading : crew.input().readings) reading.value_m = length(random);
    EXPECT_NE(check(crew.input()).verdict, Overall::in) << "seed " << seed;
  }
}

}  // namespace
}  // namespace stakewright::check

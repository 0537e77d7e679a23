// Levels beside tapes: what they do to the verdict and to the tapes.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "crew.hpp"
#include "refusal.hpp"
#include "stakewright/check/check.hpp"

namespace stakewright::check {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;

using Overall = check::Verdict;

Crew taped(unsigned seed) {
  Crew crew(6, seed);
  crew.set_stakes(0.0005).pull_sides_and_diagonals().pull_corner_radii();
  return crew;
}

TEST(CheckOfLevels, LeavesACheckWithoutRodsAsItIs) {
  EXPECT_FALSE(check(taped(401).input()).levels);
}

TEST(CheckOfLevels, IsInWherePlacesAndLevelsAre) {
  const Findings findings = check(taped(402).read_rods("L1").read_rods("L2").input());
  ASSERT_TRUE(findings.levels);
  EXPECT_EQ(findings.verdict, Overall::in);
}

TEST(CheckOfLevels, CountsAFootingOffLevelAsOut) {
  const Findings findings = check(
      taped(403).read_rods("L1", {0.0, 0.0, -0.012}).read_rods("L2", {0.0, 0.0, -0.012}).input());
  EXPECT_EQ(findings.verdict, Overall::out);
  EXPECT_EQ(exit_status(findings.verdict), 1);
  EXPECT_THAT(findings.moves, IsEmpty());
  EXPECT_THAT(corners_with(findings, placement::Verdict::in), testing::SizeIs(6));
}

TEST(CheckOfLevels, IsTheWholeVerdictWhereOnlyRodsWereRead) {
  Crew level(6, 404);
  EXPECT_EQ(check(level.read_rods("L1").read_rods("L2").input()).verdict, Overall::in);
  Crew off(6, 405);
  const Findings findings = check(off.read_rods("L1", {0.02}).input());
  EXPECT_EQ(findings.verdict, Overall::out);
  EXPECT_TRUE(only_levels(findings));
  EXPECT_THAT(findings.tape_next, IsEmpty());
}

TEST(CheckOfLevels, LeavesAContradictionOfTheTapesOne) {
  Crew crew(6, 303);
  crew.set_stakes(0.001).pull_sides_and_diagonals().pull_corner_radii();
  for (std::size_t i = 0; i < crew.input().readings.size(); ++i)
    crew.input().readings[i].value_m += 0.02 * std::sin(static_cast<double>(i * i));
  const Findings without = check(crew.input());
  ASSERT_EQ(without.verdict, Overall::contradiction);
  EXPECT_EQ(check(crew.read_rods("L1", {0.02}).input()).verdict, Overall::contradiction);
}

TEST(CheckOfLevels, SaysWhatTheRodsLeaveOpen) {
  EXPECT_THAT(told_in_english(check(taped(407).read_rods("L1").input()).remarks),
              Contains(HasSubstr("Nothing checks the rod readings")));
}

// A side of 3.5 m with its ends 0.3 m apart in level reads 12.8 mm longer than it is level, by
// Pythagoras; and so with every other tape that B is leveled at one end of.
TEST(CheckOfLevels, CorrectsTapesBetweenLeveledPointsForSlope) {
  Crew crew = taped(408);
  for (readings::Reading& tape : crew.input().readings)
    if ((tape.from == "B" || tape.to == "B") && tape.from != "O" && tape.to != "O")
      tape.value_m = std::hypot(tape.value_m, 0.3);
  const std::size_t side = crew.index_of("A", "B");
  const Findings findings = check(crew.read_rods("L1", {0.0, 0.3}).input());
  const readings::Observation& seen = findings.network.observations[side];
  EXPECT_NEAR(seen.read - seen.corrected, 0.0128, 0.0002);
  EXPECT_THAT(findings.slips.excluded, IsEmpty());
  EXPECT_EQ(corners_with(findings, placement::Verdict::in).size(), 6U);
}

}  // namespace
}  // namespace stakewright::check

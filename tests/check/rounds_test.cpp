// Rounds of one readings file: which is checked, and what moved since an earlier one.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "crew.hpp"
#include "refusal.hpp"
#include "stakewright/readings/rounds.hpp"

namespace stakewright::check {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

/// The same crew tapes all again, in a round of that name.
void tape_round(Crew& crew, const std::string& name) {
  const std::size_t before = crew.input().readings.size();
  crew.pull_sides_and_diagonals().pull_corner_radii();
  for (std::size_t i = before; i < crew.input().readings.size(); ++i)
    crew.input().readings[i].round = name;
}

Crew two_rounds_with_c_moved() {
  Crew crew(6, 301);
  crew.set_stakes(0.001);
  tape_round(crew, "before the dig");
  crew.set_wrong("C", 0.020, 0.010);
  tape_round(crew, "before the pour");
  return crew;
}

std::vector<std::string> moved(const RoundsCompared& since) {
  std::vector<std::string> labels;
  for (std::size_t i = 0; i < since.labels.size(); ++i) {
    if (since.movement->stakes[i].moved == placement::Moved::yes) labels.push_back(since.labels[i]);
  }
  return labels;
}

TEST(Rounds, AreTakenInTheOrderInWhichTheyFirstCome) {
  std::vector<readings::Reading> readings(4);
  readings[0].round = "dig";
  readings[1].round = "pour";
  readings[2].round = "dig";
  readings[3].round = "frame";
  EXPECT_THAT(readings::rounds_of(readings), ElementsAre("dig", "pour", "frame"));
  EXPECT_THAT(readings::of_round(readings, "dig"), SizeIs(2));
}

TEST(Rounds, TheLatestIsCheckedWhereNoneIsAskedFor) {
  Crew crew = two_rounds_with_c_moved();
  const Findings findings = check(crew.input());
  EXPECT_EQ(findings.round, "before the pour");
  EXPECT_THAT(findings.network.observations, SizeIs(21));
  EXPECT_EQ(findings.verdict, Verdict::out);
  EXPECT_FALSE(findings.since.has_value());
}

TEST(Rounds, AnEarlierOneIsCheckedAsIfTheLaterWereNotThere) {
  Crew crew = two_rounds_with_c_moved();
  crew.input().round = "before the dig";
  EXPECT_EQ(check(crew.input()).verdict, Verdict::in);
}

TEST(Rounds, OneThatIsNotThereIsRefusedWithThoseThatAre) {
  Crew crew = two_rounds_with_c_moved();
  crew.input().round = "3";
  EXPECT_THAT(refusal([&] { check(crew.input()); }),
              AllOf(HasSubstr("--round: read \"3\""), HasSubstr("\"before the dig\"")));
  crew.input().round = "";
  crew.input().since = "before the pour";
  EXPECT_THAT(
      refusal([&] { check(crew.input()); }),
      AllOf(HasSubstr("--since: read \"before the pour\""), HasSubstr("accepted: a round before")));
}

TEST(Rounds, ComparedNameTheStakeThatMovedAndLeaveTheVerdictToTheLater) {
  Crew crew = two_rounds_with_c_moved();
  crew.input().since = "before the dig";
  const Findings findings = check(crew.input());
  EXPECT_EQ(findings.verdict, Verdict::out);
  ASSERT_TRUE(findings.since && findings.since->movement);
  EXPECT_THAT(moved(*findings.since), ElementsAre("C"));
  const placement::StakeMovement& c = findings.since->movement->stakes[2];
  EXPECT_NEAR(c.outward_m, 0.020, 0.004);
  EXPECT_NEAR(c.sideways_m, 0.010, 0.004);
  EXPECT_FALSE(findings.since->tied);
  EXPECT_EQ(findings.since->labels.back(), "O");
}

TEST(Rounds, ComparedWithoutMovementShowNone) {
  Crew crew(6, 302);
  crew.set_stakes(0.003);
  tape_round(crew, "1");
  tape_round(crew, "2");
  crew.input().since = "1";
  const Findings findings = check(crew.input());
  EXPECT_FALSE(findings.since->movement->shown);
  EXPECT_THAT(moved(*findings.since), IsEmpty());
}

TEST(Rounds, AreNotComparedWhereOneContradictsItself) {
  Crew crew(6, 303);
  crew.set_stakes(0.001);
  tape_round(crew, "1");
  for (std::size_t i = 0; i < crew.input().readings.size(); ++i)
    crew.input().readings[i].value_m += 0.02 * std::sin(static_cast<double>(i * i));
  tape_round(crew, "2");
  crew.input().since = "1";
  const Findings findings = check(crew.input());
  EXPECT_FALSE(findings.since->movement.has_value());
  ASSERT_TRUE(findings.since->why_not);
  EXPECT_THAT(told_in_english(*findings.since->why_not), HasSubstr("round 1"));
}

TEST(Rounds, AreNotComparedWhereOneFixesTooFewStakes) {
  Crew crew(6, 304);
  tape_round(crew, "1");
  crew.pull("A", "B");
  crew.input().readings.back().round = "2";
  crew.input().since = "1";
  const Findings findings = check(crew.input());
  EXPECT_FALSE(findings.since->movement.has_value());
  EXPECT_TRUE(findings.since->why_not);
}

// Two pins hold the figure on the ground: a shelter that slid as a whole is seen.
TEST(Rounds, TiedToPinsShowAFigureThatSlidAsAWhole) {
  Crew crew(5, 305);
  crew.input().plan.pins = {{"P1", {-4.0, -8.0}}, {"P2", {9.0, -9.0}}};
  const auto with_pins = [&](const std::string& name) {
    tape_round(crew, name);
    for (const layout::Pin& pin : crew.input().plan.pins) {
      for (const char* corner : {"A", "C", "D"}) {
        readings::Reading reading;
        reading.from = pin.name;
        reading.to = corner;
        reading.instrument = "steel";
        reading.round = name;
        reading.value_m = base::distance_m(pin.at, crew.place(corner));
        crew.input().readings.push_back(reading);
      }
    }
  };
  with_pins("1");
  for (const char* label : {"A", "B", "C", "D", "E", "O"})
    crew.place(label) = crew.place(label) + base::Point{0.02, 0.0};
  with_pins("2");
  crew.input().since = "1";
  const Findings findings = check(crew.input());
  EXPECT_EQ(findings.used.free_motions, 0);
  EXPECT_TRUE(findings.since->tied);
  EXPECT_TRUE(findings.since->movement->shown);
}

}  // namespace
}  // namespace stakewright::check

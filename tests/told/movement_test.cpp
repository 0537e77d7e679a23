#include "stakewright/told/movement.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "stakewright/told/corrections.hpp"
#include "telling.hpp"

namespace stakewright::told {
namespace {

using placement::Moved;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;

constexpr double kInch_m = 0.0254;

/// Corners A to D and the center pin in two rounds; D moved an inch outward.
check::Findings d_moved() {
  check::Findings findings;
  findings.rounds = {"1", "before the pour"};
  findings.round = "before the pour";
  findings.network.observations.resize(7);
  findings.since.emplace();
  findings.since->since = "1";
  findings.since->labels = {"A", "B", "C", "D", "O"};
  placement::Movement movement;
  movement.shown = true;
  movement.by_noise = 0.001;
  movement.stable = movement.datum.shift = {0, 1, 2};
  movement.stakes.resize(5);
  for (std::size_t i = 0; i < 5; ++i) {
    movement.stakes[i].moved = Moved::no;
    movement.stakes[i].smallest_shown_m = 0.5 * kInch_m;
    movement.stakes[i].ellipse.major_m = kInch_m / 8.0;
  }
  movement.stakes[3].moved = Moved::yes;
  movement.stakes[3].outward_m = movement.stakes[3].distance_m = kInch_m;
  movement.stakes[3].by_noise = 0.0001;
  findings.since->movement = movement;
  return findings;
}

TEST(RoundTold, IsOneOfSeveral) {
  EXPECT_EQ(text_of(round_line(d_moved())),
            "Round \"before the pour\" of 1, \"before the pour\": 7 readings. The readings of the "
            "other rounds are left aside.");
  check::Findings one = d_moved();
  one.rounds = {"1"};
  EXPECT_TRUE(round_line(one).empty());
}

TEST(MovementTold, NamesTheStakeThatMovedAndWhatItIsSeenAgainst) {
  EXPECT_EQ(text_of(movement_opening(d_moved())),
            "Since round 1 stake D has moved 1\" outward, give or take 1/8\". Seen against A, B "
            "and C. By noise alone so much shows under 1 % of the time.");
  EXPECT_EQ(text_of(movement_opening(d_moved()), spanish()),
            "Desde la ronda 1 la estaca D se movió 25 mm afuera, más o menos 3.2 mm. Visto contra "
            "A, B y C. Por puro ruido, un movimiento así se ve menos de 1 % de las veces.");
}

TEST(MovementTold, TellsThePinByHowFarAlone) {
  check::Findings findings = d_moved();
  auto& pin = findings.since->movement->stakes[4];
  pin.moved = Moved::yes;
  pin.distance_m = kInch_m;
  EXPECT_THAT(text_of(movement_opening(findings)),
              HasSubstr("stake O has moved 1\", give or take"));
}

TEST(MovementTold, SaysWhatWouldHaveShownWhereNothingDid) {
  check::Findings findings = d_moved();
  findings.since->movement->shown = false;
  EXPECT_EQ(text_of(movement_opening(findings)),
            "Since round 1 no stake is shown to have moved. A stake that had moved 1/2\" or more, "
            "whichever way, would have come to light four times in five.");
}

TEST(MovementTold, SaysWhatTheReadingsLeaveOpen) {
  check::Findings findings = d_moved();
  findings.since->movement->stakes[1].moved = Moved::undecided;
  EXPECT_THAT(
      text_of(movement_opening(findings)),
      HasSubstr("More may have moved since round 1, but these readings cannot tell which of B."));
  findings.since->movement->stable.clear();
  EXPECT_THAT(text_of(movement_opening(findings)),
              HasSubstr("and no 3 of them kept their distances: which moved cannot be told."));
}

TEST(MovementTold, SaysWhyRoundsAreNotCompared) {
  check::Findings findings = d_moved();
  findings.since->movement.reset();
  findings.since->why_not = base::Fact{"movement.round_fixes_few", {{"round", base::Name{"1"}}}};
  EXPECT_EQ(text_of(movement_opening(findings)),
            "Not compared with round 1. The readings of round 1 fix too few stakes.");
  EXPECT_TRUE(movement_sections(findings).empty());
}

TEST(MovementTold, ListsEveryStakeButAPinThatNobodyTaped) {
  check::Findings findings = d_moved();
  findings.since->movement->stakes[4] = {};
  EXPECT_THAT(
      lines_of(movement_sections(findings)),
      ElementsAre("Moved since round 1",
                  "stake | outward or inward | sideways | moved | give or take | by noise | "
                  "would show | verdict",
                  HasSubstr("A | - | - |"), HasSubstr("B | - |"), HasSubstr("C | - |"),
                  "D | 1\" outward | 0\" | 1\" | 1/8\" | under 1 % | 1/2\" | MOVED"));
  EXPECT_THAT(lines_of(movement_sections(findings), spanish()), Contains(HasSubstr("SE MOVIÓ")));
}

TEST(CorrectionsTold, SayWhyAndByHowMuch) {
  check::Findings findings;
  findings.network.points = {{"A", adjustment::Role::corner, {}, false},
                             {"B", adjustment::Role::corner, {}, false}};
  findings.network.instruments.resize(1);
  findings.network.instruments[0].name = "blue tape";
  findings.network.observations = {{0, 1, 0, 3.0, 3.0, 0.001}, {1, 0, 0, 3.0, 3.0, 0.001}};
  using readings::Cause;
  findings.network.observations[0].corrections = {
      {Cause::temperature, kInch_m / 8.0}, {Cause::slope, -0.25 * kInch_m}, {Cause::sag, -1e-6}};
  const auto lines = lines_of({corrections_section(findings)});
  EXPECT_EQ(lines[0], "Corrections, each added to the reading or taken off it");
  EXPECT_THAT(lines[2],
              testing::EndsWith("tape warm: 1/8\" added; on a slope: 1/4\" taken off; tape "
                                "hangs: next to nothing"));
  EXPECT_THAT(lines[3], testing::StartsWith("B–A | blue tape | "));
  EXPECT_THAT(lines[3], testing::EndsWith(" | none"));
  EXPECT_THAT(lines_of({corrections_section(findings)}, spanish())[2],
              HasSubstr("cinta caliente: se suma 3.2 mm; en pendiente: se resta 6.4 mm"));
}

}  // namespace
}  // namespace stakewright::told

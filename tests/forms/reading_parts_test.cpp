// Laser, level and pencil check of the reading sheet, and which tapes it asks for.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "page_ink.hpp"
#include "sample_jobs.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/results/tapes.hpp"
#include "stakewright/suspects/pencil.hpp"
#include "stakewright/suspects/tapes.hpp"

namespace stakewright::forms {
namespace {

using base::Units;

constexpr double kMillimeter_pt = 72.0 / 25.4;

std::map<std::string, Box> blanks_of(const Sample& sample, const std::string& beginning) {
  std::map<std::string, Box> blanks;
  for (const drawing::Page& page : sample.pages())
    for (const drawing::Blank& blank : page.blanks)
      if (blank.name.starts_with(beginning)) blanks[blank.name] = blank.box;
  return blanks;
}

TEST(LaserRows, HaveTheCenterPinToEveryCornerTwice) {
  for (const int sides : {3, 6, 24, 48}) {
    const Sample sample = plain(sides);
    const auto blanks = blanks_of(sample, "laser.");
    EXPECT_EQ(blanks.size(), 2U * (static_cast<std::size_t>(sides) + 2U)) << sides;
    for (const layout::Stake& corner : layout::stakes(sample.job.plan))
      for (const char* which : {".1", ".2"})
        EXPECT_EQ(blanks.count("laser.O-" + corner.label + which), 1U) << corner.label;
    EXPECT_EQ(blanks.count("laser.s2.1"), 1U);
  }
}

TEST(LevelRows, HaveEveryCornerFromTwoSetUpsAndTurningPoints) {
  for (const int sides : {3, 5, 8, 48}) {
    const Sample sample = plain(sides);
    const auto blanks = blanks_of(sample, "level.");
    EXPECT_EQ(blanks.size(), 2U * (static_cast<std::size_t>(sides) + 4U)) << sides;
    for (const char* set_up : {"level.1.", "level.2."}) {
      for (const layout::Stake& corner : layout::stakes(sample.job.plan))
        EXPECT_EQ(blanks.count(set_up + corner.label), 1U) << corner.label;
      for (const char* point : {"T1", "T2", "s1", "s2"})
        EXPECT_EQ(blanks.count(std::string(set_up) + point), 1U) << point;
    }
    EXPECT_EQ(blanks_of(sample, "level-point.").size(), 2U);
  }
}

TEST(ReadingParts, GiveAPencilEightMillimeters) {
  for (const Units units : {Units::feet_inches, Units::millimeters}) {
    const Sample sample = plain(12, units);
    for (const char* part : {"laser.", "level.", "pencil."})
      for (const auto& [name, box] : blanks_of(sample, part)) {
        EXPECT_GE(box.height_pt, 8.0 * kMillimeter_pt) << name;
        EXPECT_GE(box.width_pt, 25.0 * kMillimeter_pt) << name;
      }
  }
}

TEST(ReadingParts, CarryTheirCautions) {
  std::string all;
  for (const drawing::Page& page : plain(6).pages())
    for (const Words& words : ink_of(page).words) all += words.text.text + "\n";
  for (const char* caution : {"look up for power lines first", "No laser at eye level",
                              "A rod that touches a power line kills", "buried services located"})
    EXPECT_THAT(all, testing::HasSubstr(caution));
}

/// Texts that stand in the rows of the pencil check.
std::set<std::string> said_in_pencil_check(const Sample& sample) {
  std::set<std::string> said;
  for (const drawing::Page& page : sample.pages()) {
    bool begun = false;
    for (const Words& words : ink_of(page).words) {
      begun = begun || words.text.text == wording::built_in("en").text("pencil.heading");
      if (begun) said.insert(words.text.text);
    }
  }
  return said;
}

TEST(PencilRows, SayPlannedLengthAndLimitRoundedUpToWhatIsRead) {
  for (const Units units : {Units::feet_inches, Units::millimeters, Units::meters}) {
    const Sample sample = plain(8, units);
    const auto said = said_in_pencil_check(sample);
    const double step_m = units == Units::feet_inches ? 0.0254 / 16.0 : 0.001;
    const auto checks = suspects::pencil_checks(sample.job.plan, sample.job.tolerance,
                                                results::default_tape(sample.job), sample.tapes());
    ASSERT_EQ(checks.size(), 4U);
    for (const suspects::PencilCheck& check : checks) {
      EXPECT_EQ(said.count(base::text_from_length(check.planned_m, units)), 1U);
      double limit_m = 0.0;
      while (limit_m < check.limit_m) limit_m += step_m;
      EXPECT_EQ(said.count(base::text_from_length(limit_m, units)), 1U)
          << base::text_from_length(limit_m, units);
    }
  }
}

TEST(PencilRows, AreLeftOutWhenNoTwoPullsAreEqual) {
  const Sample sample = plain(5);
  const std::vector<layout::Tape> one{sample.tapes().front()};
  for (const drawing::Page& page :
       field_form(sample.job, sample.layout, one, voice_in(sample.units), sample.choices))
    EXPECT_EQ(count_of(page, wording::built_in("en").text("pencil.heading")), 0);
}

TEST(ReadingRows, AreTheTapePlanUpToTwelveSidesAndTheStandingSetAbove) {
  EXPECT_EQ(usual_tapes(plain_job(12).plan), TapeSet::plan);
  EXPECT_EQ(usual_tapes(plain_job(13).plan), TapeSet::all);
  EXPECT_EQ(tape_set_from_text("plan"), TapeSet::plan);
  EXPECT_EQ(tape_set_from_text("all"), TapeSet::all);
  EXPECT_THROW(tape_set_from_text("some"), base::InputError);
}

TEST(ReadingRows, HaveThePullsOfThePlanInItsOrder) {
  const job::Job job = plain_job(6);
  const suspects::TapePlan plan = suspects::tape_plan(job.plan, results::usual_request(job));
  const ReadingRows rows = reading_rows(job, TapeSet::plan);
  ASSERT_EQ(rows.tapes.size(), plan.pulls.size());
  EXPECT_LT(rows.tapes.size(), standing_tapes(job.plan).size());
  const auto corners = layout::corner_labels(6);
  const auto place = [&](const std::string& label) {
    return std::find(corners.begin(), corners.end(), label) - corners.begin();
  };
  for (std::size_t i = 0; i < rows.tapes.size(); ++i) {
    const layout::Tape& tape = rows.tapes[i];
    EXPECT_EQ(tape.from, plan.pulls[i].from);
    EXPECT_EQ(tape.to, plan.pulls[i].to);
    if (tape.from == "O" || tape.to == "O") {
      EXPECT_EQ(tape.skip, 0);
      continue;
    }
    const auto round = (place(tape.to) - place(tape.from) + 6) % 6;
    EXPECT_EQ(tape.skip, std::min<std::ptrdiff_t>(round, 6 - round)) << tape.from << tape.to;
  }
}

TEST(ReadingRows, SayWhatATapePlanDoesNotReach) {
  job::Job job = plain_job(3);
  job.tolerance.corner_m = 0.0005;
  EXPECT_THAT(reading_rows(job, TapeSet::plan).misses, testing::Not(testing::IsEmpty()));
  EXPECT_THAT(reading_rows(job, TapeSet::all).misses, testing::IsEmpty());
}

TEST(Grouped, KeepsTheOrderAndTakesNeighborsWithOneHoldTogether) {
  const auto stations =
      grouped({{"A", "B", 1, 1.0}, {"A", "C", 2, 1.0}, {"B", "C", 1, 1.0}, {"A", "D", 1, 1.0}});
  ASSERT_EQ(stations.size(), 3U);
  EXPECT_EQ(stations[0].hold, "A");
  EXPECT_EQ(stations[0].tapes.size(), 2U);
  EXPECT_EQ(stations[1].hold, "B");
  EXPECT_EQ(stations[2].hold, "A");
}

TEST(PlanSheet, HasABaselineWhereTwoPinsOrTwoHeldStakesGiveOne) {
  const std::string name = wording::built_in("en").text("plan.baseline");
  EXPECT_EQ(count_of(plain(6).pages().front(), name), 0);
  job::Job held = plain_job(6);
  held.plan.hold = {"A", "D"};
  EXPECT_EQ(count_of(worked_out(held, "held").pages().front(), name), 1);
  EXPECT_EQ(count_of(crowded(8, Units::feet_inches, 0.2).pages().front(), name), 1);
}

/// What the staking sheet says in its column of turns, top to bottom.
std::vector<std::string> turns(const Sample& sample) {
  std::vector<std::string> found;
  for (const Words& words : ink_of(sample.pages()[1]).words) {
    const std::string& text = words.text.text;
    if (std::count(text.begin(), text.end(), '-') == 2 &&
        text.find_first_not_of("0123456789-") == std::string::npos)
      found.push_back(text);
  }
  return found;
}

// Corners of a regular polygon are a full turn over n apart (Euclid IV): 51° 25' 43" for 7.
TEST(StakingByAngle, TurnsFromTheFirstHeldStake) {
  job::Job job = plain_job(7);
  job.plan.hold = {"A", "B"};
  const Sample sample = worked_out(std::move(job), "heptagon");
  const auto found = turns(sample);
  const std::set<std::string> all(found.begin(), found.end());
  EXPECT_THAT(all, testing::IsSubsetOf({"51-25-43", "102-51-26", "154-17-09", "205-42-51",
                                        "257-08-34", "308-34-17"}));
  EXPECT_THAT(all, testing::IsSupersetOf(
                       {"102-51-26", "154-17-09", "205-42-51", "257-08-34", "308-34-17"}));
}

TEST(StakingByAngle, TurnsFromAPinWhereNoStakeIsHeld) {
  job::Job job = plain_job(4);
  job.plan.facing_rad = 0.0;  // corners at 45, 135 … degrees from forward: A at 315
  job.plan.pins = {{"P1", {0.0, -8.0}}, {"P2", {4.0, -5.0}}};  // P1 straight behind the center
  const auto found = turns(worked_out(std::move(job), "square"));
  EXPECT_THAT(found,
              testing::UnorderedElementsAre("135-00-00", "225-00-00", "315-00-00", "45-00-00"));
}

}  // namespace
}  // namespace stakewright::forms

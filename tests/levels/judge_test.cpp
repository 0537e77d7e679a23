#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <numeric>

#include "crew.hpp"
#include "footings.hpp"
#include "refusal.hpp"

namespace stakewright::levels {
namespace {

using placement::Verdict;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

TEST(Levels, AreNoneWithoutRods) { EXPECT_FALSE(judge(Crew(6, 1).question())); }

TEST(Levels, OfLevelFootingsAreIn) {
  Crew crew(6, 21);
  const Levels levels = crew.read_all("L1").read_all("L2").judged();
  EXPECT_EQ(levels.verdict, Verdict::in);
  EXPECT_EQ(levels.shape, Shape::level);
  EXPECT_EQ(levels.kept.size(), 6U);
  EXPECT_THAT(levels.remarks, IsEmpty());
}

// The mean of all would lie 2 mm low and spoil the five good ones.
TEST(Levels, WithOneFootingHalfAnInchLowCallThatOneAndSmearItOverNoOther) {
  Crew crew(6, 22);
  crew.height_m("D") = -0.5 * kInch_m;
  const Levels levels = crew.read_all("L1").read_all("L2").judged();
  EXPECT_EQ(levels.verdict, Verdict::out);
  EXPECT_THAT(footings_with(levels, Verdict::out), ElementsAre("D"));
  EXPECT_EQ(footings_with(levels, Verdict::in).size(), 5U);
  EXPECT_THAT(labels(levels, levels.kept), ElementsAre("A", "B", "C", "E", "F"));
  EXPECT_THAT(labels(levels, levels.wrong), ElementsAre("D"));
  EXPECT_EQ(levels.shape, Shape::footings);
  EXPECT_NEAR(levels.footings[3].off_m, -0.5 * kInch_m, 0.002);
}

TEST(Levels, PackEveryPostUpToTheHighestFooting) {
  Crew crew(4, 23);
  crew.height_m("B") = 0.020;
  crew.height_m("C") = -0.010;
  const Levels levels = crew.read_all("L1", 0.0).judged();
  EXPECT_NEAR(levels.footings[0].packing_m, 0.020, 1e-12);
  EXPECT_NEAR(levels.footings[1].packing_m, 0.0, 1e-12);
  EXPECT_NEAR(levels.footings[2].packing_m, 0.030, 1e-12);
  EXPECT_NEAR(levels.footings[2].packing_sd_m, std::sqrt(2.0) * crew.sd_m(), 1e-12);
}

TEST(Levels, OfALeaningFormSayWhichWayAndBlameNoSingleFooting) {
  Crew crew(6, 24);
  const Levels levels = crew.lean(0.003, 0.0).read_all("L1").read_all("L2").judged();
  EXPECT_EQ(levels.verdict, Verdict::out);
  EXPECT_EQ(levels.shape, Shape::tilted);
  EXPECT_THAT(levels.wrong, IsEmpty());
  ASSERT_TRUE(levels.plane);
  EXPECT_TRUE(levels.plane->significant);
  EXPECT_NEAR(levels.plane->downhill_bearing_rad, 1.5 * std::numbers::pi, 0.2);
  EXPECT_EQ(levels.kept.size(), 6U);
}

TEST(Levels, OfALeaningFormFromOneSetUpWarnOfTheInstrument) {
  Crew crew(6, 24);
  const Levels levels = crew.lean(0.003, 0.0).read_all("L1").judged();
  EXPECT_THAT(told_in_english(levels.remarks), Contains(HasSubstr("turn it half round")));
}

TEST(Levels, AgainstABenchMarkJudgeTheHeightWantedAndCutOrPackToIt) {
  Crew crew(4, 25);
  crew.question().wanted = {"BM", 100.0, 100.1};
  crew.height_m("BM") = -0.1;
  crew.height_m("A") = 0.012;
  crew.height_m("C") = -0.020;
  const Levels levels =
      crew.read_all("L1").read("L1", "BM").read_all("L2").read("L2", "BM").judged();
  EXPECT_TRUE(levels.against_bench_mark);
  EXPECT_NEAR(levels.footings[0].off_m, 0.012, 0.003);
  EXPECT_NEAR(levels.footings[0].packing_m, -0.012, 0.003);
  EXPECT_NEAR(levels.footings[2].packing_m, 0.020, 0.003);
  EXPECT_THAT(footings_with(levels, Verdict::out), ElementsAre("A", "C"));
}

TEST(Levels, WithABenchMarkThatNobodyReadSaySoAndJudgeAgainstTheMean) {
  Crew crew(4, 25);
  crew.question().wanted = {"BM", 100.0, 100.1};
  const Levels levels = crew.read_all("L1").judged();
  EXPECT_FALSE(levels.against_bench_mark);
  EXPECT_THAT(told_in_english(levels.remarks),
              Contains(HasSubstr("No rod was read on the bench mark BM")));
}

TEST(Levels, LeaveOutARodMisreadByAFootAndSayWhatItLooksLike) {
  Crew crew(6, 26);
  crew.read_all("L1").read_all("L2").read_all("L3").misread("L2", "C", kFoot_m);
  const Levels levels = crew.judged();
  ASSERT_EQ(levels.slips.verdict, adjustment::SlipVerdict::named);
  ASSERT_EQ(levels.slips.excluded.size(), 1U);
  const RodReading& rod = levels.rods.readings[levels.slips.excluded[0]];
  EXPECT_EQ(levels.rods.points[rod.point], "C");
  EXPECT_EQ(levels.rods.set_ups[rod.set_up], "L2");
  const RodSlip slip = slip_of(levels, levels.slips.excluded[0]);
  EXPECT_NEAR(slip.slip_m, kFoot_m, 0.005);
  EXPECT_EQ(slip.looks_like, (WholeUnits{Unit::foot, 1}));
  EXPECT_EQ(levels.verdict, Verdict::in);
}

// Two rods on C differ by an inch: C is level by one and an inch off by the other.
TEST(Levels, WithTwoRodsThatDifferLeaveThatFootingOpenAndNoOther) {
  Crew crew(6, 27);
  crew.read_all("L1").read_all("L2").misread("L2", "C", kInch_m);
  const Levels levels = crew.judged();
  EXPECT_EQ(levels.slips.verdict, adjustment::SlipVerdict::not_separable);
  EXPECT_THAT(footings_with(levels, Verdict::undecided), ElementsAre("C"));
  EXPECT_EQ(footings_with(levels, Verdict::in).size(), 5U);
  EXPECT_EQ(levels.verdict, Verdict::undecided);
}

TEST(Levels, FromASingleSetUpSayThatNothingChecksThem) {
  Crew crew(6, 28);
  EXPECT_THAT(told_in_english(crew.read_all("L1").judged().remarks),
              Contains(HasSubstr("Nothing checks")));
}

TEST(Levels, WithFootingsNobodyReadLeaveThoseOpen) {
  Crew crew(6, 29);
  for (const char* corner : {"A", "B", "C", "D"}) crew.read("L1", corner).read("L2", corner);
  const Levels levels = crew.judged();
  EXPECT_THAT(footings_with(levels, Verdict::undecided), ElementsAre("E", "F"));
  EXPECT_EQ(levels.verdict, Verdict::undecided);
  EXPECT_THAT(told_in_english(levels.remarks), Contains(HasSubstr("No rod was read on E and F")));
}

TEST(Levels, OfSetUpsThatNothingTiesTogetherSaySo) {
  Crew crew(6, 30);
  for (const char* corner : {"A", "B", "C", "D"}) crew.read("L1", corner);
  crew.read("L2", "E").read("L2", "F");
  EXPECT_THAT(told_in_english(crew.judged().remarks),
              Contains(HasSubstr("Nothing ties the rod readings on E and F")));
}

TEST(Levels, WithASetUpOfOneRodAndAMarkReadOnceSayThatTheyTellNothing) {
  Crew crew(4, 31);
  const Levels levels = crew.read_all("L1").read("L2", "A").read("L1", "T7").judged();
  EXPECT_THAT(told_in_english(levels.remarks), Contains(HasSubstr("One rod was read from L2")));
  EXPECT_THAT(told_in_english(levels.remarks), Contains(HasSubstr("A rod was read on T7 once")));
}

TEST(Levels, OfNoFootingAtAllAreNotKnown) {
  Crew crew(4, 32);
  const Levels levels = crew.read("L1", "T1").read("L1", "T2").judged();
  EXPECT_EQ(levels.verdict, Verdict::undecided);
  EXPECT_EQ(levels.shape, Shape::not_known);
  for (const Footing& footing : levels.footings) EXPECT_FALSE(footing.known);
}

// Of footings exactly a tolerance off their level one in twenty or fewer may be called in (and as
// many out) at 95 %.  The level is the mean of all twelve, so that the height stands 12/11 off 0.
TEST(Levels, CallAFootingOnTheLimitWronglyNoOftenerThanTheConfidenceAllows) {
  int in = 0;
  int out = 0;
  constexpr int kCases = 1500;
  std::vector<std::size_t> all(12);
  std::iota(all.begin(), all.end(), std::size_t{0});
  for (int i = 0; i < kCases; ++i) {
    Crew crew(12, 1000U + static_cast<unsigned>(i));
    const Question& q = crew.question();
    crew.height_m("D") = -q.tolerance.level_m * 12.0 / 11.0;
    crew.read_all("L1");
    const Rods read = rods(q.plan, q.readings, q.instruments, q.wanted);
    const Heights found = heights(read, q.wanted);
    const Level level = mean_level(found, all, 12, q.tolerance.level_m);
    const auto footings = judged(found, read, level, false, q.tolerance);
    in += footings[3].verdict == Verdict::in ? 1 : 0;
    out += footings[3].verdict == Verdict::out ? 1 : 0;
  }
  const double most = kCases * 0.05 + 4.0 * std::sqrt(kCases * 0.05 * 0.95);
  EXPECT_LE(in, most);
  EXPECT_LE(out, most);
}

TEST(Levels, SeldomCallARodMisreadWhereNoneIs) {
  int alarms = 0;
  for (unsigned i = 0; i < 150; ++i) {
    Crew crew(6, 5000U + i);
    const Levels levels = crew.uneven(0.0015).read_all("L1").read_all("L2").read_all("L3").judged();
    alarms += levels.slips.verdict == adjustment::SlipVerdict::none ? 0 : 1;
  }
  EXPECT_LE(alarms, 4);  // asked: 0.001 a reading, 18 readings
}

TEST(Slopes, OfTapesBetweenLeveledPointsComeFromTheLevels) {
  Crew crew(4, 33);
  crew.height_m("B") = 0.30;
  const Levels levels = crew.read_all("L1", 0.0).judged();
  readings::Reading tape;
  tape.from = "A";
  tape.to = "B";
  tape.value_m = 5.0;
  readings::Reading own = tape;
  own.slope_m = 0.0;
  readings::Reading to_the_pin = tape;
  to_the_pin.to = "O";
  const auto sloped = with_slopes({tape, own, to_the_pin}, levels);
  EXPECT_NEAR(sloped[0].slope_m.value(), 0.30, 1e-12);
  EXPECT_TRUE(sloped[0].slope_from_levels);
  EXPECT_EQ(sloped[1].slope_m, 0.0);
  EXPECT_FALSE(sloped[1].slope_from_levels);
  EXPECT_FALSE(sloped[2].slope_m);
}

TEST(WholeUnits, AreThoseOfTheRodAndOneOfThem) {
  using base::Units;
  EXPECT_EQ(whole_units(-0.3050, 0.001, Units::feet_inches), (WholeUnits{Unit::foot, 1}));
  EXPECT_EQ(whole_units(0.0500, 0.001, Units::feet_inches), (WholeUnits{Unit::inch, 2}));
  EXPECT_EQ(whole_units(0.1004, 0.001, Units::millimeters), (WholeUnits{Unit::decimeter, 1}));
  EXPECT_FALSE(whole_units(0.0370, 0.001, Units::millimeters));
  EXPECT_FALSE(whole_units(0.0150, 0.004, Units::meters));  // one centimeter and two fit alike
}

}  // namespace
}  // namespace stakewright::levels

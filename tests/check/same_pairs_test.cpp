// Two instruments on the same pairs, and what would show one that is off.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "crew.hpp"
#include "refusal.hpp"

namespace stakewright::check {
namespace {

using testing::AllOf;
using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::SizeIs;

/// The pairs read with the laser too, each without error, so that the tape's error alone shows.
void read_too(Crew& crew, const std::vector<std::pair<const char*, const char*>>& pairs) {
  for (const auto& [from, to] : pairs) {
    readings::Reading reading;
    reading.kind = readings::Kind::laser;
    reading.from = from;
    reading.to = to;
    reading.instrument = "laser";
    reading.value_m = base::distance_m(crew.place(from), crew.place(to));
    crew.input().readings.push_back(reading);
  }
}

template <typename Error>
void make_tape_read(Crew& crew, Error error_m) {
  for (readings::Reading& reading : crew.input().readings)
    reading.value_m += error_m(reading.value_m);
}

TEST(SamePairs, ShowATapeThatReadsLongAgainstTheLaser) {
  Crew crew(6, 401);
  crew.set_stakes(0.0005).pull_sides_and_diagonals();
  make_tape_read(crew, [](double) { return 0.005; });
  read_too(crew, {{"A", "B"}, {"B", "C"}, {"C", "D"}, {"D", "E"}});
  const Findings findings = check(crew.input());
  ASSERT_THAT(findings.same_pairs, SizeIs(1));
  const SamePairs& same = findings.same_pairs.front();
  EXPECT_EQ(same.pairs, 4U);
  EXPECT_TRUE(same.differ);
  EXPECT_NEAR(same.more_m, 0.005, 0.0025);
  EXPECT_THAT(told_in_english(findings.remarks),
              Contains(AllOf(HasSubstr("steel reads "),
                             HasSubstr(" long against laser on the same "
                                       "4 pairs"),
                             HasSubstr("Check both against a known length"))));
}

// All of one length in one set of pairs and of the next: a scale of a tenth in a hundred.
TEST(SamePairs, TellAScaleFromAZeroWhereTheLengthsDiffer) {
  const auto like_of = [](auto error_m) {
    Crew crew(8, 402);
    crew.input().plan.polygon.corner_radius_m = 12.0;
    Crew large = crew;
    large.set_stakes(0.0).pull_sides_and_diagonals();
    make_tape_read(large, error_m);
    std::vector<std::pair<const char*, const char*>> pairs{{"A", "B"}, {"B", "C"}, {"C", "D"},
                                                           {"A", "E"}, {"B", "F"}, {"C", "G"}};
    read_too(large, pairs);
    const Findings findings = check(large.input());
    return findings.same_pairs.at(0).like;
  };
  EXPECT_EQ(like_of([](double length_m) { return 0.002 * length_m; }), SamePairs::Like::scale);
  EXPECT_EQ(like_of([](double) { return 0.012; }), SamePairs::Like::zero);
}

TEST(SamePairs, AreSilentWhereBothAgree) {
  Crew crew(6, 403);
  crew.set_stakes(0.0005).pull_sides_and_diagonals();
  read_too(crew, {{"A", "D"}, {"B", "E"}, {"C", "F"}});
  const Findings findings = check(crew.input());
  ASSERT_THAT(findings.same_pairs, SizeIs(1));
  EXPECT_FALSE(findings.same_pairs.front().differ);
  EXPECT_THAT(told_in_english(findings.remarks), Not(Contains(HasSubstr("against laser"))));
  EXPECT_THAT(told_in_english(findings.remarks), Not(Contains(HasSubstr("off all along"))));
}

TEST(SamePairs, NameThePullsThatWouldShowAnInstrumentThatIsOff) {
  Crew crew(6, 404);
  crew.set_stakes(0.0005).pull_sides_and_diagonals();
  const Findings findings = check(crew.input());
  EXPECT_THAT(findings.same_pairs, IsEmpty());
  EXPECT_THAT(
      told_in_english(findings.remarks),
      Contains(AllOf(HasSubstr("off all along"), HasSubstr("with laser as well as steel"))));
}

// Pulled as told, an error of the size said is remarked on four times in five: here, drawn once,
// with one and a half times the size.
TEST(SamePairs, ReadAsToldShowTheErrorThatWasSaid) {
  Crew crew(6, 405);
  crew.set_stakes(0.0005).pull_sides_and_diagonals();
  make_tape_read(crew, [](double) { return 0.0075; });
  read_too(crew, {{"A", "D"}, {"B", "E"}});
  EXPECT_TRUE(check(crew.input()).same_pairs.at(0).differ);
}

TEST(SamePairs, LeaveOutAReadingThatIsMisread) {
  Crew crew(6, 406);
  crew.set_stakes(0.0005).pull_sides_and_diagonals().pull_corner_radii();
  crew.misread("A", "B", kFoot_m);
  read_too(crew, {{"A", "B"}, {"B", "C"}, {"C", "D"}});
  const Findings findings = check(crew.input());
  EXPECT_EQ(findings.same_pairs.at(0).pairs, 2U);
  EXPECT_FALSE(findings.same_pairs.at(0).differ);
}

}  // namespace
}  // namespace stakewright::check

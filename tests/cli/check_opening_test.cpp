#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "hexagon_findings.hpp"
#include "reports.hpp"

namespace stakewright::cli {
namespace {

using base::Units;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;
using tests::hexagon_all_in;
using tests::hexagon_d_out;

std::string opening(const check::Findings& findings, Units units = Units::feet_inches) {
  return check_opening(findings, base::Tolerance{}, units);
}

TEST(CheckOpening, TellsAForemanThatNothingMoves) {
  EXPECT_EQ(opening(hexagon_all_in()),
            "All 6 corners are in, each within 1/4\" of its place. Nothing moves.");
}

TEST(CheckOpening, TellsWhichStakeMovesWhichWayAndFromWhere) {
  EXPECT_THAT(
      opening(hexagon_d_out()),
      HasSubstr("Stake D is 7/8\" outward and 1/8\" clockwise of its place. Move it 7/8\" "
                "inward and 1/8\" counterclockwise: hold at B and pull 13' 10-1/4\", hold at F "
                "and pull 16' 0\"; it stands where the two meet."));
}

TEST(CheckOpening, TellsWhatWasLeftOutAndWhatSlipItLooksLike) {
  EXPECT_THAT(
      opening(hexagon_d_out()),
      HasSubstr("The tape A–C reads 1' 0\" too long and was left out; it looks like a whole "
                "foot, held on the wrong mark."));
}

TEST(CheckOpening, SaysWhoIsInBesideTheOneThatMoves) {
  EXPECT_THAT(opening(hexagon_d_out()),
              HasSubstr("A, B, C, E and F are in, within 1/4\" of their places."));
}

TEST(CheckOpening, SpeaksMetricToo) {
  EXPECT_THAT(opening(hexagon_d_out(), Units::millimeters),
              AllOf(HasSubstr("Stake D is 22 mm outward and 3 mm clockwise of its place."),
                    HasSubstr("hold at B and pull 4223 mm"), Not(HasSubstr("\""))));
}

TEST(CheckOpening, SaysWhenTooFewStakesStayToTapeFrom) {
  auto findings = hexagon_d_out();
  findings.moves[0].tapes.clear();
  EXPECT_THAT(opening(findings), HasSubstr("fewer than two stakes stay to tape it from."));
}

TEST(CheckOpening, LeavesManyMovesToTheTable) {
  auto findings = hexagon_d_out();
  for (const std::size_t corner : {0U, 1U, 2U, 4U}) {
    findings.moves.push_back(findings.moves[0]);
    findings.moves.back().corner = corner;
  }
  EXPECT_THAT(opening(findings), HasSubstr("2 more stakes to move: see the moves below."));
}

TEST(CheckOpening, NamesAHeldStakeThatIsOut) {
  auto findings = hexagon_d_out();
  findings.moves.clear();
  EXPECT_THAT(
      opening(findings),
      HasSubstr("Stake D is 7/8\" outward and 1/8\" clockwise of its place and has no move."));
}

TEST(CheckOpening, NamesTheTapesThatWouldFixALooseCorner) {
  auto findings = hexagon_all_in();
  findings.verdict = findings.places = check::Verdict::undecided;
  findings.used.status = adjustment::Status::shape_not_fixed;
  findings.used.loose = {{2, {{0, 2}, {2, 4}}}};
  findings.placement->corners[2] = {};
  findings.survey->measured[2] = false;
  EXPECT_EQ(opening(findings),
            "No corner is shown to be out. A, B, D, E and F are in, within 1/4\" of their places. "
            "Corner C is not fixed by these readings. Pull A–C and "
            "C–E to fix it.");
}

TEST(CheckOpening, JudgesNothingWhenTheReadingsContradictEachOther) {
  auto findings = hexagon_d_out();
  findings.verdict = findings.places = check::Verdict::contradiction;
  findings.moves.clear();
  findings.slips = {};
  findings.slips.verdict = adjustment::SlipVerdict::not_separable;
  findings.slips.ranked = {{{0}, {0.3}, 0.5}, {{1, 2}, {0.1, 0.1}, 0.4}};
  const std::string text = opening(findings);
  EXPECT_THAT(text, HasSubstr("The readings contradict each other"));
  EXPECT_THAT(text, HasSubstr("cannot tell which: A–C, or B–D with D–F."));
  EXPECT_THAT(text, Not(HasSubstr("Move it")));
  EXPECT_THAT(text, Not(HasSubstr(" in, within")));
}

TEST(CheckOpening, NamesTheNextPullWhenItCannotTell) {
  auto findings = hexagon_all_in();
  findings.verdict = findings.places = check::Verdict::undecided;
  findings.placement->corners[3].verdict = placement::Verdict::undecided;
  suspects::NextTape next;
  next.from = 0;
  next.to = 3;
  next.repeat = true;
  next.why = "tells a misread A–D from stake D standing 1\" outward";
  findings.tape_next = {next};
  EXPECT_THAT(opening(findings), HasSubstr("Pull A–D again next: tells a misread A–D from stake D "
                                           "standing 1\" outward."));
}

TEST(CheckOpening, SaysThatThereIsNothingToJudgeBy) {
  check::Findings findings;
  EXPECT_EQ(opening(findings), "There are no readings to judge by.");
}

TEST(CheckOpening, KeepsALaserApartFromATape) {
  auto findings = hexagon_d_out();
  findings.network.instruments[0].kind = readings::Kind::laser;
  EXPECT_THAT(opening(findings), HasSubstr("The laser reading A–C reads"));
}

}  // namespace
}  // namespace stakewright::cli

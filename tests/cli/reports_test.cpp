#include "reports.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <limits>
#include <sstream>

#include "stakewright/told/check.hpp"
#include "told/hexagon_findings.hpp"

namespace stakewright::cli {
namespace {

using base::Units;
using testing::AllOf;
using testing::ContainsRegex;
using testing::HasSubstr;
using testing::Not;
using tests::hexagon_d_out;
using tests::hexagon_job;
using tests::kFoot_m;
using tests::kInch_m;

constexpr Shown kFeet{Units::feet_inches, Emphasis::off};
constexpr Shown kMillimeters{Units::millimeters, Emphasis::off};

void expect_within_width(const std::string& report) {
  std::istringstream in(report);
  for (std::string line; std::getline(in, line);) {
    EXPECT_LE(display_width(line), kReportWidth) << line;
  }
}

std::string check_report(const job::Job& job, const check::Findings& findings, const Shown& shown) {
  return text_of(told::check_report(job, findings, false), {wording::built_in("en"), shown.units},
                 shown.emphasis);
}

TEST(CheckReport, OpensWithTheJobAndThenWhatToDo) {
  const std::string report = check_report(hexagon_job(), hexagon_d_out(), kFeet);
  EXPECT_TRUE(report.starts_with("Larch Hollow\n\nStake D is 7/8\" outward")) << report;
}

TEST(CheckReport, GivesEachCornerItsDeviationInWords) {
  const std::string report = check_report(hexagon_job(), hexagon_d_out(), kFeet);
  EXPECT_THAT(report, ContainsRegex("D +7/8\" outward +1/8\" clockwise .* under 1 % +OUT"));
  EXPECT_THAT(report, ContainsRegex("A +0\" +0\" .* over 99 % +in"));
}

TEST(CheckReport, GivesEachMoveItsTwoTapes) {
  EXPECT_THAT(check_report(hexagon_job(), hexagon_d_out(), kFeet),
              ContainsRegex("D +7/8\" inward +1/8\" counterclockwise +B +13' 10-1/4\" +F +16' 0\" "
                            "+57\\.30° +over 99 %"));
}

TEST(CheckReport, SaysWhichReadingWasLeftOutAndHowItReads) {
  EXPECT_THAT(check_report(hexagon_job(), hexagon_d_out(), kFeet),
              ContainsRegex("A–C +steel .*1' 0\" long .*left out"));
}

TEST(CheckReport, SaysThatNoSlipIsSeenWhereNothingChecksAReading) {
  auto findings = hexagon_d_out();
  findings.used.readings_out[1].smallest_catch = std::numeric_limits<double>::infinity();
  EXPECT_THAT(check_report(hexagon_job(), findings, kFeet), ContainsRegex("B–D +steel .* none"));
}

TEST(CheckReport, ListsWhatTheNumbersMayMeanWithTheRestLast) {
  const std::string report = check_report(hexagon_job(), hexagon_d_out(), kFeet);
  EXPECT_THAT(report, ContainsRegex("1 +96 % +The tape A–C is misread: it reads about "));
  EXPECT_THAT(report, ContainsRegex(" +3 % +something else\n"));
}

TEST(CheckReport, SaysWhichCausesTheNumbersCannotTellApart) {
  auto findings = hexagon_d_out();
  findings.suspects.ranked[0].alike = {1};
  EXPECT_THAT(check_report(hexagon_job(), findings, kFeet),
              HasSubstr("(a whole foot). (the numbers"));
}

TEST(CheckReport, MarksACornerWhosePlaceIsNotKnown) {
  auto findings = hexagon_d_out();
  findings.survey->measured[2] = false;
  findings.placement->corners[2] = {};
  EXPECT_THAT(check_report(hexagon_job(), findings, kFeet),
              ContainsRegex("C +not fixed +cannot tell"));
}

TEST(CheckReport, IsAsNarrowAsATerminal) {
  expect_within_width(check_report(hexagon_job(), hexagon_d_out(), kFeet));
  expect_within_width(check_report(hexagon_job(), hexagon_d_out(), kMillimeters));
}

TEST(CheckReport, StandsWithoutAnyPlace) {
  check::Findings findings;
  EXPECT_THAT(check_report(hexagon_job(), findings, kFeet),
              HasSubstr("There are no readings to judge by."));
}

TEST(CheckReport, RemindsOfTheTapeAndOfTheLocalCode) {
  EXPECT_THAT(check_report(hexagon_job(), hexagon_d_out(), kFeet),
              AllOf(HasSubstr("known length"), HasSubstr("local code")));
}

results::LayoutResult layout_by_hand() {
  results::LayoutResult result;
  result.stakes = {{"A", {-1.5, 2.6}}, {"O", {0.0, 0.0}}};
  result.tapes = {{"A", "B", 1, 3.0}, {"B", "C", 1, 3.0}, {"A", "D", 3, 6.0}, {"O", "A", 0, 3.0}};
  result.order.given = {"O", "A"};
  layout::Swing swing;
  swing.stake = "B";
  swing.from = {layout::Hold{"O", 3.0}, layout::Hold{"A", 3.0}};
  swing.crossing_rad = 1.0471975511965976;  // a sixth of a turn
  swing.sd_m = 0.0012;
  result.order.swings = {swing};
  result.lines = {{"dig", 0.6, 3.7, 3.7, 35.0, {}}, {"post face", -0.05, 2.9, 2.9, 20.0, {}}};
  result.strings = {{"A-B", {-3.0, 2.6}, {3.0, 2.6}, 1.5, 6.0}};
  result.clearances = {{"dig", "fence", 1.0, false, 0.0, {}},
                       {"roof", "fence", 0.0, true, 0.25, {{4.0, -1.0}}}};
  return result;
}

TEST(LayoutReport, ListsSwingsInWorkingOrder) {
  EXPECT_THAT(layout_report(hexagon_job(), layout_by_hand(), kMillimeters),
              AllOf(HasSubstr("standing before the first: O and A"),
                    ContainsRegex("1 +B +O +3000 mm +A +3000 mm +60\\.00° +1\\.2 mm")));
}

TEST(LayoutReport, NamesEachCheckLengthOnceWithItsPulls) {
  EXPECT_THAT(layout_report(hexagon_job(), layout_by_hand(), kMillimeters),
              AllOf(ContainsRegex("side +3000 mm +A–B, B–C\n"),
                    ContainsRegex("diagonal across, over 3 sides +6000 mm +A–D\n"),
                    ContainsRegex("corner radius +3000 mm +O–A\n")));
}

TEST(LayoutReport, GivesPlacesInWordsNotSigns) {
  EXPECT_THAT(layout_report(hexagon_job(), layout_by_hand(), kMillimeters),
              AllOf(ContainsRegex("A +1500 mm left +2600 mm forward +3002 mm +330\\.0°"),
                    ContainsRegex("post face +50 mm in"), ContainsRegex("dig +600 mm out")));
}

TEST(LayoutReport, SaysWhereALineCrossesAnOutline) {
  EXPECT_THAT(layout_report(hexagon_job(), layout_by_hand(), kMillimeters),
              AllOf(ContainsRegex("dig +fence +1000 mm +clear\n"),
                    HasSubstr("past it by 250 mm; meets it at 4000 mm right, 1000 mm back")));
}

// Regular hexagon with corner radius 3 m: side 3 m, perimeter 18 m, across corners 6 m (Euclid
// IV.15); flats 2·3·cos 30° = 5.196 m; area 3·√3/2·9 = 23.38 m².
TEST(LayoutReport, GivesThePlanItsFigures) {
  EXPECT_THAT(layout_report(hexagon_job(), layout_by_hand(), kMillimeters),
              AllOf(ContainsRegex("side +3000 mm"), ContainsRegex("across flats +5196 mm"),
                    ContainsRegex("across corners +6000 mm"), ContainsRegex("perimeter +18000 mm"),
                    ContainsRegex("floor area +23\\.38 m"),
                    ContainsRegex("angle between sides +120\\.00°")));
}

TEST(LayoutReport, WarnsBeforeTheFirstStake) {
  EXPECT_THAT(layout_report(hexagon_job(), layout_by_hand(), kFeet),
              AllOf(HasSubstr("buried services"), HasSubstr("power lines")));
}

}  // namespace
}  // namespace stakewright::cli

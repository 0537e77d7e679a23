// The layout of a whole job, and its points as a table for other programs.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <sstream>

#include "stakewright/job/job.hpp"
#include "stakewright/output/points.hpp"
#include "stakewright/results/layout.hpp"

namespace stakewright::output {
namespace {

using testing::HasSubstr;

/// A square of side 4 m about a pin at (10, 20), facing forward.
job::Job square_job() {
  job::Job job;
  job.plan.polygon = layout::polygon_from(layout::Size::side, 4.0, 4);
  job.plan.center = {10.0, 20.0};
  job.instruments = readings::built_in_instruments();
  return job;
}

std::vector<std::string> rows_of(const std::string& csv) {
  std::vector<std::string> rows;
  std::istringstream text(csv);
  for (std::string row; std::getline(text, row);) rows.push_back(row);
  return rows;
}

std::vector<std::string> rows_of(const job::Job& job, base::Units units) {
  return rows_of(points_csv(job, results::layout_of(job), units));
}

TEST(PointsCsv, ListsCornersAndCenterPinInMeters) {
  const auto rows = rows_of(square_job(), base::Units::meters);
  ASSERT_GE(rows.size(), 6U);
  EXPECT_EQ(rows[0], "label,right,forward,height,note");
  EXPECT_EQ(rows[1], "A,8.0000,22.0000,,\"corner, post centers (m)\"");
  EXPECT_EQ(rows[2], "B,12.0000,22.0000,,\"corner, post centers (m)\"");
  EXPECT_EQ(rows[3], "C,12.0000,18.0000,,\"corner, post centers (m)\"");
  EXPECT_EQ(rows[4], "D,8.0000,18.0000,,\"corner, post centers (m)\"");
  EXPECT_EQ(rows[5], "O,10.0000,20.0000,,center pin (m)");
}

TEST(PointsCsv, WritesPlainDecimalsInTheUnitsAskedFor) {
  const job::Job job = square_job();
  EXPECT_EQ(rows_of(job, base::Units::millimeters)[5], "O,10000.0,20000.0,,center pin (mm)");
  // 10 m and 20 m over 0.3048 m: 32.80840 ft and 65.61680 ft.
  EXPECT_EQ(rows_of(job, base::Units::feet_inches)[5], "O,32.8084,65.6168,,center pin (feet)");
}

TEST(PointsCsv, WritesNoMinusZero) {
  job::Job job = square_job();
  job.plan.center = {-1e-9, -1e-9};
  EXPECT_EQ(rows_of(job, base::Units::meters)[5], "O,0.0000,0.0000,,center pin (m)");
}

TEST(PointsCsv, ListsPinsLinesAndNails) {
  job::Job job = square_job();
  job.plan.pins = {{"P1", {-1.5, 3.25}}};
  job.plan.lines = {{"dig", 1.0}};
  job.plan.batter_setback_m = 3.0;
  const auto rows = rows_of(job, base::Units::meters);
  EXPECT_EQ(rows.size(), 1U + 4 + 1 + 1 + 4 + 8);
  EXPECT_THAT(rows,
              testing::IsSupersetOf({"P1,-1.5000,3.2500,,known point (m)",
                                     "dig A,7.0000,23.0000,,corner of the line dig (m)",
                                     "A-B at A,5.0000,22.0000,,nail of the string along A-B (m)",
                                     "A-B at B,15.0000,22.0000,,nail of the string along A-B (m)",
                                     "D-A at A,8.0000,25.0000,,nail of the string along D-A (m)"}));
}

TEST(PointsCsv, QuotesNamesAsRfc4180Asks) {
  job::Job job = square_job();
  job.plan.pins = {{"north, \"old\" pin", {1.0, 2.0}}};
  EXPECT_THAT(points_csv(job, results::layout_of(job), base::Units::meters),
              HasSubstr("\n\"north, \"\"old\"\" pin\",1.0000,2.0000,,known point (m)\n"));
}

TEST(PointsCsv, ListsTheRoofsEdgeWithTheLines) {
  job::Job job = square_job();
  job.has_roof = true;
  job.plate_offset_m = 0.25;
  job.roof.overhang_m = 0.7;
  job.roof.fascia_m = 0.05;
  // Out by 0.25 + 0.70 + 0.05 m from the corner at (8, 22).
  EXPECT_THAT(rows_of(job, base::Units::meters),
              testing::Contains("roof edge A,7.0000,23.0000,,corner of the line roof edge (m)"));
}

TEST(LayoutOfAJob, HasStakesTapesSwingsLinesStringsAndClearances) {
  job::Job job = square_job();
  job.plan.lines = {{"dig", 0.5}};
  job.plan.keep_clear = {{"fence", true, {{0, 0}, {50, 0}, {50, 50}, {0, 50}}}};
  const auto result = results::layout_of(job);
  EXPECT_EQ(result.stakes.size(), 5U);
  EXPECT_EQ(result.tapes.size(), 4U + 2 + 4);
  EXPECT_EQ(result.order.given.size() + result.order.swings.size(), 5U);
  EXPECT_EQ(result.lines.size(), 1U);
  EXPECT_EQ(result.strings.size(), 4U);
  EXPECT_EQ(result.clearances.size(), 2U);
}

TEST(LayoutOfAJob, HoldsTheRoofsEdgeClearOfTheOutlinesButNoBatterBoardsClearOfIt) {
  job::Job job = square_job();
  job.plan.keep_clear = {{"fence", true, {{5, 0}, {50, 0}, {50, 50}, {5, 50}}}};
  const auto without = results::layout_of(job);
  job.has_roof = true;
  job.roof.overhang_m = 3.9;
  job.roof.fascia_m = 0.1;
  const auto with = results::layout_of(job);
  EXPECT_EQ(with.strings[0].setback_m, without.strings[0].setback_m);
  ASSERT_EQ(with.clearances.size(), 2U);
  EXPECT_EQ(with.clearances[1].line, "roof edge");
  // The plan line's left side is at 8, the eave 4 m further, at 4; the fence is at 5.
  EXPECT_TRUE(with.clearances[1].crosses);
  EXPECT_NEAR(with.clearances[1].beyond_m, 1.0, 1e-5);
  EXPECT_FALSE(with.clearances[0].crosses);
  EXPECT_THAT(with.order.remarks,
              testing::Contains("Line roof edge goes past the outline \"fence\". Move or turn the "
                                "plan, or make it smaller."));
}

TEST(LayoutOfAJob, NamesThePinsThatAreInTheWayOfTheGroundWork) {
  job::Job job = square_job();
  job.plan.pins = {{"P1", {8.5, 21.0}}, {"P2", {7.5, 20.0}}, {"P3", {6.0, 20.0}}};
  job.plan.lines = {{"plate", 0.1}, {"slab_edge", 0.2}, {"dig", 1.0}};
  const auto remarks = results::layout_of(job).order.remarks;
  EXPECT_THAT(remarks, testing::Contains(testing::StartsWith(
                           "Pin P1 stands inside slab_edge and dig: it is lost when")));
  EXPECT_THAT(remarks, testing::Contains(testing::StartsWith("Pin P2 stands inside dig:")));
  EXPECT_THAT(remarks, testing::Not(testing::Contains(HasSubstr("P3"))));
}

TEST(LayoutOfAJob, WeighsTheSwingsWithTheJobsOwnSteelTape) {
  const job::Job usual = square_job();
  job::Job worn = square_job();
  for (auto& instrument : worn.instruments)
    if (instrument.name == readings::default_instrument(readings::Kind::tape)) {
      instrument.constant_m *= 3.0;
      instrument.per_length *= 3.0;
      instrument.centering_m *= 3.0;
    }
  const auto with_usual = results::layout_of(usual).order.swings;
  const auto with_worn = results::layout_of(worn).order.swings;
  EXPECT_GT(with_usual[0].sd_m, 0.0);
  EXPECT_NEAR(with_worn[0].sd_m, 3.0 * with_usual[0].sd_m, 1e-12);
  job::Job none = square_job();
  none.instruments.clear();
  EXPECT_EQ(results::layout_of(none).order.swings[0].sd_m, with_usual[0].sd_m);
}

TEST(LayoutOfAJob, RemarksOnTheStringsToo) {
  job::Job job = square_job();
  job.plan.polygon = layout::polygon_from(layout::Size::side, 0.5, 24);
  EXPECT_THAT(results::layout_of(job).order.remarks,
              testing::Contains(HasSubstr("24 sides neighboring strings cross flatter")));
}

}  // namespace
}  // namespace stakewright::output

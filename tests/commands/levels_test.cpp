// Rods through the built command: sentences, tables, JSON, exit status, refusals.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "jobs.hpp"
#include "run_command.hpp"

namespace stakewright::tests {
namespace {

using nlohmann::json;
using testing::AllOf;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

/// Rods on A to F from one set-up, the footings standing so high.
std::string rods(const std::string& set_up, int line_of_sight_mm, const std::vector<int>& high_mm) {
  std::string text;
  for (std::size_t i = 0; i < high_mm.size(); ++i)
    text += fmt::format("level,{},{},{}mm\n", set_up, "ABCDEF"[i], line_of_sight_mm - high_mm[i]);
  return text;
}

std::string only_rods(const std::vector<int>& high_mm) {
  return "kind,from,to,reading\n" + rods("L1", 1400, high_mm) + rods("L2", 1655, high_mm);
}

Finished checked(const std::string& readings, const std::vector<std::string>& more = {},
                 const std::string& job = hexagon_job()) {
  const Site site;
  site.write("job.toml", job);
  site.write("readings.csv", readings);
  std::vector<std::string> words = {"check", "job.toml", "readings.csv"};
  words.insert(words.end(), more.begin(), more.end());
  return site.stakewright(words);
}

/// A report's words in one line, however they were wrapped.
std::string unwrapped(std::string report) {
  std::replace(report.begin(), report.end(), '\n', ' ');
  return report;
}

TEST(CheckLevels, OfLevelFootingsExitsZeroAndSaysSo) {
  const Finished run = checked(only_rods({0, 1, 0, -1, 0, 0}));
  EXPECT_EQ(run.status, 0) << run.out;
  EXPECT_THAT(unwrapped(run.out),
              AllOf(HasSubstr("All 6 footings are level within 1/8\""),
                    HasSubstr("places are not judged"), Not(HasSubstr("Pull "))));
}

TEST(CheckLevels, OfOneFootingHalfAnInchLowExitsOneAndNamesThatOne) {
  const Finished run = checked(only_rods({0, 0, 0, -13, 0, 0}));
  EXPECT_EQ(run.status, 1);
  EXPECT_THAT(run.out, AllOf(HasSubstr("D stands 1/2\" low. The others are level."),
                             HasSubstr("pack 1/2\"")));
}

TEST(CheckLevels, OfALeaningFormSayItTiltsAndWhichWay) {
  // From B, 12 mm high, down to E, 12 mm low, over the hexagon.
  const Finished run = checked(only_rods({6, 12, 6, -6, -12, -6}));
  EXPECT_EQ(run.status, 1);
  EXPECT_THAT(unwrapped(run.out),
              AllOf(HasSubstr("The form tilts: 15/16\" down toward E over its whole width."),
                    HasSubstr("No single footing is out of that plane.")));
}

/// Tapes that find every corner in its place, and rods from two set-ups on footings that stand so
/// high.
std::string tapes_and_rods(const std::vector<int>& high_mm) {
  std::string tapes = hexagon_readings();
  tapes.erase(0, tapes.find('\n') + 1);
  std::string rows = "kind,from,to,reading\n";
  for (std::size_t at = 0; at < tapes.size();) {
    const std::size_t end = tapes.find('\n', at);
    rows += "tape," + tapes.substr(at, end - at) + '\n';
    at = end + 1;
  }
  return rows + rods("L1", 1400, high_mm) + rods("L2", 1655, high_mm);
}

/// E 9 mm high, the others level.
std::string tapes_and_rods() { return tapes_and_rods({0, 0, 0, 0, 9, 0}); }

/// The words of the correction sheet after these readings.
std::string correction_sheet(const std::string& job, const std::string& readings) {
  const Site site;
  site.write("job.toml", job);
  site.write("readings.csv", readings);
  EXPECT_EQ(site.stakewright({"form", "job.toml", "readings.csv", "-o", "move.pdf"}).status, 0);
  return unwrapped(site.shell("pdftotext move.pdf -").out);
}

TEST(CorrectionSheet, SaysThatAFootingIsOffLevelAndNotThatItsStakeIsOut) {
  EXPECT_THAT(correction_sheet(hexagon_job(), tapes_and_rods()),
              AllOf(HasSubstr("Every stake is within 1/4\" of its true place"),
                    HasSubstr("E stands 3/8\" high."), Not(HasSubstr("Move these")),
                    Not(HasSubstr("until the tapes above are pulled"))));
}

TEST(CorrectionSheet, JudgesLevelsByTheBenchMarkOfTheJob) {
  // All level, and all an inch under the height wanted.
  const std::string mark =
      fmt::format("level,L1,BM,{}mm\nlevel,L2,BM,{}mm\n", 1400 + 127, 1655 + 127);
  const std::string job =
      hexagon_job() + "[levels]\nbench_mark = \"BM\"\nheight = \"10ft\"\nfootings = \"10ft 6in\"\n";
  EXPECT_THAT(correction_sheet(job, tapes_and_rods({0, 0, 0, 0, 0, 0}) + mark),
              HasSubstr("all stand about 1\" below the height wanted over BM"));
}

TEST(NextTapes, AreNotAskedForByAFootingOffLevel) {
  const Site site;
  site.write("job.toml", hexagon_job());
  // E is so near to the limit of 1/8 in that its level cannot be told, and no tape can tell it.
  site.write("readings.csv", tapes_and_rods({0, 0, 0, 0, 3, 0}));
  EXPECT_EQ(site.stakewright({"check", "job.toml", "readings.csv"}).status, 3);
  EXPECT_EQ(site.stakewright({"tapes", "job.toml", "readings.csv"}).status, 0);
}

TEST(CheckLevels, StandInTheReportBesideTheCorners) {
  const Finished run = checked(tapes_and_rods());
  EXPECT_EQ(run.status, 1);
  EXPECT_THAT(unwrapped(run.out),
              AllOf(HasSubstr("All 6 corners are in"), HasSubstr("E stands 3/8\" high"),
                    HasSubstr("Rod readings")));
}

/// The height of a point, the fourth field of its row.
double height_in(const std::string& points, const std::string& label) {
  std::string row = points.substr(points.find('\n' + label + ',') + 1);
  for (int field = 0; field < 3; ++field) row.erase(0, row.find(',') + 1);
  return std::stod(row);
}

TEST(CheckLevels, AreTheHeightsOfThePointsFile) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", tapes_and_rods());
  EXPECT_EQ(
      site.stakewright({"check", "job.toml", "readings.csv", "-o", "points.csv", "--units", "m"})
          .status,
      1);
  const std::string points = site.read("points.csv");
  EXPECT_NEAR(height_in(points, "E found") - height_in(points, "A found"), 0.009, 2e-4);
}

TEST(CheckLevels, AreInTheJsonByTheKeysOfTheResultsPage) {
  const Finished run = checked(only_rods({0, 0, 0, -13, 0, 0}), {"--json"});
  const json check = json::parse(run.out);
  EXPECT_EQ(check["verdict"], "out");
  EXPECT_EQ(check["corners"][3]["level_verdict"], "out");
  EXPECT_NEAR(check["corners"][3]["level"].get<double>(), -0.013, 1e-9);
  EXPECT_EQ(check["corners"][0]["level_verdict"], "in");
  const json& levels = check["levels"];
  EXPECT_EQ(levels["shape"], "footings");
  EXPECT_EQ(levels["wrong"], json::array({"D"}));
  EXPECT_EQ(levels["against"], "mean");
  EXPECT_NEAR(levels["footings"][3]["packing"].get<double>(), 0.013, 1e-9);
  EXPECT_EQ(levels["adjustment"]["redundancy"], 5);
  ASSERT_EQ(check["readings"].size(), 12U);
  EXPECT_EQ(check["readings"][0]["kind"], "level");
  EXPECT_EQ(check["readings"][0]["from"], "L1");
}

TEST(CheckLevels, WithoutRodsAreNullInTheJson) {
  const json check = json::parse(checked(hexagon_readings(), {"--json"}).out);
  EXPECT_TRUE(check["levels"].is_null());
  EXPECT_TRUE(check["corners"][0]["level"].is_null());
}

TEST(CheckLevels, AgainstABenchMarkGiveWhatToPackOrCut) {
  const std::string job =
      hexagon_job() + "[levels]\nbench_mark = \"BM\"\nheight = \"10ft\"\nfootings = \"10ft 6in\"\n";
  const std::vector<int> wanted(6, 0);
  const std::string mark =
      fmt::format("level,L1,BM,{}mm\nlevel,L2,BM,{}mm\n", 1400 + 152, 1655 + 152);
  const Finished level = checked(only_rods(wanted) + mark, {}, job);
  EXPECT_EQ(level.status, 0) << level.out;
  EXPECT_THAT(unwrapped(level.out), HasSubstr("stand at the height wanted, within 1/8\""));
  const Finished low = checked(only_rods({-25, -25, -26, -25, -25, -24}) + mark, {}, job);
  EXPECT_EQ(low.status, 1);
  EXPECT_THAT(unwrapped(low.out),
              AllOf(HasSubstr("all stand about 1\" below the height wanted over BM"),
                    HasSubstr("pack 1\"")));
  const Finished unread = checked(only_rods(wanted), {}, job);
  EXPECT_EQ(unread.status, 0);
  EXPECT_THAT(unread.err, HasSubstr("No rod was read on the bench mark BM"));
}

TEST(CheckLevels, SayWhatASingleSetUpAndASingleRodLeaveOpen) {
  const Finished run = checked("kind,from,to,reading\n" + rods("L1", 1400, {0, 0, 0, 0, 0, 0}) +
                               "level,L2,A,1200mm\n");
  EXPECT_EQ(run.status, 0);
  EXPECT_THAT(run.err, AllOf(HasSubstr("Nothing checks the rod readings"),
                             HasSubstr("One rod was read from L2")));
}

TEST(CheckLevels, OfTwoRodsAFootApartNameBothAndAskForThemAgain) {
  std::string text = only_rods({0, 0, 0, 0, 0, 0});
  const std::size_t at = text.find("level,L2,C,1655mm");
  text.replace(at, 17, "level,L2,C,1960mm");
  const Finished run = checked(text);
  EXPECT_EQ(run.status, 3) << run.out;
  EXPECT_THAT(run.out,
              AllOf(HasSubstr("C from L1"), HasSubstr("C from L2"), HasSubstr("Read them again")));
}

TEST(CheckLevels, RefuseWhatIsNoRod) {
  struct Refusal {
    std::string row;
    std::vector<std::string> message;
  };
  const std::vector<Refusal> refusals = {
      {"level,L1,a,1.2m", {"line 2, column to", "\"a\"", "\"A\""}},
      {"level,C,A,1.2m", {"line 2, column from", "\"C\"", "the name of a set-up"}},
      {"level,L1,A,0", {"line 2, column reading", "above 0"}},
      {"level,L1,A,-1.2m", {"line 2, column reading", "above 0"}},
      {"level,,A,1.2m", {"line 2, column from"}},
      {"level,L1,,1.2m", {"line 2, column to"}},
  };
  for (const Refusal& refusal : refusals) {
    const Finished run = checked("kind,from,to,reading\n" + refusal.row + "\n");
    EXPECT_EQ(run.status, 2) << refusal.row;
    EXPECT_THAT(run.out, IsEmpty()) << refusal.row;
    for (const std::string& part : refusal.message) EXPECT_THAT(run.err, HasSubstr(part));
  }
}

}  // namespace
}  // namespace stakewright::tests

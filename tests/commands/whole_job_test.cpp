// The main job through the built command, from a starting file to the carry.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <set>
#include <string>

#include "jobs.hpp"
#include "run_command.hpp"

namespace stakewright::tests {
namespace {

using nlohmann::json;
using testing::HasSubstr;
using testing::StartsWith;

constexpr double kInch_m = 0.0254;

TEST(Start, WritesAJobThatRunsAsItStands) {
  const Site site;
  EXPECT_EQ(site.stakewright({"start"}).status, 0);
  EXPECT_EQ(site.stakewright({"layout", "stakewright.toml"}).status, 0);
  EXPECT_EQ(site.stakewright({"carry", "stakewright.toml"}).status, 0);
}

TEST(Layout, GivesEveryStakeAndEveryCheckLengthAsJson) {
  const Site site;
  site.write("job.toml", hexagon_job());
  const Finished run = site.stakewright({"layout", "job.toml", "--json"});
  ASSERT_EQ(run.status, 0) << run.err;
  const json result = json::parse(run.out);
  EXPECT_EQ(result["units"], "m");
  EXPECT_EQ(result["job"], "Test hexagon");
  EXPECT_EQ(result["stakes"].size(), 7U);
  EXPECT_EQ(result["tapes"].size(), 15U + 6U);
  // 16 ft across flats: flat radius 8 ft, side 8 ft · 2 / sqrt 3 (Euclid IV.15: side equals
  // radius).
  EXPECT_NEAR(result["plan"]["flat_radius"].get<double>(), 8.0 * 0.3048, 1e-12);
  EXPECT_NEAR(result["plan"]["side"].get<double>(), 2.4384 * 2.0 / std::sqrt(3.0), 1e-12);
}

TEST(Layout, WritesPointsAsCsv) {
  const Site site;
  site.write("job.toml", hexagon_job());
  ASSERT_EQ(site.stakewright({"layout", "job.toml", "-o", "points.csv"}).status, 0);
  EXPECT_THAT(site.read("points.csv"), StartsWith("label,right,forward"));
}

TEST(Check, OfAFigureInToleranceExitsZero) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", hexagon_readings());
  const Finished run = site.stakewright({"check", "job.toml", "readings.csv"});
  EXPECT_EQ(run.status, 0) << run.out;
  EXPECT_THAT(run.out, HasSubstr(" in"));
}

TEST(Check, OfOneStakeAnInchOutExitsOneAndGivesItsMoveAlone) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", hexagon_readings('D', kInch_m));
  const Finished run = site.stakewright({"check", "job.toml", "readings.csv", "--json"});
  EXPECT_EQ(run.status, 1);
  const json check = json::parse(run.out);
  EXPECT_EQ(check["verdict"], "out");
  ASSERT_EQ(check["moves"].size(), 1U);
  EXPECT_EQ(check["moves"][0]["stake"], "D");
  EXPECT_NEAR(check["moves"][0]["outward"].get<double>(), -kInch_m, 0.001);
  EXPECT_EQ(check["moves"][0]["tapes"].size(), 2U);
  double chances = 0.0;
  for (const json& suspect : check["suspects"]) chances += suspect["chance"].get<double>();
  EXPECT_NEAR(chances, 1.0, 1e-9);
  EXPECT_EQ(check["suspects"][0]["causes"][0]["what"], "stake");
  EXPECT_EQ(check["suspects"][0]["causes"][0]["label"], "D");
}

TEST(Check, OfSidesAloneCannotTellAndNamesTapes) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write(
      "readings.csv",
      "from,to,reading\nA,B,2816mm\nB,C,2816mm\nC,D,2816mm\nD,E,2816mm\nE,F,2816mm\nF,A,2816mm\n");
  const Finished run = site.stakewright({"check", "job.toml", "readings.csv"});
  EXPECT_EQ(run.status, 3);
  EXPECT_THAT(run.out, HasSubstr("tape"));
}

std::string scaled_readings(double factor, double longer_m) {
  // The hexagon's three lengths: side R, R·√3 and 2R (Euclid IV.15), R = 16 ft / √3.
  const double radius_m = 16.0 * 0.3048 / std::sqrt(3.0);
  std::string text = "from,to,reading\n";
  const std::string labels = "ABCDEF";
  for (std::size_t i = 0; i < labels.size(); ++i)
    for (std::size_t j = i + 1; j < labels.size(); ++j) {
      const std::size_t skip = std::min(j - i, 6 - (j - i));
      const double length_m = radius_m * (skip == 1 ? 1.0 : skip == 2 ? std::sqrt(3.0) : 2.0);
      text += std::string{labels[i]} + ',' + labels[j] + ',' +
              std::to_string(length_m * factor + longer_m) + "m\n";
    }
  return text;
}

TEST(Check, WithoutReadingsSaysSoAndWhatToPull) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", "from,to,reading\n");
  const Finished run = site.stakewright({"check", "job.toml", "readings.csv"});
  EXPECT_EQ(run.status, 3);
  EXPECT_THAT(run.out, HasSubstr("There are no readings to judge by."));
  EXPECT_THAT(run.out, HasSubstr("Pull "));
}

TEST(Check, OfASingleReadingFixesNoCorner) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", "from,to,reading\nA,B,9-2-7/8\n");
  const Finished run = site.stakewright({"check", "job.toml", "readings.csv"});
  EXPECT_EQ(run.status, 3);
  EXPECT_THAT(run.out, HasSubstr("fix no corner"));
}

TEST(Check, OfAStakeNobodyTapedJudgesTheOthersAndNamesItsTapes) {
  const Site site;
  site.write("job.toml", hexagon_job());
  std::string kept = "from,to,reading\n";
  const std::string all = hexagon_readings();
  for (std::size_t at = all.find('\n') + 1; at < all.size();) {
    const std::size_t end = all.find('\n', at) + 1;
    const std::string row = all.substr(at, end - at);
    if (row.find('D') == std::string::npos) kept += row;
    at = end;
  }
  site.write("readings.csv", kept);
  const Finished run = site.stakewright({"check", "job.toml", "readings.csv"});
  EXPECT_EQ(run.status, 3);
  EXPECT_THAT(run.out, HasSubstr("Pull C–D and D–F to fix it"));
}

TEST(Check, OfReadingsAllLongByTheSameAmountNamesTheTape) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", scaled_readings(1.0, kInch_m));
  const Finished run = site.stakewright({"check", "job.toml", "readings.csv"});
  EXPECT_EQ(run.status, 3);
  EXPECT_THAT(run.out, HasSubstr("Everything read with steel"));
}

TEST(Check, OfAPolygonOfAnotherSizeSaysThatTheReadingsAreNotOfThisJob) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", scaled_readings(1.25, 0.0));
  const Finished run = site.stakewright({"check", "job.toml", "readings.csv"});
  EXPECT_EQ(run.status, 3);
  EXPECT_THAT(run.out, HasSubstr("These readings are not of this job"));
}

TEST(Check, OfRepeatsEightInchesApartLeavesOutTheOneThatCannotBe) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", hexagon_readings() + "A,D,5834mm\n");  // 5631 mm and 8 in
  const Finished run = site.stakewright({"check", "job.toml", "readings.csv"});
  EXPECT_EQ(run.status, 0) << run.out;
  EXPECT_THAT(run.out, HasSubstr("The tape A–D (reading 2 of 2)\nreads 8\" too long"));
}

TEST(Check, OfTwoStakesAtOnePointJudgesNothing) {
  const Site site;
  site.write("job.toml", hexagon_job());
  std::string text = "from,to,reading\nA,B,1mm\n";
  for (const std::string corner : {"A", "B"})
    for (const std::string other : {"C,4877mm", "D,5631mm", "E,4877mm", "F,2816mm"})
      text += corner + ',' + other + '\n';
  site.write("readings.csv",
             text + "C,D,2816mm\nD,E,2816mm\nE,F,2816mm\nC,E,4877mm\nD,F,4877mm\nC,F,5631mm\n");
  EXPECT_EQ(site.stakewright({"check", "job.toml", "readings.csv"}).status, 3);
}

TEST(Check, TellsAMisreadTapeFromAMisplacedStake) {
  const Site site;
  site.write("job.toml", hexagon_job());
  std::string readings = hexagon_readings('D', kInch_m);
  const std::string right = "B,E,5631mm";  // 16 ft over cos 30 degrees
  const std::size_t at = readings.find(right);
  ASSERT_NE(at, std::string::npos);
  readings.replace(at, right.size(), "B,E,5327mm");  // a foot short
  site.write("readings.csv", readings);
  const Finished run = site.stakewright({"check", "job.toml", "readings.csv", "--json"});
  EXPECT_EQ(run.status, 1);
  const json check = json::parse(run.out);
  std::set<std::string> excluded;
  for (const json& reading : check["readings"])
    if (reading["excluded"].get<bool>())
      excluded.insert(reading["from"].get<std::string>() + reading["to"].get<std::string>());
  EXPECT_THAT(excluded, testing::ElementsAre("BE"));
  ASSERT_EQ(check["moves"].size(), 1U);
  EXPECT_EQ(check["moves"][0]["stake"], "D");
}

TEST(Carry, WithoutReadingsShowsThePlanAlone) {
  const Site site;
  site.write("job.toml", hexagon_job());
  const Finished run = site.stakewright({"carry", "job.toml", "--json"});
  EXPECT_EQ(run.status, 0);
  const json result = json::parse(run.out);
  ASSERT_FALSE(result["parts"].empty());
  for (const json& part : result["parts"]) {
    EXPECT_TRUE(part.contains("planned"));
    EXPECT_FALSE(part.contains("found"));
  }
}

TEST(Carry, OfAStakeAnInchOutGivesItsHipItsOwnCut) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", hexagon_readings('D', kInch_m));
  const Finished run = site.stakewright({"carry", "job.toml", "readings.csv", "--json"});
  EXPECT_EQ(run.status, 1);
  const json result = json::parse(run.out);
  bool hip_seen = false;
  for (const json& part : result["parts"])
    if (part["part"] == "hip" && part["at"] == "D") {
      hip_seen = true;
      EXPECT_EQ(part["cut"], "own");
      // The hip's run grows by the inch; its slope is 8 in on 12/cos 30° in: 13.8564.
      EXPECT_NEAR(part["difference"].get<double>(), kInch_m * 13.8564 / 16.0, 0.0015);
    }
  EXPECT_TRUE(hip_seen);
}

TEST(Tapes, PlanFewerPullsThanAllAndReachWhatIsAsked) {
  const Site site;
  site.write("job.toml", hexagon_job());
  const Finished run = site.stakewright({"tapes", "job.toml", "--json"});
  ASSERT_EQ(run.status, 0) << run.err;
  const json result = json::parse(run.out);
  EXPECT_TRUE(result["reached"].get<bool>());
  EXPECT_LT(result["plan"].size(), 21U);  // 6 sides, 9 diagonals, 6 radii
  for (const json& pull : result["plan"]) EXPECT_LE(pull["smallest_catch"].get<double>(), kInch_m);
  // Twice the corner tolerance of a quarter inch.
  for (const json& corner : result["corners"])
    EXPECT_LE(corner["smallest_shift"].get<double>(), kInch_m / 2.0 + 1e-12);
}

TEST(Tapes, SayWhatTheBestFewPullsMiss) {
  const Site site;
  site.write("job.toml", hexagon_job());
  const Finished run = site.stakewright({"tapes", "job.toml", "--at-most", "10", "--json"});
  const json result = json::parse(run.out);
  EXPECT_EQ(result["plan"].size(), 10U);
  EXPECT_FALSE(result["reached"].get<bool>());
  EXPECT_FALSE(result["misses"].empty());
}

TEST(Tapes, AfterReadingsThatFixNoShapeNameTheOnesThatWould) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", "from,to,reading\nA,D,5631mm\nB,E,5631mm\nC,F,5631mm\n");
  const Finished run = site.stakewright({"tapes", "job.toml", "readings.csv"});
  EXPECT_EQ(run.status, 3);
  EXPECT_THAT(run.out, HasSubstr("would fix it"));
}

TEST(Tapes, AfterReadingsThatAgreeAskForNoMore) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", hexagon_readings());
  const Finished run = site.stakewright({"tapes", "job.toml", "readings.csv"});
  EXPECT_EQ(run.status, 0) << run.out;
}

TEST(Tapes, AfterReadingsOfAnotherJobSaySoAndDoNotCallThemEnough) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", scaled_readings(1.25, 0.0));
  const Finished run = site.stakewright({"tapes", "job.toml", "readings.csv"});
  EXPECT_EQ(run.status, 3);
  EXPECT_THAT(run.out, HasSubstr("These readings are not of this job"));
  EXPECT_THAT(run.out, testing::Not(HasSubstr("No further pull")));
}

TEST(Tapes, AfterReadingsThatContradictEachOtherDoNotCallThemEnough) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", scaled_readings(1.0, kInch_m));
  EXPECT_EQ(site.stakewright({"check", "job.toml", "readings.csv"}).status, 3);
  const Finished run = site.stakewright({"tapes", "job.toml", "readings.csv"});
  EXPECT_EQ(run.status, 3);
  EXPECT_THAT(run.out, testing::Not(HasSubstr("No further pull")));
}

TEST(Tapes, RefuseASlipOfNothing) {
  const Site site;
  site.write("job.toml", hexagon_job());
  for (const char* slip : {"0", "-1in", "an inch"})
    EXPECT_EQ(site.stakewright({"tapes", "job.toml", "--slip", slip}).status, 2) << slip;
}

TEST(Form, IsAPdfAndIsNotWrittenForABadJob) {
  const Site site;
  site.write("job.toml", hexagon_job());
  ASSERT_EQ(site.stakewright({"form", "job.toml", "-o", "form.pdf"}).status, 0);
  EXPECT_THAT(site.read("form.pdf"), StartsWith("%PDF-"));
  site.write("bad.toml", "title = 3\n");
  EXPECT_EQ(site.stakewright({"form", "bad.toml", "-o", "bad.pdf"}).status, 2);
  EXPECT_FALSE(site.has("bad.pdf"));
}

TEST(Units, ChangeWhatIsShownAndNeverTheVerdict) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", hexagon_readings('D', kInch_m));
  const Finished feet = site.stakewright({"check", "job.toml", "readings.csv"});
  const Finished metric = site.stakewright({"check", "job.toml", "readings.csv", "--units", "mm"});
  EXPECT_EQ(feet.status, metric.status);
  EXPECT_THAT(feet.out, HasSubstr("1\" outward"));
  EXPECT_THAT(metric.out, HasSubstr("mm outward"));
}

TEST(Surroundings, OfAnotherCountryChangeNothing) {
  const Site site;
  site.write("job.toml", hexagon_job());
  const Finished plain = site.stakewright({"layout", "job.toml", "--json"});
  const Finished other =
      site.stakewright({"layout", "job.toml", "--json"},
                       {.environment = {"LC_ALL=de_DE.UTF-8", "TZ=Asia/Kathmandu"}});
  EXPECT_EQ(plain.out, other.out);
}

TEST(Help, NamesEveryCommandAndEveryOptionHasWords) {
  const Site site;
  for (const char* command : {"start", "layout", "tapes", "form", "check", "carry"}) {
    EXPECT_THAT(site.stakewright({"--help"}).out, HasSubstr(command));
    const Finished help = site.stakewright({command, "--help"});
    EXPECT_EQ(help.status, 0);
    EXPECT_THAT(help.out, HasSubstr("--units")) << command;
  }
}

}  // namespace
}  // namespace stakewright::tests

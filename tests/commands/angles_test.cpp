// Angles through the built command: read, adjusted with the tapes, weighed, and staked by.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <string>

#include "jobs.hpp"
#include "run_command.hpp"

namespace stakewright::tests {
namespace {

using nlohmann::json;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

constexpr double kDegree_rad = 0.017453292519943295;

/// The sides of the hexagon 16 ft across flats, which equal its radius (Euclid IV.15), and its
/// angles: 120 degrees at each corner, 60 at the center pin.  `first` stands for the angle at A.
std::string sides_and_angles(const std::string& first = "120-00-00",
                             const std::string& side = "2816mm") {
  std::string text = "kind,at,from,to,reading\n";
  const std::string labels = "ABCDEF";
  for (std::size_t i = 0; i < 6; ++i) {
    const char here = labels[i];
    const char next = labels[(i + 1) % 6];
    const char before = labels[(i + 5) % 6];
    text += fmt::format("tape,,{},{},{}\n", here, next, side);
    text += fmt::format("angle,{},{},{},{}\n", here, next, before, i == 0 ? first : "120-00-00");
    text += fmt::format("angle,O,{},{},60deg\n", here, next);
    text += fmt::format("tape,,O,{},2816mm\n", here);
  }
  return text;
}

TEST(CheckWithAngles, OfAFigureInToleranceExitsZero) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", sides_and_angles());
  const Finished run = site.stakewright({"check", "job.toml", "readings.csv"});
  EXPECT_EQ(run.status, 0) << run.out << run.err;
  EXPECT_THAT(run.out, HasSubstr("B–A–F"));
  EXPECT_THAT(run.out, HasSubstr("120-00-00"));
  EXPECT_THAT(run.out, HasSubstr("B–A–F is an angle: turned at A, clockwise, from B to F"));
}

TEST(CheckWithAngles, GivesRadiansAndWhereItWasTurnedAsJson) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", sides_and_angles());
  const json check =
      json::parse(site.stakewright({"check", "job.toml", "readings.csv", "--json"}).out);
  ASSERT_EQ(check["readings"].size(), 24U);
  const json& tape = check["readings"][0];
  EXPECT_EQ(tape["kind"], "tape");
  EXPECT_TRUE(tape["at"].is_null());
  const json& angle = check["readings"][1];
  EXPECT_EQ(angle["kind"], "angle");
  EXPECT_EQ(angle["at"], "A");
  EXPECT_EQ(angle["from"], "B");
  EXPECT_EQ(angle["to"], "F");
  EXPECT_EQ(angle["instrument"], "circle");
  EXPECT_NEAR(angle["reading"].get<double>(), 120.0 * kDegree_rad, 1e-12);
  EXPECT_NEAR(angle["adjusted"].get<double>(), 120.0 * kDegree_rad, 1e-3);
  EXPECT_GT(angle["redundancy"].get<double>(), 0.1);
  EXPECT_LT(angle["smallest_catch"].get<double>(), kDegree_rad);
  // Twelve corner coordinates and the pin's two, less three; 24 readings.  The tape's own scale
  // and zero are two unknowns with a prior each.
  EXPECT_EQ(check["adjustment"]["readings"], 24);
  EXPECT_EQ(check["adjustment"]["redundancy"], 24 - 11);
}

TEST(CheckWithAngles, LeavesOutAnAngleADegreeOffAndSaysSo) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", sides_and_angles("121-00-00"));
  const Finished run = site.stakewright({"check", "job.toml", "readings.csv"});
  EXPECT_EQ(run.status, 0) << run.out;
  EXPECT_THAT(run.out, HasSubstr("The angle B–A–F reads"));
  EXPECT_THAT(run.out, HasSubstr("too large and was left"));
  EXPECT_THAT(run.out, HasSubstr("a whole degree"));
  const json check =
      json::parse(site.stakewright({"check", "job.toml", "readings.csv", "--json"}).out);
  const json& cause = check["suspects"][0]["causes"][0];
  EXPECT_EQ(cause["what"], "reading");
  EXPECT_EQ(cause["at"], "A");
  EXPECT_NEAR(cause["size"].get<double>(), kDegree_rad, 0.001);
}

TEST(CheckWithAngles, LeavesOutAnAngleReadTheWrongWayRoundAndSaysSo) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", sides_and_angles("240-00-00"));
  const Finished run = site.stakewright({"check", "job.toml", "readings.csv"});
  EXPECT_EQ(run.status, 0) << run.out;
  EXPECT_THAT(run.out, HasSubstr("from and to changed over"));
  EXPECT_THAT(run.out, HasSubstr("left out"));
}

TEST(CheckWithAngles, SaysThatAnglesAloneDoNotFixTheShape) {
  const Site site;
  site.write("job.toml", hexagon_job());
  std::string text = "kind,at,from,to,reading\n";
  for (const char* row : {"A,B,F,120", "B,C,A,120", "C,D,B,120", "D,E,C,120", "E,F,D,120",
                          "A,B,D,60", "B,C,E,60", "C,D,F,60", "D,E,A,60", "E,F,B,60", "F,A,C,60"})
    text += fmt::format("angle,{}\n", row);
  site.write("readings.csv", text);
  const Finished run = site.stakewright({"check", "job.toml", "readings.csv"});
  EXPECT_EQ(run.status, 3);
  EXPECT_THAT(run.out, HasSubstr("These readings fix no corner's place. Pull"));
  EXPECT_THAT(run.out, HasSubstr("to fix the shape"));
  EXPECT_THAT(run.err, IsEmpty());
}

TEST(CheckWithAngles, RefusesRowsThatCannotBe) {
  const std::vector<std::pair<std::string, std::string>> rows = {
      {"angle,A,A,B,60-00-00,", "line 2, column at: read \"A\""},
      {"angle,O,A,A,60-00-00,", "line 2, column to: read \"A\""},
      {"angle,,A,B,60-00-00,", "line 2, column at: read \"\""},
      {"angle,Q,A,B,60-00-00,", "line 2, column at: read \"Q\""},
      {"tape,O,A,B,2816mm,", "line 2, column at: read \"O\""},
      {"angle,O,A,B,0,", "an angle above 0 and below 360 degrees"},
      {"angle,O,A,B,360,", "an angle above 0 and below 360 degrees"},
      {"angle,O,A,B,60-61-00,", "an angle above 0 and below 360 degrees"},
      {"angle,O,A,B,60-00-00,20C", "line 2, column temperature"},
  };
  for (const auto& [row, message] : rows) {
    const Site site;
    site.write("job.toml", hexagon_job());
    site.write("readings.csv", "kind,at,from,to,reading,temperature\n" + row + "\n");
    const Finished run = site.stakewright({"check", "job.toml", "readings.csv"});
    EXPECT_EQ(run.status, 2) << row;
    EXPECT_THAT(run.out, IsEmpty()) << row;
    EXPECT_THAT(run.err, HasSubstr(message)) << row;
  }
}

TEST(LayoutByAngle, GivesAnAngleAndALengthForEachStake) {
  const Site site;
  site.write("job.toml", hexagon_job());
  const json layout = json::parse(site.stakewright({"layout", "job.toml", "--json"}).out);
  EXPECT_EQ(layout["radial_from"]["at"], "O");
  EXPECT_EQ(layout["radial_from"]["mark"], "A");
  ASSERT_EQ(layout["radial"].size(), 6U);
  for (std::size_t i = 0; i < 6; ++i) {
    EXPECT_NEAR(layout["radial"][i]["angle"].get<double>(),
                60.0 * kDegree_rad * static_cast<double>(i), 1e-9);
    EXPECT_NEAR(layout["radial"][i]["length"].get<double>(), 16.0 * 0.3048 / std::sqrt(3.0), 1e-9);
  }
  const Finished run = site.stakewright({"layout", "job.toml"});
  EXPECT_THAT(run.out, HasSubstr("With an angle circle: set up over O, sight A"));
  EXPECT_THAT(run.out, HasSubstr("240-00-00"));
  EXPECT_THAT(run.out, Not(HasSubstr("360-00-00")));
}

}  // namespace
}  // namespace stakewright::tests

// Rounds of one readings file through the built command.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "jobs.hpp"
#include "run_command.hpp"

namespace stakewright::tests {
namespace {

using nlohmann::json;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

constexpr double kInch_m = 0.0254;

/// Rows of `hexagon_readings`, without their header, each in a round of that name.
std::string rows_of_round(const std::string& readings, const std::string& round) {
  std::string text;
  std::size_t from = readings.find('\n') + 1;
  for (std::size_t to = readings.find('\n', from); to != std::string::npos;
       from = to + 1, to = readings.find('\n', from))
    text += readings.substr(from, to - from) + ',' + round + '\n';
  return text;
}

/// Corner D stands an inch outward in the second round.
void write_two_rounds(const Site& site) {
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", "from,to,reading,round\n" +
                                 rows_of_round(hexagon_readings(), "before the dig") +
                                 rows_of_round(hexagon_readings('D', kInch_m), "before the pour"));
}

TEST(Rounds, CheckTakesTheLatestAndSaysSo) {
  const Site site;
  write_two_rounds(site);
  const Finished run = site.stakewright({"check", "job.toml", "readings.csv"});
  EXPECT_EQ(run.status, 1);
  EXPECT_THAT(run.out, HasSubstr("Round \"before the pour\" of \"before the dig\", \"before the "
                                 "pour\": 21 readings."));
}

TEST(Rounds, CheckTakesTheOneThatIsNamed) {
  const Site site;
  write_two_rounds(site);
  EXPECT_EQ(
      site.stakewright({"check", "job.toml", "readings.csv", "--round", "before the dig"}).status,
      0);
}

/// How far the fascia C-D is found to be off, by the carry of these arguments.
double fascia_off_m(const Site& site, std::vector<std::string> more) {
  std::vector<std::string> arguments{"carry", "job.toml", "readings.csv", "--json"};
  arguments.insert(arguments.end(), more.begin(), more.end());
  const json carry = json::parse(site.stakewright(arguments).out);
  for (const json& part : carry.at("parts"))
    if (part.at("part") == "fascia" && part.at("at") == "C-D") return part.at("difference");
  return 0.0;
}

TEST(Rounds, CarryTakesTheOneThatIsNamed) {
  const Site site;
  write_two_rounds(site);
  // A corner an inch outward lengthens its two sides by half of it, and their eave by more.
  EXPECT_GT(fascia_off_m(site, {}), 0.5 * kInch_m);
  EXPECT_NEAR(fascia_off_m(site, {"--round", "before the dig"}), 0.0, 0.001);
}

TEST(Rounds, ComparedSayWhichStakeMovedAndKeepTheStatusOfTheVerdict) {
  const Site site;
  write_two_rounds(site);
  const Finished run =
      site.stakewright({"check", "job.toml", "readings.csv", "--since", "before the dig"});
  EXPECT_EQ(run.status, 1);
  EXPECT_THAT(run.out,
              AllOf(HasSubstr("Since round \"before the dig\" stake D has moved 1\" outward"),
                    HasSubstr("MOVED")));
}

TEST(Rounds, ComparedAreJson) {
  const Site site;
  write_two_rounds(site);
  const Finished run = site.stakewright(
      {"check", "job.toml", "readings.csv", "--since", "before the dig", "--json"});
  const json result = json::parse(run.out);
  EXPECT_EQ(result["round"], "before the pour");
  EXPECT_EQ(result["rounds"].size(), 2U);
  const json& movement = result["movement"];
  EXPECT_EQ(movement["since"], "before the dig");
  EXPECT_EQ(movement["compared"], true);
  EXPECT_EQ(movement["shown"], true);
  ASSERT_EQ(movement["stakes"].size(), 7U);
  EXPECT_EQ(movement["stakes"][3]["label"], "D");
  EXPECT_EQ(movement["stakes"][3]["moved"], "yes");
  EXPECT_NEAR(movement["stakes"][3]["outward"].get<double>(), kInch_m, 0.001);
  EXPECT_EQ(movement["stakes"][0]["moved"], "no");
}

TEST(Rounds, OneThatIsNotThereIsRefusedAndThoseThatAreAreNamed) {
  const Site site;
  write_two_rounds(site);
  const Finished run = site.stakewright({"check", "job.toml", "readings.csv", "--round", "3"});
  EXPECT_EQ(run.status, 2);
  EXPECT_EQ(run.out, "");
  EXPECT_THAT(run.err, AllOf(HasSubstr("--round"), HasSubstr("\"3\""),
                             HasSubstr("\"before the dig\", \"before the pour\"")));
}

TEST(Rounds, ALaterOneCannotBeComparedWithAsTheEarlier) {
  const Site site;
  write_two_rounds(site);
  const Finished run = site.stakewright({"check", "job.toml", "readings.csv", "--round",
                                         "before the dig", "--since", "before the pour"});
  EXPECT_EQ(run.status, 2);
  EXPECT_THAT(run.err, HasSubstr("--since"));
}

TEST(Rounds, WithoutReadingsCannotBeChosen) {
  const Site site;
  site.write("job.toml", hexagon_job());
  const Finished run = site.stakewright({"carry", "job.toml", "--round", "1"});
  EXPECT_EQ(run.status, 2);
  EXPECT_THAT(run.err, HasSubstr("--round"));
}

TEST(Rounds, OfAFileWithOneAreNotSpokenOf) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", hexagon_readings());
  EXPECT_THAT(site.stakewright({"check", "job.toml", "readings.csv"}).out, Not(HasSubstr("Round")));
}

}  // namespace
}  // namespace stakewright::tests

// Tapes and lasers through the built command: corrections, setting out, bad input.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <nlohmann/json.hpp>

#include "jobs.hpp"
#include "run_command.hpp"

namespace stakewright::tests {
namespace {

using nlohmann::json;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

constexpr const char* kBlueTape =
    "\n[[instrument]]\nname = \"blue tape\"\nkind = \"tape\"\nnominal = \"100ft\"\n"
    "actual = \"100.02ft\"\nexpansion = \"6.45e-6/F\"\nstandard_temperature = \"68F\"\n"
    "standard_pull = \"12lbf\"\nsection = \"0.0075in2\"\nmodulus = \"29e6psi\"\n";

void write_job(const Site& site) { site.write("job.toml", hexagon_job() + kBlueTape); }

Finished layout_with(const Site& site, const std::vector<std::string>& more) {
  std::vector<std::string> words{"layout", "job.toml"};
  words.insert(words.end(), more.begin(), more.end());
  return site.stakewright(words);
}

TEST(LayoutWithATape, GivesWhatToReadOnIt) {
  const Site site;
  write_job(site);
  const Finished run =
      layout_with(site, {"--with", "blue tape", "--temperature", "35F", "--pull", "20lbf"});
  EXPECT_EQ(run.status, 0) << run.err;
  EXPECT_THAT(run.out,
              AllOf(HasSubstr("What to read on blue tape, at 35F and pulled 20lbf"),
                    HasSubstr("tape cold"), HasSubstr("pulled hard"), HasSubstr("tape is long")));
}

// Side 9.2376 ft (16 ft across flats): the tape is long by 0.02 in 100 ft, cold by 33 F, pulled 8
// lb harder: the reading is the length less 2.0e-4, plus 2.13e-4, less 8/(0.0075 * 29e6) = 0.37e-4
// of itself, worked by hand to the second order.
TEST(LayoutWithATape, GivesTheReadingsAsJson) {
  const Site site;
  write_job(site);
  const Finished run = layout_with(
      site, {"--with", "blue tape", "--temperature", "35F", "--pull", "20lbf", "--json"});
  const json result = json::parse(run.out);
  EXPECT_EQ(result["with"]["instrument"], "blue tape");
  EXPECT_NEAR(result["with"]["temperature"].get<double>(), 5.0 / 3.0, 1e-9);
  const json& side = result["tapes"][0];
  const double length_m = side["length"].get<double>();
  const double share = 1.0 / (1.0002 * (1.0 - 33.0 * 6.45e-6) * (1.0 + 8.0 / (0.0075 * 29e6)));
  EXPECT_NEAR(side["read"].get<double>(), length_m * share, 1e-7);
  for (const json& swing : result["swings"])
    for (const json& hold : swing["from"]) EXPECT_TRUE(hold.contains("read"));
}

TEST(LayoutWithATape, RemarksOnATemperatureThatCorrectsNothing) {
  const Site site;
  write_job(site);
  const Finished run = layout_with(site, {"--with", "fibreglass", "--temperature", "35F"});
  EXPECT_EQ(run.status, 0);
  EXPECT_THAT(run.err, HasSubstr("not its expansion"));
}

TEST(LayoutWithATape, RefusesWhatIsNoTapeAndWhatNoTapeStands) {
  const Site site;
  write_job(site);
  struct Case {
    std::vector<std::string> words;
    std::vector<std::string> said;
  };
  for (const Case& bad : std::vector<Case>{
           {{"--with", "green tape"}, {"--with", "\"green tape\"", "steel, fibreglass"}},
           {{"--with", "laser"}, {"--with", "\"laser\", a laser", "blue tape"}},
           {{"--with", "steel", "--temperature", "61C"}, {"--temperature", "-40 to 60 C"}},
           {{"--with", "steel", "--temperature", "-41C"}, {"--temperature", "\"-41C\""}},
           {{"--with", "steel", "--temperature", "warm"}, {"--temperature", "\"warm\""}},
           {{"--with", "steel", "--pull", "0"}, {"--pull", "a pull above 0"}},
           {{"--with", "steel", "--supports", "some"}, {"--supports", "\"some\"", "0 to 100"}},
           {{"--temperature", "35F"}, {"--temperature", "--with"}},
           {{"--pull", "20lbf"}, {"--pull", "--with"}}}) {
    const Finished run = layout_with(site, bad.words);
    EXPECT_EQ(run.status, 2) << bad.words.back();
    EXPECT_EQ(run.out, "");
    for (const std::string& part : bad.said) EXPECT_THAT(run.err, HasSubstr(part));
  }
}

// One file, two crews: feet, Fahrenheit and pounds, then millimeters, Celsius and newtons.
TEST(Corrections, OfMixedUnitsAreShownInWordsAndAsJson) {
  const Site site;
  write_job(site);
  site.write("readings.csv",
             "kind,from,to,reading,instrument,temperature,pull\n"
             "tape,A,D,18' 5-11/16\",blue tape,95F,20lbf\n"
             "tape,B,E,5631mm,blue tape,35C,88.96443N\n"
             "laser,C,F,5.631m,laser,,\n");
  const Finished shown = site.stakewright({"check", "job.toml", "readings.csv", "--corrections"});
  EXPECT_THAT(shown.out,
              AllOf(HasSubstr("Corrections, each added to the reading or taken off it"),
                    HasSubstr("tape warm"), HasSubstr("pulled hard"), HasSubstr("added")));
  const Finished run = site.stakewright({"check", "job.toml", "readings.csv", "--json"});
  const json readings = json::parse(run.out)["readings"];
  ASSERT_EQ(readings.size(), 3U);
  for (const std::size_t row : {0U, 1U}) {
    const json& corrections = readings[row]["corrections"];
    ASSERT_EQ(corrections.size(), 3U);
    EXPECT_EQ(corrections[0]["name"], "standardization");
    EXPECT_EQ(corrections[1]["name"], "temperature");
    EXPECT_EQ(corrections[2]["name"], "pull");
  }
  // 95 F is 35 C, and 20 lbf is 88.96443 N: both rows are corrected alike.
  EXPECT_NEAR(readings[0]["corrections"][1]["amount"].get<double>(),
              readings[1]["corrections"][1]["amount"].get<double>(), 1e-6);
  EXPECT_NEAR(readings[0]["corrections"][2]["amount"].get<double>(),
              readings[1]["corrections"][2]["amount"].get<double>(), 1e-6);
  EXPECT_TRUE(readings[2]["corrections"].empty());
}

TEST(Corrections, AreNotShownUnlessAskedFor) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", hexagon_readings());
  EXPECT_THAT(site.stakewright({"check", "job.toml", "readings.csv"}).out,
              Not(HasSubstr("Corrections,")));
}

TEST(Corrections, OfATemperatureOrAPullThatNoTapeStandsAreRefused) {
  const Site site;
  write_job(site);
  for (const auto& [column, value, said] :
       std::vector<std::array<const char*, 3>>{{"temperature", "61", "-40 to 60 C"},
                                               {"temperature", "-45F", "-40 to 60 C"},
                                               {"pull", "0", "a pull above 0"},
                                               {"supports", "-1", "0 to 100, or all"},
                                               {"supports", "1.5", "0 to 100, or all"}}) {
    site.write("readings.csv", std::string("from,to,reading,instrument,") + column +
                                   "\nA,B,9ft,steel," + value + "\n");
    const Finished run = site.stakewright({"check", "job.toml", "readings.csv"});
    EXPECT_EQ(run.status, 2);
    EXPECT_THAT(run.err, AllOf(HasSubstr("line 2"), HasSubstr(column), HasSubstr(said)));
  }
}

TEST(Corrections, ThatCannotBeMadeAreRemarkedOnOnce) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv",
             "from,to,reading,instrument,temperature\nA,B,9.2ft,fibreglass,35F\n"
             "B,C,9.2ft,fibreglass,35F\n");
  const std::string err = site.stakewright({"check", "job.toml", "readings.csv"}).err;
  const std::size_t first = err.find("not its expansion");
  ASSERT_NE(first, std::string::npos) << err;
  EXPECT_EQ(err.find("not its expansion", first + 1), std::string::npos);
}

TEST(BuiltIn, TapesAreThereByTheirClass) {
  const Site site;
  site.write("job.toml", hexagon_job());
  for (const char* name :
       {"steel I", "steel II", "steel III", "fibreglass I", "fibreglass II", "fibreglass III"}) {
    EXPECT_EQ(layout_with(site, {"--with", name}).status, 0) << name;
  }
}

}  // namespace
}  // namespace stakewright::tests

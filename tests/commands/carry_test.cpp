// The carry through the built command: the ways to go on, the cut sheet, what a corner does.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <regex>
#include <sstream>
#include <string>

#include "jobs.hpp"
#include "run_command.hpp"

namespace stakewright::tests {
namespace {

using nlohmann::json;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr double kInch_m = 0.0254;

/// A site with the hexagon job, more keys of its roof, and one stake moved outward.
void put_job(const Site& site, double outward_m, const std::string& more = "") {
  site.write("job.toml", hexagon_job() + more);
  site.write("readings.csv", hexagon_readings('D', outward_m));
}

const json& way(const json& carry, const std::string& name) {
  for (const json& one : carry["what_if"])
    if (one["way"] == name) return one;
  throw std::logic_error("no way " + name);
}

TEST(CarryWays, StandSideBySideWithTheLeastWorkThatServes) {
  const Site site;
  put_job(site, kInch_m, "base_play = \"1in\"\n");
  const Finished run = site.stakewright({"carry", "job.toml", "readings.csv", "--json"});
  EXPECT_EQ(run.status, 1) << run.err;
  const json carry = json::parse(run.out);
  EXPECT_EQ(carry["shown"], "leave");
  ASSERT_EQ(carry["what_if"].size(), 3U);
  EXPECT_FALSE(way(carry, "leave")["enough"].get<bool>());
  EXPECT_TRUE(way(carry, "with_play")["enough"].get<bool>());
  EXPECT_FALSE(way(carry, "after_moves")["enough"].get<bool>());
  // The hip's run grows by the inch; its slope is 8 in on 12/cos 30° in: 13.8564.
  EXPECT_GT(std::abs(way(carry, "leave")["worst_piece"]["difference"].get<double>()),
            kInch_m * 13.8564 / 16.0 - 0.0015);
  EXPECT_LT(std::abs(way(carry, "after_moves")["worst_piece"]["difference"].get<double>()), 0.002);
  EXPECT_EQ(way(carry, "after_moves")["moves"][0]["stake"], "D");
  // The play of an inch reaches: D's post comes back toward its place, its fellows meet it.
  for (const json& post : way(carry, "with_play")["posts"])
    EXPECT_LE(post["off"].get<double>(), kInch_m + 1e-9) << post;
  EXPECT_LT(way(carry, "with_play")["posts"][3]["outward"].get<double>(), -0.5 * kInch_m);
}

TEST(CarryWays, AreShownInFullByOption) {
  const Site site;
  put_job(site, kInch_m, "base_play = \"1in\"\n");
  const auto shown = [&site](const std::string& option) {
    const Finished run = site.stakewright({"carry", "job.toml", "readings.csv", option, "--json"});
    return json::parse(run.out);
  };
  EXPECT_EQ(shown("--leave")["shown"], "leave");
  EXPECT_EQ(shown("--with-play")["shown"], "with_play");
  const json moved = shown("--after-moves");
  EXPECT_EQ(moved["shown"], "after_moves");
  for (const json& part : moved["parts"]) {
    if (part["part"] != "hip") continue;
    EXPECT_LT(std::abs(part["difference"].get<double>()), 0.002) << part;
  }
}

TEST(CarryWays, ExitByTheWayThatIsShown) {
  const Site site;
  // So coarse a joint that taped corners come off the pattern.
  site.write("job.toml", hexagon_job_with_plan("sides = 6\nacross_flats = \"16ft\"\n"));
  std::string job = site.read("job.toml");
  job.replace(job.find("part = \"1/16in\""), 15, "part = \"3/8in\" ");
  site.write("job.toml", job);
  site.write("readings.csv", hexagon_readings('D', kInch_m));
  EXPECT_EQ(site.stakewright({"carry", "job.toml", "readings.csv"}).status, 1);
  EXPECT_EQ(site.stakewright({"carry", "job.toml", "readings.csv", "--leave"}).status, 1);
  const Finished moved = site.stakewright({"carry", "job.toml", "readings.csv", "--after-moves"});
  EXPECT_EQ(moved.status, 0) << moved.out;
  EXPECT_THAT(moved.out, HasSubstr("It pays to move before the pour"));
}

TEST(CarryWays, ThatCannotBeAreRefused) {
  const Site site;
  put_job(site, kInch_m);
  const auto refused = [&site](const std::vector<std::string>& arguments) {
    const Finished run = site.stakewright(arguments);
    EXPECT_EQ(run.status, 2) << arguments.back();
    EXPECT_THAT(run.out, IsEmpty());
    return run.err;
  };
  EXPECT_THAT(refused({"carry", "job.toml", "--leave"}), HasSubstr("a readings file"));
  EXPECT_THAT(refused({"carry", "job.toml", "--after-moves"}), HasSubstr("a readings file"));
  EXPECT_THAT(refused({"carry", "job.toml", "readings.csv", "--with-play"}),
              HasSubstr("base_play"));
  EXPECT_THAT(refused({"carry", "job.toml", "readings.csv", "--leave", "--after-moves"}),
              HasSubstr("--after-moves"));
  for (const char* shift : {"0", "-1in", "an inch"})
    EXPECT_THAT(refused({"carry", "job.toml", "--sensitivity", "--shift", shift}),
                HasSubstr("--shift"));
  EXPECT_THAT(refused({"carry", "job.toml", "--shift", "1/2in"}), HasSubstr("--sensitivity"));
}

TEST(CarryReadings, OfCornersThatBearNoRoofAreShownAsPlannedOnly) {
  const Site site;
  // D stands nearer to the center than C and E do to each other's middle: the outline has a dent.
  put_job(site, -1.6);
  const Finished run = site.stakewright({"carry", "job.toml", "readings.csv"});
  EXPECT_EQ(run.status, 3) << run.out;
  EXPECT_THAT(run.err, HasSubstr("planned only"));
}

TEST(CarryCutSheet, OrdersEveryPieceOfThePlan) {
  const Site site;
  put_job(site, 0.0, "[stock]\nlengths = [\"14ft\", \"20ft\"]\n");
  const Finished run = site.stakewright({"carry", "job.toml", "--cut-sheet", "--json"});
  ASSERT_EQ(run.status, 0) << run.err;
  const json carry = json::parse(run.out);
  std::size_t pieces = 0;
  double bought_m = 0.0;
  for (const json& list : carry["cut_sheet"]["lists"]) {
    for (const json& piece : list["pieces"]) pieces += piece["count"].get<std::size_t>();
    for (const json& stick : list["sticks"])
      bought_m += stick["count"].get<double>() * stick["length"].get<double>();
  }
  EXPECT_EQ(pieces, carry["parts"].size());
  EXPECT_NEAR(carry["cut_sheet"]["bought"].get<double>(), bought_m, 1e-9);
  // Level area of the eaves, over the cosine of 33.69 degrees: 6 tan 30 times the flat radius,
  // 8 ft 2-3/4 in and 18 in, squared.
  const double flat_m = (98.75 + 18.0) * kInch_m;
  EXPECT_NEAR(carry["cut_sheet"]["sheathing"].get<double>(),
              6.0 / std::sqrt(3.0) * flat_m * flat_m * std::hypot(1.0, 8.0 / 12.0), 1e-9);
  EXPECT_FALSE(
      json::parse(site.stakewright({"carry", "job.toml", "--json"}).out).contains("cut_sheet"));
  EXPECT_THAT(site.stakewright({"carry", "job.toml", "--cut-sheet"}).out, HasSubstr("To order"));
}

TEST(CarryCutSheet, CountsOnPaperEveryPieceOfTheRoofAsFound) {
  const Site site;
  put_job(site, kInch_m);
  const std::vector<std::string> sheet = {"carry", "job.toml", "readings.csv", "--cut-sheet"};
  // Part, places, how many, stick: two spaces or more part the cells.
  const std::regex row(
      "^  (hip|common|jack|blocking|fascia|beam|post|hub)  .*  ([0-9]+)  +"
      "[^ ]+( [^ ]+)?$");
  std::istringstream told(site.stakewright(sheet).out);
  std::size_t pieces = 0;
  std::smatch cells;
  for (std::string line; std::getline(told, line);)
    if (std::regex_match(line, cells, row)) pieces += std::stoul(cells[2]);
  const Finished run = site.stakewright({"carry", "job.toml", "readings.csv", "--json"});
  EXPECT_EQ(pieces, json::parse(run.out)["parts"].size());
}

TEST(CarrySensitivity, TellsWhatAQuarterInchOfOneCornerDoes) {
  const Site site;
  put_job(site, 0.0);
  const Finished run = site.stakewright({"carry", "job.toml", "--sensitivity", "--json"});
  ASSERT_EQ(run.status, 0) << run.err;
  const json sensitivity = json::parse(run.out)["sensitivity"];
  EXPECT_NEAR(sensitivity["shift"].get<double>(), 0.25 * kInch_m, 1e-12);
  EXPECT_EQ(sensitivity["corner"], "A");
  bool hip = false;
  for (const json& piece : sensitivity["pieces"])
    if (piece["part"] == "hip" && piece["at"] == "A" && !piece.contains("name")) {
      hip = true;
      // Run over length: 13.8564 on 16, the hip of 8 in 12 on six sides.  The plate, 2-3/4 in
      // outside of sides that turn, takes it up a little more: by about half of 2-3/4 in 96.
      EXPECT_NEAR(piece["outward"].get<double>(),
                  0.25 * kInch_m * 13.8564 / 16.0 * (1.0 + 0.5 * 2.75 / 96.0), 1e-6);
    }
  EXPECT_TRUE(hip);
  EXPECT_THAT(site.stakewright({"carry", "job.toml", "--sensitivity", "--shift", "1/2in"}).out,
              HasSubstr("Corner A stands 1/2\" outward"));
}

TEST(CarryReport, IsShortUnlessAskedForAll) {
  const Site site;
  put_job(site, kInch_m);
  const auto lines = [&site](const std::vector<std::string>& arguments) {
    const std::string out = site.stakewright(arguments).out;
    return std::count(out.begin(), out.end(), '\n');
  };
  EXPECT_LT(lines({"carry", "job.toml"}), 60);
  EXPECT_LT(lines({"carry", "job.toml", "readings.csv"}), 120);
  EXPECT_GT(lines({"carry", "job.toml", "readings.csv", "--all"}), 200);
}

}  // namespace
}  // namespace stakewright::tests

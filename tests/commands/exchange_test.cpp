// Points and drawings for other programs, through the built command.  The drawings are read back
// by ezdxf, a reader that shares nothing with what wrote them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>

#include "jobs.hpp"
#include "run_command.hpp"

namespace stakewright::tests {
namespace {

using nlohmann::json;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;

constexpr double kInch_m = 0.0254;
constexpr double kFlatToCorner = 1.1547005383792515;  // 1 / cos 30 degrees

json read_back(const Site& site, const std::string& name) {
  const Finished run = site.shell("/usr/bin/python3 " STAKEWRIGHT_READ_DXF " " + name);
  EXPECT_EQ(run.status, 0) << run.err;
  return run.status == 0 ? json::parse(run.out) : json::object();
}

std::vector<json> entities(const json& drawing, const std::string& type, const std::string& layer) {
  std::vector<json> result;
  for (const json& entity : drawing.at("entities"))
    if (entity["type"] == type && entity["layer"] == layer) result.push_back(entity);
  return result;
}

std::vector<std::string> layers(const json& drawing) {
  std::vector<std::string> names;
  for (const auto& [name, stroke] : drawing.at("layers").items()) names.push_back(name);
  return names;
}

/// A job of the hexagon 16 ft across flats with all that can be drawn.
std::string whole_job() {
  return hexagon_job() +
         "[site]\n"
         "[[site.pin]]\nname = \"P1\"\nat = [\"-12ft\", \"-10ft\"]\n"
         "[[site.pin]]\nname = \"P2\"\nat = [\"12ft\", \"-10ft\"]\n"
         "[[site.keep_clear]]\nname = \"boundary\"\n"
         "of = [[\"-20ft\",\"-20ft\"], [\"20ft\",\"-20ft\"], [\"20ft\",\"20ft\"], "
         "[\"-20ft\",\"20ft\"]]\n";
}

json drawn(const std::string& job, const std::vector<std::string>& more = {}) {
  const Site site;
  site.write("job.toml", job);
  std::vector<std::string> words{"layout", "job.toml", "-o", "plan.dxf"};
  words.insert(words.end(), more.begin(), more.end());
  const Finished run = site.stakewright(words);
  EXPECT_LT(run.status, 2) << run.err;
  EXPECT_THAT(run.err, HasSubstr("Wrote plan.dxf."));
  return read_back(site, "plan.dxf");
}

TEST(Drawing, IsReadByAnotherReaderWithEachLineOnItsLayer) {
  const json drawing = drawn(whole_job());
  EXPECT_EQ(drawing["version"], "AC1015");
  EXPECT_EQ(drawing["unit"], 1);      // inches
  EXPECT_EQ(drawing["shown_as"], 4);  // feet and inches
  EXPECT_THAT(drawing["errors"], testing::IsEmpty());
  for (const char* layer :
       {"stakes", "plan line", "plate", "roof edge", "strings", "pins", "keep clear boundary"})
    EXPECT_THAT(layers(drawing), Contains(layer));
  const auto outline = entities(drawing, "LWPOLYLINE", "keep clear boundary");
  ASSERT_EQ(outline.size(), 1U);
  EXPECT_EQ(outline[0]["points"],
            json::parse("[[-240.0,-240.0],[240.0,-240.0],[240.0,240.0],[-240.0,240.0]]"));
  EXPECT_EQ(entities(drawing, "LINE", "strings").size(), 6U);
  EXPECT_EQ(entities(drawing, "POINT", "pins").size(), 2U);
}

TEST(Drawing, HasItsLinesAtTheirRadiiInInches) {
  const json drawing = drawn(whole_job());
  // Half of 16 ft to the flats; 2-3/4 in to the plate; 18 in and a fascia of 3/4 in beyond it.
  const std::vector<std::pair<std::string, double>> flat_radii = {
      {"plan line", 96.0}, {"plate", 98.75}, {"roof edge", 98.75 + 18.0 + 0.75}};
  for (const auto& [layer, flat_radius] : flat_radii) {
    const auto lines = entities(drawing, "LWPOLYLINE", layer);
    ASSERT_EQ(lines.size(), 1U) << layer;
    EXPECT_TRUE(lines[0]["closed"].get<bool>()) << layer;
    ASSERT_EQ(lines[0]["points"].size(), 6U) << layer;
    for (const json& corner : lines[0]["points"])
      EXPECT_NEAR(std::hypot(corner[0].get<double>(), corner[1].get<double>()),
                  flat_radius * kFlatToCorner, 2e-5)
          << layer;
  }
}

TEST(Drawing, NamesEachStakeWhereItStands) {
  const json drawing = drawn(whole_job());
  const auto points = entities(drawing, "POINT", "stakes");
  const auto texts = entities(drawing, "TEXT", "stakes");
  ASSERT_EQ(points.size(), 7U);
  ASSERT_EQ(texts.size(), 7U);
  std::string names;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    names += texts[i]["text"].get<std::string>();
    const double away = std::hypot(
        texts[i]["points"][0][0].get<double>() - points[i]["points"][0][0].get<double>(),
        texts[i]["points"][0][1].get<double>() - points[i]["points"][0][1].get<double>());
    EXPECT_LT(away, 2.1 * texts[i]["height"].get<double>());
  }
  EXPECT_EQ(names, "ABCDEFO");
  // A is half a side left of the middle of the side that faces forward.
  EXPECT_NEAR(points[0]["points"][0][0].get<double>(), -48.0 * kFlatToCorner, 2e-5);
  EXPECT_NEAR(points[0]["points"][0][1].get<double>(), 96.0, 2e-5);
}

TEST(Drawing, StatesItsUnitAndSpansWhatItShows) {
  const std::vector<std::tuple<std::string, int, double>> units = {
      {"feet-inches", 1, 240.0}, {"mm", 4, 6096.0}, {"m", 6, 6.096}};
  for (const auto& [word, code, reach] : units) {
    const json drawing = drawn(whole_job(), {"--units", word});
    EXPECT_EQ(drawing["unit"], code) << word;
    EXPECT_NEAR(drawing["least"][0].get<double>(), -reach, 1e-9) << word;
    EXPECT_NEAR(drawing["most"][1].get<double>(), reach, 1e-9) << word;
  }
}

TEST(Drawing, TakesNamesThatNoLayerMayHave) {
  std::string job = whole_job();
  job.replace(
      job.find("plate = "), std::string("plate = \"2-3/4in\"\n").size(),
      "\"0\" = 1\n\"stakes\" = 1.5\n\"a/b:c\" = 2\n\"a?b*c\" = 3\n\"Dig\" = 4\n"
      "\"dig\" = 5\n\"fouille été\" = 6\n\"hole \U0001F573\" = 7\n\"half 50% \\\\U^\" = 8\n");
  job.replace(job.find("\"P1\""), 4, "\"P\u0301 \U0001F600 50% \\\\P\"");
  const json drawing = drawn(job);
  EXPECT_THAT(drawing["errors"], testing::IsEmpty());
  const auto names = layers(drawing);
  for (const char* name : {"0-2", "stakes-2", "a_b_c", "a_b_c-2", "Dig", "dig-2", "fouille été",
                           "hole _", "half 50_ _U_"}) {
    EXPECT_THAT(names, Contains(name));
    EXPECT_EQ(entities(drawing, "LWPOLYLINE", name).size(), 1U) << name;
  }
  // The reader gives characters past U+FFFF as the two halves they are written in.
  EXPECT_EQ(entities(drawing, "TEXT", "pins")[0]["ascii"], "'P\\u0301 \\ud83d\\ude00 50% \\\\P'");
}

TEST(Drawing, IsTheSameByteForByteWhereverItIsMade) {
  const Site site;
  site.write("job.toml", whole_job());
  ASSERT_EQ(site.stakewright({"layout", "job.toml", "-o", "one.dxf"}).status, 0);
  ASSERT_EQ(site.stakewright({"layout", "job.toml", "-o", "two.DXF"},
                             {.environment = {"LC_ALL=de_DE.UTF-8", "TZ=Asia/Kathmandu"}})
                .status,
            0);
  EXPECT_EQ(site.read("one.dxf"), site.read("two.DXF"));
  EXPECT_GT(site.read("one.dxf").size(), 5000U);
}

TEST(Drawing, OfTheFewestAndTheMostSidesIsWhole) {
  for (const int sides : {3, 48}) {
    const json drawing = drawn("units = 'm'\n[plan]\nsides = " + std::to_string(sides) +
                               "\ncorner_radius = 8\n[lines]\ndig = 1\n");
    EXPECT_THAT(drawing["errors"], testing::IsEmpty());
    EXPECT_EQ(entities(drawing, "POINT", "stakes").size(), static_cast<std::size_t>(sides) + 1);
    EXPECT_EQ(entities(drawing, "LWPOLYLINE", "dig")[0]["points"].size(),
              static_cast<std::size_t>(sides));
  }
}

TEST(Drawing, OfACheckShowsThePlacesFoundBesideThePlan) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", hexagon_readings('D', kInch_m));
  ASSERT_EQ(site.stakewright({"check", "job.toml", "readings.csv", "-o", "found.dxf"}).status, 1);
  const json drawing = read_back(site, "found.dxf");
  EXPECT_THAT(drawing["errors"], testing::IsEmpty());
  EXPECT_EQ(entities(drawing, "LWPOLYLINE", "found line").size(), 1U);
  const auto found = entities(drawing, "POINT", "found");
  const auto planned = entities(drawing, "POINT", "stakes");
  ASSERT_EQ(found.size(), 7U);
  for (std::size_t i = 0; i < found.size(); ++i) {
    const double off = std::hypot(
        found[i]["points"][0][0].get<double>() - planned[i]["points"][0][0].get<double>(),
        found[i]["points"][0][1].get<double>() - planned[i]["points"][0][1].get<double>());
    EXPECT_NEAR(off, i == 3 ? 1.0 : 0.0, 0.05) << i;  // D is an inch out; readings to 1 mm
  }
  EXPECT_EQ(entities(drawing, "TEXT", "found")[3]["text"], "D found");
}

std::vector<std::string> rows(const std::string& text) {
  std::vector<std::string> result;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) result.push_back(line);
  return result;
}

TEST(PointsOfACheck, StandBesideThePlannedOnesWithTheirVerdicts) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", hexagon_readings('D', kInch_m));
  ASSERT_EQ(
      site.stakewright({"check", "job.toml", "readings.csv", "-o", "found.csv", "--units", "mm"})
          .status,
      1);
  const auto table = rows(site.read("found.csv"));
  ASSERT_EQ(table.size(), 1U + 2U * 7U);
  EXPECT_EQ(table[0], "label,right,forward,height,note");
  EXPECT_EQ(table[1], "A,-1407.8,2438.4,,\"corner, post centers, as planned (mm)\"");
  EXPECT_THAT(table[8],
              testing::MatchesRegex("D found,1[0-9.]*,-24[0-9.]*,,\"?as found: OUT \\(mm\\)\"?"));
  EXPECT_THAT(table[13], HasSubstr("center pin, as planned"));
  EXPECT_THAT(table[14], testing::StartsWith("O found,"));
}

TEST(PointsOfACheck, LeaveOutThePlacesThatAreNotKnown) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", "from,to,reading\nA,B,2816mm\n");
  ASSERT_EQ(site.stakewright({"check", "job.toml", "readings.csv", "-o", "found.csv"}).status, 3);
  EXPECT_THAT(site.read("found.csv"), testing::Not(HasSubstr("C found")));
}

TEST(OutlinesOfTheSite, ThatCrossThemselvesAreRefusedByNameAndLineInEveryCommand) {
  const Site site;
  site.write("job.toml", hexagon_job() +
                             "[site]\n[[site.keep_clear]]\nname = \"fence\"\n"
                             "of = [[0,0], [4,4], [4,0], [0,4]]\n");
  for (const char* command : {"layout", "tapes", "carry"}) {
    const Finished run = site.stakewright({command, "job.toml"});
    EXPECT_EQ(run.status, 2) << command;
    EXPECT_THAT(run.err, HasSubstr("job.toml, line 21, site.keep_clear[1].of: keep_clear \"fence\" "
                                   "crosses or touches itself"))
        << command;
  }
}

TEST(OutlinesOfTheSite, ThatALineCrossesAreNamedWithPlaceAndDepthAndExitOne) {
  const Site site;
  // The plan line's forward flat is 8 ft out, the eave 9' 9-1/2"; the fence stands at 9 ft.
  site.write("job.toml", hexagon_job() +
                             "[site]\n[[site.keep_clear]]\nname = \"fence\"\n"
                             "of = [[-20,-20], [20,-20], [20,9], [-20,9]]\n");
  const Finished report = site.stakewright({"layout", "job.toml"});
  EXPECT_EQ(report.status, 1);
  EXPECT_THAT(report.err, HasSubstr("Line roof edge goes past the outline \"fence\""));
  EXPECT_THAT(report.out, HasSubstr("past it by 9-1/2\"; meets it at"));
  const json result = json::parse(site.stakewright({"layout", "job.toml", "--json"}).out);
  ASSERT_EQ(result["clearances"].size(), 3U);
  const json& plan_line = result["clearances"][0];
  EXPECT_EQ(plan_line["line"], "plan line");
  EXPECT_FALSE(plan_line["crosses"].get<bool>());
  EXPECT_NEAR(plan_line["distance"].get<double>(), 12.0 * kInch_m, 1e-9);
  const json& roof = result["clearances"][2];
  EXPECT_EQ(roof["line"], "roof edge");
  EXPECT_TRUE(roof["crosses"].get<bool>());
  EXPECT_NEAR(roof["beyond"].get<double>(), 9.5 * kInch_m, 1e-5);
  EXPECT_EQ(roof["crossings"].size(), 2U);
  for (const json& place : roof["crossings"])
    EXPECT_NEAR(place["y"].get<double>(), 9.0 * 12.0 * kInch_m, 1e-9);
}

TEST(PinsOfTheSite, ThatStandInTheDigAreNamed) {
  const Site site;
  site.write("job.toml", hexagon_job() + "[site]\n[[site.pin]]\nname = \"P1\"\nat = [0, 8.5]\n");
  std::string job = site.read("job.toml");
  job.insert(job.find("\n[tolerance]"), "dig = \"2ft\"\n");
  site.write("job.toml", job);
  const Finished run = site.stakewright({"layout", "job.toml"});
  EXPECT_EQ(run.status, 0);
  EXPECT_THAT(run.err, HasSubstr("Pin P1 stands inside dig"));
  const json result = json::parse(site.stakewright({"layout", "job.toml", "--json"}).out);
  ASSERT_EQ(result["pins"].size(), 1U);
  EXPECT_EQ(result["pins"][0]["within"][0]["line"], "dig");
  EXPECT_NEAR(result["pins"][0]["within"][0]["depth"].get<double>(), 18.0 * kInch_m, 1e-9);
}

TEST(ConcreteOfAJob, IsAddedUpInTheReportAndInTheResults) {
  const Site site;
  site.write("job.toml", hexagon_job() +
                             "[pour]\npier_diameter = \"12in\"\npier_depth = \"4ft\"\n"
                             "slab_thickness = \"4in\"\nslab_line = \"plan line\"\n"
                             "waste = 0\nbag_yield = \"0.6 cu ft\"\n");
  const Finished report = site.stakewright({"layout", "job.toml"});
  EXPECT_EQ(report.status, 0) << report.err;
  // Six piers of 4 ft at 0.0291 cu yd a foot: 0.70. Slab: 221.7 sq ft (0.8660 of 16 ft squared)
  // at 81 sq ft a cubic yard: 2.74.
  EXPECT_THAT(report.out, HasSubstr("1' 0\" across, 4' 0\" deep"));
  EXPECT_THAT(report.out, HasSubstr("0.70 cu yd"));
  EXPECT_THAT(report.out, HasSubstr("2.74 cu yd"));
  EXPECT_THAT(report.out, HasSubstr("licensed"));
  const Finished metric = site.stakewright({"layout", "job.toml", "--units", "m"});
  EXPECT_THAT(metric.out, HasSubstr("2.09 m³"));  // 2.737 cu yd of 0.76455 m³
  const json pour = json::parse(site.stakewright({"layout", "job.toml", "--json"}).out)["pour"];
  EXPECT_EQ(pour["piers"]["count"], 6);
  EXPECT_NEAR(pour["order"].get<double>(), (0.698 + 2.737) * 0.764555, 0.001);
  EXPECT_EQ(pour["bags"], 155);  // 3.435 cu yd of 45 bags: 154.6
  EXPECT_FALSE(pour.contains("pads"));
}

TEST(ConcreteOfAJob, IsNullWithoutAPour) {
  const Site site;
  site.write("job.toml", hexagon_job());
  const json result = json::parse(site.stakewright({"layout", "job.toml", "--json"}).out);
  EXPECT_TRUE(result["pour"].is_null());
}

/// The reading of a pair in a readings file, whichever way about.
std::string reading_of(const std::string& from, const std::string& to, const std::string& file) {
  for (const std::string& row : rows(file))
    for (const std::string& pair : {from + "," + to + ",", to + "," + from + ","})
      if (row.starts_with(pair)) return row.substr(pair.size());
  return "";
}

/// A blank (tape,A,B,,steel,1,) with the readings of a file written into its first rows.
std::string filled(const std::string& blank, const std::string& file, std::size_t rows_filled) {
  std::string result;
  for (const std::string& row : rows(blank)) {
    const std::size_t empty = row.find(",,");
    if (empty == std::string::npos || rows_filled == 0) {
      result += row + '\n';
      continue;
    }
    const std::size_t comma = row.find(',', 5);
    const std::string reading =
        reading_of(row.substr(5, comma - 5), row.substr(comma + 1, empty - comma - 1), file);
    result += row.substr(0, empty + 1) + reading + row.substr(empty + 1) + '\n';
    --rows_filled;
  }
  return result;
}

TEST(ReadingsToFillIn, AreThePlannedPullsInOrderWithNothingRead) {
  const Site site;
  site.write("job.toml", hexagon_job());
  const Finished run = site.stakewright({"tapes", "job.toml", "-o", "readings.csv", "--json"});
  ASSERT_EQ(run.status, 0) << run.err;
  const json plan = json::parse(run.out)["plan"];
  const auto table = rows(site.read("readings.csv"));
  ASSERT_EQ(table.size(), plan.size() + 1);
  EXPECT_EQ(table[0], "kind,from,to,reading,instrument,round,note");
  for (std::size_t i = 0; i < plan.size(); ++i)
    EXPECT_EQ(table[i + 1], "tape," + plan[i]["from"].get<std::string>() + "," +
                                plan[i]["to"].get<std::string>() + ",,steel,1,");
}

TEST(ReadingsToFillIn, AreHandedInAsTheyAreWithSomeStillEmpty) {
  const Site site;
  site.write("job.toml", hexagon_job());
  ASSERT_EQ(site.stakewright({"tapes", "job.toml", "-o", "readings.csv"}).status, 0);
  const std::string blank = site.read("readings.csv");
  const std::size_t pulls = rows(blank).size() - 1;

  const Finished empty = site.stakewright({"check", "job.toml", "readings.csv"});
  EXPECT_EQ(empty.status, 3);
  EXPECT_THAT(empty.out, HasSubstr("There are no readings to judge by."));
  EXPECT_THAT(empty.err, HasSubstr(std::to_string(pulls) + " rows have no reading yet: "));

  site.write("readings.csv", filled(blank, hexagon_readings(), pulls - 1));
  const Finished some = site.stakewright({"check", "job.toml", "readings.csv", "--json"});
  EXPECT_EQ(some.status, 0) << some.out;
  const json result = json::parse(some.out);
  EXPECT_EQ(result["readings"].size(), pulls - 1);
  EXPECT_THAT(result["remarks"].dump(), HasSubstr("1 row has no reading yet: "));
  for (const char* command : {"tapes", "carry"})
    EXPECT_THAT(site.stakewright({command, "job.toml", "readings.csv"}).err,
                HasSubstr("1 row has no reading yet"))
        << command;

  site.write("readings.csv", filled(blank, hexagon_readings(), pulls));
  const Finished all = site.stakewright({"check", "job.toml", "readings.csv"});
  EXPECT_EQ(all.status, 0);
  EXPECT_THAT(all.err, testing::Not(HasSubstr("no reading yet")));
}

TEST(ReadingsToFillIn, AfterSomeReadingsAreThePullsThatWouldFixTheShape) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", "from,to,reading\nA,D,5631mm\nB,E,5631mm\nC,F,5631mm\n");
  ASSERT_EQ(site.stakewright({"tapes", "job.toml", "readings.csv", "-o", "next.csv"}).status, 3);
  const auto table = rows(site.read("next.csv"));
  ASSERT_GE(table.size(), 7U);  // 9 unknown shape figures of six corners less 3 readings
  for (std::size_t i = 1; i < table.size(); ++i)
    EXPECT_THAT(table[i], testing::MatchesRegex("tape,[A-FO],[A-FO],,steel,,"));
  EXPECT_EQ(site.stakewright({"check", "job.toml", "next.csv"}).status, 3);
}

}  // namespace
}  // namespace stakewright::tests

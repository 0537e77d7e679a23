#include "stakewright/job/job.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <regex>
#include <sstream>

#include "refusal.hpp"
#include "stakewright/base/angle.hpp"
#include "stakewright/layout/polygon.hpp"

namespace stakewright::job {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;

constexpr double kInch_m = 0.0254;
constexpr double kFoot_m = 0.3048;

// Every key of the format, in feet-inches.
constexpr const char* kWhole = R"toml(
title = "Orchard shelter"
units = "feet-inches"

[plan]
sides = 6
across_flats = "16ft"
line = "post centers"

[site]
center = ["1ft", "-2ft"]
facing = 30.0
hold = ["A", "B"]
batter_setback = "4ft"
[[site.pin]]
name = "P1"
at = ["-12ft", "-10ft"]
[[site.pin]]
name = "gate post"
at = ["12ft", "-10ft"]
[[site.keep_clear]]
name = "boundary setback"
keep = "inside"
of = [["-20ft","-20ft"], ["20ft","-20ft"], ["20ft","20ft"], ["-20ft","20ft"]]
[[site.keep_clear]]
name = "drain"
keep = "outside"
of = [["14ft","0"], ["15ft","0"], ["15ft","1ft"]]

[lines]
plate = "2-3/4in"
slab_edge = "8in"
dig = "2ft"
inner = "-1ft"

[tolerance]
corner = "3/8in"
level = "1/4in"
part = "1/32in"
confidence = 0.9

[staking]
spread = "3/16in"
misread = 0.01
misplaced = 0.1

[[instrument]]
name = "blue tape"
kind = "tape"
constant = "1/16in"
per_length = 0.0001
centering = "1/32in"
scale = 0.0002
zero = "1/32in"
nominal = "100ft"
actual = "99.98ft"
expansion = "6.45e-6/F"
standard_temperature = "68F"
standard_pull = "12lbf"
section = "0.0075in2"
modulus = "29e6psi"
weight = "0.028lbf/ft"

[roof]
pitch = "8/12"
overhang = "18in"
rafter = "1-1/2in"
rafter_depth = "7-1/4in"
hip = "3-1/2in"
spacing = "24in"
hub = "6in"
fascia = "1-1/2in"
tail = "plumb"
eave = "even"
apex_over = "even hips"
seat = "3in"
shortest_jack = "9in"
beam = "5-1/2in"
post = "7-1/4in"
post_height = "8ft"
course = "2ft"
base_play = "1/2in"

[stock]
lengths = ["10ft", "16ft"]
kerf = "3/32in"
)toml";

constexpr const char* kShort = "units = \"mm\"\n[plan]\nsides = 5\nside = 2000\n";

Job job(const std::string& text) { return job_from_text(text, "job.toml"); }
std::string refused(const std::string& text) {
  return refusal([&] { job(text); });
}

/// The short job with a line more; it stands on line 5.
std::string refused_with(const std::string& more) { return refused(kShort + more); }

std::string refused_plan(const std::string& plan) {
  return refused("units = \"mm\"\n[plan]\n" + plan);
}

TEST(JobFile, GivesItsPlan) {
  const Job read = job(kWhole);
  EXPECT_EQ(read.title, "Orchard shelter");
  EXPECT_EQ(read.units, base::Units::feet_inches);
  EXPECT_EQ(read.plan.polygon.sides, 6);
  // A hexagon 16 ft across flats: corner radius 8 / cos 30.
  EXPECT_NEAR(read.plan.polygon.corner_radius_m, 16.0 / std::sqrt(3.0) * kFoot_m, 1e-12);
  EXPECT_EQ(read.plan.measured_to, "post centers");
}

TEST(JobFile, GivesItsSite) {
  const layout::Plan plan = job(kWhole).plan;
  EXPECT_NEAR(plan.center.x_m, kFoot_m, 1e-12);
  EXPECT_NEAR(plan.center.y_m, -2.0 * kFoot_m, 1e-12);
  EXPECT_NEAR(plan.facing_rad, 30.0 * base::kDegree_rad, 1e-15);
  EXPECT_THAT(plan.hold, ElementsAre("A", "B"));
  EXPECT_NEAR(plan.batter_setback_m, 4.0 * kFoot_m, 1e-12);
  ASSERT_EQ(plan.pins.size(), 2U);
  EXPECT_EQ(plan.pins[1].name, "gate post");
  EXPECT_NEAR(plan.pins[1].at.x_m, 12.0 * kFoot_m, 1e-12);
  EXPECT_NEAR(plan.pins[1].at.y_m, -10.0 * kFoot_m, 1e-12);
  ASSERT_EQ(plan.keep_clear.size(), 2U);
  EXPECT_TRUE(plan.keep_clear[0].keep_inside);
  EXPECT_EQ(plan.keep_clear[0].outline.size(), 4U);
  EXPECT_FALSE(plan.keep_clear[1].keep_inside);
  EXPECT_NEAR(plan.keep_clear[1].outline[2].y_m, kFoot_m, 1e-12);
}

TEST(JobFile, GivesItsLinesInTheOrderTheyAreWritten) {
  const Job read = job(kWhole);
  std::vector<std::string> names;
  for (const layout::Line& line : read.plan.lines) names.push_back(line.name);
  EXPECT_THAT(names, ElementsAre("plate", "slab_edge", "dig", "inner"));
  EXPECT_NEAR(read.plan.lines[3].offset_m, -kFoot_m, 1e-12);
  EXPECT_NEAR(read.plate_offset_m, 2.75 * kInch_m, 1e-12);
  EXPECT_EQ(job(kShort).plate_offset_m, 0.0);
}

TEST(JobFile, GivesItsTolerancesAndChances) {
  const Job read = job(kWhole);
  EXPECT_NEAR(read.tolerance.corner_m, 0.375 * kInch_m, 1e-15);
  EXPECT_NEAR(read.tolerance.level_m, 0.25 * kInch_m, 1e-15);
  EXPECT_NEAR(read.tolerance.part_m, kInch_m / 32.0, 1e-15);
  EXPECT_EQ(read.tolerance.confidence, 0.9);
  EXPECT_NEAR(read.staking.spread_m, 0.1875 * kInch_m, 1e-15);
  EXPECT_EQ(read.staking.misread, 0.01);
  EXPECT_EQ(read.staking.misplaced, 0.1);
}

TEST(JobFile, GivesItsInstrumentInSi) {
  const Job read = job(kWhole);
  ASSERT_EQ(read.instruments.size(), readings::built_in_instruments().size() + 1);
  const readings::Instrument& tape = read.instruments.back();
  EXPECT_EQ(tape.name, "blue tape");
  EXPECT_EQ(tape.kind, readings::Kind::tape);
  EXPECT_NEAR(tape.constant_m, kInch_m / 16.0, 1e-15);
  EXPECT_EQ(tape.per_length, 0.0001);
  EXPECT_NEAR(tape.centering_m, kInch_m / 32.0, 1e-15);
  EXPECT_EQ(tape.scale, 0.0002);
  EXPECT_NEAR(tape.zero_m, kInch_m / 32.0, 1e-15);
  EXPECT_NEAR(tape.nominal_m.value(), 30.48, 1e-12);
  EXPECT_NEAR(tape.actual_m.value(), 99.98 * kFoot_m, 1e-12);
  EXPECT_NEAR(tape.expansion_per_c.value(), 6.45e-6 * 1.8, 1e-15);
  EXPECT_NEAR(tape.standard_temperature_c, 20.0, 1e-12);
  EXPECT_NEAR(tape.standard_pull_n.value(), 12.0 * 4.4482216, 1e-6);
  EXPECT_NEAR(tape.section_m2.value(), 0.0075 * kInch_m * kInch_m, 1e-15);
  EXPECT_NEAR(tape.modulus_pa.value(), 29e6 * 6894.7573, 1e3);
  EXPECT_NEAR(tape.weight_n_per_m.value(), 0.028 * 14.593903, 1e-7);
}

TEST(JobFile, GivesItsRoof) {
  const Job read = job(kWhole);
  EXPECT_TRUE(read.has_roof);
  EXPECT_NEAR(read.roof.pitch, 2.0 / 3.0, 1e-15);
  EXPECT_NEAR(read.roof.overhang_m, 18.0 * kInch_m, 1e-12);
  EXPECT_NEAR(read.roof.rafter_m, 1.5 * kInch_m, 1e-12);
  EXPECT_NEAR(read.roof.rafter_depth_m, 7.25 * kInch_m, 1e-12);
  EXPECT_NEAR(read.roof.hip_m, 3.5 * kInch_m, 1e-12);
  EXPECT_NEAR(read.roof.spacing_m, 24.0 * kInch_m, 1e-12);
  EXPECT_NEAR(read.roof.hub_m, 6.0 * kInch_m, 1e-12);
  EXPECT_NEAR(read.roof.fascia_m, 1.5 * kInch_m, 1e-12);
  EXPECT_EQ(read.roof.tail, roof::Tail::plumb);
  EXPECT_EQ(read.roof.eave, roof::Eave::even);
  EXPECT_EQ(read.roof.apex_over, roof::ApexOver::even_hips);
  EXPECT_NEAR(read.roof.seat_m, 3.0 * kInch_m, 1e-12);
  EXPECT_NEAR(read.roof.shortest_jack_m, 9.0 * kInch_m, 1e-12);
  EXPECT_NEAR(read.roof.beam_m, 5.5 * kInch_m, 1e-12);
  EXPECT_NEAR(read.roof.post_m, 7.25 * kInch_m, 1e-12);
  EXPECT_NEAR(read.roof.post_height_m, 8.0 * kFoot_m, 1e-12);
  EXPECT_NEAR(read.roof.course_m, 2.0 * kFoot_m, 1e-12);
  EXPECT_NEAR(read.roof.base_play_m, 0.5 * kInch_m, 1e-12);
}

TEST(JobFile, ReadsWhatTheYardSells) {
  const Job read = job(kWhole);
  ASSERT_EQ(read.stock.lengths_m.size(), 2U);
  EXPECT_NEAR(read.stock.lengths_m[0], 10.0 * kFoot_m, 1e-12);
  EXPECT_NEAR(read.stock.lengths_m[1], 16.0 * kFoot_m, 1e-12);
  EXPECT_NEAR(read.stock.kerf_m, 3.0 / 32.0 * kInch_m, 1e-12);
  EXPECT_NEAR(job(kShort).stock.lengths_m.back(), 6.0, 1e-12);
  EXPECT_NEAR(job("units = 'feet-inches'\n[plan]\nsides = 5\nside = 9\n").stock.lengths_m.back(),
              20.0 * kFoot_m, 1e-12);
}

TEST(JobFile, NeedsOnlyUnitsSidesAndASize) {
  const Job read = job(kShort);
  EXPECT_EQ(read.title, "Untitled job");
  EXPECT_FALSE(read.has_roof);
  EXPECT_TRUE(read.plan.lines.empty());
  EXPECT_EQ(read.instruments.size(), readings::built_in_instruments().size());
  EXPECT_EQ(read.tolerance.confidence, 0.95);
}

// 1/4, 1/8 and 1/16 in, or 6, 3 and 1.5 mm: common practice, no source.
TEST(JobFile, HasTheUsualTolerancesOfItsUnits) {
  const Job metric = job(kShort);
  EXPECT_EQ(metric.tolerance.corner_m, 0.006);
  EXPECT_EQ(metric.tolerance.level_m, 0.003);
  EXPECT_EQ(metric.tolerance.part_m, 0.0015);
  EXPECT_EQ(metric.staking.spread_m, 0.003);
  const Job feet =
      job("units = \"feet-inches\"\n[plan]\nsides = 5\nside = 6\n[tolerance]\nconfidence = 0.9\n");
  EXPECT_NEAR(feet.tolerance.corner_m, kInch_m / 4.0, 1e-15);
  EXPECT_NEAR(feet.tolerance.level_m, kInch_m / 8.0, 1e-15);
  EXPECT_NEAR(feet.tolerance.part_m, kInch_m / 16.0, 1e-15);
  EXPECT_NEAR(feet.staking.spread_m, kInch_m / 8.0, 1e-15);
  EXPECT_EQ(job("units = \"m\"\n[plan]\nsides = 5\nside = 6\n").tolerance.corner_m, 0.006);
}

TEST(JobFile, ReadsBareNumbersInItsUnits) {
  EXPECT_NEAR(layout::side_m(job("units='feet-inches'\n[plan]\nsides=8\nside=6\n").plan.polygon),
              6.0 * kFoot_m, 1e-12);
  EXPECT_NEAR(layout::side_m(job("units='mm'\n[plan]\nsides=8\nside='2400.5'\n").plan.polygon),
              2.4005, 1e-12);
  EXPECT_NEAR(layout::side_m(job("units='m'\n[plan]\nsides=8\nside=2.4\n").plan.polygon), 2.4,
              1e-12);
  // 20 sq ft, and a square of as much: side √20 ft.
  EXPECT_NEAR(
      layout::side_m(job("units='feet-inches'\n[plan]\nsides=4\nfloor_area=20\n").plan.polygon),
      std::sqrt(20.0) * kFoot_m, 1e-12);
}

// Each measure of a hexagon or a pentagon of side 1 (docs/methods/polygon.md has the sources).
TEST(JobFile, TakesAnySizeKey) {
  struct Case {
    int sides;
    const char* key;
    double per_side;
  };
  const double root3 = std::sqrt(3.0);
  for (const Case& c :
       {Case{6, "side", 1.0}, Case{6, "corner_radius", 1.0}, Case{6, "flat_radius", root3 / 2.0},
        Case{6, "across_flats", root3}, Case{6, "across_corners", 2.0}, Case{6, "perimeter", 6.0},
        Case{3, "flat_to_corner", root3 / 2.0}}) {
    const Job read =
        job(fmt::format("units='m'\n[plan]\nsides={}\n{}={}\n", c.sides, c.key, c.per_side));
    EXPECT_NEAR(layout::side_m(read.plan.polygon), 1.0, 1e-12) << c.key;
  }
}

TEST(JobFile, NamesTheNearestKeyToOneItDoesNotKnow) {
  EXPECT_EQ(
      refused("units = \"mm\"\n[plan]\nsides = 5\nacros_flats = 3000\n"),
      "job.toml, line 4, plan.acros_flats: unknown key; the nearest known key is across_flats; "
      "accepted: sides, line, side, corner_radius, flat_radius, across_flats, across_corners, "
      "flat_to_corner, perimeter, floor_area");
  EXPECT_THAT(refused_with("titel = 3\n"), HasSubstr("line 5, plan.titel: unknown key"));
  EXPECT_THAT(refused("titel = 3\n"),
              HasSubstr("line 1, titel: unknown key; the nearest known key is title"));
  EXPECT_THAT(refused_with("[sites]\n"), HasSubstr("the nearest known key is site"));
  EXPECT_THAT(refused_with("[roof]\npitch='8/12'\nover_hang='1m'\n"),
              HasSubstr("known key is overhang"));
  EXPECT_THAT(refused_with("[[site.pin]]\nname='P'\nat=[0,0]\nhigh=3\n"),
              HasSubstr("line 8, site.pin[1].high: unknown key"));
  EXPECT_THAT(refused_with("[[instrument]]\nname='P'\nkind='tape'\nconstent='1mm'\n"),
              HasSubstr("known key is constant"));
  EXPECT_THAT(refused_with("\"a\\nb\" = 3\n"), HasSubstr("plan.\"a\\x0ab\": unknown key"));
  EXPECT_LT(refused_with(std::string(100000, 'k') + " = 3\n").size(), 500U);
}

TEST(JobFile, RefusesSidesThatMakeNoPolygon) {
  EXPECT_EQ(refused_plan("sides = 5.5\nside = 2000\n"),
            "job.toml, line 3, plan.sides: read \"5.5\"; accepted: a whole number from 3 to 48");
  for (const char* sides : {"2", "49", "-6", "0", "6.0", "\"six\"", "true", "[6]", "1e300", "nan",
                            "9223372036854775807", "1979-05-27", "{a=1}"})
    EXPECT_THAT(
        refused_plan(fmt::format("sides = {}\nside = 2000\n", sides)),
        AllOf(HasSubstr("line 3, plan.sides: read "), HasSubstr("a whole number from 3 to 48")))
        << sides;
  EXPECT_THAT(refused_plan("side = 2000\n"), HasSubstr("line 2, plan: plan.sides is missing"));
  EXPECT_EQ(job("units='m'\n[plan]\nsides=48\nside=1\n").plan.polygon.sides, 48);
}

TEST(JobFile, RefusesTwoSizesAndNone) {
  EXPECT_THAT(refused_plan("sides = 5\n"),
              HasSubstr("line 2, plan: read no size; accepted: exactly one of side"));
  EXPECT_THAT(
      refused_plan("sides = 5\nside = 2000\nperimeter = 10000\n"),
      HasSubstr("line 5, plan.perimeter: read a second size beside side; accepted: exactly one"));
}

TEST(JobFile, RefusesAMeasureItsPolygonHasNot) {
  EXPECT_THAT(refused_plan("sides = 5\nacross_flats = 3000\n"),
              HasSubstr("line 4, plan.across_flats: "));
  EXPECT_THAT(refused_plan("sides = 7\nacross_corners = 3000\n"),
              HasSubstr("line 4, plan.across_corners: "));
  EXPECT_THAT(refused_plan("sides = 6\nflat_to_corner = 3000\n"),
              HasSubstr("line 4, plan.flat_to_corner: "));
}

TEST(JobFile, RefusesSizesThatAreNoSize) {
  for (const char* size :
       {"0",         "-2000",     "nan",     "inf",      "-inf",      "1e300",
        "\"0\"",     "\"-2m\"",   "\"nan\"", "\"inf\"",  "\"1e300\"", "\"12' 14\\\"\"",
        "\"3/0in\"", "\"1/3in\"", "\"2mx\"", "\"'\"",    "true",      "[2000]",
        "\"\"",      "0.000001",  "1e7",     "\"20km\"", "07:32:00"})
    EXPECT_THAT(refused_plan(fmt::format("sides = 6\nside = {}\n", size)),
                AllOf(HasSubstr("job.toml, line 4, plan.side: "), HasSubstr("accepted")))
        << size;
  for (const char* area : {"0", "-20", "nan", "\"20m\"", "1e300"})
    EXPECT_THAT(refused_plan(fmt::format("sides = 6\nfloor_area = {}\n", area)),
                AllOf(HasSubstr("line 4, plan.floor_area: "), HasSubstr("accepted")))
        << area;
}

TEST(JobFile, NeedsItsUnits) {
  EXPECT_EQ(refused("[plan]\nsides=5\nside=1\n"),
            "job.toml: units is missing; accepted: \"feet-inches\", \"mm\" or \"m\"");
  EXPECT_EQ(refused("units = \"feet\"\n[plan]\nsides=5\nside=1\n"),
            "job.toml, line 1, units: read \"feet\"; accepted: \"feet-inches\", \"mm\", \"m\"");
  EXPECT_THAT(refused("units = 3\n"), HasSubstr("line 1, units: read \"3\""));
}

TEST(JobFile, NeedsItsPlan) {
  EXPECT_THAT(refused("units='m'\n"), HasSubstr("job.toml: plan is missing"));
  EXPECT_THAT(refused("units='m'\nplan = 3\n"),
              HasSubstr("line 2, plan: read \"3\"; accepted: a table, [plan]"));
  EXPECT_THAT(refused("units='m'\n[[plan]]\nsides=3\n"),
              HasSubstr("read a list; accepted: a table"));
}

TEST(JobFile, RefusesTextThatIsNoToml) {
  EXPECT_THAT(refused("units = \"mm\"\n[plan\n"), HasSubstr("job.toml, line 2: "));
  EXPECT_THAT(refused("units = 'mm'\nunits = 'mm'\n"), HasSubstr("job.toml, line 2: "));
  EXPECT_THAT(refused("units = \"mm\n"), HasSubstr("job.toml, line 1: "));
  EXPECT_THAT(refused("units = mm\n"), HasSubstr("job.toml, line 1: "));
  EXPECT_THAT(refused("\x01\n"), HasSubstr("job.toml, line 1: "));
  EXPECT_THAT(refused(""), HasSubstr("units is missing"));
}

// The TOML library takes tables apart by recursion and runs out of stack; found by hand.
TEST(JobFile, RefusesKeysNestedWithoutEnd) {
  std::string key = "a";
  for (int k = 0; k < 200000; ++k) key += k % 2 == 0 ? ".1" : " . \"b\"";
  EXPECT_THAT(refused(key + " = 1\n"), HasSubstr("full stops"));
  EXPECT_THAT(refused("a = " + std::string(100000, '[') + "\n"), HasSubstr("line 1: "));
  EXPECT_THAT(refused("units = 'm'\nplan = " + std::string(50, '[') + std::string(50, ']') + "\n"),
              HasSubstr("deep"));
  std::string digits = "1";
  for (int k = 0; k < 200000; ++k) digits += ".1";
  EXPECT_THAT(refused(digits + " = 1\n"), HasSubstr("full stops"));
}

TEST(JobFile, TakesAnOutlineOfManyDecimals) {
  std::string outline = "[[site.keep_clear]]\nname='hedge'\nof=[\n";
  for (int k = 0; k < 6000; ++k) outline += fmt::format("['{}.5m','{}.25m'],\n", k, k * k % 977);
  outline += "['5999.5m','-1m'],\n['0.5m','-1m']";
  EXPECT_EQ(job(kShort + outline + "]\n").plan.keep_clear[0].outline.size(), 6002U);
}

TEST(JobFile, RefusesTitlesAndNamesThatBreakALine) {
  EXPECT_THAT(refused("title = \"a\\u001b[2Jb\"\nunits='m'\n"),
              HasSubstr("line 1, title: read \"a\\x1b[2Jb\""));
  EXPECT_THAT(refused("title = \"two\\nlines\"\nunits='m'\n"), HasSubstr("text on one line"));
  EXPECT_THAT(refused("title = \"" + std::string(201, 'x') + "\"\nunits='m'\n"),
              HasSubstr("up to 200 characters"));
  EXPECT_THAT(refused("title = 3\nunits='m'\n"), HasSubstr("line 1, title"));
  std::string umlauts;
  for (int k = 0; k < 200; ++k) umlauts += "\u00fc";
  EXPECT_EQ(job("title = '" + umlauts + "'\n" + kShort).title, umlauts);
  EXPECT_THAT(refused("line = 3\n"), HasSubstr("unknown key"));
  EXPECT_THAT(refused_with("line = \"a\\tb\"\n"), HasSubstr("line 5, plan.line"));
}

TEST(JobFile, RefusesAFacingThatIsNoBearing) {
  for (const char* facing : {"361", "-400.0", "nan", "inf", "\"north\"", "[1]"})
    EXPECT_THAT(refused_with(fmt::format("[site]\nfacing = {}\n", facing)),
                HasSubstr("line 6, site.facing: read "))
        << facing;
  EXPECT_NEAR(job(std::string(kShort) + "[site]\nfacing = -90\n").plan.facing_rad, -M_PI / 2.0,
              1e-15);
}

TEST(JobFile, RefusesPlacesThatAreNotTwoLengths) {
  for (const char* place : {"[]", "[1]", "[1,2,3]", "3", "\"1,2\"", "[true,1]", "['x',1]",
                            "[nan,1]", "[[1],[2]]", "[1e300,0]"})
    EXPECT_THAT(refused_with(fmt::format("[site]\ncenter = {}\n", place)),
                AllOf(HasSubstr("line 6, site.center: read "), HasSubstr("accepted: ")))
        << place;
}

TEST(JobFile, RefusesHeldStakesThatAreNotThere) {
  EXPECT_EQ(refused_with("[site]\nhold = [\"A\", \"F\"]\n"),
            "job.toml, line 6, site.hold: read \"F\"; accepted: A, B, C, D, E");
  EXPECT_THAT(refused_with("[site]\nhold = [\"O\"]\n"), HasSubstr("read \"O\""));
  EXPECT_THAT(refused_with("[site]\nhold = [\"a\"]\n"), HasSubstr("read \"a\""));
  EXPECT_THAT(refused_with("[site]\nhold = [\"A\", \"A\"]\n"), HasSubstr("read \"A\" twice"));
  EXPECT_THAT(refused_with("[site]\nhold = \"A\"\n"), HasSubstr("a list of corners"));
  EXPECT_THAT(refused_with("[site]\nhold = [1]\n"), HasSubstr("a name in quotes"));
  EXPECT_TRUE(job(std::string(kShort) + "[site]\nhold = []\n").plan.hold.empty());
}

std::string pin(const std::string& name) {
  return fmt::format("[[site.pin]]\nname = {}\nat = [0, 0]\n", name);
}

TEST(JobFile, RefusesPinsThatCannotBeToldApart) {
  EXPECT_THAT(refused_with(pin("'P1'") + pin("'P1'")),
              HasSubstr("line 9, site.pin[2].name: read \"P1\""));
  EXPECT_THAT(refused_with(pin("'P1'") + pin("'p1'")), HasSubstr("which \"P1\" has already"));
  EXPECT_THAT(refused_with(pin("'A'")), HasSubstr("line 6, site.pin[1].name: read \"A\""));
  EXPECT_THAT(refused_with(pin("'b'")), HasSubstr("which \"B\" has already"));
  EXPECT_THAT(refused_with(pin("'O'")), HasSubstr("which \"O\" has already"));
  EXPECT_EQ(job(kShort + pin("'F'")).plan.pins.size(), 1U);  // a pentagon has no corner F
}

TEST(JobFile, RefusesNamesThatAReadingsFileCouldNotHold) {
  for (const char* name : {"''", "' P1'", "'P1 '", "'#1'", "\"a\\nb\"", "\"a\\u202eb\"", "3",
                           "'a name of more than forty characters, too long'"})
    EXPECT_THAT(refused_with(pin(name)),
                AllOf(HasSubstr("line 6, site.pin[1].name: read "), HasSubstr("a name")))
        << name;
  EXPECT_THAT(refused_with("[[site.pin]]\nat = [0,0]\n"), HasSubstr("site.pin[1].name is missing"));
  EXPECT_THAT(refused_with("[[site.pin]]\nname = 'P'\n"), HasSubstr("site.pin[1].at is missing"));
  EXPECT_THAT(refused_with("[site]\npin = 3\n"), HasSubstr("tables, each headed [[site.pin]]"));
  EXPECT_THAT(refused_with("[site]\npin = [3]\n"), HasSubstr("tables, each headed [[site.pin]]"));
}

TEST(JobFile, RefusesOutlinesThatEncloseNothing) {
  const auto outline = [](const std::string& of) {
    return "[[site.keep_clear]]\nname = 'wall'\nof = " + of + "\n";
  };
  EXPECT_THAT(refused_with(outline("[[0,0],[1,1]]")),
              HasSubstr("line 7, site.keep_clear[1].of: read 2 points"));
  EXPECT_THAT(refused_with(outline("[[0,0],[1,1],[1,'x']]")), HasSubstr("of: point 3: read \"x\""));
  EXPECT_THAT(refused_with(outline("3")), HasSubstr("a list of three points or more"));
  EXPECT_THAT(
      refused_with(outline("[[0,0],[1,1],[1,0]]") + "keep = 'out'\n"),
      HasSubstr(
          "line 8, site.keep_clear[1].keep: read \"out\"; accepted: \"inside\", \"outside\""));
  EXPECT_TRUE(job(kShort + outline("[[0,0],[1,1],[1,0]]")).plan.keep_clear[0].keep_inside);
}

TEST(JobFile, RefusesLinesThatLeaveNothing) {
  // A pentagon of side 2 m has a flat radius of 1.376 m.
  EXPECT_THAT(refused_with("[lines]\ninner = '-1.4m'\n"), HasSubstr("line 6, lines.inner: "));
  EXPECT_THAT(refused_with("[lines]\ndig = 'wide'\n"),
              HasSubstr("line 6, lines.dig: read \"wide\""));
  EXPECT_THAT(refused_with("[lines]\n'' = 3\n"), HasSubstr("accepted: a name"));
  EXPECT_THAT(refused_with("[lines]\n'plan line' = 3\n"), HasSubstr("which [plan] gives"));
  EXPECT_THAT(refused_with("[lines]\n'roof edge' = 3\n"), HasSubstr("which [roof] gives"));
  EXPECT_THAT(refused_with("[lines]\ndig = 3\ndig = 4\n"), HasSubstr("line 7: "));
  EXPECT_EQ(job(std::string(kShort) + "[lines]\ninner = -1300\n").plan.lines[0].offset_m, -1.3);
}

TEST(JobFile, RefusesTolerancesAndChancesOutOfRange) {
  for (const char* key : {"corner", "level", "part"})
    for (const char* value : {"0", "-1", "nan", "'x'"})
      EXPECT_THAT(refused_with(fmt::format("[tolerance]\n{} = {}\n", key, value)),
                  HasSubstr(fmt::format("line 6, tolerance.{}: read ", key)));
  for (const char* value : {"0.49", "1", "0.99999", "nan", "'0.9'", "95"})
    EXPECT_THAT(refused_with(fmt::format("[tolerance]\nconfidence = {}\n", value)),
                HasSubstr("accepted: a number from 0.5 to 0.9999"));
  for (const char* key : {"misread", "misplaced"})
    for (const char* value : {"0", "1", "0.0", "1.0", "-0.1", "nan", "inf", "'0.1'"})
      EXPECT_THAT(refused_with(fmt::format("[staking]\n{} = {}\n", key, value)),
                  HasSubstr("accepted: a number above 0 and below 1"));
  EXPECT_THAT(refused_with("[staking]\nspread = 0\n"),
              HasSubstr("line 6, staking.spread: read \"0\""));
  EXPECT_EQ(job(std::string(kShort) + "[tolerance]\nconfidence = 0.5\n").tolerance.confidence, 0.5);
}

std::string instrument(const std::string& keys) { return "[[instrument]]\n" + keys; }

TEST(JobFile, StartsAnInstrumentFromTheBuiltInOneOfItsKind) {
  const Job read = job(kShort + instrument("name='rod'\nkind='laser'\nconstant='3mm'\n"));
  const readings::Instrument& rod = read.instruments.back();
  const readings::Instrument& laser = *readings::instrument_named(read.instruments, "laser");
  EXPECT_EQ(rod.constant_m, 0.003);
  EXPECT_EQ(rod.centering_m, laser.centering_m);
  EXPECT_EQ(rod.zero_m, laser.zero_m);
  const Job taped = job(kShort + instrument("name='red'\nkind='tape'\n"));
  EXPECT_FALSE(
      taped.instruments.back().expansion_per_c.has_value());  // of what it is made is not said
}

TEST(JobFile, LetsAStatedInstrumentStandInForTheBuiltInOneOfItsName) {
  const Job read =
      job(kShort + instrument("name='steel'\nkind='tape'\nnominal='30m'\nactual='29.996m'\n"));
  ASSERT_EQ(read.instruments.size(), readings::built_in_instruments().size());
  EXPECT_EQ(read.instruments[0].name, "steel");
  EXPECT_EQ(read.instruments[0].actual_m, 29.996);
  EXPECT_EQ(read.instruments[0].constant_m, readings::built_in_instruments()[0].constant_m);
  EXPECT_TRUE(read.instruments[0].expansion_per_c.has_value());
  EXPECT_THAT(refused_with(instrument("name='steel'\nkind='laser'\n")),
              HasSubstr("built in as another kind"));
}

TEST(JobFile, ReadsLevelsAndCircles) {
  const Job read = job(kShort + instrument("name='transit'\nkind='circle'\nangle='0-00-20'\n") +
                       instrument("name='old level'\nkind='level'\nconstant='2mm'\n"));
  const auto* transit = readings::instrument_named(read.instruments, "transit");
  ASSERT_NE(transit, nullptr);
  EXPECT_EQ(transit->kind, readings::Kind::angle);
  EXPECT_NEAR(transit->angle_rad, 20.0 / 3600.0 * base::kDegree_rad, 1e-15);
  EXPECT_EQ(readings::instrument_named(read.instruments, "old level")->constant_m, 0.002);
  EXPECT_THAT(refused_with(instrument("name='x'\nkind='circle'\nangle='2deg'\n")),
              HasSubstr("instrument[1].angle: read \"2deg\"; accepted: an angle up to a degree"));
}

TEST(JobFile, KeepsWhatIsOfACircleApartFromWhatIsOfATape) {
  EXPECT_THAT(
      refused_with(instrument("name='x'\nkind='circle'\nscale=0.0001\n")),
      HasSubstr("instrument[1].scale: read scale of a circle; accepted: angle and centering"));
  EXPECT_THAT(refused_with(instrument("name='x'\nkind='tape'\nangle='0-00-20'\n")),
              HasSubstr("instrument[1].angle: read angle of a tape; accepted: angle for an "
                        "instrument of kind circle"));
}

TEST(JobFile, RefusesInstrumentsWithoutNameOrKind) {
  EXPECT_THAT(refused_with(instrument("name='x'\nkind='rope'\n")),
              HasSubstr("accepted: \"tape\", \"laser\", \"level\", \"circle\""));
  EXPECT_THAT(refused_with(instrument("name='x'\n")), HasSubstr("instrument[1].kind is missing"));
  EXPECT_THAT(refused_with(instrument("kind='tape'\n")),
              HasSubstr("instrument[1].name is missing"));
}

TEST(JobFile, RefusesInstrumentsThatCannotBe) {
  const auto tape = [](const std::string& keys) {
    return instrument("name='x'\nkind='tape'\n" + keys);
  };
  EXPECT_THAT(refused_with(tape("") + tape("")), HasSubstr("read \"x\" a second time"));
  struct Case {
    const char* key;
    const char* value;
  };
  for (const Case& c :
       {Case{"constant", "-1"}, Case{"constant", "'2m'"}, Case{"per_length", "0.2"},
        Case{"per_length", "'1mm'"}, Case{"centering", "-1"}, Case{"scale", "-0.1"},
        Case{"zero", "nan"}, Case{"expansion", "1"}, Case{"standard_temperature", "200"},
        Case{"standard_temperature", "'x'"}, Case{"standard_pull", "0"},
        Case{"standard_pull", "'12lb'"}, Case{"section", "0"}, Case{"modulus", "-1"},
        Case{"modulus", "1e300"}, Case{"weight", "0"}, Case{"weight", "inf"}, Case{"nominal", "0"},
        Case{"actual", "true"}})
    EXPECT_THAT(refused_with(tape(fmt::format("{} = {}\n", c.key, c.value))),
                AllOf(HasSubstr(fmt::format("line 8, instrument[1].{}: read ", c.key)),
                      HasSubstr("accepted: ")))
        << c.value;
  EXPECT_THAT(refused_with(tape("constant = 0\ncentering = 0\n")), HasSubstr("at least 0.01 mm"));
}

TEST(JobFile, RefusesHalfACorrection) {
  const auto tape = [](const std::string& keys) {
    return instrument("name='x'\nkind='tape'\n" + keys);
  };
  EXPECT_EQ(
      refused_with(tape("nominal = '30m'\n")),
      "job.toml, line 5, instrument[1]: read nominal without actual; accepted: both or neither");
  EXPECT_THAT(refused_with(tape("actual = '30m'\n")), HasSubstr("read actual without nominal"));
  EXPECT_THAT(refused_with(tape("standard_pull=50\nsection=2\n")),
              HasSubstr("section without modulus"));
  EXPECT_THAT(refused_with(tape("section=2\nmodulus=200\n")),
              HasSubstr("section without standard_pull"));
  EXPECT_THAT(refused_with(tape("weight=0.2\n")), HasSubstr("weight without standard_pull"));
  EXPECT_THAT(refused_with(tape("nominal='30m'\nactual='20m'\n")),
              HasSubstr("more than a tenth apart"));
  EXPECT_THAT(refused_with("[instrument]\nname='x'\n"),
              HasSubstr("tables, each headed [[instrument]]"));
}

TEST(JobFile, RefusesARoofThatCannotBe) {
  EXPECT_THAT(refused_with("[roof]\n"), HasSubstr("line 5, roof: roof.pitch is missing"));
  for (const char* pitch : {"0", "'0/12'", "'8/0'", "'95deg'", "nan", "true", "'steep'", "-0.5"})
    EXPECT_THAT(refused_with(fmt::format("[roof]\npitch = {}\n", pitch)),
                AllOf(HasSubstr("line 6, roof.pitch: read "), HasSubstr("accepted: a pitch")))
        << pitch;
  for (const char* key : {"rafter", "rafter_depth", "hip", "spacing", "beam", "post", "course"})
    EXPECT_THAT(
        refused_with(fmt::format("[roof]\npitch = 0.5\n{} = 0\n", key)),
        HasSubstr(fmt::format("line 7, roof.{}: read \"0\"; accepted: a length above 0", key)));
  for (const char* key :
       {"overhang", "hub", "fascia", "seat", "shortest_jack", "post_height", "base_play"})
    EXPECT_THAT(refused_with(fmt::format("[roof]\npitch = 0.5\n{} = -1\n", key)),
                HasSubstr(fmt::format(
                    "line 7, roof.{}: read \"-1\"; accepted: a length of 0 or more", key)));
  EXPECT_THAT(refused_with("[roof]\npitch = 0.5\ntail = 'round'\n"),
              HasSubstr("accepted: \"square\", \"plumb\""));
  EXPECT_THAT(refused_with("[roof]\npitch = 0.5\neave = 1\n"),
              HasSubstr("accepted: \"level\", \"even\""));
  EXPECT_THAT(refused_with("[roof]\npitch = 0.5\napex_over = 'center'\n"),
              HasSubstr("\"placed center\", \"pin\""));
}

TEST(JobFile, RefusesARoofThatDoesNotFitItsPlateByKeyAndLine) {
  // Five sides of 2 m: 2753 mm between a flat and its double, 2227 mm where a hub's corners meet
  // it.
  const std::string roof = "[roof]\npitch = 0.5\n";
  EXPECT_THAT(refused_with(roof + "hub = 3000\n"),
              AllOf(HasSubstr("job.toml, line 7, roof.hub: read \"3000\"; accepted: less than"),
                    HasSubstr("2227.0 mm")));
  EXPECT_THAT(refused_with(roof + "spacing = 38\n"),
              HasSubstr("line 5, roof: rafter is left out, which means 38.1 mm; accepted: a rafter "
                        "thinner than its spacing, 38.0 mm"));
  EXPECT_THAT(refused_with(roof + "spacing = 40\nrafter = 45\n"),
              HasSubstr("line 8, roof.rafter: read \"45\"; accepted: a rafter thinner"));
  EXPECT_THAT(refused_with(roof + "seat = 400\n"), HasSubstr("line 7, roof.seat"));
  EXPECT_THAT(refused_with(roof + "course = 1\n"), HasSubstr("no more than 200 courses"));
  EXPECT_THAT(refused_with(roof + "rafter = 1\nspacing = 2\n"),
              HasSubstr("no more than 200 jacks"));
}

TEST(JobFile, RefusesStockThatIsNone) {
  EXPECT_THAT(refused_with("[stock]\nlengths = []\n"),
              HasSubstr("line 6, stock.lengths: read a list of 0; accepted: a list of 1 to 20"));
  EXPECT_THAT(refused_with("[stock]\nlengths = ['3m', 0]\n"),
              HasSubstr("line 6, stock.lengths: read \"0\"; accepted: a length above 0"));
  EXPECT_THAT(refused_with("[stock]\nlengths = '3m'\n"), HasSubstr("a list of 1 to 20"));
  EXPECT_THAT(refused_with("[stock]\nkerf = -1\n"), HasSubstr("line 6, stock.kerf"));
  EXPECT_THAT(refused_with("[stock]\nlenghts = ['3m']\n"),
              HasSubstr("nearest known key is lengths"));
}

TEST(JobFile, TakesAPitchAsANumber) {
  EXPECT_EQ(job(std::string(kShort) + "[roof]\npitch = 0.75\n").roof.pitch, 0.75);
  EXPECT_EQ(job(std::string(kShort) + "[roof]\npitch = 1\n").roof.pitch, 1.0);
}

TEST(JobFile, IsNamedInItsRefusals) {
  EXPECT_THAT(refusal([] { job_from_text("x = 1\n", "bad\x1bname"); }),
              HasSubstr("\"bad\\x1bname\", line 1"));
  EXPECT_THAT(refusal([] { read_job("/no/such/job.toml"); }),
              HasSubstr("/no/such/job.toml: cannot be read"));
}

TEST(JobLevels, GiveTheBenchMarkAndTheHeightsOverIt) {
  const std::string mark = "[levels]\nbench_mark='doorstep'\n";
  EXPECT_EQ(job(kShort).levels.bench_mark, "");
  const Job own_mean = job(kShort + mark);
  EXPECT_EQ(own_mean.levels.bench_mark, "doorstep");
  EXPECT_FALSE(own_mean.levels.footings_m);
  const Job read = job(kShort + mark + "height='30m'\nfootings=-200\n");
  EXPECT_EQ(read.levels.bench_mark_height_m, 30.0);
  EXPECT_EQ(read.levels.footings_m, -0.2);
}

TEST(JobLevels, ThatSayNothingOrTooMuchAreRefused) {
  EXPECT_EQ(refused_with("[levels]\nfootings='1m'\n"),
            "job.toml, line 6, levels.footings: read footings without bench_mark; accepted: both");
  EXPECT_THAT(refused_with("[levels]\nheight='1m'\n"), HasSubstr("read height without bench_mark"));
  EXPECT_THAT(refused_with("[levels]\nbench_mark='b'\n"),
              HasSubstr("read \"b\"; accepted: \"B\", or a name that differs"));
  EXPECT_THAT(refused_with("[levels]\nbench_mark=''\n"), HasSubstr("levels.bench_mark"));
  EXPECT_THAT(refused_with("[levels]\nbenchmark='x'\n"), HasSubstr("bench_mark"));
}

TEST(JobInstruments, OfKindLevelTakeNoFiguresOfATape) {
  for (const char* key :
       {"centering='1mm'", "scale=0.001", "zero='1mm'", "nominal='3m'", "weight=1"})
    EXPECT_THAT(refused(std::string(kShort) + "[[instrument]]\nname='old level'\nkind='level'\n" +
                        key + "\n"),
                HasSubstr("for a level; accepted: constant and per_length"))
        << key;
}

TEST(StarterJob, RunsAsItStands) {
  const Job read = job(starter_job());
  EXPECT_EQ(read.plan.polygon.sides, 6);
  EXPECT_EQ(read.units, base::Units::feet_inches);
  EXPECT_TRUE(read.has_roof);
}

// With every remark that holds a key made into the key, the file is still a job: each key it
// offers is spelled as the reader takes it.  The sizes exclude each other and stay remarks.
TEST(StarterJob, OffersOnlyKeysThatAreRead) {
  const std::regex optional(
      R"(\n# (\[\[|\[levels\]|bench_mark|height|footings|hold|batter|name|at |keep|of |kind|constant|per_length|centering|scale|zero|angle|nominal|actual|expansion|standard|section|modulus|weight))");
  const std::string all = std::regex_replace(starter_job(), optional, "\n$1");
  const Job read = job(all);
  EXPECT_EQ(read.plan.pins.size(), 2U);
  EXPECT_EQ(read.plan.keep_clear.size(), 1U);
  EXPECT_EQ(read.plan.hold.size(), 2U);
  EXPECT_TRUE(read.levels.footings_m.has_value());
  EXPECT_EQ(read.instruments.size(), readings::built_in_instruments().size() + 2);
  EXPECT_TRUE(
      readings::instrument_named(read.instruments, "blue tape")->weight_n_per_m.has_value());
  EXPECT_EQ(read.instruments.back().kind, readings::Kind::angle);
  for (const char* size : {"side", "corner_radius", "flat_radius", "across_corners",
                           "flat_to_corner", "perimeter", "floor_area"})
    EXPECT_THAT(starter_job(), HasSubstr(fmt::format("\n# {} = \"", size)));
}

// What a refusal of an unknown key lists is what the reader asks for.
TEST(StarterJob, NamesEveryKeyThatIsRead) {
  const std::string starter = starter_job();
  for (const char* table :
       {"[site]", "[[site.pin]]", "[[site.keep_clear]]", "[tolerance]", "[staking]", "[levels]",
        "[[instrument]]", "[roof]", "[stock]", "[pour]"}) {
    EXPECT_THAT(starter, HasSubstr(table));
    const std::string refusal = refused_with(std::string(table) + "\nno_such_key = 1\n");
    std::istringstream keys(refusal.substr(refusal.find("accepted: ") + 10));
    for (std::string key; std::getline(keys >> std::ws, key, ',');)
      EXPECT_TRUE(key == "pin" || key == "keep_clear" ||
                  std::regex_search(starter, std::regex("\n(# )?" + key + " = ")))
          << table << " " << key;
  }
}

// The cautions that stand wherever a job begins.
TEST(StarterJob, WarnsBeforeTheFirstStake) {
  EXPECT_THAT(starter_job(), AllOf(HasSubstr("buried services"), HasSubstr("power"),
                                   HasSubstr("licensed designer"), HasSubstr("local code")));
}

TEST(JobFile, ReadsWhatIsPoured) {
  const std::string lines = std::string(kShort) + "[lines]\nslab_edge = '200mm'\n";
  EXPECT_FALSE(job(lines).pour.has_value());
  const auto piers = job(lines + "[pour]\npier_diameter = '12in'\npier_depth = '4ft'\n").pour;
  ASSERT_TRUE(piers.has_value());
  EXPECT_EQ(piers->piers, 5);  // one a corner of the pentagon
  EXPECT_NEAR(piers->pier_diameter_m, kFoot_m, 1e-12);
  EXPECT_NEAR(piers->pier_depth_m, 4 * kFoot_m, 1e-12);
  EXPECT_EQ(piers->slab_thickness_m, 0.0);
  EXPECT_EQ(piers->waste, 0.1);
  const auto slab = job(lines +
                        "[pour]\nslab_thickness = 100\nedge_width = 300\nedge_depth = 200\n"
                        "waste = 0.05\nbag_yield = '17L'\n")
                        .pour;
  EXPECT_EQ(slab->piers, 0);
  EXPECT_EQ(slab->slab_line, "slab_edge");
  EXPECT_NEAR(slab->edge_width_m, 0.3, 1e-12);
  EXPECT_EQ(slab->waste, 0.05);
  EXPECT_NEAR(slab->bag_yield_m3, 0.017, 1e-15);
}

TEST(JobFile, RefusesAPourThatIsHalfThereOrHasNoPlace) {
  const auto refused = [](const std::string& pour) {
    return refused_with("[lines]\nslab_edge = 200\n[pour]\n" + pour);
  };
  EXPECT_THAT(refused(""), HasSubstr("pour: read nothing to pour"));
  EXPECT_THAT(refused("waste = 0.1\n"), HasSubstr("read nothing to pour"));
  EXPECT_THAT(refused("pier_diameter = 300\n"),
              HasSubstr("line 8, pour.pier_diameter: read it without pier_depth"));
  EXPECT_THAT(refused("pier_depth = 300\n"), HasSubstr("without pier_diameter"));
  EXPECT_THAT(refused("slab_thickness = 100\nedge_width = 200\n"), HasSubstr("without edge_depth"));
  EXPECT_THAT(refused("slab_thickness = 100\npiers = 3\n"), HasSubstr("without pier_diameter"));
  EXPECT_THAT(refused("slab_thickness = 100\nslab_line = 'dig'\n"),
              HasSubstr("line 9, pour.slab_line: no line \"dig\" for the slab; accepted: plan "
                        "line, slab_edge"));
  EXPECT_THAT(refused("slab_thickness = 100\nedge_width = 2000\nedge_depth = 100\n"),
              HasSubstr("line 9, pour.edge_width: "));
  EXPECT_THAT(refused("slab_thickness = 0\n"), HasSubstr("above 0, up to 10 m"));
  EXPECT_THAT(refused("slab_thickness = '11m'\n"), HasSubstr("above 0, up to 10 m"));
  EXPECT_THAT(refused("slab_thickness = 100\nwaste = 10\n"), HasSubstr("a share from 0 to 1"));
  EXPECT_THAT(refused("slab_thickness = 100\nbag_yield = 0.6\n"), HasSubstr("0.6 cu ft"));
  EXPECT_THAT(refused("slab_thickness = 100\nbag_yield = '0L'\n"), HasSubstr("from 0.1 L"));
}

}  // namespace
}  // namespace stakewright::job

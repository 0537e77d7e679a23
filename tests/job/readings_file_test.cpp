#include "stakewright/job/readings_file.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "refusal.hpp"

namespace stakewright::job {
namespace {

using readings::Kind;
using readings::Reading;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

const Job& hexagon() {
  static const Job job = job_from_text(R"toml(
units = "feet-inches"
[plan]
sides = 6
across_flats = "16ft"
[[site.pin]]
name = "P1"
at = ["-12ft", "-10ft"]
[[instrument]]
name = "blue tape"
kind = "tape"
)toml",
                                       "job.toml");
  return job;
}

std::vector<Reading> readings(const std::string& text) {
  return readings_from_text(text, "readings.csv", hexagon());
}

std::string refused(const std::string& text) {
  return refusal([&] { readings(text); });
}

/// A row under the columns a crew uses most; it stands on line 2.
std::string refused_row(const std::string& row) {
  return refused("kind,from,to,reading,instrument,round,note\n" + row + "\n");
}

TEST(ReadingsFile, GivesItsRowsInSi) {
  const auto read = readings(
      "kind,from,to,reading,instrument,round,note\n"
      "tape,A,C,13-10-1/4,steel,1,\n"
      "laser,O,B,2.818m,laser,2,from the pin\n");
  ASSERT_THAT(read, SizeIs(2));
  EXPECT_EQ(read[0].kind, Kind::tape);
  EXPECT_EQ(read[0].from, "A");
  EXPECT_EQ(read[0].to, "C");
  EXPECT_NEAR(read[0].value_m, 4.22275, 1e-12);
  EXPECT_EQ(read[0].instrument, "steel");
  EXPECT_EQ(read[0].round, "1");
  EXPECT_EQ(read[0].line, 2);
  EXPECT_EQ(read[1].kind, Kind::laser);
  EXPECT_EQ(read[1].value_m, 2.818);
  EXPECT_EQ(read[1].round, "2");
  EXPECT_EQ(read[1].note, "from the pin");
}

TEST(ReadingsFile, NeedsOnlyItsThreeColumnsInAnyOrder) {
  const auto read = readings("Reading, TO ,from\n9ft, B , A\n");
  ASSERT_THAT(read, SizeIs(1));
  EXPECT_EQ(read[0].from, "A");
  EXPECT_EQ(read[0].to, "B");
  EXPECT_EQ(read[0].kind, Kind::tape);
  EXPECT_EQ(read[0].instrument, "steel");
  EXPECT_EQ(read[0].round, "1");
}

TEST(ReadingsFile, ReadsBareNumbersInTheUnitsOfTheJob) {
  EXPECT_NEAR(readings("from,to,reading\nA,B,9.25\n")[0].value_m, 9.25 * 0.3048, 1e-12);
}

TEST(ReadingsFile, KnowsWhatALengthWasWrittenIn) {
  const auto written = [](const std::string& field) {
    return readings("from,to,reading\nA,C,\"" + field + "\"\n").at(0).written;
  };
  for (const char* field :
       {"13-10-1/4", "13' 10", "13ft", "166 1/4 IN", "166.25in", "13.85", "13-10"})
    EXPECT_EQ(written(field), base::Units::feet_inches) << field;
  for (const char* field : {"4.2m", "4220mm", "422 CM"})
    EXPECT_EQ(written(field), base::Units::millimeters) << field;
  EXPECT_EQ(readings("kind,from,to,reading\nlevel,1,A,1.5m\n").at(0).written,
            base::Units::millimeters);
}

TEST(ReadingsFile, TakesTheKindFromTheInstrumentWhenNoneIsGiven) {
  EXPECT_EQ(readings("from,to,reading,instrument\nA,B,9,laser\n")[0].kind, Kind::laser);
  EXPECT_EQ(readings("kind,from,to,reading\nlaser,A,B,9\n")[0].instrument, "laser");
  EXPECT_EQ(readings("from,to,reading,instrument\nA,B,9,blue tape\n")[0].instrument, "blue tape");
}

TEST(ReadingsFile, TakesTheCenterPinAndSitePins) {
  EXPECT_THAT(readings("from,to,reading\nO,A,9\nP1,F,9\nA,P1,9\n"), SizeIs(3));
}

TEST(ReadingsFile, TakesTheSamePairTwice) {
  EXPECT_THAT(readings("from,to,reading\nA,B,9\nA,B,9\nB,A,9\n"), SizeIs(3));
}

TEST(ReadingsFile, OfAHeaderAloneHasNoReadings) {
  EXPECT_THAT(readings("from,to,reading"), IsEmpty());
  EXPECT_THAT(readings("# nothing read yet\nfrom,to,reading\n\n"), IsEmpty());
}

TEST(ReadingsFile, LeavesOutRemarksBlankLinesAndRowsOfCommas) {
  const auto read = readings("# day one\n\nfrom,to,reading\n\n  \n#A,B,8\nA,B,9\n,,\nB,C,9\n");
  ASSERT_THAT(read, SizeIs(2));
  EXPECT_EQ(read[0].line, 7);
  EXPECT_EQ(read[1].line, 9);
}

TEST(ReadingsFile, GivesConditionsInSi) {
  const auto read = readings(
      "from,to,reading,temperature,pull,burned,slope\n"
      "A,B,9ft,95F,20lbf,1ft,-6in\n"
      "A,B,9ft,35,80,,\n"
      "A,B,9ft\n");
  ASSERT_THAT(read, SizeIs(3));
  EXPECT_NEAR(read[0].temperature_c.value(), 35.0, 1e-12);  // (95 - 32) · 5/9
  EXPECT_NEAR(read[0].pull_n.value(), 88.9644, 5e-5);       // 20 · 4.44822
  EXPECT_NEAR(read[0].burned_m.value(), 0.3048, 1e-15);
  EXPECT_NEAR(read[0].slope_m.value(), -0.1524, 1e-15);
  EXPECT_EQ(read[1].temperature_c, 35.0);
  EXPECT_EQ(read[1].pull_n, 80.0);
  EXPECT_FALSE(read[1].burned_m.has_value());
  EXPECT_FALSE(read[1].slope_m.has_value());
  EXPECT_FALSE(read[2].temperature_c.has_value());
}

// RFC 4180, section 2, rules 5 to 7: quotes around a field, and quotes within it written twice.
TEST(ReadingsFile, TakesQuotedFields) {
  const auto read = readings(
      "from,to,reading,note\n"
      "\"A\",\"B\",\"13' 10-1/4\"\"\",\"wind, and a \"\"slack\"\" tape\"\n"
      "A,B,13' 10-1/4\",an inch mark by itself stands for itself\n");
  ASSERT_THAT(read, SizeIs(2));
  EXPECT_NEAR(read[0].value_m, 4.22275, 1e-12);
  EXPECT_EQ(read[0].note, "wind, and a \"slack\" tape");
  EXPECT_NEAR(read[1].value_m, 4.22275, 1e-12);
}

TEST(ReadingsFile, FindsAQuoteLeftOpenOnItsOwnLine) {
  EXPECT_EQ(refused("from,to,reading,note\nA,B,9,fine\nA,C,9,\"leaned\nB,C,9,x\"\n"),
            "readings.csv, line 3: read a quote that is left open; accepted: quotes in pairs, an "
            "inch mark inside quotes written twice");
  EXPECT_THAT(refused("from,to,reading\nA,B,\"9"),
              HasSubstr("line 2: read a quote that is left open"));
  EXPECT_THAT(refused("\"from,to,reading\n"), HasSubstr("line 1: read a quote that is left open"));
}

TEST(ReadingsFile, NamesTheNearestColumnToOneItDoesNotKnow) {
  EXPECT_EQ(
      refused("# x\nfrom,to,redaing\n"),
      "readings.csv, line 2: unknown column \"redaing\"; the nearest known column is reading; "
      "accepted: kind, from, to, reading, instrument, round, note, at, sight, temperature, pull, "
      "burned, slope, supports");
  EXPECT_THAT(refused("from,to,reading,inst\x1bument\n"), HasSubstr("\"inst\\x1bument\""));
}

TEST(ReadingsFile, MissesTheColumnsItNeeds) {
  EXPECT_THAT(refused("from,to\n"), HasSubstr("line 1: column reading is missing"));
  EXPECT_THAT(refused("reading,to\n"), HasSubstr("line 1: column from is missing"));
  EXPECT_THAT(refused("A,B,9\n"), HasSubstr("unknown column \"A\""));
  EXPECT_THAT(refused("from,to,reading,to\n"), HasSubstr("read column to twice"));
  EXPECT_THAT(refused(""), HasSubstr("readings.csv: read no header"));
  EXPECT_THAT(refused("# only a remark\n"), HasSubstr("read no header"));
}

TEST(ReadingsFile, RefusesTextUnderNoColumn) {
  EXPECT_EQ(refused("from,to,reading\nA,B,9,10\n"),
            "readings.csv, line 2: read \"10\" under no column; accepted: fields in the named "
            "columns, one each");
  EXPECT_THAT(refused("from,to,reading,\nA,B,9,10\n"), HasSubstr("read \"10\" under no column"));
  EXPECT_THAT(readings("from,to,reading,\nA,B,9,,,\n"), SizeIs(1));
}

TEST(ReadingsFile, RefusesPointsThatAreNotThere) {
  EXPECT_EQ(refused_row("tape,A,Q,9,steel,1,"),
            "readings.csv, line 2, column to: read \"Q\"; accepted: A, B, C, D, E, F, O, P1");
  EXPECT_EQ(refused_row("tape,a,B,9,steel,1,"),
            "readings.csv, line 2, column from: read \"a\"; accepted: A, B, C, D, E, F, O, P1; did "
            "you mean \"A\"?");
  EXPECT_THAT(refused_row("tape,A,p1,9,,,"), HasSubstr("did you mean \"P1\"?"));
  EXPECT_THAT(refused_row("tape,,B,9,,,"), HasSubstr("column from: read \"\""));
  EXPECT_THAT(refused_row("tape,A"), HasSubstr("column to: read \"\""));
}

TEST(ReadingsFile, RefusesAReadingFromAPointToItself) {
  EXPECT_EQ(refused_row("tape,C,C,9,,,"),
            "readings.csv, line 2, column to: read \"C\"; accepted: a point other than the one in "
            "column from");
}

TEST(ReadingsFile, RefusesReadingsThatAreNoLength) {
  for (const char* reading : {"0", "-9", "nan", "inf", "1e300", "12' 14\"", "3/0in", "1/3in",
                              "9ftx", "'", "x", "0ft", "10-1/4", "20000m"})
    EXPECT_THAT(refused_row(fmt::format("tape,A,B,{},,,", reading)),
                testing::AllOf(HasSubstr("readings.csv, line 2, column reading: read \""),
                               HasSubstr("accepted: ")))
        << reading;
}

TEST(ReadingsFile, LeavesOutRowsThatAreNotReadYetButChecksTheRestOfThem) {
  const ReadingRows rows = reading_rows_from_text(
      "kind,from,to,reading,instrument,burned,at\ntape,A,B,9ft,,,\ntape,A,C,,steel,1ft,\n"
      "laser,O,B,  ,laser,,\nangle,A,B,,,,O\nlevel,L1,A,,,,\n",
      "readings.csv", hexagon());
  ASSERT_THAT(rows.readings, SizeIs(1));
  EXPECT_EQ(rows.readings[0].to, "B");
  ASSERT_THAT(rows.not_read, SizeIs(4));
  EXPECT_EQ(rows.not_read[0].from, "A");
  EXPECT_EQ(rows.not_read[0].to, "C");
  EXPECT_EQ(rows.not_read[0].line, 3);
  EXPECT_EQ(rows.not_read[1].kind, Kind::laser);
  EXPECT_THAT(refused_row("tape,A,Q,,,,"), HasSubstr("column to: read \"Q\""));
  EXPECT_THAT(refused_row("tape,A,B,,rope,,"), HasSubstr("column instrument: read \"rope\""));
  EXPECT_THAT(refused("from,to,reading,burned\nA,B,,x\n"), HasSubstr("column burned"));
}

TEST(ReadingsFile, CountsAndNamesTheRowsThatAreNotReadYet) {
  const auto remarks = [](const std::string& rows) {
    return told_in_english(not_read_remarks(
        reading_rows_from_text("from,to,reading\n" + rows, "readings.csv", hexagon())));
  };
  EXPECT_THAT(remarks("A,B,9ft\n"), testing::IsEmpty());
  EXPECT_THAT(remarks("A,B,\nA,C,9ft\n"), testing::ElementsAre("1 row has no reading yet: A–B."));
  EXPECT_THAT(
      remarks("A,B,\nA,C,\nA,D,\nA,E,\nA,F,\nB,C,\nB,D,\nB,E,\n"),
      testing::ElementsAre("8 rows have no reading yet: A–B, A–C, A–D, A–E, A–F, B–C and 2 more."));
}

TEST(ReadingsFile, RefusesInstrumentsThatDoNotFit) {
  EXPECT_EQ(refused_row("tape,A,B,9,red tape,1,"),
            "readings.csv, line 2, column instrument: read \"red tape\"; accepted: steel, "
            "fibreglass, laser, level, rotating laser, circle, transit, total station, steel I, "
            "steel II, "
            "steel III, fibreglass I, fibreglass II, fibreglass III, laser in sun, blue tape");
  EXPECT_THAT(refused_row("tape,A,B,9,Steel,1,"), HasSubstr("did you mean \"steel\"?"));
  EXPECT_EQ(refused_row("tape,A,B,9,laser,1,"),
            "readings.csv, line 2, column instrument: read \"laser\", a laser; accepted: a tape");
  EXPECT_THAT(refused_row("laser,A,B,9,steel,1,"), HasSubstr("accepted: a laser"));
}

TEST(ReadingsFile, TakesTheSightOfARodAndOfNothingElse) {
  const auto read = readings("kind,from,to,reading,sight\nlevel,L1,A,1.203m,20m\nlevel,L1,B,1m,\n");
  EXPECT_EQ(read[0].sight_m, 20.0);
  EXPECT_FALSE(read[1].sight_m);
  EXPECT_THAT(refused("kind,from,to,reading,sight\nlevel,L1,A,1m,0\n"),
              HasSubstr("column sight: read \"0\"; accepted: a length above 0"));
  EXPECT_THAT(
      refused("from,to,reading,sight\nA,B,1m,3m\n"),
      HasSubstr("column sight: read \"3m\"; accepted: nothing, for a reading of kind tape"));
}

TEST(ReadingsFile, RefusesNamesThatLeaveOpenWhatTheyMean) {
  EXPECT_THAT(refused_row("level,a,B,9,,,"),
              HasSubstr("column from: read \"a\"; accepted: the name"));
  EXPECT_THAT(refused_row("level,L1,p1,9,,,"),
              HasSubstr("column to: read \"p1\"; accepted: \"P1\", or a name that differs"));
  EXPECT_THAT(
      refused_row("level,L1,A,9,,,\nlevel,L1,L2,9,,,\nlevel,L2,B,9,,,"),
      HasSubstr("readings.csv, line 4, column from: read \"L2\", where a rod stands in line 3"));
}

TEST(ReadingsFile, RefusesMoreRodsThanAnyShelterNeeds) {
  std::string text = "kind,from,to,reading\n";
  for (int i = 0; i < 601; ++i) text += "level,L1,A,1m\n";
  EXPECT_THAT(refused(text),
              HasSubstr("readings.csv, line 602: read one rod reading more; accepted: "
                        "up to 600"));
}

TEST(ReadingsFile, RefusesTheColumnsOfATapeForARod) {
  for (const char* column : {"temperature", "pull", "burned", "slope", "at"})
    EXPECT_THAT(refused(fmt::format("kind,from,to,reading,{}\nlevel,L1,A,1.2m,1\n", column)),
                HasSubstr(fmt::format("column {}: read \"1\"; accepted: nothing", column)));
}

TEST(ReadingsFile, TakesRodReadingsOfASetUp) {
  const auto read =
      readings("kind,from,to,reading\nlevel,L1,A,1.203m\nlevel,L1,turning 1,4-2-1/2\n");
  ASSERT_THAT(read, SizeIs(2));
  EXPECT_EQ(read[0].kind, Kind::level);
  EXPECT_EQ(read[0].from, "L1");
  EXPECT_EQ(read[0].to, "A");
  EXPECT_EQ(read[0].value_m, 1.203);
  EXPECT_EQ(read[0].instrument, "level");
  EXPECT_EQ(read[1].to, "turning 1");
  EXPECT_NEAR(read[1].value_m, 50.5 * 0.0254, 1e-12);
}

TEST(ReadingsFile, RefusesRodReadingsThatCannotBe) {
  EXPECT_EQ(refused_row("level,A,B,9,,,"),
            "readings.csv, line 2, column from: read \"A\"; accepted: the name of a set-up, not a "
            "point of the job");
  EXPECT_THAT(refused_row("level,L1,L1,9,,,"), HasSubstr("column to: read \"L1\""));
  EXPECT_THAT(refused_row("level,L1,A,0,,,"), HasSubstr("accepted: a length above 0"));
  EXPECT_THAT(
      refused("kind,from,to,reading,slope\nlevel,L1,A,1.2m,0.1m\n"),
      HasSubstr("column slope: read \"0.1m\"; accepted: nothing, for a reading of kind level"));
}

TEST(ReadingsFile, TakesAnglesTurnedAtAPoint) {
  const auto read =
      readings("kind,from,to,reading,at\nangle,A,B,60-00-20,O\nangle,C,A,66.673gon,B\n");
  ASSERT_THAT(read, SizeIs(2));
  EXPECT_EQ(read[0].kind, Kind::angle);
  EXPECT_EQ(read[0].at, "O");
  EXPECT_EQ(read[0].instrument, "circle");
  // 60 degrees and 20/3600, in radians.
  EXPECT_NEAR(read[0].angle_rad, 1.0472945139, 1e-9);
  EXPECT_NEAR(read[1].angle_rad, 66.673 / 200.0 * 3.14159265358979, 1e-12);
}

TEST(ReadingsFile, RefusesAnglesThatCannotBe) {
  const auto angle = [](const std::string& rest) {
    return refused("kind,from,to,reading,at,temperature\nangle," + rest + "\n");
  };
  EXPECT_THAT(angle("A,B,60-00-20,,"), HasSubstr("column at: read \"\"; accepted: A, B"));
  EXPECT_THAT(angle("A,B,60-00-20,A,"),
              HasSubstr("column at: read \"A\"; accepted: where the angle is turned"));
  EXPECT_THAT(angle("A,A,60-00-20,O,"), HasSubstr("column to: read \"A\""));
  EXPECT_THAT(angle("A,B,0,O,"), HasSubstr("accepted: an angle above 0 and below 360 degrees"));
  EXPECT_THAT(angle("A,B,360,O,"), HasSubstr("column reading: read \"360\""));
  EXPECT_THAT(angle("A,B,60,O,20C"), HasSubstr("column temperature"));
}

TEST(ReadingsFile, RefusesKindsItDoesNotKnowAndPointsThatTapesAreNotTurnedAt) {
  EXPECT_THAT(refused_row("rope,A,B,9,,,"),
              HasSubstr("column kind: read \"rope\"; accepted: tape, laser, level, angle"));
  EXPECT_THAT(refused("from,to,reading,at\nA,B,9,O\n"), HasSubstr("line 2, column at: read \"O\""));
  EXPECT_THAT(readings("from,to,reading,at\nA,B,9,\n"), SizeIs(1));
}

TEST(ReadingsFile, RefusesConditionsOutOfRange) {
  struct Case {
    const char* column;
    const char* value;
  };
  for (const Case& c :
       {Case{"temperature", "hot"}, Case{"temperature", "300"}, Case{"temperature", "-100F"},
        Case{"pull", "0"}, Case{"pull", "-5"}, Case{"pull", "20lb"}, Case{"pull", "1e999"},
        Case{"burned", "9ft"}, Case{"burned", "10ft"}, Case{"burned", "-1ft"}, Case{"burned", "x"},
        Case{"slope", "9ft"}, Case{"slope", "-10ft"}, Case{"slope", "x"}})
    EXPECT_THAT(refused(fmt::format("from,to,reading,{}\nA,B,9ft,{}\n", c.column, c.value)),
                HasSubstr(fmt::format("readings.csv, line 2, column {}: read \"{}\"; accepted: ",
                                      c.column, c.value)));
  // Each by itself is possible; together they leave nothing.
  EXPECT_THAT(
      refused("from,to,reading,burned,slope\nA,B,9ft,5ft,6ft\n"),
      testing::AllOf(HasSubstr("readings.csv, line 2: reading A to B: "), HasSubstr("for slope")));
}

TEST(ReadingsFile, RefusesTextThatBreaksALine) {
  EXPECT_THAT(refused_row("tape,A,B,9,,1,a\x1b[2J"), HasSubstr("column note: read \"a\\x1b[2J\""));
  EXPECT_THAT(refused_row("tape,A,B,9,," + std::string(41, 'r') + ","), HasSubstr("column round"));
  EXPECT_THAT(refused_row("tape,A,B,9,,1," + std::string(201, 'n')),
              HasSubstr("up to 200 characters"));
  EXPECT_THAT(refused("from,to,reading\rA,B,9\r"), HasSubstr("line 1: read a carriage return"));
  EXPECT_EQ(readings("from,to,reading,note\nA,B,9,\u00fcber die B\u00f6schung\n")[0].note,
            "\u00fcber die B\u00f6schung");
}

TEST(ReadingsFile, RefusesMoreRowsThanAnyShelterHas) {
  std::string text = "from,to,reading\n";
  for (std::size_t k = 0; k < kMostReadings; ++k) text += "A,B,9\n";
  EXPECT_THAT(readings(text), SizeIs(kMostReadings));
  EXPECT_EQ(refused(text + "A,B,9\n"),
            "readings.csv, line 20002: read more than 20000 rows; accepted: at most that many");
  for (int k = 0; k < 980000; ++k) text += "A,B,9\n";
  EXPECT_THAT(refused(text), HasSubstr("more than 20000 rows"));
}

TEST(ReadingsFile, ListsNoMoreNamesThanCanBeRead) {
  std::string job_text = "units='m'\n[plan]\nsides=48\nside=1\n";
  for (int k = 0; k < 100; ++k)
    job_text += fmt::format("[[site.pin]]\nname='P{}'\nat=[{},0]\n", k, k);
  const Job job = job_from_text(job_text, "job.toml");
  const std::string message =
      refusal([&] { readings_from_text("from,to,reading\nx,A,1\n", "r.csv", job); });
  EXPECT_THAT(message, HasSubstr(", P10 ..."));
  EXPECT_LT(message.size(), 400U);
}

TEST(ReadingsFile, IsNamedInItsRefusals) {
  EXPECT_THAT(refusal([] { read_readings("/no/such/readings.csv", hexagon()); }),
              HasSubstr("/no/such/readings.csv: cannot be read"));
}

}  // namespace
}  // namespace stakewright::job

// Bad input through the built command: exit 2, nothing on stdout, nothing written, and a message
// that says where, what was read, and what is accepted.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <string>
#include <vector>

#include "jobs.hpp"
#include "run_command.hpp"

namespace stakewright::tests {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

struct Refusal {
  std::string written;               ///< what the user wrote
  std::vector<std::string> message;  ///< what stderr must hold
};

void expect_refused(const Finished& run, const std::vector<std::string>& message,
                    const std::string& written) {
  EXPECT_EQ(run.status, 2) << written;
  EXPECT_THAT(run.out, IsEmpty()) << written;
  for (const std::string& part : message) EXPECT_THAT(run.err, HasSubstr(part)) << written;
}

TEST(BadJob, OfAPlanThatIsNoPolygonIsRefusedByKeyAndLine) {
  const std::vector<Refusal> refusals = {
      {"sides = 6\nacros_flats = \"16ft\"",
       {"job.toml, line 6, plan.acros_flats", "unknown key", "across_flats"}},
      {"sides = \"six\"\nside = \"4ft\"", {"line 5, plan.sides", "\"six\"", "3 to 48"}},
      {"sides = 6\nside = \"4ft\"\ncorner_radius = \"4ft\"",
       {"plan.corner_radius", "exactly one of"}},
      {"sides = 6", {"plan", "read no size", "exactly one of side"}},
      {"sides = 5\nacross_flats = \"16ft\"", {"plan.across_flats", "even", "flat_to_corner"}},
      {"sides = 6\nflat_to_corner = \"16ft\"", {"plan.flat_to_corner"}},
      {"sides = 2\nside = \"4ft\"", {"plan.sides", "\"2\"", "3 to 48"}},
      {"sides = 49\nside = \"4ft\"", {"plan.sides", "\"49\"", "3 to 48"}},
      {"sides = 5.5\nside = \"4ft\"", {"plan.sides", "\"5.5\"", "3 to 48"}},
  };
  for (const Refusal& refusal : refusals) {
    const Site site;
    site.write("job.toml", hexagon_job_with_plan(refusal.written + "\n"));
    expect_refused(site.stakewright({"layout", "job.toml"}), refusal.message, refusal.written);
  }
}

TEST(BadJob, WithALengthThatIsNoneIsRefusedWithWhatWasRead) {
  const std::vector<Refusal> refusals = {
      {"\"0\"", {"\"0\"", "above 0"}},
      {"\"-4ft\"", {"\"-4ft\"", "above 0"}},
      {"nan", {"\"nan\"", "a length such as"}},
      {"inf", {"\"inf\"", "a length such as"}},
      {"\"1e300\"", {"1e300", "accepted"}},
      {"1e300", {"1e+300", "accepted"}},
      {R"('12'' 14"')", {"accepted"}},
      {R"("12' 14\"")", {"12' 14", "fewer than 12 inches"}},
      {"\"3/0in\"", {"3/0in", "64ths"}},
      {"\"1/3in\"", {"1/3in", "64ths"}},
      {"\"16ft or so\"", {"16ft or so", "a length such as"}},
      {"\"'\"", {"\"'\"", "a length such as"}},
  };
  for (const Refusal& refusal : refusals) {
    const Site site;
    site.write("job.toml", hexagon_job_with_plan("sides = 6\nside = " + refusal.written + "\n"));
    expect_refused(site.stakewright({"layout", "job.toml"}), refusal.message, refusal.written);
  }
}

TEST(BadJob, OfARoofThatCannotBeIsRefusedByKeyAndLine) {
  const std::vector<Refusal> refusals = {
      {"pitch = 0", {"job.toml, line 16, roof.pitch", "\"0\"", "a pitch above 0"}},
      {"pitch = -0.5", {"roof.pitch", "\"-0.5\""}},
      {"pitch = \"90deg\"", {"roof.pitch", "\"90deg\"", "89"}},
      {"pitch = \"8/12\"\noverhang = \"-9ft\"",
       {"line 17, roof.overhang", "\"-9ft\"", "0 or more"}},
      {"pitch = \"8/12\"\nhub = \"17ft\"", {"line 17, roof.hub", "\"17ft\"", "reach the plates"}},
      {"pitch = \"8/12\"\nrafter = \"16in\"",
       {"roof.rafter", "\"16in\"", "thinner than its spacing"}},
      {"pitch = \"8/12\"\nspacing = \"1in\"", {"line 15, roof", "rafter", "spacing, 1\""}},
      {"pitch = \"8/12\"\nhip = \"9ft\"", {"roof.hip", "fill the roof"}},
      {"pitch = \"8/12\"\nseat = \"2ft\"", {"roof.seat", "through"}},
  };
  std::string job = hexagon_job();
  job.resize(job.find("pitch"));
  for (const Refusal& refusal : refusals) {
    const Site site;
    site.write("job.toml", job + refusal.written + "\n");
    expect_refused(site.stakewright({"carry", "job.toml"}), refusal.message, refusal.written);
  }
}

TEST(GoodJob, MayHaveASpacingPastHalfASideAndThenNoJacks) {
  const Site site;
  site.write("job.toml", hexagon_job() + "spacing = \"6ft\"\n");
  const Finished run = site.stakewright({"carry", "job.toml"});
  EXPECT_EQ(run.status, 0) << run.err;
  EXPECT_THAT(run.out, testing::Not(HasSubstr("\n  jack ")));  // no row of the tables
}

TEST(BadFile, IsRefusedByName) {
  const Site site;
  site.write("empty.toml", "");
  site.write("large.toml", std::string(50 * 1024 * 1024, ' '));
  site.write("latin.toml", "title = \"caf\xe9\"\n");
  site.write("nul.toml", std::string("title = \"a\0b\"\n", 14));
  const std::vector<Refusal> refusals = {
      {"missing.toml", {"missing.toml", "no such file"}},
      {".", {"folder"}},
      {"empty.toml", {"empty.toml", "empty"}},
      {"large.toml", {"large.toml", "larger than"}},
      {"latin.toml", {"latin.toml", "line 1", "UTF-8"}},
      {"nul.toml", {"nul.toml", "NUL"}},
  };
  for (const Refusal& refusal : refusals)
    expect_refused(site.stakewright({"check", refusal.written, "readings.csv"}), refusal.message,
                   refusal.written);
}

TEST(BadFile, ThatMayNotBeReadIsRefusedByName) {
  if (geteuid() == 0) GTEST_SKIP() << "root may read every file";
  const Site site;
  site.write("job.toml", hexagon_job());
  ASSERT_EQ(site.shell("chmod 000 job.toml").status, 0);
  expect_refused(site.stakewright({"layout", "job.toml"}), {"job.toml", "cannot be read"}, "");
}

TEST(GoodFile, MayHaveAByteOrderMarkAndLinesOfTheOtherKind) {
  const Site site;
  std::string job = "\xef\xbb\xbf";
  for (const char c : hexagon_job()) job += c == '\n' ? std::string("\r\n") : std::string(1, c);
  site.write("job.toml", job);
  EXPECT_EQ(site.stakewright({"layout", "job.toml"}).status, 0);
}

TEST(BadReadings, AreRefusedByLineAndColumn) {
  const std::vector<Refusal> refusals = {
      {"from,to,reading\nA,Q,9ft\n", {"readings.csv, line 2, column to", "\"Q\"", "A, B, C"}},
      {"from,to,reading\nA,A,9ft\n", {"line 2, column to", "other than"}},
      {"from,to\nA,B\n", {"line 1", "column reading is missing"}},
      {"from,to,reading\nA,\"B,9ft\n", {"line 2", "quote that is left open"}},
      {"from,to,reading\nA,B,0\n", {"line 2, column reading", "\"0\"", "above 0"}},
      {"from,to,reading,instrument\nA,B,9ft,blue\n",
       {"line 2, column instrument", "\"blue\"", "steel, fibreglass, laser"}},
      {"from,to,reading,color\nA,B,9ft,red\n", {"color"}},
  };
  for (const Refusal& refusal : refusals) {
    const Site site;
    site.write("job.toml", hexagon_job());
    site.write("readings.csv", refusal.written);
    expect_refused(site.stakewright({"check", "job.toml", "readings.csv"}), refusal.message,
                   refusal.written);
  }
}

TEST(BadReadings, OfAMillionRowsAreRefusedByTheStatedLimit) {
  const Site site;
  site.write("job.toml", hexagon_job());
  std::string rows = "from,to,reading\n";
  for (int i = 0; i < 1000000; ++i) rows += "A,B,9ft\n";
  site.write("readings.csv", rows);
  expect_refused(site.stakewright({"check", "job.toml", "readings.csv"}),
                 {"readings.csv", "larger than 4 MB"}, "a million rows");
  rows.resize(16 + 8 * 20001);
  site.write("readings.csv", rows);
  expect_refused(site.stakewright({"check", "job.toml", "readings.csv"}), {"readings.csv", "20000"},
                 "20001 rows");
}

TEST(GoodReadings, MayPullTheSamePairTwice) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", hexagon_readings() + "A,B,2816mm\nA,B,2815mm\n");
  EXPECT_EQ(site.stakewright({"check", "job.toml", "readings.csv"}).status, 0);
}

TEST(BadOutput, ToAFolderThatIsNotThereOrTakesNoFilesWritesNothing) {
  const Site site;
  site.write("job.toml", hexagon_job());
  for (const char* file : {"nowhere/points.csv", "/proc/points.csv", "job.toml/points.csv"})
    expect_refused(site.stakewright({"layout", "job.toml", "-o", file}),
                   {file, "cannot be written"}, file);
  EXPECT_THAT(site.names(), testing::ElementsAre("job.toml"));
}

TEST(BadOutput, ToAReadOnlyFolderWritesNothing) {
  if (geteuid() == 0) GTEST_SKIP() << "root may write in every folder";
  const Site site;
  site.write("job.toml", hexagon_job());
  ASSERT_EQ(site.shell("mkdir closed && chmod 555 closed").status, 0);
  expect_refused(site.stakewright({"layout", "job.toml", "-o", "closed/points.csv"}),
                 {"closed/points.csv", "cannot be written"}, "");
}

TEST(BadOutput, ToAFullDiskLeavesTheOldFileWhole) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("points.csv", "old");
  // A limit on the size of files stands for the full disk: the write stops short the same way.
  const Finished run =
      site.shell("ulimit -f 0; trap '' XFSZ; \"$STAKEWRIGHT\" layout job.toml -o points.csv");
  EXPECT_EQ(run.status, 2);
  EXPECT_EQ(site.read("points.csv"), "old");
  EXPECT_THAT(site.names(), testing::ElementsAre("job.toml", "points.csv"));
}

TEST(BadOutput, ToAFullTerminalDeviceIsAnError) {
  const Site site;
  site.write("job.toml", hexagon_job());
  const Finished run = site.stakewright({"layout", "job.toml"}, {.stdout_to = "/dev/full"});
  EXPECT_EQ(run.status, 2);
  EXPECT_THAT(run.err, HasSubstr("No space left"));
}

TEST(ClosedPipe, EndsTheCommandWithoutACrashOrAMessage) {
  const Site site;
  site.write("job.toml", hexagon_job());
  const Finished run = site.stakewright({"layout", "job.toml"}, {.nobody_reads = true});
  EXPECT_LT(run.status, 128);
  EXPECT_THAT(run.err, testing::Not(HasSubstr("cannot write")));
}

TEST(BadUsage, IsRefusedWithWhatThereIs) {
  const Site site;
  site.write("job.toml", hexagon_job());
  expect_refused(site.stakewright({"lay"}), {"\"lay\"", "start, layout"}, "lay");
  expect_refused(site.stakewright({"layout", "job.toml", "-o", "a.doc"}), {"a.doc", ".csv"},
                 "a.doc");
  expect_refused(site.stakewright({"start", "job.toml"}), {"job.toml", "not overwritten"}, "start");
  EXPECT_EQ(site.read("job.toml"), hexagon_job());
}

TEST(BadUsage, WithAnOptionThatIsEmptyOrLeftAsideIsRefused) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", hexagon_readings());
  const std::vector<std::vector<std::string>> cases = {
      // The words of a command, then what stderr must name.
      {"layout", "job.toml", "-o", "", "--output"},
      {"layout", "job.toml", "--language", "", "--language"},
      {"layout", "job.toml", "--language=", "--language"},
      {"layout", "job.toml", "--with", "", "--with"},
      {"layout", "", "JOB"},
      {"check", "job.toml", "", "READINGS"},
      {"check", "job.toml", "readings.csv", "--round", "", "--round"},
      {"check", "job.toml", "--round=", "readings.csv", "--round"},
      {"layout", "job.toml", "--temperature", "35F", "--with"},
      {"tapes", "job.toml", "readings.csv", "--slip", "1in", "--slip"},
      {"tapes", "job.toml", "readings.csv", "--shift", "1in", "--shift"},
      {"tapes", "job.toml", "readings.csv", "--at-most", "4", "--at-most"},
      {"tapes", "job.toml", "--round", "1", "--round"},
      {"form", "job.toml", "readings.csv", "-o", "form.pdf", "--tapes", "all", "--tapes"},
      {"form", "job.toml", "readings.csv", "-o", "form.pdf", "--show-planned", "--show-planned"},
      {"carry", "job.toml", "--all", "--cut-sheet", "--all"},
      {"carry", "job.toml", "--all", "--sensitivity", "--all"},
  };
  for (std::vector<std::string> words : cases) {
    const std::string named = words.back();
    words.pop_back();
    expect_refused(site.stakewright(words), {"stakewright: ", named}, words.front() + ' ' + named);
  }
  EXPECT_THAT(site.names(), testing::ElementsAre("job.toml", "readings.csv"));
}

}  // namespace
}  // namespace stakewright::tests

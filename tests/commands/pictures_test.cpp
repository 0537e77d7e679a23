// Drawings through the built command.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>

#include "jobs.hpp"
#include "run_command.hpp"

namespace stakewright::tests {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::StartsWith;

/// Width and height of a PNG: big-endian in its first chunk (ISO/IEC 15948, 11.2.2).
std::pair<unsigned, unsigned> png_size(const std::string& bytes) {
  const auto number = [&bytes](std::size_t at) {
    unsigned value = 0;
    for (std::size_t k = at; k < at + 4; ++k)
      value = value * 256U + static_cast<unsigned char>(bytes.at(k));
    return value;
  };
  return {number(16), number(20)};
}

constexpr const char* kPngSignature = "\x89PNG\r\n";

TEST(Drawing, OfThePlanIsWrittenByTheEndingOfItsName) {
  const Site site;
  site.write("job.toml", hexagon_job());
  const Finished pdf = site.stakewright({"layout", "job.toml", "-o", "plan.pdf"});
  EXPECT_EQ(pdf.status, 0) << pdf.err;
  EXPECT_THAT(pdf.out, HasSubstr("Test hexagon"));
  EXPECT_THAT(pdf.err, HasSubstr("Wrote plan.pdf."));
  EXPECT_THAT(site.read("plan.pdf"), StartsWith("%PDF"));
  EXPECT_EQ(site.stakewright({"layout", "job.toml", "-o", "plan.svg"}).status, 0);
  EXPECT_THAT(site.read("plan.svg"), HasSubstr("<title>Test hexagon - Plan</title>"));
  EXPECT_EQ(site.stakewright({"layout", "job.toml", "-o", "plan.png", "--width", "500"}).status, 0);
  EXPECT_THAT(site.read("plan.png"), StartsWith(kPngSignature));
  // US Letter on its side: 11 by 8-1/2 in.
  EXPECT_EQ(png_size(site.read("plan.png")), std::make_pair(500U, 386U));
}

TEST(Drawing, IsXmlThatAnotherReaderTakes) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", hexagon_readings('D', 0.02));
  ASSERT_EQ(site.stakewright({"layout", "job.toml", "-o", "plan.svg"}).status, 0);
  ASSERT_EQ(site.stakewright({"check", "job.toml", "readings.csv", "-o", "found.svg"}).status, 1);
  const Finished read = site.shell(
      "python3 -c \"import sys, xml.etree.ElementTree as e\n"
      "for f in ('plan.svg', 'found.svg'):\n"
      "    names = [c.tag.split('}')[1] for c in e.parse(f).getroot()]\n"
      "    assert names[:2] == ['title', 'desc'], names\n"
      "\"");
  EXPECT_EQ(read.status, 0) << read.err;
}

TEST(Drawing, OfWhatWasFoundKeepsTheStatusOfTheCheck) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("in.csv", hexagon_readings());
  site.write("out.csv", hexagon_readings('D', 0.02));
  site.write("few.csv", "from,to,reading\nA,B,9-2-7/8\n");
  EXPECT_EQ(site.stakewright({"check", "job.toml", "in.csv", "-o", "in.pdf"}).status, 0);
  EXPECT_EQ(site.stakewright({"check", "job.toml", "out.csv", "-o", "out.pdf"}).status, 1);
  EXPECT_EQ(site.stakewright({"check", "job.toml", "few.csv", "-o", "few.pdf"}).status, 3);
  for (const char* name : {"in.pdf", "out.pdf", "few.pdf"})
    EXPECT_THAT(site.read(name), StartsWith("%PDF"));
}

TEST(Drawing, IsTheSameEveryTime) {
  const Site site;
  site.write("job.toml", hexagon_job());
  for (const char* ending : {".pdf", ".svg", ".png"}) {
    for (const char* name : {"one", "two"})
      ASSERT_EQ(site.stakewright({"layout", "job.toml", "-o", std::string(name) + ending}).status,
                0);
    EXPECT_TRUE(site.read(std::string("one") + ending) == site.read(std::string("two") + ending));
  }
}

TEST(Drawing, OfARoofHasAllItsPartsAndOneByName) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", hexagon_readings('D', 0.02));
  EXPECT_EQ(site.stakewright({"carry", "job.toml", "-o", "roof.pdf"}).status, 0);
  const Finished info = site.shell("pdfinfo roof.pdf");
  EXPECT_THAT(info.out, HasSubstr("Pages:           5"));
  EXPECT_EQ(site.stakewright({"carry", "job.toml", "-o", "jack.svg", "--drawing", "jack"}).status,
            0);
  EXPECT_THAT(site.read("jack.svg"), HasSubstr("<title>Test hexagon - Jack</title>"));
  EXPECT_EQ(
      site.stakewright({"carry", "job.toml", "readings.csv", "-o", "hip.svg", "--drawing", "hip D"})
          .status,
      1);
  EXPECT_THAT(site.read("hip.svg"), HasSubstr("<title>Test hexagon - Hip D</title>"));
  const Finished spanish = site.stakewright(
      {"carry", "job.toml", "-o", "lima.svg", "--drawing", "hip", "--language", "es"});
  EXPECT_EQ(spanish.status, 0) << spanish.err;
  EXPECT_THAT(site.read("lima.svg"), HasSubstr("<title>Test hexagon - Limatesa</title>"));
}

/// Overall length of hip D in the JSON of a carry, in whole millimeters.
long hip_overall_mm(const std::string& written) {
  const auto carry = nlohmann::json::parse(written);
  for (const auto& part : carry["parts"])
    if (part["part"] == "hip" && part["at"] == "D")
      return std::lround(1000.0 * part["overall"].get<double>());
  throw std::logic_error("no hip D");
}

TEST(Drawing, OfARoofHasTheFiguresOfTheWayAskedFor) {
  const Site site;
  site.write("job.toml", hexagon_job() + "base_play = \"1/2in\"\n");
  site.write("readings.csv", hexagon_readings('D', 0.02));
  std::vector<long> overalls;
  for (const char* way : {"--leave", "--after-moves", "--with-play"}) {
    const Finished run = site.stakewright({"carry", "job.toml", "readings.csv", way, "--units",
                                           "mm", "--drawing", "hip D", "-o", "hip.svg", "--json"});
    ASSERT_NE(run.status, 2) << run.err;
    overalls.push_back(hip_overall_mm(run.out));
    EXPECT_THAT(site.read("hip.svg"), HasSubstr(fmt::format("overall {} mm", overalls.back())))
        << way;
  }
  // Each way leaves the corner elsewhere.
  EXPECT_NE(overalls[0], overalls[1]);
  EXPECT_NE(overalls[0], overalls[2]);
}

TEST(Drawing, OfReadingsThatContradictEachOtherIsThatOfThePlan) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", hexagon_readings() +
                                 "A,D,7000mm\nA,D,4000mm\nB,E,7000mm\nB,E,4000mm\n"
                                 "C,F,7000mm\nC,F,4000mm\nA,C,2000mm\nB,D,2000mm\n");
  const Finished found = site.stakewright({"carry", "job.toml", "readings.csv", "-o", "found.svg"});
  ASSERT_EQ(found.status, 3) << found.out;
  EXPECT_THAT(found.err, HasSubstr("the roof is drawn as planned"));
  ASSERT_EQ(site.stakewright({"carry", "job.toml", "-o", "plan.svg"}).status, 0);
  EXPECT_TRUE(site.read("found.svg") == site.read("plan.svg"));
}

TEST(Drawing, IsLeftToTheProgramBesideTheCommandAndNoOtherOnPath) {
  const Site site;
  site.write("job.toml", hexagon_job());
  const Finished run = site.shell(
      "mkdir bin && cp \"$STAKEWRIGHT\" bin && PATH=$(dirname \"$STAKEWRIGHT\"):$PATH && "
      "bin/stakewright layout job.toml > /dev/null && bin/stakewright layout job.toml -o plan.svg");
  EXPECT_EQ(run.status, 2);
  EXPECT_THAT(run.out, IsEmpty());
  EXPECT_THAT(run.err, HasSubstr("looked for in " + site.path("bin").string() + " and " +
                                 site.path("libexec/stakewright").string()));
  EXPECT_FALSE(site.has("plan.svg"));
}

TEST(CommandThatDrawsNothing, LoadsNoDrawingLibrary) {
  const Site site;
  const Finished command = site.shell("ldd \"$STAKEWRIGHT\"");
  const Finished draw = site.shell("ldd \"$(dirname \"$STAKEWRIGHT\")/stakewright-draw\"");
  for (const char* library : {"libcairo", "libpango", "libqpdf"}) {
    EXPECT_THAT(command.out, testing::Not(HasSubstr(library)));
    EXPECT_THAT(draw.out, HasSubstr(library));
  }
}

struct Refused {
  std::vector<std::string> arguments;
  std::string says;
};

TEST(Drawing, IsRefusedAndNothingWrittenWhenWhatIsAskedIsNotThere) {
  const Refused cases[] = {
      {{"layout", "job.toml", "-o", "plan.svg", "--drawing", "roof"}, "accepted here: plan"},
      {{"layout", "job.toml", "-o", "plan.png", "--width", "63"}, "--width"},
      {{"layout", "job.toml", "-o", "plan.png", "--width", "10001"}, "--width"},
      {{"layout", "job.toml", "-o", "plan.png", "--width", "wide"}, "--width"},
      {{"layout", "job.toml", "-o", "plan.svg", "--width", "500"}, "--width is for a drawing"},
      {{"layout", "job.toml", "--width", "500"}, "--width is for a drawing"},
      {{"layout", "job.toml", "-o", "points.csv", "--drawing", "plan"}, "--drawing is for"},
      {{"layout", "job.toml", "--paper", "a4"}, "--paper is for"},
      {{"layout", "job.toml", "-o", "plan.pdf", "--paper", "a3"}, "--paper"},
      {{"layout", "job.toml", "-o", "plan.gif"}, "accepted are .json, .csv"},
      {{"layout", "job.toml", "-o", "none/plan.svg"}, "none/plan.svg"},
      {{"layout", "job.toml", "-o", "plan.svg", "--language", "xx"}, "xx"},
      {{"carry", "job.toml", "-o", "roof.svg", "--drawing", "hip Z"},
       "accepted here: roof, common, hip, jack, fascia"},
  };
  for (const Refused& refused : cases) {
    const Site site;
    site.write("job.toml", hexagon_job());
    const Finished run = site.stakewright(refused.arguments);
    EXPECT_EQ(run.status, 2) << refused.says;
    EXPECT_THAT(run.err, HasSubstr(refused.says));
    EXPECT_THAT(run.out, IsEmpty());
    EXPECT_THAT(site.names(), testing::ElementsAre("job.toml")) << refused.says;
  }
}

}  // namespace
}  // namespace stakewright::tests

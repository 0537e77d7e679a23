// Drawings through the built command.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdint>
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
  EXPECT_THAT(site.read("lima.svg"), HasSubstr("<title>Test hexagon - Lima</title>"));
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

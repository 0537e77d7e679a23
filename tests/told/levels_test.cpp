#include "stakewright/told/levels.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "levels/crew.hpp"
#include "telling.hpp"

namespace stakewright::told {
namespace {

using levels::Crew;
using levels::kFoot_m;
using levels::kInch_m;
using testing::AllOf;
using testing::Contains;
using testing::HasSubstr;
using testing::StartsWith;

/// A check of levels alone.
check::Findings found(Crew& crew) {
  check::Findings findings;
  findings.levels = crew.judged();
  const layout::Plan& plan = crew.question().plan;
  for (const layout::Stake& stake : layout::stakes(plan))
    findings.network.points.push_back({stake.label, adjustment::Role::corner, stake.at, false});
  findings.network.corner_count = findings.network.points.size();
  findings.network.points.push_back({"O", adjustment::Role::center, plan.center, false});
  return findings;
}

std::string opening(Crew& crew, const wording::Voice& voice = english()) {
  return text_of(levels_opening(found(crew), crew.question().tolerance), voice);
}

std::vector<std::string> sections(Crew& crew, const wording::Voice& voice = english()) {
  job::Job job;
  job.tolerance = crew.question().tolerance;
  return lines_of(levels_sections(job, found(crew)), voice);
}

TEST(LevelsTold, AreNothingWithoutRods) {
  EXPECT_TRUE(levels_opening({}, {}).empty());
  EXPECT_TRUE(levels_sections({}, {}).empty());
}

TEST(LevelsTold, SayThatAllAreLevel) {
  Crew crew(6, 21);
  crew.read_all("L1").read_all("L2");
  EXPECT_EQ(opening(crew), "All 6 footings are level within 1/8\".");
  EXPECT_EQ(opening(crew, spanish()), "Los 6 cimientos están a nivel, a 3 mm o menos.");
}

TEST(LevelsTold, NameTheFootingThatIsOffAndSayWhereThePackingStands) {
  Crew crew(6, 22);
  crew.height_m("D") = -0.5 * kInch_m;
  crew.read_all("L1", 0.0).read_all("L2", 0.0);
  EXPECT_EQ(opening(crew),
            "D stands 1/2\" low. The others are level. What to pack under each post, up to the "
            "highest footing, stands in the table of levels.");
  EXPECT_THAT(opening(crew, spanish()), StartsWith("D está 13 mm bajo. Los demás están a nivel."));
}

TEST(LevelsTold, LeaveManyFootingsToTheTable) {
  Crew crew(12, 22);
  for (const char* footing : {"A", "D", "G", "K"}) crew.height_m(footing) = kInch_m;
  crew.read_all("L1", 0.0).read_all("L2", 0.0);
  EXPECT_THAT(opening(crew),
              AllOf(StartsWith("A stands 1\" high, D stands 1\" high and G stands 1\" high."),
                    HasSubstr("1 more footing is off level: see the levels below.")));
}

TEST(LevelsTold, SayWhichWayAFormTilts) {
  Crew crew(6, 24);
  crew.lean(0.003, 0.0).read_all("L1", 0.0).read_all("L2", 0.0);
  EXPECT_THAT(opening(crew), StartsWith("The form tilts: "));
  EXPECT_THAT(opening(crew), HasSubstr("No single footing is out of that plane."));
  EXPECT_THAT(opening(crew, spanish()), StartsWith("La forma está ladeada: baja 21 mm hacia "));
}

TEST(LevelsTold, SayThatAllStandUnderTheHeightWanted) {
  Crew crew(4, 25);
  crew.question().wanted = {"BM", 100.0, 100.1};
  crew.height_m("BM") = -0.1 + kInch_m;
  crew.read_all("L1", 0.0).read("L1", "BM", 0.0).read_all("L2", 0.0).read("L2", "BM", 0.0);
  EXPECT_EQ(opening(crew),
            "The footings are level with one another, but all stand about 1\" below the height "
            "wanted over BM. What to pack or cut under each post stands in the table of levels.");
}

TEST(LevelsTold, SayWhichRodWasLeftOutAndWhatItsSlipLooksLike) {
  Crew crew(6, 26);
  crew.read_all("L1").read_all("L2").read_all("L3").misread("L2", "C", kFoot_m);
  EXPECT_THAT(opening(crew),
              AllOf(HasSubstr("The rod reading C from L2 is "),
                    HasSubstr(" too long and was left out; it looks like a whole foot.")));
  EXPECT_THAT(opening(crew, spanish()),
              HasSubstr("de más y se dejó fuera; causa probable: un pie entero."));
}

TEST(LevelsTold, SayWhichRodsMayBeMisread) {
  Crew crew(6, 27);
  crew.read_all("L1").read_all("L2").misread("L2", "C", kInch_m);
  EXPECT_THAT(
      opening(crew),
      AllOf(HasSubstr("A rod is misread, and it cannot be told which: C from L"),
            HasSubstr(", or C from L"), HasSubstr("C cannot be called level or off level yet."),
            HasSubstr("Read them again.")));
}

TEST(LevelsTold, ListEveryFootingAndEveryRod) {
  Crew crew(4, 23);
  crew.height_m("B") = kInch_m;
  crew.read_all("L1", 0.0).read_all("L2", 0.0);
  const auto lines = sections(crew);
  EXPECT_EQ(lines[0], "Levels: tolerance 1/8\", against the mean of A, C and D");
  EXPECT_EQ(
      lines[1],
      "footing |  | off | give or take | chance in | verdict | under the post, to the highest");
  EXPECT_THAT(lines[2], StartsWith("A |  | 0\" | "));
  EXPECT_THAT(lines[2], testing::EndsWith(" | over 99 % | in | pack 1\""));
  EXPECT_THAT(lines[3], AllOf(StartsWith("B |  | 1\" high | "), testing::EndsWith("OUT | none")));
  EXPECT_THAT(lines, Contains("Rod readings"));
  EXPECT_THAT(lines, Contains(StartsWith("L2 | D | level | ")));
  EXPECT_THAT(lines.back(), AllOf(StartsWith("8 of 8 rod readings used, redundancy 3; chi-square "),
                                  HasSubstr(": the readings agree.")));
}

TEST(LevelsTold, SayThatAFootingHasNoRod) {
  Crew crew(4, 23);
  crew.read("L1", "A").read("L1", "B").read("L1", "C");
  EXPECT_THAT(sections(crew), Contains("D |  | no rod |  |  | cannot tell | "));
  EXPECT_THAT(sections(crew, spanish()), Contains("D |  | sin mira |  |  | no se sabe | "));
}

TEST(LevelsTold, SpeakSpanish) {
  Crew crew(4, 23);
  crew.height_m("B") = 0.020;
  crew.read_all("L1", 0.0).read_all("L2", 0.0);
  const auto lines = sections(crew, spanish());
  EXPECT_EQ(lines[0], "Niveles: tolerancia 3 mm, contra el promedio de A, C y D");
  EXPECT_THAT(lines[2], testing::EndsWith("más de 99 % | bien | calzar 20 mm"));
  EXPECT_THAT(lines, Contains("Lecturas de mira"));
}

}  // namespace
}  // namespace stakewright::told

// The field form as a user asks for it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "jobs.hpp"
#include "run_command.hpp"

namespace stakewright::tests {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

/// The words of a PDF as poppler reads them.
std::string words_of(const Site& site, const std::string& pdf) {
  return site.shell("pdftotext -layout " + pdf + " -").out;
}

TEST(FormLanguage, IsTheOneAskedFor) {
  const Site site;
  site.write("job.toml", hexagon_job());
  const Finished run = site.stakewright({"form", "job.toml", "-o", "form.pdf", "--language", "es"});
  ASSERT_EQ(run.status, 0) << run.err;
  EXPECT_THAT(words_of(site, "form.pdf"), HasSubstr("Orden del trabajo"));
  EXPECT_THAT(words_of(site, "form.pdf"), Not(HasSubstr("Order of work")));
}

TEST(FormLanguage, IsCompletedWithARemarkWhereAFileLeavesWordsOut) {
  const Site site;
  site.write("job.toml", hexagon_job());
  ASSERT_EQ(site.shell("mkdir mine").status, 0);
  site.write("mine/en.toml", "[plan]\norder_heading = \"What to do\"\n");
  const Finished run = site.stakewright({"form", "job.toml", "-o", "form.pdf", "--forms", "mine"});
  ASSERT_EQ(run.status, 0) << run.err;
  EXPECT_THAT(run.err, HasSubstr("mine/en.toml leaves out adjustment.agree, "));
  EXPECT_THAT(words_of(site, "form.pdf"), HasSubstr("What to do"));
  EXPECT_THAT(words_of(site, "form.pdf"), HasSubstr("Cautions"));
}

TEST(FormLanguage, IsRefusedWhenThereIsNoSuchFileOrTheFileIsWrong) {
  const Site site;
  site.write("job.toml", hexagon_job());
  ASSERT_EQ(site.shell("mkdir mine").status, 0);
  site.write("mine/aa.toml", "[plan]\ntab = 3\n");
  site.write("mine/bb.toml", "[plan]\ntabs = \"Plan\"\n");
  struct Case {
    std::vector<std::string> options;
    std::string message;
  };
  for (const Case& wrong : std::vector<Case>{
           {{"--language", "xx"}, "--language: read \"xx\"; the languages built in are: en, es"},
           {{"--language", "../es"}, "--language: read \"../es\""},
           {{"--forms", "none"}, "--forms: there is no none/en.toml"},
           {{"--forms", "mine", "--language", "cc"}, "this one has: aa, bb"},
           {{"--forms", "mine", "--language", "aa"}, "aa.toml, line 2: plan.tab: read \"3\""},
           {{"--forms", "mine", "--language", "bb"}, "the nearest is plan.tab"},
           {{"--tapes", "some"}, "--tapes: read \"some\"; accepted are plan, all"}}) {
    std::vector<std::string> words{"form", "job.toml", "-o", "form.pdf"};
    words.insert(words.end(), wrong.options.begin(), wrong.options.end());
    const Finished run = site.stakewright(words);
    EXPECT_EQ(run.status, 2) << wrong.message;
    EXPECT_THAT(run.out, IsEmpty());
    EXPECT_THAT(run.err, HasSubstr(wrong.message));
    EXPECT_FALSE(site.has("form.pdf"));
  }
}

TEST(CorrectionSheet, IsPrintedFromReadingsAndSaysWhichStakeMoves) {
  const Site site;
  site.write("job.toml", hexagon_job());
  site.write("readings.csv", hexagon_readings('D', 0.0254));
  const Finished run = site.stakewright({"form", "job.toml", "readings.csv", "-o", "move.pdf"});
  ASSERT_EQ(run.status, 0) << run.err;
  EXPECT_THAT(words_of(site, "move.pdf"), HasSubstr("Out: D"));
  EXPECT_THAT(words_of(site, "move.pdf"), HasSubstr("1\" inward"));
  site.write("bad.csv", "from,to\nA,B\n");
  const Finished bad = site.stakewright({"form", "job.toml", "bad.csv", "-o", "bad.pdf"});
  EXPECT_EQ(bad.status, 2);
  EXPECT_THAT(bad.err, HasSubstr("bad.csv"));
  EXPECT_FALSE(site.has("bad.pdf"));
}

TEST(FormTapes, AreThePlanOrAllOfThem) {
  const Site site;
  site.write("job.toml", hexagon_job());
  const auto rows = [&](const std::vector<std::string>& options) {
    std::vector<std::string> words{"form", "job.toml", "-o", "form.pdf"};
    words.insert(words.end(), options.begin(), options.end());
    EXPECT_EQ(site.stakewright(words).status, 0);
    return std::stoi(site.shell("pdfinfo form.pdf | sed -n 's/^Pages: *//p'").out);
  };
  EXPECT_GE(rows({}), 3);
  EXPECT_EQ(rows({}), rows({"--tapes", "plan"}));
  EXPECT_LE(rows({"--tapes", "plan"}), rows({"--tapes", "all"}));
}

}  // namespace
}  // namespace stakewright::tests

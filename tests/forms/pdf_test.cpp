// The form as a file, looked at with other people's programs (poppler-utils, qpdf).
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <unistd.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <regex>
#include <sstream>

#include "sample_jobs.hpp"
#include "stakewright/drawing/files.hpp"

namespace stakewright::forms {
namespace {

using testing::HasSubstr;

struct Outcome {
  int status = -1;
  std::string out;
};

Outcome run(const std::string& command) {
  Outcome outcome;
  std::FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  if (pipe == nullptr) return outcome;
  std::array<char, 4096> part{};
  for (std::size_t n = 0; (n = std::fread(part.data(), 1, part.size(), pipe)) > 0;)
    outcome.out.append(part.data(), n);
  outcome.status = pclose(pipe);
  return outcome;
}

/// A form on disk, gone again with the test.
class FormFile : public testing::Test {
 protected:
  std::string write(const Sample& sample) {
    const auto* test = testing::UnitTest::GetInstance()->current_test_info();
    path_ = std::filesystem::temp_directory_path() /
            fmt::format("stakewright-{}-{}.pdf", test->name(), ::getpid());
    std::ofstream(path_, std::ios::binary) << drawing::pdf(sample.pages(), sample.job.title);
    return path_.string();
  }
  void TearDown() override { std::filesystem::remove(path_); }

 private:
  std::filesystem::path path_;
};

using Pdf = FormFile;

TEST_F(Pdf, IsSoundByAnotherProgramsChecker) {
  for (const Sample& sample : {plain(3), crowded(8, base::Units::millimetres, 0.3), plain(48)}) {
    const Outcome check = run("qpdf --check " + write(sample));
    EXPECT_EQ(check.status, 0) << check.out;
    EXPECT_THAT(check.out, HasSubstr("No syntax or stream encoding errors found"));
  }
}

TEST_F(Pdf, GivesBackEveryLabelAndLengthAsText) {
  for (Sample sample :
       {crowded(6, base::Units::feet_inches, 0.2), crowded(8, base::Units::millimetres, 0.3),
        plain(24, base::Units::metres)}) {
    sample.choices.show_planned = true;
    const Outcome text = run("pdftotext -layout " + write(sample) + " -");
    ASSERT_EQ(text.status, 0) << text.out;
    const auto finds = [&](const std::string& word) {
      const std::size_t at = text.out.find(word);
      return at != std::string::npos;
    };
    for (const layout::Stake& stake : sample.layout.stakes)
      EXPECT_TRUE(std::regex_search(text.out, std::regex("\\b" + stake.label + "\\b")))
          << stake.label;
    for (const layout::Tape& tape : sample.tapes()) {
      const auto length = base::text_from_length(tape.length_m, sample.choices.units);
      EXPECT_TRUE(finds(length)) << length;
    }
    for (const layout::Swing& swing : sample.layout.order.swings)
      for (const layout::Hold& hold : swing.from) {
        const auto length = base::text_from_length(hold.length_m, sample.choices.units);
        EXPECT_TRUE(finds(length)) << length;
      }
    EXPECT_TRUE(finds("Orchard shelter"));
  }
}

TEST_F(Pdf, CarriesItsFonts) {
  const Outcome fonts = run("pdffonts " + write(crowded(6, base::Units::feet_inches, 0.2)));
  ASSERT_EQ(fonts.status, 0) << fonts.out;
  std::istringstream lines(fonts.out);
  std::string line;
  std::getline(lines, line);  // headings
  std::getline(lines, line);  // rule
  int count = 0;
  while (std::getline(lines, line)) {
    ++count;
    // name, type, encoding, then "emb sub uni": all three yes
    EXPECT_THAT(line, HasSubstr("DejaVuSans"));
    EXPECT_TRUE(std::regex_search(line, std::regex("yes +yes +yes"))) << line;
  }
  EXPECT_GE(count, 2);  // normal and bold
}

TEST_F(Pdf, HasTheSizeOfItsPaper) {
  // ISO 216: A4 is 210 by 297 mm; US Letter is 8.5 by 11 in.
  EXPECT_THAT(run("pdfinfo " + write(plain(6, base::Units::millimetres))).out,
              testing::AllOf(HasSubstr("(A4)"), HasSubstr("Title:           Orchard shelter")));
  EXPECT_THAT(run("pdfinfo " + write(plain(6))).out, HasSubstr("612 x 792 pts (letter)"));
}

TEST(PdfBytes, AreTheSameEveryTime) {
  const Sample sample = crowded(9, base::Units::feet_inches, 1.0);
  EXPECT_TRUE(drawing::pdf(sample.pages(), sample.job.title) ==
              drawing::pdf(sample.pages(), sample.job.title));
}

TEST_F(Pdf, PrintsInBlackAndWhiteOnly) {
  const Outcome ink = run("pdftoppm -r 20 -gray -f 1 -l 1 " + write(plain(6)) + " | head -c 2");
  EXPECT_EQ(ink.out, "P5");
  // The drawing operators of the page, uncompressed: only 0 and 1 are set as colours.
  const Outcome text = run("qpdf --qdf --object-streams=disable " + write(plain(6)) + " -");
  const std::regex colour(R"(([\d.]+) ([\d.]+) ([\d.]+) (?:rg|RG)\b|([\d.]+) (?:g|G)\b)");
  int found = 0;
  for (std::sregex_iterator it(text.out.begin(), text.out.end(), colour), end; it != end; ++it) {
    ++found;
    for (std::size_t i = 1; i <= 4; ++i) {
      const std::string value = (*it)[i];
      EXPECT_TRUE(value.empty() || value == "0" || value == "1") << it->str();
    }
  }
  EXPECT_GT(found, 0);
}

}  // namespace
}  // namespace stakewright::forms

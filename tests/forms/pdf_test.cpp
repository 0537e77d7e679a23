// The form as a file, looked at with other people's programs (poppler-utils, qpdf).
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "sample_jobs.hpp"
#include "stakewright/forms/form_file.hpp"

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

/// The form as it goes out.
std::string file_of(const Sample& sample) {
  return form_file(sample.pages(), sample.job, "en", voice_in(sample.units));
}

/// A form on disk, gone again with the test.
class FormFile : public testing::Test {
 protected:
  std::string write(const Sample& sample) {
    const auto* test = testing::UnitTest::GetInstance()->current_test_info();
    path_ = std::filesystem::temp_directory_path() /
            fmt::format("stakewright-{}-{}.pdf", test->name(), ::getpid());
    std::ofstream(path_, std::ios::binary) << file_of(sample);
    return path_.string();
  }
  void TearDown() override { std::filesystem::remove(path_); }

 private:
  std::filesystem::path path_;
};

using Pdf = FormFile;

TEST_F(Pdf, IsSoundByAnotherProgramsChecker) {
  for (const Sample& sample : {plain(3), crowded(8, base::Units::millimeters, 0.3), plain(48)}) {
    const Outcome check = run("qpdf --check " + write(sample));
    EXPECT_EQ(check.status, 0) << check.out;
    EXPECT_THAT(check.out, HasSubstr("No syntax or stream encoding errors found"));
  }
}

/// The words of a text, in order, as a reader would split them.
std::vector<std::string> split(const std::string& text) {
  std::istringstream stream(text);
  std::vector<std::string> words;
  for (std::string word; stream >> word;) words.push_back(word);
  return words;
}

TEST_F(Pdf, GivesBackEveryLabelAndLengthAsText) {
  for (Sample sample :
       {crowded(6, base::Units::feet_inches, 0.2), crowded(8, base::Units::millimeters, 0.3),
        plain(24, base::Units::meters)}) {
    sample.choices.show_planned = true;
    const Outcome text = run("pdftotext -layout " + write(sample) + " -");
    ASSERT_EQ(text.status, 0) << text.out;
    const auto words = split(text.out);
    for (const layout::Stake& stake : sample.layout.stakes)
      EXPECT_THAT(words, testing::Contains(stake.label));
    for (const layout::Tape& tape : sample.tapes())
      EXPECT_THAT(text.out, HasSubstr(base::text_from_length(tape.length_m, sample.units)));
    for (const layout::Swing& swing : sample.layout.order.swings)
      for (const layout::Hold& hold : swing.from)
        EXPECT_THAT(text.out, HasSubstr(base::text_from_length(hold.length_m, sample.units)));
    EXPECT_THAT(text.out, HasSubstr("Orchard shelter"));
  }
}

TEST_F(Pdf, CarriesItsFonts) {
  const Outcome fonts = run("pdffonts " + write(crowded(6, base::Units::feet_inches, 0.2)));
  ASSERT_EQ(fonts.status, 0) << fonts.out;
  std::istringstream lines(fonts.out);
  std::string line;
  std::getline(lines, line);  // headings: name, type, encoding, emb, sub, uni, object ID
  std::getline(lines, line);  // rule
  int count = 0;
  while (std::getline(lines, line)) {
    // Of the 14 that every viewer has (ISO 32000-1, 9.6.2.2): for what is typed into the fields.
    if (line.starts_with("Helvetica ") || line.starts_with("ZapfDingbats ")) continue;
    ++count;
    const auto words = split(line);
    EXPECT_THAT(line, HasSubstr("DejaVuSans"));
    // embedded, a subset, with a map to Unicode
    EXPECT_EQ(std::count(words.begin(), words.end(), "yes"), 3) << line;
  }
  EXPECT_GE(count, 2);  // normal and bold
}

TEST_F(Pdf, HasTheSizeOfItsPaper) {
  // ISO 216: A4 is 210 by 297 mm; US Letter is 8.5 by 11 in.
  EXPECT_THAT(run("pdfinfo " + write(plain(6, base::Units::millimeters))).out,
              testing::AllOf(HasSubstr("(A4)"), HasSubstr("Title:           Orchard shelter")));
  EXPECT_THAT(run("pdfinfo " + write(plain(6))).out, HasSubstr("612 x 792 pts (letter)"));
}

TEST(PdfBytes, AreTheSameEveryTime) {
  const Sample sample = crowded(9, base::Units::feet_inches, 1.0);
  EXPECT_TRUE(file_of(sample) == file_of(sample));
}

bool is_number(const std::string& word) {
  return word.find_first_not_of("0123456789.") == std::string::npos;
}

TEST_F(Pdf, PrintsInBlackAndWhiteOnly) {
  // The drawing operators of the pages, uncompressed: only 0 and 1 are set as colors.
  const Outcome pages = run("qpdf --qdf --object-streams=disable " + write(plain(6)) + " -");
  ASSERT_EQ(pages.status, 0);
  const auto words = split(pages.out);
  int found = 0;
  for (std::size_t i = 3; i < words.size(); ++i) {
    const bool three = words[i] == "rg" || words[i] == "RG";
    if (!three && words[i] != "g" && words[i] != "G") continue;
    if (!is_number(words[i - 1])) continue;  // a letter by itself in the data of a font
    ++found;
    for (std::size_t k = 1; k <= (three ? 3U : 1U); ++k)
      EXPECT_THAT(words[i - k], testing::AnyOf("0", "1"));
  }
  EXPECT_GT(found, 0);
}

}  // namespace
}  // namespace stakewright::forms

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "stakewright/base/error.hpp"
#include "stakewright/wording/wording.hpp"

namespace stakewright::wording {
namespace {

namespace fs = std::filesystem;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::ThrowsMessage;

auto refuses(const std::string& words) { return ThrowsMessage<base::InputError>(HasSubstr(words)); }

/// A folder for one test.
class Folder {
 public:
  Folder()
      : path_(fs::temp_directory_path() /
              (std::string("stakewright wording ") +
               testing::UnitTest::GetInstance()->current_test_info()->name())) {
    fs::remove_all(path_);
    fs::create_directories(path_);
  }
  ~Folder() { fs::remove_all(path_); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  [[nodiscard]] std::string path() const { return path_.string(); }
  void write(const std::string& name, const std::string& text) const {
    std::ofstream(path_ / name) << text;
  }

 private:
  fs::path path_;
};

TEST(WordingFile, StandsInForTheBuiltInWords) {
  const Folder folder;
  folder.write("en.toml", "[plan]\nforward = \"to the road\"\n");
  const Chosen mine = chosen("en", folder.path());
  EXPECT_EQ(mine.wording.text("plan.forward"), "to the road");
  EXPECT_EQ(mine.wording.text("plan.tab"), built_in("en").text("plan.tab"));
  EXPECT_EQ(mine.wording.keys(), built_in("en").keys());
}

TEST(WordingFile, RemarksOnWhatItLeavesOut) {
  const Wording english = built_in("en");
  const Chosen nearly_nothing = from_text("language = \"Mine\"\n", "xx.toml", "xx");
  EXPECT_EQ(nearly_nothing.wording.text("plan.forward"), english.text("plan.forward"));
  ASSERT_EQ(nearly_nothing.remarks.size(), 1U);
  EXPECT_THAT(nearly_nothing.remarks.front(), HasSubstr("xx.toml leaves out "));
  EXPECT_THAT(nearly_nothing.remarks.front(), HasSubstr(" and "));
  EXPECT_THAT(nearly_nothing.remarks.front(), HasSubstr("the built-in words (en) stand there"));
}

TEST(WordingFile, OfABuiltInLanguageIsCompletedInIt) {
  const Chosen mine = from_text("[plan]\ntab = \"Blatt\"\n", "mine/en.toml", "en");
  EXPECT_THAT(mine.remarks, ElementsAre(HasSubstr("the built-in words (en)")));
}

TEST(WordingFile, HasNothingToRemarkOnWhenItIsWhole) {
  const Folder folder;
  fs::copy(STAKEWRIGHT_SOURCE_DIR "/field-forms/en.toml", folder.path() + "/xx.toml");
  EXPECT_THAT(chosen("xx", folder.path()).remarks, IsEmpty());
}

TEST(WordingFile, SaysWhereItIsWrong) {
  const auto read = [](const char* text) { return [=] { from_text(text, "mine.toml", "en"); }; };
  EXPECT_THAT(read("[plan]\ntab = 3\n"),
              refuses("mine.toml, line 2: plan.tab: read \"3\"; accepted: text on one line"));
  EXPECT_THAT(read("[plan]\ntab = [\"Plan\"]\n"), refuses("line 2: plan.tab: read a list"));
  EXPECT_THAT(read("[plan]\ncautions = \"Take care\"\n"),
              refuses("line 2: plan.cautions: read \"Take care\"; accepted: a list"));
  EXPECT_THAT(read("[plan]\ncautions = []\n"), refuses("line 2: plan.cautions: read a list"));
  EXPECT_THAT(read("[plan]\ncautions = [\"a\", 1]\n"), refuses("plan.cautions: read \"1\""));
  EXPECT_THAT(read("[plan]\ntab = \"\"\n"), refuses("plan.tab: read \"\""));
  EXPECT_THAT(read("[plan]\ntab = \"two\\nlines\"\n"), refuses("plan.tab: read \"two"));
  EXPECT_THAT(read("[plan]\ntabb = \"Plan\"\n"),
              refuses("line 2: read the key \"plan.tabb\"; accepted: the keys of the English "
                      "wording; the nearest is plan.tab"));
  EXPECT_THAT(read("tab = \"Plan"), refuses("mine.toml, line 1: "));
}

TEST(WordingFile, HasTheWordsInBracesThatTheEnglishHas) {
  const auto read = [](const std::string& page) {
    return [=] { from_text("[head]\npage = \"" + page + "\"\n", "mine.toml", "en"); };
  };
  EXPECT_NO_THROW(read("{pages} / {page}")());
  EXPECT_THAT(read("Seite {page}"), refuses("mine.toml, line 2: head.page: read \"{page}\"; "
                                            "accepted: {page} {pages}, each of them and no other"));
  EXPECT_THAT(read("Seite {page} {of} {pages}"),
              refuses("head.page: read \"{of} {page} {pages}\""));
  EXPECT_THAT(read("Seite"), refuses("head.page: read no words in braces"));
  for (const char* loose : {"{page} {pages} {", "{page} {pages} }", "{page} {{pages}}", "}{"})
    EXPECT_THAT(read(loose), refuses("accepted: each { with its own }")) << loose;
}

TEST(WordingFile, HasRoomForWhatASheetHasRoomFor) {
  const std::string long_text(kLongestText, 'x');
  EXPECT_NO_THROW(from_text("[plan]\ntab = \"" + long_text + "\"\n", "mine.toml", "en"));
  EXPECT_THAT([&] { from_text("[plan]\ntab = \"" + long_text + "x\"\n", "mine.toml", "en"); },
              refuses("1 to 600 characters"));
}

TEST(WordingFolder, SaysWhichLanguagesItHas) {
  const Folder folder;
  EXPECT_THAT([&] { chosen("pt-br", folder.path()); },
              refuses("pt-br.toml; accepted: a folder with"));
  folder.write("fr.toml", "");
  folder.write("eo.toml", "");
  EXPECT_THAT([&] { chosen("pt-br", folder.path()); }, refuses("this one has: eo, fr"));
  EXPECT_THAT([] { chosen("en", "/no/such/folder"); },
              refuses("there is no /no/such/folder/en.toml"));
}

TEST(WordingFolder, IsNotLeftByTheNameOfALanguage) {
  for (const char* language : {"../en", "", "EN", "en.toml", "a/b", "a name that is much too long"})
    EXPECT_THAT([&] { chosen(language, "/tmp"); }, refuses("--language: read ")) << language;
}

TEST(WordingFolder, RefusesAFileThatIsNoWording) {
  const Folder folder;
  folder.write("aa.toml", std::string(5UL * 1024UL * 1024UL, '#'));
  EXPECT_THAT([&] { chosen("aa", folder.path()); }, refuses("larger than"));
  folder.write("bb.toml", "\xFF\xFE");
  EXPECT_THAT([&] { chosen("bb", folder.path()); }, refuses("bb.toml"));
  folder.write("cc.toml", "%PDF-1.5 no TOML");
  EXPECT_THAT([&] { chosen("cc", folder.path()); }, refuses("cc.toml, line 1"));
  folder.write("dd.toml", "");
  EXPECT_THAT([&] { chosen("dd", folder.path()); }, refuses("dd.toml"));
  std::string deep;
  for (int i = 0; i < 6000; ++i) deep += "a.";
  folder.write("ee.toml", deep + "a = 1\n");
  EXPECT_THAT([&] { chosen("ee", folder.path()); }, refuses("ee.toml: read more than"));
  fs::create_directory(folder.path() + "/ff.toml");
  EXPECT_THAT([&] { chosen("ff", folder.path()); }, refuses("folder"));
}

}  // namespace
}  // namespace stakewright::wording

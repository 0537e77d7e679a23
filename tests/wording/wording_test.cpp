#include "stakewright/wording/wording.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "stakewright/base/error.hpp"

namespace stakewright::wording {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::ThrowsMessage;

std::string source_text() {
  std::ostringstream all;
  for (const auto& entry :
       std::filesystem::recursive_directory_iterator(STAKEWRIGHT_SOURCE_DIR "/src/forms"))
    if (entry.path().extension() == ".cpp") all << std::ifstream(entry.path()).rdbuf();
  return all.str();
}

/// The tables of the English wording.
std::set<std::string> groups() {
  std::set<std::string> names;
  for (const std::string& key : built_in("en").keys()) names.insert(key.substr(0, key.find('.')));
  return names;
}

/// Whatever in the sources stands in quotes and looks like a key of the wording.
std::set<std::string> keys_in_sources() {
  const std::string sources = source_text();
  std::set<std::string> keys;
  for (const std::string& group : groups()) {
    if (group == "blanks") continue;
    const std::string opening = "\"" + group + ".";
    for (std::size_t at = sources.find(opening); at != std::string::npos;
         at = sources.find(opening, at + 1)) {
      const std::string quoted = sources.substr(at + 1, sources.find('"', at + 1) - at - 1);
      if (quoted.find_first_not_of("abcdefghijklmnopqrstuvwxyz_.") == std::string::npos)
        keys.insert(quoted);
    }
  }
  keys.erase("pictures.fascia_tab");
  return keys;
}

TEST(EnglishWording, HasEveryKeyTheFormsAskForAndNoOther) {
  const auto listed = built_in("en").keys();
  std::set<std::string> keys(listed.begin(), listed.end());
  keys.erase("language");
  // Words for a part go by the part's name.
  for (const char* part : {"hip", "common", "jack", "fascia", "beam", "post"}) {
    keys.erase(std::string("pictures.") + part);
    keys.erase(std::string("pictures.") + part + "_tab");
  }
  // What a screen says of a blank goes by the blank's own name: `FormFile` asks for each.
  std::erase_if(keys, [](const std::string& key) { return key.starts_with("blanks."); });
  EXPECT_THAT(keys_in_sources(), testing::ContainerEq(keys));
}

TEST(EnglishWording, CarriesTheCautions) {
  const Wording english = built_in("en");
  std::string all;
  for (const std::string& caution : english.paragraphs("plan.cautions")) all += caution + "\n";
  for (const char* matter : {"Buried services", "power line", "dig", "laser", "concrete burns",
                             "brace", "fall protection", "local code", "licensed designer"})
    EXPECT_THAT(all, HasSubstr(matter));
}

TEST(Languages, AreNamedWhenOneIsNotThere) {
  EXPECT_THAT(languages(), Contains("en"));
  EXPECT_THAT(
      [] { built_in("xx"); },
      ThrowsMessage<base::InputError>(HasSubstr("read \"xx\"; the languages built in are: en")));
}

TEST(FilledIn, PutsValuesWhereTheirNamesStand) {
  EXPECT_EQ(filled_in("Page {page} of {pages}", {{"page", "1"}, {"pages", "3"}}), "Page 1 of 3");
  EXPECT_EQ(filled_in("{a}{a}", {{"a", "x"}}), "xx");
  EXPECT_EQ(filled_in("no braces", {{"a", "x"}}), "no braces");
}

TEST(FilledIn, LeavesWhatItDoesNotKnowAndFillsNothingTwice) {
  EXPECT_EQ(filled_in("{unknown} {", {{"a", "x"}}), "{unknown} {");
  EXPECT_EQ(filled_in("{a}", {{"a", "{b}"}, {"b", "no"}}), "{b}");
}

}  // namespace
}  // namespace stakewright::wording

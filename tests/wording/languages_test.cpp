// Every language that is built in, held against the English.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "stakewright/wording/wording.hpp"

namespace stakewright::wording {
namespace {

using testing::IsEmpty;

constexpr const char* kFolder = STAKEWRIGHT_SOURCE_DIR "/field-forms";

TEST(EveryLanguage, HasTheKeysAndTheWordsInBracesOfTheEnglish) {
  for (const std::string& language : languages()) {
    // A key too many and other words in braces are refused, a missing key is remarked on.
    EXPECT_THAT(chosen(language, kFolder).remarks, IsEmpty()) << language;
    EXPECT_EQ(built_in(language).keys(), built_in("en").keys()) << language;
  }
}

TEST(EveryLanguage, IsBuiltInAsItsFileStands) {
  for (const std::string& language : languages()) {
    EXPECT_EQ(chosen(language, kFolder).wording.texts(), built_in(language).texts());
    EXPECT_EQ(chosen(language, kFolder).wording.all_paragraphs(),
              built_in(language).all_paragraphs());
  }
}

TEST(EveryLanguage, HasAsManyStepsAndCautionsAsTheEnglish) {
  const Wording english = built_in("en");
  for (const std::string& language : languages()) {
    const Wording words = built_in(language);
    for (const auto& [key, paragraphs] : words.all_paragraphs())
      EXPECT_EQ(paragraphs.size(), english.paragraphs(key).size()) << language << ", " << key;
  }
}

TEST(Languages, AreEnglishAndSpanishAtLeast) {
  EXPECT_THAT(languages(), testing::IsSupersetOf({"en", "es"}));
}

}  // namespace
}  // namespace stakewright::wording

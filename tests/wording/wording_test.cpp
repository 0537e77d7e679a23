#include "stakewright/wording/wording.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "stakewright/base/error.hpp"

namespace stakewright::wording {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::ThrowsMessage;

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

#include <gtest/gtest.h>

#include <random>

#include "stakewright/fields/fillable.hpp"

namespace stakewright::fields {
namespace {

TEST(FieldName, HasNoPointInItAsThePdfStandardAsks) {
  // ISO 32000-1, 12.7.3.2: "The partial field name shall not contain a PERIOD".
  EXPECT_EQ(field_name("reading.A-C.1"), "reading:A-C:1");
  EXPECT_EQ(field_name("burned.St.1-A"), "burned:St:1-A");
  EXPECT_EQ(field_name("note.A-50%:x"), "note:A-50%25%3Ax");
}

TEST(FieldName, LeadsBackToTheBlank) {
  std::mt19937 random(7);
  const std::string letters = ".:%3A25-/ Cé";
  for (int k = 0; k < 2000; ++k) {
    std::string blank;
    for (auto i = random() % 12U; i > 0; --i) blank += letters[random() % letters.size()];
    EXPECT_EQ(blank_name(field_name(blank)), blank);
    EXPECT_EQ(field_name(blank).find('.'), std::string::npos);
  }
}

TEST(FieldName, OfAnothersMakingIsTakenAsItStands) {
  EXPECT_EQ(blank_name("Text1"), "Text1");
  EXPECT_EQ(blank_name("50%"), "50%");
  EXPECT_EQ(blank_name(""), "");
}

}  // namespace
}  // namespace stakewright::fields

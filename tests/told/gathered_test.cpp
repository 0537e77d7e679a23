// Rows of a roof's tables that come out alike.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "gathered.hpp"
#include "telling.hpp"

namespace stakewright::told {
namespace {

TEST(Gathering, TellsRowsThatPrintAlikeOnceAndCountsThem) {
  const auto corner = [](std::size_t at) { return roof::Place::at_corner(at); };
  const auto jack = [](roof::Hand hand, int number) {
    return roof::Place::at_side(1, 6).on(hand, number);
  };
  const base::Fact hip{"parts.hip"};
  const base::Fact jack_kind{"parts.jack"};
  const auto feet = [](double count) { return base::Length{0.3048 * count}; };
  const std::vector<PlacedRow> placed = {{hip, corner(1), {feet(13.0 + 1.0 / 12.0)}},
                                         {jack_kind, jack(roof::Hand::right, 2), {feet(6.0)}},
                                         {hip, corner(3), {feet(13.0 + 2.0 / 12.0)}},
                                         {hip, corner(0), {feet(13.0 + 1.0 / 12.0)}},
                                         {jack_kind, jack(roof::Hand::left, 10), {feet(2.0)}},
                                         {jack_kind, jack(roof::Hand::left, 9), {feet(2.0)}},
                                         {jack_kind, jack(roof::Hand::right, 9), {feet(2.0)}},
                                         {jack_kind, jack(roof::Hand::right, 10), {feet(2.0)}}};
  std::vector<std::string> told;
  for (const Row& row : gathered_and_counted(placed, english())) told.push_back(text_of(row));
  EXPECT_THAT(told, testing::ElementsAre("hip | B, A | 2 | 13' 1\"", "hip | D | 1 | 13' 2\"",
                                         "jack | B-C right 2 | 1 | 6' 0\"",
                                         "jack | each side: 9, 10 left and right | 4 | 2' 0\""));
}

}  // namespace
}  // namespace stakewright::told

// What parts, cuts, joints and places are called, both ways.

#include "stakewright/roof/names.hpp"

#include <gtest/gtest.h>

#include <set>

#include "roof/roofs.hpp"

namespace stakewright::roof {
namespace {

/// Every place that a roof of random sides has, and of the most sides there may be.
std::vector<std::pair<int, Place>> places() {
  std::vector<std::pair<int, Place>> result;
  const auto take = [&result](int sides, const Carry& roof) {
    for (const auto& one : roof.parts) result.emplace_back(sides, one.at);
    for (const auto& one : roof.cuts) result.emplace_back(sides, one.at);
    for (const auto& one : roof.joints) result.emplace_back(sides, one.at);
  };
  for (const auto& site : random_sites(20, 901)) take(site.plan.polygon.sides, carry(site));
  Spec hub;
  hub.hub_m = 0.2;
  take(48, planned(48, 6.0, hub));
  return result;
}

TEST(Place, IsReadBackFromItsOwnText) {
  for (const auto& [sides, place] : places()) {
    const std::string text = text_from_place(place);
    EXPECT_EQ(place_from_text(text, sides), place) << text << " of " << sides;
  }
}

TEST(Place, HasATextOfItsOwn) {
  std::set<std::string> texts;
  std::set<Place> all;
  for (const auto& [sides, place] : places()) {
    if (sides != 48) continue;
    texts.insert(text_from_place(place));
    all.insert(place);
  }
  EXPECT_EQ(texts.size(), all.size());
}

TEST(Place, IsWrittenAsTheTradeSaysIt) {
  EXPECT_EQ(text_from_place({}), "peak");
  EXPECT_EQ(text_from_place(Place::at_corner(2)), "C");
  EXPECT_EQ(text_from_place(Place::at_corner(2).on(Hand::right)), "C right");
  EXPECT_EQ(text_from_place(Place::at_side(1, 6)), "B-C");
  EXPECT_EQ(text_from_place(Place::at_side(5, 6)), "F-A");
  EXPECT_EQ(text_from_place(Place::at_side(1, 6).on(Hand::left, 2)), "B-C left 2");
  EXPECT_EQ(text_from_place(Place::at_side(47, 48)), "AZ-A");
  EXPECT_EQ(Place::at_side(1, 6).on(Hand::left, 2).whole(), Place::at_side(1, 6));
}

TEST(Place, IsReadWithCommasOrADashAsWell) {
  const Place jack = Place::at_side(1, 6).on(Hand::left, 2);
  for (const char* text : {"B-C left 2", "B-C, left, 2", "B–C, left, 2", " B-C  left,2 "})
    EXPECT_EQ(place_from_text(text, 6), jack) << text;
}

TEST(Place, IsNotReadWhereTheRoofHasNone) {
  for (const char* text : {"", "G", "I", "b", "A-C", "B-A", "F-G", "A-", "-B", "A left right",
                           "A left 1", "A-B 1", "A-B left 0", "A-B left -1", "A-B left 1.5",
                           "A-B left 1 1", "A-B up", "peak left", "A-B left 99999999999"})
    EXPECT_FALSE(place_from_text(text, 6)) << text;
}

TEST(PartName, IsReadBackFromItsOwnText) {
  for (const PartKind kind : kPartKinds) {
    const PartName part{kind, Place::at_side(0, 5).on(Hand::right, 12)};
    EXPECT_EQ(part_from_text(text_from_part(part), 5), part);
  }
  EXPECT_EQ(text_from_part({PartKind::jack, Place::at_side(1, 6).on(Hand::left, 2)}),
            "jack B-C left 2");
  EXPECT_EQ(part_from_text("hip, C", 6), (PartName{PartKind::hip, Place::at_corner(2)}));
  for (const char* text : {"", "hip", "C", "hips C", "hip G", "C hip"})
    EXPECT_FALSE(part_from_text(text, 6)) << text;
}

}  // namespace
}  // namespace stakewright::roof

#include "words.hpp"
#include "stakewright/base/text.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace stakewright::cli {
namespace {

using base::Units;

constexpr double kInch_m = 0.0254;

TEST(Directed, SaysTheSignInWords) {
  EXPECT_EQ(directed(0.875 * kInch_m, kOutward, Units::feet_inches, Step::tape), "7/8\" outward");
  EXPECT_EQ(directed(-0.875 * kInch_m, kOutward, Units::feet_inches, Step::tape), "7/8\" inward");
  EXPECT_EQ(directed(-0.0032, kSideways, Units::millimeters, Step::fine),
            "3.2 mm counterclockwise");
  EXPECT_EQ(directed(0.012, kSideways, Units::meters, Step::tape), "0.012 m clockwise");
}

TEST(Directed, HasNoDirectionWhereItRoundsToNothing) {
  EXPECT_EQ(directed(0.01 * kInch_m, kOutward, Units::feet_inches, Step::tape), "0\"");
  EXPECT_EQ(directed(-0.00001, kOutward, Units::millimeters, Step::fine), "0.0 mm");
  EXPECT_EQ(directed(-0.0, kOutward, Units::feet_inches, Step::tape), "0\"");
}

TEST(Directed, HasNoDirectionWithoutAFigure) {
  EXPECT_EQ(directed(std::numeric_limits<double>::quiet_NaN(), kOutward, Units::meters, Step::tape),
            "-");
}

TEST(Joined, ReadsAsASentenceDoes) {
  EXPECT_EQ(base::joined({}), "");
  EXPECT_EQ(base::joined({"A"}), "A");
  EXPECT_EQ(base::joined({"A", "B"}), "A and B");
  EXPECT_EQ(base::joined({"A", "B", "C"}), "A, B and C");
}

TEST(Counted, KnowsOneFromMany) {
  EXPECT_EQ(counted(1, "corner", "corners"), "1 corner");
  EXPECT_EQ(counted(0, "corner", "corners"), "0 corners");
}

}  // namespace
}  // namespace stakewright::cli

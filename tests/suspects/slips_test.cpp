#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "stakewright/suspects/suspects.hpp"
#include "suspects/scene.hpp"

namespace stakewright::suspects {
namespace {

using scene::kInch_m;
using scene::Pair;
using testing::HasSubstr;
using What = Cause::What;

constexpr double kFoot_m = 12.0 * kInch_m;
constexpr std::uint64_t kSeed = 5;

/// Spread of stakes and of readings on a site where all went well.
constexpr double kWell_m = 0.001;

/// A hexagon taped well, and then one reading written as `written_m`.
struct Written {
  const char* what;
  base::Units units;
  double true_m;     ///< what the tape A–C should have shown
  double written_m;  ///< what was written
  const char* slip;
};

void PrintTo(const Written& written, std::ostream* out) { *out << written.what; }

class SlipInWords : public testing::TestWithParam<Written> {};

constexpr double ft(double feet, double inches) { return feet * kFoot_m + inches * kInch_m; }

INSTANTIATE_TEST_SUITE_P(
    Kinds, SlipInWords,
    testing::Values(
        Written{"foot", base::Units::feet_inches, ft(13, 4.5), ft(14, 4.5), "a whole foot"},
        Written{"foot short", base::Units::feet_inches, ft(13, 4.5), ft(12, 4.5), "a whole foot"},
        Written{"inch", base::Units::feet_inches, ft(13, 1.5), ft(13, 2.5), "a whole inch"},
        Written{"feet digits", base::Units::feet_inches, ft(13, 4.5), ft(31, 4.5),
                "digits changed round"},
        Written{"tenths", base::Units::feet_inches, ft(13, 9.6), ft(13, 8),
                "tenths of a foot taken for inches"},
        Written{"decimeter", base::Units::millimeters, 4.213, 4.313, "a whole decimeter"},
        Written{"meter", base::Units::meters, 4.213, 3.213, "a whole meter"},
        Written{"mm digits", base::Units::millimeters, 4.273, 4.723, "digits changed round"}));

TEST_P(SlipInWords, IsNamedByItsSize) {
  const Written& written = GetParam();
  std::mt19937_64 random(kSeed);
  // The corner radius that makes A–C (skip 2 of a hexagon: √3 R) the true length.
  adjustment::Network network = scene::polygon(6, written.true_m / std::sqrt(3.0));
  network.instruments[0].constant_m = kWell_m;
  const std::vector<Pair> pairs = scene::both(scene::sides(6), scene::diagonals(6));
  scene::read_all(network, scene::staked(network, kWell_m, random), pairs, random);
  readings::Observation& reading = network.observations[6];
  ASSERT_EQ((Pair{reading.from, reading.to}), (Pair{0, 2}));
  reading.read = reading.corrected = written.written_m;
  Setting setting = scene::setting();
  setting.units = written.units;
  setting.staking.spread_m = kWell_m;
  const Suspects said = weigh(network, setting);
  ASSERT_EQ(said.ranked.front().causes.size(), 1u) << said.ranked.front().words;
  EXPECT_EQ(said.ranked.front().causes.front().index, 6u);
  EXPECT_EQ(said.ranked.front().causes.front().slip, written.slip) << said.ranked.front().words;
  EXPECT_THAT(said.ranked.front().words, HasSubstr(written.slip));
}

/// A single tape over an octagon: its slip is as clear as the noise lets it be.
adjustment::Network octagon(std::uint64_t seed) {
  std::mt19937_64 random(seed);
  adjustment::Network network = scene::polygon(8);
  scene::read_all(network, scene::staked(network, scene::kSpread_m, random),
                  scene::both(scene::both(scene::sides(8), scene::diagonals(8)), scene::radii(8)),
                  random);
  return network;
}

Cause leading(const adjustment::Network& network, base::Units units) {
  Setting setting = scene::setting();
  setting.units = units;
  const Suspects said = weigh(network, setting);
  return said.ranked.front().causes.empty() ? Cause{} : said.ranked.front().causes.front();
}

TEST(SlipInWords, AMarkThatOthersBurnedAndThisOneDidNotSubtract) {
  adjustment::Network network = octagon(kSeed);
  for (readings::Observation& reading : network.observations) reading.read += kFoot_m;
  scene::add_slip(network, 9, kFoot_m);
  network.observations[9].read = network.observations[9].corrected;
  const Cause cause = leading(network, base::Units::feet_inches);
  EXPECT_EQ(cause.index, 9u);
  EXPECT_EQ(cause.slip, "the mark held was not subtracted");
}

TEST(SlipInWords, AMarkSubtractedThoughZeroWasHeld) {
  adjustment::Network network = octagon(kSeed);
  readings::Observation& reading = network.observations[9];
  reading.corrected -= kFoot_m;
  const Cause cause = leading(network, base::Units::feet_inches);
  EXPECT_EQ(cause.slip, "a mark was subtracted though zero was held");
}

TEST(SlipInWords, ARadiusPulledAcrossToTheOppositeCorner) {
  adjustment::Network network = octagon(kSeed);
  // O–A, the last eight are the radii; A–E is the only other pull of that length from either end.
  const std::size_t radius = network.observations.size() - 8;
  network.observations[radius].read = network.observations[radius].corrected =
      scene::planned_m(network, {0, 4});
  const Cause cause = leading(network, base::Units::millimeters);
  EXPECT_EQ(cause.what, What::wrong_stake);
  EXPECT_EQ(cause.index, radius);
  EXPECT_EQ(cause.held, 0u);
  EXPECT_EQ(cause.other, 4u);
}

TEST(SlipInWords, AWrongStakeThatSeveralStakesFitIsNotGuessed) {
  adjustment::Network network = octagon(kSeed);
  // A–C written, the length of any skip of three read.
  network.observations[8].read = network.observations[8].corrected =
      scene::planned_m(network, {0, 3});
  const Cause cause = leading(network, base::Units::millimeters);
  EXPECT_EQ(cause.what, What::reading);
  EXPECT_EQ(cause.index, 8u);
  EXPECT_THAT(cause.slip, HasSubstr("the tape was pulled to a wrong stake: "));
  EXPECT_THAT(cause.slip, HasSubstr("A–D"));
  EXPECT_THAT(cause.slip, HasSubstr("C–F"));
}

TEST(SlipInWords, NoKindIsNamedWhenTwoFitEqually) {
  // 12 ft 5 in written for 12 ft 6 in: an inch short, and just as well tenths (0.5 ft = 6 in)
  // written as inches.
  std::mt19937_64 random(kSeed);
  adjustment::Network network = scene::polygon(6, ft(12, 6) / std::sqrt(3.0));
  scene::read_all(network, scene::staked(network, 0.0005, random),
                  scene::both(scene::sides(6), scene::diagonals(6)), random);
  network.observations[6].read = network.observations[6].corrected = ft(12, 5);
  const Cause cause = leading(network, base::Units::feet_inches);
  EXPECT_EQ(cause.index, 6u);
  EXPECT_NEAR(cause.size, -kInch_m, 0.004);
  EXPECT_EQ(cause.slip, "");
}

TEST(SlipInWords, ASlipOfNoKindIsGivenNone) {
  adjustment::Network network = octagon(kSeed);
  scene::add_slip(network, 9, 0.064);
  network.observations[9].read = network.observations[9].corrected;
  EXPECT_EQ(leading(network, base::Units::feet_inches).slip, "");
}

TEST(SlipInWords, ANearMissIsNotTakenForTheMark) {
  // 5 mm beside a whole decimeter, read ten times as finely.
  std::mt19937_64 random(kSeed);
  adjustment::Network network = scene::polygon(6);
  network.instruments[0].constant_m = 0.0002;
  scene::read_all(network, scene::staked(network, 0.0003, random),
                  scene::both(scene::sides(6), scene::diagonals(6)), random);
  scene::add_slip(network, 7, 0.105);
  Setting setting = scene::setting();
  setting.staking.spread_m = 0.0003;
  EXPECT_EQ(weigh(network, setting).ranked.front().causes.front().slip, "");
}

}  // namespace
}  // namespace stakewright::suspects

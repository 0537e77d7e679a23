#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "stakewright/suspects/suspects.hpp"
#include "suspects/scene.hpp"

namespace stakewright::suspects {
namespace {

using scene::kInch_m;
using scene::Pair;
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
  SlipKind slip;
};

/// `any` where the slip looks like no one kind.
SlipKind kind_of(const Cause& cause) { return cause.slip ? cause.slip->kind : SlipKind::any; }

void PrintTo(const Written& written, std::ostream* out) { *out << written.what; }

class Slips : public testing::TestWithParam<Written> {};

constexpr double ft(double feet, double inches) { return feet * kFoot_m + inches * kInch_m; }

INSTANTIATE_TEST_SUITE_P(
    Kinds, Slips,
    testing::Values(
        Written{"foot", base::Units::feet_inches, ft(13, 4.5), ft(14, 4.5), SlipKind::foot},
        Written{"foot short", base::Units::feet_inches, ft(13, 4.5), ft(12, 4.5), SlipKind::foot},
        Written{"inch", base::Units::feet_inches, ft(13, 1.5), ft(13, 2.5), SlipKind::inch},
        Written{"feet digits", base::Units::feet_inches, ft(13, 4.5), ft(31, 4.5),
                SlipKind::digits},
        Written{"tenths", base::Units::feet_inches, ft(13, 9.6), ft(13, 8), SlipKind::tenths},
        Written{"decimeter", base::Units::millimeters, 4.213, 4.313, SlipKind::decimeter},
        Written{"meter", base::Units::meters, 4.213, 3.213, SlipKind::meter},
        Written{"mm digits", base::Units::millimeters, 4.273, 4.723, SlipKind::digits}));

TEST_P(Slips, IsNamedByItsSize) {
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
  for (readings::Observation& each : network.observations) each.written = written.units;
  Setting setting = scene::setting();
  setting.staking.spread_m = kWell_m;
  const Suspects said = weigh(network, setting);
  ASSERT_EQ(said.ranked.front().causes.size(), 1u);
  const Cause& cause = said.ranked.front().causes.front();
  EXPECT_EQ(cause.index, 6u);
  EXPECT_EQ(kind_of(cause), written.slip);
  EXPECT_EQ(cause.slip->times, 1u);
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

Cause leading(adjustment::Network network, base::Units units) {
  for (readings::Observation& reading : network.observations) reading.written = units;
  const Suspects said = weigh(network, scene::setting());
  return said.ranked.front().causes.empty() ? Cause{} : said.ranked.front().causes.front();
}

TEST(Slip, AMarkThatOthersBurnedAndThisOneDidNotSubtract) {
  adjustment::Network network = octagon(kSeed);
  for (readings::Observation& reading : network.observations) reading.read += kFoot_m;
  scene::add_slip(network, 9, kFoot_m);
  network.observations[9].read = network.observations[9].corrected;
  const Cause cause = leading(network, base::Units::feet_inches);
  EXPECT_EQ(cause.index, 9u);
  EXPECT_EQ(kind_of(cause), SlipKind::burned);
  EXPECT_GT(cause.size, 0.0);
}

TEST(Slip, AMarkSubtractedThoughZeroWasHeld) {
  adjustment::Network network = octagon(kSeed);
  readings::Observation& reading = network.observations[9];
  reading.corrected -= kFoot_m;
  const Cause cause = leading(network, base::Units::feet_inches);
  EXPECT_EQ(kind_of(cause), SlipKind::burned);
  EXPECT_LT(cause.size, 0.0);
}

TEST(Slip, ARadiusPulledAcrossToTheOppositeCorner) {
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

TEST(Slip, AWrongStakeThatSeveralStakesFitIsNotGuessed) {
  adjustment::Network network = octagon(kSeed);
  // A–C written, the length of any skip of three read.
  network.observations[8].read = network.observations[8].corrected =
      scene::planned_m(network, {0, 3});
  const Cause cause = leading(network, base::Units::millimeters);
  EXPECT_EQ(cause.what, What::reading);
  EXPECT_EQ(cause.index, 8u);
  ASSERT_EQ(kind_of(cause), SlipKind::wrong_stake);
  std::vector<Pair> instead;
  for (const Between& points : cause.slip->instead_of) instead.emplace_back(points.from, points.to);
  EXPECT_THAT(instead, testing::IsSupersetOf({Pair{0, 3}, Pair{2, 5}}));
}

TEST(Slip, NoKindIsNamedWhenTwoFitEqually) {
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
  EXPECT_EQ(kind_of(cause), SlipKind::any);
}

TEST(Slip, ASlipOfNoKindIsGivenNone) {
  adjustment::Network network = octagon(kSeed);
  scene::add_slip(network, 9, 0.064);
  network.observations[9].read = network.observations[9].corrected;
  EXPECT_EQ(kind_of(leading(network, base::Units::feet_inches)), SlipKind::any);
}

TEST(Slip, ANearMissIsNotTakenForTheMark) {
  // 5 mm beside a whole decimeter, read ten times as finely.
  std::mt19937_64 random(kSeed);
  adjustment::Network network = scene::polygon(6);
  network.instruments[0].constant_m = 0.0002;
  scene::read_all(network, scene::staked(network, 0.0003, random),
                  scene::both(scene::sides(6), scene::diagonals(6)), random);
  scene::add_slip(network, 7, 0.105);
  Setting setting = scene::setting();
  setting.staking.spread_m = 0.0003;
  EXPECT_EQ(kind_of(weigh(network, setting).ranked.front().causes.front()), SlipKind::any);
}

TEST(Slip, AWholeFootIsNaturalToThoseWhoWriteFeet) {
  adjustment::Network network = octagon(kSeed);
  scene::add_slip(network, 9, kFoot_m);
  EXPECT_EQ(kind_of(leading(network, base::Units::feet_inches)), SlipKind::foot);
  EXPECT_EQ(kind_of(leading(network, base::Units::meters)), SlipKind::any);
}

TEST(Slip, OfOneReadingIsJudgedByWhatThatOneWasWrittenIn) {
  adjustment::Network network = octagon(kSeed);
  scene::add_slip(network, 9, kFoot_m);
  network.observations[9].written = base::Units::feet_inches;
  EXPECT_EQ(kind_of(weigh(network, scene::setting()).ranked.front().causes.front()),
            SlipKind::foot);
}

}  // namespace
}  // namespace stakewright::suspects

// Angles among the readings that are weighed: their slips, and what they say of stakes.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "stakewright/base/angle.hpp"
#include "stakewright/suspects/suspects.hpp"
#include "stakewright/suspects/tapes.hpp"
#include "suspects/draws.hpp"

namespace stakewright::suspects {
namespace {

using base::kDegree_rad;
using scene::Pair;
using What = Cause::What;

constexpr std::uint64_t kSeed = 21;
constexpr double kMinute_rad = kDegree_rad / 60.0;
constexpr double kSd_rad = 1.5 * kMinute_rad;

/// Where it is turned, from, to.
using Turn = std::array<std::size_t, 3>;

std::vector<Turn> interior(std::size_t n) {
  std::vector<Turn> turns;
  for (std::size_t i = 0; i < n; ++i) turns.push_back({i, (i + 1) % n, (i + n - 1) % n});
  return turns;
}

std::vector<Turn> at_the_pin(std::size_t n) {
  std::vector<Turn> turns;
  for (std::size_t i = 0; i < n; ++i) turns.push_back({n, i, (i + 1) % n});
  return turns;
}

double angle_rad(const std::vector<base::Point>& places, const Turn& turn) {
  const base::Point u = places[turn[1]] - places[turn[0]];
  const base::Point v = places[turn[2]] - places[turn[0]];
  const double angle = std::atan2(v.x_m * u.y_m - v.y_m * u.x_m, u.x_m * v.x_m + u.y_m * v.y_m);
  return angle < 0.0 ? angle + 2.0 * std::numbers::pi : angle;
}

void turn_all(adjustment::Network& network, const std::vector<base::Point>& places,
              const std::vector<Turn>& turns, std::mt19937_64& random) {
  std::normal_distribution<double> normal;
  for (const Turn& turn : turns) {
    const double read = angle_rad(places, turn) + kSd_rad * normal(random);
    network.observations.push_back({turn[1], turn[2], 1, read, read, kSd_rad, turn[0]});
  }
}

readings::Instrument circle() {
  readings::Instrument result;
  result.name = "circle";
  result.kind = readings::Kind::angle;
  return result;
}

/// A polygon with sides and radii taped, then interior angles and angles at the pin turned.
template <class Stake>
adjustment::Network site(std::size_t n, Stake stake) {
  std::mt19937_64 random(kSeed);
  adjustment::Network network = scene::polygon(n);
  network.instruments.push_back(circle());
  std::vector<base::Point> places = scene::staked(network, scene::kSpread_m, random);
  stake(places);
  scene::read_all(network, places, scene::both(scene::sides(n), scene::radii(n)), random);
  turn_all(network, places, interior(n), random);
  turn_all(network, places, at_the_pin(n), random);
  return network;
}

adjustment::Network site(std::size_t n) {
  return site(n, [](std::vector<base::Point>&) {});
}

/// The first angle at the pin, A–O–B, stands behind the lengths and the interior angles.
std::size_t first_at_pin(std::size_t n) { return 3 * n; }

void put_off(adjustment::Network& network, std::size_t reading, double to_rad) {
  network.observations[reading].read = network.observations[reading].corrected = to_rad;
}

TEST(SuspectAngles, NothingWrongLeadsWhenNothingIs) {
  const Suspects said = weigh(site(8), scene::setting());
  EXPECT_TRUE(said.ranked.front().causes.empty());
  EXPECT_GT(said.ranked.front().chance, 0.7);
}

TEST(SuspectAngles, NameTheStakeSetWrong) {
  const adjustment::Network network = site(6, [](std::vector<base::Point>& places) {
    const base::Point outward = (1.0 / base::norm_m(places[2])) * places[2];
    places[2] = places[2] + scene::kInch_m * outward;
  });
  const Suspects said = weigh(network, scene::setting());
  ASSERT_EQ(scene::named(said.ranked.front().causes), (scene::Named{{What::stake, 2, 0}}));
  EXPECT_NEAR(said.ranked.front().causes.front().outward_m, scene::kInch_m, 0.008);
}

struct Misread {
  const char* what;
  double off_rad;
  SlipKind slip;
  std::size_t times;
};

void PrintTo(const Misread& misread, std::ostream* out) { *out << misread.what; }

class SlipOfAnAngle : public testing::TestWithParam<Misread> {};

INSTANTIATE_TEST_SUITE_P(
    Kinds, SlipOfAnAngle,
    testing::Values(Misread{"degree", kDegree_rad, SlipKind::degree, 1},
                    Misread{"two degrees", -2.0 * kDegree_rad, SlipKind::degree, 2},
                    Misread{"ten degrees", 10.0 * kDegree_rad, SlipKind::ten_degrees, 1},
                    Misread{"half degree", -30.0 * kMinute_rad, SlipKind::half_degree, 1},
                    Misread{"half turn", std::numbers::pi, SlipKind::half_turn, 1}));

TEST_P(SlipOfAnAngle, IsNamedByItsSize) {
  // Of five sides: with an even number the opposite vernier reads as another stake does.
  adjustment::Network network = site(5);
  const std::size_t bad = first_at_pin(5);
  const double read = network.observations[bad].read + GetParam().off_rad;
  put_off(network, bad, read);
  const Suspects said = weigh(network, scene::setting());
  ASSERT_EQ(scene::named(said.ranked.front().causes), (scene::Named{{What::reading, bad, 0}}));
  const Cause& cause = said.ranked.front().causes.front();
  ASSERT_TRUE(cause.slip);
  EXPECT_EQ(cause.slip->kind, GetParam().slip);
  EXPECT_EQ(cause.slip->times, GetParam().times);
  EXPECT_GT(cause.size * GetParam().off_rad, 0.0);
}

TEST(SuspectAngles, FromAndToChangedOverIsNamed) {
  adjustment::Network network = site(6);
  const std::size_t bad = first_at_pin(6);
  put_off(network, bad, 2.0 * std::numbers::pi - network.observations[bad].read);
  const Suspects said = weigh(network, scene::setting());
  ASSERT_EQ(said.ranked.front().causes.size(), 1U);
  EXPECT_EQ(said.ranked.front().causes.front().index, bad);
  ASSERT_TRUE(said.ranked.front().causes.front().slip);
  EXPECT_EQ(said.ranked.front().causes.front().slip->kind, SlipKind::turned_back);
}

TEST(SuspectAngles, TheCirclePointedAtAWrongStakeIsSaidWithTheStake) {
  adjustment::Network network = site(5);
  const std::size_t bad = first_at_pin(5);
  // Sighted C for B: 144 degrees in place of 72.
  put_off(network, bad, network.observations[bad].read + network.observations[bad + 1].read);
  const Suspects said = weigh(network, scene::setting());
  ASSERT_EQ(said.ranked.front().causes.size(), 1U);
  const Cause& cause = said.ranked.front().causes.front();
  EXPECT_EQ(cause.index, bad);
  // From E to B is 144 degrees as well: which sight was wrong the number does not say.
  ASSERT_TRUE(cause.slip);
  EXPECT_EQ(cause.slip->kind, SlipKind::wrong_stake);
  std::vector<Turn> instead;
  for (const Between& points : cause.slip->instead_of)
    instead.push_back({points.at.value(), points.from, points.to});
  EXPECT_THAT(instead, testing::IsSupersetOf({Turn{5, 0, 2}, Turn{5, 4, 1}}));
}

TEST(SuspectAngles, SmallSlipsAreNotGivenAKind) {
  adjustment::Network network = site(6);
  const std::size_t bad = first_at_pin(6);
  put_off(network, bad, network.observations[bad].read + 47.0 * kMinute_rad);
  const Suspects said = weigh(network, scene::setting());
  ASSERT_EQ(said.ranked.front().causes.size(), 1U);
  EXPECT_FALSE(said.ranked.front().causes.front().slip);
  EXPECT_NEAR(said.ranked.front().causes.front().size, 47.0 * kMinute_rad, 8.0 * kMinute_rad);
}

TEST(SuspectAngles, TwoMisreadReadingsOfDifferentKindsAreFoundTogether) {
  adjustment::Network network = site(8);
  const std::size_t bad = first_at_pin(8) + 3;
  put_off(network, bad, network.observations[bad].read + kDegree_rad);
  scene::add_slip(network, 2, 2.0 * scene::kInch_m);
  const Suspects said = weigh(network, scene::setting());
  EXPECT_EQ(scene::named(said.ranked.front().causes),
            (scene::Named{{What::reading, 2, 0}, {What::reading, bad, 0}}));
}

TEST(SuspectAngles, TwoLabelsChangedOverAreFound) {
  adjustment::Network network =
      site(7, [](std::vector<base::Point>& places) { std::swap(places[2], places[3]); });
  const Suspects said = weigh(network, scene::setting());
  ASSERT_EQ(said.ranked.front().causes.size(), 1U);
  EXPECT_EQ(said.ranked.front().causes.front().what, What::labels);
  EXPECT_EQ(said.ranked.front().causes.front().index, 2U);
  EXPECT_EQ(said.ranked.front().causes.front().other, 3U);
}

TEST(SuspectAngles, ChancesAddToOneAndTurningTheSiteChangesNone) {
  adjustment::Network network = site(6);
  put_off(network, first_at_pin(6), 61.0 * kDegree_rad);
  const Suspects here = weigh(network, scene::setting());
  double sum = here.rest;
  for (const Explanation& explanation : here.ranked) sum += explanation.chance;
  EXPECT_NEAR(sum, 1.0, 1e-9);
  adjustment::Network turned = network;
  for (adjustment::NetworkPoint& point : turned.points) {
    const base::Point p = point.planned;
    point.planned = base::Point{std::cos(2.0) * p.x_m - std::sin(2.0) * p.y_m + 30.0,
                                std::sin(2.0) * p.x_m + std::cos(2.0) * p.y_m - 5.0};
  }
  const Suspects there = weigh(turned, scene::setting());
  ASSERT_EQ(here.ranked.size(), there.ranked.size());
  for (std::size_t k = 0; k < here.ranked.size(); ++k)
    EXPECT_NEAR(here.ranked[k].chance, there.ranked[k].chance, 1e-6);
}

/// What goes wrong on a site as the priors have it: stakes, and slips of angles from the table of
/// docs/methods/suspects.md.
class Draws {
 public:
  explicit Draws(std::uint64_t seed) : random_(seed) {}

  bool chance(double p) { return uniform_(random_) < p; }

  base::Point stake_off() {
    const double sd_m = chance(0.25) ? 0.020 : chance(0.48 / 0.75) ? 0.050 : 0.250;
    return sd_m * base::Point{normal_(random_), normal_(random_)};
  }

  double slip_of(double read_rad) {
    const double sign = chance(0.5) ? 1.0 : -1.0;
    const double u = uniform_(random_);
    if (u < 0.10) return sign * kDegree_rad;
    if (u < 0.14) return sign * 10.0 * kDegree_rad;
    if (u < 0.19) return sign * 30.0 * kMinute_rad;
    if (u < 0.28) return sign * 10.0 * kMinute_rad;
    if (u < 0.36) return 2.0 * std::numbers::pi - 2.0 * read_rad;
    if (u < 0.38) return sign * std::numbers::pi;
    const double sd_rad = chance(0.26 / 0.56)   ? 6.0 * kMinute_rad
                          : chance(0.20 / 0.30) ? 30.0 * kMinute_rad
                                                : 4.0 * kDegree_rad;
    return sd_rad * normal_(random_);
  }

  std::mt19937_64& random() { return random_; }

 private:
  std::mt19937_64 random_;
  std::uniform_real_distribution<double> uniform_{0.0, 1.0};
  std::normal_distribution<double> normal_;
};

TEST(SuspectAngles, ChancesSaidAreChancesRight) {
  constexpr double kMisplaced = 0.05;
  constexpr double kMisread = 0.03;
  Draws draws(kSeed + 1);
  Setting setting = scene::setting();
  setting.staking.misread = kMisread;
  setting.staking.misplaced = kMisplaced;
  double said_right = 0.0;
  double variance = 0.0;
  double right = 0.0;
  for (int round = 0; round < 250; ++round) {
    adjustment::Network network = scene::polygon(6);
    network.instruments.push_back(circle());
    std::vector<base::Point> places = scene::staked(network, scene::kSpread_m, draws.random());
    scene::Named truth;
    for (std::size_t p = 0; p < places.size(); ++p) {
      if (!draws.chance(kMisplaced)) continue;
      places[p] = places[p] + draws.stake_off();
      truth.insert({What::stake, p, 0});
    }
    scene::read_all(network, places, scene::both(scene::sides(6), scene::radii(6)), draws.random());
    turn_all(network, places, interior(6), draws.random());
    turn_all(network, places, at_the_pin(6), draws.random());
    for (std::size_t r = 12; r < network.observations.size(); ++r) {
      if (!draws.chance(kMisread)) continue;
      const double read = network.observations[r].read;
      put_off(
          network, r,
          std::fmod(read + draws.slip_of(read) + 2.0 * std::numbers::pi, 2.0 * std::numbers::pi));
      truth.insert({What::reading, r, 0});
    }
    const Suspects said = weigh(network, setting);
    const double chance = said.ranked.front().chance;
    said_right += chance;
    variance += chance * (1.0 - chance);
    if (scene::named(said.ranked.front().causes) == truth) ++right;
  }
  EXPECT_GT(said_right, 100.0);
  // The leading set is right as often as its chances say, to three standard deviations of the
  // count.
  EXPECT_NEAR(right, said_right, 3.0 * std::sqrt(variance));
}

TEST(SuspectAngles, NextTapesAreTapesAndNeverToBePulledAgainForAnAngle) {
  adjustment::Network network = site(5);
  network.observations.erase(network.observations.begin() + 5, network.observations.begin() + 10);
  scene::add_slip(network, 1, scene::kInch_m);
  const Suspects said = weigh(network, scene::setting());
  for (const NextTape& tape : next_tapes(network, said, scene::setting())) {
    const bool pulled = std::any_of(
        network.observations.begin(), network.observations.end(), [&](const auto& reading) {
          return !reading.is_angle() &&
                 std::minmax(reading.from, reading.to) == std::minmax(tape.from, tape.to);
        });
    EXPECT_EQ(tape.repeat, pulled);
  }
}

}  // namespace
}  // namespace stakewright::suspects

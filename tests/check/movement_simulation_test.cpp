// What the comparison of two rounds promises, counted over simulated sites.
#include <gtest/gtest.h>

#include "two_rounds.hpp"

namespace stakewright::check {
namespace {

using placement::Moved;
using placement::Movement;

constexpr unsigned kSeed = 1812;
constexpr int kSites = 400;
constexpr placement::MovementLevel kLevel;
// The stake that moves: one far from the first, which carries nothing special.
constexpr std::size_t kMoves = 2;

struct Counted {
  double shown = 0.0;
  double right = 0.0;  ///< the stake that moved is named, and no other
  double wrong = 0.0;  ///< a stake that did not move is named
};

/// Over `kSites` sites, the stake moving so many times what is said to be the smallest shown, in
/// a direction drawn.
Counted counted(const two_rounds::Site& site, double times) {
  two_rounds::Pair pair(site, kSeed);
  std::mt19937 random(kSeed);
  const double smallest_m =
      placement::movement(pair.drawn(0, {}), kLevel).stakes[kMoves].smallest_shown_m;
  Counted counted;
  for (int k = 0; k < kSites; ++k) {
    const double bearing = std::uniform_real_distribution<>(0.0, 6.283185307179586)(random);
    const Movement found =
        placement::movement(pair.drawn(kMoves, times * smallest_m * base::along(bearing)), kLevel);
    bool right = found.stakes[kMoves].moved == Moved::yes;
    bool wrong = false;
    for (std::size_t i = 0; i < found.stakes.size(); ++i) {
      const bool named = found.stakes[i].moved == Moved::yes;
      wrong = wrong || (named && (i != kMoves || times == 0.0));
    }
    right = right && !wrong;
    counted.shown += found.shown ? 1.0 / kSites : 0.0;
    counted.right += right ? 1.0 / kSites : 0.0;
    counted.wrong += wrong ? 1.0 / kSites : 0.0;
  }
  return counted;
}

// Without errors of the tape's own both rounds' covariances are exactly right: chi-square at 0.05.
// Three standard deviations of the count over 400 sites are 0.033.
TEST(MovementSimulation, NoiseLooksLikeMovementAsOftenAsIsSaid) {
  two_rounds::Site site = two_rounds::site(6);
  site.says_own_errors = false;
  EXPECT_NEAR(counted(site, 0.0).shown, 0.05, 0.033) << "seed " << kSeed;
}

TEST(MovementSimulation, NoiseIsSeldomerTakenForMovementWhenTheTapeIsTheSame) {
  const Counted noise = counted(two_rounds::site(6), 0.0);
  EXPECT_LE(noise.shown, 0.07) << "seed " << kSeed;
  EXPECT_LE(noise.wrong, 0.05);
}

TEST(MovementSimulation, ACrewWorseThanItsTapeIsNotTakenForMovement) {
  two_rounds::Site site = two_rounds::site(6);
  site.worse = 2.0;
  EXPECT_LE(counted(site, 0.0).shown, 0.08) << "seed " << kSeed;
}

TEST(MovementSimulation, TheSmallestMovementSaidComesToLightFourTimesInFive) {
  const Counted moved = counted(two_rounds::site(6), 1.0);
  EXPECT_GE(moved.shown, 0.76) << "seed " << kSeed;
  EXPECT_LE(moved.wrong, 0.02);
}

TEST(MovementSimulation, TwiceTheSmallestMovementIsNamedAndNoOtherStakeIs) {
  const Counted moved = counted(two_rounds::site(6), 2.0);
  EXPECT_GE(moved.right, 0.97) << "seed " << kSeed;
  EXPECT_LE(moved.wrong, 0.02);
}

}  // namespace
}  // namespace stakewright::check

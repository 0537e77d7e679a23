#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "stakewright/suspects/tapes.hpp"
#include "suspects/draws.hpp"

namespace stakewright::suspects {
namespace {

using scene::kInch_m;
using scene::Named;
using scene::Pair;
using What = Cause::What;

constexpr std::uint64_t kSeed = 3;

/// What it tells apart: the leading cause of each; nothing of nothing wrong.
std::vector<What> told_apart(const Suspects& said, const NextTape& tape) {
  EXPECT_NE(tape.tells, tape.tells_from);
  std::vector<What> whats;
  for (const std::size_t e : {tape.tells, tape.tells_from})
    if (!said.ranked.at(e).causes.empty()) whats.push_back(said.ranked[e].causes.front().what);
  return whats;
}

struct Site {
  adjustment::Network network;
  std::vector<base::Point> places;
  std::mt19937_64 random;

  void pull(Pair pair) { scene::read_all(network, places, {pair}, random); }
};

/// A pentagon of which only the diagonals were pulled, one of them an inch long.
Site pentagon(std::uint64_t seed, std::size_t misread) {
  Site site{scene::polygon(5), {}, std::mt19937_64(seed)};
  site.places = scene::staked(site.network, scene::kSpread_m, site.random);
  scene::read_all(site.network, site.places, scene::diagonals(5), site.random);
  scene::add_slip(site.network, misread, kInch_m);
  return site;
}

/// The first seed from kSeed on whose pentagon leaves it unclear.
Site unclear_pentagon() {
  for (std::uint64_t seed = kSeed;; ++seed) {
    Site site = pentagon(seed, 2);
    const Suspects said = weigh(site.network, scene::setting());
    if (said.ranked.front().chance < 0.6 && !said.ranked.front().causes.empty()) return site;
  }
}

TEST(NextTapes, TellTheMisreadTapeFromAStakeSetWrong) {
  const Site site = unclear_pentagon();
  const Suspects said = weigh(site.network, scene::setting());
  const std::vector<NextTape> tapes = next_tapes(site.network, said, scene::setting());
  ASSERT_FALSE(tapes.empty());
  EXPECT_THAT(told_apart(said, tapes.front()), testing::Contains(What::stake));
  EXPECT_GT(tapes.front().settles, 0.1);
  EXPECT_GE(tapes.front().pulls_until_clear, 1.0);
  for (std::size_t k = 1; k < tapes.size(); ++k) EXPECT_LE(tapes[k].settles, tapes[k - 1].settles);
}

TEST(NextTapes, SettleNoMoreThanThereIsToSettle) {
  const Site site = unclear_pentagon();
  const Suspects said = weigh(site.network, scene::setting());
  double entropy = 0.0;
  for (const Explanation& explanation : said.ranked)
    if (explanation.chance > 0.0)
      entropy -= explanation.chance / (1.0 - said.rest) *
                 std::log2(explanation.chance / (1.0 - said.rest));
  for (const NextTape& tape : next_tapes(site.network, said, scene::setting(), 50)) {
    EXPECT_GE(tape.settles, 0.0);
    EXPECT_LE(tape.settles, entropy);
  }
}

TEST(NextTapes, MarkAPullThatIsARepeat) {
  const Site site = unclear_pentagon();
  const Suspects said = weigh(site.network, scene::setting());
  for (const NextTape& tape : next_tapes(site.network, said, scene::setting(), 50)) {
    const std::size_t skip = (tape.to - tape.from) % 5;
    EXPECT_EQ(tape.repeat, skip == 2 || skip == 3) << tape.from << " " << tape.to;
  }
}

TEST(NextTapes, AreNotAskedForWhenTheAnswerIsClear) {
  std::mt19937_64 random(kSeed);
  adjustment::Network network = scene::polygon(8);
  scene::read_all(network, scene::staked(network, scene::kSpread_m, random),
                  scene::both(scene::sides(8), scene::diagonals(8)), random);
  scene::add_slip(network, 9, 3.0 * kInch_m);
  const Suspects said = weigh(network, scene::setting());
  EXPECT_THAT(next_tapes(network, said, scene::setting()), testing::IsEmpty());
}

TEST(NextTapes, AreNoneWithoutReadings) {
  const adjustment::Network network = scene::polygon(6);
  EXPECT_THAT(next_tapes(network, weigh(network, scene::setting()), scene::setting()),
              testing::IsEmpty());
}

TEST(NextTapes, AskForALengthThatTellsTheTapesZeroFromItsScale) {
  // Sides alone, all an inch long: only a longer pull tells zero from scale.
  std::mt19937_64 random(kSeed);
  adjustment::Network network = scene::polygon(6);
  scene::read_all(network, scene::staked(network, scene::kSpread_m, random), scene::sides(6),
                  random);
  for (std::size_t side = 0; side < 6; ++side) scene::add_slip(network, side, kInch_m);
  const Suspects said = weigh(network, scene::setting());
  const std::vector<NextTape> tapes = next_tapes(network, said, scene::setting());
  ASSERT_FALSE(tapes.empty());
  EXPECT_FALSE(tapes.front().repeat);
  EXPECT_THAT(told_apart(said, tapes.front()),
              testing::UnorderedElementsAre(What::instrument_zero, What::instrument_scale));
}

TEST(NextTapes, AskForAnotherTapeWhenTheFirstMayBeOff) {
  // Six radii, all 5 mm long: the stakes may stand so, or the tape's hook is worn.  The same tape
  // would say the same again.
  adjustment::Network network = scene::polygon(6);
  for (std::size_t corner = 0; corner < 6; ++corner)
    scene::read(network, {6, corner}, scene::planned_m(network, {6, corner}) + 0.005);
  const std::vector<NextTape> tapes =
      next_tapes(network, weigh(network, scene::setting()), scene::setting());
  ASSERT_FALSE(tapes.empty());
  EXPECT_TRUE(tapes.front().another_tape);
}

TEST(NextTapes, PulledOneAfterAnotherGiveAClearAnswerInAboutAsManyAsTheySaid) {
  // Pentagons with a misread diagonal, followed until clear; the first word is compared with what
  // it took on average.
  double said = 0.0;
  double took = 0.0;
  double right = 0.0;
  int sites = 0;
  for (std::uint64_t seed = kSeed; seed < kSeed + 120; ++seed) {
    Site site = pentagon(seed, seed % 5);
    Suspects suspects = weigh(site.network, scene::setting());
    std::vector<NextTape> tapes = next_tapes(site.network, suspects, scene::setting(), 1);
    if (tapes.empty() || suspects.ranked.front().causes.empty()) continue;
    ++sites;
    said += tapes.front().pulls_until_clear;
    constexpr int kMost = 12;
    for (int pulls = 0; pulls < kMost && !tapes.empty(); ++pulls) {
      site.pull({tapes.front().from, tapes.front().to});
      took += 1.0;
      suspects = weigh(site.network, scene::setting());
      tapes = next_tapes(site.network, suspects, scene::setting(), 1);
    }
    const Named leading = scene::named(suspects.ranked.front().causes);
    if (leading.count({What::reading, seed % 5, 0}) > 0) right += 1.0;
  }
  ASSERT_GT(sites, 30);
  EXPECT_LT(took, 2.0 * said) << "in " << sites << " sites, seeds from " << kSeed;
  EXPECT_GT(took, 0.5 * said) << "in " << sites << " sites, seeds from " << kSeed;
  EXPECT_GE(right / sites, 0.90) << "seeds from " << kSeed;
}

}  // namespace
}  // namespace stakewright::suspects

// A short run of the simulation in tests/speed/simulate_suspects.cpp: the chances
// are right, and the true cause leads about as often as the design's table asks.

#include <gtest/gtest.h>

#include "suspects/draws.hpp"

namespace stakewright::suspects {
namespace {

using scene::Named;
using scene::Pair;

constexpr std::uint64_t kSeed = 2024;

TEST(Calibration, ChancesSaidAreChancesRight) {
  constexpr int kRounds = 200;
  double said = 0.0;
  double variance = 0.0;
  double right = 0.0;
  double sure = 0.0;
  double sure_right = 0.0;
  for (const std::size_t n : {std::size_t{5}, std::size_t{6}, std::size_t{8}}) {
    scene::Draws draws(kSeed + n);
    for (int k = 0; k < kRounds; ++k) {
      const std::vector<Pair> pairs =
          k % 2 == 0 ? scene::both(scene::sides(n), scene::diagonals(n)) : scene::diagonals(n);
      const scene::Round round = draws.round(n, pairs, scene::setting());
      const Suspects suspects = weigh(round.network, scene::setting());
      if (suspects.ranked.empty()) continue;
      const double chance = suspects.ranked.front().chance;
      const bool true_one = scene::named(suspects.ranked.front().causes) == round.causes;
      said += chance;
      variance += chance * (1.0 - chance);
      right += true_one ? 1.0 : 0.0;
      if (chance > 0.90) {
        sure += 1.0;
        sure_right += true_one ? 1.0 : 0.0;
      }
    }
  }
  EXPECT_NEAR(right, said, 3.0 * std::sqrt(variance)) << "seeds from " << kSeed;
  EXPECT_GT(sure, 200.0);
  EXPECT_GE(sure_right / sure, 0.90) << "of " << sure << ", seeds from " << kSeed;
}

/// A row of the design's table.
struct Cell {
  const char* what;
  std::size_t sides;
  bool sides_too;
  Cause::What cause;
  double size_m;
  int asked;  ///< per cent: design, section 8
};

void PrintTo(const Cell& cell, std::ostream* out) { *out << cell.what << ", " << cell.sides; }

class DesignTable : public testing::TestWithParam<Cell> {};

INSTANTIATE_TEST_SUITE_P(
    Cells, DesignTable,
    testing::Values(
        Cell{"reading 1 in", 5, true, Cause::What::reading, scene::kInch_m, 99},
        Cell{"reading 1/2 in", 5, true, Cause::What::reading, 0.5 * scene::kInch_m, 61},
        Cell{"reading 1/2 in", 8, true, Cause::What::reading, 0.5 * scene::kInch_m, 86},
        Cell{"stake 1 in", 6, true, Cause::What::stake, scene::kInch_m, 99},
        Cell{"reading 1 in, diagonals", 5, false, Cause::What::reading, scene::kInch_m, 76},
        Cell{"stake 1 in, diagonals", 5, false, Cause::What::stake, scene::kInch_m, 61},
        Cell{"stake 1 in, diagonals", 6, false, Cause::What::stake, scene::kInch_m, 91}));

TEST_P(DesignTable, TheTrueCauseLeadsAboutAsOftenAsAsked) {
  const Cell& cell = GetParam();
  constexpr int kRounds = 150;
  std::mt19937_64 random(kSeed);
  int leading = 0;
  for (int k = 0; k < kRounds; ++k) {
    adjustment::Network network = scene::polygon(cell.sides);
    const std::vector<Pair> pairs =
        cell.sides_too ? scene::both(scene::sides(cell.sides), scene::diagonals(cell.sides))
                       : scene::diagonals(cell.sides);
    std::vector<base::Point> places = scene::staked(network, scene::kSpread_m, random);
    const bool reading = cell.cause == Cause::What::reading;
    const std::size_t which = random() % (reading ? pairs.size() : cell.sides);
    const double bearing = std::uniform_real_distribution<>(0.0, 6.283185307)(random);
    if (!reading) places[which] = places[which] + cell.size_m * base::along(bearing);
    scene::read_all(network, places, pairs, random);
    if (reading) scene::add_slip(network, which, bearing < 3.0 ? cell.size_m : -cell.size_m);
    const Suspects said = weigh(network, scene::setting());
    if (scene::named(said.ranked.front().causes) == Named{{cell.cause, which, 0}}) ++leading;
  }
  // Three standard deviations of the count under the share asked.
  const double p = cell.asked / 100.0;
  EXPECT_GE(leading, kRounds * p - 3.0 * std::sqrt(kRounds * p * (1.0 - p))) << "seed " << kSeed;
}

}  // namespace
}  // namespace stakewright::suspects

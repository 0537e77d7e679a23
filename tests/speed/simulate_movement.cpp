// The simulation behind the figures of docs/methods/movement.md: how often noise is taken for
// movement, and how often a stake that moved is named.
//
//   simulate_movement [SITES]
//
// SITES per cell (default 4000).  Seeds are fixed: the same count gives the same figures.

#include <fmt/format.h>

#include <cstdlib>

#include "check/two_rounds.hpp"

namespace stakewright {
namespace {

using placement::Moved;

constexpr unsigned kSeed = 40;
constexpr std::size_t kMoves = 2;
constexpr placement::MovementLevel kLevel;

struct Shares {
  int shown = 0;
  int named = 0;  ///< the stake that moved, and no other
  int wrong = 0;  ///< a stake that stood still
};

Shares shares(const two_rounds::Site& site, double by_m, int sites) {
  two_rounds::Pair pair(site, kSeed);
  std::mt19937 random(kSeed);
  Shares result;
  for (int k = 0; k < sites; ++k) {
    const double bearing = std::uniform_real_distribution<>(0.0, 6.283185307179586)(random);
    const auto found = placement::movement(pair.drawn(kMoves, by_m * base::along(bearing)), kLevel);
    bool wrong = false;
    for (std::size_t i = 0; i < found.stakes.size(); ++i) {
      if (found.stakes[i].moved == Moved::yes && (i != kMoves || by_m == 0.0)) wrong = true;
    }
    const bool named = by_m > 0.0 && found.stakes[kMoves].moved == Moved::yes && !wrong;
    result.shown += found.shown ? 1 : 0;
    result.named += named ? 1 : 0;
    result.wrong += wrong ? 1 : 0;
  }
  return result;
}

double percent(int count, int sites) { return 100.0 * count / sites; }

double smallest_m(const two_rounds::Site& site) {
  two_rounds::Pair pair(site, kSeed);
  return placement::movement(pair.drawn(kMoves, {}), kLevel).stakes[kMoves].smallest_shown_m;
}

void print_noise(int sites) {
  fmt::print("nothing moved: shown to have moved / a stake named, per cent\n");
  for (const int sides : {5, 6, 8}) {
    two_rounds::Site exact = two_rounds::site(sides);
    exact.says_own_errors = false;
    two_rounds::Site same = two_rounds::site(sides);
    two_rounds::Site other = same;
    other.same_tape = false;
    two_rounds::Site worse = same;
    worse.worse = 2.0;
    fmt::print("  {} sides:", sides);
    for (const auto& site : {exact, same, other, worse}) {
      const Shares s = shares(site, 0.0, sites);
      fmt::print("  {:.1f} / {:.1f}", percent(s.shown, sites), percent(s.wrong, sites));
    }
    fmt::print("\n");
  }
}

void print_power(int sites) {
  fmt::print("stake C moved: smallest said in mm; shown / named alone / another named, per cent\n");
  for (const int sides : {5, 6, 8}) {
    const two_rounds::Site site = two_rounds::site(sides);
    const double said_m = smallest_m(site);
    fmt::print("  {} sides: {:.1f} mm", sides, 1000.0 * said_m);
    for (const double by_m : {said_m, 0.00635, 0.0127, 0.0254}) {
      const Shares s = shares(site, by_m, sites);
      fmt::print("  {:.1f} mm: {:.0f} / {:.0f} / {:.1f}", 1000.0 * by_m, percent(s.shown, sites),
                 percent(s.named, sites), percent(s.wrong, sites));
    }
    fmt::print("\n");
  }
}

}  // namespace
}  // namespace stakewright

int main(int argc, char** argv) {
  const int sites = argc > 1 ? std::atoi(argv[1]) : 4000;
  stakewright::print_noise(sites);
  stakewright::print_power(sites);
  return 0;
}

// The simulation behind the figures of docs/methods/suspects.md: how often the
// true cause leads the list, and whether the chances said are right.
//
//   simulate_suspects [ROUNDS [SVG]]
//
// ROUNDS per cell (default 1000; a few minutes).  SVG: where to write the reliability curve.
// Seeds are fixed: the same rounds give the same figures.

#include <fmt/format.h>

#include <array>
#include <cstdlib>
#include <fstream>

#include "suspects/draws.hpp"

namespace stakewright {
namespace {

using scene::Pair;
using suspects::Cause;

constexpr std::size_t kSides[] = {5, 6, 8};
constexpr std::uint64_t kSeed = 20;

struct Kind {
  const char* name;
  bool sides_too;
  Cause::What what;
  double size_m;
  std::array<int, 3> asked;  ///< the design's table, per cent
};

constexpr Kind kTable[] = {
    {"sides + diagonals, one reading 1 in off",
     true,
     Cause::What::reading,
     scene::kInch_m,
     {99, 99, 99}},
    {"sides + diagonals, one reading 1/2 in off",
     true,
     Cause::What::reading,
     0.5 * scene::kInch_m,
     {61, 73, 86}},
    {"sides + diagonals, one stake 1 in off",
     true,
     Cause::What::stake,
     scene::kInch_m,
     {98, 99, 99}},
    {"diagonals alone, one reading 1 in off",
     false,
     Cause::What::reading,
     scene::kInch_m,
     {76, 98, 99}},
    {"diagonals alone, one stake 1 in off",
     false,
     Cause::What::stake,
     scene::kInch_m,
     {61, 91, 99}},
};

std::vector<Pair> pairs(std::size_t n, bool sides_too) {
  return sides_too ? scene::both(scene::sides(n), scene::diagonals(n)) : scene::diagonals(n);
}

/// Share of rounds with one known cause in which it leads.
double share_leading(const Kind& kind, std::size_t n, int rounds, bool in_feet_inches) {
  std::mt19937_64 random(kSeed + n);
  int leading = 0;
  for (int k = 0; k < rounds; ++k) {
    adjustment::Network network = scene::polygon(n);
    const std::vector<Pair> taped = pairs(n, kind.sides_too);
    std::vector<base::Point> places = scene::staked(network, scene::kSpread_m, random);
    const bool reading = kind.what == Cause::What::reading;
    const std::size_t which = random() % (reading ? taped.size() : n);
    const double bearing = std::uniform_real_distribution<>(0.0, 2.0 * std::numbers::pi)(random);
    if (!reading) places[which] = places[which] + kind.size_m * base::along(bearing);
    scene::read_all(network, places, taped, random);
    if (reading)
      scene::add_slip(network, which, bearing < std::numbers::pi ? kind.size_m : -kind.size_m);
    if (in_feet_inches) scene::write_in_feet_inches(network);
    const suspects::Suspects said = suspects::weigh(network, scene::setting());
    if (scene::named(said.ranked.front().causes) == scene::Named{{kind.what, which, 0}}) ++leading;
  }
  return 100.0 * leading / rounds;
}

void print_table(int rounds) {
  for (const bool in_feet_inches : {false, true}) {
    fmt::print("\nTrue cause leads the list, % (design's figure), {} rounds, written in {}\n",
               rounds, in_feet_inches ? "feet-inches" : "mm");
    for (const Kind& kind : kTable) {
      fmt::print("{:<44}", kind.name);
      for (std::size_t c = 0; c < std::size(kSides); ++c) {
        fmt::print("  {:5.1f} ({})", share_leading(kind, kSides[c], rounds, in_feet_inches),
                   kind.asked[c]);
        std::fflush(stdout);
      }
      fmt::print("\n");
    }
  }
}

/// Chances said against how often they were right.
class Reliability {
 public:
  static constexpr std::size_t kBins = 10;
  struct Bin {
    int count = 0;
    double said = 0.0;
    int right = 0;
  };

  void add(const suspects::Suspects& said, const scene::Named& truth) {
    for (std::size_t e = 0; e < said.ranked.size(); ++e) {
      const bool right = scene::named(said.ranked[e].causes) == truth;
      const double chance = said.ranked[e].chance;
      Bin& bin = bins_[std::min(kBins - 1, static_cast<std::size_t>(chance * kBins))];
      ++bin.count;
      bin.said += chance;
      bin.right += right ? 1 : 0;
      if (e == 0 && chance > 0.90) {
        ++sure_;
        sure_right_ += right ? 1 : 0;
      }
    }
  }

  void add(const Reliability& other) {
    for (std::size_t b = 0; b < kBins; ++b) {
      bins_[b].count += other.bins_[b].count;
      bins_[b].said += other.bins_[b].said;
      bins_[b].right += other.bins_[b].right;
    }
    sure_ += other.sure_;
    sure_right_ += other.sure_right_;
  }

  [[nodiscard]] const std::array<Bin, kBins>& bins() const { return bins_; }
  [[nodiscard]] int sure() const { return sure_; }
  [[nodiscard]] double sure_right() const { return 100.0 * sure_right_ / std::max(1, sure_); }

 private:
  std::array<Bin, kBins> bins_{};
  int sure_ = 0;
  int sure_right_ = 0;
};

void print_bins(const Reliability& reliability) {
  fmt::print("{:>10} {:>10} {:>10} {:>10}\n", "entries", "said %", "right %", "+- %");
  for (const Reliability::Bin& bin : reliability.bins()) {
    if (bin.count == 0) continue;
    const double said = bin.said / bin.count;
    fmt::print("{:>10} {:>10.1f} {:>10.1f} {:>10.1f}\n", bin.count, 100.0 * said,
               100.0 * bin.right / bin.count, 100.0 * std::sqrt(said * (1.0 - said) / bin.count));
  }
}

Reliability calibrated(int rounds) {
  Reliability all;
  fmt::print("\nChance said above 90 %: how often right, causes drawn from the priors\n");
  for (const bool sides_too : {true, false})
    for (const std::size_t n : kSides) {
      scene::Draws draws(kSeed + n + (sides_too ? 100 : 200));
      Reliability cell;
      for (int k = 0; k < rounds; ++k) {
        const scene::Round round = draws.round(n, pairs(n, sides_too), scene::setting());
        cell.add(suspects::weigh(round.network, scene::setting()), round.causes);
      }
      fmt::print("{:<18} {} sides: {:5.1f} % of {}\n",
                 sides_too ? "sides + diagonals" : "diagonals alone", n, cell.sure_right(),
                 cell.sure());
      std::fflush(stdout);
      all.add(cell);
    }
  print_bins(all);
  return all;
}

/// Sites that are not as the priors say: other sizes of slips and shifts, and tapes of which one
/// pull in ten is three times as rough.
Reliability unlike_the_priors(int rounds) {
  Reliability all;
  for (const std::size_t n : kSides) {
    std::mt19937_64 random(kSeed + n + 300);
    const auto size = [&] { return std::uniform_real_distribution<>(0.010, 0.060)(random); };
    const auto chance = [&](double p) {
      return std::uniform_real_distribution<>(0.0, 1.0)(random) < p;
    };
    for (int k = 0; k < rounds; ++k) {
      adjustment::Network network = scene::polygon(n);
      scene::Named truth;
      std::vector<base::Point> places = scene::staked(network, scene::kSpread_m, random);
      for (std::size_t p = 0; p < n; ++p)
        if (chance(0.05)) {
          places[p] = places[p] + size() * base::along(100.0 * size());
          truth.insert({Cause::What::stake, p, 0});
        }
      scene::read_all(network, places, pairs(n, true), random);
      std::normal_distribution<double> rough(0.0, 3.0 * scene::kSigma_m);
      for (std::size_t i = 0; i < network.observations.size(); ++i) {
        if (chance(0.10)) scene::add_slip(network, i, rough(random));
        if (!chance(0.02)) continue;
        scene::add_slip(network, i, chance(0.5) ? size() : -size());
        truth.insert({Cause::What::reading, i, 0});
      }
      all.add(suspects::weigh(network, scene::setting()), truth);
    }
  }
  return all;
}

/// A square of the chances said (across) and right (up), the diagonal, and a dot with two standard
/// deviations for each tenth.
std::string curve(const Reliability& reliability) {
  constexpr double kSize = 400.0;
  constexpr double kLeft = 60.0;
  constexpr double kTop = 20.0;
  const auto x = [](double chance) { return kLeft + kSize * chance; };
  const auto y = [](double chance) { return kTop + kSize * (1.0 - chance); };
  std::string svg =
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"480\" height=\"480\" viewBox=\"0 0 480 "
      "480\" "
      "font-family=\"sans-serif\" font-size=\"12\">\n"
      "<title>Chances said against how often they were right</title>\n"
      "<desc>One dot for each tenth of chance, with two standard deviations each way. Dots on the "
      "diagonal mean that the chances are right.</desc>\n"
      "<rect width=\"480\" height=\"480\" fill=\"white\"/>\n";
  svg += fmt::format(
      "<rect x=\"{0}\" y=\"{1}\" width=\"{2}\" height=\"{2}\" fill=\"none\" stroke=\"black\"/>\n"
      "<path d=\"M{0} {3} L{4} {1}\" stroke=\"black\" stroke-dasharray=\"4 4\"/>\n",
      kLeft, kTop, kSize, kTop + kSize, kLeft + kSize);
  for (int tick = 0; tick <= 10; tick += 2)
    svg += fmt::format(
        "<text x=\"{:.0f}\" y=\"{:.0f}\" text-anchor=\"middle\">{}</text>\n"
        "<text x=\"{:.0f}\" y=\"{:.0f}\" text-anchor=\"end\">{}</text>\n",
        x(0.1 * tick), kTop + kSize + 16.0, 10 * tick, kLeft - 6.0, y(0.1 * tick) + 4.0, 10 * tick);
  svg +=
      fmt::format("<text x=\"{:.0f}\" y=\"{:.0f}\" text-anchor=\"middle\">chance said, %</text>\n",
                  x(0.5), kTop + kSize + 36.0);
  svg += fmt::format(
      "<text transform=\"translate(18 {:.0f}) rotate(-90)\" text-anchor=\"middle\">how often "
      "right, "
      "%</text>\n",
      y(0.5));
  for (const Reliability::Bin& bin : reliability.bins()) {
    if (bin.count == 0) continue;
    const double said = bin.said / bin.count;
    const double right = static_cast<double>(bin.right) / bin.count;
    const double two_sd = 2.0 * std::sqrt(said * (1.0 - said) / bin.count);
    svg += fmt::format(
        "<path d=\"M{0:.1f} {1:.1f} V{2:.1f}\" stroke=\"black\"/>\n"
        "<circle cx=\"{0:.1f}\" cy=\"{3:.1f}\" r=\"4\"/>\n",
        x(said), y(std::min(1.0, right + two_sd)), y(std::max(0.0, right - two_sd)), y(right));
  }
  return svg + "</svg>\n";
}

int run(int rounds, const char* svg) {
  fmt::print("Seeds from {}.  sigma 2 mm, spread 3 mm, corner radius 3.5 m.\n", kSeed);
  print_table(rounds);
  const Reliability reliability = calibrated(2 * rounds);
  const Reliability other = unlike_the_priors(rounds);
  fmt::print(
      "\nSlips and shifts of 10 to 60 mm, one pull in ten three times as rough: said above 90 %, "
      "{:.1f} % of {} right\n",
      other.sure_right(), other.sure());
  print_bins(other);
  if (svg == nullptr) return 0;
  std::ofstream file(svg);
  file << curve(reliability);
  return file.good() ? 0 : 1;
}

}  // namespace
}  // namespace stakewright

int main(int count, char** words) {
  const int rounds = count > 1 ? std::atoi(words[1]) : 1000;
  if (rounds < 1) {
    fmt::print(stderr, "simulate_suspects [ROUNDS [SVG]]; ROUNDS is a whole number above 0\n");
    return 2;
  }
  return stakewright::run(rounds, count > 2 ? words[2] : nullptr);
}

// What goes wrong on a site, drawn by the chances and sizes of
// docs/methods/suspects.md.  Written from that page and not from the code, so that
// the two check one another.  Metric sizes.
#pragma once

#include <algorithm>
#include <set>
#include <string>
#include <tuple>

#include "suspects/scene.hpp"

namespace stakewright::scene {

/// A set of causes by name, for comparing the true one with the one said.
using Named = std::set<std::tuple<suspects::Cause::What, std::size_t, std::size_t>>;

inline Named named(const std::vector<suspects::Cause>& causes) {
  Named result;
  for (const suspects::Cause& cause : causes) {
    if (cause.what == suspects::Cause::What::wrong_stake)
      result.insert({suspects::Cause::What::reading, cause.index, 0});
    else
      result.insert({cause.what, cause.index, cause.other.value_or(0)});
  }
  return result;
}

struct Round {
  adjustment::Network network;
  Named causes;
};

class Draws {
 public:
  explicit Draws(std::uint64_t seed) : random_(seed) {}

  /// One round: staked, gone wrong as it may, and taped.
  Round round(std::size_t n, const std::vector<Pair>& pairs, const suspects::Setting& setting) {
    Round result{polygon(n), {}};
    adjustment::Network& network = result.network;
    std::vector<base::Point> places = staked(network, setting.staking.spread_m, random_);
    set_stakes_wrong(result, places, pairs, setting.staking.misplaced);
    change_labels(result, places, setting.staking.misplaced);
    read_all(network, places, pairs, random_);
    put_instrument_off(result);
    for (std::size_t i = 0; i < pairs.size(); ++i)
      if (chance(setting.staking.misread)) slip(result, places, i);
    change_rows(result, setting.staking.misread);
    return result;
  }

  std::mt19937_64& random() { return random_; }

 private:
  using What = suspects::Cause::What;

  bool chance(double p) { return std::uniform_real_distribution<>(0.0, 1.0)(random_) < p; }
  double normal() { return normal_(random_); }
  std::size_t one_of(std::size_t count) {
    return std::uniform_int_distribution<std::size_t>(0, count - 1)(random_);
  }
  double sign() { return chance(0.5) ? 1.0 : -1.0; }
  /// Index drawn by shares.
  std::size_t by_share(const std::vector<double>& shares) {
    return std::discrete_distribution<std::size_t>(shares.begin(), shares.end())(random_);
  }
  double of_no_kind() {
    constexpr double kSds[] = {0.018, 0.040, 0.250};
    return kSds[by_share({0.26, 0.20, 0.10})] * normal();
  }

  void set_stakes_wrong(Round& round, std::vector<base::Point>& places,
                        const std::vector<Pair>& pairs, double misplaced) {
    constexpr double kSds[] = {0.020, 0.050, 0.250};
    for (std::size_t p = 0; p < places.size(); ++p) {
      const bool reached = std::any_of(pairs.begin(), pairs.end(), [&](const Pair& pair) {
        return pair.first == p || pair.second == p;
      });
      if (!reached || !chance(misplaced)) continue;
      const double sd = kSds[by_share({0.25, 0.48, 0.27})];
      places[p] = places[p] + sd * base::Point{normal(), normal()};
      round.causes.insert({What::stake, p, 0});
    }
  }

  void change_labels(Round& round, std::vector<base::Point>& places, double misplaced) {
    const std::size_t n = round.network.corner_count;
    for (std::size_t p = 0; p < n; ++p)
      for (std::size_t q = p + 1; q < n; ++q) {
        const bool next = q == p + 1 || (p == 0 && q == n - 1);
        if (!chance(misplaced * (next ? 0.04 : 0.04 / static_cast<double>(n)))) continue;
        std::swap(places[p], places[q]);
        round.causes.insert({What::labels, p, q});
        return;
      }
  }

  void put_instrument_off(Round& round) {
    double zero = 0.0;
    double scale = 0.0;
    if (chance(0.005)) {
      // Widths as listed, the marks as for a reading.
      const std::size_t kind = by_share({0.405, 0.405, 0.11, 0.01, 0.03, 0.03, 0.01});
      const double size[] = {0.005 * normal(), 0.030 * normal(), 0.1 * sign(), 0.2 * sign(),
                             1.0 * sign(),     0.01 * sign(),    0.02 * sign()};
      zero = size[kind];
      round.causes.insert({What::instrument_zero, 0, 0});
    }
    if (chance(0.005)) {
      scale = (chance(0.6) ? 0.0015 : 0.006) * normal();
      round.causes.insert({What::instrument_scale, 0, 0});
    }
    for (std::size_t i = 0; i < round.network.observations.size(); ++i)
      add_slip(round.network, i, zero + scale * round.network.observations[i].corrected);
  }

  void slip(Round& round, const std::vector<base::Point>& places, std::size_t i) {
    round.causes.insert({What::reading, i, 0});
    readings::Observation& reading = round.network.observations[i];
    const std::size_t kind =
        by_share({0.11, 0.01, 0.03, 0.03, 0.01, 0.04, 0.05, /* none of these: */ 0.72});
    const double marks[] = {0.1, 0.2, 1.0, 0.01, 0.02};
    if (kind < 5) return add_slip(round.network, i, sign() * marks[kind]);
    if (kind == 5) return change_digits(round.network, i);
    if (kind == 6) {
      const std::size_t held = chance(0.5) ? reading.from : reading.to;
      std::size_t end = one_of(places.size());
      while (std::abs(planned_m(round.network, {held, end}) -
                      planned_m(round.network, {reading.from, reading.to})) < 0.016)
        end = one_of(places.size());
      if (end == held) return add_slip(round.network, i, of_no_kind());
      return add_slip(round.network, i,
                      base::distance_m(places[held], places[end]) -
                          base::distance_m(places[reading.from], places[reading.to]));
    }
    add_slip(round.network, i, of_no_kind());
  }

  /// Two neighboring digits of the millimeters.
  void change_digits(adjustment::Network& network, std::size_t i) {
    std::string digits = std::to_string(std::llround(network.observations[i].read * 1000.0));
    const std::size_t place = one_of(digits.size() - 1);
    std::swap(digits[place], digits[place + 1]);
    add_slip(network, i, std::stod(digits) / 1000.0 - network.observations[i].read);
  }

  void change_rows(Round& round, double misread) {
    auto& list = round.network.observations;
    for (std::size_t i = 0; i < list.size(); ++i)
      for (std::size_t j = i + 1; j < list.size(); ++j) {
        const double m = static_cast<double>(list.size());
        if (!chance(misread * (j == i + 1 ? 0.05 : 0.05 / m))) continue;
        const double apart = planned_m(round.network, {list[i].from, list[i].to}) -
                             planned_m(round.network, {list[j].from, list[j].to});
        if (std::abs(apart) < 0.016) continue;
        std::swap(list[i].corrected, list[j].corrected);
        std::swap(list[i].read, list[j].read);
        round.causes.insert({What::rows, i, j});
      }
  }

  std::mt19937_64 random_;
  std::normal_distribution<double> normal_;
};

}  // namespace stakewright::scene

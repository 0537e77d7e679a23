// Crews in code that pull the same tapes in two rounds; stakes move between them, or do not.
#pragma once

#include <random>
#include <vector>

#include "stakewright/adjustment/adjust.hpp"
#include "stakewright/adjustment/quantiles.hpp"
#include "stakewright/layout/plan.hpp"
#include "stakewright/placement/movement.hpp"
#include "stakewright/readings/observation.hpp"

namespace stakewright::two_rounds {

/// One shelter, taped all round: sides, diagonals and, when asked, corner radii.
struct Site {
  layout::Plan plan;
  bool radii = true;
  double spread_m = 0.003;      ///< how stakes stand before
  double worse = 1.0;           ///< the crew's errors over those its tape is said to have
  bool same_tape = true;        ///< its own scale and zero are the same in both rounds
  bool says_own_errors = true;  ///< the tape is known to have a scale and a zero of its own
};

inline Site site(int sides) {
  Site result;
  result.plan.polygon = layout::polygon_from(layout::Size::corner_radius, 3.5, sides);
  return result;
}

struct Own {
  double scale = 0.0;
  double zero_m = 0.0;
};

class Pair {
 public:
  Pair(const Site& site, unsigned seed) : site_(site), random_(seed) {
    tape_ = readings::built_in_instruments().front();
    if (!site.says_own_errors) tape_.scale = tape_.zero_m = 0.0;
  }

  /// Both rounds; between them stake `moved` goes by `by`.
  placement::TwoRounds drawn(std::size_t moved, base::Point by) {
    std::vector<base::Point> stakes;
    for (const layout::Stake& stake : layout::stakes(site_.plan))
      stakes.push_back(stake.at + base::Point{normal(site_.spread_m), normal(site_.spread_m)});
    stakes.push_back(site_.plan.center);
    const Own own = another_tape();
    const adjustment::Adjustment before = adjusted(stakes, own);
    stakes[moved] = stakes[moved] + by;
    const adjustment::Adjustment after = adjusted(stakes, site_.same_tape ? own : another_tape());
    return together(before, after);
  }

 private:
  double normal(double sd) { return std::normal_distribution<double>(0.0, 1.0)(random_) * sd; }

  Own another_tape() { return {normal(tape_.scale), normal(tape_.zero_m)}; }

  adjustment::Adjustment adjusted(const std::vector<base::Point>& stakes, const Own& own) {
    adjustment::Network network = adjustment::network(site_.plan, pulls(), {tape_});
    for (readings::Observation& pull : network.observations) {
      const double true_m = base::distance_m(stakes[pull.from], stakes[pull.to]);
      pull.corrected = (1.0 + own.scale) * true_m + own.zero_m + normal(site_.worse * pull.sd);
    }
    return adjustment::adjust(network);
  }

  [[nodiscard]] std::vector<readings::Reading> pulls() const {
    std::vector<readings::Reading> result;
    for (const layout::Tape& tape : layout::check_tapes(site_.plan)) {
      if (tape.skip == 0 && !site_.radii) continue;
      readings::Reading reading;
      reading.from = tape.from;
      reading.to = tape.to;
      reading.instrument = tape_.name;
      reading.value_m = tape.length_m;
      result.push_back(reading);
    }
    return result;
  }

  [[nodiscard]] placement::TwoRounds together(const adjustment::Adjustment& before,
                                              const adjustment::Adjustment& after) const {
    placement::TwoRounds rounds;
    for (const layout::Stake& stake : layout::stakes(site_.plan))
      rounds.planned.push_back(stake.at);
    rounds.planned.push_back(site_.plan.center);
    rounds.center = site_.plan.center;
    rounds.before = before.found;
    rounds.after = after.found;
    rounds.measured = before.place_known;
    rounds.covariance = before.covariance;
    for (std::size_t k = 0; k < rounds.covariance.values.size(); ++k)
      rounds.covariance.values[k] += after.covariance.values[k];
    const int redundancy = before.redundancy + after.redundancy;
    const double squares = before.chi_square + after.chi_square;
    if (squares > adjustment::chi_square_limit(adjustment::kSetAlpha, redundancy)) {
      rounds.redundancy = redundancy;
      rounds.variance_factor = squares / redundancy;
    }
    return rounds;
  }

  Site site_;
  std::mt19937 random_;
  readings::Instrument tape_;
};

}  // namespace stakewright::two_rounds

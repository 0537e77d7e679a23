// A crew in code: stakes set as planned but for what a test puts wrong, tapes pulled between them
// with an error drawn for each, readings written down but for what a test misreads.
#pragma once

#include <algorithm>
#include <random>
#include <string>
#include <string_view>
#include <vector>

#include "stakewright/check/check.hpp"

namespace stakewright::check {

inline constexpr double kInch_m = 0.0254;
inline constexpr double kFoot_m = 0.3048;

class Crew {
 public:
  Crew(int sides, unsigned seed) : random_(seed) {
    input_.plan.polygon = layout::polygon_from(layout::Size::corner_radius, 3.5, sides);
    input_.plan.center = {4.0, -2.0};
    input_.plan.facing_rad = 0.4;
    input_.instruments = readings::built_in_instruments();
    stakes_ = layout::stakes(input_.plan);
    stakes_.push_back({layout::kCenterLabel, input_.plan.center});
  }

  Input& input() { return input_; }

  /// Stakes stand where a careful crew puts them: off by some millimeters each way.
  Crew& set_stakes(double spread_m) {
    std::normal_distribution<double> normal(0.0, spread_m);
    for (layout::Stake& stake : stakes_) {
      const double x = normal(random_);
      stake.at = stake.at + base::Point{x, normal(random_)};
    }
    return *this;
  }

  Crew& set_wrong(std::string_view label, double outward_m, double sideways_m) {
    base::Point& at = place(label);
    const base::Point radius = at - input_.plan.center;
    const base::Point outward = (1.0 / base::norm_m(radius)) * radius;
    at = at + outward_m * outward + sideways_m * base::clockwise(outward);
    return *this;
  }

  /// One reading, with the error a good steel tape makes: 2 mm.
  Crew& pull(const std::string& from, const std::string& to) {
    std::normal_distribution<double> normal(0.0, 0.0015);
    readings::Reading reading;
    reading.from = from;
    reading.to = to;
    reading.instrument = readings::default_instrument(readings::Kind::tape);
    reading.value_m = base::distance_m(place(from), place(to)) + normal(random_);
    reading.written = base::Units::feet_inches;
    input_.readings.push_back(reading);
    return *this;
  }

  /// A rod on every corner, footings at the heights given, in order: 0 for those left out.
  Crew& read_rods(const std::string& set_up, std::vector<double> heights_m = {}) {
    std::normal_distribution<double> normal(0.0, 0.0007);
    heights_m.resize(stakes_.size() - 1);
    for (std::size_t i = 0; i + 1 < stakes_.size(); ++i) {
      readings::Reading rod;
      rod.kind = readings::Kind::level;
      rod.from = set_up;
      rod.to = stakes_[i].label;
      rod.instrument = readings::default_instrument(rod.kind);
      rod.value_m = 1.4 - heights_m[i] + normal(random_);
      rod.written = base::Units::feet_inches;
      input_.readings.push_back(rod);
    }
    return *this;
  }

  Crew& pull_skips(int from_skip, int to_skip) {
    for (const layout::Tape& tape : layout::check_tapes(input_.plan)) {
      if (tape.skip >= from_skip && tape.skip <= to_skip) pull(tape.from, tape.to);
    }
    return *this;
  }

  Crew& pull_sides() { return pull_skips(1, 1); }
  Crew& pull_sides_and_diagonals() { return pull_skips(1, layout::kMostSides); }
  Crew& pull_corner_radii() { return pull_skips(0, 0); }

  Crew& misread(std::string_view from, std::string_view to, double by_m) {
    input_.readings[index_of(from, to)].value_m += by_m;
    return *this;
  }

  std::size_t index_of(std::string_view from, std::string_view to) {
    const auto found =
        std::find_if(input_.readings.begin(), input_.readings.end(),
                     [&](const readings::Reading& r) { return r.from == from && r.to == to; });
    return static_cast<std::size_t>(found - input_.readings.begin());
  }

  base::Point& place(std::string_view label) {
    return std::find_if(stakes_.begin(), stakes_.end(),
                        [&](const layout::Stake& stake) { return stake.label == label; })
        ->at;
  }

 private:
  Input input_;
  std::vector<layout::Stake> stakes_;
  std::mt19937 random_;
};

inline std::vector<std::string> corners_with(const Findings& findings, placement::Verdict verdict) {
  std::vector<std::string> labels;
  for (std::size_t i = 0; findings.placement && i < findings.network.corner_count; ++i) {
    if (findings.placement->corners[i].verdict == verdict) {
      labels.push_back(findings.network.points[i].label);
    }
  }
  return labels;
}

}  // namespace stakewright::check

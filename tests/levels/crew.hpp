// A crew in code with a level: footings at true heights, rods read with an error drawn for each.
#pragma once

#include <map>
#include <random>
#include <string>
#include <vector>

#include "stakewright/levels/levels.hpp"

namespace stakewright::levels {

inline constexpr double kInch_m = 0.0254;
inline constexpr double kFoot_m = 0.3048;

class Crew {
 public:
  Crew(int sides, unsigned seed) : random_(seed) {
    question_.plan.polygon = layout::polygon_from(layout::Size::corner_radius, 3.5, sides);
    question_.plan.center = {4.0, -2.0};
    question_.instruments = readings::built_in_instruments();
    for (const layout::Stake& stake : layout::stakes(question_.plan)) {
      corners_.push_back(stake.label);
      height_m_[stake.label] = 0.0;
    }
  }

  Question& question() { return question_; }
  [[nodiscard]] const std::vector<std::string>& corners() const { return corners_; }
  double& height_m(const std::string& point) { return height_m_[point]; }
  double& set_up_m(const std::string& set_up) {
    return set_up_m_.emplace(set_up, 1.5).first->second;
  }

  /// Tops as uneven as a crew that works to the tolerance makes them.
  Crew& uneven(double sd_m) {
    std::normal_distribution<double> normal(0.0, sd_m);
    for (const std::string& corner : corners_) height_m_[corner] += normal(random_);
    return *this;
  }

  /// The form leans: so much per meter to the right and forward.
  Crew& lean(double right, double forward) {
    for (const layout::Stake& stake : layout::stakes(question_.plan))
      height_m_[stake.label] += right * stake.at.x_m + forward * stake.at.y_m;
    return *this;
  }

  Crew& read(const std::string& set_up, const std::string& point, double noise = 1.0) {
    std::normal_distribution<double> normal(0.0, sd_m());
    readings::Reading reading;
    reading.kind = readings::Kind::level;
    reading.from = set_up;
    reading.to = point;
    reading.instrument = "level";
    reading.written = base::Units::feet_inches;
    reading.value_m = set_up_m(set_up) - height_m_[point] + noise * normal(random_);
    reading.line = static_cast<int>(question_.readings.size()) + 2;
    question_.readings.push_back(reading);
    return *this;
  }

  Crew& read_all(const std::string& set_up, double noise = 1.0) {
    for (const std::string& corner : corners_) read(set_up, corner, noise);
    return *this;
  }

  Crew& misread(const std::string& set_up, const std::string& point, double by_m) {
    for (readings::Reading& reading : question_.readings)
      if (reading.from == set_up && reading.to == point) reading.value_m += by_m;
    return *this;
  }

  /// Of a rod on a footing, from the middle of the plan.
  [[nodiscard]] double sd_m() const {
    return rod_sd_m(*readings::instrument_named(question_.instruments, "level"),
                    question_.plan.polygon.corner_radius_m);
  }

  [[nodiscard]] Levels judged() const { return *judge(question_); }

 private:
  Question question_;
  std::vector<std::string> corners_;
  std::map<std::string, double> height_m_;
  std::map<std::string, double> set_up_m_;
  std::mt19937 random_;
};

inline std::vector<std::string> labels(const Levels& levels,
                                       const std::vector<std::size_t>& points) {
  std::vector<std::string> result;
  for (const std::size_t point : points) result.push_back(levels.rods.points[point]);
  return result;
}

inline std::vector<std::string> footings_with(const Levels& levels, placement::Verdict verdict) {
  std::vector<std::string> result;
  for (std::size_t i = 0; i < levels.footings.size(); ++i)
    if (levels.footings[i].verdict == verdict) result.push_back(levels.rods.points[i]);
  return result;
}

}  // namespace stakewright::levels

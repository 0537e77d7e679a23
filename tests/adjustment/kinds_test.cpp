// What each kind of reading adds to one octagon: the table of docs/methods/adjustment.md.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>

#include "stakewright/adjustment/adjust.hpp"
#include "stakewright/layout/polygon.hpp"

namespace stakewright::adjustment {
namespace {

using readings::Kind;
using readings::Reading;

constexpr int kSides = 8;
constexpr double kCornerRadius_m = 3.0;

/// Half axis of an ellipse that holds a plane normal with chance 0.95, in standard deviations:
/// the square root of chi-square 0.95 with two degrees of freedom, 5.991 (any table).
constexpr double kEllipse = 2.4477;

layout::Plan octagon() {
  layout::Plan plan;
  plan.polygon = {kSides, kCornerRadius_m};
  return plan;
}

/// Readings as planned, of one kind, with the built-in instrument.
class Round {
 public:
  Round& lengths(Kind kind, int skip) {
    for (const layout::Tape& tape : layout::check_tapes(octagon()))
      if (tape.skip == skip) {
        Reading reading;
        reading.kind = kind;
        reading.from = tape.from;
        reading.to = tape.to;
        reading.value_m = tape.length_m;
        readings_.push_back(reading);
      }
    return *this;
  }

  Round& interior_angles(const std::string& circle) {
    const auto labels = layout::corner_labels(kSides);
    for (std::size_t i = 0; i < labels.size(); ++i)
      add_angle(labels[i], labels[(i + 1) % kSides], labels[(i + kSides - 1) % kSides], 135.0,
                circle);
    return *this;
  }

  Round& angles_at_the_pin(const std::string& circle) {
    const auto labels = layout::corner_labels(kSides);
    for (std::size_t i = 0; i < labels.size(); ++i)
      add_angle(layout::kCenterLabel, labels[i], labels[(i + 1) % kSides], 45.0, circle);
    return *this;
  }

  [[nodiscard]] Network network() const {
    return adjustment::network(octagon(), readings_, readings::built_in_instruments());
  }

 private:
  void add_angle(const std::string& at, const std::string& from, const std::string& to,
                 double degrees, const std::string& circle) {
    Reading reading;
    reading.kind = Kind::angle;
    reading.at = at;
    reading.from = from;
    reading.to = to;
    reading.angle_rad = degrees / 180.0 * std::acos(-1.0);
    reading.instrument = circle;
    readings_.push_back(reading);
  }

  std::vector<Reading> readings_;
};

struct Figures {
  double catch_mm = 0.0;    ///< smallest catch of the worst length
  double catch_min = 0.0;   ///< of the worst angle, in minutes
  double ellipse_mm = 0.0;  ///< longer half axis of the worst corner's ellipse, 0.95
  double spare = 0.0;       ///< redundancy a reading
};

Figures figures_of(const Network& network) {
  const Adjustment result = adjust(network);
  EXPECT_EQ(result.status, Status::settled);
  Figures figures;
  double sum = 0.0;
  for (std::size_t r = 0; r < network.observations.size(); ++r) {
    sum += result.readings_out[r].redundancy;
    const double caught = result.readings_out[r].smallest_catch;
    if (network.observations[r].is_angle())
      figures.catch_min = std::max(figures.catch_min, caught * 60.0 * 180.0 / std::acos(-1.0));
    else
      figures.catch_mm = std::max(figures.catch_mm, 1e3 * caught);
  }
  figures.spare = sum / static_cast<double>(network.observations.size());
  for (std::size_t p = 0; p < network.corner_count; ++p) {
    const double xx = result.covariance(2 * p, 2 * p);
    const double xy = result.covariance(2 * p, 2 * p + 1);
    const double yy = result.covariance(2 * p + 1, 2 * p + 1);
    const double major = std::sqrt(0.5 * (xx + yy) + std::hypot(0.5 * (xx - yy), xy));
    figures.ellipse_mm = std::max(figures.ellipse_mm, 1e3 * kEllipse * major);
  }
  return figures;
}

std::string row(const std::string& what, const Network& network) {
  const Figures figures = figures_of(network);
  const std::string angle =
      figures.catch_min > 0.0 ? fmt::format("{:.0f}′", figures.catch_min) : "–";
  return fmt::format("| {} | {} | {:.2f} | {:.1f} mm | {} | {:.1f} mm |", what,
                     network.observations.size(), figures.spare, figures.catch_mm, angle,
                     figures.ellipse_mm);
}

Round taped() { return Round().lengths(Kind::tape, 1).lengths(Kind::tape, 2); }

std::vector<std::string> rows() {
  return {
      row("steel tape: sides, diagonals over two sides", taped().network()),
      row("and laser: corner radii", taped().lengths(Kind::laser, 0).network()),
      row("tape, and circle at O", taped().angles_at_the_pin("circle").network()),
      row("tape, and circle at each corner", taped().interior_angles("circle").network()),
      row("tape, and total station at each corner",
          taped().interior_angles("total station").network()),
      row("tape, laser, and circle at O and at each corner", taped()
                                                                 .lengths(Kind::laser, 0)
                                                                 .angles_at_the_pin("circle")
                                                                 .interior_angles("circle")
                                                                 .network()),
  };
}

std::string page() {
  std::ifstream file(STAKEWRIGHT_ADJUSTMENT_PAGE);
  return {std::istreambuf_iterator<char>(file), {}};
}

TEST(WhatEachKindAdds, IsTheTableOfTheMethods) {
  for (const std::string& line : rows()) EXPECT_THAT(page(), testing::HasSubstr(line));
}

TEST(WhatEachKindAdds, IsNeverLess) {
  const Figures tape = figures_of(taped().network());
  for (const Network& more :
       {taped().lengths(Kind::laser, 0).network(), taped().angles_at_the_pin("circle").network(),
        taped().interior_angles("circle").network()}) {
    const Figures with = figures_of(more);
    EXPECT_LT(with.catch_mm, tape.catch_mm);
    EXPECT_LE(with.ellipse_mm, tape.ellipse_mm);
  }
  // A better circle on top of the same tapes.
  EXPECT_LT(figures_of(taped().interior_angles("total station").network()).catch_mm,
            figures_of(taped().interior_angles("transit").network()).catch_mm);
}

}  // namespace
}  // namespace stakewright::adjustment

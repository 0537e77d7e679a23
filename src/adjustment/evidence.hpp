// How well a set of slips explains the residuals, in closed form.
//
// Formulas and sources: docs/methods/misread-readings.md.
#pragma once

#include <Eigen/Core>
#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "stakewright/base/angle.hpp"

namespace stakewright::adjustment {

/// Readings whose residuals are correlated more than this (ρ²) answer to a slip alike: with any sd
/// met on site, telling them apart would take a slip of seventy standard deviations.
inline constexpr double kFullyCorrelated = 0.9998;

/// Slips come in every size: an eighth taken for a sixteenth, an inch, a decimeter, a foot, the
/// wrong ten feet.  Their prior is a mixture, in equal shares, of normals whose standard deviations
/// go up by fours from an inch, or for an angle from ten minutes of arc, the coarsest figure of a
/// vernier that is misread for another.  Between them the density falls roughly as one over the
/// size, as for a quantity of unknown scale.
inline constexpr double kUsualSlip_m = 0.0254;
inline constexpr double kUsualSlip_rad = base::kDegree_rad / 6.0;

/// What the residuals of one linear model say about slips.  Every figure is in standard deviations
/// of its reading.
struct ResidualEvidence {
  Eigen::VectorXd residuals;         ///< M·l: observed minus adjusted
  Eigen::MatrixXd cofactor;          ///< M = I − A·Q·Aᵀ, readings only
  std::vector<double> sd;            ///< meters, or radians for an angle
  std::vector<double> usual_slip{};  ///< `kUsualSlip_m` or `kUsualSlip_rad`
  double chi_square = 0.0;
  int redundancy = 0;
};

inline constexpr std::size_t kMostSlips = 3;

/// Up to three readings, by their index in the evidence.
struct SlipCandidate {
  std::array<std::size_t, kMostSlips> members{};
  std::size_t size = 0;
};

/// A set of slips and what speaks for it.
struct WeighedSet {
  SlipCandidate set;
  double log_weight = 0.0;  ///< log of prior times evidence, over those of no slip at all
  double explained = 0.0;   ///< how much of chi-square leaves with these readings
};

/// Weighs a set whose members each have prior odds `exp(log_odds)` of being slips.
/// Empty when one member's slip cannot be told from the others', and when the log weight cannot
/// reach `floor`: no evidence is above exp(explained / 2).
std::optional<WeighedSet> weigh(const ResidualEvidence& evidence, const SlipCandidate& set,
                                double log_odds, double floor);

/// Expected sizes of the slips, in meters or radians, positive where the reading is too long or too
/// large.
std::vector<double> slip_sizes(const ResidualEvidence& evidence, const SlipCandidate& set);

}  // namespace stakewright::adjustment

// How well a set of causes explains the readings: closed-form marginal
// likelihoods by low-rank updates of one covariance.  docs/methods/suspects.md.
#pragma once

#include <cstddef>
#include <vector>

#include "causes.hpp"
#include "model.hpp"
#include "stakewright/algebra/gaussian.hpp"
#include "stakewright/base/point.hpp"

namespace stakewright::suspects {

using algebra::kMostDimensions;
using algebra::Posterior;

/// A set of causes (none: nothing wrong), each with the part of its mixture that fits best, and
/// what follows.
struct Hypothesis {
  std::vector<std::size_t> causes;  ///< of the catalogue, ascending
  std::vector<std::size_t> parts;   ///< of each cause's mixture
  double log_weight = 0.0;          ///< log of prior odds times Bayes factor against nothing wrong,
                                    ///< summed over all parts

  // Filled by `refine`:
  std::vector<std::size_t> columns;
  Posterior sizes;                 ///< with the best parts, by column
  std::vector<double> projection;  ///< K'W(y - bend); empty: the model's own
  double bend_ratio = 0.0;         ///< log-likelihood that the bend itself brings

  [[nodiscard]] const std::vector<double>& projection_of(const Model& model) const {
    return projection.empty() ? model.projection : projection;
  }
};

/// What one more cause would do.
struct Growth {
  double log_gain = 0.0;  ///< added to the hypothesis's log weight
  std::size_t part = 0;   ///< the part that fits best
};

/// The evidence module works on these two together.
struct Ground {
  const adjustment::Network* network = nullptr;
  const Model* model = nullptr;
  const std::vector<Candidate>* catalogue = nullptr;
};

/// The gain of a cause that is not in the hypothesis, given the hypothesis's best parts.
Growth growth(const Ground& ground, const Hypothesis& hypothesis, std::size_t cause);

/// Chooses the best parts, bends the model to large displacements of stakes, and sums the weight
/// over the parts that matter.
void refine(const Ground& ground, Hypothesis& hypothesis);

/// Share of each part of the mixture of the hypothesis's `position`-th cause, the others at their
/// best parts.  Adds to one.
std::vector<double> part_shares(const Ground& ground, const Hypothesis& hypothesis,
                                std::size_t position);

/// Sizes and their covariance when every cause takes its widest part: what the readings say by
/// themselves, with no kind of slip in mind.
Posterior plain_sizes(const Ground& ground, const Hypothesis& hypothesis);

/// (y - Uŝ)'W(y - Uŝ) at the best sizes: what the causes leave unexplained.
double unexplained(const Ground& ground, const Hypothesis& hypothesis);

/// Displacement of every point under the hypothesis; zero for those it says nothing of.
std::vector<base::Point> displacements(const Ground& ground, const Hypothesis& hypothesis);

}  // namespace stakewright::suspects

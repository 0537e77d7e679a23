// The quadratic form of a difference between two rounds, free of where the whole figure lies.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "stakewright/placement/movement.hpp"

namespace stakewright::placement {

/// The difference of some stakes.
struct Congruence {
  double form = 0.0;  ///< dᵀ Q⁺ d
  int freedom = 0;    ///< 2k, less three when nothing ties the figure to the ground
};

/// Of the stakes in `of`; two or more unless the rounds are tied, one or more when they are.
/// Before and after are laid on one another over `of` first, so that a turn of the whole figure
/// costs no second-order error.
Congruence congruence(const TwoRounds& rounds, const std::vector<std::size_t>& of);

/// A symmetric 2 x 2 matrix: xx, xy, yy.
using Symmetric = std::array<double, 3>;

/// Per stake of `of`: what the form of `congruence` gains with the square of a movement of that
/// stake alone.
std::vector<Symmetric> sensitivity(const TwoRounds& rounds, const std::vector<std::size_t>& of);

/// Rounds as the placement takes them: before as the plan, after as found.
Survey laid_over(const TwoRounds& rounds);

}  // namespace stakewright::placement

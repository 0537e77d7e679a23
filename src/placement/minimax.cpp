#include "minimax.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

#include "enclosing_circle.hpp"

namespace stakewright::placement {
namespace {

using base::Point;

// Turns are searched to this: over tens of meters still below `kOnLimit_m`.
constexpr double kTurnStep_rad = 1e-11;

// The rims either side of the best turn are taken this far off: over the site's width still
// less than `kOnLimit_m`, and far enough for rounding not to hide one of them.
constexpr double kEitherSide_rad = 1e-10;

Point turned(Point point, double cosine, double sine) {
  return cosine * point + sine * base::clockwise(point);
}

// The best turn of one pair, and by how much it may be missed.  From
// |q - Rp|² = (|q| - |p|)² + 4|p||q|sin²(half the turn missed), the two deviations
// cannot both be within tolerance once |q - Rp| is above `reach_m`.
Pair pair_of(const Question& question, std::size_t i, std::size_t j, double reach_m) {
  const Point p = question.planned[j] - question.planned[i];
  const Point q = question.found[j] - question.found[i];
  const double mean_m = std::sqrt(base::norm_m(p) * base::norm_m(q));
  const double half_sine = mean_m > 0.0 ? reach_m / (2.0 * mean_m) : 1.0;
  return {i, j, std::atan2(base::dot(q, base::clockwise(p)), base::dot(q, p)),
          2.0 * std::asin(std::min(1.0, half_sine))};
}

bool clash(const Question& question, std::size_t i, std::size_t j, double reach_m) {
  const double planned_m = base::distance_m(question.planned[i], question.planned[j]);
  const double found_m = base::distance_m(question.found[i], question.found[j]);
  return std::abs(found_m - planned_m) > reach_m;
}

// The figures of one set, laid at one turn.
class Laying {
 public:
  Laying(const Question& question, Mask set) : question_(question), members_(set_of(set)) {
    points_.resize(members_.size());
    order_.resize(members_.size());
    for (std::size_t m = 0; m < order_.size(); ++m) order_[m] = m;
    const auto pivot = question.pivot ? std::find(members_.begin(), members_.end(), *question.pivot)
                                      : members_.end();
    if (pivot != members_.end()) pivot_ = static_cast<std::size_t>(pivot - members_.begin());
  }

  // The best circle of deviations at this turn; its center is the shift.
  Circle at(double turn_rad) {
    const double cosine = std::cos(turn_rad);
    const double sine = std::sin(turn_rad);
    for (std::size_t m = 0; m < members_.size(); ++m) {
      const std::size_t corner = members_[m];
      points_[m] = question_.found[corner] - turned(question_.planned[corner], cosine, sine);
    }
    return pivot_ ? around_pivot() : smallest_circle(points_, order_);
  }

  [[nodiscard]] Mask rim_of(const Circle& circle) const {
    Mask mask = 0;
    for (std::size_t r = 0; r < circle.rim_count; ++r) {
      mask |= Mask{1} << members_[circle.rim[r]];
    }
    return mask;
  }

 private:
  Circle around_pivot() {
    Circle circle{points_[*pivot_], 0.0, {*pivot_}, 1};
    for (std::size_t m = 0; m < points_.size(); ++m) {
      const double off_m = base::distance_m(points_[m], circle.center);
      if (off_m <= circle.radius_m) continue;
      circle.radius_m = off_m;
      circle.rim = {*pivot_, m};
      circle.rim_count = 2;
    }
    return circle;
  }

  const Question& question_;
  Set members_;
  std::optional<std::size_t> pivot_;
  std::vector<Point> points_;
  std::vector<std::size_t> order_;
};

const Pair* longest_pair(const Ground& ground, Mask set) {
  for (const Pair& pair : ground.pairs) {
    const Mask both = Mask{1} << pair.i | Mask{1} << pair.j;
    if ((set & both) == both) return &pair;
  }
  return nullptr;
}

}  // namespace

Mask mask_of(const Set& set) {
  Mask mask = 0;
  for (const std::size_t corner : set) mask |= Mask{1} << corner;
  return mask;
}

Set set_of(Mask mask) {
  Set set;
  for (std::size_t corner = 0; mask != 0; ++corner, mask >>= 1U) {
    if ((mask & 1U) != 0U) set.push_back(corner);
  }
  return set;
}

Ground ground_of(const Question& question) {
  Ground ground{question, question.planned.front(), question.found.front(), {}, {}};
  Question& moved = ground.question;
  for (Point& point : moved.planned) point = point - ground.planned_origin;
  for (Point& point : moved.found) point = point - ground.found_origin;
  const std::size_t n = moved.planned.size();
  ground.clashes.assign(n, 0);
  const double reach_m =
      (question.pivot ? question.tolerance_m : 2.0 * question.tolerance_m) + kOnLimit_m;
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = i + 1; j < n; ++j) {
      if (question.pivot && i != *question.pivot && j != *question.pivot) continue;
      ground.pairs.push_back(pair_of(moved, i, j, reach_m));
      if (!clash(moved, i, j, reach_m)) continue;
      ground.clashes[i] |= Mask{1} << j;
      ground.clashes[j] |= Mask{1} << i;
    }
  }
  std::stable_sort(ground.pairs.begin(), ground.pairs.end(),
                   [](const Pair& a, const Pair& b) { return a.slack_rad < b.slack_rad; });
  return ground;
}

// Golden-section search over the turn.  At a stationary turn the largest deviation is within
// a factor cos(half the bracket) of the smallest there is: docs/methods/placement.md.
Closest closest(const Ground& ground, Mask set, double enough_m) {
  assert(set != 0);
  Laying laying(ground.question, set);
  const Pair* pair = longest_pair(ground, set);
  if (pair == nullptr) {
    const Circle circle = laying.at(0.0);
    return {0.0, circle.center, circle.radius_m, set};
  }
  constexpr double kGolden = std::numbers::phi - 1.0;
  const double first_rad = pair->turn_rad - pair->slack_rad;
  const double last_rad = pair->turn_rad + pair->slack_rad;
  double low_rad = first_rad;
  double high_rad = last_rad;
  double left_rad = high_rad - kGolden * (high_rad - low_rad);
  double right_rad = low_rad + kGolden * (high_rad - low_rad);
  Circle left = laying.at(left_rad);
  Circle right = laying.at(right_rad);
  while (high_rad - low_rad > kTurnStep_rad && std::min(left.radius_m, right.radius_m) > enough_m) {
    if (left.radius_m < right.radius_m) {
      high_rad = right_rad;
      right_rad = left_rad;
      right = left;
      left_rad = high_rad - kGolden * (high_rad - low_rad);
      left = laying.at(left_rad);
    } else {
      low_rad = left_rad;
      left_rad = right_rad;
      left = right;
      right_rad = low_rad + kGolden * (high_rad - low_rad);
      right = laying.at(right_rad);
    }
  }
  const bool left_better = left.radius_m < right.radius_m;
  const Circle& best = left_better ? left : right;
  Closest result{left_better ? left_rad : right_rad, best.center, best.radius_m, 0};
  if (best.radius_m <= enough_m) return result;
  // Turned further either way, these alone are as far off.
  result.witness = laying.rim_of(laying.at(low_rad - kEitherSide_rad)) |
                   laying.rim_of(laying.at(high_rad + kEitherSide_rad));
  if (low_rad == first_rad || high_rad == last_rad) {
    result.witness |= Mask{1} << pair->i | Mask{1} << pair->j;
  }
  return result;
}

}  // namespace stakewright::placement

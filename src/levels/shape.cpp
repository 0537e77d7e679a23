#include "shape.hpp"

#include <algorithm>
#include <cmath>

#include "stakewright/adjustment/quantiles.hpp"
#include "stakewright/algebra/algebra.hpp"
#include "stakewright/algebra/gaussian.hpp"
#include "stakewright/base/turning.hpp"

namespace stakewright::levels {
namespace {

/// A crew that works to a tolerance meets it nineteen times in twenty: two standard deviations.
/// Our choice.
constexpr double kToleranceInSpreads = 2.0;

/// Standard deviation of how far a footing set wrong stands off, and of how far a leaning form
/// is off at a corner: an inch.  Our choice; a foot or half an inch would name the same causes.
constexpr double kWrong_m = 0.0254;

/// More footings set wrong than this make a new job, not an explanation.
constexpr std::size_t kMostWrong = 3;

/// Larger sets are grown from this many of the leading smaller ones.
constexpr std::size_t kGrown = 8;

/// A cause is told when its chance reaches this.
constexpr double kConvincing = 0.9;

/// A slope larger than this chance leaves to the usual unevenness is called significant.
constexpr double kSlopeAlpha = 0.001;

/// Less spread than this share of the other way, and the tops stand in one row.
constexpr double kOneRow = 1e-6;

struct Hypothesis {
  bool tilted = false;
  std::vector<std::size_t> wrong;
  double log_weight = 0.0;
  double chance = 0.0;
};

/// The heights' spread when nothing is wrong: as measured, and uneven as usual.
base::Matrix usual_spread(const Tops& tops, const base::Tolerance& tolerance) {
  const double uneven_m = tolerance.level_m / kToleranceInSpreads;
  base::Matrix spread = tops.covariance;
  for (std::size_t i = 0; i < spread.rows; ++i) spread(i, i) += uneven_m * uneven_m;
  return spread;
}

std::vector<base::Point> from_middle(const Tops& tops) {
  const base::Point middle = base::middle_of(tops.at);
  std::vector<base::Point> result;
  for (const base::Point at : tops.at) result.push_back(at - middle);
  return result;
}

/// Their level, the first column, and their places from their own middle in shares of `unit_m`.
base::Matrix plane_columns(const Tops& tops, double unit_m) {
  base::Matrix result(tops.at.size(), 3);
  const std::vector<base::Point> at = from_middle(tops);
  for (std::size_t i = 0; i < at.size(); ++i) {
    result(i, 0) = 1.0;
    result(i, 1) = at[i].x_m / unit_m;
    result(i, 2) = at[i].y_m / unit_m;
  }
  return result;
}

/// Mean distance from their middle (root mean square); 1 where they stand at one place.
double radius_m(const Tops& tops) {
  double squares_m2 = 0.0;
  for (const base::Point at : from_middle(tops)) squares_m2 += base::dot(at, at);
  const double radius = std::sqrt(squares_m2 / static_cast<double>(tops.at.size()));
  return radius > 0.0 ? radius : 1.0;
}

/// Weighs hypotheses of one set of heights.
class Weighing {
 public:
  Weighing(const Tops& tops, const base::Tolerance& tolerance, const base::Staking& staking)
      : tops_(tops.at.size()), log_odds_(std::log(staking.misplaced / (1.0 - staking.misplaced))) {
    const base::Matrix columns = plane_columns(tops, radius_m(tops));
    const base::Matrix weight =
        algebra::freed(algebra::inverse_of_positive(usual_spread(tops, tolerance)).matrix,
                       algebra::leading(columns, tops_, 1));
    base::Matrix heights(tops_, 1);
    base::Matrix patterns(kLeaning + tops_, tops_);
    for (std::size_t i = 0; i < tops_; ++i) {
      heights(i, 0) = tops.height_m[i];
      for (std::size_t k = 0; k < kLeaning; ++k) patterns(k, i) = kWrong_m * columns(i, k + 1);
      patterns(kLeaning + i, i) = kWrong_m;
    }
    gram_ = algebra::propagated(patterns, weight);
    projection_ = algebra::product(patterns, algebra::product(weight, heights));
  }

  /// Sets of wrong footings up to `most`, grown one by one; with and without a leaning form.
  std::vector<Hypothesis> all(std::size_t most) const {
    std::vector<Hypothesis> result;
    for (const bool tilted : {false, true}) {
      std::vector<Hypothesis> level{weighed({tilted, {}, 0.0, 0.0})};
      result.push_back(level.front());
      for (std::size_t size = 1; size <= most; ++size) {
        level = grown(level);
        result.insert(result.end(), level.begin(), level.end());
        level.resize(std::min(level.size(), kGrown));
      }
    }
    return result;
  }

 private:
  /// Patterns of a leaning form: right and forward.
  static constexpr std::size_t kLeaning = 2;

  [[nodiscard]] Hypothesis weighed(Hypothesis hypothesis) const {
    std::vector<std::size_t> of;
    if (hypothesis.tilted) of = {0, 1};
    for (const std::size_t i : hypothesis.wrong) of.push_back(kLeaning + i);
    algebra::Gaussian causes;
    causes.size = of.size();
    for (std::size_t a = 0; a < of.size(); ++a) {
      causes.sd[a] = 1.0;
      causes.projection[a] = projection_(of[a], 0);
      for (std::size_t b = 0; b < of.size(); ++b) causes.gram[a][b] = gram_(of[a], of[b]);
    }
    const double count =
        static_cast<double>(hypothesis.wrong.size()) + (hypothesis.tilted ? 1.0 : 0.0);
    hypothesis.log_weight = count * log_odds_ + algebra::log_ratio(causes);
    return hypothesis;
  }

  /// Each with one footing more, likeliest first.
  [[nodiscard]] std::vector<Hypothesis> grown(const std::vector<Hypothesis>& from) const {
    std::vector<std::vector<std::size_t>> sets;
    for (const Hypothesis& smaller : from) {
      for (std::size_t i = 0; i < tops_; ++i) {
        std::vector<std::size_t> set = smaller.wrong;
        if (std::find(set.begin(), set.end(), i) != set.end()) continue;
        set.push_back(i);
        std::sort(set.begin(), set.end());
        sets.push_back(std::move(set));
      }
    }
    std::sort(sets.begin(), sets.end());
    sets.erase(std::unique(sets.begin(), sets.end()), sets.end());
    std::vector<Hypothesis> result;
    for (auto& set : sets)
      result.push_back(weighed({from.front().tilted, std::move(set), 0.0, 0.0}));
    std::stable_sort(result.begin(), result.end(), [](const Hypothesis& a, const Hypothesis& b) {
      return a.log_weight > b.log_weight;
    });
    return result;
  }

  std::size_t tops_;
  /// UᵀMU and UᵀMh, U the causes' patterns at their prior size (leaning, then each footing), M the
  /// weight of the heights h, their level being anything.
  base::Matrix gram_;
  base::Matrix projection_;
  double log_odds_;
};

/// Log weights into chances that add to one.
void normalize(std::vector<Hypothesis>& hypotheses) {
  double most = hypotheses.front().log_weight;
  for (const Hypothesis& h : hypotheses) most = std::max(most, h.log_weight);
  double sum = 0.0;
  for (Hypothesis& h : hypotheses) {
    h.chance = std::exp(h.log_weight - most);
    sum += h.chance;
  }
  for (Hypothesis& h : hypotheses) h.chance /= sum;
}

template <typename Holds>
double chance(const std::vector<Hypothesis>& hypotheses, Holds holds) {
  double sum = 0.0;
  for (const Hypothesis& h : hypotheses)
    if (holds(h)) sum += h.chance;
  return sum;
}

bool has(const std::vector<std::size_t>& list, std::size_t item) {
  return std::find(list.begin(), list.end(), item) != list.end();
}

Tops without(const Tops& tops, const std::vector<std::size_t>& left_out) {
  std::vector<std::size_t> kept;
  for (std::size_t i = 0; i < tops.at.size(); ++i)
    if (!has(left_out, i)) kept.push_back(i);
  Tops result{{}, {}, base::Matrix(kept.size(), kept.size())};
  for (std::size_t i = 0; i < kept.size(); ++i) {
    result.at.push_back(tops.at[kept[i]]);
    result.height_m.push_back(tops.height_m[kept[i]]);
    for (std::size_t j = 0; j < kept.size(); ++j)
      result.covariance(i, j) = tops.covariance(kept[i], kept[j]);
  }
  return result;
}

bool in_one_row(const std::vector<base::Point>& from_middle) {
  algebra::Symmetric second;
  for (const base::Point at : from_middle)
    second = {second.xx + at.x_m * at.x_m, second.xy + at.x_m * at.y_m,
              second.yy + at.y_m * at.y_m};
  const double trace = second.xx + second.yy;
  return second.xx * second.yy - second.xy * second.xy < kOneRow * trace * trace;
}

/// The likeliest hypothesis with a footing set wrong.
const Hypothesis& leading_with_wrong(const std::vector<Hypothesis>& hypotheses) {
  const auto worth = [](const Hypothesis& h) { return h.wrong.empty() ? 0.0 : h.chance; };
  return *std::max_element(
      hypotheses.begin(), hypotheses.end(),
      [&](const Hypothesis& a, const Hypothesis& b) { return worth(a) < worth(b); });
}

}  // namespace

Explained explain(const Tops& tops, const base::Tolerance& tolerance,
                  const base::Staking& staking) {
  const std::size_t n = tops.at.size();
  Explained result;
  if (n < 3) return result;
  const std::size_t most = std::min(kMostWrong, (n - 1) / 2);
  std::vector<Hypothesis> hypotheses = Weighing(tops, tolerance, staking).all(most);
  normalize(hypotheses);
  const auto nothing = [](const Hypothesis& h) { return !h.tilted && h.wrong.empty(); };
  const double level = chance(hypotheses, nothing);
  result.tilt_chance = chance(hypotheses, [](const Hypothesis& h) { return h.tilted; });
  for (std::size_t i = 0; i < n; ++i)
    if (chance(hypotheses, [i](const Hypothesis& h) { return has(h.wrong, i); }) >= kConvincing)
      result.wrong.push_back(i);
  if (result.tilt_chance >= kConvincing) {
    result.shape = Shape::tilted;
  } else if (!result.wrong.empty() && result.tilt_chance <= 1.0 - kConvincing) {
    result.shape = Shape::footings;
  } else if (level >= 1.0 - kConvincing) {
    result.shape = Shape::level;  // nothing need be wrong
    result.wrong.clear();
  } else {
    result.shape = Shape::unclear;
    result.wrong.clear();
    result.may_be_wrong = leading_with_wrong(hypotheses).wrong;
  }
  return result;
}

std::optional<Plane> plane(const Tops& tops, const base::Tolerance& tolerance,
                           const std::vector<std::size_t>& left_out) {
  const Tops kept = without(tops, left_out);
  if (kept.at.size() < 3) return std::nullopt;
  const std::vector<base::Point> at = from_middle(kept);
  if (in_one_row(at)) return std::nullopt;
  const base::Matrix spread = usual_spread(kept, tolerance);
  const base::Matrix columns = plane_columns(kept, 1.0);
  const base::Matrix fit = algebra::answer_of(
      columns, algebra::product(algebra::inverse_of_positive(spread).matrix, columns));
  const base::Matrix cofactor = algebra::propagated(fit, spread);
  Plane result;
  for (std::size_t i = 0; i < at.size(); ++i)
    result.slope = result.slope + kept.height_m[i] * base::Point{fit(1, i), fit(2, i)};
  result.downhill_bearing_rad = base::within_turn_rad(base::bearing_rad(-1.0 * result.slope));
  const auto [low, high] =
      std::minmax_element(at.begin(), at.end(), [&](base::Point a, base::Point b) {
        return base::dot(a, result.slope) < base::dot(b, result.slope);
      });
  result.drop_m = base::dot(*high - *low, result.slope);
  result.chi_square =
      algebra::square_in({cofactor(1, 1), cofactor(1, 2), cofactor(2, 2)}, result.slope);
  result.significant = result.chi_square > adjustment::chi_square_limit(kSlopeAlpha, 2);
  return result;
}

}  // namespace stakewright::levels

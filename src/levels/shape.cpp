#include "shape.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "stakewright/adjustment/quantiles.hpp"

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

Eigen::Index as_index(std::size_t i) { return static_cast<Eigen::Index>(i); }

struct Hypothesis {
  bool tilted = false;
  std::vector<std::size_t> wrong;
  double log_weight = 0.0;
  double chance = 0.0;
};

/// The heights' spread when nothing is wrong: as measured, and uneven as usual.
Eigen::MatrixXd usual_spread(const Tops& tops, const base::Tolerance& tolerance) {
  const Eigen::Index n = as_index(tops.at.size());
  const double uneven_m = tolerance.level_m / kToleranceInSpreads;
  Eigen::MatrixXd spread(n, n);
  for (std::size_t i = 0; i < tops.at.size(); ++i)
    for (std::size_t j = 0; j < tops.at.size(); ++j)
      spread(as_index(i), as_index(j)) = tops.covariance(i, j);
  spread.diagonal().array() += uneven_m * uneven_m;
  return spread;
}

/// Places from their own middle, in shares of their mean distance from it: two columns.
Eigen::MatrixXd places(const Tops& tops) {
  Eigen::MatrixXd result(as_index(tops.at.size()), 2);
  for (std::size_t i = 0; i < tops.at.size(); ++i)
    result.row(as_index(i)) << tops.at[i].x_m, tops.at[i].y_m;
  const Eigen::RowVectorXd middle = result.colwise().mean();
  result.rowwise() -= middle;
  const double radius = std::sqrt(result.squaredNorm() / static_cast<double>(tops.at.size()));
  if (radius > 0.0) result /= radius;
  return result;
}

/// Weighs hypotheses of one set of heights.
class Weighing {
 public:
  Weighing(const Tops& tops, const base::Tolerance& tolerance, const base::Staking& staking)
      : lean_(kWrong_m * places(tops)),
        log_odds_(std::log(staking.misplaced / (1.0 - staking.misplaced))) {
    const Eigen::Index n = as_index(tops.height_m.size());
    Eigen::VectorXd heights(n);
    for (std::size_t i = 0; i < tops.height_m.size(); ++i) heights(as_index(i)) = tops.height_m[i];
    const Eigen::MatrixXd inverse =
        usual_spread(tops, tolerance).llt().solve(Eigen::MatrixXd::Identity(n, n));
    const Eigen::VectorXd sums = inverse.rowwise().sum();
    weight_ = inverse - sums * sums.transpose() / sums.sum();
    weighed_heights_ = weight_ * heights;
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
  /// Log of the evidence over that of nothing wrong: −½·ln|I + UᵀMU| + ½·(UᵀMh)ᵀ(I + UᵀMU)⁻¹UᵀMh,
  /// U the causes' patterns at their prior size, M the weight of the heights, their level being
  /// anything.
  [[nodiscard]] double log_evidence(const Eigen::MatrixXd& patterns) const {
    Eigen::MatrixXd spread = patterns.transpose() * weight_ * patterns;
    spread.diagonal().array() += 1.0;
    const Eigen::LLT<Eigen::MatrixXd> factored(spread);
    const Eigen::VectorXd shown = patterns.transpose() * weighed_heights_;
    return 0.5 * shown.dot(factored.solve(shown)) -
           factored.matrixLLT().diagonal().array().log().sum();
  }

  [[nodiscard]] Hypothesis weighed(Hypothesis hypothesis) const {
    const Eigen::Index leaning = hypothesis.tilted ? lean_.cols() : 0;
    Eigen::MatrixXd patterns =
        Eigen::MatrixXd::Zero(weight_.rows(), leaning + as_index(hypothesis.wrong.size()));
    patterns.leftCols(leaning) = lean_.leftCols(leaning);
    for (std::size_t w = 0; w < hypothesis.wrong.size(); ++w)
      patterns(as_index(hypothesis.wrong[w]), leaning + as_index(w)) = kWrong_m;
    const double causes =
        static_cast<double>(hypothesis.wrong.size()) + (hypothesis.tilted ? 1.0 : 0.0);
    hypothesis.log_weight =
        causes * log_odds_ + (patterns.cols() > 0 ? log_evidence(patterns) : 0.0);
    return hypothesis;
  }

  /// Each with one footing more, likeliest first.
  [[nodiscard]] std::vector<Hypothesis> grown(const std::vector<Hypothesis>& from) const {
    std::vector<std::vector<std::size_t>> sets;
    for (const Hypothesis& smaller : from) {
      for (std::size_t i = 0; i < static_cast<std::size_t>(weight_.rows()); ++i) {
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

  Eigen::MatrixXd lean_;             ///< two patterns: right and forward
  Eigen::MatrixXd weight_;           ///< M = V⁻¹ − V⁻¹11ᵀV⁻¹ / 1ᵀV⁻¹1
  Eigen::VectorXd weighed_heights_;  ///< M·h
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

/// Places of some tops, from their own middle.
Eigen::MatrixXd from_middle(const Tops& tops, const std::vector<Eigen::Index>& which) {
  Eigen::MatrixXd at(as_index(which.size()), 2);
  for (std::size_t i = 0; i < which.size(); ++i) {
    const base::Point top = tops.at[static_cast<std::size_t>(which[i])];
    at.row(as_index(i)) << top.x_m, top.y_m;
  }
  const Eigen::RowVector2d middle = at.colwise().mean();
  at.rowwise() -= middle;
  return at;
}

struct Slope {
  Eigen::Vector2d slope;
  Eigen::Matrix2d cofactor;
};

/// Least squares of a plane: the level, and the slopes told.
Slope fitted_slope(const Eigen::MatrixXd& at, const Eigen::VectorXd& heights,
                   const Eigen::MatrixXd& spread) {
  Eigen::MatrixXd A(at.rows(), 3);
  A << Eigen::VectorXd::Ones(at.rows()), at;
  const Eigen::LLT<Eigen::MatrixXd> factored(spread);
  const Eigen::LLT<Eigen::MatrixXd> normal(A.transpose() * factored.solve(A));
  const Eigen::VectorXd fitted = normal.solve(A.transpose() * factored.solve(heights));
  const Eigen::MatrixXd cofactor = normal.solve(Eigen::MatrixXd::Identity(3, 3));
  return {fitted.tail(2), cofactor.bottomRightCorner(2, 2)};
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
  std::vector<Eigen::Index> kept;
  for (std::size_t i = 0; i < tops.at.size(); ++i)
    if (!has(left_out, i)) kept.push_back(as_index(i));
  if (kept.size() < 3) return std::nullopt;
  const Eigen::MatrixXd at = from_middle(tops, kept);
  const Eigen::Matrix2d second = at.transpose() * at;
  const double area = second(0, 0) * second(1, 1) - second(0, 1) * second(1, 0);
  if (area < kOneRow * second.trace() * second.trace()) return std::nullopt;
  Eigen::VectorXd y(at.rows());
  for (Eigen::Index i = 0; i < at.rows(); ++i)
    y(i) = tops.height_m[static_cast<std::size_t>(kept[static_cast<std::size_t>(i)])];
  const auto [slope, cofactor] = fitted_slope(at, y, usual_spread(tops, tolerance)(kept, kept));
  Plane result;
  result.slope = {slope(0), slope(1)};
  result.downhill_bearing_rad = std::atan2(-slope(0), -slope(1));
  if (result.downhill_bearing_rad < 0.0) result.downhill_bearing_rad += 2.0 * std::numbers::pi;
  const Eigen::VectorXd along = at * slope;
  result.drop_m = along.maxCoeff() - along.minCoeff();
  result.chi_square = slope.dot(cofactor.llt().solve(slope));
  result.significant = result.chi_square > adjustment::chi_square_limit(kSlopeAlpha, 2);
  return result;
}

}  // namespace stakewright::levels

#include "catches.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "stakewright/adjustment/quantiles.hpp"
#include "stakewright/algebra/algebra.hpp"
#include "stakewright/readings/observation.hpp"

namespace stakewright::suspects {
namespace {

using adjustment::kPower;
constexpr double kInfinity = std::numeric_limits<double>::infinity();

/// Before any pull a point may be anywhere within this: loose beside any tape, and tight enough
/// to keep twelve figures of Q.
constexpr double kAnywhere_m = 1.0;

/// An instrument figure that is given as none.
constexpr double kExact = 1e-9;

/// Shares of redundancy under this are rounding.
constexpr double kNoRedundancy = 1e-5;

/// One unreached figure adds no more than this: several near misses weigh more than one far one.
constexpr double kMostMiss = 4.0;

/// At this strength a slip is blamed on another pull less than once in a million.
constexpr double kNeverBlamed = 5.0;

/// A slip is looked for up to this size.
constexpr double kLargestSlip_m = 10.0;

double phi(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

/// Chance of being caught less the chances of each other pull standing out more.
double chance_named_of(double strength, double limit, const std::vector<double>& correlations) {
  double chance = phi(strength - limit);
  for (const double rho : correlations) chance -= phi(-strength * std::sqrt(0.5 * (1.0 - rho)));
  return std::max(0.0, chance);
}

}  // namespace

struct Catches::Sparse {
  std::array<std::size_t, 6> column;
  std::array<double, 6> value;
};

Catches::Catches(std::vector<base::Point> corners, base::Point center,
                 const readings::Instrument& instrument)
    : points_(corners), corners_(std::move(corners)), instrument_(instrument) {
  points_.push_back(center);
  const std::size_t unknowns = 2 * points_.size() + 2;
  q_ = base::Matrix(unknowns, unknowns);
  for (std::size_t i = 0; i + 2 < unknowns; ++i) q_(i, i) = kAnywhere_m * kAnywhere_m;
  const auto variance = [](double sd) { return std::max(sd, kExact) * std::max(sd, kExact); };
  q_(unknowns - 2, unknowns - 2) = variance(instrument.zero_m);
  q_(unknowns - 1, unknowns - 1) = variance(instrument.scale);
}

PairPull Catches::pull(std::size_t from, std::size_t to) const {
  const base::Point step = points_[to] - points_[from];
  const double length = base::norm_m(step);
  return {from, to, length, readings::standard_deviation_m(instrument_, length),
          (1.0 / length) * step};
}

Catches::Sparse Catches::sparse(const PairPull& pull) const {
  const std::size_t places = 2 * points_.size();
  return {{2 * pull.from, 2 * pull.from + 1, 2 * pull.to, 2 * pull.to + 1, places, places + 1},
          {-pull.along.x_m, -pull.along.y_m, pull.along.x_m, pull.along.y_m, 1.0, pull.length_m}};
}

double Catches::between(const PairPull& a, const PairPull& b) const {
  const Sparse x = sparse(a);
  const Sparse y = sparse(b);
  double sum = 0.0;
  for (std::size_t i = 0; i < x.column.size(); ++i)
    for (std::size_t j = 0; j < y.column.size(); ++j)
      sum += x.value[i] * q_(x.column[i], y.column[j]) * y.value[j];
  return sum;
}

/// Q ∓ Qa a'Q / (σ² ± a'Qa): the pull comes (+1) or goes (-1).
void Catches::update(const PairPull& pull, double sign) {
  const Sparse a = sparse(pull);
  std::vector<double> qa(q_.rows, 0.0);
  for (std::size_t e = 0; e < a.column.size(); ++e)
    for (std::size_t i = 0; i < q_.rows; ++i) qa[i] += q_(a.column[e], i) * a.value[e];
  double aqa = 0.0;
  for (std::size_t e = 0; e < a.column.size(); ++e) aqa += a.value[e] * qa[a.column[e]];
  const double factor = sign / (pull.sd_m * pull.sd_m + sign * aqa);
  for (std::size_t i = 0; i < q_.rows; ++i) {
    const double scaled = factor * qa[i];
    for (std::size_t j = 0; j < q_.cols; ++j) q_(i, j) -= scaled * qa[j];
  }
}

void Catches::add(const PairPull& pull) {
  update(pull, 1.0);
  pulls_.push_back(pull);
}

void Catches::remove(std::size_t position) {
  update(pulls_[position], -1.0);
  pulls_.erase(pulls_.begin() + static_cast<std::ptrdiff_t>(position));
}

double Catches::variance(const PairPull& pull) const { return between(pull, pull); }

double Catches::redundancy(std::size_t position) const {
  const PairPull& pull = pulls_[position];
  const double share = 1.0 - variance(pull) / (pull.sd_m * pull.sd_m);
  return share < kNoRedundancy ? 0.0 : share;
}

double Catches::smallest_catch_m(std::size_t position) const {
  const double share = redundancy(position);
  if (share == 0.0) return kInfinity;
  const double alpha = adjustment::shared_alpha(static_cast<double>(pulls_.size()));
  return adjustment::smallest_shift(alpha, kPower) * pulls_[position].sd_m / std::sqrt(share);
}

/// |ρ| of the residual of one pull with the residuals of all others that have any.
std::vector<double> Catches::residual_correlations(std::size_t position) const {
  const PairPull& own = pulls_[position];
  const double own_share = redundancy(position);
  std::vector<double> result;
  for (std::size_t j = 0; j < pulls_.size(); ++j) {
    const double share = j == position ? 0.0 : redundancy(j);
    if (share == 0.0) continue;
    const double scale = own.sd_m * pulls_[j].sd_m * std::sqrt(own_share * share);
    result.push_back(std::min(1.0, std::abs(between(own, pulls_[j])) / scale));
  }
  return result;
}

double Catches::chance_named(std::size_t position, double slip_m) const {
  const double share = redundancy(position);
  if (share == 0.0) return 0.0;
  const double strength = slip_m * std::sqrt(share) / pulls_[position].sd_m;
  const double alpha = adjustment::shared_alpha(static_cast<double>(pulls_.size()));
  return chance_named_of(strength, adjustment::normal_limit(alpha),
                         residual_correlations(position));
}

double Catches::smallest_named_m(std::size_t position) const {
  const double share = redundancy(position);
  if (share == 0.0) return kInfinity;
  const double alpha = adjustment::shared_alpha(static_cast<double>(pulls_.size()));
  const double limit = adjustment::normal_limit(alpha);
  const double per_meter = std::sqrt(share) / pulls_[position].sd_m;
  const std::vector<double> correlations = residual_correlations(position);
  double low = smallest_catch_m(position);
  double high = kLargestSlip_m;
  if (chance_named_of(low * per_meter, limit, correlations) >= kPower) return low;
  if (chance_named_of(high * per_meter, limit, correlations) < kPower) return kInfinity;
  constexpr int kHalvings = 50;
  for (int k = 0; k < kHalvings; ++k) {
    const double middle = 0.5 * (low + high);
    (chance_named_of(middle * per_meter, limit, correlations) < kPower ? low : high) = middle;
  }
  return high;
}

/// With e the deviations from the plan laid over all corners, that of corner k from the plan laid
/// over the others is (I - h)⁻¹e_k, h the corner's block of the hat matrix G·D: the deleted
/// residual.
std::vector<double> Catches::worst_sds() const {
  const base::Matrix motions = algebra::rigid_motions(corners_, base::middle_of(corners_));
  const base::Matrix answer = algebra::answer_of(motions, motions);
  const base::Matrix off = algebra::referred(q_, motions, answer);
  std::vector<double> result;
  for (std::size_t k = 0; k < corners_.size(); ++k) {
    base::Matrix left(2, 2);
    base::Matrix covariance(2, 2);
    for (const std::size_t a : {0, 1})
      for (const std::size_t b : {0, 1}) {
        covariance(a, b) = off(2 * k + a, 2 * k + b);
        left(a, b) = a == b ? 1.0 : 0.0;
        for (std::size_t m = 0; m < motions.cols; ++m)
          left(a, b) -= motions(2 * k + a, m) * answer(m, 2 * k + b);
      }
    const base::Matrix grown =
        algebra::propagated(algebra::inverse_of_positive(left).matrix, covariance);
    result.push_back(algebra::axes_of(algebra::block_of(grown, 0)).major);
  }
  return result;
}

double smallest_shift_m(const Targets& targets, double worst_sd_m) {
  return targets.tolerance_m +
         adjustment::smallest_shift(2.0 * (1.0 - targets.confidence), kPower) * worst_sd_m;
}

/// A'QA, all pulls by all pulls.
base::Matrix Catches::covariances() const {
  const std::size_t m = pulls_.size();
  base::Matrix aq(m, q_.cols);
  base::Matrix result(m, m);
  std::vector<Sparse> rows;
  for (std::size_t i = 0; i < m; ++i) {
    rows.push_back(sparse(pulls_[i]));
    for (std::size_t e = 0; e < rows[i].column.size(); ++e)
      for (std::size_t c = 0; c < q_.cols; ++c)
        aq(i, c) += rows[i].value[e] * q_(rows[i].column[e], c);
  }
  for (std::size_t i = 0; i < m; ++i)
    for (std::size_t j = i; j < m; ++j) {
      double sum = 0.0;
      for (std::size_t e = 0; e < rows[j].column.size(); ++e)
        sum += aq(i, rows[j].column[e]) * rows[j].value[e];
      result(i, j) = result(j, i) = sum;
    }
  return result;
}

/// Chances that a slip of the target's size in each pull is blamed on another, added up.
std::vector<double> Catches::chances_blamed(const std::vector<double>& strength) const {
  const std::size_t m = pulls_.size();
  const base::Matrix covariance = covariances();
  std::vector<double> result(m, 0.0);
  std::vector<double> scale(m);
  for (std::size_t i = 0; i < m; ++i)
    scale[i] = std::sqrt(pulls_[i].sd_m * pulls_[i].sd_m - covariance(i, i));
  for (std::size_t i = 0; i < m; ++i)
    for (std::size_t j = i + 1; j < m; ++j) {
      if (strength[i] == 0.0 || strength[j] == 0.0) continue;
      const double rho = std::min(1.0, std::abs(covariance(i, j)) / (scale[i] * scale[j]));
      const double apart = std::sqrt(0.5 * (1.0 - rho));
      for (const std::size_t k : {i, j})
        if (strength[k] * apart < kNeverBlamed) result[k] += phi(-strength[k] * apart);
    }
  return result;
}

double Catches::shortfall(const Targets& targets) const {
  const std::size_t m = pulls_.size();
  const double alpha = adjustment::shared_alpha(static_cast<double>(m));
  const double limit = adjustment::normal_limit(alpha);
  const double needed = adjustment::smallest_shift(alpha, kPower);
  const double called = adjustment::smallest_shift(2.0 * (1.0 - targets.confidence), kPower);
  std::vector<double> strength(m);
  for (std::size_t i = 0; i < m; ++i)
    strength[i] = targets.slip_m * std::sqrt(redundancy(i)) / pulls_[i].sd_m;
  const std::vector<double> blamed = chances_blamed(strength);
  double sum = 0.0;
  for (std::size_t i = 0; i < m; ++i) {
    sum += std::clamp(needed / std::max(strength[i], kExact) - 1.0, 0.0, kMostMiss);
    sum += std::max(0.0, kPower - (phi(strength[i] - limit) - blamed[i]));
  }
  for (const double sd : worst_sds())
    sum += std::clamp((targets.tolerance_m + called * sd) / targets.shift_m - 1.0, 0.0, kMostMiss);
  return sum;
}

}  // namespace stakewright::suspects

#include "slip_test.hpp"

#include <algorithm>

#include "slip_sets.hpp"

namespace stakewright::adjustment {
namespace {

/// A reading of which less shows in its residual cannot be weighed.
constexpr double kLeastRedundancy = 1e-6;

constexpr std::size_t kMostListed = 12;

std::vector<std::size_t> rows_of(const std::vector<std::size_t>& indices,
                                 const std::vector<std::size_t>& weighable) {
  std::vector<std::size_t> result;
  for (const std::size_t i : indices) result.push_back(weighable[i]);
  return result;
}

std::vector<SlipSet> listed(const WeighedReadings& weighed, const WeighedSets& sets) {
  std::vector<SlipSet> result;
  for (std::size_t s = 0; s < std::min(kMostListed, sets.sets.size()); ++s) {
    const SlipCandidate& set = sets.sets[s].set;
    const auto begin = set.members.begin();
    const std::vector<std::size_t> members(begin, begin + static_cast<std::ptrdiff_t>(set.size));
    result.push_back(
        {rows_of(members, weighed.weighable), slip_sizes(weighed.evidence, set), sets.chances[s]});
  }
  return result;
}

SlipVerdict verdict_from(Conclusion conclusion) {
  switch (conclusion) {
    case Conclusion::named:
      return SlipVerdict::named;
    case Conclusion::not_separable:
      return SlipVerdict::not_separable;
    case Conclusion::nothing_wrong:
      break;
  }
  return SlipVerdict::none;
}

}  // namespace

WeighedReadings weighed_readings(const LinearModel& model, const Estimate& estimate,
                                 const std::vector<double>& sd, int redundancy) {
  const Eigen::MatrixXd& A = model.design;
  const Eigen::VectorXd residuals = model.misclosure - A * estimate.correction;
  const Eigen::VectorXd shares = redundancy_numbers(A, estimate.cofactor);
  WeighedReadings result;
  std::vector<Eigen::Index> rows;
  for (std::size_t i = 0; i < sd.size(); ++i) {
    if (shares(as_index(i)) < kLeastRedundancy) continue;
    rows.push_back(as_index(i));
    result.weighable.push_back(i);
    result.evidence.sd.push_back(sd[i]);
  }
  const Eigen::MatrixXd B = A(rows, Eigen::all);
  result.evidence.cofactor = -B * estimate.cofactor * B.transpose();
  result.evidence.cofactor.diagonal().array() += 1.0;
  result.evidence.residuals = residuals(rows);
  result.evidence.chi_square = residuals.squaredNorm();
  result.evidence.redundancy = redundancy;
  return result;
}

SlipTest slip_test(const WeighedReadings& weighed, double misread) {
  const WeighedSets sets = weigh_all(weighed.evidence, misread, kMostListed);
  const auto groups = correlated_groups(weighed.evidence);
  const Concluded concluded = conclude(weighed.evidence, sets, groups);
  SlipTest test;
  test.verdict = verdict_from(concluded.conclusion);
  test.ranked = listed(weighed, sets);
  test.excluded = rows_of(concluded.named, weighed.weighable);
  for (const auto& group : groups) test.groups.push_back(rows_of(group, weighed.weighable));
  return test;
}

}  // namespace stakewright::adjustment

#include "stakewright/adjustment/slips.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <optional>

#include "evidence.hpp"
#include "least_squares.hpp"
#include "model.hpp"
#include "stakewright/adjustment/linear.hpp"
#include "stakewright/adjustment/quantiles.hpp"

namespace stakewright::adjustment {
namespace {

// All small sets of slips weighed against one another.

struct WeighedSets {
  std::vector<WeighedSet>
      sets;  ///< the leading ones in front, likeliest first; the rest in no order
  std::vector<double> chances;  ///< of the same sets; they add to one
};

/// Sets of three are grown from this many leading pairs: a set of three in which no two members
/// lead the pairs is far less likely than the pairs themselves.
constexpr std::size_t kPairsGrown = 24;

/// Chances of a slip are kept off nought and one, where no reading could change them.
constexpr double kLeastMisread = 1e-6;

/// Sets lighter than the leading one by exp(−this) are passed over: all pairs and triples of a
/// thousand readings together could not make a thousandth of its weight.
constexpr double kPassedOver = 28.0;

bool likelier(const WeighedSet& a, const WeighedSet& b) { return a.log_weight > b.log_weight; }

/// Adds sets as they are weighed, and knows the heaviest so far.
struct Collector {
  const ResidualEvidence& evidence;
  double log_odds = 0.0;
  double heaviest = 0.0;  ///< the set of no slips weighs exp(0)
  std::vector<WeighedSet> sets;

  void add(const SlipCandidate& set) {
    const auto weighed = weigh(evidence, set, log_odds, heaviest - kPassedOver);
    if (!weighed) return;
    heaviest = std::max(heaviest, weighed->log_weight);
    sets.push_back(*weighed);
  }
};

void put_in_front(std::vector<WeighedSet>& sets, std::size_t lead) {
  const auto middle = sets.begin() + static_cast<std::ptrdiff_t>(std::min(lead, sets.size()));
  std::partial_sort(sets.begin(), middle, sets.end(), likelier);
}

/// The leading pairs, each with every third reading, each set once.
void add_triples(std::vector<WeighedSet> pairs, Collector& collector) {
  put_in_front(pairs, kPairsGrown);
  std::vector<std::array<std::size_t, kMostSlips>> triples;
  for (std::size_t p = 0; p < std::min(kPairsGrown, pairs.size()); ++p) {
    const auto& pair = pairs[p].set.members;
    for (std::size_t third = 0; third < collector.evidence.sd.size(); ++third) {
      if (third == pair[0] || third == pair[1]) continue;
      triples.push_back({pair[0], pair[1], third});
      std::sort(triples.back().begin(), triples.back().end());
    }
  }
  std::sort(triples.begin(), triples.end());
  triples.erase(std::unique(triples.begin(), triples.end()), triples.end());
  for (const auto& members : triples) collector.add({members, 3});
}

/// Every set of none, one and two slips, and sets of three grown from the leading pairs.
/// `lead`: how many are put in order.  `misread`: chance that any one reading is a slip.
WeighedSets weigh_all(const ResidualEvidence& evidence, double misread, std::size_t lead) {
  const double chance = std::clamp(misread, kLeastMisread, 1.0 - kLeastMisread);
  Collector collector{evidence, std::log(chance / (1.0 - chance)), 0.0, {}};
  const std::size_t count = evidence.sd.size();
  collector.add({});
  for (std::size_t i = 0; i < count; ++i) collector.add({{i}, 1});
  const auto singles = static_cast<std::ptrdiff_t>(collector.sets.size());
  for (std::size_t i = 0; i < count; ++i)
    for (std::size_t j = i + 1; j < count; ++j) collector.add({{i, j}, 2});
  add_triples({collector.sets.begin() + singles, collector.sets.end()}, collector);
  WeighedSets result{std::move(collector.sets), {}};
  put_in_front(result.sets, lead);
  double sum = 0.0;
  for (const WeighedSet& w : result.sets) {
    result.chances.push_back(std::exp(w.log_weight - collector.heaviest));
    sum += result.chances.back();
  }
  for (double& share : result.chances) share /= sum;
  return result;
}

/// Readings whose residuals are fully correlated, each group of two or more.
std::vector<std::vector<std::size_t>> correlated_groups(const ResidualEvidence& evidence) {
  const std::size_t count = evidence.sd.size();
  std::vector<std::size_t> group(count);
  std::iota(group.begin(), group.end(), std::size_t{0});
  const Eigen::MatrixXd& M = evidence.cofactor;
  for (Eigen::Index i = 0; i < M.rows(); ++i)
    for (Eigen::Index j = i + 1; j < M.cols(); ++j)
      if (M(i, j) * M(i, j) > kFullyCorrelated * M(i, i) * M(j, j))
        std::replace(group.begin(), group.end(), group[static_cast<std::size_t>(j)],
                     group[static_cast<std::size_t>(i)]);
  std::vector<std::vector<std::size_t>> result;
  for (std::size_t g = 0; g < count; ++g) {
    std::vector<std::size_t> members;
    for (std::size_t i = 0; i < count; ++i)
      if (group[i] == g) members.push_back(i);
    if (members.size() > 1) result.push_back(std::move(members));
  }
  return result;
}

// What may be concluded.

struct Concluded {
  SlipVerdict verdict = SlipVerdict::none;
  std::vector<std::size_t> named;
};

/// Readings are named when the chance that they are all slips reaches this.
constexpr double kConvincing = 0.9;

/// Something must be wrong by the test of one reading, of a set of readings or of the whole, each
/// at this chance of a false alarm, before any reading is named.
constexpr double kAlarm = kReadingAlpha;

/// Above this chance of no slip at all an alarm is put down to chance or to a standard deviation
/// taken too small, not to a reading.
constexpr double kMoreLikelyThanNot = 0.5;

double number_of_sets(std::size_t size, std::size_t count) {
  double result = 1.0;
  for (std::size_t i = 0; i < size; ++i)
    result *= static_cast<double>(count - i) / static_cast<double>(i + 1);
  return result;
}

/// What a set of each size must explain: all sets of one size together raise no more false alarms
/// than all single readings do.
std::array<double, kMostSlips + 1> limits(std::size_t count) {
  std::array<double, kMostSlips + 1> result{};
  const double all = shared_alpha(static_cast<double>(count)) * static_cast<double>(count);
  for (std::size_t size = 1; size <= std::min(kMostSlips, count); ++size)
    result[size] = chi_square_limit(all / number_of_sets(size, count), static_cast<int>(size));
  return result;
}

bool something_is_wrong(const ResidualEvidence& evidence, const WeighedSets& weighed) {
  if (evidence.redundancy == 0) return false;
  if (evidence.chi_square > chi_square_limit(kAlarm, evidence.redundancy)) return true;
  const auto least = limits(evidence.sd.size());
  const WeighedSet& lead = weighed.sets.front();
  if (lead.set.size > 0 && lead.explained > least[lead.set.size]) return true;
  return std::any_of(weighed.sets.begin(), weighed.sets.end(), [&](const WeighedSet& w) {
    return w.set.size == 1 && w.explained > least[1];
  });
}

bool holds(const SlipCandidate& set, std::size_t reading) {
  const auto end = set.members.begin() + static_cast<std::ptrdiff_t>(set.size);
  return std::find(set.members.begin(), end, reading) != end;
}

/// Chance that every one of `readings` is a slip, whatever else is.
double chance_of_all(const WeighedSets& weighed, const std::vector<std::size_t>& readings) {
  double sum = 0.0;
  for (std::size_t s = 0; s < weighed.sets.size(); ++s) {
    const bool all = std::all_of(readings.begin(), readings.end(), [&](std::size_t reading) {
      return holds(weighed.sets[s].set, reading);
    });
    if (all) sum += weighed.chances[s];
  }
  return sum;
}

/// The readings of the leading set that are slips with a convincing chance, together.
std::vector<std::size_t> convincing(const WeighedSets& weighed) {
  const SlipCandidate& lead = weighed.sets.front().set;
  std::vector<std::size_t> result;
  for (std::size_t i = 0; i < lead.size; ++i)
    if (chance_of_all(weighed, {lead.members[i]}) >= kConvincing) result.push_back(lead.members[i]);
  if (!result.empty() && chance_of_all(weighed, result) < kConvincing) result.clear();
  return result;
}

bool in_a_group(const std::vector<std::vector<std::size_t>>& groups, std::size_t reading) {
  return std::any_of(groups.begin(), groups.end(), [&](const std::vector<std::size_t>& group) {
    return std::find(group.begin(), group.end(), reading) != group.end();
  });
}

/// Does the rest fit together when these readings are left out?
bool rest_fits(const ResidualEvidence& evidence, const std::vector<std::size_t>& readings) {
  SlipCandidate set;
  for (const std::size_t reading : readings) set.members[set.size++] = reading;
  const auto weighed = weigh(evidence, set, 0.0, 0.0);
  const int left = evidence.redundancy - static_cast<int>(set.size);
  return weighed && evidence.chi_square - weighed->explained <= chi_square_limit(kAlarm, left);
}

/// The conclusion, and when readings are named, which: by their index in the evidence.
Concluded conclude(const ResidualEvidence& evidence, const WeighedSets& weighed,
                   const std::vector<std::vector<std::size_t>>& groups) {
  if (!something_is_wrong(evidence, weighed)) return {};
  if (weighed.sets.front().set.size == 0 && weighed.chances.front() > kMoreLikelyThanNot) return {};
  const Concluded unclear{SlipVerdict::not_separable, {}};
  std::vector<std::size_t> named = convincing(weighed);
  // With less redundancy some other set of as many readings explains some slips just as well.
  if (named.empty() || evidence.redundancy < 2 * static_cast<int>(named.size())) return unclear;
  for (const std::size_t reading : named)
    if (in_a_group(groups, reading)) return unclear;
  if (!rest_fits(evidence, named)) return unclear;
  return {SlipVerdict::named, std::move(named)};
}

// From an adjusted linear model to what is said of slips in its readings.

/// The readings are the first rows of a model; other rows (priors) count but cannot be misread.
struct WeighedReadings {
  ResidualEvidence evidence;
  std::vector<std::size_t> weighable;  ///< per reading of the evidence: its row
};

/// A reading of the model, in meters, or radians for an angle.
struct Measured {
  double sd = 0.0;
  double usual_slip = kUsualSlip_m;
};

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

/// The rows that show in their own residuals.  `readings`: in the order of their rows.
WeighedReadings weighed_readings(const LinearModel& model, const Estimate& estimate,
                                 const std::vector<Measured>& readings, int redundancy) {
  const Eigen::MatrixXd& A = model.design;
  const Eigen::VectorXd residuals = model.misclosure - A * estimate.correction;
  const Eigen::VectorXd shares = redundancy_numbers(A, estimate.cofactor);
  WeighedReadings result;
  std::vector<Eigen::Index> rows;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (shares(as_index(i)) < kLeastRedundancy) continue;
    rows.push_back(as_index(i));
    result.weighable.push_back(i);
    result.evidence.sd.push_back(readings[i].sd);
    result.evidence.usual_slip.push_back(readings[i].usual_slip);
  }
  const Eigen::MatrixXd B = A(rows, Eigen::all);
  result.evidence.cofactor = -B * estimate.cofactor * B.transpose();
  result.evidence.cofactor.diagonal().array() += 1.0;
  result.evidence.residuals = residuals(rows);
  result.evidence.chi_square = residuals.squaredNorm();
  result.evidence.redundancy = redundancy;
  return result;
}

/// All small sets weighed, and the conclusion.  Indices are those of rows.
SlipTest slip_test(const WeighedReadings& weighed, double misread) {
  const WeighedSets sets = weigh_all(weighed.evidence, misread, kMostListed);
  const auto groups = correlated_groups(weighed.evidence);
  const Concluded concluded = conclude(weighed.evidence, sets, groups);
  SlipTest test;
  test.verdict = concluded.verdict;
  test.ranked = listed(weighed, sets);
  test.excluded = rows_of(concluded.named, weighed.weighable);
  for (const auto& group : groups) test.groups.push_back(rows_of(group, weighed.weighable));
  return test;
}

// The model of a network, at the places that its readings give without their slips.

/// Slips pull the places found toward them, so the sums are made again without the leading set
/// until it stays the same.  It stays at the first or second pass unless feet are at stake.
constexpr int kMostPasses = 4;

/// The linear model that is weighed, and the readings in it.
struct Case {
  std::vector<std::size_t> readings;  ///< that took part in the sums
  Unknowns unknowns;
  Eigen::Index defect = 0;
};

Case case_of(const Network& network, const Adjustment& adjustment) {
  Case result;
  std::vector<bool> asked(network.points.size(), false);
  for (std::size_t r = 0; r < network.observations.size(); ++r) {
    if (!adjustment.readings_out[r].used) continue;
    result.readings.push_back(r);
    for (const std::size_t point : network.observations[r].points())
      asked[point] = !network.points[point].known;
  }
  result.unknowns = all_unknowns(network, asked, result.readings);
  result.defect = result.unknowns.count - adjustment.unknowns;
  return result;
}

State state_of(const Network& network, const Adjustment& adjustment) {
  State state = planned_state(network);
  if (adjustment.status == Status::did_not_settle) return state;
  for (std::size_t p = 0; p < network.points.size(); ++p) state.at[p] = adjustment.found[p];
  for (const AdjustedInstrument& instrument : adjustment.instruments) {
    state.scale[instrument.instrument] = instrument.scale;
    state.zero_m[instrument.instrument] = instrument.zero_m;
  }
  return state;
}

/// Residuals at a state, and the readings they belong to: those with redundancy.
std::optional<WeighedReadings> weighed_at(const Network& network, const Case& c,
                                          const State& state) {
  const auto model = linear_model(network, c.unknowns, state, c.readings);
  if (!model) return std::nullopt;
  const auto estimate = least_squares(*model, c.defect);
  if (!estimate) return std::nullopt;
  std::vector<Measured> readings;
  for (const std::size_t r : c.readings) {
    const readings::Observation& seen = network.observations[r];
    readings.push_back({seen.sd, seen.is_angle() ? kUsualSlip_rad : kUsualSlip_m});
  }
  const auto redundancy = static_cast<int>(model->design.rows() - model->design.cols() + c.defect);
  return weighed_readings(*model, *estimate, readings, redundancy);
}

/// From rows of the model to observations of the network.
void number_as_the_network(const Case& c, SlipTest& test) {
  const auto renumber = [&](std::vector<std::size_t>& rows) {
    for (std::size_t& row : rows) row = c.readings[row];
  };
  for (SlipSet& set : test.ranked) renumber(set.readings);
  for (auto& group : test.groups) renumber(group);
  renumber(test.excluded);
}

/// Weighs at one state.  False when the state gives no residuals.
bool weigh_at(const Network& network, const Case& c, const State& state, double misread,
              SlipTest& test) {
  const auto weighed = weighed_at(network, c, state);
  if (!weighed) return false;
  test = slip_test(*weighed, misread);
  number_as_the_network(c, test);
  return true;
}

/// The places found without `left_out`; empty when the rest does not give them all.
std::optional<State> state_without(const Network& network, const Adjustment& all,
                                   const std::vector<std::size_t>& left_out) {
  std::vector<std::size_t> excluded = left_out;
  for (const AdjustedReading& reading : all.readings_out)
    if (reading.excluded) excluded.push_back(reading.observation);
  const Adjustment again = adjust(network, excluded);
  if (again.status == Status::did_not_settle) return std::nullopt;
  for (const AdjustedReading& now : again.readings_out)
    if (all.readings_out[now.observation].used && !now.excluded && !now.used) return std::nullopt;
  return state_of(network, again);
}

struct Course {
  SlipTest test;
  bool at_rest = false;  ///< the leading set is the one left out of the sums it was weighed at
};

/// Weighs at a state, leaves the leading set out, weighs again at the places then found, until the
/// same set leads.  `left_out`: what the state was found without; empty when it comes from no
/// readings.
Course weigh_from(const Network& network, const Adjustment& adjustment, const Case& c, State state,
                  std::optional<std::vector<std::size_t>> left_out, double misread) {
  Course course;
  for (int pass = 0; pass < kMostPasses; ++pass) {
    if (!weigh_at(network, c, state, misread, course.test)) return course;
    const std::vector<std::size_t> leading = course.test.ranked.front().readings;
    course.at_rest = left_out && leading == *left_out;
    if (course.at_rest) return course;
    const auto next = state_without(network, adjustment, leading);
    if (!next) return course;
    state = *next;
    left_out = leading;
  }
  return course;
}

}  // namespace

std::vector<SlipSet> rivals(const SlipTest& test) {
  constexpr double kNearlyAll = 0.99;
  std::vector<SlipSet> result;
  double told = 0.0;
  for (const SlipSet& set : test.ranked) {
    if (told >= kNearlyAll) break;
    result.push_back(set);
    told += set.chance;
  }
  return result;
}

SlipTest weigh_slips(const Network& network, const Adjustment& adjustment, double misread) {
  const Case c = case_of(network, adjustment);
  if (c.readings.empty()) return {};
  const bool settled = adjustment.status != Status::did_not_settle;
  Course course;
  if (settled)
    course = weigh_from(network, adjustment, c, state_of(network, adjustment),
                        std::vector<std::size_t>{}, misread);
  // A slip of feet bends the places found so far that the wrong set may lead there.  Stakes
  // stand nearer to the plan than that.
  if (!course.at_rest || course.test.verdict == SlipVerdict::not_separable) {
    Course from_plan =
        weigh_from(network, adjustment, c, planned_state(network), std::nullopt, misread);
    const bool clearer = from_plan.at_rest && from_plan.test.verdict == SlipVerdict::named;
    if (clearer || !settled) course = std::move(from_plan);
  }
  if (course.test.verdict == SlipVerdict::named && !course.at_rest) {
    course.test.verdict = SlipVerdict::not_separable;
    course.test.excluded.clear();
  }
  return course.test;
}

SlipTest weigh_slips(const LinearReadings& readings, double misread) {
  const LinearModel model = linear_model(readings, all_but({}, readings.values_m.size()));
  const auto estimate = least_squares(model, 0);
  if (!estimate) return {};
  const auto redundancy = static_cast<int>(model.design.rows() - model.design.cols());
  std::vector<Measured> measured;
  for (const double sd_m : readings.sd_m) measured.push_back({sd_m});
  return slip_test(weighed_readings(model, *estimate, measured, redundancy), misread);
}

}  // namespace stakewright::adjustment

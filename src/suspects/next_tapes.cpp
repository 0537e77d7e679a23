#include <algorithm>
#include <cmath>
#include <numbers>

#include "stakewright/suspects/tapes.hpp"
#include "weighing.hpp"

namespace stakewright::suspects {
namespace {

// What a reading that is not taken yet will be, under one explanation.

struct Prediction {
  double mean_m = 0.0;  ///< off the planned length
  double variance = 0.0;
};

/// A pull between two points with an instrument of the network, or with another one
/// (`instrument` = number of instruments) of known zero and scale.
struct Pull {
  std::size_t from = 0;
  std::size_t to = 0;
  std::size_t instrument = 0;
  double sd_m = 0.0;
};

/// The new reading's covariance with those taken is K·w: w has the prior variances of its two ends
/// and of its instrument, times what each adds to it.
struct Common {
  std::vector<std::size_t> column;
  std::vector<double> weight;
  double variance = 0.0;  ///< of the new reading, its own noise not in it
};

Common common(const Arrangement& arrangement, const Row& row) {
  Common result;
  const Model& model = arrangement.model;
  const auto add = [&](std::size_t column, double variance, double sensitivity) {
    result.column.push_back(column);
    result.weight.push_back(variance * sensitivity);
    result.variance += variance * sensitivity * sensitivity;
  };
  for (const readings::Answer& end : row.planned.answers()) {
    if (arrangement.network.points[end.point].known) continue;
    const double variance = model.spread_m * model.spread_m;
    add(model.point_column(end.point), variance, end.by.x_m);
    add(model.point_column(end.point) + 1, variance, end.by.y_m);
  }
  const std::size_t with = row.seen.instrument;
  if (with < model.instruments) {
    const readings::Instrument& instrument = arrangement.network.instruments[with];
    add(model.zero_column(with), instrument.zero_m * instrument.zero_m, row.planned.by_zero);
    add(model.scale_column(with), instrument.scale * instrument.scale, row.planned.by_scale);
  }
  return result;
}

/// How the new reading answers to the place of a point.
base::Point answer_to(const Row& row, std::size_t point) {
  for (const readings::Answer& end : row.planned.answers())
    if (end.point == point) return end.by;
  return {};
}

/// What one unit along each column of the hypothesis adds to the new reading.
std::vector<double> sensitivity(const Arrangement& arrangement, const Hypothesis& hypothesis,
                                const Row& row) {
  std::vector<double> result;
  for (const std::size_t index : hypothesis.causes) {
    const Candidate& cause = arrangement.catalogue[index];
    const bool same = cause.index == row.seen.instrument;
    switch (cause.what) {
      case Cause::What::stake: {
        const base::Point by = answer_to(row, cause.index);
        result.push_back(by.x_m);
        result.push_back(by.y_m);
        break;
      }
      case Cause::What::instrument_zero:
        result.push_back(same ? row.planned.by_zero : 0.0);
        break;
      case Cause::What::instrument_scale:
        result.push_back(same ? row.planned.by_scale : 0.0);
        break;
      default:  // a slip is of its own reading
        result.insert(result.end(), cause.dimensions, 0.0);
    }
  }
  return result;
}

Prediction predict(const Arrangement& arrangement, const Hypothesis& hypothesis, const Pull& pull) {
  const Model& model = arrangement.model;
  const base::Matrix& gram = model.gram;
  readings::Observation seen{pull.from, pull.to, pull.instrument, 0.0, 0.0, pull.sd_m};
  const Row row = row_of(seen, planned_places(arrangement.network));
  const Common q = common(arrangement, row);
  const std::vector<double>& projection = hypothesis.projection_of(model);
  std::vector<double> left = sensitivity(arrangement, hypothesis, row);
  const std::vector<base::Point> moved = displacements(arrangement.ground(), hypothesis);
  Prediction result{bend_of(arrangement.network, row, moved), row.sd * row.sd + q.variance};
  for (std::size_t i = 0; i < q.column.size(); ++i) {
    result.mean_m += q.weight[i] * projection[q.column[i]];
    for (std::size_t j = 0; j < q.column.size(); ++j)
      result.variance -= q.weight[i] * gram(q.column[i], q.column[j]) * q.weight[j];
    for (std::size_t k = 0; k < left.size(); ++k)
      left[k] -= q.weight[i] * gram(q.column[i], hypothesis.columns[k]);
  }
  for (std::size_t k = 0; k < left.size(); ++k) {
    result.mean_m += left[k] * hypothesis.sizes.mean[k];
    for (std::size_t l = 0; l < left.size(); ++l)
      result.variance += left[k] * hypothesis.sizes.covariance[k][l] * left[l];
  }
  return result;
}

/// A pull that settles less is not worth the walk.
constexpr double kLeastBits = 0.02;

/// Pulls are counted no further.
constexpr double kManyPulls = 20.0;

/// Points of the sum over what a pull may read under one explanation: 5 standard deviations each
/// way, close enough for the third figure of the bits.
constexpr int kReach = 20;
constexpr double kReach_sd = 5.0;

/// Explanations that say the same with more or less added, as one.
struct Group {
  double chance = 0.0;
  std::vector<std::size_t> members;  ///< of `ranked`; the first is the leading one
};

bool within(const std::vector<Cause>& few, const std::vector<Cause>& many) {
  return std::all_of(few.begin(), few.end(), [&](const Cause& cause) {
    return std::any_of(many.begin(), many.end(), [&](const Cause& other) {
      return cause.what == other.what && cause.index == other.index && cause.other == other.other;
    });
  });
}

std::vector<Group> groups(const Suspects& suspects) {
  std::vector<Group> result;
  double sum = 0.0;
  for (std::size_t e = 0; e < suspects.ranked.size(); ++e) {
    const Explanation& explanation = suspects.ranked[e];
    const auto place = std::find_if(result.begin(), result.end(), [&](const Group& group) {
      const std::vector<Cause>& leading = suspects.ranked[group.members.front()].causes;
      return !leading.empty() && within(leading, explanation.causes);
    });
    Group& group = place == result.end() ? result.emplace_back() : *place;
    group.chance += explanation.chance;
    group.members.push_back(e);
    sum += explanation.chance;
  }
  for (Group& group : result) group.chance /= sum;
  return result;
}

double density(const Prediction& prediction, double at) {
  const double off = at - prediction.mean_m;
  return std::exp(-0.5 * off * off / prediction.variance) /
         std::sqrt(2.0 * std::numbers::pi * prediction.variance);
}

struct Outlook {
  const Suspects* suspects = nullptr;
  std::vector<Group> groups;
  Weighing weighing;
};

/// Density of the pull's reading under a group: its members' by their chances.
double density(const Outlook& outlook, const Group& group,
               const std::vector<Prediction>& predictions, double at) {
  double sum = 0.0;
  double chances = 0.0;
  for (const std::size_t e : group.members) {
    const double chance = outlook.suspects->ranked[e].chance;
    sum += chance * density(predictions[e], at);
    chances += chance;
  }
  return chances > 0.0 ? sum / chances : 0.0;
}

/// Expected information about the group in the pull's reading, in bits: the sum over explanations
/// and readings of p·log2(density under its group / density under all).
double bits(const Outlook& outlook, const std::vector<Prediction>& predictions) {
  double sum = 0.0;
  double total = 0.0;
  for (const Explanation& explanation : outlook.suspects->ranked) total += explanation.chance;
  for (const Group& group : outlook.groups)
    for (const std::size_t e : group.members) {
      const double sd = std::sqrt(predictions[e].variance);
      for (int k = -kReach; k <= kReach; ++k) {
        const double z = kReach_sd * k / kReach;
        const double at = predictions[e].mean_m + z * sd;
        const double own = density(outlook, group, predictions, at);
        double all = 0.0;
        for (const Group& other : outlook.groups)
          all += other.chance * density(outlook, other, predictions, at);
        if (own <= 0.0 || all <= 0.0) continue;
        const double share = outlook.suspects->ranked[e].chance / total *
                             density(predictions[e], at) * sd * kReach_sd / kReach;
        sum += share * std::log2(own / all);
      }
    }
  return sum;
}

/// Expected gain of log odds of one prediction over another when the first is true.
double divergence(const Prediction& a, const Prediction& b) {
  const double off = a.mean_m - b.mean_m;
  return 0.5 * ((a.variance + off * off) / b.variance - 1.0 + std::log(b.variance / a.variance));
}

struct Worth {
  Pull pull;
  std::vector<Prediction> predictions;
  double bits = 0.0;
};

/// The two groups that this pull tells apart best, counted by their chances.
std::pair<std::size_t, std::size_t> told_apart(const Outlook& outlook, const Worth& worth) {
  std::pair<std::size_t, std::size_t> best{0, 0};
  double most = -1.0;
  for (std::size_t a = 0; a < outlook.groups.size(); ++a)
    for (std::size_t b = a + 1; b < outlook.groups.size(); ++b) {
      const Prediction& pa = worth.predictions[outlook.groups[a].members.front()];
      const Prediction& pb = worth.predictions[outlook.groups[b].members.front()];
      // Beyond a clear answer more does not count.
      const double gain = std::min(divergence(pa, pb), 4.0) + std::min(divergence(pb, pa), 4.0);
      const double score = outlook.groups[a].chance * outlook.groups[b].chance * gain;
      if (score > most) {
        most = score;
        best = {a, b};
      }
    }
  return best;
}

/// Pulls until the true group stands at `confidence` against each rival, the best pull for each
/// pair of rivals being repeated, averaged over which group is true.
double pulls_until_clear(const Outlook& outlook, const std::vector<Worth>& all, double confidence) {
  const double wanted = std::log(confidence / (1.0 - confidence));
  double expected = 0.0;
  for (std::size_t a = 0; a < outlook.groups.size(); ++a) {
    double needed = 0.0;
    for (std::size_t b = 0; b < outlook.groups.size(); ++b) {
      if (b == a) continue;
      const double lacking = wanted - std::log(outlook.groups[a].chance / outlook.groups[b].chance);
      if (!(lacking > 0.0)) continue;
      double gain = 0.0;
      for (const Worth& worth : all)
        gain = std::max(gain, divergence(worth.predictions[outlook.groups[a].members.front()],
                                         worth.predictions[outlook.groups[b].members.front()]));
      needed = std::max(needed, std::min(kManyPulls, std::max(1.0, lacking / gain)));
    }
    expected += outlook.groups[a].chance * needed;
  }
  return expected;
}

std::size_t commonest_instrument(const adjustment::Network& network) {
  std::vector<std::size_t> uses(network.instruments.size(), 0);
  for (const readings::Observation& observation : network.observations)
    if (!observation.is_angle()) ++uses[observation.instrument];
  return static_cast<std::size_t>(std::max_element(uses.begin(), uses.end()) - uses.begin());
}

bool instrument_suspected(const Suspects& suspects) {
  for (const Explanation& explanation : suspects.ranked)
    for (const Cause& cause : explanation.causes)
      if (cause.what == Cause::What::instrument_zero || cause.what == Cause::What::instrument_scale)
        return true;
  return false;
}

bool known_or_reached(const adjustment::Network& network, std::size_t point) {
  if (network.points[point].role == adjustment::Role::corner) return true;
  return std::any_of(network.observations.begin(), network.observations.end(),
                     [&](const readings::Observation& observation) {
                       return observation.from == point || observation.to == point ||
                              observation.at == point;
                     });
}

/// All pulls that may be made: between corners, and to a center pin or site pin that is in use.
std::vector<Worth> possible(const Outlook& outlook, const adjustment::Network& network) {
  std::vector<Worth> result;
  const std::size_t commonest = commonest_instrument(network);
  const bool suspected = instrument_suspected(*outlook.suspects);
  const auto add = [&](std::size_t from, std::size_t to, std::size_t instrument) {
    const double planned =
        base::distance_m(network.points[from].planned, network.points[to].planned);
    Worth worth{{from, to, instrument,
                 readings::standard_deviation_m(network.instruments[commonest], planned)},
                {},
                0.0};
    for (const Entry& entry : outlook.weighing.entries)
      worth.predictions.push_back(
          predict(outlook.weighing.arrangements[entry.arrangement], entry.hypothesis, worth.pull));
    worth.bits = bits(outlook, worth.predictions);
    result.push_back(std::move(worth));
  };
  for (std::size_t from = 0; from < network.points.size(); ++from)
    for (std::size_t to = from + 1; to < network.points.size(); ++to) {
      if (!known_or_reached(network, from) || !known_or_reached(network, to)) continue;
      if (network.points[from].known && network.points[to].known) continue;
      add(from, to, commonest);
      if (suspected) add(from, to, network.instruments.size());
    }
  return result;
}

NextTape next_tape(const adjustment::Network& network, const Outlook& outlook, const Worth& worth) {
  NextTape tape;
  tape.from = worth.pull.from;
  tape.to = worth.pull.to;
  tape.settles = worth.bits;
  tape.another_tape = worth.pull.instrument == network.instruments.size();
  tape.repeat = std::any_of(network.observations.begin(), network.observations.end(),
                            [&](const readings::Observation& observation) {
                              return !observation.is_angle() &&
                                     std::minmax(observation.from, observation.to) ==
                                         std::minmax(tape.from, tape.to);
                            });
  const auto [a, b] = told_apart(outlook, worth);
  tape.tells = outlook.groups[a].members.front();
  tape.tells_from = outlook.groups[b].members.front();
  return tape;
}

}  // namespace

std::vector<NextTape> next_tapes(const adjustment::Network& network, const Suspects& suspects,
                                 const Setting& setting, std::size_t most) {
  std::vector<NextTape> result;
  Outlook outlook{&suspects, groups(suspects), {}};
  const bool settled =
      std::any_of(outlook.groups.begin(), outlook.groups.end(),
                  [&](const Group& g) { return g.chance >= setting.tolerance.confidence; });
  if (outlook.groups.size() < 2 || settled) return result;
  outlook.weighing = recall(network, setting, suspects);
  std::vector<Worth> pulls = possible(outlook, network);
  const double until = pulls_until_clear(outlook, pulls, setting.tolerance.confidence);
  std::sort(pulls.begin(), pulls.end(),
            [](const Worth& a, const Worth& b) { return a.bits > b.bits; });
  for (const Worth& worth : pulls) {
    if (result.size() == most || worth.bits < kLeastBits) break;
    const bool there = std::any_of(result.begin(), result.end(), [&](const NextTape& tape) {
      return tape.from == worth.pull.from && tape.to == worth.pull.to;
    });
    if (there) continue;
    result.push_back(next_tape(network, outlook, worth));
    result.back().pulls_until_clear = until;
  }
  return result;
}

}  // namespace stakewright::suspects

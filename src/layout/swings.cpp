#include "stakewright/layout/swings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "stakewright/base/angle.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"
#include "standing.hpp"

namespace stakewright::layout {
namespace {

/// A crossing of exactly 30 degrees (two corners 120 degrees apart, seen from the third) is not
/// flatter than 30 for the last digit of a sine.
constexpr double kAngleRounding_rad = 1e-9;

/// Stakes that mirror each other are as good as each other: a gain below this is rounding, and the
/// earlier label goes first on every machine.
constexpr double kRealGain = 1e-6;

bool is_square_enough(const Crossing& crossing) {
  return crossing.angle_rad >= kFlattestCrossing_rad - kAngleRounding_rad;
}

bool is_better(const Crossing& a, const Crossing& b) {
  if (is_square_enough(a) != is_square_enough(b)) return is_square_enough(a);
  return a.sd_m < b.sd_m * (1.0 - kRealGain);
}

void keep_better(std::optional<Crossing>& best, const std::optional<Crossing>& other) {
  if (other && (!best || is_better(*other, *best))) best = other;
}

/// Corners and center pin, the center pin first.
std::vector<Stake> all_stakes(const Plan& plan) {
  std::vector<Stake> result{{kCenterLabel, plan.center}};
  const auto corners = stakes(plan);
  result.insert(result.end(), corners.begin(), corners.end());
  return result;
}

bool has_label(const std::vector<Stake>& some, const std::string& label) {
  return std::any_of(some.begin(), some.end(), [&](const Stake& s) { return s.label == label; });
}

void require_known_holds(const Plan& plan) {
  const auto corners = stakes(plan);
  for (auto label = plan.hold.begin(); label != plan.hold.end(); ++label) {
    if (!has_label(corners, *label))
      throw base::InputError(fmt::format("hold {}; accepted are {} to {}", base::in_quotes(*label),
                                         corners.front().label, corners.back().label));
    if (std::find(plan.hold.begin(), label, *label) != label)
      throw base::InputError(fmt::format("hold {} comes twice", base::in_quotes(*label)));
  }
}

void require_usable_pins(const Plan& plan, const std::vector<Stake>& all) {
  for (auto pin = plan.pins.begin(); pin != plan.pins.end(); ++pin) {
    if (has_label(all, pin->name))
      throw base::InputError(
          fmt::format("pin {}: a stake of this plan has that name", base::in_quotes(pin->name)));
    for (auto other = plan.pins.begin(); other != pin; ++other)
      if (base::distance_m(pin->at, other->at) < kSamePlace_m)
        throw base::InputError(fmt::format("pins {} and {} are at one place",
                                           base::in_quotes(other->name),
                                           base::in_quotes(pin->name)));
  }
}

/// The stakes still to be set, each with its best pair of tapes so far.
class ToSet {
 public:
  ToSet(const std::vector<Stake>& wanted, const Standing& standing) {
    for (const Stake& stake : wanted)
      if (!standing.has(stake.label)) rows_.push_back({stake, std::nullopt});
    for (std::size_t k = 1; k < standing.size(); ++k) weigh(standing, k);
  }

  /// Weighs every pair of the standing point `newest` with an earlier one.
  void weigh(const Standing& standing, std::size_t newest) {
    for (Row& row : rows_)
      for (std::size_t i = 0; i < newest; ++i)
        keep_better(row.best, standing.crossing(i, newest, row.stake.at));
  }

  struct Row {
    Stake stake;
    std::optional<Crossing> best;
  };

  /// Takes out the stake with the best crossing; with no crossing when none has one.
  Row take_next() {
    auto next = rows_.begin();
    for (auto row = rows_.begin(); row != rows_.end(); ++row)
      if (row->best && (!next->best || is_better(*row->best, *next->best))) next = row;
    Row result = *next;
    rows_.erase(next);
    return result;
  }

  [[nodiscard]] bool empty() const { return rows_.empty(); }

 private:
  std::vector<Row> rows_;
};

double turned_once(double bearing) {
  const double turn = 2.0 * std::numbers::pi;
  const double rest = std::fmod(bearing, turn);
  return rest < 0.0 ? rest + turn : rest;
}

/// Puts up the second point of a baseline when only one is known.
void sight_second_point(const std::vector<Stake>& all, Standing& standing, StakingOrder& order) {
  const base::Point from = standing.at(0);
  const Stake& stake = base::distance_m(from, all[0].at) < kSamePlace_m ? all[1] : all[0];
  const base::Point line = stake.at - from;
  order.sighted = Sighting{stake.label, standing.labels()[0], base::norm_m(line),
                           turned_once(base::bearing_rad(line))};
  order.remarks.push_back(fmt::format(
      "{0} is set from {1} by sight, on bearing {2}. That line turns the whole polygon, and no "
      "tape "
      "between stakes proves it.",
      stake.label, order.sighted->from, base::text_from_bearing(order.sighted->bearing_rad)));
  standing.add_along(stake.label, stake.at);
}

/// Held stakes whose place no pin marks, in the order given.
std::vector<Stake> held_stakes(const Plan& plan, const std::vector<Stake>& all,
                               const Standing& standing) {
  std::vector<Stake> result;
  for (const std::string& label : plan.hold)
    for (const Stake& stake : all)
      if (stake.label == label && !standing.has(label)) result.push_back(stake);
  return result;
}

/// Pins stand without error, and with them a stake whose place a pin marks.
void put_up_pins(const Plan& plan, const std::vector<Stake>& all, Standing& standing,
                 StakingOrder& order) {
  for (const Pin& pin : plan.pins) standing.add_exact(pin.name, pin.at);
  for (const Pin& pin : plan.pins)
    for (const Stake& stake : all) {
      if (base::distance_m(stake.at, pin.at) >= kSamePlace_m) continue;
      standing.add_exact(stake.label, stake.at);
      order.remarks.push_back(
          fmt::format("{} stands already: pin {} marks its place.", stake.label, pin.name));
    }
}

/// Two points that say where the polygon is and how it is turned, unless the pins do.
void put_up_baseline(const Plan& plan, const std::vector<Stake>& all, Standing& standing,
                     StakingOrder& order) {
  if (plan.pins.size() >= 2) return;
  auto held = held_stakes(plan, all, standing);
  if (plan.pins.empty()) {
    const Stake first = held.empty() ? all[0] : held[0];
    standing.add_exact(first.label, first.at);
    if (!held.empty()) held.erase(held.begin());
  }
  if (held.empty())
    sight_second_point(all, standing, order);
  else
    standing.add_along(held[0].label, held[0].at);
}

/// Further held stakes stand as if swung from what stands already, or taped along it.
void put_up_other_held(const Plan& plan, const std::vector<Stake>& all, Standing& standing) {
  ToSet held(held_stakes(plan, all, standing), standing);
  while (!held.empty()) {
    const auto next = held.take_next();
    if (next.best)
      standing.add_crossing(next.stake.label, next.stake.at, *next.best);
    else
      standing.add_along(next.stake.label, next.stake.at);
    held.weigh(standing, standing.size() - 1);
  }
}

Hand hand_of(base::Point first, base::Point second, base::Point place) {
  return base::dot(base::clockwise(second - first), place - first) > 0.0 ? Hand::right : Hand::left;
}

Swing swing_of(const Stake& stake, const Crossing& crossing, const Standing& standing) {
  const base::Point first = standing.at(crossing.first);
  const base::Point second = standing.at(crossing.second);
  return {stake.label,
          {Hold{standing.labels()[crossing.first], base::distance_m(first, stake.at)},
           Hold{standing.labels()[crossing.second], base::distance_m(second, stake.at)}},
          hand_of(first, second, stake.at),
          crossing.angle_rad,
          crossing.sd_m};
}

void swing_the_rest(const std::vector<Stake>& all, Standing& standing, StakingOrder& order) {
  ToSet rest(all, standing);
  while (!rest.empty()) {
    const auto next = rest.take_next();
    if (!next.best)
      throw base::InputError(
          "the points given stand in line with every stake, so no two tapes cross; "
          "give another pin or hold two stakes");
    order.swings.push_back(swing_of(next.stake, *next.best, standing));
    if (!is_square_enough(*next.best))
      order.remarks.push_back(fmt::format(
          "{} is set by tapes that cross flatter than 30 degrees: no better pair stands.",
          next.stake.label));
    standing.add_crossing(next.stake.label, next.stake.at, *next.best);
    rest.weigh(standing, standing.size() - 1);
  }
}

}  // namespace

StakingOrder staking_order(const Plan& plan, const TapeSpread& spread) {
  const auto all = all_stakes(plan);
  require_known_holds(plan);
  require_usable_pins(plan, all);
  StakingOrder order;
  Standing standing(spread, plan.pins.size() + all.size());
  put_up_pins(plan, all, standing, order);
  put_up_baseline(plan, all, standing, order);
  put_up_other_held(plan, all, standing);
  order.given = standing.labels();
  swing_the_rest(all, standing, order);
  return order;
}

}  // namespace stakewright::layout

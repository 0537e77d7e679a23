#include "stakewright/forms/reading_rows.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <limits>
#include <map>
#include <optional>

#include "points.hpp"

namespace stakewright::forms {
namespace {

/// A walk no longer than another by more than this is as short: rounding must not choose.
constexpr double kRealGain_m = 1e-6;

bool is_in_large_set(const layout::Tape& tape) { return tape.skip <= 2; }

std::vector<layout::Tape> long_diagonals(const layout::Plan& plan) {
  const auto corners = layout::stakes(plan);
  const auto sides = static_cast<std::size_t>(plan.polygon.sides);
  const std::size_t skip = sides / 2;
  std::vector<layout::Tape> tapes;
  for (std::size_t k = 0; k < kLongDiagonals; ++k) {
    const std::size_t first = k * sides / (2 * kLongDiagonals);  // half way round: each stands once
    const auto& from = corners[first];
    const auto& to = corners[first + skip];
    tapes.push_back(
        {from.label, to.label, static_cast<int>(skip), base::distance_m(from.at, to.at)});
  }
  return tapes;
}

/// The points of the plan by label, and each corner's place in the walk round.
class Site {
 public:
  explicit Site(const layout::Plan& plan) : at_(points_by_label(plan)) {
    for (const layout::Stake& corner : layout::stakes(plan)) order_[corner.label] = order_.size();
  }

  [[nodiscard]] base::Point at(const std::string& label) const {
    const auto found = at_.find(label);
    assert(found != at_.end());
    return found->second;
  }
  [[nodiscard]] std::optional<std::size_t> place_in_round(const std::string& label) const {
    const auto found = order_.find(label);
    if (found == order_.end()) return std::nullopt;
    return found->second;
  }
  [[nodiscard]] std::size_t corners() const { return order_.size(); }

 private:
  std::map<std::string, base::Point> at_;
  std::map<std::string, std::size_t> order_;
};

bool ends_at(const layout::Tape& tape, const std::string& label) {
  return tape.from == label || tape.to == label;
}

/// The tape as held at `hold`.
layout::Tape held_at(layout::Tape tape, const std::string& hold) {
  if (tape.from != hold) std::swap(tape.from, tape.to);
  return tape;
}

/// Labels in the order in which the tapes first name them, corners in walking order first.
std::vector<std::string> ends(const Site& site, const std::vector<layout::Tape>& tapes) {
  std::vector<std::string> labels;
  for (const layout::Tape& tape : tapes)
    for (const std::string& label : {tape.from, tape.to})
      if (std::find(labels.begin(), labels.end(), label) == labels.end()) labels.push_back(label);
  std::stable_sort(labels.begin(), labels.end(), [&](const auto& a, const auto& b) {
    constexpr auto kAfterCorners = std::numeric_limits<std::size_t>::max();
    return site.place_in_round(a).value_or(kAfterCorners) <
           site.place_in_round(b).value_or(kAfterCorners);
  });
  return labels;
}

std::string next_hold(const Site& site, const std::vector<layout::Tape>& left,
                      const std::optional<std::string>& last) {
  std::string best;
  std::ptrdiff_t most = 0;
  double nearest_m = 0.0;
  for (const std::string& label : ends(site, left)) {
    const auto count = std::count_if(left.begin(), left.end(),
                                     [&](const auto& tape) { return ends_at(tape, label); });
    const double walk_m = last ? base::distance_m(site.at(*last), site.at(label)) : 0.0;
    if (count > most || (count == most && walk_m < nearest_m - kRealGain_m)) {
      best = label;
      most = count;
      nearest_m = walk_m;
    }
  }
  return best;
}

double walk_m(const Site& site, const std::vector<layout::Tape>& round, base::Point from) {
  double sum = 0.0;
  for (const layout::Tape& tape : round) {
    sum += base::distance_m(from, site.at(tape.to));
    from = site.at(tape.to);
  }
  return sum;
}

/// Puts a tape to the center or a pin where it lengthens the walk least.
void take_in(const Site& site, std::vector<layout::Tape>& round, const layout::Tape& tape,
             base::Point reader) {
  std::size_t best = 0;
  double shortest = std::numeric_limits<double>::infinity();
  for (std::size_t place = 0; place <= round.size(); ++place) {
    auto longer = round;
    longer.insert(longer.begin() + static_cast<std::ptrdiff_t>(place), tape);
    const double length = walk_m(site, longer, reader);
    if (length < shortest - kRealGain_m) {
      shortest = length;
      best = place;
    }
  }
  round.insert(round.begin() + static_cast<std::ptrdiff_t>(best), tape);
}

/// Walking order of the reading end for one hold, from where it stands.
std::vector<layout::Tape> round_of(const Site& site, const std::string& hold,
                                   const std::vector<layout::Tape>& tapes, base::Point reader) {
  std::vector<layout::Tape> round;
  std::vector<layout::Tape> aside;
  for (const layout::Tape& tape : tapes)
    (site.place_in_round(tape.to) ? round : aside).push_back(tape);

  const std::size_t start = site.place_in_round(hold).value_or(0);
  const auto steps = [&](const layout::Tape& tape) {
    return (*site.place_in_round(tape.to) + site.corners() - start) % site.corners();
  };
  std::stable_sort(round.begin(), round.end(),
                   [&](const auto& a, const auto& b) { return steps(a) < steps(b); });
  auto backwards = round;
  std::reverse(backwards.begin(), backwards.end());
  if (walk_m(site, backwards, reader) < walk_m(site, round, reader) - kRealGain_m)
    round = backwards;
  for (const layout::Tape& tape : aside) take_in(site, round, tape, reader);
  return round;
}

}  // namespace

std::vector<layout::Tape> standing_tapes(const layout::Plan& plan) {
  auto tapes = layout::check_tapes(plan);
  if (plan.polygon.sides <= kMostSidesTapedInFull) return tapes;
  std::erase_if(tapes, [](const auto& tape) { return !is_in_large_set(tape); });
  const auto across = long_diagonals(plan);
  tapes.insert(tapes.end(), across.begin(), across.end());
  return tapes;
}

std::vector<Station> by_station(const layout::Plan& plan, const std::vector<layout::Tape>& tapes) {
  const Site site(plan);
  auto left = tapes;
  std::vector<Station> stations;
  std::optional<std::string> last;
  base::Point reader;
  while (!left.empty()) {
    const std::string hold = next_hold(site, left, last);
    if (!last) reader = site.at(hold);
    std::vector<layout::Tape> here;
    for (const layout::Tape& tape : left)
      if (ends_at(tape, hold)) here.push_back(held_at(tape, hold));
    std::erase_if(left, [&](const auto& tape) { return ends_at(tape, hold); });
    stations.push_back({hold, round_of(site, hold, here, reader)});
    reader = site.at(stations.back().tapes.back().to);
    last = hold;
  }
  return stations;
}

}  // namespace stakewright::forms

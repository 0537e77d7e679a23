#include "stakewright/forms/reading_rows.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <limits>
#include <map>
#include <optional>
#include <utility>

#include "stakewright/base/error.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/results/tapes.hpp"
#include "stakewright/suspects/tapes.hpp"

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

std::vector<layout::Tape> tapes_of(const layout::Plan& plan,
                                   const std::vector<suspects::PlannedPull>& pulls) {
  std::map<std::pair<std::string, std::string>, int> skips;
  for (const layout::Tape& tape : layout::check_tapes(plan)) {
    skips[{tape.from, tape.to}] = tape.skip;
    skips[{tape.to, tape.from}] = tape.skip;
  }
  std::vector<layout::Tape> tapes;
  for (const suspects::PlannedPull& pull : pulls)
    tapes.push_back({pull.from, pull.to, skips.at({pull.from, pull.to}), pull.length_m});
  return tapes;
}

}  // namespace

std::map<std::string, base::Point> points_by_label(const layout::Plan& plan) {
  std::map<std::string, base::Point> points;
  for (const layout::Pin& pin : plan.pins) points[pin.name] = pin.at;
  for (const layout::Stake& corner : layout::stakes(plan)) points[corner.label] = corner.at;
  points[layout::kCenterLabel] = plan.center;
  return points;
}

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

TapeSet usual_tapes(const layout::Plan& plan) {
  return plan.polygon.sides <= kMostSidesTapedInFull ? TapeSet::plan : TapeSet::all;
}

TapeSet tape_set_from_text(std::string_view text) {
  if (text == "plan") return TapeSet::plan;
  if (text == "all") return TapeSet::all;
  throw base::InputError(
      base::Fact{"errors.tape_set", {{"read", base::Quoted{std::string(text)}}}});
}

ReadingRows reading_rows(const job::Job& job, TapeSet set) {
  if (set == TapeSet::all) return {walked(job.plan, standing_tapes(job.plan)), {}};
  const suspects::TapePlan plan = suspects::tape_plan(job.plan, results::usual_request(job));
  return {tapes_of(job.plan, plan.pulls), plan.misses};
}

std::vector<layout::Tape> walked(const layout::Plan& plan, const std::vector<layout::Tape>& tapes) {
  std::vector<layout::Tape> result;
  for (const Station& station : by_station(plan, tapes))
    result.insert(result.end(), station.tapes.begin(), station.tapes.end());
  return result;
}

std::vector<Station> grouped(const std::vector<layout::Tape>& tapes) {
  std::vector<Station> stations;
  for (const layout::Tape& tape : tapes) {
    if (stations.empty() || stations.back().hold != tape.from) stations.push_back({tape.from, {}});
    stations.back().tapes.push_back(tape);
  }
  return stations;
}

}  // namespace stakewright::forms

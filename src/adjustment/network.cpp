#include "stakewright/adjustment/network.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "stakewright/base/error.hpp"
#include "stakewright/base/promise.hpp"

namespace stakewright::adjustment {
namespace {

bool has_label(const std::vector<NetworkPoint>& points, const std::string& label) {
  return std::any_of(points.begin(), points.end(),
                     [&](const NetworkPoint& point) { return point.label == label; });
}

std::vector<NetworkPoint> points_of(const layout::Plan& plan) {
  std::vector<NetworkPoint> points;
  for (const layout::Stake& stake : layout::stakes(plan))
    points.push_back({stake.label, Role::corner, stake.at, false});
  points.push_back({layout::kCenterLabel, Role::center, plan.center, false});
  for (const layout::Pin& pin : plan.pins) {
    if (has_label(points, pin.name))
      throw base::InputError(fmt::format(
          "pin {}: the name is taken by another point; each point needs a name of its own",
          pin.name));
    points.push_back({pin.name, Role::pin, pin.at, true});
  }
  return points;
}

std::vector<std::size_t> datum_of(const layout::Plan& plan, const std::vector<NetworkPoint>& points,
                                  std::size_t corner_count) {
  std::vector<std::size_t> datum;
  for (const std::string& label : plan.hold) {
    std::size_t corner = 0;
    while (corner < corner_count && points[corner].label != label) ++corner;
    if (corner == corner_count)
      throw base::InputError(fmt::format("hold: there is no stake {}; stakes are {} to {}", label,
                                         points.front().label, points[corner_count - 1].label));
    datum.push_back(corner);
  }
  std::sort(datum.begin(), datum.end());
  datum.erase(std::unique(datum.begin(), datum.end()), datum.end());
  if (datum.empty()) {
    datum.resize(corner_count);
    std::iota(datum.begin(), datum.end(), std::size_t{0});
  }
  return datum;
}

}  // namespace

void demand_sound(const Network& network) {
  base::promise(network.corner_count <= network.points.size(), "network: corners are points");
  for (const std::size_t corner : network.datum)
    base::promise(corner < network.corner_count, "network: the datum is of corners");
  for (const readings::Observation& observation : network.observations) {
    for (const std::size_t point : observation.points())
      base::promise(point < network.points.size(), "network: observations end at points");
    base::promise(observation.instrument < network.instruments.size(),
                  "network: observations have an instrument");
    base::promise(std::isfinite(observation.corrected) && std::isfinite(observation.sd) &&
                      observation.sd >= 0.0,
                  "network: observations are numbers with a standard deviation");
  }
}

Network network(const layout::Plan& plan, const std::vector<readings::Reading>& readings,
                const std::vector<readings::Instrument>& instruments) {
  Network result;
  result.points = points_of(plan);
  result.corner_count = static_cast<std::size_t>(plan.polygon.sides);
  result.datum = datum_of(plan, result.points, result.corner_count);
  result.instruments = instruments;
  std::vector<std::string> labels;
  std::vector<base::Point> places;
  for (const NetworkPoint& point : result.points) {
    labels.push_back(point.label);
    places.push_back(point.planned);
  }
  result.observations = readings::observations(readings, instruments, labels, places);
  return result;
}

bool same_points(const readings::Observation& a, const readings::Observation& b) {
  if (a.at != b.at) return false;
  const bool same = a.from == b.from && a.to == b.to;
  return same || (!a.is_angle() && a.from == b.to && a.to == b.from);
}

base::Id by_kind(const Network& network, std::size_t reading, ByKind ids) {
  switch (network.instruments[network.observations[reading].instrument].kind) {
    case readings::Kind::angle:
      return ids.angle;
    case readings::Kind::laser:
      return ids.laser;
    case readings::Kind::tape:
    case readings::Kind::level:
      break;
  }
  return ids.tape;
}

base::ReadingName points_of(const Network& network, std::size_t reading) {
  const readings::Observation& own = network.observations[reading];
  base::ReadingName name{{network.points[own.from].label}};
  if (own.at) name.points.push_back(network.points[*own.at].label);
  name.points.push_back(network.points[own.to].label);
  return name;
}

base::ReadingName name_of(const Network& network, std::size_t reading) {
  base::ReadingName name = points_of(network, reading);
  name.of = 0;
  for (std::size_t i = 0; i < network.observations.size(); ++i) {
    if (!same_points(network.observations[reading], network.observations[i])) continue;
    ++name.of;
    if (i < reading) ++name.which;
  }
  return name;
}

}  // namespace stakewright::adjustment

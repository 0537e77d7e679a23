#include "stakewright/placement/moves.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>
#include <optional>

#include "stakewright/algebra/algebra.hpp"
#include "stakewright/base/promise.hpp"

namespace stakewright::placement {
namespace {

using base::Point;

// Tapes that cross flatter than a degree put a stake nowhere.
constexpr double kNoCrossing_rad = std::numbers::pi / 180.0;
// Crossings closer than this are equal; the shorter tapes are taken then.
constexpr double kSameCrossing_rad = 1e-9;

// A stake a tape can be held at: where it stands.
struct Hold {
  std::size_t corner = 0;
  Point at;
};

struct Crossing {
  Hold first;
  Hold second;
  double angle_rad = 0.0;
  double tapes_m = 0.0;
};

// Between the two tapes, 0 to a quarter turn.
double crossing_rad(Point at, Point first, Point second) {
  const Point a = first - at;
  const Point b = second - at;
  return std::atan2(std::abs(base::dot(base::clockwise(a), b)), std::abs(base::dot(a, b)));
}

std::optional<Crossing> squarest(const std::vector<Hold>& holds, Point at) {
  std::optional<Crossing> best;
  for (std::size_t i = 0; i < holds.size(); ++i) {
    for (std::size_t j = i + 1; j < holds.size(); ++j) {
      const Crossing crossing{
          holds[i], holds[j], crossing_rad(at, holds[i].at, holds[j].at),
          base::distance_m(at, holds[i].at) + base::distance_m(at, holds[j].at)};
      if (crossing.angle_rad < kNoCrossing_rad) continue;
      const double gain_rad = best ? crossing.angle_rad - best->angle_rad : 1.0;
      const bool shorter = best && crossing.tapes_m < best->tapes_m;
      if (gain_rad > kSameCrossing_rad || (gain_rad > -kSameCrossing_rad && shorter)) {
        best = crossing;
      }
    }
  }
  return best;
}

// Two tapes put the stake where both lengths are met: u1.d = u1.d1 and u2.d = u2.d2, d the
// deviations, u the tapes' directions.  Hence d = P1 d1 + P2 d2; this writes one of the two.
void pass_on(base::Matrix& s, std::size_t corner, std::size_t hold, Point own, Point other) {
  const double area = base::dot(base::clockwise(other), own);
  const Point column = (1.0 / area) * base::clockwise(other);
  s(2 * corner, 2 * hold) = column.x_m * own.x_m;
  s(2 * corner, 2 * hold + 1) = column.x_m * own.y_m;
  s(2 * corner + 1, 2 * hold) = column.y_m * own.x_m;
  s(2 * corner + 1, 2 * hold + 1) = column.y_m * own.y_m;
}

// Covariance of all deviations once `corner` has been set from two holds.
base::Matrix set_by_tapes(const base::Matrix& covariance, std::size_t corner, Point at,
                          const Crossing& crossing) {
  base::Matrix s(covariance.rows, covariance.cols);
  for (std::size_t i = 0; i < s.rows; ++i) s(i, i) = i / 2 == corner ? 0.0 : 1.0;
  const Point u1 = at - crossing.first.at;
  const Point u2 = at - crossing.second.at;
  pass_on(s, corner, crossing.first.corner, u1, u2);
  pass_on(s, corner, crossing.second.corner, u2, u1);
  return algebra::propagated(s, covariance);
}

// A stake that is out, unless it is held or found within tolerance all the same (readings
// coarser than the tolerance: a move would not mend that).
bool must_move(const Survey& survey, const Placement& placement, double limit_m,
               std::size_t corner) {
  const CornerResult& result = placement.corners[corner];
  const bool held = std::find(survey.hold.begin(), survey.hold.end(), corner) != survey.hold.end();
  return result.verdict == Verdict::out && result.off_m > limit_m && !held;
}

// Stakes that stay: those the plan lies on or that are in; undecided ones only when needed.
std::vector<Hold> stakes_that_stay(const Survey& survey, const Placement& placement,
                                   double limit_m) {
  std::vector<Hold> firm;
  std::vector<Hold> all;
  for (std::size_t i = 0; i < survey.planned.size(); ++i) {
    if (!survey.measured[i] || must_move(survey, placement, limit_m, i)) continue;
    const bool kept =
        std::find(placement.kept.begin(), placement.kept.end(), i) != placement.kept.end();
    all.push_back({i, placement.corners[i].found});
    if (kept || placement.corners[i].verdict == Verdict::in) firm.push_back(all.back());
  }
  return firm.size() < 2 ? all : firm;
}

// The move of one corner.  `covariance` is that of all deviations, before and after.
Move made(const CornerResult& off, std::size_t corner, const std::vector<Hold>& holds,
          base::Matrix& covariance, double limit_m, double set_sd_m) {
  Move move{corner, -off.outward_m, -off.sideways_m, off.off_m, {}, 0.0, 0.0};
  if (const auto crossing = squarest(holds, off.wanted)) {
    for (const Hold& hold : {crossing->first, crossing->second}) {
      move.tapes.push_back({hold.corner, base::distance_m(hold.at, off.wanted)});
    }
    move.crossing_rad = crossing->angle_rad;
    covariance = set_by_tapes(covariance, corner, off.wanted, *crossing);
  }
  covariance(2 * corner, 2 * corner) += set_sd_m * set_sd_m;
  covariance(2 * corner + 1, 2 * corner + 1) += set_sd_m * set_sd_m;
  const algebra::Symmetric left = algebra::block_of(covariance, corner);
  move.predicted_chance_in = chance_within(0.0, 0.0, left.xx, left.xy, left.yy, limit_m);
  return move;
}

}  // namespace

std::vector<Move> moves(const Survey& survey, const Placement& placement,
                        const base::Tolerance& tolerance, double set_sd_m) {
  assert(set_sd_m >= 0.0);
  base::promise(placement.corners.size() == survey.planned.size() &&
                    survey.measured.size() == survey.planned.size(),
                "moves: a judged corner for every planned one");
  const double limit_m = tolerance.corner_m;
  std::vector<Hold> holds = stakes_that_stay(survey, placement, limit_m);
  const bool moved_ones_serve = holds.size() < 2;
  base::Matrix covariance = placement.deviation_covariance;
  std::vector<Move> result;
  for (std::size_t i = 0; i < survey.planned.size(); ++i) {
    if (!survey.measured[i] || !must_move(survey, placement, limit_m, i)) continue;
    result.push_back(made(placement.corners[i], i, holds, covariance, limit_m, set_sd_m));
    if (moved_ones_serve) holds.push_back({i, placement.corners[i].wanted});
  }
  return result;
}

}  // namespace stakewright::placement

#include "stakewright/placement/placement.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <tuple>

#include "largest_sets.hpp"
#include "laying.hpp"
#include "stakewright/algebra/algebra.hpp"
#include "stakewright/base/promise.hpp"

namespace stakewright::placement {
namespace {

using base::Point;

// Listed beside the leading set: more than a foreman will weigh.
constexpr std::size_t kMostAlternatives = 8;

std::vector<std::size_t> measured_of(const Survey& survey) {
  std::vector<std::size_t> measured;
  for (std::size_t i = 0; i < survey.planned.size(); ++i) {
    if (survey.measured[i]) measured.push_back(i);
  }
  return measured;
}

CornerResult judged(const Survey& survey, const base::Tolerance& tolerance, const Rigid& rigid,
                    const base::Matrix& covariance, std::size_t corner) {
  CornerResult result;
  result.found = survey.found[corner];
  result.wanted = laid(rigid, survey.planned[corner]);
  if (!survey.measured[corner]) return result;
  const Point off = result.found - result.wanted;
  const Off seen = off_along(result.wanted - laid(rigid, survey.center), off);
  result.outward_m = seen.outward_m;
  result.sideways_m = seen.sideways_m;
  result.off_m = base::norm_m(off);
  const algebra::Symmetric spread = algebra::block_of(covariance, corner);
  result.chance_in =
      chance_within(off.x_m, off.y_m, spread.xx, spread.xy, spread.yy, tolerance.corner_m);
  result.verdict = verdict_of(result.chance_in, tolerance.confidence);
  result.ellipse = ellipse_of(covariance, corner, tolerance.confidence);
  return result;
}

// A laying with everything it rests on.
struct Choice {
  Rigid rigid;
  Datum datum;
  std::vector<std::size_t> kept;
  double kept_m2 = 0.0;  // sum of squared deviations over the corners kept
  double all_m2 = 0.0;   // and over all measured ones
};

Placement assembled(const Survey& survey, const base::Tolerance& tolerance, const Choice& choice) {
  Placement placement;
  placement.rigid = choice.rigid;
  placement.datum = choice.datum;
  placement.kept = choice.kept;
  placement.deviation_covariance = deviation_covariance(survey, choice.rigid, choice.datum);
  for (std::size_t i = 0; i < survey.planned.size(); ++i) {
    placement.corners.push_back(
        judged(survey, tolerance, choice.rigid, placement.deviation_covariance, i));
  }
  return placement;
}

double off_m(const Survey& survey, const Rigid& rigid, std::size_t corner) {
  return base::distance_m(survey.found[corner], laid(rigid, survey.planned[corner]));
}

double squares_m2(const Survey& survey, const Rigid& rigid, const std::vector<std::size_t>& of) {
  double sum = 0.0;
  for (const std::size_t corner : of) {
    const double off = off_m(survey, rigid, corner);
    sum += off * off;
  }
  return sum;
}

Choice choice_of(const Survey& survey, const std::vector<std::size_t>& measured,
                 const std::vector<std::size_t>& held, const std::vector<std::size_t>& kept) {
  Choice choice;
  choice.kept = kept;
  choice.datum.shift = held.empty() ? kept : held;
  // One corner alone gives no turn: then all measured ones do.
  choice.datum.turn = kept.size() > 1 ? kept : measured;
  choice.rigid = fit(survey, choice.datum);
  choice.kept_m2 = squares_m2(survey, choice.rigid, kept);
  choice.all_m2 = squares_m2(survey, choice.rigid, measured);
  return choice;
}

// Least squares can push a kept corner past the limit, though a laying exists that keeps
// them all.  Then the laying that gives every one of them the most room is taken.
void make_room(const Survey& survey, double limit_m, const Question& question, const Set& set,
               Choice& choice) {
  const bool all_within = std::all_of(choice.kept.begin(), choice.kept.end(), [&](auto corner) {
    return off_m(survey, choice.rigid, corner) <= limit_m + kOnLimit_m;
  });
  if (!all_within) choice.rigid = minimax(question, set);
}

Placement by_largest_set(const Survey& survey, const base::Tolerance& tolerance,
                         const std::vector<std::size_t>& measured,
                         const std::vector<std::size_t>& held) {
  Question question;
  question.tolerance_m = tolerance.corner_m;
  for (const std::size_t corner : measured) {
    if (!held.empty() && corner == held.front()) question.pivot = question.planned.size();
    question.planned.push_back(survey.planned[corner]);
    question.found.push_back(survey.found[corner]);
  }
  const Answer answer = largest_sets(question);
  std::vector<std::pair<Choice, Set>> choices;
  for (const Set& set : answer.sets) {
    std::vector<std::size_t> kept;
    for (const std::size_t member : set) kept.push_back(measured[member]);
    choices.emplace_back(choice_of(survey, measured, held, kept), set);
  }
  std::sort(choices.begin(), choices.end(), [](const auto& a, const auto& b) {
    return std::tie(a.first.kept_m2, a.first.all_m2, a.first.kept) <
           std::tie(b.first.kept_m2, b.first.all_m2, b.first.kept);
  });
  auto& [leading, set] = choices.front();
  make_room(survey, tolerance.corner_m, question, set, leading);
  Placement placement = assembled(survey, tolerance, leading);
  placement.proven = answer.proven;
  for (std::size_t i = 1; i < choices.size() && i <= kMostAlternatives; ++i) {
    placement.alternatives.push_back(choices[i].first.kept);
  }
  return placement;
}

std::vector<Point> places(const std::vector<Point>& all, const std::vector<std::size_t>& of) {
  std::vector<Point> result;
  for (const std::size_t corner : of) result.push_back(all[corner]);
  return result;
}

// What rests under a datum, S·(found - wanted) = 0: the mean place, and the turn unless one corner
// alone has to give it.
base::Matrix conditions_of(const base::Matrix& motions, const Datum& datum) {
  base::Matrix conditions(motions.rows, 3);
  for (const std::size_t corner : datum.shift)
    conditions(2 * corner, 0) = conditions(2 * corner + 1, 1) = 1.0;
  double squares_m2 = 0.0;
  for (const std::size_t corner : datum.turn)
    for (const std::size_t row : {2 * corner, 2 * corner + 1}) {
      conditions(row, 2) = motions(row, 2);
      squares_m2 += motions(row, 2) * motions(row, 2);
    }
  if (squares_m2 == 0.0) return algebra::leading(conditions, conditions.rows, 2);
  for (std::size_t row = 0; row < conditions.rows; ++row) conditions(row, 2) /= squares_m2;
  return conditions;
}

void demand_whole(const Survey& survey) {
  const std::size_t count = survey.planned.size();
  base::promise(survey.found.size() == count && survey.measured.size() == count &&
                    survey.covariance.rows == 2 * count && survey.covariance.cols == 2 * count,
                "survey: a place, a mark and two rows for every corner");
}

}  // namespace

base::Point laid(const Rigid& rigid, base::Point planned) {
  const Point turned =
      std::cos(rigid.turn_rad) * planned + std::sin(rigid.turn_rad) * base::clockwise(planned);
  return turned + Point{rigid.x_m, rigid.y_m};
}

Off off_along(Point radius, Point step) {
  const double length_m = base::norm_m(radius);
  if (length_m == 0.0) return {};
  const Point outward = (1.0 / length_m) * radius;
  return {base::dot(step, outward), base::dot(step, base::clockwise(outward))};
}

// Half axes: standard deviations times the root of chi-square with two degrees of freedom,
// whose quantile at p is -2 ln(1 - p).
Ellipse ellipse_of(const base::Matrix& covariance, std::size_t point, double confidence) {
  const algebra::Axes axes = algebra::axes_of(algebra::block_of(covariance, point));
  const double factor = std::sqrt(-2.0 * std::log1p(-confidence));
  double bearing = std::fmod(std::numbers::pi / 2.0 - axes.angle_rad, std::numbers::pi);
  if (bearing < 0.0) bearing += std::numbers::pi;
  return {factor * axes.major, factor * axes.minor, bearing};
}

// The turn maximises the sum of q . Rp over the arms p planned and q found.
Rigid fit(const Survey& survey, const Datum& datum) {
  if (datum.shift.empty()) return {};
  const Point planned_mean = base::middle_of(places(survey.planned, datum.shift));
  const Point found_mean = base::middle_of(places(survey.found, datum.shift));
  double across = 0.0;
  double along = 0.0;
  for (const std::size_t corner : datum.turn) {
    const Point p = survey.planned[corner] - planned_mean;
    const Point q = survey.found[corner] - found_mean;
    across += base::dot(q, base::clockwise(p));
    along += base::dot(q, p);
  }
  const Rigid turn{0.0, 0.0, std::atan2(across, along)};
  const Point shift = found_mean - laid(turn, planned_mean);
  return {shift.x_m, shift.y_m, turn.turn_rad};
}

base::Matrix deviation_covariance(const Survey& survey, const Rigid& rigid, const Datum& datum) {
  const std::size_t n = survey.planned.size();
  if (datum.shift.empty()) return {2 * n, 2 * n};
  std::vector<Point> wanted;
  for (const Point planned : survey.planned) wanted.push_back(laid(rigid, planned));
  const base::Matrix motions =
      algebra::rigid_motions(wanted, base::middle_of(places(wanted, datum.shift)));
  const base::Matrix conditions = conditions_of(motions, datum);
  const base::Matrix moving = algebra::leading(motions, motions.rows, conditions.cols);
  base::Matrix result =
      algebra::referred(survey.covariance, moving, algebra::answer_of(moving, conditions));
  for (std::size_t row = 0; row < 2 * n; ++row)
    for (std::size_t col = 0; col < 2 * n; ++col)
      if (!survey.measured[row / 2] || !survey.measured[col / 2]) result(row, col) = 0.0;
  return result;
}

Placement fewest_moves(const Survey& survey, const base::Tolerance& tolerance) {
  demand_whole(survey);
  const std::vector<std::size_t> measured = measured_of(survey);
  std::vector<std::size_t> held;
  std::copy_if(measured.begin(), measured.end(), std::back_inserter(held), [&](auto corner) {
    return std::find(survey.hold.begin(), survey.hold.end(), corner) != survey.hold.end();
  });
  if (measured.empty()) return assembled(survey, tolerance, {});
  if (held.size() < 2) return by_largest_set(survey, tolerance, measured, held);
  return assembled(survey, tolerance, choice_of(survey, measured, held, held));
}

Placement least_squares(const Survey& survey, const base::Tolerance& tolerance) {
  demand_whole(survey);
  const std::vector<std::size_t> measured = measured_of(survey);
  if (measured.empty()) return assembled(survey, tolerance, {});
  return assembled(survey, tolerance, choice_of(survey, measured, {}, measured));
}

}  // namespace stakewright::placement

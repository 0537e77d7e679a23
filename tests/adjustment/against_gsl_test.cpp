// The same networks adjusted by the GNU Scientific Library, an independent least-squares solver.
// GSL needs full rank: the first corner is held, and the second on the line from it.  What does not
// depend on that choice is compared: every distance, and the covariance of every pair of distances.
#include <gsl/gsl_matrix.h>
#include <gsl/gsl_multifit_nlinear.h>
#include <gsl/gsl_vector.h>
#include <gtest/gtest.h>

#include <cmath>
#include <memory>

#include "figures.hpp"
#include "stakewright/adjustment/adjust.hpp"

namespace stakewright::adjustment {
namespace {

constexpr unsigned kSeed = 1234;

struct Problem {
  const Network* network = nullptr;
  std::vector<bool> takes_part;  ///< per point
  bool free = true;              ///< no pins: datum by the first two corners
  base::Point line;              ///< planned direction from the first corner to the second
  std::size_t instruments_at = 0;
  std::size_t unknowns = 0;
};

/// Parameters to places: the first corner stays, the second slides along the planned line.
std::vector<base::Point> places(const Problem& problem, const gsl_vector* x) {
  std::vector<base::Point> result;
  std::size_t next = 0;
  for (std::size_t p = 0; p < problem.network->points.size(); ++p) {
    const NetworkPoint& point = problem.network->points[p];
    if (!problem.takes_part[p] || point.known || (problem.free && p == 0)) {
      result.push_back(point.planned);
    } else if (problem.free && p == 1) {
      result.push_back(point.planned + gsl_vector_get(x, next++) * problem.line);
    } else {
      const double dx = gsl_vector_get(x, next++);
      const double dy = gsl_vector_get(x, next++);
      result.push_back(point.planned + base::Point{dx, dy});
    }
  }
  return result;
}

/// The angle at S clockwise from P to Q by cross and scalar product, less `near`, in (−pi, pi]: not
/// by the two bearings of the code under test.
double turn_past(double near, base::Point p, base::Point s, base::Point q) {
  const base::Point u = p - s;
  const base::Point v = q - s;
  const double across = v.x_m * u.y_m - v.y_m * u.x_m;
  const double along = u.x_m * v.x_m + u.y_m * v.y_m;
  return std::atan2(across * std::cos(near) - along * std::sin(near),
                    along * std::cos(near) + across * std::sin(near));
}

double turn_past(double near, const std::vector<base::Point>& at, const readings::Observation& o) {
  return turn_past(near, at[o.from], at[*o.at], at[o.to]);
}

/// Residuals in standard deviations, then each instrument's scale and zero over its prior.
int residuals(const gsl_vector* x, void* data, gsl_vector* f) {
  const Problem& problem = *static_cast<const Problem*>(data);
  const Network& network = *problem.network;
  const auto at = places(problem, x);
  const std::size_t first = problem.instruments_at;
  std::size_t row = 0;
  for (const readings::Observation& o : network.observations) {
    const std::size_t i = first + 2 * o.instrument;
    const double s = gsl_vector_get(x, i) * network.instruments[o.instrument].scale;
    const double z = gsl_vector_get(x, i + 1) * network.instruments[o.instrument].zero_m;
    const double off = o.is_angle()
                           ? turn_past(o.corrected, at, o)
                           : (1.0 + s) * base::distance_m(at[o.from], at[o.to]) + z - o.corrected;
    gsl_vector_set(f, row++, off / o.sd);
  }
  for (std::size_t i = first; i < problem.unknowns; ++i)
    gsl_vector_set(f, row++, gsl_vector_get(x, i));
  return GSL_SUCCESS;
}

/// How a distance answers to the four coordinates of its ends.
std::array<std::pair<std::size_t, double>, 4> answer(const std::vector<base::Point>& at,
                                                     const figures::Pair& pair) {
  const auto [p, q] = pair;
  const base::Point u = (1.0 / base::distance_m(at[p], at[q])) * (at[q] - at[p]);
  return {std::pair{2 * p, -u.x_m}, {2 * p + 1, -u.y_m}, {2 * q, u.x_m}, {2 * q + 1, u.y_m}};
}

/// How an angle answers to the coordinates of its points, by central differences.
std::vector<std::pair<std::size_t, double>> answer_of_angle(std::vector<base::Point> at,
                                                            const readings::Observation& o) {
  constexpr double step_m = 1e-4;
  std::vector<std::pair<std::size_t, double>> result;
  for (const std::size_t point : {o.from, *o.at, o.to})
    for (const std::size_t axis : {0U, 1U}) {
      double& coordinate = axis == 0 ? at[point].x_m : at[point].y_m;
      const double here = coordinate;
      coordinate = here + step_m;
      const double ahead = turn_past(o.corrected, at, o);
      coordinate = here - step_m;
      const double back = turn_past(o.corrected, at, o);
      coordinate = here;
      result.emplace_back(2 * point + axis, (ahead - back) / (2.0 * step_m));
    }
  return result;
}

struct Solved {
  std::vector<base::Point> at;
  std::vector<std::vector<double>> covariance;  ///< of `at`, x0 y0 x1 y1 …
};

/// Rows of d(places)/d(parameters): how `places` depends on the parameters.
std::vector<std::vector<double>> dependence(const Problem& problem) {
  const std::size_t count = problem.network->points.size();
  std::vector<std::vector<double>> D(2 * count, std::vector<double>(problem.unknowns, 0.0));
  std::size_t next = 0;
  for (std::size_t p = 0; p < count; ++p) {
    if (!problem.takes_part[p] || problem.network->points[p].known || (problem.free && p == 0))
      continue;
    if (problem.free && p == 1) {
      D[2][next] = problem.line.x_m;
      D[3][next++] = problem.line.y_m;
    } else {
      D[2 * p][next++] = 1.0;
      D[2 * p + 1][next++] = 1.0;
    }
  }
  return D;
}

/// Derivatives of the residuals, worked by hand from the model.
int derivatives(const gsl_vector* x, void* data, gsl_matrix* J) {
  const Problem& problem = *static_cast<const Problem*>(data);
  const Network& network = *problem.network;
  const auto at = places(problem, x);
  const auto D = dependence(problem);
  const std::size_t first = problem.instruments_at;
  gsl_matrix_set_zero(J);
  std::size_t row = 0;
  for (const readings::Observation& o : network.observations) {
    if (o.is_angle()) {
      for (std::size_t k = 0; k < first; ++k) {
        double sum = 0.0;
        for (const auto& [coordinate, part] : answer_of_angle(at, o))
          sum += part * D[coordinate][k];
        gsl_matrix_set(J, row, k, sum / o.sd);
      }
      ++row;
      continue;
    }
    const readings::Instrument& instrument = network.instruments[o.instrument];
    const std::size_t i = first + 2 * o.instrument;
    const double factor = 1.0 + gsl_vector_get(x, i) * instrument.scale;
    for (std::size_t k = 0; k < first; ++k) {
      double sum = 0.0;
      for (const auto& [coordinate, part] : answer(at, {o.from, o.to}))
        sum += part * D[coordinate][k];
      gsl_matrix_set(J, row, k, factor * sum / o.sd);
    }
    gsl_matrix_set(J, row, i, instrument.scale * base::distance_m(at[o.from], at[o.to]) / o.sd);
    gsl_matrix_set(J, row, i + 1, instrument.zero_m / o.sd);
    ++row;
  }
  for (std::size_t i = first; i < problem.unknowns; ++i) gsl_matrix_set(J, row++, i, 1.0);
  return GSL_SUCCESS;
}

Problem problem_of(const Network& network) {
  Problem problem;
  problem.network = &network;
  problem.takes_part.assign(network.points.size(), false);
  for (const auto& o : network.observations) {
    for (const std::size_t point : {o.from, o.to, o.at.value_or(o.from)}) {
      problem.takes_part[point] = true;
      if (network.points[point].known) problem.free = false;
    }
  }
  problem.line = network.points[1].planned - network.points[0].planned;
  std::size_t count = problem.free ? 1 : 4;
  for (std::size_t p = 2; p < network.points.size(); ++p)
    if (problem.takes_part[p] && !network.points[p].known) count += 2;
  problem.instruments_at = count;
  problem.unknowns = count + 2 * network.instruments.size();
  return problem;
}

Solved solve_by_gsl(const Network& network) {
  Problem problem = problem_of(network);
  const std::size_t rows = network.observations.size() + 2 * network.instruments.size();
  gsl_multifit_nlinear_fdf fdf{};
  fdf.f = residuals;
  fdf.df = derivatives;
  fdf.n = rows;
  fdf.p = problem.unknowns;
  fdf.params = &problem;
  const auto parameters = gsl_multifit_nlinear_default_parameters();
  auto* workspace =
      gsl_multifit_nlinear_alloc(gsl_multifit_nlinear_trust, &parameters, rows, problem.unknowns);
  gsl_vector* start = gsl_vector_calloc(problem.unknowns);
  gsl_multifit_nlinear_init(start, &fdf, workspace);
  int why = 0;
  gsl_multifit_nlinear_driver(200, 1e-15, 1e-15, 0.0, nullptr, nullptr, &why, workspace);
  gsl_matrix* covariance = gsl_matrix_alloc(problem.unknowns, problem.unknowns);
  gsl_multifit_nlinear_covar(gsl_multifit_nlinear_jac(workspace), 0.0, covariance);
  Solved solved;
  solved.at = places(problem, gsl_multifit_nlinear_position(workspace));
  const auto D = dependence(problem);
  solved.covariance.assign(D.size(), std::vector<double>(D.size(), 0.0));
  for (std::size_t i = 0; i < D.size(); ++i)
    for (std::size_t j = 0; j < D.size(); ++j)
      for (std::size_t a = 0; a < problem.unknowns; ++a)
        for (std::size_t b = 0; b < problem.unknowns; ++b)
          solved.covariance[i][j] += D[i][a] * gsl_matrix_get(covariance, a, b) * D[j][b];
  gsl_matrix_free(covariance);
  gsl_vector_free(start);
  gsl_multifit_nlinear_free(workspace);
  return solved;
}

template <typename Covariance>
double covariance_of(const std::vector<base::Point>& at, const figures::Pair& a,
                     const figures::Pair& b, const Covariance& covariance) {
  double sum = 0.0;
  for (const auto& [i, x] : answer(at, a))
    for (const auto& [j, y] : answer(at, b)) sum += x * y * covariance(i, j);
  return sum;
}

void expect_agreement(const Network& network, const std::string& what) {
  SCOPED_TRACE(what);
  const Adjustment ours = adjust(network);
  ASSERT_EQ(ours.status, Status::settled);
  const Solved theirs = solve_by_gsl(network);
  std::vector<figures::Pair> lengths;
  for (const auto& pair : figures::all_pairs(network.points.size())) {
    const bool both_found = ours.place_known[pair.first] && ours.place_known[pair.second];
    const bool both_known = network.points[pair.first].known && network.points[pair.second].known;
    if (both_found && !both_known) lengths.push_back(pair);
  }
  const auto our_covariance = [&](std::size_t i, std::size_t j) { return ours.covariance(i, j); };
  const auto their_covariance = [&](std::size_t i, std::size_t j) {
    return theirs.covariance[i][j];
  };
  for (const auto& a : lengths) {
    EXPECT_NEAR(base::distance_m(ours.found[a.first], ours.found[a.second]),
                base::distance_m(theirs.at[a.first], theirs.at[a.second]), 1e-9);
    const double variance = covariance_of(theirs.at, a, a, their_covariance);
    for (const auto& b : lengths) {
      const double scale = std::sqrt(variance * covariance_of(theirs.at, b, b, their_covariance));
      EXPECT_NEAR(covariance_of(ours.found, a, b, our_covariance) / scale,
                  covariance_of(theirs.at, a, b, their_covariance) / scale, 1e-6);
    }
  }
}

TEST(AgainstGsl, FreeFiguresAgreeInShapeAndCovariance) {
  std::mt19937 random(kSeed);
  for (const int sides : {3, 4, 5, 6, 8, 12}) {
    Network network = figures::polygon(sides, 3.2, {4.0, 1.0}, 0.4);
    const std::size_t n = network.corner_count;
    const auto truth = figures::staked(network, 0.02, random);
    figures::pull(network, figures::joined(figures::skips(n, 1), figures::radii(n)), truth, 0.003,
                  random);
    if (n > 3) figures::pull(network, figures::skips(n, 2), truth, 0.0015, random);
    expect_agreement(network, std::to_string(sides) + " sides");
  }
}

TEST(AgainstGsl, InstrumentErrorsAndTheirPriorsAgree) {
  std::mt19937 random(kSeed + 1);
  Network network = figures::polygon(6, 3.2);
  network.instruments[0].scale = 4e-4;
  network.instruments[0].zero_m = 0.003;
  readings::Instrument laser;
  laser.name = "laser";
  laser.scale = 5e-5;
  laser.zero_m = 0.001;
  network.instruments.push_back(laser);
  const auto truth = figures::staked(network, 0.02, random);
  figures::pull(network, figures::all_pairs(6), truth, 0.002, random);
  figures::pull(network, figures::radii(6), truth, 0.001, random);
  for (std::size_t r = 15; r < network.observations.size(); ++r)
    network.observations[r].instrument = 1;
  expect_agreement(network, "two instruments");
}

TEST(AgainstGsl, FiguresTiedToPinsAgree) {
  std::mt19937 random(kSeed + 2);
  layout::Plan plan;
  plan.polygon = {5, 2.8};
  plan.pins = {{"P1", {-5.0, -4.0}}, {"P2", {6.0, -4.5}}};
  readings::Instrument tape;
  tape.name = "tape";
  tape.scale = 2e-4;
  tape.zero_m = 0.001;
  Network site = network(plan, {}, {tape});
  const auto truth = figures::staked(site, 0.02, random);
  figures::pull(site, figures::all_pairs(5), truth, 0.002, random);
  figures::pull(site, {{6, 0}, {6, 1}, {6, 3}, {7, 1}, {7, 2}, {7, 4}}, truth, 0.003, random);
  expect_agreement(site, "two pins");
}

TEST(AgainstGsl, LengthsAndAnglesTogetherAgreeInShapeAndCovariance) {
  std::mt19937 random(kSeed + 3);
  for (const int sides : {3, 5, 6, 8}) {
    Network network = figures::polygon(sides, 3.2, {4.0, 1.0}, 0.4);
    const std::size_t n = network.corner_count;
    const auto truth = figures::staked(network, 0.02, random);
    figures::pull(network, figures::skips(n, 1), truth, 0.003, random);
    figures::turn(network, figures::interior_angles(n), truth, 4e-4, random);
    figures::turn(network, figures::angles_at_the_pin(n), truth, 2e-4, random);
    expect_agreement(network, std::to_string(sides) + " sides");
  }
}

TEST(AgainstGsl, AnglesAtTheCenterPinWithOneBaseAndTwoInstrumentsAgree) {
  std::mt19937 random(kSeed + 4);
  Network network = figures::polygon(6, 3.2);
  network.instruments[0].scale = 4e-4;
  network.instruments[0].zero_m = 0.003;
  const auto truth = figures::staked(network, 0.02, random);
  figures::pull(network, figures::radii(6), truth, 0.002, random);
  figures::turn(network, figures::angles_at_the_pin(6), truth, 3e-4, random);
  figures::turn(network, figures::interior_angles(6), truth, 3e-4, random);
  expect_agreement(network, "radii with a tape's own errors, angles at the pin");
}

TEST(AgainstGsl, AnglesTiedToPinsAgree) {
  std::mt19937 random(kSeed + 5);
  layout::Plan plan;
  plan.polygon = {5, 2.8};
  plan.pins = {{"P1", {-9.0, -4.0}}, {"P2", {7.0, -4.5}}};
  readings::Instrument tape;
  tape.name = "tape";
  Network site = network(plan, {}, {tape});
  const auto truth = figures::staked(site, 0.02, random);
  figures::pull(site, figures::skips(5, 1), truth, 0.002, random);
  figures::turn(site, figures::interior_angles(5), truth, 3e-4, random);
  // From both pins, and at two corners with both pins sighted: no tape reaches a pin.
  figures::turn(site, {{6, 7, 0}, {6, 7, 2}, {7, 6, 0}, {7, 6, 4}, {1, 6, 7}, {3, 6, 7}}, truth,
                2e-4, random);
  expect_agreement(site, "two pins by angles alone");
}

}  // namespace
}  // namespace stakewright::adjustment

// Suspects against numbers from outside: marginal likelihoods by brute-force
// quadrature (GSL), and a published set of ranges with two known bad ones.

#include <gmock/gmock.h>
#include <gsl/gsl_integration.h>
#include <gsl/gsl_linalg.h>
#include <gsl/gsl_randist.h>
#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <set>

#include "stakewright/suspects/suspects.hpp"

namespace stakewright::suspects {
namespace {

using What = Cause::What;

constexpr double kSigma_m = 0.002;
constexpr double kSpread_m = 0.003;

/// A triangle so large that lengths are straight-line in millimeters, to the last figure asked
/// here.
adjustment::Network triangle() {
  adjustment::Network network;
  network.points = {{"A", adjustment::Role::corner, {0.0, 400.0}, false},
                    {"B", adjustment::Role::corner, {300.0, 0.0}, false},
                    {"C", adjustment::Role::corner, {-120.0, -90.0}, false}};
  network.corner_count = 3;
  network.datum = {0, 1, 2};
  readings::Instrument tape;
  tape.name = "steel";
  tape.constant_m = kSigma_m;
  network.instruments = {tape};
  return network;
}

base::Point along(const adjustment::Network& network, std::size_t from, std::size_t to) {
  const base::Point step = network.points[to].planned - network.points[from].planned;
  return (1.0 / base::norm_m(step)) * step;
}

void read(adjustment::Network& network, std::size_t from, std::size_t to, double off_m) {
  const double length =
      base::distance_m(network.points[from].planned, network.points[to].planned) + off_m;
  network.observations.push_back({from, to, 0, length, length, kSigma_m});
}

/// exp(-r'C⁻¹r/2), C from the definition y = A x + e, inverted by GSL.
class Likelihood {
 public:
  explicit Likelihood(const adjustment::Network& network) : m_(network.observations.size()) {
    gsl_matrix* c = gsl_matrix_calloc(m_, m_);
    for (std::size_t i = 0; i < m_; ++i)
      for (std::size_t j = 0; j < m_; ++j) {
        const auto& a = network.observations[i];
        const auto& b = network.observations[j];
        const double cosine = base::dot(along(network, a.from, a.to), along(network, b.from, b.to));
        const int shared =
            (a.from == b.from) + (a.to == b.to) - (a.from == b.to) - (a.to == b.from);
        gsl_matrix_set(
            c, i, j,
            kSpread_m * kSpread_m * cosine * shared + (i == j ? kSigma_m * kSigma_m : 0.0));
      }
    gsl_linalg_cholesky_decomp1(c);
    gsl_linalg_cholesky_invert(c);
    for (std::size_t i = 0; i < m_; ++i)
      for (std::size_t j = 0; j < m_; ++j) inverse_.push_back(gsl_matrix_get(c, i, j));
    gsl_matrix_free(c);
  }

  double operator()(const std::vector<double>& r) const {
    double square = 0.0;
    for (std::size_t i = 0; i < m_; ++i)
      for (std::size_t j = 0; j < m_; ++j) square += r[i] * inverse_[i * m_ + j] * r[j];
    return std::exp(-0.5 * square);
  }

 private:
  std::size_t m_;
  std::vector<double> inverse_;
};

std::vector<double> offsets(const adjustment::Network& network) {
  std::vector<double> r;
  for (const auto& reading : network.observations)
    r.push_back(reading.corrected - base::distance_m(network.points[reading.from].planned,
                                                     network.points[reading.to].planned));
  return r;
}

/// Integral over the whole line, by GSL's adaptive quadrature in pieces about the origin.
double integral(const std::function<double(double)>& f) {
  gsl_function function{
      [](double x, void* p) { return (*static_cast<std::function<double(double)>*>(p))(x); },
      const_cast<std::function<double(double)>*>(&f)};
  gsl_integration_workspace* work = gsl_integration_workspace_alloc(400);
  // The peaks of the priors lie on edges, so that none is stepped over.
  const double edges[] = {-2.0, -0.3, -0.2, -0.1, -0.05, -0.02, -0.01, 0.0,
                          0.01, 0.02, 0.05, 0.1,  0.2,   0.3,   2.0};
  // Pieces that add nothing do not reach a relative tolerance; that is no error.
  gsl_set_error_handler_off();
  double sum = 0.0;
  for (std::size_t k = 0; k + 1 < std::size(edges); ++k) {
    double piece = 0.0;
    double error = 0.0;
    gsl_integration_qag(&function, edges[k], edges[k + 1], 0.0, 1e-6, 400, GSL_INTEG_GAUSS21, work,
                        &piece, &error);
    sum += piece;
  }
  gsl_integration_workspace_free(work);
  return sum;
}

/// A stake's prior, from docs/methods/suspects.md: shares and standard deviations each way.
double stake_prior(double x, double y) {
  const double share[] = {0.25, 0.48, 0.27};
  const double sd[] = {0.020, 0.050, 0.250};
  double sum = 0.0;
  for (int k = 0; k < 3; ++k)
    sum += share[k] * gsl_ran_gaussian_pdf(x, sd[k]) * gsl_ran_gaussian_pdf(y, sd[k]);
  return sum;
}

double chance_of(const Suspects& suspects, const std::set<std::pair<What, std::size_t>>& causes) {
  for (const Explanation& explanation : suspects.ranked) {
    std::set<std::pair<What, std::size_t>> named;
    for (const Cause& cause : explanation.causes) named.insert({cause.what, cause.index});
    if (named == causes) return explanation.chance;
  }
  return -1.0;
}

TEST(SuspectsPublished, ChanceOfAStakeSetWrongAgreesWithTwoDimensionalQuadrature) {
  adjustment::Network network = triangle();
  read(network, 0, 1, 0.012);
  read(network, 0, 2, -0.014);
  read(network, 1, 2, 0.003);
  const std::vector<double> y = offsets(network);
  Setting setting;
  setting.staking = {kSpread_m, 0.02, 0.05};
  setting.most_listed = 50;
  const Suspects said = weigh(network, setting);
  const base::Point to_b = along(network, 0, 1);
  const base::Point to_c = along(network, 0, 2);
  const Likelihood likelihood(network);
  // A moved by (x, y) shortens its tapes by its part along them.
  const double ratio = integral([&](double dx) {
    return integral([&](double dy) {
      const base::Point moved{dx, dy};
      const std::vector<double> r = {y[0] + base::dot(to_b, moved), y[1] + base::dot(to_c, moved),
                                     y[2]};
      return stake_prior(dx, dy) * likelihood(r) / likelihood(y);
    });
  });
  const double odds = 0.05 / 0.95;
  const double listed = chance_of(said, {{What::stake, 0}}) / chance_of(said, {});
  EXPECT_NEAR(listed / (odds * ratio), 1.0, 2e-3);
}

/// A slip's prior for metric readings without digits to change round and without burned marks, from
/// the same page: marks of 0.5 mm, the wrong stakes (0.05) far away, three widths for the rest.
double slip_prior(double slip) {
  const double mark[] = {0.1, 0.2, 1.0, 0.01, 0.02};
  const double mark_share[] = {0.11, 0.01, 0.03, 0.03, 0.01};
  const double sd[] = {0.018, 0.040, 0.250};
  const double share[] = {0.26, 0.20, 0.10};
  double left = 1.0 - 0.05;
  double sum = 0.0;
  for (int k = 0; k < 5; ++k) {
    left -= mark_share[k];
    sum += 0.5 * mark_share[k] *
           (gsl_ran_gaussian_pdf(slip - mark[k], 0.0005) +
            gsl_ran_gaussian_pdf(slip + mark[k], 0.0005));
  }
  for (int k = 0; k < 3; ++k) sum += left * share[k] / 0.56 * gsl_ran_gaussian_pdf(slip, sd[k]);
  return sum;
}

/// A–B and A–C planned so that the readings 444.444 m and 333.333 m are off by 12 and -13 mm.
adjustment::Network two_repeated_digits() {
  adjustment::Network network = triangle();
  const base::Point b = 444.432 * along(network, 0, 1);
  const base::Point c = 333.346 * along(network, 0, 2);
  network.points[1].planned = network.points[0].planned + b;
  network.points[2].planned = network.points[0].planned + c;
  read(network, 0, 1, 0.012);
  read(network, 0, 2, -0.013);
  return network;
}

TEST(SuspectsPublished, ChancesOfOneAndOfTwoMisreadTapesAgreeWithQuadrature) {
  const adjustment::Network network = two_repeated_digits();
  const std::vector<double> y = offsets(network);
  Setting setting;
  setting.staking = {kSpread_m, 0.3, 0.0};  // so that pairs are likely enough to be listed
  setting.most_listed = 50;
  const Suspects said = weigh(network, setting);
  const Likelihood likelihood(network);
  const double odds = 0.3 / 0.7;
  const double one = integral([&](double slip) {
    return slip_prior(slip) * likelihood({y[0] - slip, y[1]}) / likelihood(y);
  });
  EXPECT_NEAR(chance_of(said, {{What::reading, 0}}) / chance_of(said, {}) / (odds * one), 1.0,
              2e-3);
  const double two = integral([&](double first) {
    return slip_prior(first) * integral([&](double second) {
             return slip_prior(second) * likelihood({y[0] - first, y[1] - second}) / likelihood(y);
           });
  });
  EXPECT_NEAR(chance_of(said, {{What::reading, 0}, {What::reading, 1}}) / chance_of(said, {}) /
                  (odds * odds * two),
              1.0, 5e-3);
}

TEST(SuspectsPublished, ChanceOfATapesScaleAgreesWithQuadrature) {
  // The tape's scale: widths 0.60 of 0.0015 and 0.40 of 0.006, chance 0.005 (docs).
  adjustment::Network network = triangle();
  for (adjustment::NetworkPoint& point : network.points) point.planned = 0.02 * point.planned;
  read(network, 0, 1, 0.030);
  read(network, 0, 2, 0.034);
  read(network, 1, 2, 0.026);
  const std::vector<double> y = offsets(network);
  Setting setting;
  setting.staking = {kSpread_m, 0.02, 0.05};
  setting.most_listed = 50;
  const Suspects said = weigh(network, setting);
  const Likelihood likelihood(network);
  const double ratio = integral([&](double scale) {
    std::vector<double> r = y;
    for (std::size_t i = 0; i < 3; ++i) r[i] -= scale * (network.observations[i].corrected - y[i]);
    return (0.6 * gsl_ran_gaussian_pdf(scale, 0.0015) + 0.4 * gsl_ran_gaussian_pdf(scale, 0.006)) *
           likelihood(r) / likelihood(y);
  });
  const double listed = chance_of(said, {{What::instrument_scale, 0}}) / chance_of(said, {});
  EXPECT_NEAR(listed / (0.005 / 0.995 * ratio), 1.0, 2e-3);
}

/// Measured ranges of A. Norrdine, "An Algebraic Solution to the Multilateration Problem", IPIN
/// 2012, example data: six known points and one sought, slant ranges; two carry published excess
/// delays.
struct Range {
  const char* point;
  double x, y, z;
  double measured;
};
constexpr Range kNorrdine[] = {
    {"P37", 27.297, -4.953, 1.47, 3.652}, {"P31", 20.693, -4.849, 1.93, 7.036},
    {"P102", 22.590, 0.524, 1.20, 4.586}, {"P43", 17.113, -3.003, 2.17, 9.960},
    {"P208", 22.554, 4.727, 1.77, 7.542}, {"P101", 22.447, -7.880, 1.60, 7.883}};

TEST(SuspectsPublished, BothBadRangesOfNorrdineAreFoundTogether) {
  constexpr double kHeight = 1.13;    // of the sought point, as surveyed
  constexpr double kRange_m = 0.020;  // standard deviation of a range: our choice
  adjustment::Network network;
  network.points.push_back({"N", adjustment::Role::corner, {26.759, -1.342}, false});
  network.corner_count = 1;
  network.datum = {0};
  readings::Instrument ranger;
  ranger.name = "ranger";
  ranger.constant_m = kRange_m;
  network.instruments = {ranger};
  for (const Range& range : kNorrdine) {
    const double horizontal =
        std::sqrt(range.measured * range.measured - (range.z - kHeight) * (range.z - kHeight));
    network.observations.push_back(
        {network.points.size(), 0, 0, range.measured, horizontal, kRange_m});
    network.points.push_back({range.point, adjustment::Role::pin, {range.x, range.y}, true});
  }
  Setting setting;
  // The sought point is not staked to a plan: nothing is known of its place within a meter.
  setting.staking = {1.0, 0.05, 0.0};
  const Suspects said = weigh(network, setting);
  ASSERT_EQ(said.ranked.front().causes.size(), 2u);
  const Cause& p43 = said.ranked.front().causes[0];
  const Cause& p208 = said.ranked.front().causes[1];
  EXPECT_EQ(p43.index, 3u);
  EXPECT_EQ(p208.index, 4u);
  // Published excess delays: P43 +0.12 m, P208 +0.14 m.
  EXPECT_NEAR(p43.size, 0.12, 2.0 * std::max(p43.size_sd, kRange_m));
  EXPECT_NEAR(p208.size, 0.14, 2.0 * std::max(p208.size_sd, kRange_m));
}

}  // namespace
}  // namespace stakewright::suspects

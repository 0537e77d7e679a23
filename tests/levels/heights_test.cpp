#include "stakewright/levels/heights.hpp"

#include <gmock/gmock.h>
#include <gsl/gsl_matrix.h>
#include <gsl/gsl_multifit.h>
#include <gsl/gsl_vector.h>
#include <gtest/gtest.h>

#include <cmath>

#include "crew.hpp"

namespace stakewright::levels {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

Rods rods_of(Crew& crew) {
  const Question& q = crew.question();
  return rods(q.plan, q.readings, q.instruments, q.wanted);
}

Heights heights_of(Crew& crew) { return heights(rods_of(crew), crew.question().wanted); }

double height_of(const Rods& rods, const Heights& heights, const std::string& point) {
  for (std::size_t p = 0; p < rods.points.size(); ++p)
    if (rods.points[p] == point) return heights.height_m[p];
  return NAN;
}

void add(Question& question, const std::string& set_up, const std::string& point, double read_m) {
  readings::Reading reading;
  reading.kind = readings::Kind::level;
  reading.from = set_up;
  reading.to = point;
  reading.value_m = read_m;
  question.readings.push_back(reading);
}

// A line of levels from one bench mark to another point, four set-ups, as public-domain manuals lay
// out their notes (US Army FM 5-233, differential leveling; layout and sums from memory, the
// figures are worked by hand here): height of instrument = elevation + backsight; elevation =
// height of instrument − foresight.
TEST(Heights, FollowALineOfLevelsAsBookedByHand) {
  Crew crew(3, 1);
  Question& q = crew.question();
  q.wanted.bench_mark = "BM1";
  q.wanted.bench_mark_height_m = 27.012;
  add(q, "1", "BM1", 1.566);  // HI 28.578
  add(q, "1", "TP1", 0.896);  // 27.682
  add(q, "2", "TP1", 1.311);  // HI 28.993
  add(q, "2", "TP2", 1.094);  // 27.899
  add(q, "3", "TP2", 0.602);  // HI 28.501
  add(q, "3", "A", 2.450);    // 26.051
  const Rods r = rods_of(crew);
  const Heights h = heights(r, q.wanted);
  EXPECT_TRUE(h.on_bench_mark);
  EXPECT_NEAR(height_of(r, h, "TP1"), 27.682, 1e-12);
  EXPECT_NEAR(height_of(r, h, "TP2"), 27.899, 1e-12);
  EXPECT_NEAR(height_of(r, h, "A"), 26.051, 1e-12);
  EXPECT_NEAR(h.set_ups[0].height_m, 28.578, 1e-12);
  EXPECT_NEAR(h.set_ups[2].height_m, 28.501, 1e-12);
  EXPECT_EQ(h.sums.redundancy, 0);
}

// A loop that closes on its bench mark: the misclosure is shared among the set-ups in proportion
// to their variances, here equally (any surveying text; C. D. Ghilani, Adjustment Computations,
// chapter on levels, from memory).  Backsights 6.000, foresights 5.988: misclosure +12 mm over four
// equal set-ups takes 3 mm off each rise.
TEST(Heights, ShareTheMisclosureOfALoopEquallyAmongEqualSetUps) {
  Crew crew(3, 1);
  Question& q = crew.question();
  q.wanted.bench_mark = "BM";
  q.wanted.bench_mark_height_m = 100.0;
  add(q, "1", "BM", 1.500);
  add(q, "1", "A", 1.000);  // rise 0.500
  add(q, "2", "A", 1.700);
  add(q, "2", "B", 1.400);  // rise 0.300
  add(q, "3", "B", 1.200);
  add(q, "3", "C", 1.688);  // fall 0.488
  add(q, "4", "C", 1.600);
  add(q, "4", "BM", 1.900);  // fall 0.300: sum +0.012
  const Rods r = rods_of(crew);
  const Heights h = heights(r, q.wanted);
  EXPECT_EQ(h.sums.redundancy, 1);
  EXPECT_NEAR(height_of(r, h, "A"), 100.497, 1e-12);
  EXPECT_NEAR(height_of(r, h, "B"), 100.794, 1e-12);
  EXPECT_NEAR(height_of(r, h, "C"), 100.303, 1e-12);
  for (const auto& reading : h.sums.readings_out) {
    EXPECT_NEAR(std::abs(reading.residual), 0.0015, 1e-12);
    EXPECT_NEAR(reading.redundancy, 1.0 / 8.0, 1e-12);
  }
  // vᵀPv = misclosure² over the sum of the variances.
  const double variance = 8.0 * r.readings[0].sd_m * r.readings[0].sd_m;
  EXPECT_NEAR(h.sums.chi_square, 0.012 * 0.012 / variance, 1e-9);
}

TEST(Heights, AreRecoveredFromPerfectRodsOverRandomSetUps) {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> height(-0.3, 0.3);
  std::uniform_int_distribution<std::size_t> corner(0, 5);
  for (int job = 0; job < 50; ++job) {
    Crew crew(6, 1);
    for (const std::string& label : crew.corners()) crew.height_m(label) = height(random);
    crew.height_m("T") = height(random);
    crew.set_up_m("L2") = 2.1;
    crew.set_up_m("L3") = 0.9;
    crew.read_all("L1", 0.0).read("L1", "T", 0.0).read("L2", "T", 0.0);
    for (int i = 0; i < 3; ++i) crew.read("L2", crew.corners()[corner(random)], 0.0);
    crew.read("L3", crew.corners()[corner(random)], 0.0).read("L3", "T", 0.0);
    const Rods r = rods_of(crew);
    const Heights h = heights(r, crew.question().wanted);
    EXPECT_NEAR(h.sums.chi_square, 0.0, 1e-12);
    for (const std::string& label : crew.corners())
      EXPECT_NEAR(height_of(r, h, label) - height_of(r, h, "A"),
                  crew.height_m(label) - crew.height_m("A"), 1e-12);
    double sum = 0.0;
    for (std::size_t i = 0; i < 6; ++i) sum += h.height_m[i];
    EXPECT_NEAR(sum, 0.0, 1e-12);
  }
}

TEST(Heights, DoNotChangeWhenEveryRodOfASetUpReadsMore) {
  Crew crew(6, 3);
  crew.uneven(0.003).read_all("L1").read_all("L2");
  const Heights before = heights_of(crew);
  for (readings::Reading& reading : crew.question().readings)
    if (reading.from == "L2") reading.value_m += 0.25;
  const Heights after = heights_of(crew);
  for (std::size_t i = 0; i < 6; ++i) EXPECT_NEAR(before.height_m[i], after.height_m[i], 1e-12);
  EXPECT_NEAR(after.set_ups[1].height_m - before.set_ups[1].height_m, 0.25, 1e-12);
  EXPECT_NEAR(before.sums.chi_square, after.sums.chi_square, 1e-9);
}

/// The same network by GSL, the first corner at 0; what does not hang on that is compared.
TEST(Heights, AgreeWithGslInDifferencesAndTheirCovariance) {
  Crew crew(5, 11);
  crew.set_up_m("L2") = 1.1;
  crew.uneven(0.004).read_all("L1").read("L1", "T").read("L2", "T").read_all("L2");
  crew.question().readings.back().sight_m = 35.0;
  const Rods r = rods_of(crew);
  const Heights h = heights(r, crew.question().wanted);
  const std::size_t points = r.points.size();  // A to E, O without a rod, T
  const std::size_t n = 2 + points - 2;
  const std::size_t m = r.readings.size();
  const auto column = [&](std::size_t point) { return 1 + point - (point > 5 ? 1 : 0); };
  gsl_matrix* X = gsl_matrix_calloc(m, n);
  gsl_vector* w = gsl_vector_alloc(m);
  gsl_vector* y = gsl_vector_alloc(m);
  for (std::size_t i = 0; i < m; ++i) {
    gsl_matrix_set(X, i, r.readings[i].set_up, 1.0);
    if (r.readings[i].point > 0) gsl_matrix_set(X, i, column(r.readings[i].point), -1.0);
    gsl_vector_set(w, i, 1.0 / (r.readings[i].sd_m * r.readings[i].sd_m));
    gsl_vector_set(y, i, r.readings[i].read_m);
  }
  gsl_vector* c = gsl_vector_alloc(n);
  gsl_matrix* covariance = gsl_matrix_alloc(n, n);
  double chi_square = 0.0;
  auto* workspace = gsl_multifit_linear_alloc(m, n);
  gsl_multifit_wlinear(X, w, y, c, covariance, &chi_square, workspace);
  EXPECT_NEAR(h.sums.chi_square, chi_square, 1e-6 * (1.0 + chi_square));
  const base::Matrix& C = h.covariance;
  for (std::size_t i = 1; i < 5; ++i) {
    EXPECT_NEAR(h.height_m[i] - h.height_m[0], gsl_vector_get(c, column(i)), 1e-10);
    for (std::size_t j = 1; j < 5; ++j)
      EXPECT_NEAR(C(i, j) - C(i, 0) - C(0, j) + C(0, 0),
                  gsl_matrix_get(covariance, column(i), column(j)), 1e-6 * C(0, 0));
  }
  gsl_multifit_linear_free(workspace);
  gsl_matrix_free(covariance);
  gsl_matrix_free(X);
  for (gsl_vector* v : {w, y, c}) gsl_vector_free(v);
}

// One reading a footing from one set-up: each height less the mean of n has variance
// σ²(1 − 1/n), and each two −σ²/n (from the definition of a mean).
TEST(Heights, OfOneSetUpHaveTheCovarianceOfDeviationsFromAMean) {
  Crew crew(6, 1);
  crew.read_all("L1");
  const Heights h = heights_of(crew);
  const double variance = crew.sd_m() * crew.sd_m();
  for (std::size_t i = 0; i < 6; ++i)
    for (std::size_t j = 0; j < 6; ++j)
      EXPECT_NEAR(h.covariance(i, j), variance * ((i == j ? 1.0 : 0.0) - 1.0 / 6.0),
                  1e-9 * variance);
}

TEST(Heights, OfTheBenchMarkAreExactAndTheOthersTiedToIt) {
  Crew crew(4, 1);
  crew.question().wanted = {"BM", 12.5, 12.6};
  crew.height_m("BM") = 0.4;
  crew.read_all("L1", 0.0).read("L1", "BM", 0.0);
  const Rods r = rods_of(crew);
  const Heights h = heights(r, crew.question().wanted);
  ASSERT_TRUE(h.on_bench_mark);
  EXPECT_NEAR(h.height_m[0], 12.1, 1e-12);
  EXPECT_NEAR(h.height_m[*r.bench_mark], 12.5, 1e-12);
  EXPECT_NEAR(h.covariance(*r.bench_mark, *r.bench_mark), 0.0, 1e-18);
  EXPECT_NEAR(h.covariance(0, 0), 2.0 * crew.sd_m() * crew.sd_m(), 1e-12);
}

TEST(Heights, OfSetUpsThatShareNoPointAreToldApart) {
  Crew crew(6, 1);
  for (const char* corner : {"A", "B", "C", "D"}) crew.read("L1", corner);
  crew.read("L2", "E").read("L2", "F");
  const Rods r = rods_of(crew);
  const Heights h = heights(r, crew.question().wanted);
  EXPECT_THAT(h.known, ElementsAre(true, true, true, true, false, false, false));
  ASSERT_EQ(h.apart.size(), 1U);
  EXPECT_THAT(h.apart[0], ElementsAre(4U, 5U));
  EXPECT_TRUE(h.set_ups[0].tied);
  EXPECT_FALSE(h.set_ups[1].tied);
}

TEST(Heights, OfASetUpWithOneRodAreAllowedAndTellNothing) {
  Crew crew(4, 1);
  crew.read_all("L1");
  const Heights before = heights_of(crew);
  crew.read("L2", "A");
  const Heights after = heights_of(crew);
  EXPECT_EQ(after.set_ups[1].rod_count, 1U);
  EXPECT_EQ(after.sums.redundancy, before.sums.redundancy);
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(before.height_m[i], after.height_m[i], 1e-12);
    EXPECT_NEAR(before.covariance(i, i), after.covariance(i, i), 1e-15);
  }
}

TEST(Heights, WithoutARodAreNotKnown) {
  Crew crew(4, 1);
  const Heights none = heights_of(crew);
  EXPECT_THAT(none.known, testing::Each(false));
  EXPECT_THAT(none.apart, IsEmpty());
}

}  // namespace
}  // namespace stakewright::levels

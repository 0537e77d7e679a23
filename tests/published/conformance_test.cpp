// Chances of conformance and ellipse factors against published figures.
#include <gtest/gtest.h>

#include <cmath>

#include "stakewright/placement/placement.hpp"

namespace stakewright::placement {
namespace {

// A measured value with standard uncertainty u against an interval is a place on a line
// against a circle: mean minus the middle of the interval, radius half its width.
double chance_between(double value, double uncertainty, double low, double high) {
  return chance_within(value - (low + high) / 2.0, 0.0, uncertainty * uncertainty, 0.0, 0.0,
                       (high - low) / 2.0);
}

// JCGM 106:2012, 7.4: y = 13.6, u = 1.8, limits 12.5 and 16.3 (inputs as given there).  The
// chance 0.66263 was worked from the normal distribution to 40 digits, outside this project;
// the document prints it rounded.
TEST(Jcgm106, GivesTheChanceOfConformanceForTwoLimits) {
  EXPECT_NEAR(chance_between(13.6, 1.8, 12.5, 16.3), 0.66263, 0.000005);
}

// JCGM 106:2012, example of a diode: y = -5.47 V, u = 0.05 V, upper limit -5.40 V.  The figures
// are from memory, the document is remembered to print 0.92; 0.91924 is worked from the normal
// distribution.  The lower limit is put too far away to matter.
TEST(Jcgm106, GivesTheChanceOfConformanceForOneLimit) {
  EXPECT_NEAR(chance_between(-5.47, 0.05, -1005.40, -5.40), 0.91924, 0.000005);
}

double factor_at(double confidence) {
  Survey survey;
  survey.planned = {{0.0, 1.0}, {1.0, -1.0}, {-1.0, -1.0}};
  survey.found = survey.planned;
  survey.measured = {true, true, true};
  survey.hold = {0, 1};
  survey.covariance = base::Matrix(6, 6);
  const double sd_m = 0.001;
  survey.covariance(4, 4) = sd_m * sd_m;  // the third corner only, so that no datum enters
  survey.covariance(5, 5) = sd_m * sd_m;
  base::Tolerance tolerance;
  tolerance.confidence = confidence;
  return fewest_moves(survey, tolerance).corners[2].ellipse.major_m / sd_m;
}

// Square roots of chi-square with two degrees of freedom.  Upper points 4.60517, 5.99146 and
// 9.21034 as printed in the table of a university statistics course (exampapers.nust.na), and
// 0.103 at .95 exceeded in the NIST/SEMATECH e-Handbook's table of lower critical values.
TEST(EllipseFactor, IsTheRootOfChiSquareWithTwoDegreesOfFreedom) {
  EXPECT_NEAR(factor_at(0.90), std::sqrt(4.60517), 2e-6);
  EXPECT_NEAR(factor_at(0.95), std::sqrt(5.99146), 2e-6);
  EXPECT_NEAR(factor_at(0.99), std::sqrt(9.21034), 2e-6);
  EXPECT_NEAR(factor_at(0.05), std::sqrt(0.103), 0.001);
}

}  // namespace
}  // namespace stakewright::placement

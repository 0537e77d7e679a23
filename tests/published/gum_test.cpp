// The examples H.1 and H.3 of JCGM 100:2008 (GUM), as far as a tape's sums are theirs.
#include <gtest/gtest.h>

#include <cmath>

#include "stakewright/adjustment/linear.hpp"
#include "stakewright/readings/classes.hpp"
#include "stakewright/readings/corrections.hpp"

namespace stakewright {
namespace {

// H.1, an end gauge against a standard, as a tape is corrected for its temperature.  Inputs and
// components: the worked example of the GTC documentation (gtc.readthedocs.io, GUM_H1).  The
// guide's own rounded results, 9.7, 2.9, 16.6, 32 and 34 nm, are from memory.
class EndGauge : public testing::Test {
 protected:
  static constexpr double kGauge_m = 50.000623e-3;
  static constexpr double kExpansion = 11.5e-6;
  static constexpr double kOffStandard_c = -0.1;

  /// Change of the corrected length with one figure, by the correction's own sums.
  static double by_expansion(double step) {
    return correction(kExpansion + step, kOffStandard_c) - correction(kExpansion, kOffStandard_c);
  }
  static double by_temperature(double step_c) {
    return correction(kExpansion, kOffStandard_c + step_c) - correction(kExpansion, kOffStandard_c);
  }
  static double correction(double expansion, double temperature_c) {
    return readings::temperature_correction_m(kGauge_m, expansion, temperature_c, 0.0);
  }
};

TEST_F(EndGauge, HasTheComponentsOfTheGuide) {
  const double of_expansion_nm = 1e9 * std::abs(by_expansion(readings::sd_from_limit(1e-6)));
  const double of_temperature_nm = 1e9 * std::abs(by_temperature(readings::sd_from_limit(0.05)));
  EXPECT_NEAR(of_expansion_nm, 2.887, 0.0005);
  EXPECT_NEAR(of_temperature_nm, 16.599, 0.0005);
  // Standard 25 nm; comparator 5.8, 3.9 and 6.7 nm, together 9.682.
  const double comparator_nm = std::sqrt(5.8 * 5.8 + 3.9 * 3.9 + 6.7 * 6.7);
  EXPECT_NEAR(comparator_nm, 9.682, 0.0005);
  const double all_nm =
      std::sqrt(25.0 * 25.0 + comparator_nm * comparator_nm + of_expansion_nm * of_expansion_nm +
                of_temperature_nm * of_temperature_nm);
  EXPECT_NEAR(all_nm, 31.664, 0.0005);
}

// The terms of second order: 11.73 and 1.67 nm raise 32 to 34 nm.
TEST_F(EndGauge, HasTheSecondOrderTermsOfTheGuide) {
  const auto together_nm = [](double expansion_step, double temperature_step_c) {
    const double both =
        correction(kExpansion + expansion_step, kOffStandard_c + temperature_step_c) -
        correction(kExpansion, kOffStandard_c);
    return 1e9 * std::abs(both - by_expansion(expansion_step) - by_temperature(temperature_step_c));
  };
  // The temperature of the bed: 0.2 C, and an arcsine law of +/- 0.5 C, 0.5 / sqrt 2.
  const double bed_c = std::hypot(0.2, 0.5 / std::sqrt(2.0));
  EXPECT_NEAR(together_nm(readings::sd_from_limit(1e-6), bed_c), 11.73, 0.005);
  EXPECT_NEAR(together_nm(readings::sd_from_limit(2e-6), readings::sd_from_limit(0.05)), 1.67,
              0.005);
}

// H.3, calibration of a thermometer by a straight line: the correction at 20 C and its growth a
// degree.  Data: JCGM 100:2008, H.3.  Results to full digits worked from them by hand; the guide's
// own, -0.1712(29), 0.00218(67), -0.1494(41), are from memory and agree.
class Thermometer : public testing::Test {
 protected:
  static constexpr double kLineSd = 0.0034976;

  Thermometer() {
    constexpr double read[] = {21.521, 22.012, 22.512, 23.003, 23.507, 23.999,
                               24.513, 25.002, 25.503, 26.010, 26.511};
    constexpr double correction[] = {-.171, -.169, -.166, -.159, -.164, -.165,
                                     -.156, -.157, -.159, -.161, -.160};
    for (std::size_t k = 0; k < std::size(read); ++k) add(read[k] - 20.0, correction[k]);
  }

  void add(double above_20, double correction) {
    above_20_.push_back(above_20);
    line_.values_m.push_back(correction);
    line_.sd_m.push_back(kLineSd);
  }

  adjustment::LinearReadings line() {
    line_.design = base::Matrix(above_20_.size(), 2);
    for (std::size_t k = 0; k < above_20_.size(); ++k) {
      line_.design(k, 0) = 1.0;
      line_.design(k, 1) = above_20_[k];
    }
    return line_;
  }

  std::vector<double> above_20_;
  adjustment::LinearReadings line_;
};

TEST_F(Thermometer, HasTheLineOfTheGuide) {
  const auto result = adjustment::adjust(line());
  ASSERT_TRUE(result.has_value());
  EXPECT_NEAR(result->unknowns[0], -0.171204, 1e-6);
  EXPECT_NEAR(std::sqrt(result->covariance(0, 0)), 0.0028776, 1e-6);
  EXPECT_NEAR(result->unknowns[1], 0.00218270, 1e-7);
  EXPECT_NEAR(std::sqrt(result->covariance(1, 1)), 0.00066794, 1e-7);
  EXPECT_NEAR(
      result->covariance(0, 1) / std::sqrt(result->covariance(0, 0) * result->covariance(1, 1)),
      -0.93043, 1e-5);
  // The scatter is the one the readings were given: nine more than needed.
  EXPECT_EQ(result->redundancy, 9);
  EXPECT_NEAR(result->chi_square, 9.0, 0.001);
}

// The correction at 30 C, which was not read: -0.1494 with 0.0041.
TEST_F(Thermometer, IsPredictedAsInTheGuideWhereItWasNotRead) {
  add(10.0, 0.0);
  const auto result = adjustment::adjust(line(), {above_20_.size() - 1});
  ASSERT_TRUE(result.has_value());
  const adjustment::AdjustedReading& predicted = result->readings_out.back();
  EXPECT_NEAR(predicted.residual, -0.14938, 0.00001);
  const double with_reading = predicted.residual / predicted.standardized;
  EXPECT_NEAR(std::sqrt(with_reading * with_reading - kLineSd * kLineSd), 0.0041386, 1e-6);
}

}  // namespace
}  // namespace stakewright

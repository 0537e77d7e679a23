// Limits of the statistical tests, each from its definition.
//
// They agree with printed tables to the last digit (`ChiSquareLimit.*`, `Range.*`); the chance of a
// range with another quadrature to 1e-7 (`Range.AgreesWithTheDensityIntegratedByGsl`).
// Formulas and sources: docs/methods/adjustment.md; of the range docs/methods/field-form.md.
#pragma once

namespace stakewright::adjustment {

/// Chance that a good reading is called bad, in the test of one reading.
/// Source: W. Baarda, A testing procedure for use in geodetic networks, 1968 (from memory).
inline constexpr double kReadingAlpha = 0.001;

/// Chance that an error of the size of the smallest catch (minimal detectable bias) is called out.
/// Same source.
inline constexpr double kPower = 0.80;

/// Chance that a good set of readings fails the test of the whole set.
inline constexpr double kSetAlpha = 0.05;

/// Up to this many readings each one is tested at `kReadingAlpha`; a longer list shares the
/// risk of a false alarm of a list of this length (Bonferroni).
inline constexpr int kReadingsAtFullAlpha = 40;

/// Value that chi-square with `dof` degrees of freedom exceeds with chance `alpha`.
/// 0 when `dof` is 0.  alpha in (0, 1).
double chi_square_limit(double alpha, int dof);

/// Value whose size a standard normal exceeds with chance `alpha`, both tails together.
double normal_limit(double alpha);

/// Shift of a standard normal that the two-sided test at `alpha` calls out with chance `power`:
/// δ₀ = z(1 − alpha/2) + z(power).  4.13 for 0.001 and 0.80.
double smallest_shift(double alpha, double power);

/// Chance of a false alarm given to each of `count` readings (or sets of readings) tested together,
/// when each of up to `kReadingsAtFullAlpha` readings gets `kReadingAlpha`.
double shared_alpha(double count);

/// Chance that `count` independent standard normals lie within `width` of each other, largest to
/// smallest.  `count` 2 or more, `width` 0 or more.
double range_chance(double width, int count);

/// Width they keep to with chance `confidence`, in (0, 1).
double range_limit(double confidence, int count);

}  // namespace stakewright::adjustment

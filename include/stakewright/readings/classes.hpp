// What published classes say of tapes and laser distance meters.
//
// Units: meters.  A *limit* is a greatest permitted error; a *standard deviation* is one sigma.
// Sources and choices: docs/methods/readings.md.
#pragma once

namespace stakewright::readings {

/// Accuracy class printed on a tape: I is best.
enum class TapeClass { I, II, III };

/// Where the interval is read from: from a printed mark, or from the tape's own end (hook, ring,
/// butt).
enum class TapeStart { mark, end };

/// Greatest error a tape of this class may have over `length_m`.
///
/// a + b·L with L in meters rounded up to the next whole meter; from the end, c is added.
/// Source: Directive 2014/32/EU, Annex X (MI-008), chapter I, table 1, as in UK SI 2016/1153,
/// Schedule 1I.  Lengths within `kWholeMeterSlack_m` above a whole meter count as that meter.
/// Throws InputError unless the length is finite and above 0.
double tape_limit_m(TapeClass tape, double length_m, TapeStart start = TapeStart::mark);

/// A length that has been through feet and back must not jump a step; no tape shows so little.
inline constexpr double kWholeMeterSlack_m = 1e-9;

/// Greatest error (two sigma) of a laser distance meter by one maker's published law:
/// 1 mm to 10 m, then 0.025 mm for each further meter.
/// Throws InputError unless the length is finite and above 0.
double laser_limit_m(double length_m);

/// Standard deviation of an error equally likely anywhere within +/- `limit`: limit / sqrt(3).
/// Source: JCGM 100:2008 (GUM), 4.3.7.  Same unit out as in.
double sd_from_limit(double limit);

/// Standard deviation of rounding to steps of `step`: step / sqrt(12).  Source: as above.
double sd_from_step(double step);

}  // namespace stakewright::readings

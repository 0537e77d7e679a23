// Rod readings as a network of set-ups and points.
//
// Units: meters.  rod reading = set-up height − point height + e.  docs/methods/levels.md.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "stakewright/base/length.hpp"
#include "stakewright/layout/plan.hpp"
#include "stakewright/readings/reading.hpp"

namespace stakewright::levels {

/// More rod readings are refused: every corner of a 48-sided job, read from ten set-ups, is fewer,
/// and the sums grow with their cube.
inline constexpr std::size_t kMostRodReadings = 600;

/// `[levels]` of the job file.
struct Wanted {
  std::string bench_mark;            ///< a point of known height; empty: none
  double bench_mark_height_m = 0.0;  ///< above any one level
  /// Height the tops of the footings are wanted at, above the same level.  Without it, or without
  /// a bench mark, they are judged against their own mean.
  std::optional<double> footings_m;
};

struct RodReading {
  std::size_t set_up = 0;
  std::size_t point = 0;
  std::size_t row = 0;  ///< of the readings it came from
  std::string instrument;
  double read_m = 0.0;
  double sd_m = 0.0;
  base::Units written = base::Units::millimeters;  ///< what it was written in
};

struct Rods {
  /// Corners in label order, the center pin, the site pins, then the other points a rod stood on
  /// in the order of their first reading, and the bench mark.
  std::vector<std::string> points;
  std::size_t corner_count = 0;
  std::vector<std::string> set_ups;  ///< names, in the order of their first reading
  std::vector<RodReading> readings;
  std::optional<std::size_t> bench_mark;  ///< index of a point
};

/// Standard deviation of a rod reading over a sight: sqrt(constant² + (per_length · sight)²).
double rod_sd_m(const readings::Instrument& instrument, double sight_m);

/// The rod readings among `readings`; other kinds are passed over.  A set-up belongs to its round:
/// the same name in another round is another set-up.  A reading without a sight length is taken to
/// be from the middle of the plan: as far as a corner radius.
///
/// Throws InputError, naming the reading, for an instrument that is not there or no level, for a
/// reading or a sight that is not above 0, and for more than `kMostRodReadings`.
Rods rods(const layout::Plan& plan, const std::vector<readings::Reading>& readings,
          const std::vector<readings::Instrument>& instruments, const Wanted& wanted);

}  // namespace stakewright::levels

// Least squares over the readings of one round: of a free network, or tied to site pins.
//
// Lengths between the places found are right to 1e-9 m and variances to a millionth of themselves
// (`AgainstGsl.*`, `AgainstCeres.*`), at sites some tens of meters across.
// Units: meters and radians.  Formulas and sources: docs/methods/adjustment.md.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "stakewright/adjustment/network.hpp"
#include "stakewright/base/matrix.hpp"

namespace stakewright::adjustment {

enum class Status {
  settled,          ///< every corner's place is known
  shape_not_fixed,  ///< the readings leave one or more corners loose: see `loose`
  no_readings,
  did_not_settle  ///< the iteration found no rest: readings of another polygon, or two stakes at
                  ///< one point
};

/// Meters for a length, radians for an angle.
struct AdjustedReading {
  std::size_t observation = 0;  ///< of the network; of a linear model: the row
  double residual = 0.0;        ///< adjusted minus corrected; of an angle in (−pi, pi]
  double adjusted = 0.0;
  double standardized = 0.0;    ///< residual over its own standard deviation, the statistic of the
                                ///< w-test; 0 without redundancy
  double redundancy = 0.0;      ///< redundancy number: share of an error here that shows in the
                                ///< residual, 0 to 1
  double smallest_catch = 0.0;  ///< smallest reading error the set would catch (minimal detectable
                                ///< bias); infinity without redundancy
  bool excluded = false;        ///< left out of the sums; the figures are then predictions
  bool used = false;            ///< took part in the sums.  Neither excluded nor used: it reaches
                                ///< a point that is not fixed, and tells nothing of the others
};

/// What is known of one instrument's scale and zero after the adjustment.
struct AdjustedInstrument {
  std::size_t instrument = 0;
  double scale = 0.0;
  double scale_sd = 0.0;
  double zero_m = 0.0;
  double zero_sd_m = 0.0;
};

/// A tape that is not pulled yet.
struct MissingTape {
  std::size_t from = 0;
  std::size_t to = 0;
};

/// A corner the readings do not fix, and tapes that would fix it.
struct Loose {
  std::size_t point = 0;
  std::vector<MissingTape> would_fix;
};

/// Figures of a whole set of readings, and of each.
struct Sums {
  int readings = 0;               ///< used
  int redundancy = 0;             ///< readings and instrument priors, less unknowns
  double variance_factor = 1.0;   ///< vᵀPv over redundancy; 1 without redundancy
  double chi_square = 0.0;        ///< vᵀPv
  double chi_square_limit = 0.0;  ///< at alpha 0.05, one-sided; 0 without redundancy
  bool passed = true;
  std::vector<AdjustedReading> readings_out;  ///< per observation or row, in order
};

struct Adjustment : Sums {
  Status status = Status::no_readings;
  int unknowns = 0;      ///< of place that can be determined, plus instrument unknowns
  int free_motions = 3;  ///< shifts and turn of the whole figure that no pin holds; 0: none
  std::vector<base::Point>
      found;  ///< per network point; the planned place for loose or unmeasured ones
  std::vector<bool>
      place_known;          ///< per network point: `found` comes from readings, or it is a pin
  base::Matrix covariance;  ///< 2P x 2P, order x0 y0 x1 y1 …, a priori (variance factor 1); zero
                            ///< for pins, and for points whose place is not known
  std::vector<AdjustedInstrument> instruments;
  std::vector<Loose> loose;
  std::vector<base::Fact> remarks;
};

/// Adjusts the network, leaving out the observations in `excluded`.
///
/// What the readings determine is found first, by rank at the planned places; corners left loose
/// are listed with the tapes that would fix them, and the rest is adjusted without them.  Where the
/// whole figure lies on the ground comes from the pins as far as they are tied in, and otherwise
/// from the datum corners' mean place and turn, never at the cost of the shape (free network, inner
/// constraints).
///
/// Places are at rest to 1e-12 m.  Readings of one round that fit a mirrored corner as well as the
/// planned one are taken the planned way.  Excluded readings are predicted from the others: the
/// standardized residual is then (adjusted − corrected) over the standard deviation of that
/// difference, and the redundancy is 1.
Adjustment adjust(const Network& network, const std::vector<std::size_t>& excluded = {});

}  // namespace stakewright::adjustment

// Are the footings level: each one's height judged, a tilted form told apart
// from a footing that stands wrong, and what goes under each post.
//
// Units: meters and radians.  docs/methods/levels.md.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "stakewright/adjustment/slips.hpp"
#include "stakewright/base/fact.hpp"
#include "stakewright/base/length.hpp"
#include "stakewright/base/point.hpp"
#include "stakewright/base/tolerance.hpp"
#include "stakewright/levels/heights.hpp"
#include "stakewright/placement/placement.hpp"

namespace stakewright::levels {

/// For a footing whose height is not known the figures are zero and the verdict is undecided.
struct Footing {
  bool known = false;
  double height_m = 0.0;   ///< above the datum of the heights
  double off_m = 0.0;      ///< above (positive) or below the level it is judged against
  double sd_m = 0.0;       ///< of `off_m`
  double chance_in = 0.0;  ///< chance that its true height is within the tolerance of that level
  placement::Verdict verdict = placement::Verdict::undecided;
  /// Under the post's base to bring the plate level: up to the highest footing, or to the height
  /// wanted over the bench mark.  Below 0 it is to be cut.
  double packing_m = 0.0;
  double packing_sd_m = 0.0;
  std::size_t rod_count = 0;  ///< readings of it that were used
};

/// What explains heights that are not level.
enum class Shape {
  not_known,  ///< fewer than three footings leveled
  level,      ///< nothing but the usual unevenness
  footings,   ///< single footings stand wrong: `wrong`
  tilted,     ///< the form leans as a whole; footings in `wrong` are out of its plane besides
  unclear     ///< two of these explain the heights about as well
};

/// The plane through the footings that are not in `wrong`.
struct Plane {
  base::Point slope;                ///< rise per meter to the right and forward
  double downhill_bearing_rad = 0;  ///< clockwise from forward, 0 to 2 pi
  double drop_m = 0.0;              ///< between its highest and its lowest footing, along the plane
  double chi_square = 0;            ///< of the slope being nothing, 2 degrees of freedom
  bool significant = false;
};

struct Levels {
  Rods rods;
  adjustment::SlipTest slips;     ///< readings are those of `rods`
  Heights heights;                ///< without the readings left out
  std::vector<Footing> footings;  ///< per corner
  bool against_bench_mark = false;
  double level_m = 0.0;           ///< the level they are judged against
  std::vector<std::size_t> kept;  ///< corners whose mean it is; empty against a bench mark
  placement::Verdict verdict = placement::Verdict::undecided;
  Shape shape = Shape::not_known;
  double tilt_chance = 0.0;               ///< chance that the form leans, whatever else is wrong
  std::vector<std::size_t> wrong;         ///< corners
  std::vector<std::size_t> may_be_wrong;  ///< unclear: the footings of the likeliest rival
  std::optional<Plane> plane;             ///< with three or more footings not in one row
  std::vector<base::Fact> remarks;        ///< what the rods leave open
};

struct Question {
  layout::Plan plan;
  base::Tolerance tolerance;
  base::Staking staking;
  Wanted wanted;
  std::vector<readings::Instrument> instruments;
  std::vector<readings::Reading> readings;
};

/// Judges the rod readings among the readings; nothing when there are none.
///
/// Against their own mean the level is that of as many footings as possible: their mean, so that
/// one bad footing does not smear over the others; that of all footings of a form that leans.
/// A misread rod is left out only when the test names it.  Where it cannot be named, each footing
/// is judged over all the readings it may be in, by their chances.
///
/// Throws InputError as `rods`.
std::optional<Levels> judge(const Question& question);

enum class Unit { foot, inch, meter, decimeter, centimeter };

/// Marks that somebody loses or gains as a whole, once or twice.
struct WholeUnits {
  Unit unit = Unit::foot;
  int times = 1;
  friend bool operator==(const WholeUnits&, const WholeUnits&) = default;
};

/// The one whole unit of those a rod is marked in that a slip fits within three standard
/// deviations; none when none or several do.
std::optional<WholeUnits> whole_units(double slip_m, double sd_m, base::Units written);

/// Of a reading left out: by how much it reads too long, its standard deviation, and what it looks
/// like.
struct RodSlip {
  double slip_m = 0.0;
  double sd_m = 0.0;
  std::optional<WholeUnits> looks_like;
};
RodSlip slip_of(const Levels& levels, std::size_t reading);

/// The readings, each tape or laser without a `slope` of its own given the level difference of its
/// two ends where both are leveled and it is less than the reading.
std::vector<readings::Reading> with_slopes(std::vector<readings::Reading> readings,
                                           const Levels& levels);

}  // namespace stakewright::levels

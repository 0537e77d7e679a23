// The roof over a plate polygon, regular or not: its parts, its cuts, and what
// the corners' errors do to them.
//
// Worked from 3-D vectors; the formulas of the trade are what the tests compare
// with.  Units: metres and radians.  docs/methods/roof.md.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "stakewright/base/matrix.hpp"
#include "stakewright/base/point.hpp"
#include "stakewright/base/tolerance.hpp"
#include "stakewright/layout/plan.hpp"

namespace stakewright::roof {

enum class ApexOver { placed_centre, pin, even_hips };
enum class Tail { square, plumb };
enum class Eave { level, even };

/// `[roof]` of the job file.
struct Spec {
  double pitch = 0.5;        ///< rise over run of the commons
  double overhang_m = 0.0;   ///< level, plate line to the face the fascia sits on
  double rafter_m = 0.0381;  ///< thickness
  double rafter_depth_m = 0.1397;
  double hip_m = 0.0635;     ///< thickness
  double spacing_m = 0.4064; ///< jacks, on centre
  double hub_m = 0.0;        ///< across flats of a hub; 0: rafters meet
  double fascia_m = 0.01905; ///< thickness
  Tail tail = Tail::square;
  Eave eave = Eave::level;
  ApexOver apex_over = ApexOver::placed_centre;
};

/// Corners as found, laid on the plan: in the plan's own frame.
struct FoundCorners {
  std::vector<base::Point> corners;  ///< plan-line corners, plan frame
  base::Matrix covariance;           ///< 2n x 2n
  std::optional<base::Point> pin;    ///< the centre pin as found, plan frame, when measured
};

enum class PartKind { hip, common, fascia };
enum class Fit { pattern, own };

/// A figure as planned and, with readings, as found.
struct Figure {
  double planned = 0.0;
  std::optional<double> found;
  std::optional<double> difference;
  std::optional<double> uncertainty;  ///< half-width at the job's confidence
};

struct Part {
  PartKind kind = PartKind::hip;
  std::string at;            ///< corner "C", side "B-C"
  Figure line;               ///< line length in metres; fascia: eave line, corner to corner
  double shortening_m = 0.0;
  double tail_m = 0.0;
  double overall_m = 0.0;    ///< line - shortening + tail; fascia: long point to long point
  Fit fit = Fit::pattern;
};

struct Cut {
  PartKind part = PartKind::hip;
  std::string at;
  std::string name;  ///< "plumb", "seat", "backing", "mitre", "bevel"
  Figure angle;      ///< radians
  Fit fit = Fit::pattern;
};

struct Apex {
  base::Point at;        ///< plan frame
  double height_m = 0.0; ///< above the plate, always pitch times planned flat radius of the plate line
};

struct Carry {
  Apex apex;
  std::vector<Part> parts;
  std::vector<Cut> cuts;
  std::vector<std::string> remarks;
};

/// The carry: planned only, or planned against found.
/// `plate_offset_m` is the plate line's distance outside the plan line.
/// Throws InputError for a spec that makes no roof; a found polygon that is not
/// convex or winds the wrong way is reported in `remarks`, without found figures.
Carry carry(const layout::Plan& plan, double plate_offset_m, const Spec& spec,
            const base::Tolerance& tolerance, const std::optional<FoundCorners>& found);

}  // namespace stakewright::roof

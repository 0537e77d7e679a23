// The roof over a plate polygon, regular or not: its parts, its cuts, and what
// the corners' errors do to them.
//
// Worked from 3-D vectors; the formulas of the trade are what the tests compare
// with.  Units: meters and radians.  docs/methods/roof.md.
#pragma once

#include <optional>
#include <vector>

#include "stakewright/base/fact.hpp"
#include "stakewright/base/point.hpp"
#include "stakewright/base/tolerance.hpp"
#include "stakewright/layout/plan.hpp"
#include "stakewright/roof/found_corners.hpp"
#include "stakewright/roof/names.hpp"
#include "stakewright/roof/spec.hpp"

namespace stakewright::roof {

/// What the piece is cut to, judged against the part tolerance.
///
/// The pattern fits where |difference| + uncertainty stay within it: guarded acceptance, as
/// JCGM 106:2012 has it.  Where the difference alone does, the pattern is tried on the spot first.
enum class Fit { pattern, try_pattern, own };

/// A figure as planned and, with readings, as found.
struct Figure {
  double planned = 0.0;
  std::optional<double> found;
  std::optional<double> difference;  ///< found - planned
  /// Half-width at the job's confidence (expanded uncertainty): by the law of propagation of
  /// uncertainty, from the covariance of the corners.
  std::optional<double> uncertainty;
};

struct Part {
  PartKind kind = PartKind::hip;
  /// Hip, post: a corner; common, fascia, beam: a side; jack, blocking: "B-C left 2", numbered from
  /// the common outwards; hub: the peak.
  Place at;
  Figure line{};  ///< line length in meters; fascia: eave line, corner to corner.
  ///< Hub: peak down to the bottom of the commons' plumb cuts, the least that takes them all
  Fit fit = Fit::pattern;
  // Of the piece to be cut: its own where `fit` says so, else the pattern.
  double shortening_m = 0.0;  ///< what the hub or the neighbor's thickness takes off at the top
  double tail_m = 0.0;        ///< plate line to the tail cut, along the top edge
  double overall_m = 0.0;     ///< line - shortening + tail; fascia: long point to long point
  double stick_m = 0.0;       ///< shortest square-ended stick it comes out of
  double heel_m = 0.0;   ///< hip, common, jack: top edge above the plate, plumb, at the plate line
  double notch_m = 0.0;  ///< and the depth of the seat's notch, square to the edge
  double drop_m = 0.0;   ///< hip: how far it is let down, plumb, when it is not backed
  /// Common, jack: its middle on the plate, from the side's left corner.
  double from_corner_m = 0.0;

  [[nodiscard]] PartName name() const { return {kind, at}; }
};

/// How a cut is set out with a square and sawn.  docs/methods/roof.md says for
/// each cut on which face it is marked.
struct Setting {
  double square = 0.0;     ///< figure on one arm for 1 on the other; 8 for 12 is 0.667
  double miter_rad = 0.0;  ///< of the saw, from a square crosscut
  double bevel_rad = 0.0;  ///< tilt of the blade, from upright
  bool past_tilt = false;  ///< the bevel is past what common saws tilt, 45 degrees
  /// Where the bevel is past that: the line of the cut on the stick's other side, or on its
  /// middle line, stands this much further along, square to the line on the marked side.
  double set_back_m = 0.0;
};

struct Cut {
  PartKind part = PartKind::hip;
  Place at;  ///< as the part's; "C left", "B-C right" where the sides or ends differ
  CutName name = CutName::plumb;
  Figure angle{};        ///< radians
  double lever_m = 0.0;  ///< an error of the angle times this is what opens at the joint
  Fit fit = Fit::pattern;
  Setting setting{};  ///< of the piece to be cut: its own, or the pattern
};

/// The eave over one side.  A level eave changes the overhang, an even overhang the drop.
struct EaveSide {
  Place at;         ///< the side
  Figure overhang;  ///< level, plate line to fascia
  Figure drop;      ///< eave line below the plate line's own plane of the roof
};

/// One course of sheathing: a strip across a face, one panel wide.
struct Course {
  double up_m = 0.0;     ///< lower edge, up the slope from the eave line
  double lower_m = 0.0;  ///< length of its lower edge
  double upper_m = 0.0;  ///< and of its upper edge; 0 at the peak
};

/// The sheathing of one face: a triangle on the eave line.
struct Sheet {
  Place at;           ///< the side
  Figure base;        ///< along the eave line
  Figure height;      ///< up the slope, eave line to apex
  Figure left_edge;   ///< angle between eave line and hip, in the face, at the left corner
  Figure right_edge;  ///< and at the right one
  Fit fit = Fit::pattern;
  // Of the piece to be cut, as for a part.
  double area_m2 = 0.0;
  std::vector<Course> courses;  ///< from the eave up
  /// Strip along each hip, in the face, over which the sheathing has no bearing unless the hip is
  /// backed: a hip let down bears on its edges alone.
  double unborne_m = 0.0;
};

/// What opens when every piece is cut to the pattern and set to its marks: each stick by its
/// foot on the plate as found, boards by the middle of their side.
struct Joint {
  Place at;
  JointName what = JointName::hip_at_peak;
  double gap_m = 0.0;  ///< above 0 it stands open, below 0 the pieces are too long by so much
  double uncertainty_m = 0.0;  ///< half-width at the job's confidence
  bool closes = true;          ///< gap and uncertainty within the part tolerance
};

struct Apex {
  base::Point at;  ///< plan frame
  double height_m =
      0.0;  ///< above the plate, always pitch times planned flat radius of the plate line
};

struct Carry {
  Apex apex;
  std::vector<Part> parts;
  std::vector<Cut> cuts;
  std::vector<EaveSide> eaves;
  std::vector<Sheet> sheets;
  std::vector<Joint> joints;  ///< with found figures only
  std::vector<base::Fact> remarks;
};

/// The carry: planned only, or planned against found.
///
/// `plate_offset_m` is the plate line's distance outside the plan line.  Lengths are right to
/// 1e-7 mm and angles to 1e-5 degree on roofs up to 12 m across (`FoundRoof`, `PlannedRoof` in the
/// tests).  Uncertainties are to first order in the corners' errors: within 1 % of a simulation of
/// corners known to 3 mm (`Spread`).
/// Throws InputError for a spec that makes no roof; a found polygon that is not
/// convex or winds the wrong way is reported in `remarks`, without found figures.
Carry carry(const layout::Plan& plan, double plate_offset_m, const Spec& spec,
            const base::Tolerance& tolerance, const std::optional<FoundCorners>& found);

/// Length of the line that the piece to be cut is marked from: found where it is cut to its own,
/// else planned.  Line - shortening + tail = overall holds for this one.
double line_to_cut_m(const Part& part);

/// What to hold on the other arm of a framing square when `arm_m` is held on
/// one: arm times the tangent of the angle.  12 in and 250 mm are the usual arms.
double square_figure_m(double angle_rad, double arm_m);

/// Common saws tilt no further.  Common practice, no source.
inline constexpr double kCommonSawTilt_rad = 0.7853981633974483;  // 45 degrees

}  // namespace stakewright::roof

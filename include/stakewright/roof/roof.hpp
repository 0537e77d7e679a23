// The roof over a plate polygon, regular or not: its parts, its cuts, and what
// the corners' errors do to them.
//
// Worked from 3-D vectors; the formulas of the trade are what the tests compare
// with.  Units: meters and radians.  docs/methods/roof.md.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "stakewright/base/length.hpp"
#include "stakewright/base/matrix.hpp"
#include "stakewright/base/point.hpp"
#include "stakewright/base/tolerance.hpp"
#include "stakewright/layout/plan.hpp"

namespace stakewright::roof {

enum class ApexOver { placed_center, pin, even_hips };
enum class Tail { square, plumb };
enum class Eave { level, even };

/// `[roof]` of the job file.
struct Spec {
  double pitch = 0.5;        ///< rise over run of the commons
  double overhang_m = 0.0;   ///< level, plate line to the face the fascia sits on
  double rafter_m = 0.0381;  ///< thickness
  double rafter_depth_m = 0.1397;
  double hip_m = 0.0635;      ///< thickness; hips are as deep as the rafters
  double spacing_m = 0.4064;  ///< jacks, on center, from the common outwards
  double hub_m = 0.0;  ///< across flats of a hub, its faces square to the hips; 0: rafters meet
  double fascia_m = 0.01905;  ///< thickness
  /// Level bearing of a common's seat; 0: 3-1/2 in, or less where that is a third of the depth.
  double seat_m = 0.0;
  double shortest_jack_m = 0.1524;  ///< a jack shorter than this, cut, is left out
  double beam_m = 0.0889;           ///< thickness of the beams on the plate line
  double post_m = 0.1397;           ///< thickness of the posts under its corners
  double post_height_m = 0.0;  ///< underside of the beams above the highest footing; 0: no posts
  double course_m = 1.2192;    ///< width of a sheathing panel, up the slope
  double base_play_m = 0.0;    ///< how far a post may stand off its footing's center
  Tail tail = Tail::square;
  Eave eave = Eave::level;
  ApexOver apex_over = ApexOver::placed_center;
};

/// Tops of the footings, one a corner, above any one level.
struct Footings {
  std::vector<double> height_m;
  base::Matrix covariance;  ///< n x n
};

/// Corners as found, laid on the plan: in the plan's own frame.
struct FoundCorners {
  std::vector<base::Point> corners;  ///< plan-line corners, plan frame
  /// Of the corners, 2n x 2n; or (2n + 2) x (2n + 2) with the pin last.  Without
  /// the pin's rows the pin counts as exact, and a remark says so.
  base::Matrix covariance;
  std::optional<base::Point> pin;    ///< the center pin as found, plan frame, when measured
  std::optional<Footings> footings;  ///< when levels were read at every corner
};

enum class PartKind { hip, common, jack, blocking, fascia, beam, post, hub };

/// The trade's word: "hip", "common", "jack", "blocking", "fascia", "beam", "post", "hub".
std::string_view name_of(PartKind kind);

/// Whether the piece cut to the pattern fits (difference and uncertainty within
/// the part tolerance), or it must be cut to its own length or angle.
enum class Fit { pattern, own };

/// A figure as planned and, with readings, as found.
struct Figure {
  double planned = 0.0;
  std::optional<double> found;
  std::optional<double> difference;   ///< found - planned
  std::optional<double> uncertainty;  ///< half-width at the job's confidence
};

/// Left and right are those of somebody at the center who looks out: side B-C
/// has corner B on its left.
struct Part {
  PartKind kind = PartKind::hip;
  /// Hip, post: corner "C"; common, fascia, beam: side "B-C"; jack, blocking: "B-C left 2",
  /// numbered from the common outwards; hub: "peak".
  std::string at;
  Figure line;  ///< line length in meters; fascia: eave line, corner to corner.
  ///< Hub: peak down to the bottom of the commons' plumb cuts, the least that takes them all
  Fit fit = Fit::pattern;
  // Of the piece to be cut: the pattern where it fits, else its own.
  double shortening_m = 0.0;  ///< what the hub or the neighbor's thickness takes off at the top
  double tail_m = 0.0;        ///< plate line to the tail cut, along the top edge
  double overall_m = 0.0;     ///< line - shortening + tail; fascia: long point to long point
  double stick_m = 0.0;       ///< shortest square-ended stick it comes out of
  double heel_m = 0.0;   ///< hip, common, jack: top edge above the plate, plumb, at the plate line
  double notch_m = 0.0;  ///< and the depth of the seat's notch, square to the edge
  double drop_m = 0.0;   ///< hip: how far it is let down, plumb, when it is not backed
  double from_corner_m =
      0.0;  ///< common, jack: its middle on the plate, from the side's left corner
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
  std::string at;  ///< as the part's; "C left", "B-C right" where the sides or ends differ
  /// "plumb", "seat", "cheek", "backing", "tail", "tail bevel", "miter", "bevel", "rip".
  std::string name;
  Figure angle;          ///< radians
  double lever_m = 0.0;  ///< an error of the angle times this is what opens at the joint
  Fit fit = Fit::pattern;
  Setting setting;  ///< of the piece to be cut: the pattern where it fits, else its own
};

/// The eave over one side.  A level eave changes the overhang, an even overhang the drop.
struct EaveSide {
  std::string at;   ///< side "B-C"
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
  std::string at;     ///< side "B-C"
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
  std::string at;
  std::string what;    ///< "hip at the peak", "fascia corner, along the boards", ...
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
  std::vector<std::string> remarks;
};

/// The carry: planned only, or planned against found.
///
/// `plate_offset_m` is the plate line's distance outside the plan line.  Planned
/// figures are right to 1e-12 of their size; uncertainties are to first order in
/// the corners' errors.
/// Throws InputError for a spec that makes no roof; a found polygon that is not
/// convex or winds the wrong way is reported in `remarks`, without found figures.
Carry carry(const layout::Plan& plan, double plate_offset_m, const Spec& spec,
            const base::Tolerance& tolerance, const std::optional<FoundCorners>& found);

/// What keeps a spec from making a roof.
struct SpecFault {
  std::string key;       ///< of `[roof]`
  std::string read;      ///< its value
  std::string accepted;  ///< and what would be accepted
};

/// The first fault of a spec over a plate line, its lengths written in `units`; empty when it
/// makes a roof.
std::optional<SpecFault> fault_of(const Spec& spec, const layout::Polygon& plate,
                                  base::Units units);

/// Length of the line that the piece to be cut is marked from: planned where the pattern
/// fits, else found.  Line - shortening + tail = overall holds for this one.
double line_to_cut_m(const Part& part);

/// What to hold on the other arm of a framing square when `arm_m` is held on
/// one: arm times the tangent of the angle.  12 in and 250 mm are the usual arms.
double square_figure_m(double angle_rad, double arm_m);

/// Common saws tilt no further.  Common practice, no source.
inline constexpr double kCommonSawTilt_rad = 0.7853981633974483;  // 45 degrees

}  // namespace stakewright::roof

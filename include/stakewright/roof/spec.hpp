// What the job says of its roof: `[roof]`.
//
// Units: meters.  docs/file-formats.md.
#pragma once

#include <optional>
#include <string>

#include "stakewright/base/length.hpp"
#include "stakewright/layout/polygon.hpp"

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

}  // namespace stakewright::roof

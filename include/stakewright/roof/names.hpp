// What the pieces, cuts and joints of a roof are called, and where they are.
//
// Each has one text, made and read here only.
#pragma once

#include <array>
#include <compare>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "stakewright/base/fact.hpp"

namespace stakewright::roof {

enum class PartKind { hip, common, jack, blocking, fascia, beam, post, hub };

/// All of them, in working order.
inline constexpr std::array kPartKinds = {PartKind::hip,      PartKind::common, PartKind::jack,
                                          PartKind::blocking, PartKind::fascia, PartKind::beam,
                                          PartKind::post,     PartKind::hub};

enum class CutName { plumb, seat, cheek, backing, tail, tail_bevel, miter, bevel, rip };

enum class JointName {
  hip_at_peak,
  common_at_peak,
  jack_at_hip,
  hip_plumb,
  hip_seat,
  common_plumb,
  common_seat,
  hips_at_peak,
  fascia_along,
  fascia_across,
  fascia_over,
  fascia_step,
  beam_along,
  beam_across,
  sheathing_edge
};

/// The trade's word: "hip", "common", ...
std::string_view name_of(PartKind kind);
/// "plumb", "tail bevel", ...
std::string_view name_of(CutName name);
/// "hip at the peak", "fascia corner, along the boards", ...
std::string_view name_of(JointName name);

/// Left and right are those of somebody at the center who looks out: side B-C has corner B on its
/// left.
enum class Hand { none, left, right };

/// A place of the roof: the peak, a corner "C" or a side "B-C"; an end of a side or one hand of a
/// corner, "B-C left"; or one of the pieces numbered from the middle of a side outwards,
/// "B-C left 2".
struct Place {
  enum class Of { peak, corner, side };

  Of of = Of::peak;
  std::size_t corner = 0;  ///< the corner; of a side the left one
  std::size_t next = 0;    ///< of a side: the right one
  Hand hand = Hand::none;
  int number = 0;  ///< 0: not numbered

  static Place at_corner(std::size_t corner) { return {Of::corner, corner}; }
  /// The side from this corner to the next of so many.
  static Place at_side(std::size_t corner, std::size_t corners) {
    return {Of::side, corner, (corner + 1) % corners};
  }

  /// The same corner or side, at this hand; and there, so many pieces out.
  [[nodiscard]] Place on(Hand at, int pieces_out = 0) const {
    return {of, corner, next, at, pieces_out};
  }
  /// The corner or side without hand and number.
  [[nodiscard]] Place whole() const { return on(Hand::none); }

  friend auto operator<=>(const Place&, const Place&) = default;
};

/// "peak", "C", "C left", "B-C", "B-C left", "B-C left 2".
std::string text_from_place(const Place& place);

/// The place to be told.
base::Value place_of(const Place& place);

/// What `text_from_place` writes, with commas for spaces or a dash for the hyphen as well:
/// "B–C, left, 2".  Empty when a roof of so many sides has no such place.
std::optional<Place> place_from_text(std::string_view text, int sides);

/// One part of the roof, by name.
struct PartName {
  PartKind kind = PartKind::hip;
  Place at;

  friend bool operator==(const PartName&, const PartName&) = default;
};

/// "hip C", "jack B-C left 2".
std::string text_from_part(const PartName& part);

/// What `text_from_part` writes, tolerant as `place_from_text` is.
std::optional<PartName> part_from_text(std::string_view text, int sides);

}  // namespace stakewright::roof

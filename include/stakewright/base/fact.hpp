// What a module has to say: an id and typed values.  No sentence, no unit of display: a fact is
// told by `wording::Voice`, in one language and one unit, and by nobody else.
//
// Units: meters and radians.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace stakewright::base {

/// Key of a message in the catalogs of `field-forms`: a literal, such as "check.all_in".
class Id {
 public:
  consteval Id(const char* literal) : text_(literal) {}  // NOLINT: a literal is an id
  [[nodiscard]] constexpr std::string_view text() const { return text_; }
  friend constexpr bool operator==(Id a, Id b) { return a.text_ == b.text_; }

 private:
  std::string_view text_;
};

/// An empty cell.
struct Nothing {};

/// What somebody called something, or wrote: told as it stands, never looked up.
struct Name {
  std::string text;
};

/// What was read, for a message: told between quotes, control characters written out.
struct Quoted {
  std::string text;
};

/// A reading by the points it joins: A-C; of an angle turned at O: A-O-C.
struct ReadingName {
  std::vector<std::string> points;
  std::size_t which = 0;  ///< among repeats of one pair, from 0
  std::size_t of = 1;     ///< how many there are
};

/// To which step a length is told: as the tape shows it; a step finer, for errors; to whole feet
/// or decimeters, for a walk.
enum class Step { tape, fine, whole };

struct Length {
  double m = 0.0;
  Step step = Step::tape;
};

/// A length no better known than its standard deviation: told as coarsely, without its sign.
struct RoughLength {
  double m = 0.0;
  double sd_m = 0.0;
};

/// How an angle is told: 26.57°; a bearing, 184.3°; 60-00-20; 1 degree 10 minutes.
enum class AngleStyle { decimal, bearing, dms, words };

struct Angle {
  double rad = 0.0;
  AngleStyle style = AngleStyle::decimal;
};

/// An angle no better known than its standard deviation, told in words, without its sign.
struct RoughAngle {
  double rad = 0.0;
  double sd_rad = 0.0;
};

/// The two directions that a sign stands for.
enum class Way {
  outward,   ///< outward, inward
  sideways,  ///< clockwise, counterclockwise
  longer,    ///< longer, shorter: a piece
  reads,     ///< long, short: a reading
  large,     ///< large, small: an angle
  more,      ///< more, less
  high,      ///< high, low
  right,     ///< right, left
  forward,   ///< forward, back
  out,       ///< out, in: of a line
  open,      ///< open, too long: a joint
  pack,      ///< pack, cut; none: under a post
  added,     ///< added, taken off; next to nothing: a correction
  on_tape    ///< more, less; as it is: a reading against the true length
};

/// A signed size as a size and a direction; where it rounds to nothing the size alone, or the way's
/// own word for that.
struct Directed {
  Way way = Way::outward;
  std::variant<Length, Angle, RoughLength, RoughAngle> size;
};

/// Both ways in which a corner is off, without what rounds to nothing.
struct Offset {
  double outward_m = 0.0;
  double sideways_m = 0.0;
};

/// 0 to 1, told in whole percent: 97 %; over 99 %; under 1 %.
struct Chance {
  double value = 0.0;
};

/// A plain number with so many decimals; below 0: with what tells six digits.
struct Number {
  double value = 0.0;
  int decimals = 0;
};

/// So many of something: chooses between one and several where a message has both.
struct Count {
  std::size_t value = 0;
};

struct Area {
  double m2 = 0.0;
};

struct Volume {
  double m3 = 0.0;
};

struct Value;
struct Hole;

struct Fact {
  Id id;
  std::vector<Hole> holes{};

  /// The value of that name; null without one.
  [[nodiscard]] const Value* value(std::string_view name) const;
};

/// Values in a row.  Counts as many as it holds.
struct List {
  /// A, B and C; A, B or C; A, B, C; A with B; A, or B, or C.
  enum class Joint { all, any, listed, with, either };
  std::vector<Value> items;
  Joint joint = Joint::all;
};

using AnyValue =
    std::variant<Nothing, Name, Quoted, ReadingName, Length, RoughLength, Angle, RoughAngle,
                 Directed, Offset, Chance, Number, Count, Area, Volume, Fact, List>;

struct Value : AnyValue {
  using AnyValue::AnyValue;
};

/// A value under the name that the message has in braces.
struct Hole {
  std::string_view name;  ///< a literal
  Value value;
};

inline const Value* Fact::value(std::string_view name) const {
  for (const Hole& hole : holes) {
    if (hole.name == name) return &hole.value;
  }
  return nullptr;
}

/// Names in a row.
List names(const std::vector<std::string>& texts, List::Joint joint = List::Joint::all);

}  // namespace stakewright::base

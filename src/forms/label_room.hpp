// Finds room for labels on a drawing: none over another, none over a line.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "pen.hpp"
#include "plan_marks.hpp"
#include "stakewright/drawing/page.hpp"

namespace stakewright::forms {

struct Segment {
  drawing::At from;
  drawing::At to;
};

/// A label that found its place.
struct PlacedLabel {
  drawing::At baseline;  ///< of its middle
  std::string words;
  Style style;                    ///< anchored in the middle
  std::optional<Segment> leader;  ///< from the point to a label that stands far from it
};

/// Distance from a point to the middle of its label up to which nobody wonders whose label it is.
inline constexpr double kWithoutLeader_pt = 20.0;

class LabelRoom {
 public:
  explicit LabelRoom(const drawing::Box& frame) : frame_(frame) {}

  void keep_off(const Segment& line) { lines_.push_back(line); }
  void keep_off(const drawing::Box& box) { boxes_.push_back(box); }

  /// Places a label near a point, trying the directions in turn at each distance, nearest first,
  /// up to `reach_pt`; past `kWithoutLeader_pt` it is tied to its point by a leader.  The place
  /// found is kept clear from then on.
  std::optional<PlacedLabel> place(drawing::At point, const std::string& words, const Style& style,
                                   const std::vector<Direction>& directions, double reach_pt);

  /// Places a label close beside a line, on either hand, with nothing in between.
  std::optional<PlacedLabel> place_beside(const Segment& line, const std::string& words,
                                          const Style& style);

  static void draw(Pen& pen, const PlacedLabel& label);

 private:
  [[nodiscard]] bool is_free(const drawing::Box& box) const;
  [[nodiscard]] bool is_free(const Segment& leader) const;
  /// From off the point's mark to the edge of the label, if nothing is in the way.
  [[nodiscard]] std::optional<Segment> leader_to(drawing::At point, Direction direction,
                                                 double distance_pt,
                                                 const drawing::Box& label) const;
  [[nodiscard]] bool crosses_a_line(const Segment& sight) const;

  drawing::Box frame_;
  std::vector<Segment> lines_;
  std::vector<drawing::Box> boxes_;
};

/// The two thin lines of the baseline, on either side of it.
std::array<Segment, 2> rails(const Segment& line);

/// Whether two segments have a point in common, other than running along each other.
bool cross(const Segment& a, const Segment& b);

/// Whether any part of the segment lies in the box.
bool meets(const Segment& segment, const drawing::Box& box);

/// The part of the segment inside the box, if any.
std::optional<Segment> clipped(const Segment& segment, const drawing::Box& box);

}  // namespace stakewright::forms

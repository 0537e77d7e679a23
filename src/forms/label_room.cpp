#include "label_room.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace stakewright::forms {
namespace {

using drawing::At;
using drawing::Box;

/// White paper round every label.
constexpr double kClear_pt = 1.5;
/// Between the mark on a point and the leader that starts from it.
constexpr double kOffMark_pt = 1.0;
/// Longer names are cut.
constexpr double kWidest_pt = 90.0;
constexpr double kNearest_pt = 8.0;
constexpr double kStep_pt = 1.5;

Box grown(const Box& box, double by_pt) {
  return {box.x_pt - by_pt, box.y_pt - by_pt, box.width_pt + 2.0 * by_pt,
          box.height_pt + 2.0 * by_pt};
}

bool overlap(const Box& a, const Box& b) {
  return a.x_pt < b.right_pt() && b.x_pt < a.right_pt() && a.y_pt < b.bottom_pt() &&
         b.y_pt < a.bottom_pt();
}

bool contains(const Box& outer, const Box& inner) {
  return inner.x_pt >= outer.x_pt && inner.right_pt() <= outer.right_pt() &&
         inner.y_pt >= outer.y_pt && inner.bottom_pt() <= outer.bottom_pt();
}

At moved(At from, Direction direction, double by_pt) {
  return {from.x_pt + by_pt * direction.x, from.y_pt + by_pt * direction.y};
}

/// The white block that a label takes up.
class Block {
 public:
  Block(const std::string& words, const Style& style, double clear_pt)
      : words_(words), style_(style), clear_pt_(clear_pt) {
    style_.anchor = drawing::Anchor::middle;
    ink_ = inked_pt(words_, style_, kWidest_pt);
  }

  [[nodiscard]] Box around(At middle) const {
    return grown({middle.x_pt - ink_.width_pt / 2.0, middle.y_pt - ink_.height_pt / 2.0,
                  ink_.width_pt, ink_.height_pt},
                 clear_pt_);
  }

  [[nodiscard]] double half_width_along(Direction d) const {
    return std::abs(d.x) * (ink_.width_pt / 2.0 + clear_pt_) +
           std::abs(d.y) * (ink_.height_pt / 2.0 + clear_pt_);
  }

  [[nodiscard]] PlacedLabel placed(const Box& box, const std::optional<Segment>& leader) const {
    const At baseline{box.x_pt + clear_pt_ - ink_.x_pt, box.y_pt + clear_pt_ - ink_.y_pt};
    return {baseline, words_, style_, leader};
  }

 private:
  std::string words_;
  Style style_;
  double clear_pt_;
  Box ink_;  ///< with the baseline's middle at 0, 0
};

}  // namespace

void LabelRoom::draw(Pen& pen, const PlacedLabel& label) {
  pen.cut_text(label.baseline, kWidest_pt, label.words, label.style);
  if (label.leader) pen.line(label.leader->from, label.leader->to, kThin_pt);
}

std::optional<Segment> clipped(const Segment& segment, const Box& box) {
  // Liang and Barsky, ACM Transactions on Graphics 3 (1984): the share of the
  // segment that is inside all four edges.
  const double dx = segment.to.x_pt - segment.from.x_pt;
  const double dy = segment.to.y_pt - segment.from.y_pt;
  const std::array<std::array<double, 2>, 4> edges{{{-dx, segment.from.x_pt - box.x_pt},
                                                    {dx, box.right_pt() - segment.from.x_pt},
                                                    {-dy, segment.from.y_pt - box.y_pt},
                                                    {dy, box.bottom_pt() - segment.from.y_pt}}};
  double enters = 0.0;
  double leaves = 1.0;
  for (const auto& [slope, room] : edges) {
    if (slope == 0.0) {
      if (room < 0.0) return std::nullopt;
    } else if (slope < 0.0) {
      enters = std::max(enters, room / slope);
    } else {
      leaves = std::min(leaves, room / slope);
    }
  }
  if (enters > leaves) return std::nullopt;
  const auto at = [&](double share) {
    return At{segment.from.x_pt + share * dx, segment.from.y_pt + share * dy};
  };
  return Segment{at(enters), at(leaves)};
}

bool cross(const Segment& a, const Segment& b) {
  // Each segment has the ends of the other on opposite hands.
  const auto hand = [](const Segment& s, At p) {
    return (s.to.x_pt - s.from.x_pt) * (p.y_pt - s.from.y_pt) -
           (s.to.y_pt - s.from.y_pt) * (p.x_pt - s.from.x_pt);
  };
  return hand(a, b.from) * hand(a, b.to) < 0.0 && hand(b, a.from) * hand(b, a.to) < 0.0;
}

bool meets(const Segment& segment, const Box& box) { return clipped(segment, box).has_value(); }

bool LabelRoom::is_free(const Box& box) const {
  return contains(frame_, box) &&
         std::none_of(boxes_.begin(), boxes_.end(),
                      [&](const Box& other) { return overlap(box, other); }) &&
         std::none_of(lines_.begin(), lines_.end(),
                      [&](const Segment& line) { return meets(line, box); });
}

bool LabelRoom::is_free(const Segment& leader) const {
  return std::none_of(boxes_.begin(), boxes_.end(),
                      [&](const Box& box) { return meets(leader, box); });
}

std::optional<Segment> LabelRoom::leader_to(At point, Direction direction, double distance_pt,
                                            const Box& label) const {
  const Segment sight{point, moved(point, direction, distance_pt)};
  double start_pt = 0.0;  // where the sight leaves the mark on the point
  for (const Box& box : boxes_) {
    if (!contains(box, {point.x_pt, point.y_pt, 0.0, 0.0})) continue;
    const Segment inside = *clipped(sight, box);
    start_pt =
        std::max(start_pt, std::hypot(inside.to.x_pt - point.x_pt, inside.to.y_pt - point.y_pt));
  }
  const Segment leader{moved(point, direction, start_pt + kOffMark_pt),
                       clipped(sight, label)->from};
  return is_free(leader) ? std::optional(leader) : std::nullopt;
}

bool LabelRoom::crosses_a_line(const Segment& sight) const {
  return std::any_of(lines_.begin(), lines_.end(),
                     [&](const Segment& line) { return cross(sight, line); });
}

std::optional<PlacedLabel> LabelRoom::place(At point, const std::string& words, const Style& style,
                                            const std::vector<Direction>& directions,
                                            double reach_pt) {
  const Block block(words, style, kClear_pt);
  const int steps = static_cast<int>((reach_pt - kNearest_pt) / kStep_pt);
  for (int step = 0; step <= steps; ++step) {
    const double distance = kNearest_pt + step * kStep_pt;
    for (const Direction& direction : directions) {
      const Box box = block.around(moved(point, direction, distance));
      if (!is_free(box)) continue;
      std::optional<Segment> leader;
      if (distance > kWithoutLeader_pt) {
        leader = leader_to(point, direction, distance, box);
        if (!leader) continue;
      }
      boxes_.push_back(grown(box, kClear_pt));
      if (leader) lines_.push_back(*leader);
      return block.placed(box, leader);
    }
  }
  return std::nullopt;
}

std::optional<PlacedLabel> LabelRoom::place_beside(const Segment& line, const std::string& words,
                                                   const Style& style) {
  constexpr double kAside_pt = 3.0;
  constexpr int kMostStepsAside = 6;
  const Block block(words, style, kAside_pt);
  const double dx = line.to.x_pt - line.from.x_pt;
  const double dy = line.to.y_pt - line.from.y_pt;
  const double length = std::hypot(dx, dy);
  const Direction across{-dy / length, dx / length};
  // From the line to the middle of a box that just touches it.
  const double touching = block.half_width_along(across);
  for (const double share : {0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74}) {
    const At at{line.from.x_pt + share * dx, line.from.y_pt + share * dy};
    for (const Direction& direction : {across, Direction{-across.x, -across.y}}) {
      for (int step = 1; step <= kMostStepsAside; ++step) {
        const double off = step * kStep_pt;
        const At middle = moved(at, direction, touching + off);
        const Box box = block.around(middle);
        if (!is_free(box) || crosses_a_line({moved(at, direction, off), middle})) continue;
        boxes_.push_back(box);
        return block.placed(box, std::nullopt);
      }
    }
  }
  return std::nullopt;
}

std::array<Segment, 2> rails(const Segment& line) {
  const double length = std::hypot(line.to.x_pt - line.from.x_pt, line.to.y_pt - line.from.y_pt);
  const double x = length > 0.0 ? -(line.to.y_pt - line.from.y_pt) / length * kHalfGauge_pt : 0.0;
  const double y = length > 0.0 ? (line.to.x_pt - line.from.x_pt) / length * kHalfGauge_pt : 0.0;
  return {{{{line.from.x_pt + x, line.from.y_pt + y}, {line.to.x_pt + x, line.to.y_pt + y}},
           {{line.from.x_pt - x, line.from.y_pt - y}, {line.to.x_pt - x, line.to.y_pt - y}}}};
}

}  // namespace stakewright::forms

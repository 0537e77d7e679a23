#include "joints.hpp"

#include <cassert>
#include <cmath>
#include <string>
#include <utility>

#include "stick.hpp"

namespace stakewright::roof {
namespace {

/// Walks the bays and collects joints.
class Walk {
 public:
  Walk(const Roof& roof, const std::vector<Bay>& planned, const std::vector<Bay>& found,
       const Judge& judge)
      : roof_(roof), planned_(planned), found_(found), judge_(judge) {}

  std::vector<Joint> all() {
    for (std::size_t i = 0; i < planned_.size(); ++i) {
      rafters(i);
      peak(i);
      fascia(i);
      step(i);
      beams(i);
      sheets(i);
    }
    return std::move(joints_);
  }

 private:
  [[nodiscard]] std::size_t before(std::size_t i) const {
    return (i + planned_.size() - 1) % planned_.size();
  }

  [[nodiscard]] static Share share(std::size_t corner, const Linear& planned, const Linear& found,
                                   double lever) {
    return {corner, found, planned.value, lever};
  }

  void add(const std::string& at, const std::string& what, const std::vector<Share>& shares) {
    joints_.push_back(judge_.joint(at, what, shares));
  }

  /// Each stick stands on its plate: what it is short of shows at its upper end, and what its
  /// slope is off by, at the ends of its seat and plumb cuts.
  void rafters(std::size_t i) {
    const BayFigures& planned = planned_[i].exact;
    const BayFigures& found = found_[i].exact;
    for (std::size_t k = 0; k < planned_[i].parts.size(); ++k) {
      const BayPart& part = planned_[i].parts[k];
      const char* what = nullptr;
      if (part.part.kind == PartKind::hip) what = "hip at the peak";
      if (part.part.kind == PartKind::common) what = "common at the peak";
      if (part.part.kind == PartKind::jack) what = "jack at its hip";
      if (what != nullptr)
        add(part.part.at, what, {share(i, part.line, found_[i].parts[k].line, 1.0)});
    }
    ends(i, planned_[i].names.corner, "hip", planned.hip_slope, found.hip_slope);
    ends(i, planned_[i].names.side, "common", planned.common_slope, found.common_slope);
  }

  void ends(std::size_t i, const std::string& at, const std::string& stick, const Linear& planned,
            const Linear& found) {
    const double depth = roof_.spec.rafter_depth_m / std::cos(planned.value);
    add(at, stick + "'s plumb cut, from edge to edge", {share(i, planned, found, depth)});
    add(at, stick + "'s seat, from end to end",
        {share(i, planned, found, seat_length_m(roof_, planned.value))});
  }

  /// Two hips beside each other: both cheeks are off by the same angle, over half a hip's cheek.
  void peak(std::size_t i) {
    if (!roof_.hips_meet) return;
    const Linear& planned = planned_[i].exact.hip_miter.right;
    const double cheek = 0.5 * roof_.spec.hip_m / std::sin(planned.value);
    add(planned_[i].names.side, "hips beside each other at the peak",
        {share(i, planned, found_[i].exact.hip_miter.right, 2.0 * cheek)});
  }

  /// Two boards meet at a corner: half of what each is short of, and both miters and bevels.
  void fascia(std::size_t i) {
    const std::size_t b = before(i);
    const BayFigures& left = planned_[b].exact;
    const BayFigures& right = planned_[i].exact;
    const BayFigures& left_found = found_[b].exact;
    const BayFigures& right_found = found_[i].exact;
    const std::string& corner = planned_[i].names.corner;
    add(corner, "fascia corner, along the boards",
        {share(b, left.eave_line, left_found.eave_line, 0.5),
         share(i, right.eave_line, right_found.eave_line, 0.5)});
    const double thickness = roof_.spec.fascia_m;
    add(corner, "fascia corner, across the thickness",
        {share(b, left.fascia_bevel.right, left_found.fascia_bevel.right, thickness),
         share(i, right.fascia_bevel.left, right_found.fascia_bevel.left, thickness)});
    const double width = fascia_width_m(roof_, planned_[i].exact.common_slope.value);
    add(corner, "fascia corner, over the width",
        {share(b, left.fascia_miter.right, left_found.fascia_miter.right, width),
         share(i, right.fascia_miter.left, right_found.fascia_miter.left, width)});
  }

  /// With even overhangs each eave has its own drop: the boards do not meet at one height.
  void step(std::size_t i) {
    if (roof_.spec.eave == Eave::level) return;
    const std::size_t b = before(i);
    add(planned_[i].names.corner, "fascia corner, step",
        {share(b, planned_[b].exact.drop, found_[b].exact.drop, -1.0),
         share(i, planned_[i].exact.drop, found_[i].exact.drop, 1.0)});
  }

  void beams(std::size_t i) {
    const std::size_t b = before(i);
    const BayFigures& right = planned_[i].exact;
    const BayFigures& right_found = found_[i].exact;
    const std::string& corner = planned_[i].names.corner;
    add(corner, "beam corner, along the beams",
        {share(b, planned_[b].exact.side, found_[b].exact.side, 0.5),
         share(i, right.side, right_found.side, 0.5)});
    const double miter = roof_.spec.beam_m / std::cos(right.half_turn.left.value);
    add(corner, "beam corner, across the thickness",
        {share(i, right.half_turn.left, right_found.half_turn.left, 2.0 * miter)});
  }

  /// A sheet set by its lower corner: its edge runs off the middle of the hip toward the peak.
  void sheets(std::size_t i) {
    const std::size_t b = before(i);
    const auto edge = [this, i](const std::string& hand, std::size_t bay, const Linear& planned,
                                const Linear& found) {
      const double length = planned_[bay].exact.sheet_height.value / std::sin(planned.value);
      add(planned_[i].names.corner + hand, "sheathing edge at the peak",
          {share(bay, planned, found, length)});
    };
    edge(" left", b, planned_[b].exact.sheet_edge.right, found_[b].exact.sheet_edge.right);
    edge(" right", i, planned_[i].exact.sheet_edge.left, found_[i].exact.sheet_edge.left);
  }

  const Roof& roof_;
  const std::vector<Bay>& planned_;
  const std::vector<Bay>& found_;
  const Judge& judge_;
  std::vector<Joint> joints_;
};

}  // namespace

std::vector<Joint> joints(const Roof& roof, const std::vector<Bay>& planned,
                          const std::vector<Bay>& found, const Judge& judge) {
  assert(planned.size() == found.size());
  return Walk(roof, planned, found, judge).all();
}

}  // namespace stakewright::roof

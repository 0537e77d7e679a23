#include "judge.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

#include "spread.hpp"
#include "stakewright/algebra/algebra.hpp"
#include "stick.hpp"

namespace stakewright::roof {

Judge::Judge(const base::Tolerance& tolerance, const Found* found)
    : part_tolerance_m_(tolerance.part_m),
      factor_(found == nullptr ? 0.0 : half_width_factor(tolerance.confidence)),
      found_(found) {}

Figure Judge::figure(const Linear& planned, const Linear& found, std::size_t corner) const {
  if (!has_found()) return {planned.value, {}, {}, {}};
  const auto rows = window_rows(corner, found_->plate.corners.size());
  return figure(planned.value, found.value, variance(found, rows, found_->covariance));
}

Figure Judge::figure(double planned, double found, double variance) const {
  // Rounding may leave a variance of nothing a shade below it.
  return {planned, found, found - planned, factor_ * std::sqrt(std::max(0.0, variance))};
}

Fit Judge::fit(const Figure& figure, double lever) const {
  if (!figure.found) return Fit::pattern;
  const double off_m = std::abs(*figure.difference) * lever;
  if (off_m > part_tolerance_m_) return Fit::own;
  const bool surely = off_m + *figure.uncertainty * lever <= part_tolerance_m_;
  return surely ? Fit::pattern : Fit::try_pattern;
}

Joint Judge::joint(const Place& at, JointName what, const std::vector<Share>& shares) const {
  assert(has_found());
  Joint joint{at, what};
  std::vector<double> gradient(found_->covariance.rows, 0.0);
  for (const auto& share : shares) {
    joint.gap_m += share.lever * (share.found.value - share.planned);
    const auto rows = window_rows(share.corner, found_->plate.corners.size());
    for (std::size_t k = 0; k < rows.size(); ++k)
      gradient[rows[k]] += share.lever * share.found.by[k];
  }
  joint.uncertainty_m =
      factor_ * std::sqrt(std::max(0.0, algebra::variance(gradient, found_->covariance)));
  joint.closes = std::abs(joint.gap_m) + joint.uncertainty_m <= part_tolerance_m_;
  return joint;
}

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

  void add(const Place& at, JointName what, const std::vector<Share>& shares) {
    joints_.push_back(judge_.joint(at, what, shares));
  }

  /// Each stick stands on its plate: what it is short of shows at its upper end, and what its
  /// slope is off by, at the ends of its seat and plumb cuts.
  void rafters(std::size_t i) {
    const BayFigures& planned = planned_[i].exact;
    const BayFigures& found = found_[i].exact;
    for (std::size_t k = 0; k < planned_[i].parts.size(); ++k) {
      const BayPart& part = planned_[i].parts[k];
      std::optional<JointName> what;
      if (part.part.kind == PartKind::hip) what = JointName::hip_at_peak;
      if (part.part.kind == PartKind::common) what = JointName::common_at_peak;
      if (part.part.kind == PartKind::jack) what = JointName::jack_at_hip;
      if (what) add(part.part.at, *what, {share(i, part.line, found_[i].parts[k].line, 1.0)});
    }
    const auto ends = [&](const Place& at, JointName plumb, JointName seat, const Linear& slope,
                          const Linear& as_found) {
      const double depth = roof_.spec.rafter_depth_m / std::cos(slope.value);
      add(at, plumb, {share(i, slope, as_found, depth)});
      add(at, seat, {share(i, slope, as_found, seat_length_m(roof_, slope.value))});
    };
    ends(planned_[i].corner, JointName::hip_plumb, JointName::hip_seat, planned.hip_slope,
         found.hip_slope);
    ends(planned_[i].side, JointName::common_plumb, JointName::common_seat, planned.common_slope,
         found.common_slope);
  }

  /// Two hips beside each other: both cheeks are off by the same angle, over half a hip's cheek.
  void peak(std::size_t i) {
    if (!roof_.hips_meet) return;
    const Linear& planned = planned_[i].exact.hip_miter.right;
    const double cheek = 0.5 * roof_.spec.hip_m / std::sin(planned.value);
    add(planned_[i].side, JointName::hips_at_peak,
        {share(i, planned, found_[i].exact.hip_miter.right, 2.0 * cheek)});
  }

  /// Two boards meet at a corner: half of what each is short of, and both miters and bevels.
  void fascia(std::size_t i) {
    const std::size_t b = before(i);
    const BayFigures& left = planned_[b].exact;
    const BayFigures& right = planned_[i].exact;
    const BayFigures& left_found = found_[b].exact;
    const BayFigures& right_found = found_[i].exact;
    const Place corner = planned_[i].corner;
    add(corner, JointName::fascia_along,
        {share(b, left.eave_line, left_found.eave_line, 0.5),
         share(i, right.eave_line, right_found.eave_line, 0.5)});
    const double thickness = roof_.spec.fascia_m;
    add(corner, JointName::fascia_across,
        {share(b, left.fascia_bevel.right, left_found.fascia_bevel.right, thickness),
         share(i, right.fascia_bevel.left, right_found.fascia_bevel.left, thickness)});
    const double width = fascia_width_m(roof_, planned_[i].exact.common_slope.value);
    add(corner, JointName::fascia_over,
        {share(b, left.fascia_miter.right, left_found.fascia_miter.right, width),
         share(i, right.fascia_miter.left, right_found.fascia_miter.left, width)});
  }

  /// With even overhangs each eave has its own drop: the boards do not meet at one height.
  void step(std::size_t i) {
    if (roof_.spec.eave == Eave::level) return;
    const std::size_t b = before(i);
    add(planned_[i].corner, JointName::fascia_step,
        {share(b, planned_[b].exact.drop, found_[b].exact.drop, -1.0),
         share(i, planned_[i].exact.drop, found_[i].exact.drop, 1.0)});
  }

  void beams(std::size_t i) {
    const std::size_t b = before(i);
    const BayFigures& right = planned_[i].exact;
    const BayFigures& right_found = found_[i].exact;
    const Place corner = planned_[i].corner;
    add(corner, JointName::beam_along,
        {share(b, planned_[b].exact.side, found_[b].exact.side, 0.5),
         share(i, right.side, right_found.side, 0.5)});
    const double miter = roof_.spec.beam_m / std::cos(right.half_turn.left.value);
    add(corner, JointName::beam_across,
        {share(i, right.half_turn.left, right_found.half_turn.left, 2.0 * miter)});
  }

  /// A sheet set by its lower corner: its edge runs off the middle of the hip toward the peak.
  void sheets(std::size_t i) {
    const std::size_t b = before(i);
    const auto edge = [this, i](Hand hand, std::size_t bay, const Linear& planned,
                                const Linear& found) {
      const double length = planned_[bay].exact.sheet_height.value / std::sin(planned.value);
      add(planned_[i].corner.on(hand), JointName::sheathing_edge,
          {share(bay, planned, found, length)});
    };
    edge(Hand::left, b, planned_[b].exact.sheet_edge.right, found_[b].exact.sheet_edge.right);
    edge(Hand::right, i, planned_[i].exact.sheet_edge.left, found_[i].exact.sheet_edge.left);
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

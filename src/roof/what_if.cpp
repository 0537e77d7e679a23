#include "stakewright/roof/what_if.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <limits>

namespace stakewright::roof {
namespace {

/// The laying of the plan is settled when no post moves by more: well under a pencil line.
constexpr double kSettled_m = 1e-9;
constexpr int kMostLayings = 10000;

double doubt_m(const Part& part) {
  return std::abs(*part.line.difference) + *part.line.uncertainty;
}
double doubt_m(const Joint& joint) { return std::abs(joint.gap_m) + joint.uncertainty_m; }

/// The worst that a way may bring; without end where nothing was found.
double worst_m(const Outcome& outcome) {
  if (!outcome.worst_part) return std::numeric_limits<double>::infinity();
  const double part_m = doubt_m(*outcome.worst_part);
  return outcome.worst_joint ? std::max(part_m, doubt_m(*outcome.worst_joint)) : part_m;
}

/// A laying of the plan: turned about its center, then shifted.
struct Laying {
  base::Point center;  ///< of the plan
  base::Point shift;
  double cosine = 1.0;  ///< of the turn, counterclockwise
  double sine = 0.0;

  [[nodiscard]] base::Point turned(base::Point v) const {
    return {cosine * v.x_m - sine * v.y_m, sine * v.x_m + cosine * v.y_m};
  }
  [[nodiscard]] base::Point turned_back(base::Point v) const {
    return {cosine * v.x_m + sine * v.y_m, -sine * v.x_m + cosine * v.y_m};
  }
  [[nodiscard]] base::Point place(base::Point planned) const {
    return center + shift + turned(planned - center);
  }
  [[nodiscard]] base::Point plan_place(base::Point on_site) const {
    return center + turned_back(on_site - center - shift);
  }
};

/// Least squares of the plan over the posts: means on means, and the turn whose tangent is the
/// sum of cross products over the sum of dot products.
Laying laid_on(const std::vector<base::Point>& planned, base::Point center,
               const std::vector<base::Point>& posts) {
  base::Point mean;
  for (const auto& post : posts) mean = mean + post;
  mean = (1.0 / static_cast<double>(posts.size())) * mean;
  double along = 0.0;
  double across = 0.0;
  for (std::size_t i = 0; i < posts.size(); ++i) {
    const base::Point arm = planned[i] - center;
    const base::Point post = posts[i] - mean;
    along += base::dot(arm, post);
    across += base::dot(base::clockwise(post), arm);
  }
  const double length = std::hypot(along, across);
  return {center, mean - center, along / length, across / length};
}

/// From the footing toward where the post is wanted, as far as the play lets it.
base::Point within_play(base::Point footing, base::Point wanted, double play_m) {
  const double off = base::distance_m(footing, wanted);
  return off <= play_m ? wanted : footing + (play_m / off) * (wanted - footing);
}

/// The covariance seen in the frame of the plan as it is laid now.
base::Matrix turned_back(const base::Matrix& covariance, const Laying& laying) {
  base::Matrix result(covariance.rows, covariance.cols);
  const std::array<std::array<double, 2>, 2> turn = {
      {{laying.cosine, laying.sine}, {-laying.sine, laying.cosine}}};
  for (std::size_t i = 0; i < covariance.rows; ++i)
    for (std::size_t j = 0; j < covariance.cols; ++j)
      for (std::size_t k = 0; k < 2; ++k)
        for (std::size_t l = 0; l < 2; ++l)
          result(i, j) +=
              turn[i % 2][k] * covariance(i - i % 2 + k, j - j % 2 + l) * turn[j % 2][l];
  return result;
}

}  // namespace

Outcome outcome(const Carry& carry) {
  Outcome result;
  for (const auto& part : carry.parts) {
    if (part.kind == PartKind::blocking) continue;
    ++result.parts;
    if (part.fit != Fit::pattern) ++result.own_parts;
    if (!part.line.found) continue;
    if (!result.worst_part || doubt_m(part) > doubt_m(*result.worst_part)) result.worst_part = part;
  }
  for (const auto& cut : carry.cuts)
    if (cut.fit != Fit::pattern && cut.part != PartKind::blocking) ++result.own_cuts;
  for (const auto& joint : carry.joints) {
    if (!joint.closes) ++result.open_joints;
    if (!result.worst_joint || doubt_m(joint) > doubt_m(*result.worst_joint))
      result.worst_joint = joint;
  }
  return result;
}

bool all_to_pattern(const Outcome& outcome) {
  return outcome.own_parts + outcome.own_cuts + outcome.open_joints == 0;
}

std::size_t least_work_that_serves(const std::vector<Outcome>& ways, double part_tolerance_m) {
  double best_m = std::numeric_limits<double>::infinity();
  for (const auto& way : ways) best_m = std::min(best_m, worst_m(way));
  for (std::size_t i = 0; i < ways.size(); ++i)
    if (std::isfinite(best_m) && worst_m(ways[i]) <= best_m + part_tolerance_m) return i;
  return 0;
}

FoundCorners after_moves(const layout::Plan& plan, const FoundCorners& found,
                         const std::vector<placement::Move>& moves, double set_sd_m) {
  const auto planned = layout::corners_of(plan.polygon, plan);
  FoundCorners result = found;
  for (const auto& move : moves) {
    assert(move.corner < planned.size());
    result.corners[move.corner] = planned[move.corner];
    for (const std::size_t row : {2 * move.corner, 2 * move.corner + 1}) {
      for (std::size_t k = 0; k < result.covariance.cols; ++k)
        result.covariance(row, k) = result.covariance(k, row) = 0.0;
      result.covariance(row, row) = set_sd_m * set_sd_m;
    }
  }
  return result;
}

BasePlay with_base_play(const layout::Plan& plan, const FoundCorners& found, double play_m) {
  const auto planned = layout::corners_of(plan.polygon, plan);
  std::vector<base::Point> posts = found.corners;
  Laying laying = laid_on(planned, plan.center, posts);
  // Posts to the plan, plan to the posts: each step leaves less between them, never more.
  for (int step = 0; step < kMostLayings; ++step) {
    double moved = 0.0;
    for (std::size_t i = 0; i < posts.size(); ++i) {
      const base::Point next = within_play(found.corners[i], laying.place(planned[i]), play_m);
      moved = std::max(moved, base::distance_m(posts[i], next));
      posts[i] = next;
    }
    if (moved < kSettled_m) break;
    laying = laid_on(planned, plan.center, posts);
  }
  BasePlay result{found, {}};
  for (std::size_t i = 0; i < posts.size(); ++i) {
    const base::Point off = posts[i] - found.corners[i];
    const base::Point radius = planned[i] - plan.center;
    const base::Point outward = (1.0 / base::norm_m(radius)) * radius;
    result.off.push_back(
        {base::dot(off, outward), base::dot(off, base::clockwise(outward)), base::norm_m(off)});
    result.corners.corners[i] = laying.plan_place(posts[i]);
  }
  if (found.pin) result.corners.pin = laying.plan_place(*found.pin);
  result.corners.covariance = turned_back(found.covariance, laying);
  return result;
}

}  // namespace stakewright::roof

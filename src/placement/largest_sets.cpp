#include "largest_sets.hpp"

#include <algorithm>
#include <bit>
#include <cassert>
#include <cmath>
#include <numbers>
#include <tuple>
#include <unordered_set>

#include "stakewright/base/promise.hpp"

namespace stakewright::placement {
namespace {

using base::Point;

// Points this close outside count as on the circle: rounding of differences of a few meters.
constexpr double kOnRim_m = 1e-14;

bool outside(const Circle& circle, Point point) {
  return base::distance_m(circle.center, point) > circle.radius_m + kOnRim_m;
}

Circle across(std::span<const Point> points, std::size_t i, std::size_t j) {
  const Point center = 0.5 * (points[i] + points[j]);
  return {center, 0.5 * base::distance_m(points[i], points[j]), {i, j}, 2};
}

// Circle through three points.  Where they are all but in line (rounding), the widest
// circle across two of them.
Circle through(std::span<const Point> points, std::size_t i, std::size_t j, std::size_t k) {
  const Point b = points[j] - points[i];
  const Point c = points[k] - points[i];
  const double twice_area = 2.0 * base::dot(base::clockwise(c), b);
  const Point to_center = (1.0 / twice_area) * (base::dot(b, b) * base::clockwise(c) -
                                                base::dot(c, c) * base::clockwise(b));
  const double radius_m = base::norm_m(to_center);
  const double span_m = base::norm_m(b) + base::norm_m(c);
  constexpr double kFlattest = 1e8;
  if (twice_area == 0.0 || !(radius_m < kFlattest * span_m)) {
    return std::max({across(points, i, j), across(points, i, k), across(points, j, k)},
                    [](const Circle& a, const Circle& d) { return a.radius_m < d.radius_m; });
  }
  return {points[i] + to_center, radius_m, {i, j, k}, 3};
}

// Smallest circle around the first `count` points of `order` with `i` and `j` on its rim.
Circle with_two(std::span<const Point> points, const std::vector<std::size_t>& order,
                std::size_t count, std::size_t i, std::size_t j) {
  Circle circle = across(points, i, j);
  for (std::size_t c = 0; c < count; ++c) {
    if (outside(circle, points[order[c]])) circle = through(points, i, j, order[c]);
  }
  return circle;
}

Circle with_one(std::span<const Point> points, const std::vector<std::size_t>& order,
                std::size_t count, std::size_t i) {
  Circle circle{points[i], 0.0, {i}, 1};
  for (std::size_t b = 0; b < count; ++b) {
    if (outside(circle, points[order[b]])) circle = with_two(points, order, b, i, order[b]);
  }
  return circle;
}

}  // namespace

Circle smallest_circle(std::span<const Point> points, std::vector<std::size_t>& order) {
  assert(!points.empty() && order.size() == points.size());
  Circle circle{points[order[0]], 0.0, {order[0]}, 1};
  for (std::size_t a = 1; a < order.size(); ++a) {
    if (outside(circle, points[order[a]])) circle = with_one(points, order, a, order[a]);
  }
  for (std::size_t r = 0; r < circle.rim_count; ++r) {
    const auto place = std::find(order.begin(), order.end(), circle.rim[r]);
    std::rotate(order.begin(), place, place + 1);
  }
  return circle;
}

namespace {

// Turns are searched to this: over tens of meters still below `kOnLimit_m`.
constexpr double kTurnStep_rad = 1e-11;

// The rims either side of the best turn are taken this far off: over the site's width still
// less than `kOnLimit_m`, and far enough for rounding not to hide one of them.
constexpr double kEitherSide_rad = 1e-10;

Point turned(Point point, double cosine, double sine) {
  return cosine * point + sine * base::clockwise(point);
}

// The best turn of one pair, and by how much it may be missed.  From
// |q - Rp|² = (|q| - |p|)² + 4|p||q|sin²(half the turn missed), the two deviations
// cannot both be within tolerance once |q - Rp| is above `reach_m`.
Pair pair_of(const Question& question, std::size_t i, std::size_t j, double reach_m) {
  const Point p = question.planned[j] - question.planned[i];
  const Point q = question.found[j] - question.found[i];
  const double mean_m = std::sqrt(base::norm_m(p) * base::norm_m(q));
  const double half_sine = mean_m > 0.0 ? reach_m / (2.0 * mean_m) : 1.0;
  return {i, j, std::atan2(base::dot(q, base::clockwise(p)), base::dot(q, p)),
          2.0 * std::asin(std::min(1.0, half_sine))};
}

bool clash(const Question& question, std::size_t i, std::size_t j, double reach_m) {
  const double planned_m = base::distance_m(question.planned[i], question.planned[j]);
  const double found_m = base::distance_m(question.found[i], question.found[j]);
  return std::abs(found_m - planned_m) > reach_m;
}

// The figures of one set, laid at one turn.
class Laying {
 public:
  Laying(const Question& question, Mask set) : question_(question), members_(set_of(set)) {
    points_.resize(members_.size());
    order_.resize(members_.size());
    for (std::size_t m = 0; m < order_.size(); ++m) order_[m] = m;
    const auto pivot = question.pivot ? std::find(members_.begin(), members_.end(), *question.pivot)
                                      : members_.end();
    if (pivot != members_.end()) pivot_ = static_cast<std::size_t>(pivot - members_.begin());
  }

  // The best circle of deviations at this turn; its center is the shift.
  Circle at(double turn_rad) {
    const double cosine = std::cos(turn_rad);
    const double sine = std::sin(turn_rad);
    for (std::size_t m = 0; m < members_.size(); ++m) {
      const std::size_t corner = members_[m];
      points_[m] = question_.found[corner] - turned(question_.planned[corner], cosine, sine);
    }
    return pivot_ ? around_pivot() : smallest_circle(points_, order_);
  }

  [[nodiscard]] Mask rim_of(const Circle& circle) const {
    Mask mask = 0;
    for (std::size_t r = 0; r < circle.rim_count; ++r) {
      mask |= Mask{1} << members_[circle.rim[r]];
    }
    return mask;
  }

 private:
  Circle around_pivot() {
    Circle circle{points_[*pivot_], 0.0, {*pivot_}, 1};
    for (std::size_t m = 0; m < points_.size(); ++m) {
      const double off_m = base::distance_m(points_[m], circle.center);
      if (off_m <= circle.radius_m) continue;
      circle.radius_m = off_m;
      circle.rim = {*pivot_, m};
      circle.rim_count = 2;
    }
    return circle;
  }

  const Question& question_;
  Set members_;
  std::optional<std::size_t> pivot_;
  std::vector<Point> points_;
  std::vector<std::size_t> order_;
};

const Pair* longest_pair(const Ground& ground, Mask set) {
  for (const Pair& pair : ground.pairs) {
    const Mask both = Mask{1} << pair.i | Mask{1} << pair.j;
    if ((set & both) == both) return &pair;
  }
  return nullptr;
}

// Where the best turn lies, and two turns between with their circles.
struct Bracket {
  double low_rad = 0.0;
  double high_rad = 0.0;
  double left_rad = 0.0;
  double right_rad = 0.0;
  Circle left;
  Circle right;

  [[nodiscard]] bool left_better() const { return left.radius_m < right.radius_m; }
};

Bracket narrowed(Laying& laying, double low_rad, double high_rad, double enough_m) {
  constexpr double kGolden = std::numbers::phi - 1.0;
  Bracket b{low_rad,
            high_rad,
            high_rad - kGolden * (high_rad - low_rad),
            low_rad + kGolden * (high_rad - low_rad),
            {},
            {}};
  b.left = laying.at(b.left_rad);
  b.right = laying.at(b.right_rad);
  while (b.high_rad - b.low_rad > kTurnStep_rad &&
         std::min(b.left.radius_m, b.right.radius_m) > enough_m) {
    if (b.left_better()) {
      b.high_rad = b.right_rad;
      b.right_rad = b.left_rad;
      b.right = b.left;
      b.left_rad = b.high_rad - kGolden * (b.high_rad - b.low_rad);
      b.left = laying.at(b.left_rad);
    } else {
      b.low_rad = b.left_rad;
      b.left_rad = b.right_rad;
      b.left = b.right;
      b.right_rad = b.low_rad + kGolden * (b.high_rad - b.low_rad);
      b.right = laying.at(b.right_rad);
    }
  }
  return b;
}

}  // namespace

Mask mask_of(const Set& set) {
  Mask mask = 0;
  for (const std::size_t corner : set) mask |= Mask{1} << corner;
  return mask;
}

Set set_of(Mask mask) {
  Set set;
  for (std::size_t corner = 0; mask != 0; ++corner, mask >>= 1U) {
    if ((mask & 1U) != 0U) set.push_back(corner);
  }
  return set;
}

Ground ground_of(const Question& question) {
  Ground ground{question, question.planned.front(), question.found.front(), {}, {}};
  Question& moved = ground.question;
  for (Point& point : moved.planned) point = point - ground.planned_origin;
  for (Point& point : moved.found) point = point - ground.found_origin;
  const std::size_t n = moved.planned.size();
  ground.clashes.assign(n, 0);
  const double reach_m =
      (question.pivot ? question.tolerance_m : 2.0 * question.tolerance_m) + kOnLimit_m;
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = i + 1; j < n; ++j) {
      if (question.pivot && i != *question.pivot && j != *question.pivot) continue;
      ground.pairs.push_back(pair_of(moved, i, j, reach_m));
      if (!clash(moved, i, j, reach_m)) continue;
      ground.clashes[i] |= Mask{1} << j;
      ground.clashes[j] |= Mask{1} << i;
    }
  }
  std::stable_sort(ground.pairs.begin(), ground.pairs.end(),
                   [](const Pair& a, const Pair& b) { return a.slack_rad < b.slack_rad; });
  return ground;
}

// Golden-section search over the turn.  At a stationary turn the largest deviation is within
// a factor cos(half the bracket) of the smallest there is: docs/methods/placement.md.
Closest closest(const Ground& ground, Mask set, double enough_m) {
  assert(set != 0);
  Laying laying(ground.question, set);
  const Pair* pair = longest_pair(ground, set);
  if (pair == nullptr) {
    const Circle circle = laying.at(0.0);
    return {0.0, circle.center, circle.radius_m, set};
  }
  const double first_rad = pair->turn_rad - pair->slack_rad;
  const double last_rad = pair->turn_rad + pair->slack_rad;
  const Bracket found = narrowed(laying, first_rad, last_rad, enough_m);
  const Circle& best = found.left_better() ? found.left : found.right;
  Closest result{found.left_better() ? found.left_rad : found.right_rad, best.center, best.radius_m,
                 0};
  if (best.radius_m <= enough_m) return result;
  // Turned further either way, these alone are as far off.
  result.witness = laying.rim_of(laying.at(found.low_rad - kEitherSide_rad)) |
                   laying.rim_of(laying.at(found.high_rad + kEitherSide_rad));
  if (found.low_rad == first_rad || found.high_rad == last_rad) {
    result.witness |= Mask{1} << pair->i | Mask{1} << pair->j;
  }
  return result;
}

namespace {

// Above `kExactCorners`: sets looked at in one level, the most promising ones.
constexpr std::size_t kWidest = 24;

std::size_t size_of(Mask set) { return static_cast<std::size_t>(std::popcount(set)); }

// A set of corners, looked at.
struct Judged {
  Mask set = 0;
  bool fits = false;
  Mask witness = 0;         // corners of which at least one must go; 0 when it fits
  std::size_t clashes = 0;  // pairs that can never go together
  double worst_m = 0.0;
};

// Two corners of the set that can never go together: of those with most clashes.
Mask worst_clash(const Ground& ground, Mask set, std::size_t& clashes) {
  const Set members = set_of(set);
  const auto number = [&](std::size_t corner) { return size_of(ground.clashes[corner] & set); };
  const auto fewer = [&](std::size_t a, std::size_t b) { return number(a) < number(b); };
  for (const std::size_t corner : members) clashes += number(corner);
  const std::size_t first = *std::max_element(members.begin(), members.end(), fewer);
  const Set partners = set_of(ground.clashes[first] & set);
  if (partners.empty()) return 0;
  const std::size_t second = *std::max_element(partners.begin(), partners.end(), fewer);
  return Mask{1} << first | Mask{1} << second;
}

Judged judge(const Ground& ground, Mask set) {
  Judged judged{set};
  judged.witness = worst_clash(ground, set, judged.clashes);
  if (judged.witness == 0) {
    const double enough_m = ground.question.tolerance_m + kOnLimit_m;
    const Closest best = closest(ground, set, enough_m);
    judged.fits = best.worst_m <= enough_m;
    judged.worst_m = best.worst_m;
    judged.witness = best.witness;
  }
  if (ground.question.pivot) judged.witness &= ~(Mask{1} << *ground.question.pivot);
  return judged;
}

// One level down: every set less one corner of its witness.
std::vector<Mask> less_one(const std::vector<Judged>& level) {
  std::unordered_set<Mask> seen;
  std::vector<Mask> next;
  for (const Judged& judged : level) {
    for (const std::size_t corner : set_of(judged.witness)) {
      const Mask set = judged.set & ~(Mask{1} << corner);
      if (seen.insert(set).second) next.push_back(set);
    }
  }
  return next;
}

void keep_most_promising(std::vector<Judged>& level) {
  const auto better = [](const Judged& a, const Judged& b) {
    return std::tie(a.clashes, a.worst_m, a.set) < std::tie(b.clashes, b.worst_m, b.set);
  };
  std::sort(level.begin(), level.end(), better);
  level.resize(kWidest);
}

// The plan laid on one pair, and every corner that is then within tolerance.
Mask within_on_pair(const Ground& ground, const Pair& pair) {
  const Question& question = ground.question;
  const double cosine = std::cos(pair.turn_rad);
  const double sine = std::sin(pair.turn_rad);
  const auto difference = [&](std::size_t corner) {
    const base::Point p = question.planned[corner];
    return question.found[corner] - (cosine * p + sine * base::clockwise(p));
  };
  const base::Point shift = question.pivot ? difference(*question.pivot)
                                           : 0.5 * (difference(pair.i) + difference(pair.j));
  Mask within = 0;
  for (std::size_t corner = 0; corner < question.planned.size(); ++corner) {
    const double off_m = base::distance_m(difference(corner), shift);
    if (off_m <= question.tolerance_m + kOnLimit_m) within |= Mask{1} << corner;
  }
  return within;
}

// The largest sets of the pairwise search; single corners where no pair fits.
std::vector<Mask> largest_on_pairs(const Ground& ground) {
  std::vector<Mask> sets;
  for (std::size_t corner = 0; corner < ground.question.planned.size(); ++corner) {
    if (ground.question.pivot.value_or(corner) == corner) sets.push_back(Mask{1} << corner);
  }
  for (const Pair& pair : ground.pairs) {
    const Mask within = within_on_pair(ground, pair);
    if (size_of(within) > size_of(sets.front())) sets.clear();
    if (sets.empty() || size_of(within) == size_of(sets.front())) sets.push_back(within);
  }
  std::sort(sets.begin(), sets.end());
  sets.erase(std::unique(sets.begin(), sets.end()), sets.end());
  return sets;
}

std::vector<Mask> fitting(const std::vector<Judged>& level) {
  std::vector<Mask> sets;
  for (const Judged& judged : level) {
    if (judged.fits) sets.push_back(judged.set);
  }
  return sets;
}

// Sets down to `smallest` corners, level by level.  Empty when none was met.
std::vector<Mask> by_levels(const Ground& ground, std::size_t smallest, bool& proven) {
  const std::size_t n = ground.question.planned.size();
  std::vector<Judged> level{judge(ground, n == 64 ? ~Mask{0} : (Mask{1} << n) - 1U)};
  for (std::size_t size = n;; --size) {
    if (auto sets = fitting(level); !sets.empty()) return sets;
    if (size == smallest) return {};
    if (n > kExactCorners && level.size() > kWidest) {
      keep_most_promising(level);
      proven = false;
    }
    const std::vector<Mask> next = less_one(level);
    level.clear();
    for (const Mask set : next) level.push_back(judge(ground, set));
  }
}

}  // namespace

Answer largest_sets(const Question& question) {
  const std::size_t n = question.planned.size();
  base::promise(n >= 1 && n <= 64 && question.found.size() == n,
                "largest sets: of 1 to 64 corners");
  const Ground ground = ground_of(question);
  Answer answer;
  std::vector<Mask> sets;
  if (n <= kExactCorners) {
    sets = by_levels(ground, 1, answer.proven);
  } else {
    const std::vector<Mask> on_pairs = largest_on_pairs(ground);
    sets = by_levels(ground, size_of(on_pairs.front()), answer.proven);
    if (sets.empty() || size_of(sets.front()) == size_of(on_pairs.front())) {
      sets.insert(sets.end(), on_pairs.begin(), on_pairs.end());
      std::sort(sets.begin(), sets.end());
      sets.erase(std::unique(sets.begin(), sets.end()), sets.end());
    }
  }
  for (const Mask set : sets) answer.sets.push_back(set_of(set));
  return answer;
}

Rigid minimax(const Question& question, const Set& set) {
  const Ground ground = ground_of(question);
  constexpr double kSmallest = -1.0;  // no deviation is ever that small: search to the end
  const Closest best = closest(ground, mask_of(set), kSmallest);
  // found - found_origin = turn(planned - planned_origin) + shift
  const Rigid turn{0.0, 0.0, best.turn_rad};
  const base::Point shift = best.shift + ground.found_origin - laid(turn, ground.planned_origin);
  return {shift.x_m, shift.y_m, best.turn_rad};
}

}  // namespace stakewright::placement

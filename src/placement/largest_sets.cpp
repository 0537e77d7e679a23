#include "largest_sets.hpp"

#include <algorithm>
#include <bit>
#include <cassert>
#include <cmath>
#include <tuple>
#include <unordered_set>

#include "minimax.hpp"

namespace stakewright::placement {
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
  assert(n >= 1 && n <= 64 && question.found.size() == n);
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

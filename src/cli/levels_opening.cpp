// The sentences on level that a foreman acts on.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "reports.hpp"
#include "stakewright/base/text.hpp"
#include "words.hpp"

namespace stakewright::cli {
namespace {

using base::text_from_length;
using levels::Footing;
using levels::Levels;
using levels::Shape;
using placement::Verdict;

/// More footings than this are left to the table.
constexpr std::size_t kMostFootingsTold = 3;

struct Telling {
  const check::Findings& findings;
  const Levels& levels;
  const base::Tolerance& tolerance;
  base::Units units;
  std::vector<std::string> sentences{};

  void say(std::string sentence) { sentences.push_back(std::move(sentence)); }
  [[nodiscard]] const std::string& label(std::size_t point) const {
    return levels.rods.points[point];
  }
  [[nodiscard]] std::string text(double length_m) const {
    return text_from_length(std::abs(length_m), units);
  }
};

std::vector<std::size_t> corners_with(const Telling& t, Verdict verdict) {
  std::vector<std::size_t> corners;
  for (std::size_t i = 0; i < t.levels.footings.size(); ++i)
    if (t.levels.footings[i].known && t.levels.footings[i].verdict == verdict) corners.push_back(i);
  return corners;
}

std::string names(const Telling& t, const std::vector<std::size_t>& points) {
  std::vector<std::string> list;
  for (const std::size_t point : points) list.push_back(t.label(point));
  return base::joined(list);
}

const char* is_are(const std::vector<std::size_t>& list) { return list.size() == 1 ? "is" : "are"; }

void say_left_out(Telling& t) {
  for (const std::size_t reading : t.levels.slips.excluded) {
    const levels::RodSlip slip = levels::slip_of(t.levels, reading, t.units);
    t.say(fmt::format("The rod reading {} is {} too {} and was left out{}.",
                      levels::rod_name(t.levels.rods, reading), t.text(slip.slip_m),
                      slip.slip_m > 0.0 ? "long" : "short",
                      slip.looks_like.empty() ? "" : "; it looks like " + slip.looks_like));
  }
}

void say_not_separable(Telling& t) {
  if (t.levels.slips.verdict != adjustment::SlipVerdict::not_separable) return;
  std::vector<std::string> sets;
  for (const auto& set : t.levels.slips.ranked) {
    if (set.readings.empty() || sets.size() == kMostFootingsTold) continue;
    std::vector<std::string> rods;
    for (const std::size_t reading : set.readings)
      rods.push_back(levels::rod_name(t.levels.rods, reading));
    sets.push_back(fmt::format("{}", fmt::join(rods, " with ")));
  }
  t.say(fmt::format("A rod is misread, and it cannot be told which: {}. Read them again.",
                    fmt::join(sets, ", or ")));
}

/// "toward C", "toward the side C–D": where the form falls to, to the nearest half side.
std::string toward(const Telling& t, double bearing_rad) {
  const auto& points = t.findings.network.points;
  const std::size_t n = t.findings.network.corner_count;
  const base::Point downhill{std::sin(bearing_rad), std::cos(bearing_rad)};
  const base::Point center = points[n].planned;
  double best = -1.0;
  std::string words;
  const auto consider = [&](base::Point at, const std::string& name) {
    const base::Point way = at - center;
    const double along = base::dot(downhill, way) / base::norm_m(way);
    if (along <= best) return;
    best = along;
    words = "toward " + name;
  };
  for (std::size_t i = 0; i < n; ++i) {
    const std::size_t next = (i + 1) % n;
    consider(points[i].planned, points[i].label);
    consider(0.5 * (points[i].planned + points[next].planned),
             "the side " + tape_name(points[i].label, points[next].label));
  }
  return words;
}

void say_tilted(Telling& t) {
  const auto& plane = *t.levels.plane;
  t.say(fmt::format("The form tilts: {} down {} over its whole width", t.text(plane.drop_m),
                    toward(t, plane.downhill_bearing_rad)));
  t.say(t.levels.wrong.empty() ? std::string("No single footing is out of that plane")
                               : fmt::format("{} {} out of that plane besides",
                                             names(t, t.levels.wrong), is_are(t.levels.wrong)));
}

/// Level with one another, but not at the height wanted.
bool say_shifted(Telling& t) {
  if (!t.levels.against_bench_mark || t.levels.shape != Shape::level) return false;
  double sum_m = 0.0;
  for (const Footing& footing : t.levels.footings) {
    if (!footing.known || footing.verdict != Verdict::out) return false;
    if (footing.off_m * t.levels.footings.front().off_m < 0.0) return false;
    sum_m += footing.off_m;
  }
  const double mean_m = sum_m / static_cast<double>(t.levels.footings.size());
  t.say(fmt::format(
      "The footings are level with one another, but all stand about {} {} the height "
      "wanted over {}",
      t.text(mean_m), mean_m > 0.0 ? "above" : "below", t.label(*t.levels.rods.bench_mark)));
  return true;
}

void say_out(Telling& t, const std::vector<std::size_t>& out) {
  if (out.empty()) return;
  std::vector<std::string> parts;
  for (const std::size_t i : out) {
    if (parts.size() == kMostFootingsTold) break;
    const double off_m = t.levels.footings[i].off_m;
    parts.push_back(
        fmt::format("{} stands {} {}", t.label(i), t.text(off_m), off_m > 0.0 ? "high" : "low"));
  }
  t.say(base::joined(parts));
  if (out.size() > kMostFootingsTold)
    t.say(fmt::format(
        "{} off level: see the levels below",
        counted(out.size() - kMostFootingsTold, "more footing is", "more footings are")));
}

void say_others(Telling& t) {
  const auto in = corners_with(t, Verdict::in);
  const auto open = corners_with(t, Verdict::undecided);
  const auto out = corners_with(t, Verdict::out);
  const std::string of = t.levels.against_bench_mark ? "at the height wanted" : "level";
  if (!in.empty() && !out.empty() && open.empty() &&
      in.size() + out.size() == t.levels.footings.size())
    t.say(fmt::format("The {} {}", in.size() == 1 ? "other is" : "others are", of));
  else if (!in.empty())
    t.say(fmt::format("{} {} {}, within {}", names(t, in), is_are(in), of,
                      t.text(t.tolerance.level_m)));
  if (!open.empty())
    t.say(fmt::format("{} cannot be called level or off level yet", names(t, open)));
}

void say_unclear(Telling& t) {
  if (t.levels.shape != Shape::unclear) return;
  const std::string footing = t.levels.may_be_wrong.empty()
                                  ? std::string("some footing stands wrong")
                                  : names(t, t.levels.may_be_wrong) +
                                        (t.levels.may_be_wrong.size() == 1 ? " stands" : " stand") +
                                        " wrong";
  t.say(fmt::format("Either the form tilts or {}: these heights fit both", footing));
}

void say_packing(Telling& t) {
  if (t.levels.verdict != Verdict::out) return;
  t.say(t.levels.against_bench_mark
            ? "What to pack or cut under each post stands in the table of levels"
            : "What to pack under each post, up to the highest footing, stands in the table of "
              "levels");
}

void say_heights(Telling& t) {
  const auto known = std::count_if(t.levels.footings.begin(), t.levels.footings.end(),
                                   [](const Footing& footing) { return footing.known; });
  if (known == 0) {
    t.say("No rod was read on a footing: nothing is known of their level");
    return;
  }
  if (t.levels.verdict == Verdict::in) {
    t.say(fmt::format("All {} footings {} within {}", t.levels.footings.size(),
                      t.levels.against_bench_mark ? "stand at the height wanted," : "are level",
                      t.text(t.tolerance.level_m)));
    return;
  }
  if (t.levels.shape == Shape::tilted) {
    say_tilted(t);
  } else if (!say_shifted(t)) {
    say_out(t, corners_with(t, Verdict::out));
    say_others(t);
    say_unclear(t);
  }
  say_packing(t);
}

}  // namespace

std::vector<std::string> level_sentences(const check::Findings& findings,
                                         const base::Tolerance& tolerance, base::Units units) {
  if (!findings.levels) return {};
  Telling t{findings, *findings.levels, tolerance, units};
  say_heights(t);
  say_left_out(t);
  say_not_separable(t);
  return t.sentences;
}

}  // namespace stakewright::cli

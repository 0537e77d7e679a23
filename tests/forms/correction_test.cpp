// The correction sheet, from readings of stakes that stand where the test put them.
#include "stakewright/forms/field_form.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <numbers>
#include <set>

#include "page_ink.hpp"
#include "sample_jobs.hpp"
#include "stakewright/check/check.hpp"
#include "stakewright/readings/reading.hpp"

namespace stakewright::forms {
namespace {

using base::Point;
using base::Units;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr double kMillimeter_pt = 72.0 / 25.4;

/// Stakes by label, each as far off its place as given: right, forward.
using Offsets = std::map<std::string, Point>;

struct Scene {
  job::Job job;
  check::Findings findings;

  [[nodiscard]] std::vector<drawing::Page> pages(const std::string& language = "en") const {
    return correction_sheet(job, findings, voice_in(job.units, language), usual_paper(job.units));
  }
};

/// Readings to the tenth of a millimeter of the tapes that `pulled` takes.
template <class Pulled>
Scene checked(job::Job job, const Offsets& offsets, Pulled&& pulled) {
  std::map<std::string, Point> places{{"O", job.plan.center}};
  for (const layout::Stake& stake : layout::stakes(job.plan)) places[stake.label] = stake.at;
  for (const auto& [label, offset] : offsets) places[label] = places[label] + offset;
  job.instruments = readings::built_in_instruments();
  check::Input input;
  input.plan = job.plan;
  input.tolerance = job.tolerance;
  input.staking = job.staking;
  input.instruments = job.instruments;
  for (const layout::Tape& tape : layout::check_tapes(job.plan)) {
    if (!pulled(tape)) continue;
    readings::Reading reading;
    reading.from = tape.from;
    reading.to = tape.to;
    reading.value_m = base::distance_m(places.at(tape.from), places.at(tape.to));
    reading.instrument = "steel";
    reading.written = job.units;
    input.readings.push_back(reading);
  }
  Scene scene{job, check::check(input)};
  return scene;
}

Scene checked(job::Job job, const Offsets& offsets) {
  return checked(std::move(job), offsets, [](const layout::Tape&) { return true; });
}

Scene all_in(int sides = 6) { return checked(plain_job(sides), {}); }

Scene two_out(int sides, Units units) {
  return checked(plain_job(sides, units), {{"C", {0.03, 0.02}}, {"E", {-0.05, 0.01}}});
}

/// Diagonals alone: the shape is not fixed.
Scene undecided(int sides = 6) {
  return checked(plain_job(sides), {}, [](const layout::Tape& tape) { return tape.skip == 2; });
}

std::string text_of(const std::vector<drawing::Page>& pages) {
  std::string all;
  for (const drawing::Page& page : pages)
    for (const Words& words : ink_of(page).words) all += words.text.text + "\n";
  return all;
}

std::set<std::string> names_of(const std::vector<drawing::Page>& pages) {
  std::set<std::string> names;
  for (const drawing::Page& page : pages)
    for (const drawing::Blank& blank : page.blanks)
      EXPECT_TRUE(names.insert(blank.name).second) << blank.name << " comes twice";
  return names;
}

TEST(CorrectionSheet, SaysThatNothingMovesWhenAllStakesAreIn) {
  const Scene scene = all_in();
  ASSERT_EQ(scene.findings.verdict, check::Verdict::in);
  const auto pages = scene.pages();
  ASSERT_EQ(pages.size(), 1U);
  EXPECT_THAT(text_of(pages),
              HasSubstr("Every stake is within 1/4\" of its true place. Nothing moves."));
  EXPECT_THAT(text_of(pages), HasSubstr("In: A, B, C, D, E, F"));
  EXPECT_THAT(names_of(pages), testing::ElementsAre("signature", "signature.date"));
}

TEST(CorrectionSheet, HasEachMoveWithItsTwoPullsATickAndRoomForTheReadingAfter) {
  for (const Units units : {Units::feet_inches, Units::millimeters, Units::meters}) {
    const Scene scene = two_out(8, units);
    ASSERT_EQ(scene.findings.verdict, check::Verdict::out);
    ASSERT_EQ(scene.findings.moves.size(), 2U);
    const auto pages = scene.pages();
    const auto names = names_of(pages);
    const std::string said = text_of(pages);
    for (const placement::Move& move : scene.findings.moves) {
      const std::string label = scene.findings.network.points[move.corner].label;
      EXPECT_EQ(names.count("moved." + label), 1U);
      ASSERT_EQ(move.tapes.size(), 2U);
      for (const placement::MoveTape& tape : move.tapes) {
        const std::string hold = scene.findings.network.points[tape.from].label;
        EXPECT_EQ(names.count("after." + label + "." + hold), 1U);
        EXPECT_THAT(said, HasSubstr(base::text_from_length(tape.length_m, units) + "\n"));
      }
    }
    EXPECT_THAT(said, HasSubstr("Out: C, E"));
    EXPECT_EQ(names.count("signature"), 1U);
  }
}

// Seen from O, C of a hexagon that faces forward stands behind on the right: 0.02 m too far out
// has to come nearer by just that.
TEST(CorrectionSheet, SaysTheWayAsSeenFromTheCenter) {
  job::Job job = plain_job(6, Units::millimeters);
  const auto stakes = layout::stakes(job.plan);
  const Point out = (1.0 / job.plan.polygon.corner_radius_m) * stakes[2].at;
  const Scene scene = checked(job, {{"C", 0.02 * out}});
  ASSERT_EQ(scene.findings.moves.size(), 1U);
  EXPECT_THAT(text_of(scene.pages()), HasSubstr("\n20 mm inward\n"));
}

/// Tail and head of the arrow: from the small black circle to the tip of the black triangle.
struct Arrow {
  At tail;
  At head;
};

std::vector<Arrow> arrows_of(const drawing::Page& page) {
  std::vector<Arrow> arrows;
  for (std::size_t i = 1; i < page.marks.size(); ++i) {
    const auto* tail = std::get_if<drawing::Circle>(&page.marks[i]);
    const auto* head = std::get_if<drawing::Polygon>(&page.marks[i - 1]);
    if (tail && head && head->fill == drawing::Fill::black && tail->fill == drawing::Fill::black)
      arrows.push_back({tail->center, head->points.front()});
  }
  return arrows;
}

// The little plan's own scale is read off its dotted outline; arrow over scale over the stated
// factor is the move.
TEST(CorrectionSheet, DrawsTheArrowAsManyTimesTooLongAsItSays) {
  const Scene scene = two_out(6, Units::millimeters);
  ASSERT_EQ(scene.findings.moves.size(), 2U);
  const drawing::Page page = scene.pages().front();
  std::vector<double> factors;
  std::vector<double> sides_pt;
  for (const drawing::Mark& mark : page.marks) {
    if (const auto* text = std::get_if<drawing::Text>(&mark);
        text && text->text.starts_with("Arrow "))
      factors.push_back(std::stod(text->text.substr(6)));
    if (const auto* plan = std::get_if<drawing::Polygon>(&mark); plan && plan->points.size() == 6)
      sides_pt.push_back(std::hypot(plan->points[1].x_pt - plan->points[0].x_pt,
                                    plan->points[1].y_pt - plan->points[0].y_pt));
  }
  const auto arrows = arrows_of(page);
  ASSERT_EQ(arrows.size(), 2U);
  ASSERT_EQ(factors.size(), 2U);
  ASSERT_EQ(sides_pt.size(), 2U);
  for (std::size_t i = 0; i < 2; ++i) {
    const placement::Move& move = scene.findings.moves[i];
    const double scale = sides_pt[i] / scene.job.plan.polygon.corner_radius_m;  // hexagon: side = R
    const double dx = arrows[i].head.x_pt - arrows[i].tail.x_pt;
    const double dy = arrows[i].head.y_pt - arrows[i].tail.y_pt;
    EXPECT_NEAR(std::hypot(dx, dy) / scale / factors[i], move.distance_m, 1e-9);
    // Outward on the ground is outward on the paper, y running down.
    const Point at = scene.findings.network.points[move.corner].planned;
    const double r = std::hypot(at.x_m, at.y_m);
    EXPECT_NEAR((dx * at.x_m - dy * at.y_m) / r / scale / factors[i], move.outward_m, 1e-9);
  }
}

// Two tapes that cross square, both off by e: the stake is off by e · √2 at most.
TEST(CorrectionSheet, AllowsAReadingAfterTheMoveWhatKeepsTheStakeIn) {
  Scene scene = two_out(6, Units::millimeters);
  ASSERT_FALSE(scene.findings.moves.empty());
  scene.job.tolerance.corner_m = 0.010;
  scene.findings.moves.resize(1);
  scene.findings.moves[0].crossing_rad = std::numbers::pi / 2.0;
  EXPECT_THAT(text_of(scene.pages()), HasSubstr("\n7 mm\n"));  // 10 / √2 = 7.07
  scene.findings.moves[0].crossing_rad = std::numbers::pi / 3.0;
  EXPECT_THAT(text_of(scene.pages()), HasSubstr("\n5 mm\n"));  // 10 · sin 30°
}

TEST(CorrectionSheet, AsksForTapesWhenItIsNotClear) {
  const Scene scene = undecided();
  ASSERT_EQ(scene.findings.verdict, check::Verdict::undecided);
  const auto pages = scene.pages();
  EXPECT_THAT(text_of(pages), HasSubstr("Not clear yet whether every stake is within 1/4\""));
  EXPECT_THAT(text_of(pages), HasSubstr("Pull these tapes"));
  int rows = 0;
  for (const std::string& name : names_of(pages))
    rows += name.starts_with("reading.") && name.ends_with(".1") ? 1 : 0;
  EXPECT_GT(rows, 0);
  for (const adjustment::Loose& loose : scene.findings.used.loose)
    for (const adjustment::MissingTape& tape : loose.would_fix) {
      const std::string a = scene.findings.network.points[tape.from].label;
      const std::string b = scene.findings.network.points[tape.to].label;
      EXPECT_EQ(names_of(pages).count("reading." + a + "-" + b + ".1") +
                    names_of(pages).count("reading." + b + "-" + a + ".1"),
                1U);
    }
}

TEST(CorrectionSheet, AsksForEverythingWhenReadingsContradictAndNoPullWouldTell) {
  Scene scene = all_in();
  scene.findings.verdict = scene.findings.places = check::Verdict::contradiction;
  scene.findings.tape_next.clear();
  const std::string said = text_of(scene.pages());
  EXPECT_THAT(said, HasSubstr("The readings contradict each other"));
  EXPECT_THAT(said, HasSubstr("Pull all tapes of sheet 3 again"));
  EXPECT_THAT(said, HasSubstr("Nobody digs or pours"));
}

TEST(CorrectionSheet, NamesTheReadingsThatWereLeftOut) {
  job::Job job = plain_job(6);
  Scene scene = checked(job, {});
  scene.findings.slips.excluded = {1};
  scene.findings.used.readings_out[1].residual = -0.0254;
  EXPECT_THAT(text_of(scene.pages()),
              HasSubstr("The tape B–C reads 1\" too long and was left out."));
}

TEST(CorrectionSheet, SaysSoWhereFewerThanTwoStakesStay) {
  Scene scene = two_out(6, Units::feet_inches);
  ASSERT_FALSE(scene.findings.moves.empty());
  scene.findings.moves.front().tapes.clear();
  EXPECT_THAT(text_of(scene.pages()), HasSubstr("Fewer than two stakes stay"));
}

void expect_whole(const std::vector<drawing::Page>& pages, const std::string& place) {
  for (const drawing::Page& page : pages) {
    EXPECT_THAT(collisions(page), IsEmpty()) << place;
    const Box ink = inked_area(page);
    const double edge = 13.5 * kMillimeter_pt;  // 14 mm, less half a rule
    EXPECT_GE(ink.x_pt, edge) << place;
    EXPECT_LE(ink.right_pt(), page.width_pt - edge) << place;
    EXPECT_LE(ink.bottom_pt(), page.height_pt - edge) << place;
  }
}

TEST(CorrectionSheet, StaysWholeInEveryLanguageAndUnit) {
  for (const std::string& language : wording::languages()) {
    for (const Units units : {Units::feet_inches, Units::millimeters, Units::meters}) {
      for (const Scene& scene : {two_out(5, units), two_out(12, units)}) {
        const auto pages = scene.pages(language);
        expect_whole(pages, language + base::word_of(units));
        for (const drawing::Page& page : pages)
          for (const Words& words : ink_of(page).words)
            EXPECT_FALSE(drawing::text_size(words.text).cut) << language << ": " << words.text.text;
      }
    }
    expect_whole(all_in().pages(language), language);
    expect_whole(undecided().pages(language), language);
  }
}

TEST(CorrectionSheet, GoesOnOverAsManyPagesAsThereAreMoves) {
  Scene scene = two_out(12, Units::feet_inches);
  ASSERT_EQ(scene.findings.moves.size(), 2U);
  // Twelve moves of all sizes and directions, from a hundredth of a millimeter to half a meter.
  const placement::Move model = scene.findings.moves.front();
  scene.findings.moves.clear();
  for (std::size_t corner = 0; corner < 12; ++corner) {
    placement::Move move = model;
    move.corner = corner;
    move.distance_m = 0.00001 * std::pow(10.0, 0.43 * static_cast<double>(corner));
    move.outward_m = move.distance_m * std::cos(static_cast<double>(corner));
    move.sideways_m = move.distance_m * std::sin(static_cast<double>(corner));
    move.tapes[0].from = (corner + 3) % 12;
    move.tapes[1].from = (corner + 8) % 12;
    scene.findings.moves.push_back(move);
  }
  const auto pages = scene.pages();
  EXPECT_GT(pages.size(), 2U);
  expect_whole(pages, "twelve moves");
  std::size_t ticks = 0;
  for (const std::string& name : names_of(pages)) ticks += name.starts_with("moved.") ? 1 : 0;
  EXPECT_EQ(ticks, 12U);
}

TEST(CorrectionSheet, StandsUpToAHardTitleAndManySides) {
  Scene scene = two_out(12, Units::feet_inches);
  std::string pictures;
  for (int i = 0; i < 300; ++i) pictures += "\U0001F3D5";
  std::string stacked;
  for (int i = 0; i < 300; ++i) stacked += "e\u0301\u0323\u0302";
  for (const std::string& hard :
       {std::string(300, 'W'), pictures, stacked,
        std::string("\u0633\u0642\u064a\u0641\u0629 \u0627\u0644\u0628\u0633\u062a\u0627\u0646")}) {
    scene.job.title = hard;
    expect_whole(scene.pages(), hard);
  }
  expect_whole(two_out(48, Units::millimeters).pages(), "48 sides");
}

}  // namespace
}  // namespace stakewright::forms

#include "stakewright/forms/field_form.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>
#include <numbers>
#include <random>
#include <set>

#include "page_ink.hpp"
#include "sample_jobs.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/forms/job_record.hpp"

namespace stakewright::forms {
namespace {

using base::Units;
using testing::IsEmpty;

constexpr double kMillimeter_pt = 72.0 / 25.4;

std::vector<Sample> drawn_of_all_sizes() {
  std::vector<Sample> samples;
  for (int sides = 3; sides <= 24; ++sides) {
    samples.push_back(plain(sides, sides % 2 == 0 ? Units::feet_inches : Units::millimeters));
    samples.push_back(
        crowded(sides, sides % 2 == 0 ? Units::meters : Units::feet_inches, 0.11 * sides));
  }
  samples.push_back(plain(48));
  samples.push_back(crowded(48, Units::millimeters, 0.3));
  for (Sample& sample : samples) sample.drawn = sample.pages();
  return samples;
}

/// Drawn once for all tests.
const std::vector<Sample>& samples_of_all_sizes() {
  static const std::vector<Sample> samples = drawn_of_all_sizes();
  return samples;
}

TEST(FieldForm, LetsNoWordsLieOverOthersOrOverALine) {
  for (const Sample& sample : samples_of_all_sizes()) {
    const auto pages = sample.drawn;
    for (std::size_t i = 0; i < pages.size(); ++i)
      EXPECT_THAT(collisions(pages[i]), IsEmpty()) << sample.words << ", page " << i + 1;
  }
}

TEST(FieldForm, LetsNoLabelsCollideOnPlansTurnedAnyhow) {
  constexpr unsigned kSeed = 20240;
  std::mt19937 random(kSeed);
  std::uniform_int_distribution<int> sides(3, 24);
  std::uniform_real_distribution<double> facing(-std::numbers::pi, std::numbers::pi);
  for (int i = 0; i < 60; ++i) {
    const Sample sample = crowded(sides(random), Units::feet_inches, facing(random));
    const drawing::Page page = sample.pages().front();
    EXPECT_THAT(collisions(page), IsEmpty())
        << "seed " << kSeed << ", plan " << i << ": " << sample.words;
    for (const layout::Stake& stake : sample.layout.stakes)
      EXPECT_EQ(count_of(page, stake.label), 1)
          << "seed " << kSeed << ", plan " << i << ": " << sample.words << ", " << stake.label;
  }
}

TEST(FieldForm, DrawsAPlanOfAnySize) {
  for (const double radius_m : {0.02, 0.3, 60.0, 900.0}) {
    for (const Units units : {Units::feet_inches, Units::millimeters}) {
      job::Job job = plain_job(7, units);
      job.plan.polygon.corner_radius_m = radius_m;
      for (const drawing::Page& page : worked_out(std::move(job), "any size").pages()) {
        EXPECT_THAT(collisions(page), IsEmpty()) << radius_m << " m";
        EXPECT_LE(inked_area(page).right_pt(), page.width_pt - 13.5 * kMillimeter_pt);
      }
    }
  }
}

TEST(FieldForm, KeepsToItsMarginsAndLeavesRoomForTheClip) {
  for (const Sample& sample : samples_of_all_sizes()) {
    for (const drawing::Page& page : sample.drawn) {
      const Box ink = inked_area(page);
      const double edge = 13.5 * kMillimeter_pt;  // 14 mm, less half a rule
      EXPECT_GE(ink.x_pt, edge) << sample.words;
      EXPECT_LE(ink.right_pt(), page.width_pt - edge) << sample.words;
      EXPECT_LE(ink.bottom_pt(), page.height_pt - edge) << sample.words;
      EXPECT_GE(ink.y_pt, 24.0 * kMillimeter_pt) << sample.words;
    }
  }
}

TEST(FieldForm, SetsNothingSmallerThanTenPoints) {
  for (const Sample& sample : samples_of_all_sizes())
    for (const drawing::Page& page : sample.drawn)
      for (const Words& words : ink_of(page).words)
        EXPECT_GE(words.text.size_pt, 10.0) << sample.words << ": " << words.text.text;
}

TEST(FieldForm, CutsNoWordOfItsOwnShort) {
  for (const Sample& sample : samples_of_all_sizes())
    for (const drawing::Page& page : sample.drawn)
      for (const Words& words : ink_of(page).words)
        EXPECT_FALSE(drawing::text_size(words.text).cut) << sample.words << ": " << words.text.text;
}

TEST(FieldForm, CutsNoLengthShortOnALargeSite) {
  job::Job job = plain_job(8);
  job.plan.polygon.corner_radius_m = 37.0;  // across: 242' 9-3/8"
  Sample sample = worked_out(std::move(job), "a large site");
  sample.choices.show_planned = true;
  for (const drawing::Page& page : sample.pages()) {
    EXPECT_THAT(collisions(page), IsEmpty());
    for (const Words& words : ink_of(page).words)
      EXPECT_FALSE(drawing::text_size(words.text).cut) << words.text.text;
  }
}

TEST(FieldForm, TakesItsPaperFromTheUnits) {
  // ANSI/ASME Y14.1: size A is 8.5 by 11 in; ISO 216: A4 is 210 by 297 mm.
  const auto letter = plain(6, Units::feet_inches).pages().front();
  EXPECT_NEAR(letter.width_pt, 612.0, 0.01);
  EXPECT_NEAR(letter.height_pt, 792.0, 0.01);
  for (const Units metric : {Units::millimeters, Units::meters}) {
    const auto a4 = plain(6, metric).pages().front();
    EXPECT_NEAR(a4.width_pt, 595.28, 0.01);
    EXPECT_NEAR(a4.height_pt, 841.89, 0.01);
  }
  EXPECT_EQ(paper_from_text("letter"), Paper::letter);
  EXPECT_EQ(paper_from_text("a4"), Paper::a4);
  EXPECT_THROW(paper_from_text("A5"), base::InputError);
}

TEST(FieldForm, SaysOnEveryPageWhichJobAndWhichPageItIs) {
  const Sample sample = plain(24);
  const auto pages = sample.pages();
  ASSERT_GT(pages.size(), 4U);
  for (std::size_t i = 0; i < pages.size(); ++i) {
    EXPECT_EQ(count_of(pages[i], "Orchard shelter"), 1);
    EXPECT_EQ(count_of(pages[i], "feet, inches, sixteenths"), 1);
    EXPECT_EQ(count_of(pages[i], fmt::format("Page {} of {}", i + 1, pages.size())), 1);
    EXPECT_EQ(count_of(pages[i], "Fingerprint " + fingerprint(sample.job.plan)), 1);
  }
}

// The scale is read off the sheet as a foreman would: from stake to stake with
// a rule, times the scale's second figure, must be the side.
TEST(PlanSheet, IsToTheScaleItStates) {
  for (const Sample& sample : samples_of_all_sizes()) {
    const drawing::Page page = sample.drawn.front();
    double denominator = 0.0;
    std::vector<At> stakes;
    for (const drawing::Mark& mark : page.marks) {
      if (const auto* text = std::get_if<drawing::Text>(&mark);
          text && text->text.starts_with("Scale"))
        denominator = std::stod(text->text.substr(text->text.find("1:") + 2));
      if (const auto* circle = std::get_if<drawing::Circle>(&mark);
          circle && circle->fill == drawing::Fill::black && circle->radius_pt > 2.0)
        stakes.push_back(circle->center);
    }
    const auto sides = static_cast<std::size_t>(sample.job.plan.polygon.sides);
    ASSERT_GT(denominator, 0.0) << sample.words;
    ASSERT_GE(stakes.size(), sides) << sample.words;
    const double paper_pt =
        std::hypot(stakes[1].x_pt - stakes[0].x_pt, stakes[1].y_pt - stakes[0].y_pt);
    // Side of a regular polygon: 2 R sin(pi/n) (Euclid's construction in any handbook).
    const double side_m = 2.0 * sample.job.plan.polygon.corner_radius_m *
                          std::sin(std::numbers::pi / static_cast<double>(sides));
    EXPECT_NEAR(paper_pt / 72.0 * 0.0254 * denominator, side_m, 1e-9) << sample.words;
  }
}

// The length beside the bar, at the scale stated above it, is the bar's length on paper; what the
// sheet says of the bar's printed length is the same, to 1/32 in or a tenth of a millimeter.
TEST(PlanSheet, HasABarAsLongAsItSays) {
  for (const Sample& sample : samples_of_all_sizes()) {
    double denominator = 0.0;
    double length_m = 0.0;
    double bar_pt = 0.0;
    double printed_m = 0.0;
    for (const drawing::Mark& mark : sample.drawn.front().marks) {
      if (const auto* box = std::get_if<drawing::Rectangle>(&mark);
          box && denominator > 0.0 && box->fill == drawing::Fill::none && bar_pt == 0.0)
        bar_pt = box->box.width_pt;
      const auto* text = std::get_if<drawing::Text>(&mark);
      if (!text) continue;
      const std::string printed = "Printed at full size, the bar is ";
      if (text->text.starts_with("Scale"))
        denominator = std::stod(text->text.substr(text->text.find("1:") + 2));
      else if (text->text.starts_with(printed))
        printed_m = base::length_m_from_text(
            text->text.substr(printed.size(), text->text.find(" long") - printed.size()),
            sample.units);
      else if (bar_pt > 0.0 && length_m == 0.0)
        length_m = base::length_m_from_text(text->text, sample.units);
    }
    EXPECT_NEAR(bar_pt / 72.0 * 0.0254 * denominator, length_m, 1e-9) << sample.words;
    EXPECT_NEAR(printed_m, bar_pt / 72.0 * 0.0254, 0.0254 / 64.0 + 1e-9) << sample.words;
  }
}

TEST(PlanSheet, NamesEachStakeOnceBesideItsMark) {
  for (const Sample& sample : samples_of_all_sizes()) {
    const drawing::Page page = sample.drawn.front();
    for (const layout::Stake& stake : sample.layout.stakes)
      EXPECT_EQ(count_of(page, stake.label), 1) << sample.words << ", " << stake.label;
    EXPECT_EQ(count_of(page, "O"), 1) << sample.words;
    for (const layout::Pin& pin : sample.job.plan.pins)
      EXPECT_EQ(count_of(page, pin.name), 1) << sample.words;
  }
}

TEST(PlanSheet, HasForwardUpAndClockwiseAsSeenFromAbove) {
  job::Job job = plain_job(4);
  job.plan.facing_rad = 0.0;  // side A-B ahead: A is ahead on the left, B ahead on the right
  const auto page = worked_out(std::move(job), "square").pages().front();
  std::map<std::string, At> at;
  for (const Words& words : ink_of(page).words)
    if (words.text.text.size() == 1 && words.text.text[0] >= 'A')
      at[words.text.text] = {words.ink.x_pt, words.ink.y_pt};
  EXPECT_LT(at.at("A").x_pt, at.at("B").x_pt);
  EXPECT_LT(at.at("B").y_pt, at.at("C").y_pt);
  EXPECT_GT(at.at("C").x_pt, at.at("D").x_pt);
}

TEST(PlanSheet, PointsAtAPinTooFarOffToDraw) {
  job::Job job = plain_job(6);
  job.plan.pins = {{"P1", {-90.0, 4.0}}, {"P2", {3.0, -5.0}}};
  const auto page = worked_out(std::move(job), "far pin").pages().front();
  EXPECT_EQ(count_of(page, "P1"), 1);
  EXPECT_EQ(count_of(page, "to a pin farther off"), 1);
  EXPECT_THAT(collisions(page), IsEmpty());
}

TEST(StakingSheet, HasEachSwingOnceWithItsTwoPulls) {
  for (const Sample& sample : samples_of_all_sizes()) {
    std::multiset<std::string> ticks;
    std::map<std::string, int> said;
    for (const drawing::Page& page : sample.drawn) {
      for (const drawing::Blank& blank : page.blanks)
        if (blank.name.starts_with("set.")) {
          EXPECT_EQ(blank.kind, drawing::BlankKind::tick);
          ticks.insert(blank.name);
        }
      if (page.title.find("Stake") == std::string::npos) continue;
      for (const Words& words : ink_of(page).words) ++said[words.text.text];
    }
    const auto& order = sample.layout.order;
    EXPECT_EQ(ticks.size(), order.swings.size() + (order.sighted ? 1U : 0U)) << sample.words;
    std::map<std::string, int> pulls;
    for (const layout::Swing& swing : order.swings) {
      EXPECT_EQ(ticks.count("set." + swing.stake), 1U) << sample.words;
      for (const layout::Hold& hold : swing.from)
        ++pulls[base::text_from_length(hold.length_m, sample.units)];
    }
    if (order.sighted) ++pulls[base::text_from_length(order.sighted->length_m, sample.units)];
    for (const auto& [length, times] : pulls)
      EXPECT_EQ(said[length], times) << sample.words << ", " << length;
  }
}

/// On which hand each picture of a sheet shows its stake, walking from the first hold to the
/// second.
std::vector<layout::Hand> pictured_hands(const drawing::Page& page) {
  std::vector<drawing::Line> tapes;
  std::vector<layout::Hand> hands;
  for (const drawing::Mark& mark : page.marks) {
    if (const auto* line = std::get_if<drawing::Line>(&mark)) tapes.push_back(*line);
    const auto* circle = std::get_if<drawing::Circle>(&mark);
    if (!circle || circle->fill != drawing::Fill::white) continue;
    const At first = tapes[tapes.size() - 2].from;
    const At second = tapes[tapes.size() - 1].from;
    const At stake = circle->center;
    // y runs down the page: a positive turn is to the right.
    const double turn = (second.x_pt - first.x_pt) * (stake.y_pt - first.y_pt) -
                        (second.y_pt - first.y_pt) * (stake.x_pt - first.x_pt);
    hands.push_back(turn > 0.0 ? layout::Hand::right : layout::Hand::left);
  }
  return hands;
}

TEST(StakingSheet, SaysAndShowsOnWhichHandEachStakeLies) {
  for (int sides = 3; sides <= 9; ++sides) {
    const Sample sample = plain(sides);
    const drawing::Page page = sample.pages()[1];
    const auto pictured = pictured_hands(page);
    const auto& swings = sample.layout.order.swings;
    ASSERT_EQ(pictured.size(), swings.size()) << sample.words;
    int left = 0;
    for (std::size_t i = 0; i < swings.size(); ++i) {
      EXPECT_EQ(pictured[i], swings[i].hand) << sample.words << ", " << swings[i].stake;
      left += swings[i].hand == layout::Hand::left ? 1 : 0;
    }
    EXPECT_EQ(count_of(page, "left"), left) << sample.words;
    EXPECT_EQ(count_of(page, "right"), static_cast<int>(swings.size()) - left) << sample.words;
  }
}

TEST(StakingSheet, MarksACrossingThatIsFlat) {
  job::Job job = plain_job(13);  // held A and B only: O crosses at 360/13 = 27.7 degrees
  job.plan.hold = {"A", "B"};
  const auto pages = worked_out(std::move(job), "flat").pages();
  EXPECT_EQ(count_of(pages[1], "28° !"), 1);
  EXPECT_EQ(count_of(pages[1], wording::built_in("en").text("staking.flat_note")), 1);
  EXPECT_EQ(count_of(plain(6).pages()[1], wording::built_in("en").text("staking.flat_note")), 0);
}

std::map<std::string, Box> reading_blanks(const Sample& sample) {
  std::map<std::string, Box> blanks;
  for (const drawing::Page& page : sample.drawn) {
    for (const drawing::Blank& blank : page.blanks) {
      const bool is_spare = blank.name.starts_with("reading.s");
      if (blank.name.starts_with("reading.") && !is_spare) blanks[blank.name] = blank.box;
    }
  }
  return blanks;
}

TEST(ReadingSheet, AsksForEachTapeOnceAndTwoReadingsOfIt) {
  for (const Sample& sample : samples_of_all_sizes()) {
    const auto blanks = reading_blanks(sample);
    const auto tapes = sample.tapes();
    EXPECT_EQ(blanks.size(), 2 * tapes.size()) << sample.words;
    for (const layout::Tape& tape : tapes)
      for (const char* which : {"1", "2"})
        EXPECT_EQ(blanks.count(fmt::format("reading.{}-{}.{}", tape.from, tape.to, which)) +
                      blanks.count(fmt::format("reading.{}-{}.{}", tape.to, tape.from, which)),
                  1U)
            << sample.words << ", " << tape.from << " to " << tape.to;
  }
}

TEST(ReadingSheet, TakesTheSamePairTwiceWhenAPlanAsksForIt) {
  const Sample sample = plain(4);
  auto tapes = sample.tapes();
  tapes.push_back(tapes.front());
  const auto pages =
      field_form(sample.job, sample.layout, tapes, voice_in(sample.units), sample.choices);
  std::set<std::string> names;
  for (const drawing::Page& page : pages)
    for (const drawing::Blank& blank : page.blanks)
      EXPECT_TRUE(names.insert(blank.name).second) << blank.name << " comes twice";
  const std::string row = fmt::format("reading.{}-{}", tapes.front().from, tapes.front().to);
  EXPECT_EQ(names.count(row + ".1"), 1U);
  EXPECT_EQ(names.count(row + "/2.1"), 1U);
}

TEST(ReadingSheet, GivesAPencilEightMillimeters) {
  for (const Sample& sample : samples_of_all_sizes())
    for (const auto& [name, box] : reading_blanks(sample)) {
      EXPECT_GE(box.height_pt, 8.0 * kMillimeter_pt) << sample.words << ", " << name;
      EXPECT_GE(box.width_pt, 25.0 * kMillimeter_pt) << sample.words << ", " << name;
    }
}

TEST(Blanks, HaveTheirOwnNamesAndLieClearOfEachOther) {
  for (const Sample& sample : samples_of_all_sizes()) {
    std::set<std::string> names;
    for (const drawing::Page& page : sample.drawn) {
      for (std::size_t i = 0; i < page.blanks.size(); ++i) {
        EXPECT_TRUE(names.insert(page.blanks[i].name).second) << page.blanks[i].name;
        for (std::size_t j = 0; j < i; ++j) {
          Box inside = page.blanks[i].box;  // neighbors share an edge
          inside = {inside.x_pt + 0.01, inside.y_pt + 0.01, inside.width_pt - 0.02,
                    inside.height_pt - 0.02};
          EXPECT_FALSE(overlap(inside, page.blanks[j].box))
              << sample.words << ": " << page.blanks[i].name << ", " << page.blanks[j].name;
        }
      }
    }
    for (const char* name : {"date", "round", "crew", "weather", "air", "tape.1", "tape.1.checked",
                             "laser-name", "laser-edge", "laser.O-A.1", "laser.O-A.2", "level-name",
                             "level.1.A", "level.2.A", "level.1.T1", "level.2.T2",
                             "pencil.1.longest", "pencil.1.shortest", "pencil.1.difference"})
      EXPECT_EQ(names.count(name), 1U) << name;
  }
}

TEST(ReadingSheet, LeavesPlannedLengthsOutUnlessAsked) {
  Sample sample = plain(8);
  std::set<std::string> planned;
  for (const layout::Tape& tape : sample.tapes())
    planned.insert(base::text_from_length(tape.length_m, sample.units));
  // The pencil check has them, for use when all is written down.
  const auto said_on_reading_sheets = [&] {
    std::multiset<std::string> said;
    for (const drawing::Page& page : sample.pages()) {
      if (page.title.find("Read") == std::string::npos) continue;
      for (const Words& words : ink_of(page).words) {
        if (words.text.text == wording::built_in("en").text("pencil.heading")) break;
        said.insert(words.text.text);
      }
    }
    return said;
  };
  const auto without = said_on_reading_sheets();
  for (const std::string& length : planned) EXPECT_EQ(without.count(length), 0U) << length;
  sample.choices.show_planned = true;
  const auto with = said_on_reading_sheets();
  std::size_t shown = 0;
  for (const std::string& length : planned) shown += with.count(length);
  EXPECT_EQ(shown, sample.tapes().size());
  for (const drawing::Page& page : sample.pages()) EXPECT_THAT(collisions(page), IsEmpty());
}

std::string times(int count, const std::string& text) {
  std::string result;
  for (int i = 0; i < count; ++i) result += text;
  return result;
}

/// Long, written from the right, in stacked marks, in pictures, with control characters.
std::vector<std::string> hard_words() {
  return {std::string(300, 'W'),
          "\u0633\u0642\u064a\u0641\u0629 \u0627\u0644\u0628\u0633\u062a\u0627\u0646 " +
              std::string(60, 'x'),
          times(3, "\u05e1\u05db\u05db\u05ea \u05e2\u05e5 "),
          times(40, "e\u0301\u0323\u0302\u0330"),
          times(40, "\U0001F3D5"),
          "two\nlines\tand a tab",
          "a\u200db\u202ec"};
}

TEST(FieldForm, StandsUpToHardTitlesAndNames) {
  for (const std::string& hard : hard_words()) {
    job::Job job = plain_job(7);
    job.title = hard;
    job.plan.measured_to = hard;
    job.plan.pins = {{hard, {-6.0, -5.0}}, {"P2", {5.0, -5.5}}};
    job.plan.lines = {{hard, 0.3}, {"dig", 0.7}};
    job.plan.keep_clear = {{hard, true, {{-8, -8}, {8, -8}, {8, 8}, {-8, 8}}}};
    const Sample sample = worked_out(std::move(job), hard);
    for (const drawing::Page& page : sample.pages()) {
      EXPECT_THAT(collisions(page), IsEmpty()) << hard;
      const Box ink = inked_area(page);
      EXPECT_GE(ink.x_pt, 13.5 * kMillimeter_pt) << hard;
      EXPECT_LE(ink.right_pt(), page.width_pt - 13.5 * kMillimeter_pt) << hard;
    }
  }
}

TEST(FieldForm, HoldsMoreLinesThanItsKey) {
  job::Job job = plain_job(6);
  for (int i = 0; i < 40; ++i)
    job.plan.lines.push_back({fmt::format("line {}", i), 0.02 * (i + 1)});
  for (const drawing::Page& page : worked_out(std::move(job), "many lines").pages())
    EXPECT_THAT(collisions(page), IsEmpty());
}

}  // namespace
}  // namespace stakewright::forms

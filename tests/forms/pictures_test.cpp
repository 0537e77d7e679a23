#include "stakewright/forms/pictures.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "found_jobs.hpp"
#include "page_ink.hpp"
#include "sample_jobs.hpp"
#include "stakewright/drawing/files.hpp"

namespace stakewright::forms {
namespace {

using base::Units;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr double kEdge_pt = 13.5 * 72.0 / 25.4;  // 14 mm, less half a rule
constexpr Units kAllUnits[] = {Units::feet_inches, Units::millimeters, Units::meters};

/// Titles and names that a hostile or careless hand may write.
std::vector<std::string> hard_names() {
  return {std::string(300, 'W'), "שלום עולם גג מחומש עם קורות ארוכות מאוד",
          "Zalgo Z\u0300\u0301\u0302\u0303\u0304\u0305\u0306\u0307\u0308\u030a tall",
          "🏕️🪵📐 shelter 👩‍👩‍👧‍👦"};
}

void expect_sound(const drawing::Page& page, const std::string& words) {
  EXPECT_THAT(collisions(page), IsEmpty()) << words;
  const Box ink = inked_area(page);
  EXPECT_GE(ink.x_pt, kEdge_pt) << words;
  EXPECT_GE(ink.y_pt, kEdge_pt) << words;
  EXPECT_LE(ink.right_pt(), page.width_pt - kEdge_pt) << words;
  EXPECT_LE(ink.bottom_pt(), page.height_pt - kEdge_pt) << words;
}

void expect_nothing_cut(const drawing::Page& page, const std::string& words) {
  for (const Words& shown : ink_of(page).words)
    EXPECT_FALSE(drawing::text_size(shown.text).cut) << words << ": " << shown.text.text;
}

TEST(PlanPicture, LetsNoWordsLieOverOthersOrOverALine) {
  for (int sides = 3; sides <= 24; ++sides) {
    const Units units = kAllUnits[static_cast<std::size_t>(sides) % 3];
    for (const Sample& sample : {plain(sides, units), crowded(sides, units, 0.13 * sides)}) {
      const auto pictures =
          plan_pictures(sample.job, sample.layout, voice_in(units), usual_paper(units));
      ASSERT_EQ(pictures.size(), 1U);
      expect_sound(pictures.front().page, sample.words);
      expect_nothing_cut(pictures.front().page, sample.words);
      for (const layout::Stake& stake : sample.layout.stakes)
        EXPECT_EQ(count_of(pictures.front().page, stake.label), 1)
            << sample.words << ", " << stake.label;
    }
  }
}

TEST(PlanPicture, NamesAllFortyEightStakesOnOnePage) {
  for (const Units units : kAllUnits) {
    for (const Sample& sample : {plain(48, units), crowded(48, units, 0.3)}) {
      const auto pictures =
          plan_pictures(sample.job, sample.layout, voice_in(units), usual_paper(units));
      ASSERT_EQ(pictures.size(), 1U);
      expect_sound(pictures.front().page, sample.words);
      for (const layout::Stake& stake : sample.layout.stakes)
        EXPECT_EQ(count_of(pictures.front().page, stake.label), 1)
            << sample.words << ", " << stake.label;
    }
  }
}

TEST(PlanPicture, StandsUpToHardTitlesAndNames) {
  for (const std::string& name : hard_names()) {
    Sample sample = crowded(7, Units::millimeters, 0.2);
    sample.job.title = name;
    sample.job.plan.measured_to = name;
    sample.job.plan.pins[0].name = name;
    sample.job.plan.keep_clear[0].name = name;
    sample.layout.lines[0].name = name;
    const auto pictures = plan_pictures(sample.job, sample.layout, voice_in(Units::millimeters),
                                        usual_paper(Units::millimeters));
    expect_sound(pictures.front().page, name);
  }
}

std::vector<drawing::Page> found_pages(const job::Job& job, const check::Findings& findings,
                                       Units units) {
  std::vector<drawing::Page> pages;
  for (const Picture& picture : found_pictures(job, findings, voice_in(units), usual_paper(units)))
    pages.push_back(picture.page);
  return pages;
}

TEST(FoundPicture, LetsNoWordsLieOverOthersOrOverALine) {
  std::size_t turn = 0;  // each in other units than the one before
  for (int sides = 3; sides <= 24; ++sides) {
    for (const double spread_m : {sides % 2 == 0 ? 0.0005 : 0.02, sides % 2 == 0 ? 0.3 : 0.005}) {
      const Units units = kAllUnits[++turn % 3];
      const job::Job job = crowded(sides, units, 0.21 * sides).job;
      check::Findings findings = strewn_findings(job, spread_m, static_cast<unsigned>(97 * sides));
      add_suspects(findings);
      const auto pages = found_pages(job, findings, units);
      ASSERT_EQ(pages.size(), 1U);
      const std::string words = fmt::format("{} sides, strewn {} m", sides, spread_m);
      expect_sound(pages[0], words);
      expect_nothing_cut(pages[0], words);
    }
  }
}

TEST(Pictures, HaveRoomForEveryLanguage) {
  for (const std::string& language : wording::languages()) {
    for (const int sides : {3, 5, 8, 12, 24}) {
      const Units units = kAllUnits[static_cast<std::size_t>(sides) % 3];
      const Sample sample = crowded(sides, units, 0.4);
      check::Findings findings = strewn_findings(sample.job, 0.008, 31);
      add_suspects(findings);
      for (const auto& pictures :
           {plan_pictures(sample.job, sample.layout, voice_in(units, language), usual_paper(units)),
            found_pictures(sample.job, findings, voice_in(units, language), usual_paper(units))}) {
        const std::string place = fmt::format("{}, {} sides", language, sides);
        expect_sound(pictures[0].page, place);
        expect_nothing_cut(pictures[0].page, place);
      }
    }
  }
}

TEST(FoundPicture, HasEveryCornerInItsTable) {
  for (const int sides : {3, 6, 12, 13, 24, 48}) {
    const job::Job job = plain_job(sides);
    const check::Findings findings = strewn_findings(job, 0.01, 5);
    const auto pages = found_pages(job, findings, Units::feet_inches);
    ASSERT_EQ(pages.size(), 1U);
    expect_sound(pages[0], fmt::format("{} sides", sides));
    expect_nothing_cut(pages[0], fmt::format("{} sides", sides));
    for (const std::string& label : layout::corner_labels(sides))
      EXPECT_GE(count_of(pages[0], label), 1) << label;
  }
}

TEST(FoundPicture, StatesTheFactorByWhichItDrawsErrors) {
  // One corner 20 mm outward, drawn to the scale and factor stated: the mark of a corner that is
  // out lies off its cross by that much.
  const job::Job job = plain_job(6, Units::millimeters);
  check::Findings findings = strewn_findings(job, 0.0, 1);
  placement::CornerResult& corner = findings.placement->corners[2];
  corner.outward_m = corner.off_m = 0.020;
  corner.verdict = placement::Verdict::out;
  const drawing::Page page = found_pages(job, findings, Units::millimeters)[0];
  double scale = 0.0;
  double factor = 0.0;
  std::vector<At> squares;
  for (const drawing::Mark& mark : page.marks) {
    if (const auto* text = std::get_if<drawing::Text>(&mark)) {
      std::sscanf(text->text.c_str(), "Scale 1:%lf", &scale);
      std::sscanf(text->text.c_str(), "Errors %lf times", &factor);
    }
    if (const auto* square = std::get_if<drawing::Rectangle>(&mark))
      if (square->fill == drawing::Fill::black && square->box.width_pt < 8.0 &&
          square->box.width_pt == square->box.height_pt)
        squares.push_back({square->box.x_pt + square->box.width_pt / 2.0,
                           square->box.y_pt + square->box.height_pt / 2.0});
  }
  ASSERT_GT(scale, 0.0);
  ASSERT_GT(factor, 1.0);
  ASSERT_EQ(squares.size(), 2U);  // on the drawing and in the key
  // The crosses of the planned corners: the nearest to the mark is not the corner's own when the
  // factor is large, so the distance from the center is compared.
  const double points_per_meter = 72.0 / 0.0254 / scale;
  double center_x = 0.0;
  double center_y = 0.0;
  for (const drawing::Mark& mark : page.marks)
    if (const auto* circle = std::get_if<drawing::Circle>(&mark))
      if (circle->radius_pt == 4.0) {
        center_x = circle->center.x_pt;
        center_y = circle->center.y_pt;
      }
  EXPECT_NEAR(std::hypot(squares[0].x_pt - center_x, squares[0].y_pt - center_y),
              (job.plan.polygon.corner_radius_m + factor * 0.020) * points_per_meter, 0.05);
}

TEST(FoundPicture, SaysSoWhenTheReadingsFixNothing) {
  const job::Job job = plain_job(5);
  check::Findings findings = strewn_findings(job, 0.01, 3);
  findings.placement.reset();
  findings.survey.reset();
  const drawing::Page page = found_pages(job, findings, Units::feet_inches)[0];
  expect_sound(page, "nothing fixed");
  EXPECT_EQ(count_of(page, "The readings do not fix the corners, so nothing is drawn as found."),
            1);
  EXPECT_EQ(count_of(page, "not fixed"), 5);
}

TEST(FoundPicture, MarksSuspectsByNumberAndHatches) {
  const job::Job job = plain_job(6);
  check::Findings findings = strewn_findings(job, 0.01, 3);
  add_suspects(findings);
  const drawing::Page page = found_pages(job, findings, Units::feet_inches)[0];
  // Cause 1 is a tape and a stake: two marks, one in the key, one beside its words; cause 2 two
  // stakes and its words.
  EXPECT_EQ(count_of(page, "1"), 4);
  EXPECT_EQ(count_of(page, "2"), 3);
  EXPECT_EQ(count_of(page, "tape under suspicion"), 1);
  EXPECT_EQ(count_of(page, "tape left out"), 1);
}

TEST(FoundPicture, StandsUpToHardTitles) {
  for (const std::string& name : hard_names()) {
    job::Job job = plain_job(7);
    job.title = name;
    expect_sound(found_pages(job, strewn_findings(job, 0.01, 2), Units::feet_inches)[0], name);
  }
}

TEST(Pictures, AreTheSameBytesEveryTime) {
  const Sample sample = crowded(9, Units::feet_inches, 1.0);
  check::Findings findings = strewn_findings(sample.job, 0.01, 3);
  add_suspects(findings);
  const auto all = [&] {
    std::string bytes;
    for (const auto& pictures :
         {plan_pictures(sample.job, sample.layout, voice_in(Units::feet_inches),
                        usual_paper(Units::feet_inches)),
          found_pictures(sample.job, findings, voice_in(Units::feet_inches),
                         usual_paper(Units::feet_inches))})
      for (const Picture& picture : pictures)
        bytes += drawing::svg(picture.page) + drawing::png(picture.page, 300) +
                 drawing::pdf({picture.page}, "title");
    return bytes;
  };
  EXPECT_TRUE(all() == all());
}

TEST(Pictures, SayInWordsWhatTheyShow) {
  const Sample sample = plain(6);
  const auto plan = plan_pictures(sample.job, sample.layout, voice_in(Units::feet_inches),
                                  usual_paper(Units::feet_inches));
  EXPECT_THAT(plan[0].page.description, HasSubstr("6 sides"));
  EXPECT_THAT(plan[0].page.title, HasSubstr("Orchard shelter"));
  const auto found = found_pictures(sample.job, strewn_findings(sample.job, 0.01, 3),
                                    voice_in(Units::feet_inches), usual_paper(Units::feet_inches));
  EXPECT_THAT(found[0].page.description, HasSubstr("times"));
}

}  // namespace
}  // namespace stakewright::forms

// The form in every language that is built in, in all units, on both papers.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "page_ink.hpp"
#include "sample_jobs.hpp"

namespace stakewright::forms {
namespace {

using base::Units;
using testing::IsEmpty;

constexpr double kMillimeter_pt = 72.0 / 25.4;

/// All for small, middle and large ones, each in turn between.
std::vector<Units> units_for(int sides) {
  const std::vector<Units> all{Units::feet_inches, Units::millimeters, Units::meters};
  if (sides == 3 || sides == 8 || sides >= 12) return all;
  return {all[static_cast<std::size_t>(sides) % all.size()]};
}

/// Calls `look` with every page and what it is a page of.
template <class Look>
void on_every_page(const std::vector<int>& sizes, const std::vector<Paper>& papers, Look&& look) {
  for (const std::string& language : wording::languages()) {
    for (const int sides : sizes) {
      for (const Units units : units_for(sides)) {
        for (const Paper paper : papers) {
          Sample sample = crowded(sides, units, 0.1 * sides);
          sample.choices.paper = paper;
          const auto pages = field_form(sample.job, sample.layout, sample.tapes(),
                                        voice_in(units, language), sample.choices);
          for (std::size_t k = 0; k < pages.size(); ++k)
            look(pages[k], fmt::format("{}, {}, {}, page {}", language, sample.words,
                                       base::word_of(units), k + 1));
        }
      }
    }
  }
}

TEST(Wordings, CutNoWordShort) {
  // A4 is the narrower of the two.
  on_every_page(
      {3, 4, 5, 6, 7, 8, 9, 10, 11, 12}, {Paper::a4}, [](const auto& page, const auto& place) {
        for (const Words& words : ink_of(page).words)
          EXPECT_FALSE(drawing::text_size(words.text).cut) << place << ": " << words.text.text;
      });
}

TEST(Wordings, StayOnThePageAndOffEachOther) {
  on_every_page({3, 8, 24}, {Paper::letter, Paper::a4}, [](const auto& page, const auto& place) {
    EXPECT_THAT(collisions(page), IsEmpty()) << place;
    const Box ink = inked_area(page);
    const double edge = 13.5 * kMillimeter_pt;  // 14 mm, less half a rule
    EXPECT_GE(ink.x_pt, edge) << place;
    EXPECT_LE(ink.right_pt(), page.width_pt - edge) << place;
    EXPECT_LE(ink.bottom_pt(), page.height_pt - edge) << place;
  });
}

}  // namespace
}  // namespace stakewright::forms

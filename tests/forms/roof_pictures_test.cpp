#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "page_ink.hpp"
#include "sample_jobs.hpp"
#include "stakewright/drawing/files.hpp"
#include "stakewright/forms/pictures.hpp"

namespace stakewright::forms {
namespace {

using base::Units;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr double kEdge_pt = 13.5 * 72.0 / 25.4;  // 14 mm, less half a rule

job::Job roofed(int sides, Units units) {
  job::Job job = plain_job(sides, units);
  job.has_roof = true;
  job.plate_offset_m = 0.07;
  job.roof.overhang_m = 0.45;
  job.roof.pitch = 8.0 / 12.0;
  return job;
}

/// The corners a little off, all measured alike.
roof::FoundCorners strewn(const job::Job& job, double spread_m, unsigned seed) {
  std::mt19937 random(seed);
  std::normal_distribution<double> normal(0.0, spread_m);
  roof::FoundCorners found;
  found.corners = layout::corners_of(job.plan.polygon, job.plan);
  for (base::Point& corner : found.corners)
    corner = corner + base::Point{normal(random), normal(random)};
  const std::size_t size = 2 * found.corners.size();
  found.covariance = base::Matrix(size, size);
  for (std::size_t i = 0; i < size; ++i) found.covariance(i, i) = 1e-6;
  return found;
}

std::vector<Picture> drawn(const job::Job& job, const std::optional<roof::FoundCorners>& found = {},
                           const std::string& asked = "", const char* language = "en") {
  const auto over = [&job](const std::optional<roof::FoundCorners>& corners) {
    return roof::carry(job.plan, job.plate_offset_m, job.roof, job.tolerance, corners);
  };
  results::CarryResult result;
  result.planned = over({});
  if (found) result.cases.push_back({roof::Way::leave, *found, over(found), {}});
  return roof_pictures(job, result, asked, voice_in(job.units, language), usual_paper(job.units));
}

void expect_sound(const Picture& picture, const std::string& words) {
  EXPECT_THAT(collisions(picture.page), IsEmpty()) << picture.name << ", " << words;
  const Box ink = inked_area(picture.page);
  EXPECT_GE(ink.x_pt, kEdge_pt) << picture.name << ", " << words;
  EXPECT_GE(ink.y_pt, kEdge_pt) << picture.name << ", " << words;
  EXPECT_LE(ink.right_pt(), picture.page.width_pt - kEdge_pt) << picture.name << ", " << words;
  EXPECT_LE(ink.bottom_pt(), picture.page.height_pt - kEdge_pt) << picture.name << ", " << words;
  for (const Words& shown : ink_of(picture.page).words)
    EXPECT_FALSE(drawing::text_size(shown.text).cut)
        << picture.name << ", " << words << ": " << shown.text.text;
}

constexpr Units kAllUnits[] = {Units::feet_inches, Units::millimeters, Units::meters};

TEST(RoofPictures, LetNoWordsLieOverOthersOrOverALine) {
  for (int sides = 3; sides <= 24; ++sides) {
    const job::Job job = roofed(sides, kAllUnits[static_cast<std::size_t>(sides) % 3]);
    for (const Picture& picture : drawn(job)) expect_sound(picture, fmt::format("{} sides", sides));
  }
}

TEST(RoofPictures, LetNoWordsCollideOverCornersAsFound) {
  for (int sides = 3; sides <= 24; sides += 3) {
    job::Job job = roofed(sides, kAllUnits[sides % 2]);
    job.plan.facing_rad = 0.4 * sides;
    for (const Picture& picture : drawn(job, strewn(job, 0.006, static_cast<unsigned>(sides))))
      expect_sound(picture, fmt::format("{} sides as found", sides));
  }
}

TEST(RoofPictures, StandUpToRoofsOfAnyShape) {
  std::mt19937 random(71);
  const auto share = [&random](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  for (int k = 0; k < 40; ++k) {
    job::Job job = roofed(3 + k % 14, kAllUnits[k % 3]);
    job.plan.polygon.corner_radius_m = share(1.5, 9.0);
    job.roof.pitch = share(0.1, 1.6);
    job.roof.overhang_m = k % 4 == 0 ? 0.0 : share(0.05, 1.2);
    job.roof.spacing_m = share(0.25, 0.9);
    job.roof.rafter_depth_m = share(0.09, 0.3);
    job.roof.rafter_m = share(0.03, 0.08);
    job.roof.hip_m = share(0.03, 0.1);
    job.roof.hub_m = k % 3 == 0 ? share(0.1, 0.4) : 0.0;
    job.roof.tail = k % 2 == 0 ? roof::Tail::plumb : roof::Tail::square;
    const std::string words =
        fmt::format("roof {}: {} sides, pitch {}", k, job.plan.polygon.sides, job.roof.pitch);
    for (const Picture& picture : drawn(job)) expect_sound(picture, words);
  }
}

TEST(RoofPictures, HaveRoomForEveryLanguage) {
  for (const std::string& language : wording::languages()) {
    for (const int sides : {3, 6, 8}) {
      for (const Units units : {Units::feet_inches, Units::meters}) {
        job::Job job = roofed(sides, units);
        job.roof.tail = sides == 6 ? roof::Tail::plumb : roof::Tail::square;
        const auto found = strewn(job, 0.01, static_cast<unsigned>(sides));
        for (const Picture& picture : drawn(job, found, "hip B", language.c_str()))
          expect_sound(picture, fmt::format("{}, {} sides", language, sides));
      }
    }
  }
}

TEST(RoofPictures, OfFortyEightSidesFitTheirPages) {
  for (const Units units : kAllUnits) {
    const job::Job job = roofed(48, units);
    for (const Picture& picture : drawn(job)) expect_sound(picture, "48 sides");
  }
}

TEST(RoofPictures, AreTheRoofAndEachKindOfPartThatItHas) {
  const auto names = [](const std::vector<Picture>& pictures) {
    std::vector<std::string> result;
    for (const Picture& picture : pictures) result.push_back(picture.name);
    return result;
  };
  job::Job job = roofed(6, Units::feet_inches);
  EXPECT_THAT(names(drawn(job)), ElementsAre("roof", "common", "hip", "jack", "fascia"));
  job.roof.spacing_m = 5.0;  // no room for jacks
  EXPECT_THAT(names(drawn(job)), ElementsAre("roof", "common", "hip", "fascia"));
  EXPECT_THAT(names(drawn(job, {}, "hip C")),
              ElementsAre("roof", "common", "hip", "fascia", "hip C"));
  EXPECT_THAT(names(drawn(job, {}, "hip, C")),
              ElementsAre("roof", "common", "hip", "fascia", "hip, C"));
  EXPECT_THAT(names(drawn(job, {}, "hip Z")), ElementsAre("roof", "common", "hip", "fascia"));
}

TEST(RoofPictures, SayTheFramingSquareOfACommonAndItsHip) {
  // A square building, 8 in 12: common 8 and 12; hip 8 on 17 (16.97), set as 5-11/16 and 12 when 12
  // is held on the run: 12 · 8 / 16.97 = 5.657 (common practice, no source).
  job::Job job = roofed(4, Units::feet_inches);
  job.plan.polygon.corner_radius_m = 3.0;
  const auto pictures = drawn(job);
  EXPECT_THAT(pictures[1].page.description, HasSubstr("hold 8\" and 12\""));
  EXPECT_THAT(pictures[2].page.description, HasSubstr("hold 5-11/16\" and 12\""));
}

TEST(RoofPictures, DrawOnePieceAsItIsToBeCut) {
  const job::Job job = roofed(5, Units::millimeters);
  const auto found = strewn(job, 0.02, 9);
  const roof::Carry carry =
      roof::carry(job.plan, job.plate_offset_m, job.roof, job.tolerance, found);
  const auto pictures = drawn(job, found, "hip C");
  ASSERT_EQ(pictures.back().name, "hip C");
  expect_sound(pictures.back(), "hip C as found");
  const auto hip = std::find_if(carry.parts.begin(), carry.parts.end(), [](const auto& part) {
    return roof::text_from_part(part.name()) == "hip C";
  });
  EXPECT_EQ(
      count_of(pictures.back().page, "line " + base::text_from_length(*hip->line.found, job.units)),
      1);
}

TEST(RoofPictures, StandUpToHardTitles) {
  for (const std::string& title :
       {std::string(200, 'W'), std::string("שלום עולם גג מחומש עם קורות"),
        std::string("Z\u0300\u0301\u0302\u0303\u0304\u0305 tall"),
        std::string("🏕️🪵📐 shelter")}) {
    job::Job job = roofed(6, Units::feet_inches);
    job.title = title;
    for (const Picture& picture : drawn(job))
      EXPECT_THAT(collisions(picture.page), IsEmpty()) << picture.name << ", " << title;
  }
}

TEST(RoofPictures, AreTheSameBytesEveryTime) {
  const job::Job job = roofed(8, Units::millimeters);
  const auto bytes = [&job] {
    std::string all;
    for (const Picture& picture : drawn(job, strewn(job, 0.01, 4)))
      all += drawing::svg(picture.page) + drawing::pdf({picture.page}, "roof");
    return all;
  };
  EXPECT_TRUE(bytes() == bytes());
}

/// Lengths of all lines of a stroke width, in points.
std::vector<double> lines_of_width(const drawing::Page& page, double width_pt) {
  std::vector<double> lengths;
  for (const drawing::Mark& mark : page.marks)
    if (const auto* line = std::get_if<drawing::Line>(&mark))
      if (line->stroke.width_pt == width_pt)
        lengths.push_back(
            std::hypot(line->to.x_pt - line->from.x_pt, line->to.y_pt - line->from.y_pt));
  return lengths;
}

TEST(RoofPlan, DrawsItsHipsToScale) {
  // On a hexagon the hip's run in plan is the corner radius of the eave: that of the plan, and the
  // plate's and the overhang's distance over cos 30 degrees.
  const job::Job job = roofed(6, Units::millimeters);
  const drawing::Page page = drawn(job)[0].page;
  double scale = 0.0;
  for (const drawing::Mark& mark : page.marks)
    if (const auto* text = std::get_if<drawing::Text>(&mark))
      std::sscanf(text->text.c_str(), "Scale 1:%lf", &scale);
  ASSERT_GT(scale, 0.0);
  const double run_m = job.plan.polygon.corner_radius_m + (0.07 + 0.45) / std::cos(M_PI / 6.0);
  const auto hips = lines_of_width(page, 2.4);
  ASSERT_EQ(hips.size(), 7U);  // and the sample in the key
  for (std::size_t k = 0; k < 6; ++k) EXPECT_NEAR(hips[k], run_m * 72.0 / 0.0254 / scale, 0.01);
}

}  // namespace
}  // namespace stakewright::forms

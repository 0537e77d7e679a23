#include "stakewright/drawing/files.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "refusal.hpp"
#include "stakewright/base/error.hpp"

namespace stakewright::drawing {
namespace {

using testing::HasSubstr;

using testing::StartsWith;

Page every_mark() {
  Page page;
  page.width_pt = 200.0;
  page.height_pt = 100.0;
  page.title = "Posts <6> & more";
  page.description = "One of each mark";
  page.marks = {Line{{10, 10}, {50, 10}, {}},
                Polyline{{{10, 20}, {30, 20}, {30, 30}}, {1.0, {3.0, 2.0}}},
                Polygon{{{60, 10}, {80, 10}, {70, 30}}, Fill::black, {}},
                Rectangle{{100, 10, 20, 20}, Fill::white, {}},
                Circle{{150, 20}, 8, Fill::none, {}},
                Arc{{180, 20}, 8, 0.0, 1.0, {}},
                Text{.at = {10, 60}, .text = "Footing A"}};
  return page;
}

unsigned big_endian(std::string_view bytes, std::size_t at) {
  unsigned value = 0;
  for (std::size_t i = at; i < at + 4; ++i)
    value = value << 8U | static_cast<unsigned char>(bytes[i]);
  return value;
}

TEST(Pdf, ComesOutTheSameEveryTime) {
  const std::string once = pdf({every_mark(), every_mark()}, "Orchard shelter");
  EXPECT_THAT(once, StartsWith("%PDF-1."));
  EXPECT_TRUE(once == pdf({every_mark(), every_mark()}, "Orchard shelter"));
  EXPECT_THAT(once, HasSubstr("/CreationDate (20000101000000Z)"));
}

TEST(Svg, ComesOutTheSameEveryTimeAndSaysWhatItShows) {
  const std::string once = svg(every_mark());
  EXPECT_TRUE(once == svg(every_mark()));
  EXPECT_THAT(once, HasSubstr("<title>Posts &lt;6&gt; &amp; more</title>"));
  EXPECT_THAT(once, HasSubstr("<desc>One of each mark</desc>"));
}

// PNG (ISO/IEC 15948), clause 11.2.2: width and height are the first two
// numbers of the first chunk, 16 bytes into the file.
TEST(Png, HasTheWidthAskedForAndThePagesShape) {
  const std::string bytes = png(every_mark(), 640);
  EXPECT_EQ(bytes.substr(1, 3), "PNG");
  EXPECT_EQ(big_endian(bytes, 16), 640U);
  EXPECT_EQ(big_endian(bytes, 20), 320U);
  EXPECT_TRUE(bytes == png(every_mark(), 640));
}

TEST(Png, RefusesAWidthNobodyCanUse) {
  EXPECT_THAT(refusal([] { png(every_mark(), 0); }), HasSubstr("0 pixels wide; 64 to 10000"));
  EXPECT_THROW(png(every_mark(), 10001), base::InputError);
}

// Whatever a mark adds to a page must show in the file: a mark that is not
// drawn would leave the bytes as they were.
TEST(EveryMark, LeavesItsInk) {
  const Page full = every_mark();
  for (std::size_t i = 0; i < full.marks.size(); ++i) {
    Page without = full;
    without.marks.erase(without.marks.begin() + static_cast<std::ptrdiff_t>(i));
    EXPECT_TRUE(png(without, 400) != png(full, 400)) << "mark " << i;
  }
}

TEST(Blank, LeavesNone) {
  Page page = every_mark();
  page.blanks.push_back({"date", {10, 70, 100, 20}});
  EXPECT_TRUE(png(page, 400) == png(every_mark(), 400));
}

}  // namespace
}  // namespace stakewright::drawing

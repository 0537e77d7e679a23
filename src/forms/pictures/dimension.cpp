#include "dimension.hpp"

#include <algorithm>

namespace stakewright::forms {
namespace {

using drawing::At;

constexpr double kTickHalf_pt = 3.5;
constexpr double kClear_pt = 4.0;

void tick(Pen& pen, At at) {
  pen.line({at.x_pt - kTickHalf_pt, at.y_pt + kTickHalf_pt},
           {at.x_pt + kTickHalf_pt, at.y_pt - kTickHalf_pt}, 1.0);
}

}  // namespace

void draw_level_dimension(drawing::Page& page, double left_pt, double right_pt, double y_pt,
                          const std::string& words, const Uprights& uprights) {
  Pen pen(page);
  const double width = width_pt(words);
  const double baseline = y_pt + drawing::cap_height_pt(kText_pt) / 2.0;
  tick(pen, {left_pt, y_pt});
  tick(pen, {right_pt, y_pt});
  const bool divided = uprights.between_pt > left_pt && uprights.between_pt < right_pt;
  const double inner_pt = divided ? uprights.between_pt : right_pt;
  if (inner_pt - left_pt >= width + 2.0 * (kClear_pt + kTickHalf_pt)) {
    const double middle = 0.5 * (left_pt + inner_pt);
    const double half = width / 2.0 + kClear_pt;
    pen.line({left_pt, y_pt}, {middle - half, y_pt}, kThin_pt);
    pen.line({middle + half, y_pt}, {right_pt, y_pt}, kThin_pt);
    pen.text({middle, baseline}, words, {.anchor = drawing::Anchor::middle});
    return;
  }
  constexpr double kTail_pt = 8.0;
  double start = right_pt + kTail_pt;
  if (start + kClear_pt + width + kClear_pt > uprights.beyond_pt)
    start = std::max(start, uprights.beyond_pt + kTail_pt);
  pen.line({left_pt, y_pt}, {start, y_pt}, kThin_pt);
  pen.text({start + kClear_pt, baseline}, words);
}

void draw_extension(drawing::Page& page, double x_pt, double from_pt, double to_pt) {
  Pen(page).line({x_pt, from_pt}, {x_pt, to_pt}, kThin_pt);
}

}  // namespace stakewright::forms

#include "sheet.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "pen.hpp"

namespace stakewright::forms {
namespace {

using drawing::At;
using drawing::Box;

constexpr double kHead_pt = 36.0;
constexpr double kUnderHead_pt = 10.0;
constexpr double kTabHeight_pt = 29.0;
constexpr Style kTabNumber{
    .size_pt = 20.0, .weight = drawing::Weight::bold, .ink = drawing::Ink::white};
constexpr Style kTabName{
    .size_pt = 13.0, .weight = drawing::Weight::bold, .ink = drawing::Ink::white};
constexpr Style kTitle{.size_pt = 13.0, .weight = drawing::Weight::bold};

std::string tab_name(SheetKind kind, const Wording& wording) {
  switch (kind) {
    case SheetKind::stake:
      return wording.text("staking.tab");
    case SheetKind::read:
      return wording.text("reading.tab");
    case SheetKind::move:
      return wording.text("moving.tab");
    case SheetKind::plan:
      break;
  }
  return wording.text("plan.tab");
}

/// White on black, found by a wet thumb; returns its right edge.
double add_tab(Pen& pen, At corner, SheetKind kind, const Wording& wording) {
  const std::string number = std::to_string(static_cast<int>(kind));
  const std::string name = tab_name(kind, wording);
  const double number_width = width_pt(number, kTabNumber);
  const double width = 10.0 + number_width + 8.0 + width_pt(name, kTabName) + 12.0;
  pen.black_box({corner.x_pt, corner.y_pt, width, kTabHeight_pt});
  const double baseline =
      corner.y_pt + (kTabHeight_pt + drawing::cap_height_pt(kTabNumber.size_pt)) / 2.0;
  pen.text({corner.x_pt + 10.0, baseline}, number, kTabNumber);
  pen.text({corner.x_pt + 10.0 + number_width + 8.0, baseline}, name, kTabName);
  return corner.x_pt + width;
}

}  // namespace

Sheet blank_sheet(SheetKind kind, Paper paper) {
  Sheet sheet;
  sheet.kind = kind;
  // ANSI/ASME Y14.1 size A (US Letter), 8.5 by 11 in; ISO 216 A4, 210 by 297 mm.
  const bool letter = paper == Paper::letter;
  sheet.page.width_pt =
      letter ? 8.5 * drawing::kPointsPerInch : 210.0 * drawing::kPointsPerMillimeter;
  sheet.page.height_pt =
      letter ? 11.0 * drawing::kPointsPerInch : 297.0 * drawing::kPointsPerMillimeter;
  return sheet;
}

Box body(const drawing::Page& page) {
  const double top = kClip_pt + kHead_pt + kUnderHead_pt;
  return {kMargin_pt, top, page.width_pt - 2.0 * kMargin_pt, page.height_pt - kMargin_pt - top};
}

void add_heads(std::vector<Sheet>& sheets, const std::string& title, const std::string& mark,
               const std::string& units, const Wording& wording) {
  const std::string fingerprint = wording.filled("head.fingerprint", {{"fingerprint", mark}});
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    drawing::Page& page = sheets[i].page;
    Pen pen(page);
    const double right = page.width_pt - kMargin_pt;
    const double first = kClip_pt + 12.0;
    const double second = first + 15.0;
    const std::string count = wording.filled(
        "head.page", {{"page", std::to_string(i + 1)}, {"pages", std::to_string(sheets.size())}});
    pen.text({right, first}, count, kToTheRight);
    pen.text({right, second}, fingerprint, kToTheRight);
    const double reserved = std::max(width_pt(count), width_pt(fingerprint)) + 12.0;

    const double left = add_tab(pen, {kMargin_pt, kClip_pt}, sheets[i].kind, wording) + 10.0;
    pen.cut_text({left, first}, right - reserved - left, title, kTitle);
    pen.cut_text({left, second}, right - reserved - left, units);
    const double rule = kClip_pt + kHead_pt;
    pen.line({kMargin_pt, rule}, {right, rule}, 2.0);
    page.title = fmt::format("{} - {} - {}", title, tab_name(sheets[i].kind, wording), count);
  }
}

namespace {

constexpr double kCautionPad_pt = 5.0;
constexpr double kUnderCaution_pt = 8.0;

double caution_width_pt(double width_pt) { return width_pt - 2.0 * kCautionPad_pt - 4.0; }

}  // namespace

double height_under_caution_pt(double width_pt, const std::string& words) {
  return paragraph_height_pt(caution_width_pt(width_pt), words, kStrong) + 2.0 * kCautionPad_pt +
         kUnderCaution_pt;
}

Box under_caution(drawing::Page& page, const Box& body, const std::string& words) {
  Pen pen(page);
  const double used = height_under_caution_pt(body.width_pt, words);
  pen.paragraph({body.x_pt + kCautionPad_pt + 2.0, body.y_pt + kCautionPad_pt},
                caution_width_pt(body.width_pt), words, kStrong);
  pen.box({body.x_pt, body.y_pt, body.width_pt, used - kUnderCaution_pt}, 2.0);
  return {body.x_pt, body.y_pt + used, body.width_pt, body.height_pt - used};
}

}  // namespace stakewright::forms

#include "picture_sheet.hpp"

#include <fmt/format.h>

#include <utility>

#include "pen.hpp"

namespace stakewright::forms {
namespace {

using drawing::At;
using drawing::Box;

constexpr double kHead_pt = 36.0;
constexpr double kUnderHead_pt = 10.0;
constexpr double kOverFoot_pt = 8.0;
constexpr Style kTabWords{
    .size_pt = 15.0, .weight = drawing::Weight::bold, .ink = drawing::Ink::white};
constexpr Style kTitle{.size_pt = 13.0, .weight = drawing::Weight::bold};

/// A black tab with white words, as high as a head; returns its right edge.
double add_tab(Pen& pen, At corner, const std::string& words) {
  constexpr double kPad_pt = 11.0;
  constexpr double kTabHeight_pt = 29.0;
  const double width = width_pt(words, kTabWords) + 2.0 * kPad_pt;
  pen.black_box({corner.x_pt, corner.y_pt, width, kTabHeight_pt});
  const double baseline =
      corner.y_pt + (kTabHeight_pt + drawing::cap_height_pt(kTabWords.size_pt)) / 2.0;
  pen.text({corner.x_pt + kPad_pt, baseline}, words, kTabWords);
  return corner.x_pt + width;
}

void add_head(drawing::Page& page, const std::string& title, const PictureHead& head,
              const Voice& voice) {
  Pen pen(page);
  const double right = page.width_pt - kMargin_pt;
  const double first = kMargin_pt + 12.0;
  const double second = first + 15.0;
  const double left = add_tab(pen, {kMargin_pt, kMargin_pt}, voice.text(head.tab)) + 10.0;
  const std::string note = voice.text(head.note);
  const double reserved = note.empty() ? 0.0 : width_pt(note) + 12.0;
  pen.cut_text({left, first}, right - left, title, kTitle);
  pen.cut_text({left, second}, right - reserved - left, voice.text(units_name(voice.units())));
  if (!note.empty()) pen.text({right, second}, note, kToTheRight);
  const double rule = kMargin_pt + kHead_pt;
  pen.line({kMargin_pt, rule}, {right, rule}, 2.0);
}

/// Returns where the foot begins.
double add_foot(drawing::Page& page, const std::string& words) {
  Pen pen(page);
  const double width = page.width_pt - 2.0 * kMargin_pt;
  const double top = page.height_pt - kMargin_pt - paragraph_height_pt(width, words);
  pen.paragraph({kMargin_pt, top}, width, words);
  pen.line({kMargin_pt, top - 3.0}, {page.width_pt - kMargin_pt, top - 3.0}, kRule_pt);
  return top - 3.0;
}

}  // namespace

PictureSheet picture_sheet(const job::Job& job, const PictureHead& head, const Fact& foot, Lie lie,
                           const Voice& voice, Paper paper) {
  PictureSheet sheet{blank_sheet(SheetKind::plan, paper).page, {}};
  if (lie == Lie::sideways) std::swap(sheet.page.width_pt, sheet.page.height_pt);
  sheet.page.title = fmt::format("{} - {}", job.title, voice.text(head.tab));
  add_head(sheet.page, job.title, head, voice);
  const double bottom = add_foot(sheet.page, voice.text(foot)) - kOverFoot_pt;
  const double top = kMargin_pt + kHead_pt + kUnderHead_pt;
  sheet.body = {kMargin_pt, top, sheet.page.width_pt - 2.0 * kMargin_pt, bottom - top};
  return sheet;
}

}  // namespace stakewright::forms

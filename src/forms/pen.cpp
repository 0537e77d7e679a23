#include "pen.hpp"

namespace stakewright::forms {
namespace {

using drawing::Anchor;
using drawing::At;
using drawing::Box;

constexpr double kTickSide_pt = 13.0;

drawing::Text set_in(At at, const std::string& words, const Style& style) {
  return {.at = at,
          .text = words,
          .size_pt = style.size_pt,
          .weight = style.weight,
          .anchor = style.anchor,
          .ink = style.ink};
}

drawing::Text broken(At at, double width_pt, const std::string& words, const Style& style) {
  drawing::Text text = set_in(at, words, style);
  text.fit = drawing::Fit::wrapped;
  text.width_pt = width_pt;
  return text;
}

}  // namespace

void Pen::line(At from, At to, double width_pt, std::vector<double> dash_pt) {
  page_.marks.emplace_back(drawing::Line{from, to, {width_pt, std::move(dash_pt)}});
}

void Pen::box(const Box& box, double width_pt) {
  page_.marks.emplace_back(drawing::Rectangle{box, drawing::Fill::none, {width_pt, {}}});
}

void Pen::black_box(const Box& box) {
  page_.marks.emplace_back(drawing::Rectangle{box, drawing::Fill::black, {0.0, {}}});
}

void Pen::text(At baseline, const std::string& words, const Style& style) {
  page_.marks.emplace_back(set_in(baseline, words, style));
}

void Pen::cut_text(At baseline, double width_pt, const std::string& words, const Style& style) {
  drawing::Text text = set_in(baseline, words, style);
  text.fit = drawing::Fit::cut;
  text.width_pt = width_pt;
  page_.marks.emplace_back(std::move(text));
}

void Pen::in_box(const Box& box, const std::string& words, const Style& style) {
  const double y = box.y_pt + (box.height_pt + drawing::cap_height_pt(style.size_pt)) / 2.0;
  double x = box.x_pt + kCellMargin_pt;
  if (style.anchor == Anchor::middle) x = box.x_pt + box.width_pt / 2.0;
  if (style.anchor == Anchor::end) x = box.right_pt() - kCellMargin_pt;
  cut_text({x, y}, box.width_pt - 2.0 * kCellMargin_pt, words, style);
}

double Pen::paragraph(At top, double width_pt, const std::string& words, const Style& style) {
  const At baseline{top.x_pt, top.y_pt + drawing::ascent_pt(style.size_pt)};
  drawing::Text text = broken(baseline, width_pt, words, style);
  const double height = drawing::text_size(text).height_pt;
  page_.marks.emplace_back(std::move(text));
  return height;
}

void Pen::blank(const std::string& name, const Box& box) {
  page_.blanks.push_back({name, box, drawing::BlankKind::text});
}

void Pen::tick(const std::string& name, const Box& cell) {
  const Box square{cell.x_pt + (cell.width_pt - kTickSide_pt) / 2.0,
                   cell.y_pt + (cell.height_pt - kTickSide_pt) / 2.0, kTickSide_pt, kTickSide_pt};
  box(square, 1.0);
  page_.blanks.push_back({name, square, drawing::BlankKind::tick});
}

double paragraph_height_pt(double width_pt, const std::string& words, const Style& style) {
  return drawing::text_size(broken({}, width_pt, words, style)).height_pt;
}

Box inked_pt(const std::string& words, const Style& style, double width_pt) {
  drawing::Text text = set_in({}, words, style);
  text.fit = drawing::Fit::cut;
  text.width_pt = width_pt;
  return drawing::inked(text);
}

double width_pt(const std::string& words, const Style& style) {
  return drawing::text_size(set_in({}, words, style)).width_pt;
}

}  // namespace stakewright::forms

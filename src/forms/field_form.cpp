#include "stakewright/forms/field_form.hpp"

#include <algorithm>
#include <iterator>

#include "plan_drawing.hpp"
#include "sheet.hpp"
#include "stakewright/base/error.hpp"

namespace stakewright::forms {
namespace {

using base::Name;
using drawing::Box;

constexpr double kGutter_pt = 18.0;
constexpr double kTallestPlan_pt = 420.0;
constexpr double kBetweenItems_pt = 3.0;
constexpr double kItemIndent_pt = 18.0;
constexpr double kPad_pt = 6.0;
constexpr Style kWords{.size_pt = 11.0};
constexpr Style kItemNumber{.size_pt = 11.0, .weight = drawing::Weight::bold};
constexpr Style kHeading{.size_pt = 13.0, .weight = drawing::Weight::bold};
constexpr double kHeading_pt = 19.0;

Fact how_to_start(const FormInput& input) {
  const layout::StakingOrder& order = input.layout.order;
  if (order.sighted)
    return {"plan.start_sighted",
            {{"from", shortened(order.sighted->from)},
             {"stake", Name{order.sighted->stake}},
             {"bearing", base::Angle{order.sighted->bearing_rad, base::AngleStyle::bearing}},
             {"length", base::Length{order.sighted->length_m}}}};
  if (!input.job.plan.pins.empty()) return {"plan.start_pins"};
  return {"plan.start_standing", {{"points", base::names(order.given, base::List::Joint::listed)}}};
}

std::vector<std::string> order_of_work(const FormInput& input) {
  std::vector<std::string> steps;
  for (const std::string& step : input.voice.words().paragraphs("plan.order_of_work"))
    steps.push_back(wording::filled_in(step, {{"start", input.voice.text(how_to_start(input))}}));
  return steps;
}

double items_height_pt(const std::vector<std::string>& items, double width_pt) {
  double height = kHeading_pt;
  for (const std::string& item : items)
    height += paragraph_height_pt(width_pt - kItemIndent_pt, item, kWords) + kBetweenItems_pt;
  return height;
}

/// Items below a heading, each behind its number or a black square.
void add_items(Pen& pen, const Box& box, const std::string& heading,
               const std::vector<std::string>& items, bool numbered) {
  pen.cut_text({box.x_pt, box.y_pt + 12.0}, box.width_pt, heading, kHeading);
  double y = box.y_pt + kHeading_pt;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (numbered)
      pen.text({box.x_pt, y + drawing::ascent_pt(kWords.size_pt)}, std::to_string(i + 1),
               kItemNumber);
    else
      pen.black_box({box.x_pt + 3.0, y + 3.5, 5.0, 5.0});
    y += pen.paragraph({box.x_pt + kItemIndent_pt, y}, box.width_pt - kItemIndent_pt, items[i],
                       kWords) +
         kBetweenItems_pt;
  }
}

Sheet plan_sheet(const FormInput& input) {
  const Voice& voice = input.voice;
  Sheet sheet = blank_sheet(SheetKind::plan, input.choices.paper);
  const Box whole = body(sheet.page);
  const double column = (whole.width_pt - kGutter_pt) / 2.0;
  const auto steps = order_of_work(input);
  const auto& cautions = voice.words().paragraphs("plan.cautions");
  const double words_height =
      2.0 * kPad_pt +
      std::max(items_height_pt(steps, column), items_height_pt(cautions, column - 2.0 * kPad_pt));
  const Box plan{whole.x_pt, whole.y_pt, whole.width_pt,
                 std::min(whole.height_pt - words_height - kGutter_pt, kTallestPlan_pt)};
  draw_plan(sheet.page, plan, input.job, input.layout, voice);

  Pen pen(sheet.page);
  const double top = plan.bottom_pt() + kGutter_pt;
  add_items(pen, {whole.x_pt, top + kPad_pt, column, words_height},
            voice.text("plan.order_heading"), steps, true);
  const Box framed{whole.x_pt + column + kGutter_pt, top, column, words_height};
  pen.box(framed, 2.0);
  add_items(pen, {framed.x_pt + kPad_pt, top + kPad_pt, column - 2.0 * kPad_pt, words_height},
            voice.text("plan.cautions_heading"), cautions, false);
  return sheet;
}

}  // namespace

Paper usual_paper(base::Units units) {
  return units == base::Units::feet_inches ? Paper::letter : Paper::a4;
}

Paper paper_from_text(std::string_view text) {
  if (text == "letter") return Paper::letter;
  if (text == "a4") return Paper::a4;
  throw base::InputError(Fact{"errors.paper", {{"read", base::Quoted{std::string(text)}}}});
}

std::vector<drawing::Page> field_form(const job::Job& job, const results::LayoutResult& layout,
                                      const std::vector<layout::Tape>& tapes, const Voice& voice,
                                      const FormChoices& choices) {
  const FormInput input{job, layout, tapes, voice, choices};
  std::vector<Sheet> sheets{plan_sheet(input)};
  for (auto* make : {staking_sheets, reading_sheets}) {
    auto more = make(input);
    sheets.insert(sheets.end(), std::make_move_iterator(more.begin()),
                  std::make_move_iterator(more.end()));
  }
  return finished(std::move(sheets), job, voice);
}

}  // namespace stakewright::forms

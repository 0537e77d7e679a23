#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "pen.hpp"
#include "plan_drawing.hpp"
#include "plan_key.hpp"
#include "sheets.hpp"
#include "stakewright/base/angle.hpp"

namespace stakewright::forms {
namespace {

using drawing::Box;

constexpr double kGutter_pt = 18.0;
constexpr double kKeyWidth_pt = 178.0;
constexpr double kTallestPlan_pt = 420.0;
constexpr double kBetweenItems_pt = 3.0;
constexpr double kItemIndent_pt = 18.0;
constexpr double kPad_pt = 6.0;
constexpr Style kWords{.size_pt = 11.0};
constexpr Style kHeading{.size_pt = 13.0, .weight = drawing::Weight::bold};
constexpr double kHeading_pt = 19.0;

std::string how_to_start(const FormInput& input) {
  const layout::StakingOrder& order = input.layout.order;
  const Wording& wording = input.wording;
  if (order.sighted) {
    return wording.filled(
        "plan.start_sighted",
        {{"from", shortened(order.sighted->from)},
         {"stake", order.sighted->stake},
         {"bearing", base::text_from_bearing(order.sighted->bearing_rad)},
         {"length", base::text_from_length(order.sighted->length_m, input.choices.units)}});
  }
  if (!input.job.plan.pins.empty()) return wording.text("plan.start_pins");
  return wording.filled("plan.start_standing",
                        {{"points", fmt::format("{}", fmt::join(order.given, ", "))}});
}

std::vector<std::string> order_of_work(const FormInput& input) {
  std::vector<std::string> steps;
  for (const std::string& step : input.wording.paragraphs("plan.order_of_work"))
    steps.push_back(wording::filled_in(step, {{"start", how_to_start(input)}}));
  return steps;
}

double items_height_pt(const std::vector<std::string>& items, double width_pt) {
  double height = kHeading_pt;
  for (const std::string& item : items)
    height += paragraph_height_pt(width_pt - kItemIndent_pt, item, kWords) + kBetweenItems_pt;
  return height;
}

void add_order_of_work(Pen& pen, const Box& box, const std::string& heading,
                       const std::vector<std::string>& steps) {
  pen.cut_text({box.x_pt, box.y_pt + 12.0}, box.width_pt, heading, kHeading);
  double y = box.y_pt + kHeading_pt;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    pen.text({box.x_pt, y + drawing::ascent_pt(kWords.size_pt)}, std::to_string(i + 1),
             {.size_pt = kWords.size_pt, .weight = drawing::Weight::bold});
    y += pen.paragraph({box.x_pt + kItemIndent_pt, y}, box.width_pt - kItemIndent_pt, steps[i],
                       kWords) +
         kBetweenItems_pt;
  }
}

void add_cautions(Pen& pen, const Box& box, const std::string& heading,
                  const std::vector<std::string>& cautions) {
  pen.cut_text({box.x_pt, box.y_pt + 12.0}, box.width_pt, heading, kHeading);
  double y = box.y_pt + kHeading_pt;
  for (const std::string& caution : cautions) {
    pen.black_box({box.x_pt + 3.0, y + 3.5, 5.0, 5.0});
    y += pen.paragraph({box.x_pt + kItemIndent_pt, y}, box.width_pt - kItemIndent_pt, caution,
                       kWords) +
         kBetweenItems_pt;
  }
}

}  // namespace

std::vector<Sheet> plan_sheets(const FormInput& input) {
  const Wording& wording = input.wording;
  Sheet sheet = blank_sheet(SheetKind::plan, input.choices.paper);
  const Box whole = body(sheet.page);
  const double column = (whole.width_pt - kGutter_pt) / 2.0;
  const auto steps = order_of_work(input);
  const auto& cautions = wording.paragraphs("plan.cautions");
  const double words_height =
      2.0 * kPad_pt +
      std::max(items_height_pt(steps, column), items_height_pt(cautions, column - 2.0 * kPad_pt));
  const double drawing_height =
      std::min(whole.height_pt - words_height - kGutter_pt, kTallestPlan_pt);

  const Box plan{whole.x_pt, whole.y_pt, whole.width_pt - kKeyWidth_pt - kGutter_pt,
                 drawing_height};
  const Drawn drawn = draw_plan(sheet.page, plan, input.job, input.layout, input.choices.units);
  draw_key(sheet.page, {plan.right_pt() + kGutter_pt, whole.y_pt, kKeyWidth_pt, drawing_height},
           input.job, input.layout, drawn, input.choices.units, wording);

  Pen pen(sheet.page);
  const double top = plan.bottom_pt() + kGutter_pt;
  add_order_of_work(pen, {whole.x_pt, top + kPad_pt, column, words_height},
                    wording.text("plan.order_heading"), steps);
  const Box framed{whole.x_pt + column + kGutter_pt, top, column, words_height};
  pen.box(framed, 2.0);
  add_cautions(pen, {framed.x_pt + kPad_pt, top + kPad_pt, column - 2.0 * kPad_pt, words_height},
               wording.text("plan.cautions_heading"), cautions);
  return {std::move(sheet)};
}

}  // namespace stakewright::forms

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "picture_sheet.hpp"
#include "plan_drawing.hpp"
#include "plan_key.hpp"
#include "stakewright/forms/fingerprint.hpp"

namespace stakewright::forms {
namespace {

using drawing::Box;

constexpr double kKeyWidth_pt = 178.0;
constexpr double kGutter_pt = 18.0;

std::string description(const job::Job& job, const Wording& wording, base::Units units) {
  const auto labels = layout::corner_labels(job.plan.polygon.sides);
  return wording.filled(
      "pictures.plan_description",
      {{"sides", std::to_string(job.plan.polygon.sides)},
       {"line", job.plan.measured_to},
       {"first", labels.front()},
       {"last", labels.back()},
       {"side", base::text_from_length(layout::side_m(job.plan.polygon), units)},
       {"radius", base::text_from_length(job.plan.polygon.corner_radius_m, units)}});
}

}  // namespace

std::vector<Picture> plan_pictures(const job::Job& job, const results::LayoutResult& layout,
                                   const Wording& wording, const PictureChoices& choices) {
  const std::string mark =
      wording.filled("head.fingerprint", {{"fingerprint", fingerprint(job.plan)}});
  PictureSheet sheet =
      picture_sheet(job, {wording.text("plan.tab"), mark}, wording.text("pictures.plan_foot"),
                    Lie::sideways, wording, choices);
  sheet.page.description = description(job, wording, choices.units);
  const Box& body = sheet.body;
  const Box plan{body.x_pt, body.y_pt, body.width_pt - kKeyWidth_pt - kGutter_pt, body.height_pt};
  const Drawn drawn = draw_plan(sheet.page, plan, job, layout, choices.units);
  draw_key(sheet.page, {plan.right_pt() + kGutter_pt, body.y_pt, kKeyWidth_pt, body.height_pt}, job,
           layout, drawn, choices.units, wording);
  return {{"plan", std::move(sheet.page)}};
}

}  // namespace stakewright::forms

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "corner_table.hpp"
#include "found_drawing.hpp"
#include "found_marks.hpp"
#include "key_column.hpp"
#include "pen.hpp"
#include "picture_sheet.hpp"
#include "stakewright/forms/fingerprint.hpp"
#include "stakewright/told/suspects.hpp"
#include "stakewright/wording/voice.hpp"

namespace stakewright::forms {
namespace {

using drawing::At;
using drawing::Box;

constexpr double kKeyWidth_pt = 176.0;
constexpr double kGutter_pt = 14.0;
constexpr double kLeastSuspects_pt = 84.0;
/// Below a table over the whole width, where the drawing and its key need the height more.
constexpr double kLeastBelow_pt = 56.0;
constexpr Style kHeading{.size_pt = 12.0, .weight = drawing::Weight::bold};

/// A round length whose enlarged bar fits, in meters.
double enlarged_bar_m(const FoundView& found, double room_pt, base::Units units) {
  constexpr std::array<double, 12> kInches{1.0 / 16, 1.0 / 8, 1.0 / 4, 1.0 / 2, 1.0,   2.0,
                                           3.0,      6.0,     12.0,    60.0,    120.0, 1200.0};
  constexpr std::array<double, 12> kMillimeters{1.0,   2.0,   5.0,   10.0,   20.0,   50.0,
                                                100.0, 200.0, 500.0, 1000.0, 5000.0, 50000.0};
  const bool inches = units == base::Units::feet_inches;
  const double unit_m = inches ? 0.0254 : 0.001;
  double best = unit_m * (inches ? kInches : kMillimeters).front();
  for (const double step : inches ? kInches : kMillimeters)
    if (found.enlarged_pt(step * unit_m) <= room_pt) best = step * unit_m;
  return best;
}

void add_enlarged(KeyColumn& key, const FoundView& found, base::Units units,
                  const Wording& wording) {
  if (!found.any_found) return;
  const std::string factor = fmt::format("{:g}", found.factor);
  key.add_words(wording.filled("pictures.enlarged", {{"factor", factor}}), kStrong);
  const double length_m = enlarged_bar_m(found, kKeyWidth_pt - 60.0, units);
  key.add_bar(found.enlarged_pt(length_m), base::text_from_length(length_m, units));
  key.add_paragraph(wording.text("pictures.enlarged_what"));
  key.skip(6.0);
}

void add_found_marks(KeyColumn& key, const FoundView& found, const FoundDrawn& drawn,
                     const Wording& wording) {
  const auto add = [&key, &wording](placement::Verdict verdict, const char* words) {
    key.add_mark([verdict](drawing::Page& page, At at) { draw_found(page, at, verdict); },
                 wording.text(words));
  };
  key.add_mark(draw_wanted, wording.text("pictures.wanted"));
  if (found.any_found) add(placement::Verdict::in, "pictures.found_in");
  if (drawn.out) add(placement::Verdict::out, "pictures.found_out");
  if (drawn.undecided) add(placement::Verdict::undecided, "pictures.found_undecided");
  if (drawn.not_fixed) key.add_mark(draw_not_fixed, wording.text("pictures.found_not_fixed"));
}

void draw_tolerance(drawing::Page& page, At at) {
  page.marks.emplace_back(drawing::Circle{at, 5.5, drawing::Fill::none, tolerance_stroke()});
}

void draw_ellipse(drawing::Page& page, At at) {
  page.marks.emplace_back(drawing::Polygon{ellipse_points(at, 9.0, 4.5, std::numbers::pi / 2.0),
                                           drawing::Fill::none, ellipse_stroke()});
}

void add_line_marks(KeyColumn& key, const job::Job& job, const FoundView& found,
                    const FoundDrawn& drawn, base::Units units, const Wording& wording) {
  key.add_line(planned_stroke(), wording.text("pictures.planned_line"));
  if (found.any_found) key.add_line(found_stroke(), wording.text("pictures.found_line"));
  if (drawn.tolerance)
    key.add_mark(
        draw_tolerance,
        wording.filled("pictures.tolerance",
                       {{"tolerance", base::text_from_length(job.tolerance.corner_m, units)}}));
  if (found.any_found)
    key.add_mark(
        draw_ellipse,
        wording.filled("pictures.ellipse",
                       {{"chance", fmt::format("{:g}", 100.0 * job.tolerance.confidence)}}));
  if (drawn.moves) key.add_sample(draw_move, wording.text("pictures.move"));
  if (drawn.hatched) key.add_sample(draw_hatched, wording.text("pictures.suspect_tape"));
  if (drawn.left_out) key.add_line(left_out_stroke(), wording.text("pictures.left_out_tape"));
  if (!drawn.numbered.empty())
    key.add_mark(
        [&drawn](drawing::Page& page, At at) {
          draw_number(page, at, std::to_string(drawn.numbered.front() + 1));
        },
        wording.text("pictures.suspect_number"));
}

void draw_found_key(drawing::Page& page, const Box& box, const job::Job& job,
                    const FoundView& found, const FoundDrawn& drawn, base::Units units,
                    const Wording& wording) {
  KeyColumn key(page, box, units, wording);
  key.add_forward_arrow();
  key.add_scale(found.view.scale);
  add_enlarged(key, found, units, wording);
  add_found_marks(key, found, drawn, wording);
  add_line_marks(key, job, found, drawn, units, wording);
  if (drawn.labels_thinned) key.add_paragraph(wording.text("pictures.thinned"));
}

/// What the numbers may mean, likeliest first, as many as there is room for.
void draw_suspects(drawing::Page& page, const Box& box, const check::Findings& findings,
                   const FoundView& found, const wording::Voice& voice) {
  const Wording& wording = voice.words();
  constexpr double kNumber_pt = 16.0;
  constexpr double kBetween_pt = 3.0;
  Pen pen(page);
  pen.cut_text({box.x_pt, box.y_pt + 12.0}, box.width_pt, wording.text("pictures.suspects_heading"),
               kHeading);
  double y = box.y_pt + 19.0;
  const auto add = [&](const std::string& number, const std::string& words) {
    const double height = paragraph_height_pt(box.width_pt - kNumber_pt, words);
    if (y + height > box.bottom_pt()) return false;
    if (!number.empty()) pen.text({box.x_pt, y + drawing::ascent_pt(kText_pt)}, number, kStrong);
    pen.paragraph({box.x_pt + kNumber_pt, y}, box.width_pt - kNumber_pt, words);
    y += height + kBetween_pt;
    return true;
  };
  if (!found.any_found) add("", wording.text("pictures.nothing_found"));
  if (findings.suspects.remark) add("", voice.text(*findings.suspects.remark));
  const auto& ranked = findings.suspects.ranked;
  for (std::size_t k = 0; k < ranked.size(); ++k) {
    const base::Fact said{"pictures.suspect",
                          {{"chance", base::Chance{ranked[k].chance}},
                           {"words", told::explanation(findings.network, ranked[k].causes)}}};
    if (!add(std::to_string(k + 1), voice.text(said))) break;
  }
}

std::string description(const check::Findings& findings, const FoundView& found,
                        const Wording& wording, base::Units units) {
  std::string words =
      wording.filled("pictures.found_description", {{"factor", fmt::format("{:g}", found.factor)}});
  for (std::size_t i = 0; i < found.corners.size(); ++i) {
    const std::string& label = findings.network.points[i].label;
    const FoundCorner& corner = found.corners[i];
    words +=
        ' ' + (corner.off
                   ? wording.filled(
                         "pictures.corner_description",
                         {{"corner", label},
                          {"verdict", verdict_words(corner.verdict, wording)},
                          {"distance", base::text_from_length(base::norm_m(*corner.off), units)}})
                   : wording.filled("pictures.corner_not_fixed", {{"corner", label}}));
  }
  return words;
}

}  // namespace

std::vector<Picture> found_pictures(const job::Job& job, const check::Findings& findings,
                                    const Wording& wording, const PictureChoices& choices) {
  const std::string mark =
      wording.filled("head.fingerprint", {{"fingerprint", fingerprint(job.plan)}});
  PictureSheet sheet =
      picture_sheet(job, {wording.text("pictures.found_tab"), mark},
                    wording.text("pictures.found_foot"), Lie::upright, wording, choices);
  const Box& body = sheet.body;
  const std::size_t corners = findings.network.corner_count;
  const double table_width = corner_table_width_pt(corners, body.width_pt);
  const double table_height = corner_table_height_pt(corners);
  const bool beside = table_width < body.width_pt;
  const double words_height = beside ? std::max(table_height, kLeastSuspects_pt)
                                     : table_height + kGutter_pt + kLeastBelow_pt;
  const double drawing_height = body.height_pt - words_height - kGutter_pt;
  const Box plan{body.x_pt, body.y_pt, body.width_pt - kKeyWidth_pt - kGutter_pt, drawing_height};
  const FoundView found = found_view(job, findings, plan, choices.units);
  const FoundDrawn drawn = draw_found_plan(sheet.page, plan, job, findings, found, wording);
  draw_found_key(sheet.page,
                 {plan.right_pt() + kGutter_pt, body.y_pt, kKeyWidth_pt, drawing_height}, job,
                 found, drawn, choices.units, wording);
  const double top = body.y_pt + drawing_height + kGutter_pt;
  draw_corner_table(sheet.page, {body.x_pt, top, table_width, table_height}, findings,
                    choices.units, wording);
  const double suspects_x = beside ? body.x_pt + table_width + kGutter_pt : body.x_pt;
  const double suspects_y = beside ? top : top + table_height + kGutter_pt;
  draw_suspects(
      sheet.page,
      {suspects_x, suspects_y, body.right_pt() - suspects_x, body.bottom_pt() - suspects_y},
      findings, found, {wording, choices.units});
  sheet.page.description = description(findings, found, wording, choices.units);
  return {{"found", std::move(sheet.page)}};
}

}  // namespace stakewright::forms

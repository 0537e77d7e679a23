#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cut_list.hpp"
#include "found_marks.hpp"
#include "key_column.hpp"
#include "part_pictures.hpp"
#include "pen.hpp"
#include "picture_sheet.hpp"
#include "piece_list.hpp"
#include "roof_words.hpp"
#include "stakewright/base/angle.hpp"
#include "stick_view.hpp"

namespace stakewright::forms {
namespace {

using drawing::Box;
using roof::PartKind;

constexpr double kColumn_pt = 224.0;
constexpr double kGutter_pt = 20.0;

void add_figures(KeyColumn& key, const PartInput& input, const roof::Part& part,
                 const StickShape& stick) {
  const Wording& wording = input.wording;
  const auto add = [&](const char* name, double length_m) {
    key.add_figure(wording.text(name), length_m);
  };
  add("pictures.thickness", stick.thickness_m);
  add("pictures.depth", stick.depth_m);
  key.add_figure(wording.text("pictures.slope"), base::text_from_angle(stick.slope_rad));
  add("pictures.line_length", stick.line_m);
  if (stick.shortening_m > 0.0) add("pictures.shortening", stick.shortening_m);
  add("pictures.tail_length", stick.tail_m);
  add("pictures.overall", stick.overall_m);
  add("pictures.stick", part.stick_m);
  key.skip(5.0);
}

/// The end of a hip: how far its top falls to either side when it is backed.
void draw_backing(drawing::Page& page, const Box& box, const StickShape& stick,
                  const PartInput& input, const roof::Part& part, const std::string& number) {
  const auto cuts = cuts_of(input.carry, part.name(), roof::CutName::backing);
  if (cuts.empty()) return;
  Pen pen(page);
  const Scale scale = scale_for(stick.depth_m, 42.0, input.choices.units);
  const double k = scale.points_per_meter();
  const double half = 0.5 * k * stick.thickness_m;
  const double left = box.x_pt + 6.0;
  const double top = box.y_pt + 18.0;
  const double bottom = top + k * stick.depth_m;
  const double fall_left = half * std::tan(angle_to_cut_rad(*cuts.front()));
  const double fall_right = half * std::tan(angle_to_cut_rad(*cuts.back()));
  pen.text({box.x_pt, box.y_pt + kText_pt}, input.wording.text("pictures.section"));
  page.marks.emplace_back(drawing::Polygon{{{left, top + fall_left},
                                            {left + half, top},
                                            {left + 2.0 * half, top + fall_right},
                                            {left + 2.0 * half, bottom},
                                            {left, bottom}},
                                           drawing::Fill::none,
                                           {1.5, {}}});
  page.marks.emplace_back(drawing::Polyline{{{left, top + fall_left},
                                             {left, top},
                                             {left + 2.0 * half, top},
                                             {left + 2.0 * half, top + fall_right}},
                                            {kThin_pt, {3.0, 2.0}}});
  const double words_x = left + 2.0 * half + 10.0;
  draw_number(page, {words_x + kSuspectRadius_pt, top + kSuspectRadius_pt}, number);
  pen.cut_text({words_x + 22.0, top + 11.0}, box.right_pt() - words_x - 22.0,
               input.wording.filled(
                   "pictures.fall",
                   {{"length", base::text_from_length(0.5 * stick.thickness_m *
                                                          std::tan(angle_to_cut_rad(*cuts.front())),
                                                      input.choices.units)}}));
}

std::string title_of(const PartInput& input, const roof::Part& part, bool by_name) {
  const std::string kind = input.wording.text(fmt::format("pictures.{}_tab", name_of(part.kind)));
  return by_name ? kind + ' ' + roof::text_from_place(part.at) : kind;
}

std::string note_of(const PartInput& input, const roof::Part& part, bool by_name) {
  if (by_name && part.fit == roof::Fit::own) return input.wording.text("pictures.own_piece");
  return input.wording.text("pictures.pattern");
}

std::string description(const PartInput& input, const StickShape& stick, const CutList& cuts,
                        const std::string& title) {
  const auto length = [&](double length_m) {
    return base::text_from_length(length_m, input.choices.units);
  };
  std::string words = input.wording.filled("pictures.rafter_description",
                                           {{"part", title},
                                            {"line", length(stick.line_m)},
                                            {"shortening", length(stick.shortening_m)},
                                            {"tail", length(stick.tail_m)},
                                            {"overall", length(stick.overall_m)}});
  for (const CutWords& cut : cuts.cuts) words += ' ' + cut.heading + ": " + cut.words;
  return words;
}

}  // namespace

Picture rafter_picture(const PartInput& input, const roof::Part& part, bool by_name) {
  const std::string title = title_of(input, part, by_name);
  PictureSheet sheet = picture_sheet(input.job, {title, note_of(input, part, by_name)},
                                     input.wording.text("pictures.part_foot"), Lie::sideways,
                                     input.wording, input.choices);
  const Box& body = sheet.body;
  const StickShape stick = stick_shape(input.carry, input.job.roof, part);
  const CutList cuts = rafter_cuts(input, part);
  const StickDrawn drawn =
      draw_stick(sheet.page, body, stick, cuts.numbers, input.choices.units, input.wording);
  const double top = drawn.bottom_pt + 10.0;
  const Box column{body.right_pt() - kColumn_pt, top, kColumn_pt, body.bottom_pt() - top};
  draw_cut_list(sheet.page,
                {body.x_pt, top, body.width_pt - kColumn_pt - kGutter_pt, column.height_pt}, cuts);
  KeyColumn key(sheet.page, column, input.choices.units, input.wording);
  const std::string scale = input.wording.filled("plan.scale", {{"scale", drawn.scale.words}});
  key.add_words(scale, kStrong);
  if (drawn.broken) key.add_words(input.wording.text("pictures.broken"));
  add_figures(key, input, part, stick);
  if (part.kind == PartKind::hip) {
    draw_backing(sheet.page, {column.x_pt, key.y_pt(), column.width_pt, 64.0}, stick, input, part,
                 std::to_string(cuts.cuts.size()));
    key.skip(66.0);
  }
  if (!by_name) add_pieces_like(key, input, part.kind);
  sheet.page.description = description(input, stick, cuts, title);
  return {std::string(name_of(part.kind)), std::move(sheet.page)};
}

}  // namespace stakewright::forms

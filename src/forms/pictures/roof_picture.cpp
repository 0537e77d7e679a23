#include <algorithm>
#include <cmath>

#include "key_column.hpp"
#include "part_pictures.hpp"
#include "pen.hpp"
#include "picture_sheet.hpp"
#include "piece_rows.hpp"
#include "roof_plan.hpp"
#include "roof_words.hpp"

namespace stakewright::forms {
namespace {

using drawing::Box;
using roof::PartKind;

constexpr double kKeyWidth_pt = 248.0;
constexpr double kGutter_pt = 14.0;

struct RoofSheet {
  const job::Job& job;
  const roof::Carry& carry;
  const RoofDrawn& drawn;
  base::Units units;
  const Wording& wording;
  bool found = false;
};

std::string length_words(double length_m, const RoofSheet& roof) {
  return base::text_from_length(length_m, roof.units);
}

void add_sizes(KeyColumn& key, const RoofSheet& roof) {
  const Wording& wording = roof.wording;
  const SquareHold pitch = square_hold(roof.job.roof.pitch, roof.units);
  key.add_figure(wording.text("pictures.pitch"),
                 wording.filled("pictures.pitch_figure",
                                {{"rise", pitch.angle_arm}, {"run", pitch.other_arm}}));
  key.add_figure(wording.text("pictures.peak"), roof.carry.apex.height_m);
  if (!roof.found) {
    const auto plate = layout::parallel(roof.job.plan.polygon, roof.job.plate_offset_m);
    key.add_figure(wording.text("pictures.plate_side"), layout::side_m(plate));
  }
  key.add_figure(wording.text("pictures.overhang"), roof.job.roof.overhang_m);
  key.skip(6.0);
}

std::string piece_name(const PieceRow& row, const Wording& wording) {
  const std::string kind = kind_words(row.kind, wording);
  return row.number == 0 ? kind : kind + ' ' + std::to_string(row.number);
}

/// As fine as it has meaning and as the column is wide.
std::string off_words(double off_m, base::Units units) {
  constexpr double kInch_m = 0.0254;
  if (off_m < kInch_m) return base::text_from_small_length(off_m, units);
  return base::text_from_length(off_m, units, off_m < 12.0 * kInch_m ? 16 : 1);
}

/// One row of the list of pieces: a name, how many, and two figures that are never cut.
void add_piece(drawing::Page& page, const Box& box, double y, const PieceRow& row,
               const RoofSheet& roof) {
  constexpr double kCount_pt = 62.0;
  Pen pen(page);
  const double baseline = y + kText_pt;
  const double second = box.right_pt();
  const double first = second - (roof.found ? 62.0 : 80.0);
  pen.cut_text({box.x_pt, baseline}, kCount_pt - 4.0, piece_name(row, roof.wording), kStrong);
  const std::string count =
      roof.found ? roof.wording.filled("pictures.own_count", {{"own", std::to_string(row.own)},
                                                              {"count", std::to_string(row.count)}})
                 : std::to_string(row.count);
  pen.text({box.x_pt + kCount_pt, baseline}, count);
  if (row.kind != PartKind::post || roof.found)
    pen.text({first, baseline}, length_words(row.line_m, roof), kToTheRight);
  const std::string last = roof.found ? (row.farthest_m > 0.0   ? "+"
                                         : row.farthest_m < 0.0 ? "−"
                                                                : "") +
                                            off_words(std::abs(row.farthest_m), roof.units)
                                      : length_words(row.overall_m, roof);
  pen.text({second, baseline}, last, kToTheRight);
}

void add_pieces(drawing::Page& page, KeyColumn& key, const Box& box, const RoofSheet& roof,
                std::size_t kept_rows) {
  const Wording& wording = roof.wording;
  constexpr double kRow_pt = 15.0;
  key.add_words(
      wording.text(roof.found ? "pictures.pieces_found_heading" : "pictures.pieces_heading"),
      kStrong);
  const std::vector<PieceRow> rows = piece_rows(roof.carry);
  const std::size_t room = key.rows_left() > kept_rows ? key.rows_left() - kept_rows : 0;
  // Where room is short the shortest jacks give way; they stand on the drawing of the jack.
  const auto all_jacks = static_cast<std::size_t>(std::count_if(
      rows.begin(), rows.end(), [](const PieceRow& row) { return row.kind == PartKind::jack; }));
  const std::size_t more =
      rows.size() > room ? std::min(all_jacks, rows.size() - room + 1) : std::size_t{0};
  std::size_t jacks = 0;
  for (const PieceRow& row : rows) {
    if (row.kind == PartKind::jack && ++jacks + more > all_jacks) continue;
    add_piece(page, box, key.y_pt(), row, roof);
    key.skip(kRow_pt);
  }
  if (more > 0)
    key.add_words(wording.filled("pictures.more_pieces", {{"count", std::to_string(more)}}));
  key.skip(6.0);
}

void add_marks(KeyColumn& key, const RoofSheet& roof) {
  const Wording& wording = roof.wording;
  for (const PartKind kind : {PartKind::hip, PartKind::common, PartKind::jack})
    if (kind != PartKind::jack || roof.drawn.jacks)
      key.add_line(rafter_stroke(kind), kind_words(kind, wording));
  key.add_line(plate_stroke(), wording.text("pictures.plate_line"));
  key.add_line(eave_stroke(), wording.text("pictures.eave_line"));
  if (roof.drawn.own) key.add_mark(draw_own_mark, wording.text("pictures.own_cut"));
  if (roof.drawn.jacks)
    key.add_words(wording.text(roof.drawn.jacks_numbered ? "pictures.jacks_numbered"
                                                         : "pictures.jacks_not_numbered"));
  if (roof.found) key.add_words(wording.text("pictures.each_piece"));
}

/// Rows that the marks take, so that the list of pieces leaves room for them.
std::size_t mark_rows(const RoofSheet& roof) {
  return 5U + (roof.drawn.jacks ? 2U : 0U) + (roof.drawn.own ? 1U : 0U) + (roof.found ? 1U : 0U);
}

std::string description(const RoofSheet& roof) {
  const auto jacks =
      std::count_if(roof.carry.parts.begin(), roof.carry.parts.end(),
                    [](const roof::Part& part) { return part.kind == PartKind::jack; });
  return roof.wording.filled("pictures.roof_description",
                             {{"sides", std::to_string(roof.job.plan.polygon.sides)},
                              {"jacks", std::to_string(jacks)},
                              {"height", length_words(roof.carry.apex.height_m, roof)}});
}

Picture roof_sheet(const PartInput& input, const roof::FoundCorners* found) {
  const bool is_found = found != nullptr && has_found(input.carry);
  PictureSheet sheet = picture_sheet(
      input.job,
      {input.wording.text(is_found ? "pictures.roof_found_tab" : "pictures.roof_tab"), ""},
      input.wording.text("pictures.roof_foot"), Lie::sideways, input.wording, input.choices);
  const Box& body = sheet.body;
  const Box plan{body.x_pt, body.y_pt, body.width_pt - kKeyWidth_pt - kGutter_pt, body.height_pt};
  const RoofLines lines = roof_lines(input.job, input.carry, found);
  const RoofDrawn drawn =
      draw_roof_plan(sheet.page, plan, input.job, input.carry, lines, input.choices.units);
  const RoofSheet roof{input.job, input.carry, drawn, input.choices.units, input.wording, is_found};
  const Box column{plan.right_pt() + kGutter_pt, body.y_pt, kKeyWidth_pt, body.height_pt};
  KeyColumn key(sheet.page, column, input.choices.units, input.wording);
  key.add_forward_arrow();
  key.add_scale(drawn.scale);
  add_sizes(key, roof);
  add_pieces(sheet.page, key, column, roof, mark_rows(roof));
  add_marks(key, roof);
  sheet.page.description = description(roof);
  return {"roof", std::move(sheet.page)};
}

const roof::Part* first_of(const roof::Carry& carry, PartKind kind) {
  const auto part = std::find_if(carry.parts.begin(), carry.parts.end(),
                                 [kind](const roof::Part& one) { return one.kind == kind; });
  return part == carry.parts.end() ? nullptr : &*part;
}

Picture part_picture(const PartInput& input, const roof::Part& part, bool by_name) {
  return part.kind == PartKind::fascia ? fascia_picture(input, part, by_name)
                                       : rafter_picture(input, part, by_name);
}

bool is_drawn(PartKind kind) {
  return kind == PartKind::hip || kind == PartKind::common || kind == PartKind::jack ||
         kind == PartKind::fascia;
}

}  // namespace

std::vector<Picture> roof_pictures(const job::Job& job, const results::CarryResult& result,
                                   const std::string& asked, const Wording& wording,
                                   const PictureChoices& choices) {
  const results::RoofCase* found = result.to_cut_by();
  const roof::Carry& carry = found == nullptr ? result.planned : found->carry;
  const PartInput whole{job, carry, carry, wording, choices};
  std::vector<Picture> pictures{roof_sheet(whole, found == nullptr ? nullptr : &found->corners)};
  // Parts are drawn as the pattern, which a carry over found corners does not keep.
  const PartInput of_pattern{job, result.planned, carry, wording, choices};
  for (const PartKind kind : {PartKind::common, PartKind::hip, PartKind::jack, PartKind::fascia})
    if (const roof::Part* part = first_of(result.planned, kind))
      pictures.push_back(part_picture(of_pattern, *part, false));
  const auto name = roof::part_from_text(asked, job.plan.polygon.sides);
  for (const roof::Part& part : carry.parts) {
    if (!is_drawn(part.kind) || part.name() != name) continue;
    pictures.push_back(part_picture(whole, part, true));
    pictures.back().name = asked;
  }
  return pictures;
}

}  // namespace stakewright::forms

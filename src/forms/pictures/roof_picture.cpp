#include <algorithm>
#include <cmath>
#include <optional>

#include "part_pictures.hpp"
#include "pen.hpp"
#include "picture_sheet.hpp"
#include "roof_plan.hpp"

namespace stakewright::forms {
namespace {

using base::Count;
using base::Length;
using drawing::Box;
using roof::PartKind;

constexpr double kKeyWidth_pt = 248.0;
constexpr double kGutter_pt = 14.0;

struct RoofSheet {
  const job::Job& job;
  const roof::Carry& carry;
  const RoofDrawn& drawn;
  const Voice& voice;
  bool found = false;
};

void add_sizes(KeyColumn& key, const RoofSheet& roof) {
  const told::SquareHold pitch = told::square_hold(roof.job.roof.pitch, roof.voice.units());
  key.add_figure(
      Fact{"pictures.pitch"},
      Fact{"pictures.pitch_figure", {{"rise", pitch.angle_arm}, {"run", pitch.other_arm}}});
  key.add_figure(Fact{"pictures.peak"}, Length{roof.carry.apex.height_m});
  if (!roof.found) {
    const auto plate = layout::parallel(roof.job.plan.polygon, roof.job.plate_offset_m);
    key.add_figure(Fact{"pictures.plate_side"}, Length{layout::side_m(plate)});
  }
  key.add_figure(Fact{"pictures.overhang"}, Length{roof.job.roof.overhang_m});
  key.skip(6.0);
}

/// A row of the list of pieces, told: a name, how many, and two figures that are never cut.
struct PieceWords {
  std::string name;
  std::string count;
  std::string planned;
  std::string last;  ///< overall; as found, the difference of the piece that is off most
};

std::string signed_text(double length_m, const Voice& voice) {
  const auto text = [&voice](double m) { return voice.text(Length{m, base::Step::fine}); };
  const std::string size = text(std::abs(length_m));
  if (size == text(0.0)) return size;
  return (length_m > 0.0 ? "+" : "−") + size;
}

PieceWords words_of(const PieceRow& row, const RoofSheet& roof) {
  const Voice& voice = roof.voice;
  PieceWords words{voice.text(kind_name(row.kind)), std::to_string(row.count),
                   voice.text(Length{row.line_m}), voice.text(Length{row.overall_m})};
  if (row.number > 0) words.name += ' ' + std::to_string(row.number);
  if (roof.found) {
    words.count = voice.text(
        Fact{"pictures.own_count", {{"own", Count{row.own}}, {"count", Count{row.count}}}});
    words.last = signed_text(row.farthest_m, voice);
  } else if (row.kind == PartKind::post) {
    words.planned.clear();
  }
  return words;
}

void add_pieces(drawing::Page& page, KeyColumn& key, const Box& box, const RoofSheet& roof,
                std::size_t kept_rows) {
  constexpr double kRow_pt = 15.0;
  constexpr double kName_pt = 62.0;
  constexpr double kBetween_pt = 10.0;
  key.add_words(
      roof.found ? Fact{"pictures.pieces_found_heading"} : Fact{"pictures.pieces_heading"},
      kStrong);
  const std::vector<PieceRow> rows = piece_rows(roof.carry);
  const std::size_t room = key.rows_left() > kept_rows ? key.rows_left() - kept_rows : 0;
  // Where room is short the shortest jacks give way; they stand on the drawing of the jack.
  const auto all_jacks = static_cast<std::size_t>(std::count_if(
      rows.begin(), rows.end(), [](const PieceRow& row) { return row.kind == PartKind::jack; }));
  const std::size_t more =
      rows.size() > room ? std::min(all_jacks, rows.size() - room + 1) : std::size_t{0};
  std::vector<PieceWords> told;
  std::size_t jacks = 0;
  double last_pt = 0.0;
  for (const PieceRow& row : rows) {
    if (row.kind == PartKind::jack && ++jacks + more > all_jacks) continue;
    told.push_back(words_of(row, roof));
    last_pt = std::max(last_pt, width_pt(told.back().last));
  }
  Pen pen(page);
  for (const PieceWords& words : told) {
    const double baseline = key.y_pt() + kText_pt;
    pen.cut_text({box.x_pt, baseline}, kName_pt - 4.0, words.name, kStrong);
    pen.text({box.x_pt + kName_pt, baseline}, words.count);
    pen.text({box.right_pt() - last_pt - kBetween_pt, baseline}, words.planned, kToTheRight);
    pen.text({box.right_pt(), baseline}, words.last, kToTheRight);
    key.skip(kRow_pt);
  }
  if (more > 0) key.add_words(Fact{"pictures.more_pieces", {{"count", Count{more}}}});
  key.skip(6.0);
}

void add_marks(KeyColumn& key, const RoofSheet& roof) {
  for (const PartKind kind : {PartKind::hip, PartKind::common, PartKind::jack})
    if (kind != PartKind::jack || roof.drawn.jacks)
      key.add_line(rafter_stroke(kind), kind_name(kind));
  key.add_line(plate_stroke(), Fact{"pictures.plate_line"});
  key.add_line(eave_stroke(), Fact{"pictures.eave_line"});
  if (roof.drawn.own) key.add_mark(draw_own_mark, Fact{"pictures.own_cut"});
  if (roof.drawn.jacks)
    key.add_words(roof.drawn.jacks_numbered ? Fact{"pictures.jacks_numbered"}
                                            : Fact{"pictures.jacks_not_numbered"});
  if (roof.found) key.add_words(Fact{"pictures.each_piece"});
}

/// Rows that the marks take, so that the list of pieces leaves room for them.
std::size_t mark_rows(const RoofSheet& roof) {
  return 5U + (roof.drawn.jacks ? 2U : 0U) + (roof.drawn.own ? 1U : 0U) + (roof.found ? 1U : 0U);
}

Fact description(const RoofSheet& roof) {
  const auto jacks =
      std::count_if(roof.carry.parts.begin(), roof.carry.parts.end(),
                    [](const roof::Part& part) { return part.kind == PartKind::jack; });
  return {"pictures.roof_description",
          {{"sides", Count{static_cast<std::size_t>(roof.job.plan.polygon.sides)}},
           {"jacks", Count{static_cast<std::size_t>(jacks)}},
           {"height", Length{roof.carry.apex.height_m}}}};
}

Picture roof_sheet(const PartInput& input, const roof::FoundCorners* found) {
  const bool is_found = found != nullptr && has_found(input.carry);
  PictureSheet sheet = picture_sheet(
      input.job, {is_found ? Fact{"pictures.roof_found_tab"} : Fact{"pictures.roof_tab"}, {}},
      {"pictures.roof_foot"}, Lie::sideways, input.voice, input.paper);
  const Box& body = sheet.body;
  const Box plan{body.x_pt, body.y_pt, body.width_pt - kKeyWidth_pt - kGutter_pt, body.height_pt};
  const RoofDrawn drawn =
      draw_roof_plan(sheet.page, plan, input.job, input.carry, found, input.voice);
  const RoofSheet roof{input.job, input.carry, drawn, input.voice, is_found};
  const Box column{plan.right_pt() + kGutter_pt, body.y_pt, kKeyWidth_pt, body.height_pt};
  KeyColumn key(sheet.page, column, input.voice);
  key.add_forward_arrow();
  key.add_scale(drawn.scale);
  add_sizes(key, roof);
  add_pieces(sheet.page, key, column, roof, mark_rows(roof));
  add_marks(key, roof);
  sheet.page.description = input.voice.text(description(roof));
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
                                   const std::string& asked, const Voice& voice, Paper paper) {
  const results::RoofCase* found = result.to_cut_by();
  const roof::Carry& carry = found == nullptr ? result.planned : found->carry;
  const PartInput whole{job, carry, carry, voice, paper};
  std::vector<Picture> pictures{roof_sheet(whole, found == nullptr ? nullptr : &found->corners)};
  // Parts are drawn as the pattern, which a carry over found corners does not keep.
  const PartInput of_pattern{job, result.planned, carry, voice, paper};
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

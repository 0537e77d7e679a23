#include <fmt/format.h>

#include <cmath>

#include "correction.hpp"
#include "reading_parts.hpp"
#include "whole_steps.hpp"

namespace stakewright::forms {
namespace {

using drawing::At;
using drawing::Box;

constexpr double kBlock_pt = 134.0;
constexpr double kPicture_pt = 168.0;
constexpr double kStakeSize_pt = 26.0;
constexpr Style kStake{.size_pt = kStakeSize_pt, .weight = drawing::Weight::bold};
constexpr Style kWay{.size_pt = 12.0, .weight = drawing::Weight::bold};
constexpr Style kPull{.size_pt = 13.0, .weight = drawing::Weight::bold};
enum Col : std::size_t { hold, pull, after, within };

/// `5/32"`, one step finer than a pull: a move is small.
std::string small_text(double length_m, const CorrectionInput& input) {
  return base::text_from_small_length(std::abs(length_m), input.choices.units);
}

/// How far a reading after the move may be from its pull, the stake still within tolerance: with
/// errors up to e of both, the crossing is off by e / sin(crossing / 2) at most.
std::string allowed_text(const placement::Move& move, const CorrectionInput& input) {
  const double allowed_m = input.job.tolerance.corner_m * std::sin(move.crossing_rad / 2.0);
  return rounded_down(allowed_m, input.choices.units);
}

/// Seen from the center pin: so far away or nearer, so far to the right or left.
std::string way(const placement::Move& move, const CorrectionInput& input) {
  const Wording& wording = input.wording;
  return wording.filled(
      "moving.way",
      {{"distance", small_text(move.distance_m, input)},
       {"out", wording.filled(move.outward_m < 0.0 ? "moving.nearer" : "moving.farther",
                              {{"distance", small_text(move.outward_m, input)}})},
       {"side", wording.filled(move.sideways_m < 0.0 ? "moving.left" : "moving.right",
                               {{"distance", small_text(move.sideways_m, input)}})}});
}

void add_tapes(RunningSheets& sheets, const CorrectionInput& input, const placement::Move& move,
               const Box& box) {
  const Wording& wording = input.wording;
  const Table table({{wording.text("moving.hold"), 50.0, true},
                     {wording.text("moving.pull"), 96.0},
                     {wording.text("moving.after"), 124.0},
                     {wording.text("moving.within"), 74.0}},
                    box.width_pt);
  Pen pen = sheets.pen();
  At top{box.x_pt, table.draw_head(pen, {box.x_pt, box.y_pt})};
  for (const placement::MoveTape& tape : move.tapes) {
    const auto cell = [&](Col column) { return table.cell(column, top, kWritingRow_pt); };
    pen.in_box(cell(hold), input.label(tape.from), kRowLabel);
    pen.in_box(cell(pull), input.length_text(tape.length_m), kPull);
    add_length_blank(pen,
                     fmt::format("after.{}.{}", input.label(move.corner), input.label(tape.from)),
                     cell(after), input.choices.units, wording);
    pen.in_box(cell(within), allowed_text(move, input));
    top.y_pt += kWritingRow_pt;
    pen.line(top, {box.right_pt(), top.y_pt}, kThin_pt);
  }
  table.draw_uprights(pen, {box.x_pt, box.y_pt}, top.y_pt);
}

void add_move(RunningSheets& sheets, const CorrectionInput& input, const placement::Move& move) {
  sheets.make_room(kBlock_pt);
  const Wording& wording = input.wording;
  const Box room = sheets.room();
  Pen pen = sheets.pen();
  const Box picture{room.right_pt() - kPicture_pt, room.y_pt, kPicture_pt, kBlock_pt - 18.0};
  const double factor = draw_move(sheets.page(), picture, input, move);
  pen.cut_text({picture.x_pt + picture.width_pt / 2.0, picture.bottom_pt() + 8.0}, picture.width_pt,
               wording.filled("moving.factor", {{"factor", fmt::format("{:g}", factor)}}),
               {.anchor = drawing::Anchor::middle});

  const std::string& label = input.label(move.corner);
  pen.tick("moved." + label, {room.x_pt, room.y_pt + 6.0, 30.0, kStakeSize_pt});
  pen.text({room.x_pt + 36.0, room.y_pt + 6.0 + kStakeSize_pt - 3.0}, label, kStake);
  const double left = room.x_pt + 36.0 + std::max(50.0, width_pt(label, kStake) + 12.0);
  const double text_width = picture.x_pt - 10.0 - left;
  pen.paragraph({left, room.y_pt + 6.0}, text_width, way(move, input), kWay);
  const Box below{room.x_pt, room.y_pt + 48.0, picture.x_pt - 10.0 - room.x_pt, 0.0};
  if (move.tapes.empty())
    pen.paragraph({below.x_pt, below.y_pt}, below.width_pt, wording.text("moving.no_tapes"));
  else
    add_tapes(sheets, input, move, below);
  sheets.use(kBlock_pt);
  pen.line({room.x_pt, sheets.room().y_pt - 4.0}, {room.right_pt(), sheets.room().y_pt - 4.0},
           kBold_pt);
  sheets.use(4.0);
}

}  // namespace

void add_moves(RunningSheets& sheets, const CorrectionInput& input) {
  if (input.findings.moves.empty()) return;
  sheets.add_heading(input.wording.text("moving.heading"));
  sheets.add_paragraph(input.wording.text("moving.how"));
  for (const placement::Move& move : input.findings.moves) add_move(sheets, input, move);
}

}  // namespace stakewright::forms

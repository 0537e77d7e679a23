#include <fmt/format.h>

#include <algorithm>

#include "correction.hpp"
#include "reading_parts.hpp"

namespace stakewright::forms {
namespace {

enum Col : std::size_t { hold, to, first, second, instrument, burned };

void add_once(std::vector<AskedPull>& pulls, const AskedPull& pull) {
  const bool is_there = std::any_of(pulls.begin(), pulls.end(), [&](const AskedPull& other) {
    return (other.from == pull.from && other.to == pull.to) ||
           (other.from == pull.to && other.to == pull.from);
  });
  if (!is_there) pulls.push_back(pull);
}

Table pulls_table(const Wording& wording, double width_pt) {
  return {{{wording.text("reading.hold"), 52.0},
           {wording.text("reading.to"), 64.0},
           {wording.text("reading.first"), 124.0},
           {wording.text("reading.second"), 124.0},
           {wording.text("reading.instrument"), 84.0},
           {wording.text("reading.burned"), 84.0}},
          width_pt};
}

}  // namespace

std::vector<AskedPull> asked_pulls(const check::Findings& findings) {
  const auto label = [&](std::size_t point) { return findings.network.points[point].label; };
  std::vector<AskedPull> pulls;
  for (const adjustment::Loose& loose : findings.used.loose)
    for (const adjustment::MissingTape& tape : loose.would_fix)
      add_once(pulls, {label(tape.from), label(tape.to)});
  for (const suspects::NextTape& tape : findings.tape_next)
    add_once(pulls, {label(tape.from), label(tape.to), tape.another_tape});
  return pulls;
}

void add_asked_pulls(RunningSheets& sheets, const CorrectionInput& input) {
  const auto pulls = asked_pulls(input.findings);
  const Wording& wording = input.wording;
  const bool is_open = input.findings.places != check::Verdict::out;
  if (pulls.empty() && !is_open) return;
  sheets.make_room(kHeadingHeight_pt + 30.0 + kTableHead_pt + 2.0 * kWritingRow_pt);
  sheets.add_heading(wording.text("moving.pulls_heading"));
  if (pulls.empty()) {
    sheets.add_paragraph(wording.text("moving.pulls_all"));
    return;
  }
  sheets.add_paragraph(wording.text("moving.pulls_how"));
  sheets.start_table(pulls_table(wording, sheets.room().width_pt));
  bool with_another = false;
  for (const AskedPull& pull : pulls) {
    const drawing::At top = sheets.start_row(kWritingRow_pt).top;
    Pen pen = sheets.pen();
    const auto cell = [&](Col column) { return sheets.table().cell(column, top, kWritingRow_pt); };
    // Named as on the reading sheet: the readings go the same way.
    const std::string row = fmt::format("{}-{}", pull.from, pull.to);
    pen.in_box(cell(hold), pull.from, kRowLabel);
    pen.in_box(cell(to), pull.another_tape ? pull.to + " *" : pull.to, kRowLabel);
    add_length_blank(pen, fmt::format("reading.{}.1", row), cell(first), input.choices.units,
                     wording);
    add_length_blank(pen, fmt::format("reading.{}.2", row), cell(second), input.choices.units,
                     wording);
    pen.blank("instrument." + row, cell(instrument));
    pen.blank("burned." + row, cell(burned));
    const drawing::Box& room = sheets.room();
    pen.line({room.x_pt, room.y_pt}, {room.right_pt(), room.y_pt}, kThin_pt);
    with_another = with_another || pull.another_tape;
  }
  sheets.end_table();
  sheets.use(8.0);
  if (with_another) sheets.add_paragraph(wording.text("moving.another_tape"));
}

}  // namespace stakewright::forms

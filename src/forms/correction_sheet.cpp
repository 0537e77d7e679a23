// Sheet 4: what to do after the readings were checked.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "label_room.hpp"
#include "plan_marks.hpp"
#include "scale.hpp"
#include "sheet.hpp"
#include "stakewright/check/check.hpp"
#include "stakewright/told/check.hpp"
#include "stakewright/told/levels.hpp"
#include "stakewright/told/suspects.hpp"

namespace stakewright::forms {
namespace {

using base::Length;
using base::Name;
using base::Point;
using drawing::At;
using drawing::Box;

constexpr Style kVerdict{.size_pt = 14.0, .weight = drawing::Weight::bold};
constexpr Style kSentence{.size_pt = 12.0};

struct Input {
  const job::Job& job;
  const check::Findings& findings;
  const Voice& voice;

  [[nodiscard]] const std::string& label(std::size_t point) const {
    return findings.network.points[point].label;
  }
  [[nodiscard]] Fact with_tolerance(base::Id id) const {
    return {id, {{"corner", Length{job.tolerance.corner_m, base::Step::fine}}}};
  }
};

// The verdict

base::Id verdict_id(check::Verdict verdict) {
  switch (verdict) {
    case check::Verdict::in:
      return "moving.all_in";
    case check::Verdict::out:
      return "moving.some_out";
    case check::Verdict::contradiction:
      return "moving.contradiction";
    case check::Verdict::undecided:
      break;
  }
  return "moving.undecided";
}

void add_corners(RunningSheets& sheets, const Input& input, placement::Verdict verdict,
                 base::Id id) {
  base::List labels{{}, base::List::Joint::listed};
  for (std::size_t i = 0; i < input.findings.network.corner_count; ++i) {
    const auto found = input.findings.placement ? input.findings.placement->corners[i].verdict
                                                : placement::Verdict::undecided;
    if (found == verdict) labels.items.push_back(Name{input.label(i)});
  }
  if (labels.items.empty()) return;
  sheets.add_paragraph(Fact{id, {{"labels", std::move(labels)}}}, kSentence, 2.0);
}

/// Sentences of the report, a line each.
void add_told(RunningSheets& sheets, const told::Paragraph& sentences) {
  for (const Fact& sentence : sentences) sheets.add_paragraph(sentence, kSentence, 2.0);
}

/// A table of the report: columns as wide as what is in them, the last one broken into lines.
class ToldTable {
 public:
  ToldTable(RunningSheets& sheets, const told::Table& table) : sheets_(sheets) {
    rows_.push_back(table.headings);
    rows_.insert(rows_.end(), table.rows.begin(), table.rows.end());
    for (std::size_t k = 0; k + 1 < table.headings.size(); ++k) {
      double widest = 0.0;
      for (std::size_t i = 0; i < rows_.size(); ++i)
        widest = std::max(widest, width_pt(text(i, k), style(i)));
      rights_.push_back((k == 0 ? 0.0 : rights_.back() + kGap_pt) + widest);
    }
  }

  void add() {
    for (std::size_t i = 0; i < rows_.size(); ++i) add_row(i);
    sheets_.use(10.0);
  }

 private:
  static constexpr double kGap_pt = 12.0;

  [[nodiscard]] std::string text(std::size_t row, std::size_t column) const {
    return sheets_.voice().text(rows_[row][column]);
  }
  static Style style(std::size_t row) { return row == 0 ? kStrong : kPlain; }
  /// Figures stand right, and so does what stands over them.
  [[nodiscard]] bool is_right(std::size_t column) const {
    return rows_.size() > 1 && wording::is_figure(rows_[1][column]);
  }

  void add_row(std::size_t i) {
    const std::size_t last = rights_.size();
    const double left = last == 0 ? 0.0 : rights_.back() + kGap_pt;
    const double room = sheets_.room().width_pt - left;
    const std::string words = text(i, last);
    sheets_.make_room(std::max(kLeading_pt, paragraph_height_pt(room, words, style(i))));
    Pen pen = sheets_.pen();
    const At top = sheets_.corner();
    for (std::size_t k = 0; k < last; ++k) {
      const bool right = is_right(k);
      const double x = right ? rights_[k] : k == 0 ? 0.0 : rights_[k - 1] + kGap_pt;
      Style in_column = style(i);
      in_column.anchor = right ? drawing::Anchor::end : drawing::Anchor::start;
      pen.text({top.x_pt + x, top.y_pt + drawing::ascent_pt(kText_pt)}, text(i, k), in_column);
    }
    const double height = pen.paragraph({top.x_pt + left, top.y_pt}, room, words, style(i));
    sheets_.use(std::max(kLeading_pt, height) + 2.0);
  }

  RunningSheets& sheets_;
  std::vector<told::Row> rows_;  ///< the headings first
  std::vector<double> rights_;   ///< of all columns but the last
};

void add_section(RunningSheets& sheets, const told::Section& section) {
  sheets.make_room(kHeadingHeight_pt + 4.0 * kLeading_pt);
  if (section.heading) sheets.add_heading(*section.heading);
  for (const auto& block : section.blocks) {
    if (const auto* table = std::get_if<told::Table>(&block))
      ToldTable(sheets, *table).add();
    else
      add_told(sheets, std::get<told::Paragraph>(block));
  }
}

/// What to pack or cut under each post, where not all footings are level.
void add_levels(RunningSheets& sheets, const Input& input) {
  if (!input.findings.levels) return;
  const auto& footings = input.findings.levels->footings;
  const bool level = std::all_of(footings.begin(), footings.end(), [](const auto& footing) {
    return footing.known && footing.verdict == placement::Verdict::in;
  });
  const auto sections = told::levels_sections(input.job, input.findings);
  if (!level && !sections.empty()) add_section(sheets, sections.front());
}

/// What the numbers may mean, while it is not settled.
void add_suspects(RunningSheets& sheets, const Input& input) {
  constexpr double kLeastTold = 0.05;
  told::Section section = told::suspects_section(input.findings);
  auto& rows = std::get<told::Table>(section.blocks.front()).rows;
  std::erase_if(
      rows, [](const told::Row& row) { return std::get<base::Chance>(row[1]).value < kLeastTold; });
  if (rows.size() > 1) add_section(sheets, section);
}

void add_opening(RunningSheets& sheets, const Input& input) {
  sheets.add_caution({"moving.caution"});
  sheets.add_paragraph(input.with_tolerance(verdict_id(input.findings.places)), kVerdict);
  add_corners(sheets, input, placement::Verdict::in, "moving.in");
  add_corners(sheets, input, placement::Verdict::out, "moving.out");
  add_corners(sheets, input, placement::Verdict::undecided, "moving.not_clear");
  add_told(sheets, told::left_out(input.findings));
  add_told(sheets, told::likeliest_cause(input.findings));
  add_told(sheets, told::levels_opening(input.findings, input.job.tolerance));
  sheets.use(10.0);
}

// The small drawing of a move: the plan, the two tapes, the arrow enlarged

/// 1, 2, 5 and these times ten and so on: the largest with which the arrow fits.
double enlargement(double arrow_pt) {
  constexpr double kLongestArrow_pt = 30.0;
  double best = 0.0;
  for (double decade = 0.01; decade < 1e5; decade *= 10.0)
    for (const double step : {1.0, 2.0, 5.0})
      if (decade * step * arrow_pt <= kLongestArrow_pt) best = decade * step;
  return best;
}

class MovePicture {
 public:
  MovePicture(drawing::Page& page, const Box& box, const Input& input, const placement::Move& move)
      : page_(page),
        pen_(page),
        input_(input),
        move_(move),
        room_(box),
        corners_(layout::corners_of(input.job.plan.polygon, input.job.plan)),
        view_(thumbnail(corners_, box, kEdge_pt)),
        factor_(enlargement(move.distance_m * view_.scale.points_per_meter())) {}

  /// Returns by how much the arrow is too long.
  double draw() {
    draw_plan_line();
    draw_tapes();
    draw_way();
    label(move_.corner);
    for (const placement::MoveTape& tape : move_.tapes) label(tape.from);
    label(view_.at(input_.job.plan.center), layout::kCenterLabel);
    return factor_;
  }

 private:
  /// Room round the plan for labels and the arrow.
  static constexpr double kEdge_pt = 26.0;

  void draw_plan_line() {
    drawing::Polygon outline{{}, drawing::Fill::none, {kThin_pt, {1.5, 1.5}}};
    for (const Point& corner : corners_) outline.points.push_back(view_.at(corner));
    for (std::size_t i = 0; i < corners_.size(); ++i)
      room_.keep_off(Segment{outline.points[i], outline.points[(i + 1) % corners_.size()]});
    page_.marks.emplace_back(std::move(outline));
    const At center = view_.at(input_.job.plan.center);
    draw_center(page_, center);
    room_.keep_off(around(center, kCenterReach_pt));
  }

  void draw_tapes() {
    for (const placement::MoveTape& tape : move_.tapes) {
      const Segment line{view_.at(corners_[tape.from]), view_.at(corners_[move_.corner])};
      pen_.line(line.from, line.to, 1.2);
      room_.keep_off(line);
      draw_stake(page_, line.from);
      room_.keep_off(around(line.from, kStakeRadius_pt + 1.0));
    }
  }

  /// From where the stake stands to where it belongs; the place it belongs is on the plan line.
  void draw_way() {
    const Point radius = corners_[move_.corner] - input_.job.plan.center;
    const Point out = (1.0 / base::norm_m(radius)) * radius;
    const Point shift = move_.outward_m * out + move_.sideways_m * base::clockwise(out);
    const At head = view_.at(corners_[move_.corner]);
    const At tail = view_.at(corners_[move_.corner] - factor_ * shift);
    page_.marks.emplace_back(drawing::Circle{head, 3.6, drawing::Fill::white, {1.2, {}}});
    draw_arrow(tail, head);
    room_.keep_off(Segment{tail, head});
    room_.keep_off(around(head, 6.0));
    room_.keep_off(around(tail, 5.0));
  }

  void draw_arrow(At tail, At head) {
    const double length = std::hypot(head.x_pt - tail.x_pt, head.y_pt - tail.y_pt);
    if (length <= 0.0) return;
    const Direction along{(head.x_pt - tail.x_pt) / length, (head.y_pt - tail.y_pt) / length};
    const double head_length = std::min(8.0, length);
    const At neck{head.x_pt - head_length * along.x, head.y_pt - head_length * along.y};
    pen_.line(tail, neck, 2.2);
    const auto beside = [&](double by) {
      return At{neck.x_pt - by * along.y, neck.y_pt + by * along.x};
    };
    page_.marks.emplace_back(
        drawing::Polygon{{head, beside(3.6), beside(-3.6)}, drawing::Fill::black, {0.0, {}}});
    page_.marks.emplace_back(drawing::Circle{tail, 2.2, drawing::Fill::black, {0.0, {}}});
  }

  void label(std::size_t corner) { label(view_.at(corners_[corner]), input_.label(corner)); }
  void label(At point, const std::string& words) {
    constexpr double kReach_pt = 40.0;
    const auto placed = room_.place(point, words, kStrong, all_round(), kReach_pt);
    if (placed) LabelRoom::draw(pen_, *placed);
  }

  drawing::Page& page_;
  Pen pen_;
  const Input& input_;
  const placement::Move& move_;
  LabelRoom room_;
  std::vector<Point> corners_;
  PlanView view_;
  double factor_;
};

// The moves

/// How far a reading after the move may be from its pull, the stake still within tolerance: with
/// errors up to e of both, the crossing is off by e / sin(crossing / 2) at most.
Length allowed(const placement::Move& move, const Input& input) {
  return rounded_down(input.job.tolerance.corner_m * std::sin(move.crossing_rad / 2.0),
                      input.voice.units());
}

void add_pulls(RunningSheets& sheets, const Input& input, const placement::Move& move,
               const Box& box) {
  enum Col : std::size_t { hold, pull, after, within };
  constexpr Style kPull{.size_pt = 13.0, .weight = drawing::Weight::bold};
  const Table table({{Fact{"moving.hold"}, 50.0, true},
                     {Fact{"moving.pull"}, 96.0},
                     {Fact{"moving.after"}, 124.0},
                     {Fact{"moving.within"}, 74.0}},
                    box.width_pt);
  Pen pen = sheets.pen();
  At top{box.x_pt, table.draw_head(pen, {box.x_pt, box.y_pt}, input.voice)};
  for (const placement::MoveTape& tape : move.tapes) {
    const auto cell = [&](Col column) { return table.cell(column, top, kWritingRow_pt); };
    pen.in_box(cell(hold), input.label(tape.from), kRowLabel);
    pen.in_box(cell(pull), input.voice.text(Length{tape.length_m}), kPull);
    add_length_blank(pen,
                     fmt::format("after.{}.{}", input.label(move.corner), input.label(tape.from)),
                     cell(after), input.voice);
    pen.in_box(cell(within), input.voice.text(allowed(move, input)));
    top.y_pt += kWritingRow_pt;
    pen.line(top, {box.right_pt(), top.y_pt}, kThin_pt);
  }
  table.draw_uprights(pen, {box.x_pt, box.y_pt}, top.y_pt);
}

void add_move(RunningSheets& sheets, const Input& input, const placement::Move& move) {
  constexpr double kBlock_pt = 134.0;
  constexpr double kPicture_pt = 168.0;
  constexpr Style kStake{.size_pt = 26.0, .weight = drawing::Weight::bold};
  constexpr Style kWay{.size_pt = 12.0, .weight = drawing::Weight::bold};
  sheets.make_room(kBlock_pt);
  const Voice& voice = input.voice;
  const Box room = sheets.room();
  Pen pen = sheets.pen();
  const Box picture{room.right_pt() - kPicture_pt, room.y_pt, kPicture_pt, kBlock_pt - 18.0};
  const double factor = MovePicture(sheets.page(), picture, input, move).draw();
  constexpr int kAsNeeded = -1;
  pen.cut_text({picture.x_pt + picture.width_pt / 2.0, picture.bottom_pt() + 8.0}, picture.width_pt,
               voice.text(Fact{"moving.factor", {{"factor", base::Number{factor, kAsNeeded}}}}),
               {.anchor = drawing::Anchor::middle});

  const std::string& label = input.label(move.corner);
  pen.tick("moved." + label, {room.x_pt, room.y_pt + 6.0, 30.0, kStake.size_pt});
  pen.text({room.x_pt + 36.0, room.y_pt + 6.0 + kStake.size_pt - 3.0}, label, kStake);
  const double left = room.x_pt + 36.0 + std::max(50.0, width_pt(label, kStake) + 12.0);
  const double text_width = picture.x_pt - 10.0 - left;
  pen.paragraph({left, room.y_pt + 6.0}, text_width,
                voice.text(base::Offset{move.outward_m, move.sideways_m}), kWay);
  const Box below{room.x_pt, room.y_pt + 48.0, picture.x_pt - 10.0 - room.x_pt, 0.0};
  if (move.tapes.empty())
    pen.paragraph({below.x_pt, below.y_pt}, below.width_pt, voice.text("moving.no_tapes"));
  else
    add_pulls(sheets, input, move, below);
  sheets.use(kBlock_pt - 4.0);
  sheets.rule_off(0.0, kBold_pt);
  sheets.use(8.0);
}

void add_moves(RunningSheets& sheets, const Input& input) {
  if (input.findings.moves.empty()) return;
  sheets.add_heading({"moving.heading"});
  sheets.add_paragraph(Fact{"moving.how"});
  for (const placement::Move& move : input.findings.moves) add_move(sheets, input, move);
}

// The tapes that the readings so far ask for

struct AskedPull {
  std::string from;
  std::string to;
  bool another_tape = false;
};

/// Tapes that would fix loose corners, then those that tell explanations apart; each pair once.
std::vector<AskedPull> asked_pulls(const Input& input) {
  std::vector<AskedPull> pulls;
  const auto add = [&](std::size_t from, std::size_t to, bool another_tape) {
    const AskedPull pull{input.label(from), input.label(to), another_tape};
    const bool is_there = std::any_of(pulls.begin(), pulls.end(), [&](const AskedPull& other) {
      return (other.from == pull.from && other.to == pull.to) ||
             (other.from == pull.to && other.to == pull.from);
    });
    if (!is_there) pulls.push_back(pull);
  };
  for (const adjustment::Loose& loose : input.findings.used.loose)
    for (const adjustment::MissingTape& tape : loose.would_fix) add(tape.from, tape.to, false);
  for (const suspects::NextTape& tape : input.findings.tape_next)
    add(tape.from, tape.to, tape.another_tape);
  return pulls;
}

void add_asked_pull(RunningSheets& sheets, const AskedPull& pull) {
  enum Col : std::size_t { hold, to, first, second, instrument, burned };
  const At top = sheets.start_row(kWritingRow_pt).top;
  Pen pen = sheets.pen();
  const auto cell = [&](Col column) { return sheets.table().cell(column, top, kWritingRow_pt); };
  // Named as on the reading sheet: the readings go the same way.
  const std::string row = fmt::format("{}-{}", pull.from, pull.to);
  pen.in_box(cell(hold), pull.from, kRowLabel);
  pen.in_box(cell(to), pull.another_tape ? pull.to + " *" : pull.to, kRowLabel);
  add_length_blank(pen, fmt::format("reading.{}.1", row), cell(first), sheets.voice());
  add_length_blank(pen, fmt::format("reading.{}.2", row), cell(second), sheets.voice());
  pen.blank("instrument." + row, cell(instrument));
  pen.blank("burned." + row, cell(burned));
  sheets.rule_off();
}

void add_asked_pulls(RunningSheets& sheets, const Input& input) {
  const auto pulls = asked_pulls(input);
  if (pulls.empty() && input.findings.places == check::Verdict::out) return;
  sheets.make_room(kHeadingHeight_pt + 30.0 + kTableHead_pt + 2.0 * kWritingRow_pt);
  sheets.add_heading({"moving.pulls_heading"});
  if (pulls.empty()) {
    sheets.add_paragraph(Fact{"moving.pulls_all"});
    return;
  }
  add_told(sheets, told::loose_corners(input.findings));
  add_told(sheets, told::next_pull(input.findings));
  sheets.add_paragraph(Fact{"moving.pulls_how"});
  sheets.start_table({{{Fact{"reading.hold"}, 52.0},
                       {Fact{"reading.to"}, 64.0},
                       {Fact{"reading.first"}, 124.0},
                       {Fact{"reading.second"}, 124.0},
                       {Fact{"reading.instrument"}, 84.0},
                       {Fact{"reading.burned"}, 84.0}},
                      sheets.room().width_pt});
  for (const AskedPull& pull : pulls) add_asked_pull(sheets, pull);
  sheets.end_table();
  sheets.use(8.0);
  if (std::any_of(pulls.begin(), pulls.end(), [](const auto& pull) { return pull.another_tape; }))
    sheets.add_paragraph(Fact{"moving.another_tape"});
}

// What the foreman puts his name to

base::Id signed_id(const check::Findings& findings) {
  if (findings.places == check::Verdict::in) return "moving.sign_in";
  if (findings.places == check::Verdict::out && !findings.moves.empty()) return "moving.sign_moved";
  return "moving.sign_wait";
}

void add_signature(RunningSheets& sheets, const Input& input) {
  constexpr double kPad_pt = 8.0;
  const std::string sentence = input.voice.text(input.with_tolerance(signed_id(input.findings)));
  const double width = sheets.room().width_pt - 2.0 * kPad_pt;
  const double height = paragraph_height_pt(width, sentence, kSentence);
  const double framed = height + kField_pt + 12.0 + 2.0 * kPad_pt;
  sheets.make_room(framed);
  const Box room = sheets.room();
  Pen pen = sheets.pen();
  pen.box({room.x_pt, room.y_pt, room.width_pt, framed}, 2.0);
  pen.paragraph({room.x_pt + kPad_pt, room.y_pt + kPad_pt}, width, sentence, kSentence);
  sheets.use(kPad_pt + height + 12.0);
  add_fields(sheets, {{"signature", {"moving.signature"}, kPad_pt, 0.64 * width},
                      {"signature.date", {"reading.date"}, 0.68 * width, width + kPad_pt}});
}

}  // namespace

std::vector<drawing::Page> correction_sheet(const job::Job& job, const check::Findings& findings,
                                            const Voice& voice, Paper paper) {
  const Input input{job, findings, voice};
  RunningSheets sheets(SheetKind::move, paper, voice);
  add_opening(sheets, input);
  add_moves(sheets, input);
  add_levels(sheets, input);
  if (findings.places != check::Verdict::in) {
    add_asked_pulls(sheets, input);
    add_suspects(sheets, input);
  }
  add_signature(sheets, input);
  return finished(sheets.taken(), job, voice);
}

}  // namespace stakewright::forms

#include "part_pictures.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "pen.hpp"
#include "plan_marks.hpp"

namespace stakewright::forms {
namespace {

using base::Angle;
using base::Count;
using base::Length;
using base::Name;
using base::Value;
using roof::Cut;
using roof::CutName;
using roof::PartKind;

Fact tab_of(PartKind kind) {
  switch (kind) {
    case PartKind::common:
      return {"pictures.common_tab"};
    case PartKind::jack:
      return {"pictures.jack_tab"};
    case PartKind::fascia:
      return {"pictures.fascia_tab"};
    default:
      return {"pictures.hip_tab"};
  }
}

// Pieces

constexpr PartKind kKinds[] = {PartKind::hip,    PartKind::common, PartKind::jack,
                               PartKind::fascia, PartKind::beam,   PartKind::post};

void take(std::vector<PieceRow>& rows, const roof::Part& part) {
  const int number = part.kind == PartKind::jack ? part.at.number : 0;
  auto row = std::find_if(rows.begin(), rows.end(), [&](const PieceRow& other) {
    return other.kind == part.kind && other.number == number;
  });
  if (row == rows.end()) {
    rows.push_back({part.kind, number, 0, 0, part.line.planned, part.overall_m, 0.0});
    row = rows.end() - 1;
  }
  ++row->count;
  if (part.fit == roof::Fit::own) ++row->own;
  const double off = part.line.difference.value_or(0.0);
  if (std::abs(off) > std::abs(row->farthest_m)) row->farthest_m = off;
}

struct ListRow {
  Value name;
  Length figure;
};

/// Jacks of the pattern by number: how many, and how long overall.
std::vector<ListRow> jack_rows(const roof::Carry& carry) {
  std::vector<ListRow> rows;
  for (const PieceRow& row : piece_rows(carry))
    if (row.kind == PartKind::jack)
      rows.push_back({Fact{"pictures.jack_row",
                           {{"number", Count{static_cast<std::size_t>(row.number)}},
                            {"count", Count{row.count}}}},
                      Length{row.overall_m}});
  return rows;
}

std::vector<ListRow> own_rows(const roof::Carry& carry, PartKind kind) {
  std::vector<ListRow> rows;
  for (const roof::Part& part : carry.parts)
    if (part.kind == kind && part.fit == roof::Fit::own)
      rows.push_back({place_of(part.at), Length{part.overall_m}});
  return rows;
}

void add_rows(KeyColumn& key, const std::vector<ListRow>& rows) {
  const std::size_t room = key.rows_left();
  if (room == 0) return;
  const std::size_t shown = rows.size() <= room ? rows.size() : room - 1;
  for (std::size_t k = 0; k < shown; ++k) key.add_figure(rows[k].name, rows[k].figure);
  if (shown < rows.size())
    key.add_words(Fact{"pictures.more_rows", {{"count", Count{rows.size() - shown}}}});
}

// Cuts

class CutWriter {
 public:
  CutWriter(const PartInput& input, const roof::Part& part) : input_(input), part_(part) {}

  /// One entry for the cuts of a name, left and right apart where they are set differently.
  /// `words`: the sentence for one of them.  Returns the number it got; empty for no cut.
  std::string add(CutName name, base::Id heading, base::Id words) {
    const auto cuts = cuts_of(input_.carry, part_.name(), name);
    if (cuts.empty()) return "";
    const Fact first = sentence(*cuts.front(), words);
    const Fact last = sentence(*cuts.back(), words);
    std::string text = told(first);
    if (text != told(last))
      text = told({"pictures.cut_left", {{"words", first}}}) + ' ' +
             told({"pictures.cut_right", {{"words", last}}});
    const roof::Setting& setting = cuts.front()->setting;
    if (setting.past_tilt)
      text += ' ' + told({"pictures.past_tilt",
                          {{"rest", Angle{std::numbers::pi / 2.0 - setting.bevel_rad}}}});
    list_.cuts.push_back({told({heading}), text});
    return std::to_string(list_.cuts.size());
  }

  CutList list(const CutNumbers& numbers) && {
    list_.numbers = numbers;
    return std::move(list_);
  }

 private:
  [[nodiscard]] std::string told(const Fact& fact) const { return input_.voice.text(fact); }

  [[nodiscard]] Fact sentence(const Cut& cut, base::Id words) const {
    const told::SquareHold hold = told::square_hold(cut.setting.square, input_.voice.units());
    const double half_m =
        0.5 * (part_.kind == PartKind::hip ? input_.job.roof.hip_m : input_.job.roof.rafter_m);
    return {words,
            {{"angle", hold.angle_arm},
             {"other", hold.other_arm},
             {"miter", Angle{std::abs(cut.setting.miter_rad)}},
             {"bevel", Angle{cut.setting.bevel_rad}},
             {"heel", Length{part_.heel_m}},
             {"notch", Length{part_.notch_m}},
             {"fall", Length{half_m * std::tan(cut.setting.bevel_rad)}},
             {"drop", Length{part_.drop_m}}}};
  }

  const PartInput& input_;
  const roof::Part& part_;
  CutList list_;
};

}  // namespace

Fact kind_name(PartKind kind) {
  switch (kind) {
    case PartKind::common:
      return {"pictures.common"};
    case PartKind::jack:
      return {"pictures.jack"};
    case PartKind::fascia:
      return {"pictures.fascia"};
    case PartKind::beam:
      return {"pictures.beam"};
    case PartKind::post:
      return {"pictures.post"};
    default:
      return {"pictures.hip"};
  }
}

Fact title_of(const roof::Part& part, bool by_name) {
  const Fact tab = tab_of(part.kind);
  return by_name ? Fact{"pictures.piece", {{"part", tab}, {"at", place_of(part.at)}}} : tab;
}

Fact note_on(const roof::Part& part, bool by_name) {
  if (by_name && part.fit == roof::Fit::own) return {"pictures.own_piece"};
  if (by_name && part.fit == roof::Fit::try_pattern) return {"pictures.try_piece"};
  return {"pictures.pattern"};
}

std::vector<PieceRow> piece_rows(const roof::Carry& carry) {
  std::vector<PieceRow> rows;
  for (const PartKind kind : kKinds)
    for (const roof::Part& part : carry.parts)
      if (part.kind == kind) take(rows, part);
  return rows;
}

void add_pieces_like(KeyColumn& key, const PartInput& input, PartKind kind) {
  const auto count_of = [&](roof::Fit fit) {
    return Count{static_cast<std::size_t>(
        std::count_if(input.found.parts.begin(), input.found.parts.end(),
                      [&](const auto& part) { return part.kind == kind && part.fit == fit; }))};
  };
  const std::vector<ListRow> own = own_rows(input.found, kind);
  const Count to_try = count_of(roof::Fit::try_pattern);
  if (key.rows_left() == 0) return;
  if (kind == PartKind::jack) {
    key.add_words(Fact{"pictures.jacks_heading"}, kStrong);
    add_rows(key, jack_rows(input.carry));
  } else {
    const Count alike{count_of(roof::Fit::pattern).value + to_try.value};
    key.add_words(Fact{"pictures.pieces_alike", {{"count", alike}}}, kStrong);
  }
  if (to_try.value > 0 && key.rows_left() > 0)
    key.add_words(Fact{"pictures.to_try", {{"count", to_try}}});
  if (own.empty() || key.rows_left() < 2) return;
  key.add_words(Fact{"pictures.own_heading", {{"count", Count{own.size()}}}}, kStrong);
  add_rows(key, own);
}

std::vector<const Cut*> cuts_of(const roof::Carry& carry, const roof::PartName& part,
                                CutName name) {
  const bool of_common = part.kind == PartKind::jack && name != CutName::cheek;
  const PartKind kind = of_common ? PartKind::common : part.kind;
  const roof::Place at = of_common ? part.at.whole() : part.at.on(part.at.hand);
  std::vector<const Cut*> cuts;
  for (const Cut& cut : carry.cuts) {
    const bool here = cut.at == at || cut.at.whole() == at;
    if (cut.part == kind && here && cut.name == name) cuts.push_back(&cut);
  }
  return cuts;
}

double angle_to_cut_rad(const Cut& cut) {
  return cut.fit == roof::Fit::own ? cut.angle.found.value_or(cut.angle.planned)
                                   : cut.angle.planned;
}

std::string CutList::text() const {
  std::string text;
  for (const Words& cut : cuts) text += ' ' + cut.heading + ": " + cut.words;
  return text;
}

CutList rafter_cuts(const PartInput& input, const roof::Part& part) {
  const bool plumb_tail = input.job.roof.tail == roof::Tail::plumb;
  const bool hip = part.kind == PartKind::hip;
  CutWriter writer(input, part);
  CutNumbers numbers;
  numbers.plumb = writer.add(CutName::plumb, "pictures.cut_plumb", "pictures.cut_plumb_words");
  if (part.notch_m > 0.0)
    numbers.seat = writer.add(CutName::seat, "pictures.cut_seat", "pictures.cut_seat_words");
  numbers.cheek =
      part.kind == PartKind::jack
          ? writer.add(CutName::cheek, "pictures.cut_cheek", "pictures.cut_cheek_jack_words")
          : writer.add(CutName::cheek, "pictures.cut_cheeks", "pictures.cut_cheek_words");
  const base::Id tail =
      plumb_tail ? base::Id("pictures.cut_tail_plumb_words") : "pictures.cut_tail_square_words";
  const base::Id hip_tail = plumb_tail ? base::Id("pictures.cut_hip_tail_plumb_words")
                                       : "pictures.cut_hip_tail_square_words";
  numbers.tail = writer.add(CutName::tail, "pictures.cut_tail", hip ? hip_tail : tail);
  if (hip) writer.add(CutName::backing, "pictures.cut_backing", "pictures.cut_backing_words");
  return std::move(writer).list(numbers);
}

CutList fascia_cuts(const PartInput& input, const roof::Part& part) {
  CutWriter writer(input, part);
  CutNumbers numbers;
  numbers.cheek = writer.add(CutName::miter, "pictures.cut_miter", "pictures.cut_miter_words");
  numbers.tail = writer.add(CutName::bevel, "pictures.cut_bevel", "pictures.cut_bevel_words");
  return std::move(writer).list(numbers);
}

double draw_cut_list(drawing::Page& page, const drawing::Box& box, const CutList& list) {
  constexpr double kNumber_pt = 22.0;
  constexpr double kBetween_pt = 5.0;
  Pen pen(page);
  double y = box.y_pt;
  for (std::size_t k = 0; k < list.cuts.size(); ++k) {
    const double left = box.x_pt + kNumber_pt;
    const double width = box.width_pt - kNumber_pt;
    draw_number(page, {box.x_pt + kNumberRadius_pt, y + kNumberRadius_pt - 1.0},
                std::to_string(k + 1));
    pen.text({left, y + drawing::ascent_pt(kText_pt)}, list.cuts[k].heading, kStrong);
    y += kLeading_pt;
    y += pen.paragraph({left, y}, width, list.cuts[k].words) + kBetween_pt;
  }
  return y;
}

void draw_level_dimension(drawing::Page& page, double left_pt, double right_pt, double y_pt,
                          const std::string& words, const Uprights& uprights) {
  constexpr double kTickHalf_pt = 3.5;
  constexpr double kClear_pt = 4.0;
  Pen pen(page);
  const double width = width_pt(words);
  const double baseline = y_pt + drawing::cap_height_pt(kText_pt) / 2.0;
  for (const double x : {left_pt, right_pt})
    pen.line({x - kTickHalf_pt, y_pt + kTickHalf_pt}, {x + kTickHalf_pt, y_pt - kTickHalf_pt}, 1.0);
  const bool divided = uprights.between_pt > left_pt && uprights.between_pt < right_pt;
  const double inner_pt = divided ? uprights.between_pt : right_pt;
  if (inner_pt - left_pt >= width + 2.0 * (kClear_pt + kTickHalf_pt)) {
    const double middle = 0.5 * (left_pt + inner_pt);
    const double half = width / 2.0 + kClear_pt;
    pen.line({left_pt, y_pt}, {middle - half, y_pt}, kThin_pt);
    pen.line({middle + half, y_pt}, {right_pt, y_pt}, kThin_pt);
    pen.text({middle, baseline}, words, {.anchor = drawing::Anchor::middle});
    return;
  }
  constexpr double kTail_pt = 8.0;
  double start = right_pt + kTail_pt;
  if (start + kClear_pt + width + kClear_pt > uprights.beyond_pt)
    start = std::max(start, uprights.beyond_pt + kTail_pt);
  pen.line({left_pt, y_pt}, {start, y_pt}, kThin_pt);
  pen.text({start + kClear_pt, baseline}, words);
}

void draw_extension(drawing::Page& page, double x_pt, double from_pt, double to_pt) {
  Pen(page).line({x_pt, from_pt}, {x_pt, to_pt}, kThin_pt);
}

}  // namespace stakewright::forms

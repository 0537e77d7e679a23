// Sheet 2: each stake with its two holds and pulls, in working order.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "plan_marks.hpp"
#include "scale.hpp"
#include "sheet.hpp"
#include "stakewright/base/angle.hpp"
#include "stakewright/forms/reading_rows.hpp"

namespace stakewright::forms {
namespace {

using base::Length;
using base::Point;
using drawing::At;
using drawing::Box;

enum Col : std::size_t { done, stake, hold1, pull1, hold2, pull2, hand, crossing, turn, picture };

constexpr double kLeastPictureRow_pt = 42.0;
constexpr double kTallestRow_pt = 60.0;
constexpr double kRow_pt = 26.0;
constexpr double kLargestPull_pt = 12.5;
constexpr Style kStakeLabel{.size_pt = 15.0, .weight = drawing::Weight::bold};
constexpr Style kHold{.size_pt = 13.0};

Table staking_table(double width_pt, bool with_pictures) {
  std::vector<Column> columns{{Fact{"staking.done"}, 47.0},       {Fact{"staking.stake"}, 46.0},
                              {Fact{"staking.hold"}, 39.0, true}, {Fact{"staking.pull"}, 89.0},
                              {Fact{"staking.hold"}, 39.0, true}, {Fact{"staking.pull"}, 89.0},
                              {Fact{"staking.hand"}, 43.0},       {Fact{"staking.crossing"}, 45.0},
                              {Fact{"staking.turn"}, 67.0}};
  if (with_pictures) columns.push_back({Fact{"staking.picture"}, 47.0});
  return {columns, width_pt};
}

bool is_flat(const layout::Swing& swing) {
  // The order itself takes a crossing of exactly 30 degrees as square enough; show it so.
  return std::round(swing.crossing_rad / base::kDegree_rad) <
         std::round(layout::kFlattestCrossing_rad / base::kDegree_rad);
}

/// A thumbnail of one swing: the polygon, the two tapes, the stake they set, as large as the box
/// allows.  It shows on which hand the stake lies.
void draw_swing(drawing::Page& page, const Box& box, const layout::Plan& plan,
                const layout::Swing& swing) {
  const auto points = points_by_label(plan);
  const std::array<Point, 2> holds{points.at(swing.from[0].label), points.at(swing.from[1].label)};
  const auto corners = layout::corners_of(plan.polygon, plan);
  auto shown = corners;
  shown.insert(shown.end(), holds.begin(), holds.end());
  const PlanView view = thumbnail(shown, box, 6.0);

  drawing::Polygon outline{{}, drawing::Fill::none, {kThin_pt, {1.5, 1.5}}};
  for (const Point& corner : corners) outline.points.push_back(view.at(corner));
  page.marks.emplace_back(std::move(outline));
  const At stake = view.at(points.at(swing.stake));
  Pen pen(page);
  for (const Point& hold : holds) {
    pen.line(view.at(hold), stake, 1.2);
    page.marks.emplace_back(drawing::Circle{view.at(hold), 1.6, drawing::Fill::black, {0.0, {}}});
  }
  page.marks.emplace_back(drawing::Circle{stake, 3.2, drawing::Fill::white, {1.2, {}}});
}

class StakingSheets {
 public:
  explicit StakingSheets(const FormInput& input)
      : input_(input),
        voice_(input.voice),
        order_(input.layout.order),
        radial_(input.layout.radial),
        sheets_(SheetKind::stake, input.choices.paper, input.voice) {
    add_opening();
    const std::size_t rows = order_.swings.size() + (order_.sighted ? 1 : 0);
    const double each = (sheets_.room().height_pt - kTableHead_pt - notes_height_pt()) /
                        static_cast<double>(std::max<std::size_t>(rows, 1));
    with_pictures_ = each >= kLeastPictureRow_pt;
    row_pt_ = with_pictures_ ? std::min(each, kTallestRow_pt) : kRow_pt;
  }

  std::vector<Sheet> sheets() {
    const Table table = staking_table(sheets_.room().width_pt, with_pictures_);
    choose_pull_style(table);
    sheets_.start_table(table);
    if (order_.sighted) add_sighting(*order_.sighted);
    for (const layout::Swing& swing : order_.swings) add_swing(swing);
    sheets_.end_table();
    sheets_.make_room(notes_height_pt());
    sheets_.use(kAboveNotes_pt);
    for (const Fact& note : notes()) sheets_.add_paragraph(note, kPlain, kUnderNote_pt);
    return sheets_.taken();
  }

 private:
  static constexpr double kAboveNotes_pt = 8.0;
  static constexpr double kUnderNote_pt = 2.0;

  void add_opening() {
    sheets_.add_caution({"staking.caution"});
    const At at = sheets_.corner();
    sheets_.pen().cut_text(
        {at.x_pt, at.y_pt + kText_pt}, sheets_.room().width_pt,
        voice_.text(Fact{"staking.given",
                         {{"points", base::names(order_.given, base::List::Joint::listed)}}}),
        kStrong);
    sheets_.use(16.0);
    sheets_.add_paragraph(Fact{"staking.how"}, kPlain, 3.0);
    sheets_.add_paragraph(Fact{"staking.by_angle",
                               {{"zero", shortened(radial_.mark)},
                                {"distance", Length{input_.job.plan.polygon.corner_radius_m}}}},
                          kPlain, 8.0);
  }

  [[nodiscard]] std::vector<Fact> notes() const {
    std::vector<Fact> notes{{"staking.hand_note"}, {"staking.crossing_note"}};
    if (std::any_of(order_.swings.begin(), order_.swings.end(), is_flat))
      notes.push_back({"staking.flat_note"});
    return notes;
  }

  [[nodiscard]] double notes_height_pt() const {
    double height = kAboveNotes_pt;
    for (const Fact& note : notes()) height += sheets_.paragraph_height_pt(note) + kUnderNote_pt;
    return height;
  }

  /// As large as the longest pull allows: a length is never cut.
  void choose_pull_style(const Table& table) {
    const double room = table.cell(pull1, {}, row_pt_).width_pt - 2.0 * kCellMargin_pt;
    const auto fits = [&](const layout::Hold& hold) {
      return width_pt(length_text(hold.length_m), pull_style_) <= room;
    };
    const auto all_fit = [&](const layout::Swing& swing) {
      return std::all_of(swing.from.begin(), swing.from.end(), fits);
    };
    constexpr double kSmaller_pt = 0.5;
    pull_style_.size_pt = kLargestPull_pt;
    while (pull_style_.size_pt > kText_pt &&
           !std::all_of(order_.swings.begin(), order_.swings.end(), all_fit))
      pull_style_.size_pt -= kSmaller_pt;
  }

  [[nodiscard]] std::string length_text(double length_m) const {
    return voice_.text(Length{length_m});
  }

  At start_row() {
    const At top = sheets_.start_row(row_pt_).top;
    sheets_.rule_off(0.0, kRule_pt);
    return top;
  }

  [[nodiscard]] Box cell(Col column, At top) const {
    return sheets_.table().cell(column, top, row_pt_);
  }

  void add_common(Pen& pen, At top, const std::string& label) {
    pen.tick("set." + label, cell(done, top));
    pen.in_box(cell(stake, top), label, kStakeLabel);
    pen.in_box(cell(turn, top), turn_text(label));
  }

  /// Clockwise at the center pin from the zero; none for the pin itself.
  [[nodiscard]] std::string turn_text(const std::string& label) const {
    const auto stake = std::find_if(radial_.stakes.begin(), radial_.stakes.end(),
                                    [&](const auto& entry) { return entry.stake == label; });
    if (stake == radial_.stakes.end()) return "–";
    // To the second before it is brought into a full turn: 359-59-59.9 is 0.
    constexpr double kTurn_seconds = 360.0 * 3600.0;
    constexpr double kSecond_rad = base::kDegree_rad / 3600.0;
    const double seconds = std::round(stake->angle_rad / kSecond_rad);
    return voice_.text(
        base::Angle{std::fmod(seconds, kTurn_seconds) * kSecond_rad, base::AngleStyle::dms});
  }

  void add_hold(Pen& pen, At top, Col label, Col pull, const layout::Hold& hold) {
    pen.in_box(cell(label, top), hold.label, kHold);
    pen.in_box(cell(pull, top), length_text(hold.length_m), pull_style_);
  }

  void add_sighting(const layout::Sighting& sighting) {
    const At top = start_row();
    Pen pen = sheets_.pen();
    add_common(pen, top, sighting.stake);
    add_hold(pen, top, hold1, pull1, {sighting.from, sighting.length_m});
    pen.in_box(cell(hold2, top), voice_.text("staking.sight"));
    pen.in_box(cell(pull2, top),
               voice_.text(base::Angle{sighting.bearing_rad, base::AngleStyle::bearing}),
               pull_style_);
  }

  void add_swing(const layout::Swing& swing) {
    const At top = start_row();
    Pen pen = sheets_.pen();
    add_common(pen, top, swing.stake);
    add_hold(pen, top, hold1, pull1, swing.from[0]);
    add_hold(pen, top, hold2, pull2, swing.from[1]);
    pen.in_box(cell(hand, top),
               voice_.text(swing.hand == layout::Hand::left ? Fact{"staking.left"}
                                                            : Fact{"staking.right"}));
    pen.in_box(cell(crossing, top), fmt::format("{:.0f}°{}", swing.crossing_rad / base::kDegree_rad,
                                                is_flat(swing) ? " !" : ""));
    if (with_pictures_) draw_swing(sheets_.page(), cell(picture, top), input_.job.plan, swing);
  }

  const FormInput& input_;
  const Voice& voice_;
  const layout::StakingOrder& order_;
  const layout::Radial& radial_;
  RunningSheets sheets_;
  bool with_pictures_ = true;
  double row_pt_ = kRow_pt;
  Style pull_style_ = kStrong;
};

}  // namespace

std::vector<Sheet> staking_sheets(const FormInput& input) { return StakingSheets(input).sheets(); }

}  // namespace stakewright::forms

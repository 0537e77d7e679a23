#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "running_sheets.hpp"
#include "sheets.hpp"
#include "stakewright/base/angle.hpp"
#include "swing_picture.hpp"

namespace stakewright::forms {
namespace {

using drawing::At;
using drawing::Box;

enum Col : std::size_t { done, stake, hold1, pull1, hold2, pull2, hand, crossing, turn, picture };

constexpr double kLeastPictureRow_pt = 42.0;
constexpr double kTallestRow_pt = 60.0;
constexpr double kRow_pt = 26.0;
constexpr double kLargestPull_pt = 12.5;
constexpr Style kStakeLabel{.size_pt = 15.0, .weight = drawing::Weight::bold};
constexpr Style kHold{.size_pt = 13.0};

Table staking_table(const Wording& wording, double width_pt, bool with_pictures) {
  const std::string& hold = wording.text("staking.hold");
  const std::string& pull = wording.text("staking.pull");
  std::vector<Column> columns{{wording.text("staking.done"), 42.0},
                              {wording.text("staking.stake"), 45.0},
                              {hold, 39.0, true},
                              {pull, 89.0},
                              {hold, 39.0, true},
                              {pull, 89.0},
                              {wording.text("staking.hand"), 44.0},
                              {wording.text("staking.crossing"), 46.0},
                              {wording.text("staking.turn"), 67.0}};
  if (with_pictures) columns.push_back({wording.text("staking.picture"), 51.0});
  return {columns, width_pt};
}

bool is_flat(const layout::Swing& swing) {
  // The order itself takes a crossing of exactly 30 degrees as square enough; show it so.
  return std::round(swing.crossing_rad / base::kDegree_rad) <
         std::round(layout::kFlattestCrossing_rad / base::kDegree_rad);
}

class StakingSheets {
 public:
  explicit StakingSheets(const FormInput& input)
      : input_(input),
        wording_(input.wording),
        order_(input.layout.order),
        radial_(input.layout.radial),
        sheets_(SheetKind::stake, input.choices.paper) {
    add_opening();
    const std::size_t rows = order_.swings.size() + (order_.sighted ? 1 : 0);
    const double each = (sheets_.room().height_pt - kTableHead_pt - notes_height_pt()) /
                        static_cast<double>(std::max<std::size_t>(rows, 1));
    with_pictures_ = each >= kLeastPictureRow_pt;
    row_pt_ = with_pictures_ ? std::min(each, kTallestRow_pt) : kRow_pt;
  }

  std::vector<Sheet> sheets() {
    const Table table = staking_table(wording_, sheets_.room().width_pt, with_pictures_);
    choose_pull_style(table);
    sheets_.start_table(table);
    if (order_.sighted) add_sighting(*order_.sighted);
    for (const layout::Swing& swing : order_.swings) add_swing(swing);
    sheets_.end_table();
    sheets_.make_room(notes_height_pt());
    add_notes();
    return sheets_.taken();
  }

 private:
  void add_opening() {
    sheets_.add_caution(wording_.text("staking.caution"));
    Pen pen = sheets_.pen();
    const drawing::At at = sheets_.corner();
    const double width = sheets_.room().width_pt;
    pen.cut_text({at.x_pt, at.y_pt + kText_pt}, width,
                 wording_.filled("staking.given",
                                 {{"points", fmt::format("{}", fmt::join(order_.given, ", "))}}),
                 kStrong);
    sheets_.use(16.0);
    sheets_.use(pen.paragraph(sheets_.corner(), width, wording_.text("staking.how")) + 3.0);
    sheets_.use(pen.paragraph(sheets_.corner(), width, how_by_angle()) + 8.0);
  }

  [[nodiscard]] std::string how_by_angle() const {
    return wording_.filled("staking.by_angle",
                           {{"zero", shortened(radial_.mark)},
                            {"distance", length_text(input_.job.plan.polygon.corner_radius_m)}});
  }

  [[nodiscard]] std::vector<std::string> notes() const {
    std::vector<std::string> notes{wording_.text("staking.hand_note"),
                                   wording_.text("staking.crossing_note")};
    for (const layout::Swing& swing : order_.swings) {
      if (!is_flat(swing)) continue;
      notes.push_back(wording_.text("staking.flat_note"));
      break;
    }
    return notes;
  }

  [[nodiscard]] double notes_height_pt() const {
    double height = 8.0;
    for (const std::string& note : notes())
      height += paragraph_height_pt(sheets_.room().width_pt, note) + 2.0;
    return height;
  }

  void add_notes() {
    sheets_.use(8.0);
    for (const std::string& note : notes())
      sheets_.use(sheets_.pen().paragraph(sheets_.corner(), sheets_.room().width_pt, note) + 2.0);
  }

  /// As large as the longest pull allows: a length is never cut.
  void choose_pull_style(const Table& table) {
    const double room = Table::inside_pt(table.cell(pull1, {}, row_pt_));
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
    return base::text_from_length(length_m, input_.choices.units);
  }

  At start_row() {
    const At top = sheets_.start_row(row_pt_).top;
    const Box& room = sheets_.room();
    sheets_.pen().line({room.x_pt, room.y_pt}, {room.right_pt(), room.y_pt}, kRule_pt);
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
    return base::dms_from_angle(std::fmod(seconds, kTurn_seconds) * kSecond_rad);
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
    pen.in_box(cell(hold2, top), wording_.text("staking.sight"));
    pen.in_box(cell(pull2, top), base::text_from_bearing(sighting.bearing_rad), pull_style_);
  }

  void add_swing(const layout::Swing& swing) {
    const At top = start_row();
    Pen pen = sheets_.pen();
    add_common(pen, top, swing.stake);
    add_hold(pen, top, hold1, pull1, swing.from[0]);
    add_hold(pen, top, hold2, pull2, swing.from[1]);
    pen.in_box(cell(hand, top),
               wording_.text(swing.hand == layout::Hand::left ? "staking.left" : "staking.right"));
    const double degrees = std::round(swing.crossing_rad / base::kDegree_rad);
    pen.in_box(cell(crossing, top), fmt::format("{}°{}", degrees, is_flat(swing) ? " !" : ""));
    if (with_pictures_) draw_swing(sheets_.page(), cell(picture, top), input_.job.plan, swing);
  }

  const FormInput& input_;
  const Wording& wording_;
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

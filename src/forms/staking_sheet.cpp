#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "pen.hpp"
#include "sheets.hpp"
#include "stakewright/base/angle.hpp"
#include "swing_picture.hpp"
#include "table.hpp"

namespace stakewright::forms {
namespace {

using drawing::At;
using drawing::Box;

enum Col : std::size_t { done, stake, hold1, pull1, hold2, pull2, hand, crossing, picture };

constexpr double kLeastPictureRow_pt = 42.0;
constexpr double kTallestRow_pt = 60.0;
constexpr double kRow_pt = 26.0;
constexpr double kLargestPull_pt = 12.5;
constexpr Style kStakeLabel{.size_pt = 15.0, .weight = drawing::Weight::bold};
constexpr Style kHoldLabel{.size_pt = 13.0};

Table staking_table(const Wording& wording, double width_pt, bool with_pictures) {
  const std::string& hold = wording.text("staking.hold");
  const std::string& pull = wording.text("staking.pull");
  std::vector<Column> columns{{wording.text("staking.done"), 42.0},
                              {wording.text("staking.stake"), 44.0},
                              {hold, 40.0, true},
                              {pull, 102.0},
                              {hold, 40.0, true},
                              {pull, 102.0},
                              {wording.text("staking.hand"), 44.0},
                              {wording.text("staking.crossing"), 48.0}};
  if (with_pictures) columns.push_back({wording.text("staking.picture"), 68.0});
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
      : input_(input), wording_(input.wording), order_(input.layout.order) {
    start_sheet();
    add_opening();
    const std::size_t rows = order_.swings.size() + (order_.sighted ? 1 : 0);
    const double each = (room_.height_pt - kTableHead_pt - notes_height_pt()) /
                        static_cast<double>(std::max<std::size_t>(rows, 1));
    with_pictures_ = each >= kLeastPictureRow_pt;
    row_pt_ = with_pictures_ ? std::min(each, kTallestRow_pt) : kRow_pt;
  }

  std::vector<Sheet> sheets() {
    table_ = staking_table(wording_, room_.width_pt, with_pictures_);
    choose_pull_style();
    start_table();
    if (order_.sighted) add_sighting(*order_.sighted);
    for (const layout::Swing& swing : order_.swings) add_swing(swing);
    end_table();
    if (room_.height_pt < notes_height_pt()) start_sheet();
    add_notes();
    return std::move(sheets_);
  }

 private:
  [[nodiscard]] drawing::Page& page() { return sheets_.back().page; }

  void start_sheet() {
    sheets_.push_back(blank_sheet(SheetKind::stake, input_.choices.paper));
    room_ = body(page());
  }

  void use(double height_pt) {
    room_.y_pt += height_pt;
    room_.height_pt -= height_pt;
  }

  void add_opening() {
    room_ = under_caution(page(), room_, wording_.text("staking.caution"));
    Pen pen(page());
    pen.cut_text({room_.x_pt, room_.y_pt + kText_pt}, room_.width_pt,
                 wording_.filled("staking.given",
                                 {{"points", fmt::format("{}", fmt::join(order_.given, ", "))}}),
                 kStrong);
    use(16.0);
    use(pen.paragraph({room_.x_pt, room_.y_pt}, room_.width_pt, wording_.text("staking.how")) +
        8.0);
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
      height += paragraph_height_pt(room_.width_pt, note) + 2.0;
    return height;
  }

  void add_notes() {
    Pen pen(page());
    use(8.0);
    for (const std::string& note : notes())
      use(pen.paragraph({room_.x_pt, room_.y_pt}, room_.width_pt, note) + 2.0);
  }

  void start_table() {
    Pen pen(page());
    head_ = {room_.x_pt, room_.y_pt};
    use(table_.draw_head(pen, head_) - head_.y_pt);
  }

  void end_table() {
    Pen pen(page());
    table_.draw_uprights(pen, head_, room_.y_pt);
  }

  /// As large as the longest pull allows: a length is never cut.
  void choose_pull_style() {
    double widest = 0.0;
    for (const layout::Swing& swing : order_.swings)
      for (const layout::Hold& hold : swing.from)
        widest = std::max(widest, width_pt(length_text(hold.length_m), kStrong));
    const double room = Table::inside_pt(table_.cell(pull1, {}, row_pt_));
    const double fits = widest > 0.0 ? kText_pt * room / widest : kLargestPull_pt;
    pull_style_.size_pt = std::clamp(std::floor(2.0 * fits) / 2.0, kText_pt, kLargestPull_pt);
  }

  [[nodiscard]] std::string length_text(double length_m) const {
    return base::text_from_length(length_m, input_.choices.units);
  }

  /// Makes room for one row, on a new sheet if need be; returns its corner.
  At start_row() {
    if (room_.height_pt < row_pt_) {
      end_table();
      start_sheet();
      start_table();
    }
    const At top{room_.x_pt, room_.y_pt};
    use(row_pt_);
    Pen pen(page());
    pen.line({room_.x_pt, room_.y_pt}, {room_.right_pt(), room_.y_pt}, kRule_pt);
    return top;
  }

  void add_common(Pen& pen, At top, const std::string& label) {
    pen.tick("set." + label, table_.cell(done, top, row_pt_));
    pen.in_box(table_.cell(stake, top, row_pt_), label, kStakeLabel);
  }

  void add_hold(Pen& pen, At top, Col label, Col pull, const layout::Hold& hold) {
    pen.in_box(table_.cell(label, top, row_pt_), hold.label, kHoldLabel);
    pen.in_box(table_.cell(pull, top, row_pt_), length_text(hold.length_m), pull_style_);
  }

  void add_sighting(const layout::Sighting& sighting) {
    const At top = start_row();
    Pen pen(page());
    add_common(pen, top, sighting.stake);
    add_hold(pen, top, hold1, pull1, {sighting.from, sighting.length_m});
    pen.in_box(table_.cell(hold2, top, row_pt_), wording_.text("staking.sight"));
    pen.in_box(table_.cell(pull2, top, row_pt_), base::text_from_bearing(sighting.bearing_rad),
               pull_style_);
  }

  void add_swing(const layout::Swing& swing) {
    const At top = start_row();
    Pen pen(page());
    add_common(pen, top, swing.stake);
    add_hold(pen, top, hold1, pull1, swing.from[0]);
    add_hold(pen, top, hold2, pull2, swing.from[1]);
    pen.in_box(table_.cell(hand, top, row_pt_),
               wording_.text(swing.hand == layout::Hand::left ? "staking.left" : "staking.right"));
    const double degrees = std::round(swing.crossing_rad / base::kDegree_rad);
    pen.in_box(table_.cell(crossing, top, row_pt_),
               fmt::format("{}°{}", degrees, is_flat(swing) ? " !" : ""));
    if (with_pictures_)
      draw_swing(page(), table_.cell(picture, top, row_pt_), input_.job.plan, swing);
  }

  const FormInput& input_;
  const Wording& wording_;
  const layout::StakingOrder& order_;
  std::vector<Sheet> sheets_;
  Box room_;  ///< what is left of the page
  bool with_pictures_ = true;
  double row_pt_ = kRow_pt;
  Style pull_style_ = kStrong;
  Table table_{{{"", 1.0}}, 1.0};
  At head_;
};

}  // namespace

std::vector<Sheet> staking_sheets(const FormInput& input) { return StakingSheets(input).sheets(); }

}  // namespace stakewright::forms

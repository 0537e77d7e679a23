#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "found_drawing.hpp"
#include "key_column.hpp"
#include "pen.hpp"
#include "picture_sheet.hpp"
#include "plan_marks.hpp"
#include "stakewright/told/suspects.hpp"

namespace stakewright::forms {
namespace {

using base::Length;
using base::Name;
using base::Value;
using drawing::At;
using drawing::Box;

constexpr double kKeyWidth_pt = 176.0;
constexpr double kGutter_pt = 14.0;
constexpr double kLeastSuspects_pt = 84.0;
/// Below a table over the whole width, where the drawing and its key need the height more.
constexpr double kLeastBelow_pt = 56.0;
constexpr Style kHeading{.size_pt = 12.0, .weight = drawing::Weight::bold};
constexpr double kHeading_pt = 19.0;

base::Number factor_of(const FoundView& found) {
  constexpr int kAsNeeded = -1;
  return {found.factor, kAsNeeded};
}

// The key

/// A round length whose enlarged bar fits, in meters.
double enlarged_bar_m(const FoundView& found, double room_pt, base::Units units) {
  constexpr std::array<double, 12> kInches{1.0 / 16, 1.0 / 8, 1.0 / 4, 1.0 / 2, 1.0,   2.0,
                                           3.0,      6.0,     12.0,    60.0,    120.0, 1200.0};
  constexpr std::array<double, 12> kMillimeters{1.0,   2.0,   5.0,   10.0,   20.0,   50.0,
                                                100.0, 200.0, 500.0, 1000.0, 5000.0, 50000.0};
  const bool inches = units == base::Units::feet_inches;
  const double unit_m = inches ? 0.0254 : 0.001;
  double best = unit_m * (inches ? kInches : kMillimeters).front();
  for (const double step : inches ? kInches : kMillimeters)
    if (found.enlarged_pt(step * unit_m) <= room_pt) best = step * unit_m;
  return best;
}

void add_enlarged(KeyColumn& key, const FoundView& found, const Voice& voice) {
  if (!found.any_found) return;
  key.add_words(Fact{"pictures.enlarged", {{"factor", factor_of(found)}}}, kStrong);
  const double length_m = enlarged_bar_m(found, kKeyWidth_pt - 60.0, voice.units());
  key.add_bar(found.enlarged_pt(length_m), {length_m});
  key.add_paragraph(Fact{"pictures.enlarged_what"});
  key.skip(6.0);
}

void add_found_marks(KeyColumn& key, const FoundView& found, const FoundDrawn& drawn) {
  const auto add = [&key](placement::Verdict verdict, const Fact& words) {
    key.add_mark([verdict](drawing::Page& page, At at) { draw_found(page, at, verdict); }, words);
  };
  key.add_mark(draw_wanted, Fact{"pictures.wanted"});
  if (found.any_found) add(placement::Verdict::in, {"pictures.found_in"});
  if (drawn.out) add(placement::Verdict::out, {"pictures.found_out"});
  if (drawn.undecided) add(placement::Verdict::undecided, {"pictures.found_undecided"});
  if (drawn.not_fixed) key.add_mark(draw_not_fixed, Fact{"pictures.found_not_fixed"});
}

void draw_tolerance(drawing::Page& page, At at) {
  page.marks.emplace_back(drawing::Circle{at, 5.5, drawing::Fill::none, tolerance_stroke()});
}

void draw_ellipse(drawing::Page& page, At at) {
  page.marks.emplace_back(drawing::Polygon{ellipse_points(at, 9.0, 4.5, std::numbers::pi / 2.0),
                                           drawing::Fill::none, ellipse_stroke()});
}

void add_line_marks(KeyColumn& key, const base::Tolerance& tolerance, const FoundView& found,
                    const FoundDrawn& drawn) {
  key.add_line(planned_stroke(), Fact{"pictures.planned_line"});
  if (found.any_found) key.add_line(found_stroke(), Fact{"pictures.found_line"});
  if (drawn.tolerance)
    key.add_mark(draw_tolerance,
                 Fact{"pictures.tolerance", {{"tolerance", Length{tolerance.corner_m}}}});
  if (found.any_found)
    key.add_mark(draw_ellipse, Fact{"pictures.ellipse",
                                    {{"chance", base::Number{100.0 * tolerance.confidence, -1}}}});
  if (drawn.moves) key.add_sample(draw_move, Fact{"pictures.move"});
  if (drawn.hatched) key.add_sample(draw_hatched, Fact{"pictures.suspect_tape"});
  if (drawn.left_out) key.add_line(left_out_stroke(), Fact{"pictures.left_out_tape"});
  if (!drawn.numbered.empty())
    key.add_mark(
        [&drawn](drawing::Page& page, At at) {
          draw_number(page, at, std::to_string(drawn.numbered.front() + 1));
        },
        Fact{"pictures.suspect_number"});
}

// The table of the corners

/// Up to here each corner has a line of words; above, signed figures in columns.
constexpr std::size_t kMostCornersInWords = 12;
constexpr std::size_t kFigureColumns = 3;
constexpr double kRow_pt = 13.5;

/// Label, outward or inward, sideways, verdict.
struct CornerRow {
  std::array<std::string, 4> words;
  bool out = false;
};

/// A foot and more in whole inches: nobody needs it finer, and the column is narrow.
std::string signed_text(double length_m, const Voice& voice) {
  constexpr double kFoot_m = 0.3048;
  const base::Step step = std::abs(length_m) < kFoot_m ? base::Step::tape : base::Step::whole;
  const std::string text = voice.text(Length{std::abs(length_m), step});
  if (text == voice.text(Length{})) return text;
  return (length_m > 0.0 ? "+" : "−") + text;
}

CornerRow row_of(const check::Findings& findings, std::size_t i, bool in_words,
                 const Voice& voice) {
  const std::string& label = findings.network.points[i].label;
  const bool placed = findings.placement && findings.survey && findings.survey->measured[i];
  if (!placed) return {{label, voice.text("pictures.not_fixed"), "", ""}, false};
  const placement::CornerResult& corner = findings.placement->corners[i];
  const std::string verdict = voice.text(verdict_word(corner.verdict));
  const bool out = corner.verdict == placement::Verdict::out;
  if (!in_words)
    return {{label, signed_text(corner.outward_m, voice), signed_text(corner.sideways_m, voice),
             corner.verdict == placement::Verdict::undecided ? "?" : verdict},
            out};
  const auto directed = [&voice](base::Way way, double length_m) {
    return voice.text(base::Directed{way, Length{length_m}});
  };
  return {{label, directed(base::Way::outward, corner.outward_m),
           directed(base::Way::sideways, corner.sideways_m), verdict},
          out};
}

/// Every corner with how it is off and its verdict, beneath the drawing.
class CornerTable {
 public:
  CornerTable(const check::Findings& findings, double page_width_pt, const Voice& voice)
      : in_words_(findings.network.corner_count <= kMostCornersInWords),
        heading_(voice.text(in_words_ ? Fact{"pictures.corners_heading"}
                                      : Fact{"pictures.corners_heading_signed"})),
        heading_style_(in_words_ ? kHeading : kStrong) {
    for (std::size_t i = 0; i < findings.network.corner_count; ++i)
      rows_.push_back(row_of(findings, i, in_words_, voice));
    const std::size_t columns = in_words_ ? 1 : kFigureColumns;
    per_column_ = (rows_.size() + columns - 1) / columns;
    double right = 0.0;
    for (std::size_t k = 0; k < lefts_.size(); ++k) {
      lefts_[k] = right;
      for (const CornerRow& row : rows_)
        right = std::max(right, lefts_[k] + forms::width_pt(row.words[k], style(row, k)) + kGap_pt);
    }
    width_pt_ =
        in_words_ ? std::max(right, forms::width_pt(heading_, heading_style_)) : page_width_pt;
  }

  /// As wide as its words, or the whole of the page in figures.
  [[nodiscard]] double width_pt() const { return width_pt_; }
  [[nodiscard]] double height_pt() const {
    return kHeading_pt + static_cast<double>(per_column_) * kRow_pt;
  }

  void draw(drawing::Page& page, At top) const {
    Pen pen(page);
    pen.cut_text({top.x_pt, top.y_pt + 12.0}, width_pt_, heading_, heading_style_);
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      const double left =
          top.x_pt + static_cast<double>(i / per_column_) * width_pt_ / kFigureColumns;
      const double y =
          top.y_pt + kHeading_pt + static_cast<double>(i % per_column_) * kRow_pt + kText_pt;
      for (std::size_t k = 0; k < lefts_.size(); ++k)
        if (!rows_[i].words[k].empty())
          pen.text({left + lefts_[k], y}, rows_[i].words[k], style(rows_[i], k));
    }
  }

 private:
  static constexpr double kGap_pt = 7.0;

  /// The label, and the verdict of a corner that is out.
  static Style style(const CornerRow& row, std::size_t column) {
    return column == 0 || (column == 3 && row.out) ? kStrong : kPlain;
  }

  bool in_words_;
  std::string heading_;
  Style heading_style_;
  std::vector<CornerRow> rows_;
  std::size_t per_column_ = 0;
  std::array<double, 4> lefts_{};  ///< where the columns of a row begin
  double width_pt_ = 0.0;
};

// What the numbers may mean

/// Likeliest first, as many as there is room for.
void draw_suspects(drawing::Page& page, const Box& box, const check::Findings& findings,
                   const FoundView& found, const Voice& voice) {
  constexpr double kNumber_pt = 16.0;
  constexpr double kBetween_pt = 3.0;
  Pen pen(page);
  pen.cut_text({box.x_pt, box.y_pt + 12.0}, box.width_pt, voice.text("pictures.suspects_heading"),
               kHeading);
  double y = box.y_pt + kHeading_pt;
  const auto add = [&](const std::string& number, const Value& words) {
    const std::string text = voice.text(words);
    const double height = paragraph_height_pt(box.width_pt - kNumber_pt, text);
    if (y + height > box.bottom_pt()) return false;
    if (!number.empty()) pen.text({box.x_pt, y + drawing::ascent_pt(kText_pt)}, number, kStrong);
    pen.paragraph({box.x_pt + kNumber_pt, y}, box.width_pt - kNumber_pt, text);
    y += height + kBetween_pt;
    return true;
  };
  if (!found.any_found) add("", Fact{"pictures.nothing_found"});
  if (findings.suspects.remark) add("", *findings.suspects.remark);
  const auto& ranked = findings.suspects.ranked;
  for (std::size_t k = 0; k < ranked.size(); ++k) {
    const Fact words{"pictures.suspect",
                     {{"chance", base::Chance{ranked[k].chance}},
                      {"words", told::explanation(findings.network, ranked[k].causes)}}};
    if (!add(std::to_string(k + 1), words)) break;
  }
}

std::string description(const check::Findings& findings, const FoundView& found,
                        const Voice& voice) {
  std::string words =
      voice.text(Fact{"pictures.found_description", {{"factor", factor_of(found)}}});
  for (std::size_t i = 0; i < found.corners.size(); ++i) {
    const Name label{findings.network.points[i].label};
    const FoundCorner& corner = found.corners[i];
    words += ' ' + voice.text(corner.off ? Fact{"pictures.corner_description",
                                                {{"corner", label},
                                                 {"verdict", verdict_word(corner.verdict)},
                                                 {"distance", Length{base::norm_m(*corner.off)}}}}
                                         : Fact{"pictures.corner_not_fixed", {{"corner", label}}});
  }
  return words;
}

}  // namespace

std::vector<Picture> found_pictures(const job::Job& job, const check::Findings& findings,
                                    const Voice& voice, Paper paper) {
  PictureSheet sheet = picture_sheet(job, {Fact{"pictures.found_tab"}, fingerprint_note(job)},
                                     {"pictures.found_foot"}, Lie::upright, voice, paper);
  const Box& body = sheet.body;
  const CornerTable table(findings, body.width_pt, voice);
  const bool beside = table.width_pt() < body.width_pt;
  const double words_height = beside ? std::max(table.height_pt(), kLeastSuspects_pt)
                                     : table.height_pt() + kGutter_pt + kLeastBelow_pt;
  const double drawing_height = body.height_pt - words_height - kGutter_pt;
  const Box plan{body.x_pt, body.y_pt, body.width_pt - kKeyWidth_pt - kGutter_pt, drawing_height};
  const FoundView found = found_view(job, findings, plan, voice.units());
  const FoundDrawn drawn = draw_found_plan(sheet.page, plan, job, findings, found, voice);
  KeyColumn key(sheet.page, {plan.right_pt() + kGutter_pt, body.y_pt, kKeyWidth_pt, drawing_height},
                voice);
  key.add_forward_arrow();
  key.add_scale(found.view.scale);
  add_enlarged(key, found, voice);
  add_found_marks(key, found, drawn);
  add_line_marks(key, job.tolerance, found, drawn);
  if (drawn.labels_thinned) key.add_paragraph(Fact{"pictures.thinned"});
  const double top = body.y_pt + drawing_height + kGutter_pt;
  table.draw(sheet.page, {body.x_pt, top});
  const double left = beside ? body.x_pt + table.width_pt() + kGutter_pt : body.x_pt;
  const double below = beside ? top : top + table.height_pt() + kGutter_pt;
  draw_suspects(sheet.page, {left, below, body.right_pt() - left, body.bottom_pt() - below},
                findings, found, voice);
  sheet.page.description = description(findings, found, voice);
  return {{"found", std::move(sheet.page)}};
}

}  // namespace stakewright::forms

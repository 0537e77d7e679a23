#include "corner_table.hpp"

#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "found_drawing.hpp"
#include "pen.hpp"

namespace stakewright::forms {
namespace {

using drawing::Box;

constexpr double kRow_pt = 13.5;
constexpr double kHeading_pt = 19.0;
constexpr std::size_t kFigureColumns = 3;
constexpr double kInWords_pt = 330.0;
constexpr Style kHeading{.size_pt = 12.0, .weight = drawing::Weight::bold};

std::size_t rows_of(std::size_t corners) {
  if (corners <= kMostCornersInWords) return corners;
  return (corners + kFigureColumns - 1) / kFigureColumns;
}

/// Where the columns of one row begin, as shares of its width.
using Edges = std::array<double, 4>;
constexpr Edges kWordEdges{0.0, 0.065, 0.395, 0.815};
constexpr Edges kFigureEdges{0.0, 0.12, 0.475, 0.83};

class Rows {
 public:
  Rows(drawing::Page& page, const Box& box, const Edges& edges)
      : pen_(page), box_(box), edges_(edges) {}

  void add(const std::array<std::string, 4>& words, const Style& style) {
    for (std::size_t k = 0; k < words.size(); ++k) {
      const double left = box_.x_pt + edges_[k] * box_.width_pt;
      const double right =
          k + 1 < words.size() ? box_.x_pt + edges_[k + 1] * box_.width_pt : box_.right_pt();
      if (!words[k].empty())
        pen_.cut_text({left, y_ + kText_pt}, right - left - 2.0, words[k],
                      k == 0 ? kStrong : style);
    }
    y_ += kRow_pt;
  }

  void start(double y) { y_ = y; }

 private:
  Pen pen_;
  Box box_;
  const Edges& edges_;
  double y_ = 0.0;
};

/// A foot and more in whole inches: nobody needs it finer, and the column is narrow.
std::string text_of(double length_m, base::Units units) {
  constexpr double kFoot_m = 0.3048;
  return base::text_from_length(std::abs(length_m), units, std::abs(length_m) < kFoot_m ? 16 : 1);
}

std::string directed(double length_m, const char* positive, const char* negative, base::Units units,
                     const Wording& wording) {
  const std::string text = text_of(length_m, units);
  if (text == base::text_from_length(0.0, units)) return text;
  return wording.filled(length_m > 0.0 ? positive : negative, {{"distance", text}});
}

std::string signed_text(double length_m, base::Units units) {
  const std::string text = text_of(length_m, units);
  if (text == base::text_from_length(0.0, units)) return text;
  return (length_m > 0.0 ? "+" : "−") + text;
}

std::array<std::string, 4> row(const check::Findings& findings, std::size_t i, base::Units units,
                               bool in_words, const Wording& wording) {
  const std::string& label = findings.network.points[i].label;
  const bool placed = findings.placement && findings.survey && findings.survey->measured[i];
  if (!placed) return {label, wording.text("pictures.not_fixed"), "", ""};
  const placement::CornerResult& corner = findings.placement->corners[i];
  const std::string verdict = verdict_words(corner.verdict, wording);
  if (!in_words)
    return {label, signed_text(corner.outward_m, units), signed_text(corner.sideways_m, units),
            corner.verdict == placement::Verdict::undecided ? "?" : verdict};
  return {label, directed(corner.outward_m, "pictures.outward", "pictures.inward", units, wording),
          directed(corner.sideways_m, "pictures.clockwise", "pictures.counterclockwise", units,
                   wording),
          verdict};
}

}  // namespace

double corner_table_height_pt(std::size_t corners) {
  return kHeading_pt + static_cast<double>(rows_of(corners)) * kRow_pt;
}

double corner_table_width_pt(std::size_t corners, double page_width_pt) {
  return corners <= kMostCornersInWords ? kInWords_pt : page_width_pt;
}

void draw_corner_table(drawing::Page& page, const Box& box, const check::Findings& findings,
                       base::Units units, const Wording& wording) {
  const std::size_t corners = findings.network.corner_count;
  const bool in_words = corners <= kMostCornersInWords;
  Pen(page).cut_text(
      {box.x_pt, box.y_pt + 12.0}, box.width_pt,
      wording.text(in_words ? "pictures.corners_heading" : "pictures.corners_heading_signed"),
      in_words ? kHeading : kStrong);
  const std::size_t columns = in_words ? 1 : kFigureColumns;
  constexpr double kBetween_pt = 6.0;
  const double width = (box.width_pt - kBetween_pt * static_cast<double>(columns - 1)) /
                       static_cast<double>(columns);
  const std::size_t rows = rows_of(corners);
  for (std::size_t column = 0; column < columns; ++column) {
    Rows table(page,
               {box.x_pt + static_cast<double>(column) * (width + kBetween_pt), box.y_pt, width,
                box.height_pt},
               in_words ? kWordEdges : kFigureEdges);
    table.start(box.y_pt + kHeading_pt);
    for (std::size_t i = column * rows; i < std::min(corners, (column + 1) * rows); ++i) {
      const bool out = findings.placement && findings.survey && findings.survey->measured[i] &&
                       findings.placement->corners[i].verdict == placement::Verdict::out;
      table.add(row(findings, i, units, in_words, wording), out && in_words ? kStrong : kPlain);
    }
  }
}

}  // namespace stakewright::forms

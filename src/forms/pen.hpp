// Short ways to put common marks on a page, in the form's own style.
#pragma once

#include <string>

#include "stakewright/drawing/page.hpp"
#include "stakewright/drawing/text.hpp"

namespace stakewright::forms {

/// Nothing that is written or read in the field is set smaller.
inline constexpr double kText_pt = 10.0;
/// From one line of text to the next.
inline constexpr double kLeading_pt = 13.0;

/// Between the edge of a box and the words in it.
inline constexpr double kCellMargin_pt = 4.0;

inline constexpr double kThin_pt = 0.5;
inline constexpr double kRule_pt = 0.75;
inline constexpr double kBold_pt = 1.5;

struct Style {
  double size_pt = kText_pt;
  drawing::Weight weight = drawing::Weight::normal;
  drawing::Anchor anchor = drawing::Anchor::start;
  drawing::Ink ink = drawing::Ink::black;
};

inline constexpr Style kPlain{};
inline constexpr Style kStrong{.weight = drawing::Weight::bold};
inline constexpr Style kToTheRight{.anchor = drawing::Anchor::end};

class Pen {
 public:
  explicit Pen(drawing::Page& page) : page_(page) {}

  void line(drawing::At from, drawing::At to, double width_pt = kRule_pt,
            std::vector<double> dash_pt = {});
  void box(const drawing::Box& box, double width_pt = kRule_pt);
  void black_box(const drawing::Box& box);

  /// One line of text on a baseline, however wide.
  void text(drawing::At baseline, const std::string& words, const Style& style = kPlain);

  /// One line of text on a baseline, cut to a width.
  void cut_text(drawing::At baseline, double width_pt, const std::string& words,
                const Style& style = kPlain);

  /// One line of text in the middle of a box (as high as a capital), cut to its width less a
  /// small margin.  The style's anchor says whether it stands left, centerd or right.
  void in_box(const drawing::Box& box, const std::string& words, const Style& style = kPlain);

  /// Text broken into lines below `top`; returns its height.
  double paragraph(drawing::At top, double width_pt, const std::string& words,
                   const Style& style = kPlain);

  void blank(const std::string& name, const drawing::Box& box);

  /// A square to tick, in the middle of a cell.
  void tick(const std::string& name, const drawing::Box& cell);

 private:
  drawing::Page& page_;
};

/// Height `Pen::paragraph` will take.
double paragraph_height_pt(double width_pt, const std::string& words, const Style& style = kPlain);

/// Ink of one line of text on a baseline at the page's corner, cut to a width.
drawing::Box inked_pt(const std::string& words, const Style& style, double width_pt);

double width_pt(const std::string& words, const Style& style = kPlain);

}  // namespace stakewright::forms

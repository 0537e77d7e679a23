// A column beside a drawing: which way is forward, the scale, sizes, and what each mark means.
#pragma once

#include <cstddef>
#include <functional>
#include <string>

#include "pen.hpp"
#include "plan_marks.hpp"
#include "scale.hpp"
#include "stakewright/base/length.hpp"
#include "stakewright/wording/wording.hpp"

namespace stakewright::forms {

using wording::Wording;

/// Rows from the top down, each as wide as the column.
class KeyColumn {
 public:
  KeyColumn(drawing::Page& page, const drawing::Box& box, base::Units units, const Wording& wording)
      : page_(page), pen_(page), box_(box), units_(units), wording_(wording), y_(box.y_pt) {}

  void add_forward_arrow();

  /// The scale in words, a bar, and how long that bar is on paper.
  void add_scale(const Scale& scale);

  /// A bar that stands for a length, with that length beside it.
  void add_bar(double length_pt, const std::string& words);

  /// One line, cut to the column.
  void add_words(const std::string& words, const Style& style = kPlain);

  /// Broken into lines.
  void add_paragraph(const std::string& words, const Style& style = kPlain);

  /// A name on the left, a length on the right that is never cut.
  void add_figure(const std::string& name, double length_m);
  void add_figure(const std::string& name, const std::string& figure);

  /// A sample of a line, what it is, and a length that is never cut.
  void add_line(const drawing::Stroke& stroke, const std::string& name,
                const std::string& length = "");
  void add_string(const std::string& name, const std::string& length);
  void add_pointer(const std::string& name);
  void add_outline(const std::string& name, const std::string& rule);

  /// What `draw` puts at a place, and what it means.
  using DrawMark = std::function<void(drawing::Page&, drawing::At)>;
  void add_mark(const DrawMark& draw, const std::string& name);

  /// The same, drawn between two places 28 pt apart.
  using DrawSample = std::function<void(drawing::Page&, drawing::At, drawing::At)>;
  void add_sample(const DrawSample& draw, const std::string& name);

  [[nodiscard]] std::size_t rows_left() const;
  [[nodiscard]] double y_pt() const { return y_; }
  void skip(double by_pt) { y_ += by_pt; }

 private:
  /// In the middle of the capitals of the row.
  [[nodiscard]] double sample_y() const;
  void add_meaning(const std::string& name, const std::string& length);

  drawing::Page& page_;
  Pen pen_;
  drawing::Box box_;
  base::Units units_;
  const Wording& wording_;
  double y_;
};

}  // namespace stakewright::forms

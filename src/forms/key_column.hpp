// A column beside a drawing: which way is forward, the scale, sizes, and what each mark means.
#pragma once

#include <cstddef>
#include <functional>
#include <string>

#include "pen.hpp"
#include "plan_marks.hpp"
#include "scale.hpp"
#include "stakewright/wording/voice.hpp"

namespace stakewright::forms {

using wording::Voice;

/// Rows from the top down, each as wide as the column.
class KeyColumn {
 public:
  KeyColumn(drawing::Page& page, const drawing::Box& box, const Voice& voice)
      : page_(page), pen_(page), box_(box), voice_(voice), y_(box.y_pt) {}

  void add_forward_arrow();

  /// The scale in words, a bar, and how long that bar is on paper.
  void add_scale(const Scale& scale);

  /// A bar that stands for a length, with that length beside it.
  void add_bar(double length_pt, base::Length length);

  /// One line, cut to the column.
  void add_words(const base::Value& words, const Style& style = kPlain);

  /// Broken into lines.
  void add_paragraph(const base::Value& words);

  /// A name on the left, a figure on the right that is never cut.
  void add_figure(const base::Value& name, const base::Value& figure);

  /// A sample of a line, what it is, and a length that is never cut.
  void add_line(const drawing::Stroke& stroke, const base::Value& name,
                const base::Value& length = {});
  void add_string(const base::Value& name, const base::Value& length);
  void add_outline(const base::Value& name, const base::Value& rule);

  /// What `draw` puts at a place, and what it means.
  using DrawMark = std::function<void(drawing::Page&, drawing::At)>;
  void add_mark(const DrawMark& draw, const base::Value& name);

  /// The same, drawn between two places 28 pt apart.
  using DrawSample = std::function<void(drawing::Page&, drawing::At, drawing::At)>;
  void add_sample(const DrawSample& draw, const base::Value& name);

  [[nodiscard]] std::size_t rows_left() const;
  [[nodiscard]] double y_pt() const { return y_; }
  void skip(double by_pt) { y_ += by_pt; }

 private:
  /// In the middle of the capitals of the row.
  [[nodiscard]] double sample_y() const;
  void add_meaning(const base::Value& name, const base::Value& length = {});

  drawing::Page& page_;
  Pen pen_;
  drawing::Box box_;
  const Voice& voice_;
  double y_;
};

}  // namespace stakewright::forms

// Rows of a points file: label,right,forward,height,note (RFC 4180).
#pragma once

#include <optional>
#include <string>

#include "stakewright/base/length.hpp"
#include "stakewright/base/point.hpp"

namespace stakewright::output {

class PointRows {
 public:
  /// Figures are written in feet, millimeters or meters, to a tenth of a millimeter or finer.
  explicit PointRows(base::Units units);

  /// A height that is not known leaves its field empty.
  void add(const std::string& label, base::Point at, const std::string& note,
           std::optional<double> height_m = {});

  [[nodiscard]] const std::string& text() const { return text_; }

 private:
  [[nodiscard]] std::string number(double meters) const;

  const char* unit_;
  double per_meter_;
  int decimals_;
  std::string text_ = "label,right,forward,height,note\n";
};

/// A field as RFC 4180 has it: in quotes where it must be, a quote within written twice.
std::string csv_field(const std::string& text);

}  // namespace stakewright::output

// How fields look before a viewer has drawn them itself.
#pragma once

#include <map>
#include <utility>

#include <qpdf/QPDF.hh>

#include "stakewright/drawing/page.hpp"

namespace stakewright::fields {

/// Names of the state of a check box (ISO 32000-1, 12.7.4.2.3).
inline constexpr const char* kTicked = "/Yes";
inline constexpr const char* kNotTicked = "/Off";

/// Names of the fonts that every viewer has, as fields call them.
inline constexpr const char* kTextFont = "/Helv";
inline constexpr const char* kTickFont = "/ZaDb";

class Appearances {
 public:
  explicit Appearances(QPDF& pdf);

  /// The fonts, by the names above.
  [[nodiscard]] QPDFObjectHandle resources() const { return resources_; }

  /// Draws nothing, so that what is printed in the blank shows through.  Each text field has its
  /// own: programs that fill forms write into it.
  [[nodiscard]] QPDFObjectHandle empty_text(const drawing::Box& box) const;

  /// Both states; boxes of one size share them.
  [[nodiscard]] QPDFObjectHandle tick(const drawing::Box& box);

 private:
  [[nodiscard]] QPDFObjectHandle drawn(const drawing::Box& box, const std::string& marks) const;

  QPDF& pdf_;
  QPDFObjectHandle resources_;
  std::map<std::pair<double, double>, QPDFObjectHandle> ticks_;
};

}  // namespace stakewright::fields

#include "point_rows.hpp"

#include <fmt/format.h>

namespace stakewright::output {
namespace {

constexpr double kFoot_m = 0.3048;
constexpr double kMillimetersPerMeter = 1000.0;

}  // namespace

PointRows::PointRows(base::Units units) : unit_("m"), per_meter_(1.0), decimals_(4) {
  if (units == base::Units::feet_inches) {
    unit_ = "feet";
    per_meter_ = 1.0 / kFoot_m;
  } else if (units == base::Units::millimeters) {
    unit_ = "mm";
    per_meter_ = kMillimetersPerMeter;
    decimals_ = 1;
  }
}

std::string PointRows::number(double meters) const {
  std::string text = fmt::format("{:.{}f}", meters * per_meter_, decimals_);
  const bool is_minus_zero = text[0] == '-' && text.find_first_not_of("-0.") == std::string::npos;
  return is_minus_zero ? text.substr(1) : text;
}

void PointRows::add(const std::string& label, base::Point at, const std::string& note,
                    std::optional<double> height_m) {
  text_ += fmt::format("{},{},{},{},{}\n", csv_field(label), number(at.x_m), number(at.y_m),
                       height_m ? number(*height_m) : "",
                       csv_field(fmt::format("{} ({})", note, unit_)));
}

std::string csv_field(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

}  // namespace stakewright::output

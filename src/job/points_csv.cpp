#include <fmt/format.h>

#include "stakewright/job/results.hpp"

namespace stakewright::job {
namespace {

/// How the figures of a points file are written.
struct Written {
  const char* unit;
  double per_metre;
  int decimals;  ///< to a tenth of a millimetre or finer
};

Written written_in(base::Units units) {
  switch (units) {
    case base::Units::feet_inches:
      return {"feet", 1.0 / 0.3048, 4};
    case base::Units::millimetres:
      return {"mm", 1000.0, 1};
    case base::Units::metres:
      break;
  }
  return {"m", 1.0, 4};
}

std::string number(double metres, const Written& written) {
  std::string text = fmt::format("{:.{}f}", metres * written.per_metre, written.decimals);
  const bool is_minus_zero = text[0] == '-' && text.find_first_not_of("-0.") == std::string::npos;
  return is_minus_zero ? text.substr(1) : text;
}

/// A field as RFC 4180 has it: in quotes where it must be, a quote within written twice.
std::string field(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

class Rows {
 public:
  explicit Rows(base::Units units) : written_(written_in(units)) {}

  void add(const std::string& label, base::Point at, const std::string& note) {
    text_ +=
        fmt::format("{},{},{},{}\n", field(label), number(at.x_m, written_),
                    number(at.y_m, written_), field(fmt::format("{} ({})", note, written_.unit)));
  }

  [[nodiscard]] const std::string& text() const { return text_; }

 private:
  Written written_;
  std::string text_ = "label,right,forward,note\n";
};

void add_line(const layout::LineFigures& line, int sides, Rows& rows) {
  const auto labels = layout::corner_labels(sides);
  for (std::size_t i = 0; i < line.corners.size(); ++i)
    rows.add(line.name + " " + labels[i], line.corners[i], "corner of the line " + line.name);
}

/// A string's side is named by its two corners: "A-B".
void add_string(const layout::String& string, Rows& rows) {
  const std::size_t dash = string.side.find('-');
  const std::string note = "nail of the string along " + string.side;
  rows.add(string.side + " at " + string.side.substr(0, dash), string.nail_before, note);
  rows.add(string.side + " at " + string.side.substr(dash + 1), string.nail_after, note);
}

}  // namespace

std::string points_csv(const Job& job, const LayoutResult& result, base::Units units) {
  Rows rows(units);
  for (const layout::Stake& stake : result.stakes)
    rows.add(
        stake.label, stake.at,
        stake.label == layout::kCentreLabel ? "centre pin" : "corner, " + job.plan.measured_to);
  for (const layout::Pin& pin : job.plan.pins) rows.add(pin.name, pin.at, "known point");
  for (const layout::LineFigures& line : result.lines) add_line(line, job.plan.polygon.sides, rows);
  for (const layout::String& string : result.strings) add_string(string, rows);
  return rows.text();
}

}  // namespace stakewright::job

// The table of docs/methods/roof.md: what half an inch outward at one corner does.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "roof/roofs.hpp"
#include "stakewright/roof/sensitivity.hpp"

namespace stakewright::roof {
namespace {

constexpr double kShift_m = 0.5 * kInch_m;

/// A row of the table: its name there, and the figure that it tells of.
struct TableRow {
  std::string name;
  PartKind part;
  std::string at;
  std::string cut;  ///< empty: the line
};

std::vector<TableRow> rows(int sides) {
  const std::string last = layout::corner_labels(sides).back();
  return {{"hip at A", PartKind::hip, "A", ""},
          {"commons beside A", PartKind::common, "A-B", ""},
          {"commons beside A", PartKind::common, last + "-A", ""},
          {"fascia boards beside A", PartKind::fascia, "A-B", ""},
          {"fascia boards beside A", PartKind::fascia, last + "-A", ""},
          {"beams beside A", PartKind::beam, "A-B", ""},
          {"fascia miter at A", PartKind::fascia, "A-B left", "miter"},
          {"fascia bevel at A", PartKind::fascia, "A-B left", "bevel"},
          {"fascia bevel at A", PartKind::fascia, last + "-A right", "bevel"},
          {"beam miter at A", PartKind::beam, "A-B left", "miter"},
          {"hip plumb cut at A", PartKind::hip, "A", "plumb"}};
}

std::string line_of(const std::string& start) {
  std::ifstream page(STAKEWRIGHT_ROOF_PAGE);
  for (std::string line; std::getline(page, line);)
    if (line.starts_with(start)) return line;
  return "";
}

/// The cell of a row under so many sides.
std::string cell(const std::string& row, int sides) {
  const int column = sides == 5 ? 2 : sides == 6 ? 3 : 4;
  std::istringstream cells(line_of("| " + row + " |"));
  std::string text;
  for (int k = 0; k <= column; ++k) std::getline(cells, text, '|');
  const std::size_t first = text.find_first_not_of(' ');
  return first == std::string::npos ? ""
                                    : text.substr(first, text.find_last_not_of(' ') - first + 1);
}

std::string told(const TableRow& row, double change) {
  return row.cut.empty() ? fmt::format("{:+.3f} in", change / kInch_m)
                         : fmt::format("{:+.3f}°", change / kDegree_rad);
}

Site half_inch_site(int sides) {
  Site site;
  site.plan = plan_of(sides, 8.0 * kFoot_m);
  site.plate_offset_m = 2.75 * kInch_m;
  site.spec.pitch = 8.0 / 12.0;
  site.spec.overhang_m = 18.0 * kInch_m;
  site.found.corners = layout::corners_of(site.plan.polygon, site.plan);
  auto& a = site.found.corners[0];
  a = (1.0 + kShift_m / base::norm_m(a)) * a;
  const std::size_t n = site.found.corners.size();
  site.found.covariance = base::Matrix(2 * n, 2 * n);
  return site;
}

TEST(HalfAnInchOutward, DoesWhatTheTableSays) {
  for (const int sides : {5, 6, 8}) {
    const Site site = half_inch_site(sides);
    const auto answers = sensitivity(site.plan, site.plate_offset_m, site.spec, 0);
    const Carry moved = carry(site);
    for (const auto& row : rows(sides)) {
      SCOPED_TRACE(testing::Message() << row.name << ", " << sides << " sides");
      for (const auto& answer : answers) {
        if (answer.part != row.part || text_from_place(answer.at) != row.at ||
            (answer.cut ? name_of(*answer.cut) : "") != row.cut)
          continue;
        EXPECT_EQ(cell(row.name, sides), told(row, answer.outward * kShift_m));
      }
      // The corner really moved: to first order is near enough for a saw.
      const double exact =
          row.cut.empty() ? *part(moved, row.part, row.at).line.difference / kInch_m
                          : *cut(moved, row.part, row.at, row.cut).angle.difference / kDegree_rad;
      EXPECT_NEAR(std::stod(cell(row.name, sides)), exact, 0.006);
    }
  }
}

}  // namespace
}  // namespace stakewright::roof

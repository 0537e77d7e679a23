#include "piece_rows.hpp"

#include <algorithm>
#include <cmath>

namespace stakewright::forms {
namespace {

using roof::PartKind;

constexpr PartKind kKinds[] = {PartKind::hip,    PartKind::common, PartKind::jack,
                               PartKind::fascia, PartKind::beam,   PartKind::post};

void take(std::vector<PieceRow>& rows, const roof::Part& part) {
  const int number = part.kind == PartKind::jack ? part.at.number : 0;
  auto row = std::find_if(rows.begin(), rows.end(), [&](const PieceRow& other) {
    return other.kind == part.kind && other.number == number;
  });
  if (row == rows.end()) {
    rows.push_back({part.kind, number, 0, 0, part.line.planned, part.overall_m, 0.0});
    row = rows.end() - 1;
  }
  ++row->count;
  if (part.fit == roof::Fit::own) ++row->own;
  const double off = part.line.difference.value_or(0.0);
  if (std::abs(off) > std::abs(row->farthest_m)) row->farthest_m = off;
}

}  // namespace

std::vector<PieceRow> piece_rows(const roof::Carry& carry) {
  std::vector<PieceRow> rows;
  for (const PartKind kind : kKinds)
    for (const roof::Part& part : carry.parts)
      if (part.kind == kind) take(rows, part);
  return rows;
}

}  // namespace stakewright::forms

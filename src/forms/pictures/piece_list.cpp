#include "piece_list.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include "piece_rows.hpp"

namespace stakewright::forms {
namespace {

using roof::PartKind;

struct ListRow {
  std::string name;
  std::string figure;
};

/// Jacks of the pattern by number: how many, and how long overall.
std::vector<ListRow> jack_rows(const PartInput& input) {
  std::vector<ListRow> rows;
  for (const PieceRow& row : piece_rows(input.carry)) {
    if (row.kind != PartKind::jack) continue;
    rows.push_back(
        {input.wording.filled("pictures.jack_row", {{"number", std::to_string(row.number)},
                                                    {"count", std::to_string(row.count)}}),
         base::text_from_length(row.overall_m, input.choices.units)});
  }
  return rows;
}

std::vector<ListRow> own_rows(const PartInput& input, PartKind kind) {
  std::vector<ListRow> rows;
  for (const roof::Part& part : input.found.parts)
    if (part.kind == kind && part.fit == roof::Fit::own)
      rows.push_back({roof::text_from_place(part.at),
                      base::text_from_length(part.overall_m, input.choices.units)});
  return rows;
}

void add_rows(KeyColumn& key, const std::vector<ListRow>& rows, const PartInput& input) {
  const std::size_t room = key.rows_left();
  if (room == 0) return;
  const std::size_t shown = rows.size() <= room ? rows.size() : room - 1;
  for (std::size_t k = 0; k < shown; ++k) key.add_figure(rows[k].name, rows[k].figure);
  if (shown < rows.size())
    key.add_words(input.wording.filled("pictures.more_rows",
                                       {{"count", std::to_string(rows.size() - shown)}}));
}

}  // namespace

void add_pieces_like(KeyColumn& key, const PartInput& input, PartKind kind) {
  const auto count = std::count_if(input.found.parts.begin(), input.found.parts.end(),
                                   [kind](const roof::Part& part) { return part.kind == kind; });
  const std::vector<ListRow> own = own_rows(input, kind);
  if (key.rows_left() == 0) return;
  if (kind == PartKind::jack) {
    key.add_words(input.wording.text("pictures.jacks_heading"), kStrong);
    add_rows(key, jack_rows(input), input);
  } else {
    key.add_words(input.wording.filled(
                      "pictures.pieces_alike",
                      {{"count", std::to_string(static_cast<std::size_t>(count) - own.size())}}),
                  kStrong);
  }
  if (own.empty() || key.rows_left() < 2) return;
  key.add_words(
      input.wording.filled("pictures.own_heading", {{"count", std::to_string(own.size())}}),
      kStrong);
  add_rows(key, own, input);
}

}  // namespace stakewright::forms

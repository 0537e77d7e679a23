// The cut sheet as JSON.  Keys: docs/results.md.
#include "carry_json.hpp"

namespace stakewright::output {
namespace {

Json pieces_json(const std::vector<roof::Piece>& pieces) {
  Json list = Json::array();
  for (const auto& piece : pieces) {
    Json at = Json::array();
    for (const auto& place : piece.at) at.push_back(roof::text_from_place(place));
    list.push_back({{"part", roof::name_of(piece.kind)},
                    {"stick", number(piece.length_m)},
                    {"count", piece.at.size()},
                    {"at", at}});
  }
  return list;
}

Json sticks_json(const std::vector<roof::Stick>& sticks) {
  Json list = Json::array();
  for (const auto& stick : sticks) {
    Json pieces = Json::array();
    for (const double piece_m : stick.pieces_m) pieces.push_back(number(piece_m));
    list.push_back({{"count", stick.count},
                    {"length", number(stick.stock_m)},
                    {"pieces", pieces},
                    {"left", number(stick.left_m)}});
  }
  return list;
}

}  // namespace

Json cut_sheet_json(const results::CutSheet& sheet) {
  Json lists = Json::array();
  double bought_m = 0.0;
  for (const auto& list : sheet.lists) {
    bought_m += list.bought_m;
    lists.push_back({{"what", roof::name_of(list.what)},
                     {"pieces", pieces_json(list.pieces)},
                     {"sticks", sticks_json(list.sticks)},
                     {"too_long", pieces_json(list.too_long)},
                     {"used", number(list.used_m)},
                     {"bought", number(list.bought_m)},
                     {"least", list.least}});
  }
  return {
      {"lists", lists}, {"bought", number(bought_m)}, {"sheathing", number(sheet.sheathing_m2)}};
}

}  // namespace stakewright::output

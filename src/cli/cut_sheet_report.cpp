// What to buy and what to saw out of it.
#include <fmt/format.h>

#include <cmath>

#include "carry_sections.hpp"
#include "stakewright/base/angle.hpp"
#include "words.hpp"

namespace stakewright::cli {
namespace {

using base::text_from_angle;
using base::text_from_length;

/// Thickness and depth, where the job knows them.
std::string section_words(roof::Lumber what, const roof::Spec& spec, base::Units units) {
  const auto text = [units](double length_m) { return text_from_length(length_m, units, 32); };
  const auto both = [&](double thickness_m) {
    return fmt::format("{} by {}", text(thickness_m), text(spec.rafter_depth_m));
  };
  switch (what) {
    case roof::Lumber::hips:
      return both(spec.hip_m);
    case roof::Lumber::rafters:
    case roof::Lumber::blocking:
      return both(spec.rafter_m);
    case roof::Lumber::fascia:
      return text(spec.fascia_m) + " thick";
    case roof::Lumber::beams:
      return text(spec.beam_m) + " thick";
    case roof::Lumber::posts:
      return fmt::format("{} square", text(spec.post_m));
    case roof::Lumber::hub:
      return text(spec.hub_m) + " across flats";
  }
  return {};
}

std::string pieces_table(const std::vector<roof::Piece>& pieces, const Shown& shown) {
  std::vector<PlacedRow> placed;
  for (const auto& piece : pieces)
    for (const auto& at : piece.at)
      placed.push_back({std::string(roof::name_of(piece.kind)),
                        at,
                        {text_from_length(piece.length_m, shown.units)}});
  return table({{"part"}, {"at"}, {"pieces", Align::right}, {"stick", Align::right}},
               gathered_and_counted(placed), shown.emphasis);
}

/// `3 of 4' 4", 1 of 2' 0"`.
std::string sawn_words(const std::vector<double>& pieces_m, base::Units units) {
  std::vector<std::pair<std::string, int>> alike;
  for (const double piece_m : pieces_m) {
    const std::string text = text_from_length(piece_m, units);
    if (alike.empty() || alike.back().first != text) alike.emplace_back(text, 0);
    ++alike.back().second;
  }
  std::vector<std::string> words;
  for (const auto& [text, count] : alike) words.push_back(fmt::format("{} of {}", count, text));
  return fmt::format("{}", fmt::join(words, ", "));
}

std::string sticks_table(const roof::CutList& list, const Shown& shown) {
  std::vector<Row> rows;
  for (const auto& stick : list.sticks)
    rows.push_back({std::to_string(stick.count), text_from_length(stick.stock_m, shown.units),
                    text_from_length(stick.left_m, shown.units),
                    sawn_words(stick.pieces_m, shown.units)});
  return table({{"buy", Align::right},
                {"length", Align::right},
                {"left over", Align::right},
                {"saw from each"}},
               rows, shown.emphasis);
}

std::string list_section(const roof::CutList& list, const roof::Spec& spec, const Shown& shown) {
  std::string title{roof::name_of(list.what)};
  title.front() = static_cast<char>(title.front() - 'a' + 'A');
  std::string text =
      '\n' + heading(fmt::format("{}, {}", title, section_words(list.what, spec, shown.units)),
                     shown.emphasis);
  if (!list.pieces.empty()) text += pieces_table(list.pieces, shown) + sticks_table(list, shown);
  if (!list.least)
    text += paragraph("Too many unlike pieces to try every way: a cheaper choice may exist.");
  if (!list.too_long.empty())
    text += paragraph(
                "Longer than any stock, to be ordered specially or spliced as the designer "
                "says:") +
            pieces_table(list.too_long, shown);
  return text;
}

std::string totals_section(const results::CutSheet& sheet, const Shown& shown) {
  std::vector<Row> rows;
  double bought_m = 0.0;
  double used_m = 0.0;
  for (const auto& list : sheet.lists) {
    std::vector<std::string> sticks;
    for (const auto& [length_m, count] : roof::sticks_to_order(list))
      sticks.push_back(fmt::format("{} of {}", count, text_from_length(length_m, shown.units)));
    rows.push_back(
        {std::string(roof::name_of(list.what)), text_from_length(list.used_m, shown.units),
         text_from_length(list.bought_m, shown.units), fmt::format("{}", fmt::join(sticks, ", "))});
    bought_m += list.bought_m;
    used_m += list.used_m;
  }
  rows.push_back(
      {"all", text_from_length(used_m, shown.units), text_from_length(bought_m, shown.units), ""});
  return '\n' + heading("To order", shown.emphasis) +
         table({{"what"}, {"pieces", Align::right}, {"boards", Align::right}, {"sticks"}}, rows,
               shown.emphasis);
}

/// The faces cut alike, once.
std::string faces_table(const roof::Carry& carry, const Shown& shown) {
  std::vector<PlacedRow> placed;
  for (const auto& sheet : carry.sheets) {
    const auto figure = [&sheet](const roof::Figure& one) {
      return sheet.fit == roof::Fit::own ? one.found.value_or(one.planned) : one.planned;
    };
    placed.push_back(
        {"face",
         sheet.at,
         {text_from_length(figure(sheet.base), shown.units),
          text_from_length(figure(sheet.height), shown.units),
          text_from_angle(figure(sheet.left_edge)), text_from_angle(figure(sheet.right_edge)),
          base::text_from_area(sheet.area_m2, shown.units)}});
  }
  return table({{""},
                {"at"},
                {"eave line", Align::right},
                {"up the slope", Align::right},
                {"left edge", Align::right},
                {"right edge", Align::right},
                {"area", Align::right}},
               gathered(placed), shown.emphasis);
}

std::string courses_table(const roof::Sheet& sheet, const Shown& shown) {
  std::vector<Row> rows;
  for (std::size_t k = 0; k < sheet.courses.size(); ++k)
    rows.push_back({std::to_string(k + 1), text_from_length(sheet.courses[k].up_m, shown.units),
                    text_from_length(sheet.courses[k].lower_m, shown.units),
                    text_from_length(sheet.courses[k].upper_m, shown.units)});
  return table({{"course", Align::right},
                {"starts up the slope", Align::right},
                {"lower edge", Align::right},
                {"upper edge", Align::right}},
               rows, shown.emphasis);
}

std::string sheathing_section(const results::CarryResult& result, const Shown& shown) {
  const roof::Sheet& pattern = result.planned.sheets.front();
  std::string text =
      '\n' +
      heading(fmt::format("Sheathing, {} in all",
                          base::text_from_area(result.cut_sheet->sheathing_m2, shown.units)),
              shown.emphasis) +
      faces_table(result.carry(), shown) +
      heading("Courses of the pattern face, from the eave up", shown.emphasis) +
      courses_table(pattern, shown);
  return text + paragraph(fmt::format(
                    "The edges' angles lie in the face, between eave and hip. Over a hip that is "
                    "let down the last {} of each edge have no bearing, until the hip is backed.",
                    text_from_length(pattern.unborne_m, shown.units)));
}

}  // namespace

std::string cut_sheet_report(const job::Job& job, const results::CarryResult& result,
                             const Shown& shown) {
  std::string text = heading(job.title, shown.emphasis) + '\n';
  text +=
      paragraph(result.cases.empty() ? "Cut sheet of the roof as planned."
                                     : fmt::format("Cut sheet of the roof, corners {}.",
                                                   name_of_way(result.cases[result.shown].way)));
  for (const auto& list : result.cut_sheet->lists) text += list_section(list, job.roof, shown);
  text += totals_section(*result.cut_sheet, shown);
  text += sheathing_section(result, shown);
  text += '\n' + paragraph(
                     "A stick is the shortest square-ended one its piece comes out of. Order spare "
                     "for knots and splits. Sizes, spans and fixings follow the local code and a "
                     "licensed designer.");
  return text;
}

}  // namespace stakewright::cli

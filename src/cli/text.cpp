#include "text.hpp"

#include <algorithm>
#include <cassert>
#include <clocale>
#include <cwchar>

#include "language.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::cli {
namespace {

constexpr std::string_view kReplacement = "\xEF\xBF\xBD";  // U+FFFD
constexpr std::string_view kBold = "\x1b[1m";
constexpr std::string_view kNormal = "\x1b[0m";
constexpr std::size_t kGap = 2;
/// A wrapped last column gets at least this much room, however wide the rest is.
constexpr std::size_t kNarrowest = 24;

std::string padded(const std::string& text, std::size_t width, Align align) {
  const std::size_t own = display_width(text);
  const std::string room(width > own ? width - own : 0, ' ');
  return align == Align::left ? text + room : room + text;
}

/// Words of the text packed into lines of at most `width` columns (a longer word stands alone).
std::vector<std::string> packed(std::string_view text, std::size_t width) {
  std::vector<std::string> lines(1);
  std::size_t used = 0;
  while (!text.empty()) {
    const std::size_t start = text.find_first_not_of(' ');
    if (start == std::string_view::npos) break;
    text.remove_prefix(start);
    const std::string_view word = text.substr(0, text.find(' '));
    text.remove_prefix(word.size());
    const std::size_t wide = display_width(word);
    if (used > 0 && used + 1 + wide > width) {
      lines.emplace_back();
      used = 0;
    }
    if (used > 0) lines.back() += ' ';
    lines.back() += word;
    used += wide + (used > 0 ? 1 : 0);
  }
  return lines;
}

std::vector<std::size_t> widths_of(const Row& headings, const std::vector<Row>& rows) {
  std::vector<std::size_t> widths;
  for (std::size_t c = 0; c < headings.size(); ++c) {
    std::size_t width = display_width(headings[c]);
    for (const Row& row : rows) width = std::max(width, display_width(row[c]));
    widths.push_back(width);
  }
  return widths;
}

/// Two spaces; one where columns with nothing to wrap would run past the report's width.
std::size_t gap_between(const std::vector<std::size_t>& widths) {
  std::size_t wide = 0;
  for (const std::size_t width : widths) wide += width > 0 ? width + kGap : 0;
  return wide > kReportWidth && widths.back() <= kNarrowest ? 1 : kGap;
}

/// One row of a table as one or, where its last cell is wrapped, several lines.
std::string row_lines(const Row& row, const std::vector<Column>& columns,
                      const std::vector<std::size_t>& widths) {
  const std::size_t gap = gap_between(widths);
  std::string line;
  std::size_t column_start = 0;
  for (std::size_t c = 0; c + 1 < row.size(); ++c) {
    if (widths[c] == 0) continue;
    line += std::string(gap, ' ') + padded(row[c], widths[c], columns[c].align);
    column_start += gap + widths[c];
  }
  column_start += gap;
  const std::size_t room =
      std::max(kNarrowest, kReportWidth > column_start ? kReportWidth - column_start : 0);
  std::string text;
  for (const std::string& part : packed(row.back(), room)) {
    const bool fits = widths.back() <= room;
    line += std::string(gap, ' ') + padded(part, fits ? widths.back() : 0, columns.back().align);
    line.erase(line.find_last_not_of(' ') + 1);
    text += line + '\n';
    line = std::string(column_start - gap, ' ');
  }
  return text;
}

}  // namespace

std::string plain(std::string_view text) {
  std::string result;
  while (!text.empty()) {
    const base::Character next = base::first_character(text);
    const bool breaks = next.code == '\n' || next.code == '\t' || next.code == '\r';
    if (breaks)
      result += ' ';
    else if (!next.well_formed || base::changes_the_line(next.code))
      result += kReplacement;
    else
      result += text.substr(0, next.bytes);
    text.remove_prefix(next.bytes);
  }
  return result;
}

std::size_t display_width(std::string_view text) {
  // The C library knows the widths of a UTF-8 locale only; the rest of the program keeps "C".
  static const locale_t utf8 = newlocale(LC_CTYPE_MASK, "C.UTF-8", nullptr);
  const locale_t before = uselocale(utf8);
  std::size_t width = 0;
  while (!text.empty()) {
    const base::Character next = base::first_character(text);
    const int columns = wcwidth(static_cast<wchar_t>(next.code));
    width += columns < 0 ? 1 : static_cast<std::size_t>(columns);
    text.remove_prefix(next.bytes);
  }
  uselocale(before);
  return width;
}

namespace {

std::string bold(std::string text, Emphasis emphasis) {
  return emphasis == Emphasis::on ? std::string(kBold) + text + std::string(kNormal) : text;
}

/// `columns` with the headings as they are shown.
std::string laid_out(const std::vector<Column>& columns, const std::vector<Row>& rows,
                     Emphasis emphasis) {
  Row headings;
  for (const Column& column : columns) headings.push_back(column.heading);
  const std::vector<std::size_t> widths = widths_of(headings, rows);
  const bool has_headings =
      std::any_of(headings.begin(), headings.end(), [](const auto& h) { return !h.empty(); });
  std::string text;
  if (has_headings) {
    text = row_lines(headings, columns, widths);
    text.pop_back();
    text = bold(text, emphasis) + '\n';
  }
  for (const Row& row : rows) text += row_lines(row, columns, widths);
  return text;
}

/// Figures stand under figures, at the right.
Align alignment_of(const told::Table& table, std::size_t column) {
  const bool figures = std::any_of(table.rows.begin(), table.rows.end(), [&](const told::Row& row) {
    return wording::is_figure(row[column]);
  });
  return figures ? Align::right : Align::left;
}

std::string text_of(const told::Table& table, const wording::Voice& voice, Emphasis emphasis) {
  std::vector<Column> columns;
  for (std::size_t c = 0; c < table.headings.size(); ++c)
    columns.push_back({voice.text(table.headings[c]), alignment_of(table, c)});
  std::vector<Row> rows;
  for (const told::Row& row : table.rows) {
    assert(row.size() == columns.size());
    Row& cells = rows.emplace_back();
    for (const base::Value& cell : row) cells.push_back(plain(voice.text(cell)));
  }
  return laid_out(columns, rows, emphasis);
}

}  // namespace

std::string heading(std::string_view text, Emphasis emphasis) {
  return bold(plain(in_language(text)), emphasis) + '\n';
}

std::string wrapped(std::string_view text, std::size_t indent) {
  std::string result;
  for (const std::string& line : packed(plain(text), kReportWidth - indent)) {
    if (!result.empty()) result += std::string(indent, ' ');
    result += line + '\n';
  }
  return result;
}

std::string paragraph(std::string_view text, std::size_t indent) {
  return wrapped(in_language(text), indent);
}

std::string table(const std::vector<Column>& columns, const std::vector<Row>& rows,
                  Emphasis emphasis) {
  std::vector<Row> shown;
  for (const Row& row : rows) {
    assert(row.size() == columns.size());
    Row cells;
    std::transform(row.begin(), row.end(), std::back_inserter(cells),
                   [](const std::string& cell) { return plain(in_language(cell)); });
    shown.push_back(std::move(cells));
  }
  std::vector<Column> headings = columns;
  for (Column& column : headings) column.heading = in_language(column.heading);
  return laid_out(headings, shown, emphasis);
}

std::vector<std::string> texts_of(const std::vector<base::Fact>& facts,
                                  const wording::Voice& voice) {
  std::vector<std::string> texts;
  for (const base::Fact& fact : facts) texts.push_back(voice.text(fact));
  return texts;
}

std::string text_of(const told::Paragraph& said, const wording::Voice& voice) {
  if (said.empty()) return "";
  std::string text;
  for (const base::Fact& sentence : said) {
    if (!text.empty()) text += ' ';
    text += voice.text(sentence);
  }
  return wrapped(text);
}

std::string text_of(const std::vector<told::Section>& sections, const wording::Voice& voice,
                    Emphasis emphasis) {
  std::string text;
  for (const told::Section& section : sections) {
    text += '\n';
    if (section.heading) text += bold(plain(voice.text(*section.heading)), emphasis) + '\n';
    for (const auto& block : section.blocks) {
      if (const auto* said = std::get_if<told::Paragraph>(&block))
        text += text_of(*said, voice);
      else
        text += text_of(std::get<told::Table>(block), voice, emphasis);
    }
  }
  return text;
}

std::string text_of(const told::Report& report, const wording::Voice& voice, Emphasis emphasis) {
  return bold(plain(report.title), emphasis) + '\n' + text_of(report.sections, voice, emphasis);
}

}  // namespace stakewright::cli

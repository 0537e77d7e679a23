// Plain text on a terminal: widths, wrapped sentences, aligned tables.
//
// All text is UTF-8.  Text that came from a user's file goes through `plain`,
// so that no control character of it reaches the terminal.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "stakewright/told/report.hpp"
#include "stakewright/wording/voice.hpp"

namespace stakewright::cli {

/// Reports are laid out for a terminal at least this wide, in columns.
inline constexpr std::size_t kReportWidth = 100;

/// Whether headings may be set off (bold), as on a terminal that allows it.
enum class Emphasis { off, on };

/// The text with every control character replaced: a line break or tab by a
/// space, any other by U+FFFD, as is every byte that is not UTF-8.
std::string plain(std::string_view text);

/// Columns a terminal needs for the text: 0 for combining marks, 2 for wide
/// East Asian characters and pictures, as the C library has them.
std::size_t display_width(std::string_view text);

/// A line that opens a section, set off when allowed, with its line end.
std::string heading(std::string_view text, Emphasis emphasis);

/// The text as it is, wrapped at spaces to `kReportWidth`, later lines indented by `indent`.
std::string wrapped(std::string_view text, std::size_t indent = 0);

/// The English text in the language spoken, wrapped.
std::string paragraph(std::string_view text, std::size_t indent = 0);

enum class Align { left, right };

struct Column {
  std::string heading;
  Align align = Align::left;
};

using Row = std::vector<std::string>;

/// Rows under their column headings, two spaces between columns and before the
/// first.  A column without heading or content takes no room.  A last column
/// that runs past `kReportWidth` is wrapped under itself.
std::string table(const std::vector<Column>& columns, const std::vector<Row>& rows,
                  Emphasis emphasis);

/// The report as it stands on a terminal.
std::string text_of(const told::Report& report, const wording::Voice& voice, Emphasis emphasis);

/// Sections, each after an empty line.
std::string text_of(const std::vector<told::Section>& sections, const wording::Voice& voice,
                    Emphasis emphasis);

/// Each by itself.
std::vector<std::string> texts_of(const std::vector<base::Fact>& facts,
                                  const wording::Voice& voice);

/// Sentences as one wrapped paragraph; nothing without any.
std::string text_of(const told::Paragraph& said, const wording::Voice& voice);

}  // namespace stakewright::cli
